//! A rinse without flow after the bath: how its concentration rises with the work, when it is changed, and how much of
//! the drag-out comes back to the bath in place of what evaporates.

use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Refuse, Severity, Stop, Subject, Table, When, Work, choice, input,
    output,
};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::standing_rinse::{loads_until, standing_limit, standing_mean, standing_rinse};
use crate::units::{DAYS, G_PER_DAY_METAL, G_PER_L_METAL, L, L_PER_DAY, ML, NUMBER, PER_DAY, PERCENT};

const TO_ROUTE: &str = "out, when it is changed";
const TO_BATH: &str = "back to the bath, as that evaporates";
const BY_DAYS: &str = "after days of service";
const BY_LIMIT: &str = "at a concentration";
const NEVER: &str = "it is never changed: it does not come to that";

const GOES_BACK: When = When::Is("goes", &[TO_BATH]);

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "standing-rinse",
    title: "Standing rinse",
    question: "How rich does a rinse without flow become, when is it changed, and how much comes back to the bath?",
    subject: Subject::Stream,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class", "Class", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("What comes in")
            .from_origin(&[("make-up", "class")])
            .help("Of the bath; cautions depend on it."),
        input("d_w", "Drag-out a wafer", ML, [0.0, 10_000.0], [0.1, 50.0])
            .needed()
            .group("What comes in")
            .from_origin(&[("plating", "d_w"), ("drag-out", "d_w")])
            .if_known()
            .help("Liquid that one wafer and its holder carry in, and out again."),
        input("N", "Wafers", PER_DAY, [0.0, 1e6], [1.0, 5000.0])
            .needed()
            .group("What comes in")
            .from_origin(&[("plating", "N"), ("drag-out", "N")])
            .if_known()
            .help("That pass through this rinse a day of service."),
        input("n_l", "Wafers in a load", NUMBER, [1.0, 1000.0], [1.0, 100.0]).usually(1.0)
            .group("What comes in")
            .help("That are rinsed at once: it changes little."),
        input("V", "The tank holds", L, [0.1, 10_000.0], [5.0, 500.0])
            .needed()
            .group("Rinse")
            .help("Filled with pure water each time, and stirred by each load."),
        choice("goes", "The water of the rinse goes", NUMBER, &[(TO_ROUTE, 0.0), (TO_BATH, 0.0)])
            .group("Rinse")
            .help("A warm bath evaporates, and may be filled up from here; pure water then fills up the rinse."),
        input("E", "The bath evaporates", L_PER_DAY, [0.0, 10_000.0], [0.1, 500.0])
            .needed()
            .group("Rinse")
            .from_origin(&[("evaporation", "q_water")])
            .if_known()
            .help("What it has room for in a day of service, if nothing else fills it up.")
            .when(GOES_BACK),
        choice("by", "The standing rinse is changed", NUMBER, &[(BY_DAYS, 0.0), (BY_LIMIT, 0.0)])
            .group("Change")
            .help("All of it at once, to its route."),
        input("t_x", "Days of service between changes", DAYS, [0.01, 10_000.0], [0.5, 365.0])
            .needed()
            .group("Change")
            .help("Since it was last filled with pure water.")
            .when(When::Is("by", &[BY_DAYS])),
        input("c_x", "All metals in the rinse, at most", G_PER_L_METAL, [0.0, 1000.0], [0.01, 50.0])
            .needed()
            .group("Change")
            .help("A tenth of the bath is a usual start, common practice: what wafers carry on is that much thinner.")
            .when(When::Is("by", &[BY_LIMIT])),
        input("c_g", "All metals wanted in the rinse, at most", G_PER_L_METAL, [0.0, 1000.0], [0.01, 50.0])
            .optional()
            .group("Change")
            .help("All metals together; where it is more, the sheet says so.")
            .when(When::Is("by", &[BY_DAYS])),
    ],
    tables: &[Table {
        id: metals::TABLE,
        label: "Metals",
        key_label: "Metal",
        add: Some("Add a metal"),
        suggest: metals::SYMBOLS,
        presets: &[],
        columns: &[input("c_in", "In the bath", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
            .needed()
            .from_origin(&[("make-up", "c_M")])
            .help("In what wafers carry in.")],
        answers: &[
            output("c_m", "In the rinse at the change", G_PER_L_METAL),
            output("c_a", "In the mean until then", G_PER_L_METAL),
            output("m_b", "Back to the bath", G_PER_DAY_METAL),
        ],
    }],
    outputs: &[
        output("c_T", "All metals at the change", G_PER_L_METAL).beside().cured_by(&[
            ("standing-rinse", "t_x"),
            ("standing-rinse", "V"),
            ("standing-rinse", "E"),
            ("drag-out", "t_s"),
            ("drag-out", "n_s"),
        ]),
        output("t_c", "Days of service between changes", DAYS).beside().missing(NEVER),
        output("f_b", "Of the drag-out, back in the bath", PERCENT).beside(),
        output("f_m", "Of what comes in, in it at the change", PERCENT),
        output("f_on", "Of what comes in, carried on in the mean", PERCENT),
        output("Q_day", "Let out a day, in the mean", L_PER_DAY),
        output("Q_b", "Back to the bath a day", L_PER_DAY),
        output("n_c", "Wafers between changes", NUMBER).missing(NEVER),
        output("c_e", "All metals, if it were never changed", G_PER_L_METAL),
    ],
    picture: Some(Picture { across: "t_x", up: "c_T" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "This rinse becomes a weak bath: gloves and goggles, a lid, containment and a label as for the bath itself.",
        },
        Caution {
            when: &[GOES_BACK],
            text: "With the metal come back carbonate, chloride, spent additives and whatever fell in: analyse for them, and pump back only what the bath has room for, never by a hose that is left alone.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "It holds cyanide: no acid near it, no shared drain or vent. Both give a gas that kills.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "It burns like its bath: hydrofluoric acid never without the site’s own first aid for it, and never in glass.",
        },
    ],
    sources: &[
        "Recursion of the balance, load by load, summed: exact for stirred loads; checked against the recursion itself in Python.",
        "A tenth of the bath: common practice, no source. The bath’s own sheets count all of its drag-out as lost; what comes back is counted here.",
    ],
    examples: &[
        Example {
            source: "Python recursion, mix then withdraw: 40 L, 480 loads a day of 2.5 mL of 50 g/L, for 10 days",
            inputs: &[("class", "acid"), ("d_w", "2.5 mL"), ("N", "480 per day"), ("V", "40 L"), ("t_x", "10 days")],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "50 g/L")])],
            answers: &[
                ("c_T", "12.95874172 g/L"), ("c_a[Cu]", "6.804194266 g/L"), ("t_c", "10 days"), ("Q_day", "4 L/day"),
                ("f_on", "13.608388532 %"), ("n_c", "4800"), ("c_e", "50 g/L"),
            ],
            within: 1e-8,
        },
        Example {
            source: "The same with 20 mL a load back to the bath: 4 g/L are passed with load 2264; never above 50/9 g/L",
            inputs: &[
                ("class", "acid"), ("d_w", "2.5 mL"), ("N", "480 per day"), ("V", "40 L"), ("goes", TO_BATH), ("E", "9.6 L/day"),
                ("by", BY_LIMIT), ("c_x", "4 g/L"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "50 g/L")])],
            answers: &[("t_c", "4.71601 days"), ("c_T", "4 g/L"), ("c_e", "5.5555556 g/L"), ("Q_b", "9.6 L/day")],
            within: 1e-5,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [d_w, wafers, in_load, volume] = w.inputs(["d_w", "N", "n_l", "V"])?;
    if d_w.si * wafers.si <= 0.0 {
        let reason = "nothing is carried in, so nothing rises";
        return Err(Stop::at("d_w", reason, "Type drag-out and wafers above zero."));
    }
    let rows = w.rows(metals::TABLE)?;
    let mut together = Q::constant("none", 0.0, G_PER_L_METAL);
    for row in &rows {
        let [c_in] = w.of(row, ["c_in"])?;
        together = together + c_in;
    }
    let together = w.step("c_0", "All metals in the bath", G_PER_L_METAL, together)?;
    let drag_in = w.step("d", "Carried in by a load", L, in_load * d_w)?;
    let back = match w.word(&top, "goes")? {
        TO_BATH => w.inputs::<1>(["E"])?[0],
        _ => Q::constant("none", 0.0, L_PER_DAY),
    };
    let back = w.answer("Q_b", back)?;
    let exchanged = w.step("e", "Back to the bath with a load", L, back * in_load / wafers)?;
    let flows = (drag_in, exchanged);
    w.answer("c_e", standing_limit(together, drag_in, exchanged).or_stop("d_w")?)?;

    let loads = match w.word(&top, "by")? {
        BY_DAYS => Some(w.inputs::<1>(["t_x"])?[0] * wafers / in_load),
        _ => {
            let [limit] = w.inputs(["c_x"])?;
            if together.si <= 0.0 {
                let reason = "how much metal comes in is still to be typed";
                return Err(Stop::todo("c_x", reason, "Add its metals, or go by days of service."));
            }
            loads_until(together, volume, flows, limit).ok()
        }
    };
    let loads = loads.filter(|loads| loads.si > 0.0);
    let loads = match loads {
        Some(loads) => Some(w.step("L", "Loads between changes", NUMBER, loads)?),
        None => None,
    };
    if let Some(loads) = loads {
        let wafers_between = w.answer("n_c", loads * in_load)?;
        let days = w.answer("t_c", wafers_between / wafers)?;
        w.answer("Q_day", volume / days)?;
    } else {
        w.answer("Q_day", Q::constant("none", 0.0, L_PER_DAY))?;
    }
    // Of a metal that is dragged in with 1, what is in it at the change and in the mean.
    let one = Q::constant("all of it", 1.0, NUMBER);
    let last = match loads {
        Some(loads) => standing_rinse(one, volume, flows, loads),
        None => standing_limit(one, drag_in, exchanged),
    };
    let last = w.answer("f_m", last.or_stop("V")?)?;
    let mean = match loads {
        Some(loads) => standing_mean(one, volume, flows, loads, last).or_stop("V")?,
        None => last,
    };
    let mean = w.answer("f_on", mean)?;
    w.answer("f_b", mean * exchanged / drag_in)?;
    for row in &rows {
        let [c_in] = w.of(row, ["c_in"])?;
        w.give(row, "c_m", c_in * last)?;
        let in_mean = w.give(row, "c_a", c_in * mean)?;
        w.give(row, "m_b", in_mean * back)?;
    }
    w.answer("c_T", together * last)?;
    if w.word(&top, "by")? == BY_DAYS
        && let Some(wanted) = w.optional(&top, "c_g")?
    {
        let why = "Wafers carry that on to the next rinse: change it sooner, take a larger tank, or let less run off the wafers.";
        w.at_most(&top, "c_T", wanted, Severity::Caution, why);
    }
    Ok(())
}
