//! What the whole line plates: its slowest bath, or the robot, rules.

use crate::calculator::Severity::Caution as Look;
use crate::calculator::{Calculator, Example, Refuse, Stop, Subject, Table, Work, input, output, verdict};
use crate::quantity::Q;
use crate::science::throughput::line_rate;
use crate::units::{NUMBER, PER_DAY, PER_HOUR, PERCENT};

const STATIONS: &str = "stations";
const RULES: &str = "it rules the line";
const ROOM: &str = "it has room";
const A_BATH: &str = "a bath";
const THE_ROBOT: &str = "the robot";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "throughput",
    title: "Throughput",
    question: "How many wafers does the line plate, and what holds it back?",
    subject: Subject::Site,
    quick: false,
    from_start: false,
    inputs: &[
        input("N_top", "Wanted on the busiest day, wafers an hour", PER_HOUR, [0.0, 1e6], [0.1, 1000.0])
            .optional()
            .follows(&[("wafers", "N_top")])
            .if_known()
            .help("Of the line, in its hours of service."),
        input("hours", "Hours of service a day", crate::units::HOUR, [0.1, 24.0], [4.0, 24.0])
            .usually(24.0)
            .follows(&[("site", "hours")])
            .help("A day is a working day of these hours."),
        input("q_r", "Robot at most, wafers an hour", PER_HOUR, [0.001, 1e5], [1.0, 500.0])
            .optional()
            .help("What the robot or the hands that load can do. Left out, it is no limit."),
        input("u_r", "Uptime of the robot", PERCENT, [0.1, 100.0], [50.0, 100.0])
            .usually(100.0)
            .help("Share of the hours of service in which it can run."),
    ],
    tables: &[Table {
        id: STATIONS,
        label: "Baths of the line, each with its chambers",
        key_label: "Bath",
        add: Some("Add a station that is not in the plan"),
        suggest: &["Descum", "Strip", "Anneal"],
        presets: &[],
        columns: &[
            input("s", "Carries, wafers an hour", PER_HOUR, [1e-6, 1e7], [0.1, 1000.0])
                .needed()
                .each(&[("chambers", "s")])
                .help("Wafers of the line that it carries with the chambers there, uptime counted."),
            input("n", "Chambers there", NUMBER, [1.0, 1000.0], [1.0, 40.0])
                .usually(1.0)
                .each(&[("chambers", "n")])
                .help("To see what one more buys."),
        ],
        answers: &[
            verdict("place", "In the line", &[RULES, ROOM]),
            output("use", "Used when the line runs at its best", PERCENT),
            output("r_p", "The line with one more chamber here, wafers an hour", PER_HOUR),
        ],
    }],
    outputs: &[
        output("r", "The line plates, wafers an hour", PER_HOUR),
        output("r_day", "Wafers a day", PER_DAY).beside(),
        verdict("slowest", "What rules it", &[A_BATH, THE_ROBOT]).beside(),
        output("r_spare", "To spare on the busiest day", PER_HOUR)
            .needs("the wafers that are wanted")
            .below(0.0, Look, "The line does not plate the wafers of the busiest day.")
            .cured_by(&[("chambers", "n"), ("chambers", "t_h"), ("wafers", "N_d"), ("throughput", "q_r")]),
        output("grow", "Wafers may grow by", PERCENT).needs("the wafers that are wanted"),
        output("r_next", "Without what rules it, wafers an hour", PER_HOUR).needs("a second station"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Every wafer visits all stations: the slowest one rules; arithmetic. What waits between stations is not in it.",
    ],
    examples: &[
        Example {
            source: "By hand: copper 8.16, nickel 8.5, tin-silver 9, robot 40 × 0.85 = 34 an hour",
            inputs: &[("q_r", "40 per hour"), ("u_r", "85 %"), ("N_top", "8 per hour")],
            rows: &[
                (STATIONS, "Copper", &[("s", "8.16 per hour"), ("n", "4")]),
                (STATIONS, "Nickel", &[("s", "8.5 per hour"), ("n", "2")]),
                (STATIONS, "Tin-silver", &[("s", "9 per hour"), ("n", "3")]),
            ],
            answers: &[
                ("r", "8.16 per hour"),
                ("slowest", A_BATH),
                ("place[Copper]", RULES),
                ("place[Nickel]", ROOM),
                ("r_p[Copper]", "8.5 per hour"),
                ("r_p[Nickel]", "8.16 per hour"),
                ("r_next", "8.5 per hour"),
                ("r_spare", "0.16 per hour"),
                ("grow", "2 %"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: a robot of 5 an hour rules a bath of 8",
            inputs: &[("q_r", "5 per hour"), ("hours", "16 h")],
            rows: &[(STATIONS, "Gold", &[("s", "8 per hour")])],
            answers: &[
                ("r", "5 per hour"),
                ("r_day", "80 per day"),
                ("slowest", THE_ROBOT),
                ("r_next", "8 per hour"),
            ],
            within: 1e-9,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let rows = w.rows(STATIONS)?;
    let mut rates = Vec::new();
    for row in &rows {
        rates.push(w.of::<1>(row, ["s"])?[0]);
    }
    let [robot_runs, hours] = w.inputs(["u_r", "hours"])?;
    if let Some(robot) = w.optional(&top, "q_r")? {
        rates.push(w.step("r_r", "The robot, uptime counted", PER_HOUR, robot * robot_runs)?);
    }
    if rates.is_empty() {
        let remedy = "Fill in plating and chambers of a bath, or add a station here.";
        return Err(Stop::todo("q_r", "No bath of the line has chambers yet", remedy));
    }
    let (line, slowest) = line_rate(&rates).or_stop("q_r")?;
    let line = w.answer("r", line)?;
    let one_day = Q::constant("1 day", 1.0, crate::units::DAYS);
    w.answer("r_day", line * hours / one_day)?;
    w.say(&top, "slowest", if slowest < rows.len() { A_BATH } else { THE_ROBOT })?;
    let others: Vec<Q> = (0..rates.len()).filter(|&k| k != slowest).map(|k| rates[k]).collect();
    if let Ok((next, _)) = line_rate(&others) {
        w.answer("r_next", next)?;
    }
    for (k, row) in rows.iter().enumerate() {
        let [there] = w.of(row, ["n"])?;
        w.say(row, "place", if k == slowest { RULES } else { ROOM })?;
        w.give(row, "use", line / rates[k])?;
        let mut grown = rates.clone();
        grown[k] = rates[k] * (there + 1.0) / there;
        let (grown, _) = line_rate(&grown).or_stop("q_r")?;
        w.give(row, "r_p", grown)?;
    }
    if let Some(wanted) = w.optional(&top, "N_top")?.filter(|wanted| wanted.si > 0.0) {
        w.answer("r_spare", line - wanted)?;
        w.answer("grow", line / wanted - 1.0)?;
        if line < wanted {
            let name = rows.get(slowest).map_or(THE_ROBOT, |row| &*row.key);
            w.add_finding(&top, "slowest", Look, format!("What holds the line back: {name}."));
        }
    }
    Ok(())
}
