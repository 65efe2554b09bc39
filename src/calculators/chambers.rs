//! Chambers of a bath: how many the wafers take, what those there plate, what one more buys.

use super::bath_inputs;
use crate::calculator::Severity::{Caution as Look, Note};
use crate::calculator::{
    Calculator, Example, Picture, Refuse, Stop, Subject, When, Work, choice, input, output,
};
use crate::quantity::Q;
use crate::science::throughput::{
    chambers_before_rounding, one_chamber, uptime, wafers_per_time, whole_chambers,
};
use crate::units::{DAYS, HOUR, MINUTE, NUMBER, PER_DAY, PER_HOUR, PERCENT};

const SHARE: &str = "a share";
const STOPS: &str = "hours of stops";
const BY_STOPS: When = When::Is("up", &[STOPS]);

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "chambers",
    title: "Chambers",
    question: "How many chambers does this bath need, and what do they plate?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        input("N", "Wafers a day", PER_DAY, [0.01, 1e6], [1.0, 20_000.0])
            .needed()
            .group("Wafers")
            .follows(&[("plating", "N")])
            .help("That this bath plates on a mean working day."),
        input("peak", "Busiest day over the mean", NUMBER, [1.0, 20.0], [1.0, 3.0]).usually(1.0)
            .group("Wafers")
            .from_site(&[("wafers", "peak")])
            .help("Chambers are counted for the busiest day, not the mean."),
        bath_inputs::hours()
            .group("Wafers")
            .help("Stops within these hours belong to the uptime."),
        input("N_l", "Wafers a day through the line", PER_DAY, [0.01, 1e6], [1.0, 20_000.0])
            .group("Wafers")
            .only_followed()
            .from_site(&[("wafers", "N")])
            .if_known()
            .help("To see what this bath means for the line, if not every wafer visits it once."),
        input("t_p", "Plating time", MINUTE, [0.001, 10_000.0], [0.1, 300.0])
            .needed()
            .group("A wafer in a chamber")
            .follows(&[("plating", "t_w")])
            .help("In which current runs."),
        input("t_h", "Rinse and handling", MINUTE, [0.0, 1000.0], [0.5, 30.0])
            .needed()
            .group("A wafer in a chamber")
            .help("In which the chamber is taken and no current runs: load, wet, rinse, spin, unload. 2 to 6 min is common practice."),
        input("b", "Wafers at once in a chamber", NUMBER, [1.0, 200.0], [1.0, 25.0]).usually(1.0)
            .group("A wafer in a chamber")
            .help("One in most tools; more in a rack."),
        choice("up", "Uptime is given as", NUMBER, &[(SHARE, 0.0), (STOPS, 0.0)])
            .group("Time that they run")
            .help("As a share, or from the stops of a time that is looked at."),
        input("u", "Uptime", PERCENT, [0.1, 100.0], [50.0, 99.0])
            .needed()
            .group("Time that they run")
            .help("Share of the hours of service in which they can run. 80 to 92 % is common practice.")
            .when(When::Is("up", &[SHARE])),
        input("t_c", "Time that is looked at", HOUR, [0.1, 100_000.0], [24.0, 8784.0]).usually(8760.0)
            .group("Time that they run")
            .help("A year of service all round the clock is 8760 h.")
            .when(BY_STOPS),
        input("t_s", "Planned stops", HOUR, [0.0, 100_000.0], [0.0, 2000.0]).usually(400.0)
            .group("Time that they run")
            .help("Maintenance, change of bath and anodes, checks.")
            .when(BY_STOPS),
        input("t_f", "Failures", HOUR, [0.0, 100_000.0], [0.0, 2000.0]).usually(160.0)
            .group("Time that they run")
            .help("Stops that nobody planned, waiting for repair with them.")
            .when(BY_STOPS),
        input("n", "Chambers there", NUMBER, [1.0, 1000.0], [1.0, 40.0])
            .needed()
            .group("Chambers")
            .help("That draw on this bath."),
    ],
    tables: &[],
    outputs: &[
        output("n_up", "Chambers needed", NUMBER),
        output("n_raw", "Before rounding up", NUMBER).beside(),
        output("r", "Those there plate, wafers an hour", PER_HOUR).beside(),
        output("load", "Load on the busiest day", PERCENT).beside(),
        output("r_spare", "To spare on the busiest day", PER_HOUR)
            .below(0.0, Look, "The chambers do not plate the wafers of the busiest day.")
            .cured_by(&[("chambers", "n"), ("chambers", "t_h"), ("chambers", "u"), ("chambers", "N")]),
        output("r_want", "Wanted on the busiest day, wafers an hour", PER_HOUR),
        output("r_one", "One chamber plates, wafers an hour", PER_HOUR),
        output("r_day", "Those there plate, wafers a day", PER_DAY),
        output("r_plus", "One more chamber adds, wafers a day", PER_DAY),
        output("grow", "Wafers may grow by, with those there", PERCENT),
        output("grow_up", "Wafers may grow by, with those needed", PERCENT),
        output("u_c", "Uptime counted", PERCENT),
        output("share", "Of the hours of service a chamber plates at most", PERCENT),
        output("s", "Wafers of the line that it carries, an hour", PER_HOUR),
    ],
    picture: Some(Picture { across: "N", up: "n_raw" }),
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Wafers an hour: chambers over the time of plating and handling, times uptime; arithmetic.",
        "Uptime: what the stops leave of the calendar; arithmetic. Handling times and usual uptimes: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "By hand: 4 × 60/(22 + 3) × 0.85 = 8.16 an hour; 12 an hour take 5.88, so 6; 22 of 25 min for 85 % of the time is 74.8 %",
            inputs: &[("N", "288 per day"), ("t_p", "22 min"), ("t_h", "3 min"), ("u", "85 %"), ("n", "4")],
            rows: &[],
            answers: &[
                ("r", "8.16 per hour"), ("n_up", "6"), ("n_raw", "5.88235294"), ("r_plus", "48.96 per day"),
                ("r_spare", "-3.84 per hour"), ("share", "74.8 %"),
            ],
            within: 1e-8,
        },
        Example {
            source: "Exact fractions: 12 an hour of 15 min each are 3 chambers, not 4",
            inputs: &[("N", "288 per day"), ("t_p", "12 min"), ("t_h", "3 min"), ("u", "100 %"), ("n", "3")],
            rows: &[],
            answers: &[("n_up", "3"), ("load", "100 %")],
            within: 1e-9,
        },
        Example {
            source: "By hand: (8760 − 400 − 160)/8760 is 93.6073 %",
            inputs: &[("N", "1 per day"), ("t_p", "20 min"), ("t_h", "3 min"), ("n", "1"), ("up", STOPS), ("t_c", "8760 h"), ("t_s", "400 h"), ("t_f", "160 h")],
            rows: &[],
            answers: &[("u_c", "93.6073059 %")],
            within: 1e-8,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [n_a_day, peak, hours, plating, handling, at_once, there] =
        w.inputs(["N", "peak", "hours", "t_p", "t_h", "b", "n"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let can_run = if w.word(&top, "up")? == STOPS {
        let [calendar, planned, failures] = w.inputs(["t_c", "t_s", "t_f"])?;
        uptime(calendar, planned, failures).or_stop("t_c")?
    } else {
        w.inputs::<1>(["u"])?[0]
    };
    let can_run = w.answer("u_c", can_run)?;
    let wanted = w.answer("r_want", n_a_day * peak * one_day / hours)?;
    let each = w.answer("r_one", one_chamber(at_once, plating, handling, can_run).or_stop("t_p")?)?;
    let raw = w.answer("n_raw", chambers_before_rounding(wanted, each).or_stop("N")?)?;
    let needed = w.answer("n_up", whole_chambers(raw))?;
    let made = wafers_per_time(there, at_once, plating, handling, can_run).or_stop("t_p")?;
    let made = w.answer("r", made)?;
    let load = w.answer("load", wanted / made)?;
    let spare = w.answer("r_spare", made - wanted)?;
    w.answer("r_day", made * hours / one_day)?;
    w.answer("r_plus", each * hours / one_day)?;
    w.answer("grow", made / wanted - 1.0)?;
    w.answer("grow_up", needed * each / wanted - 1.0)?;
    w.answer("share", can_run * plating / (plating + handling))?;
    let of_the_line = match w.optional(&top, "N_l")? {
        Some(line) => made * line / n_a_day,
        None => made,
    };
    w.answer("s", of_the_line)?;
    if spare.si >= -1e-9 * wanted.si && load.si > 0.95 {
        let text = "The chambers there are just enough: more than 95 % of what they can plate is wanted on the busiest day. A stop of one is felt at once.";
        w.add_finding(&top, "load", Note, text);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculator::{Depth, Texts};
    use crate::units::Style;

    fn answer(inputs: Texts, symbol: &str) -> f64 {
        let bath = [("N", "100 per day"), ("t_p", "20 min"), ("t_h", "3 min"), ("u", "85 %"), ("n", "1")];
        let inputs: Texts = Box::leak(bath.into_iter().chain(inputs.iter().copied()).collect());
        let example = Example { source: "", inputs, rows: &[], answers: &[], within: 0.0 };
        let given = CALCULATOR.given(&example).unwrap();
        let outcome = CALCULATOR.evaluate(&given, &Style::default(), Depth::Working).unwrap();
        CALCULATOR.answered(&outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
    }

    #[test]
    fn chambers_are_counted_for_the_busiest_day() {
        // By hand: half as many again need half as many chambers more.
        let (mean, busy) = (answer(&[], "n_raw"), answer(&[("peak", "1.5")], "n_raw"));
        assert!((busy / mean - 1.5).abs() < 1e-12);
    }

    #[test]
    fn what_is_needed_is_enough_and_one_less_is_not() {
        for (plating, wafers) in
            [("12 min", "288 per day"), ("17 min", "333 per day"), ("7 min", "91 per day")]
        {
            let inputs = |n: &'static str| -> f64 {
                let texts: Texts = Box::leak(Box::new([("t_p", plating), ("N", wafers), ("n", n)]));
                answer(texts, "r_spare")
            };
            let texts: Texts = Box::leak(Box::new([("t_p", plating), ("N", wafers)]));
            let needed = answer(texts, "n_up");
            let text = |n: f64| -> &'static str { Box::leak(format!("{n}").into_boxed_str()) };
            assert!(inputs(text(needed)) >= -1e-12);
            assert!(needed == 1.0 || inputs(text(needed - 1.0)) < 0.0);
        }
    }
}
