//! A liquid that treatment makes of a route's water: the second generation. It follows the sheet of its
//! treatment at the route that it comes from, and leads to a discharge or a container, never back.

use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Input, Role, Row, Source, Stop, Subject, Table, When, Work, choice, input,
    output,
};
use crate::quantity::Q;
use crate::science::metals;
use crate::units::{DAYS, EQ_PER_DAY, G_PER_DAY_METAL, L, L_PER_DAY, MG_PER_L_METAL, NUMBER, Unit};

/// What leaves a resin column.
pub const WATER: &str = "water from ion exchange";
/// What a regeneration of the resin makes.
pub const SPENT: &str = "spent regenerant and rinses";
/// What leaves a neutralisation, with what fell in it.
pub const NEUTRAL: &str = "water from neutralisation";
/// What leaves a precipitation.
pub const CLEAR: &str = "water from precipitation";
/// What settles or is pressed there.
pub const SLUDGE: &str = "sludge of precipitation";
/// What nobody treats.
pub const AS_IT_IS: &str = "the route’s water, not treated";
/// What is typed.
pub const OTHER: &str = "another liquid";
/// What it is.
pub const KINDS: &[(&str, f64)] =
    &[(WATER, 0.0), (SPENT, 0.0), (NEUTRAL, 0.0), (CLEAR, 0.0), (SLUDGE, 0.0), (AS_IT_IS, 0.0), (OTHER, 0.0)];
/// The position of [`OTHER`] among them.
pub const OTHER_AT: usize = KINDS.len() - 1;

const IS_WATER: When = When::Is("what", &[WATER]);
const IS_SPENT: When = When::Is("what", &[SPENT]);
const IS_NEUTRAL: When = When::Is("what", &[NEUTRAL]);
const IS_CLEAR: When = When::Is("what", &[CLEAR]);
const IS_SLUDGE: When = When::Is("what", &[SLUDGE]);
const OF_PRECIPITATION: When = When::Is("what", &[CLEAR, SLUDGE]);
const IS_UNTREATED: When = When::Is("what", &[AS_IT_IS]);

/// The volume that a sheet at the route gives; a number typed above goes before it. Where that sheet is refused, so
/// is this one, for the same reason.
const fn volume(symbol: &'static str, label: &'static str, from: &'static [Source], when: When) -> Input {
    from_route(symbol, label, L_PER_DAY, from).when(when)
}

/// What else follows a sheet at the route.
const fn followed(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    from: &'static [Source],
    when: When,
) -> Input {
    from_route(symbol, label, unit, from).if_known().when(when)
}

/// Acid that a reagent takes up; less than none is acid that was added.
const fn taken_up(symbol: &'static str, label: &'static str, from: &'static [Source], when: When) -> Input {
    input(symbol, label, EQ_PER_DAY, [-1e12, 1e12], [-1e9, 1e9])
        .only_followed()
        .from_origin(from)
        .if_known()
        .help("For the balance of acid.")
        .when(when)
}

const fn from_route(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    from: &'static [Source],
) -> Input {
    input(symbol, label, unit, [0.0, 1e12], [0.0, 1e9])
        .only_followed()
        .from_origin(from)
        .help("As its sheet has it; what is typed goes before it.")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "treated",
    title: "Treated stream",
    question: "How much of this does treatment make a day, and what is still in it?",
    subject: Subject::Treated,
    quick: false,
    from_start: true,
    inputs: &[
        choice("what", "What it is", NUMBER, KINDS)
            .begins_as(&[
                ("ion-exchange", WATER),
                ("precipitation", CLEAR),
                ("neutralisation", NEUTRAL),
                ("route", AS_IT_IS),
            ])
            .help("It follows the sheet of its treatment at the route that it comes from, or that route itself."),
        choice("class", "Class", NUMBER, CLASSES)
            .role(Role::Class)
            .starts_at(UNKNOWN)
            .help("What it is by hazard now. Spent regenerant is acid."),
        input("pH", "pH", NUMBER, [0.0, 14.0], [1.0, 13.0]).optional().help("As it leaves here, measured."),
        input("Q_t", "Volume a day", L_PER_DAY, [0.0, 1e9], [0.0, 1e6])
            .needed()
            .help("On a mean working day. Left out, it follows what it comes from."),
        volume("Q_o", "Water from ion exchange", &[("ion-exchange", "Q_o")], IS_WATER),
        volume("Q_s", "Spent regenerant", &[("ion-exchange", "Q_s")], IS_SPENT),
        volume("Q_n", "Water from neutralisation", &[("neutralisation", "Q_out")], IS_NEUTRAL),
        volume("Q_c", "Water from precipitation", &[("precipitation", "Q_out")], IS_CLEAR),
        volume("Q_k", "Pressed cake", &[("precipitation", "V_c")], IS_SLUDGE),
        volume("Q_w", "Settled sludge", &[("precipitation", "V_w")], IS_SLUDGE),
        volume("Q_r", "The route’s water", &[("route", "Q_day")], IS_UNTREATED),
        input("V_t", "Largest dump", L, [0.0, 1e7], [0.0, 5000.0])
            .optional()
            .help("Let out at once on its peak day, beside the mean of the others. Left out, it follows what it comes from."),
        followed("V_s", "Spent regenerant, each time", L, &[("ion-exchange", "V_s")], IS_SPENT),
        followed("V_r", "Largest dump on the route", L, &[("route", "V_dump")], IS_UNTREATED),
        followed("q_n", "Reagent of neutralisation", L_PER_DAY, &[("neutralisation", "V_d")], IS_NEUTRAL),
        followed("q_c", "Reagent of precipitation", L_PER_DAY, &[("precipitation", "V_d")], IS_CLEAR),
        taken_up("a_n", "Acid that neutralisation takes up", &[("neutralisation", "a_r")], IS_NEUTRAL),
        taken_up("a_c", "Acid that precipitation takes up", &[("precipitation", "a_r")], IS_CLEAR),
    ],
    tables: &[
        Table {
            id: "origin",
            label: "What it comes from",
            key_label: "Route",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[input("Q_0", "Volume a day there", L_PER_DAY, [0.0, 1e12], [0.0, 1e9])
                .only_followed()
                .from_origin(&[("route", "Q_day")])
                .if_known()
                .help("As the route has it: the balance of the site sees by it that the route leads on.")],
            answers: &[],
        },
        Table {
        id: metals::TABLE,
        label: "Metals",
        key_label: "Metal",
        add: Some("Add a metal"),
        suggest: metals::SYMBOLS,
        presets: &[],
        columns: &[
            input("c_t", "In this stream, as typed", MG_PER_L_METAL, [0.0, 1e6], [0.0, 1000.0])
                .needed()
                .help("Left out, it follows what it comes from."),
            followed(
                "c_o",
                "At the outlet of ion exchange",
                MG_PER_L_METAL,
                &[("ion-exchange", "c_o")],
                IS_WATER,
            ),
            followed("c_s", "In spent regenerant", MG_PER_L_METAL, &[("ion-exchange", "c_s")], IS_SPENT),
            followed("c_n", "After neutralisation", MG_PER_L_METAL, &[("neutralisation", "c_o")], IS_NEUTRAL),
            followed(
                "c_c",
                "Left by precipitation",
                MG_PER_L_METAL,
                &[("precipitation", "c_l")],
                OF_PRECIPITATION,
            ),
            followed(
                "m_f",
                "Fallen into the sludge",
                G_PER_DAY_METAL,
                &[("precipitation", "m_f")],
                IS_SLUDGE,
            ),
            followed("c_r", "On the route, mean", MG_PER_L_METAL, &[("route", "c_mean")], IS_UNTREATED),
            input("c_k", "In this stream on its peak day", MG_PER_L_METAL, [0.0, 1e6], [0.0, 1000.0])
                .optional()
                .help("The most that it holds on any day. Left out, as on the route, or as in the mean."),
            followed("c_d", "On the route’s peak day", MG_PER_L_METAL, &[("route", "c_peak")], IS_UNTREATED),
        ],
        answers: &[
            output("c_w", "In this stream", MG_PER_L_METAL).role(Role::Concentration),
            output("m_w", "Leaves with it", G_PER_DAY_METAL).role(Role::Load),
            output("m_p", "Leaves on its peak day", G_PER_DAY_METAL),
            output("Q_e", "Water that this peak brings beyond a mean day", L_PER_DAY),
        ],
        },
    ],
    outputs: &[
        output("Q_day", "Volume a day", L_PER_DAY).role(Role::Flow),
        output("c_T", "All metals together", MG_PER_L_METAL).beside(),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL).beside(),
        output("Q_p", "Volume on its peak day", L_PER_DAY),
        output("Q_g", "Reagent that came to it", L_PER_DAY),
        output("a_g", "Acid that the reagent took up", EQ_PER_DAY),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[IS_SPENT],
            text: "Strong acid, rich in metal: to a container or the concentrate, never into the drain of the treated water. Acid-proof gloves, apron and face shield; never near cyanide, sulfite or fluoride.",
        },
        Caution {
            when: &[IS_SLUDGE],
            text: "Hydroxide sludge of plating is hazardous waste as a rule: kept wet, labelled and apart, to whoever is licensed to take it.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Keep every acid away from this stream, its pipe and its vent: cyanide and acid give a gas that kills.",
        },
    ],
    sources: &["Conservation of mass, metal by metal."],
    examples: &[
        Example {
            source: "By hand: 5000 L/day with 0.5 mg/L carry 2.5 g/day; 200 L more at 2 mg/L make 10.4 g of the peak day",
            inputs: &[("what", OTHER), ("Q_t", "5000 L/day"), ("V_t", "200 L")],
            rows: &[("metals", "Cu", &[("c_t", "0.5 mg/L"), ("c_k", "2 mg/L")])],
            answers: &[
                ("m_w[Cu]", "2.5 g/day"),
                ("m_p[Cu]", "10.4 g/day"),
                ("Q_p", "5200 L/day"),
                ("Q_e[Cu]", "200 L/day"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 550 L every 55 days are 10 L/day; of 4 g/L that is 40 g/day, and 2.2 kg on the day",
            inputs: &[("what", SPENT), ("Q_t", "10 L/day"), ("V_t", "550 L")],
            rows: &[("metals", "Ni", &[("c_t", "4000 mg/L")])],
            answers: &[("m_w[Ni]", "40 g/day"), ("m_p[Ni]", "2200 g/day"), ("Q_p", "550 L/day")],
            within: 1e-9,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let what = w.word(&top, "what")?;
    let (volumes_at, once_at, metal_at): (&[&str], _, _) = match what {
        WATER => (&["Q_o"], None, Some("c_o")),
        SPENT => (&["Q_s"], Some("V_s"), Some("c_s")),
        NEUTRAL => (&["Q_n"], None, Some("c_n")),
        CLEAR => (&["Q_c"], None, Some("c_c")),
        SLUDGE => (&["Q_k", "Q_w"], None, None),
        AS_IT_IS => (&["Q_r"], Some("V_r"), Some("c_r")),
        _ => (&[], None, None),
    };
    let typed = w.optional(&top, "Q_t")?;
    let mut volume = typed;
    for at in volumes_at {
        volume = volume.or(w.optional(&top, at)?);
    }
    let volume = volume.ok_or_else(|| unknown("Q_t", what))?;
    let volume = w.answer("Q_day", volume)?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let once = known(w, &top, "V_t", once_at)?.unwrap_or(Q::constant("none", 0.0, L)) / one_day;
    // Of what comes in batches a whole one comes on the peak day; a dump comes on top of a day's water.
    let at_peak = if what == SPENT { volume.max(once) } else { volume + once };
    let at_peak = w.answer("Q_p", at_peak)?;
    let mut together = Q::constant("none", 0.0, MG_PER_L_METAL);
    for row in w.rows(metals::TABLE)? {
        let c = match (known(w, &row, "c_t", metal_at)?, what) {
            (None, SLUDGE) => in_sludge(w, &row, volume, typed.is_none())?,
            (c, _) => c,
        };
        let c = c.ok_or_else(|| unknown("c_t", what).row(&row.key))?;
        let peak_at = (what == AS_IT_IS).then_some("c_d");
        let peak = known(w, &row, "c_k", peak_at)?.unwrap_or(c);
        let c = w.give(&row, "c_w", c)?;
        together = together + c;
        let mean = w.give(&row, "m_w", c * volume)?;
        let most = w.give(&row, "m_p", (peak * at_peak).max(mean))?;
        // Clean water of a peak is no water to thin another stream's metal with.
        let brings = most.si > mean.si * (1.0 + 1e-9);
        w.give(&row, "Q_e", if brings { at_peak - volume } else { Q::constant("none", 0.0, L_PER_DAY) })?;
    }
    let together = w.answer("c_T", together)?;
    w.answer("m_T", together * volume)?;
    let (reagent, acid) = match what {
        NEUTRAL => (w.optional(&top, "q_n")?, w.optional(&top, "a_n")?),
        CLEAR => (w.optional(&top, "q_c")?, w.optional(&top, "a_c")?),
        _ => (None, None),
    };
    w.answer("Q_g", reagent.unwrap_or(Q::constant("none", 0.0, L_PER_DAY)))?;
    w.answer("a_g", acid.unwrap_or(Q::constant("none", 0.0, EQ_PER_DAY)))?;
    Ok(())
}

/// What was typed, else what is followed for this kind of stream.
fn known(w: &Work, row: &Row, typed: &str, followed: Option<&str>) -> Result<Option<Q>, Stop> {
    match (w.optional(row, typed)?, followed) {
        (None, Some(followed)) => w.optional(row, followed),
        (typed, _) => Ok(typed),
    }
}

/// What fell, in the volume of the sludge. Where that volume is the sheet's own, it is off the treated water, and
/// its water holds what that holds.
fn in_sludge(w: &Work, row: &Row, volume: Q, is_off_the_water: bool) -> Result<Option<Q>, Stop> {
    let (Some(fallen), Some(left)) = (w.optional(row, "m_f")?, w.optional(row, "c_c")?) else {
        return Ok(None);
    };
    if volume.si <= 0.0 {
        return Ok(None);
    }
    Ok(Some(if is_off_the_water { fallen / volume + left } else { fallen / volume }))
}

fn unknown(at: &'static str, what: &str) -> Stop {
    let (reason, remedy) = match what {
        OTHER => ("how much of this there is, and what is in it, is still to be typed", "Type it."),
        AS_IT_IS => ("no route says what this is", "Choose the route that it comes from, or type it here."),
        _ => (
            "no sheet of its treatment says how much of this there is, and what is in it",
            "Choose the route that it comes from and fill in its treatment there, or type it here.",
        ),
    };
    Stop::todo(at, reason, remedy)
}
