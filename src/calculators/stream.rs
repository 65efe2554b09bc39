//! One liquid that leaves: a rinse, a bath dump, a bleed, samples, or one typed; what is in it, and
//! which route it should take.

use super::rinse::{DILUTION, DUMPED, SPRAYED, STAGES, rinse_of};
use super::{CLASSES, UNKNOWN, cautions, class_of, routes};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Refuse, Role, Row, Stop, Subject, Table, When, Work, choice,
    input, output, verdict,
};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::neutralisation::{TOLD, strong_acid_at};
use crate::science::rinse::{Rinse, diluted, dilution, overflow};
use crate::units::{
    CELSIUS, DAYS, EQ_PER_DAY, G_METAL, G_PER_DAY_METAL, G_PER_L_METAL, HOUR, L, L_PER_DAY, L_PER_MIN,
    MEQ_PER_L, MG_PER_L_METAL, ML, NUMBER, PER_DAY, PERCENT,
};

/// A rinse, which wafers pass through.
pub const RINSE: &str = "rinse";
/// A whole bath, let out at once.
pub const DUMP: &str = "bath dump";
/// A part of a bath, drawn off steadily.
pub const BLEED: &str = "bleed from a bath";
/// What is drawn off a bath before it is corrected.
pub const DRAW: &str = "draw-off of a correction";
/// What analysis takes.
pub const SAMPLES: &str = "samples";
/// A rinse without flow, let out when it is changed.
pub const STANDING: &str = "standing rinse";
/// What is typed.
pub const OTHER: &str = "another liquid";
/// What a stream is.
pub const KINDS: &[(&str, f64)] =
    &[(RINSE, 0.0), (DUMP, 0.0), (BLEED, 0.0), (DRAW, 0.0), (SAMPLES, 0.0), (STANDING, 0.0), (OTHER, 0.0)];
/// The position of [`OTHER`] among them.
pub const OTHER_AT: usize = KINDS.len() - 1;
/// What holds what another place holds: without one, and with no metal typed, nothing is known of it.
const FROM_A_PLACE: &[&str] = &[RINSE, DUMP, BLEED, DRAW, SAMPLES, STANDING];
/// Those that wafers pass through.
const FOR_WAFERS: &[&str] = &[RINSE, STANDING];
const NOT_KNOWN: &str = "not known";
const BY_PH: &str = "its pH, measured";
const FREE_ACID: &str = "free acid, titrated";
const FREE_BASE: &str = "free base, titrated";
const FROM_ORIGIN: &str = "titrated where it comes from";
const ACIDITY: &[(&str, f64)] =
    &[(NOT_KNOWN, 0.0), (BY_PH, 0.0), (FREE_ACID, 0.0), (FREE_BASE, 0.0), (FROM_ORIGIN, 0.0)];
const NO_ACIDITY: &str = "its acid or base is not known";
pub(super) const BY_WAFER: &str = "volume a wafer";
pub(super) const BY_FLOW: &str = "flow while it runs";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "stream",
    title: "Stream and metal load",
    question: "How much of this leaves a day, what is in it, and which route may it take?",
    subject: Subject::Stream,
    quick: true,
    from_start: true,
    inputs: &[
        choice("kind", "What it is", NUMBER, KINDS)
            .role(Role::OwnWater(FOR_WAFERS))
            .begins_as(&[("correction", DRAW)])
            .help("A dump, a bleed, a draw-off and samples hold what the bath holds."),
        choice("class", "Class", NUMBER, CLASSES)
            .role(Role::Class)
            .starts_at(UNKNOWN)
            .from_origin(&[("make-up", "class"), ("stream", "class")])
            .help("What it is by hazard. Unknown counts as incompatible with cyanide."),
        input("c_from", "All metals in what it comes from", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
            .only_followed()
            .from_origin(&[("make-up", "c_T"), ("stream", "c_Ton")])
            .help("In the bath, or on the wafers that leave the rinse before; without a place that it comes from, its metals are still to be typed.")
            .when(When::Is("kind", FROM_A_PLACE)),
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0]).usually(24.0)
            .from_site(&[("site", "hours")])
            .help("Rinse water runs in these hours only."),
        input("N", "Wafers", PER_DAY, [0.0, 1e6], [1.0, 5000.0])
            .needed()
            .from_origin(&[("plating", "N"), ("drag-out", "N"), ("stream", "N")])
            .if_known()
            .help("That pass through this rinse a day.")
            .when(When::Is("kind", FOR_WAFERS)),
        input("d_w", "Drag-out a wafer", ML, [0.0, 10_000.0], [0.1, 50.0])
            .needed()
            .from_origin(&[("plating", "d_w"), ("drag-out", "d_w"), ("stream", "d_w")])
            .if_known()
            .help("Liquid that one wafer and its holder carry in, and out again. Weigh some to know it.")
            .as_cure("by a longer or faster spin, or a holder that drips off: weigh some then")
            .when(When::Is("kind", FOR_WAFERS)),
        choice("stages", "Stages", NUMBER, STAGES)
            .follows(&[("rinse", "stages")])
            .help("Wafers go one way, water the other. More stages clean better; they do not dilute what overflows.")
            .when(When::Is("kind", &[RINSE])),
        input("m_x", "Sprays or dumps, one after the other", NUMBER, [1.0, 50.0], [1.0, 10.0])
            .needed()
            .follows(&[("rinse", "m_r")])
            .if_known()
            .help("Each with fresh water.")
            .when(When::Is("stages", &[SPRAYED, DUMPED])),
        input("η", "Share of the spray that rinses", PERCENT, [1.0, 100.0], [30.0, 70.0])
            .needed()
            .follows(&[("rinse", "η")])
            .if_known()
            .help("What misses the wafer does not: 30 to 70 %, common practice.")
            .when(When::Is("stages", &[SPRAYED])),
        choice("water", "Water is given as", NUMBER, &[(BY_WAFER, 0.0), (BY_FLOW, 0.0)])
            .help("A volume for each wafer, or a flow in the hours of service.")
            .when(When::Is("kind", &[RINSE])),
        input("v_w", "Water a wafer", L, [0.001, 1000.0], [0.1, 20.0])
            .needed()
            .follows(&[("rinse", "v_w")])
            .if_known()
            .help("Fresh water that runs in for one wafer.")
            .as_cure(DILUTION)
            .when(When::Is("water", &[BY_WAFER])),
        input("q", "Flow while it runs", L_PER_MIN, [0.0001, 1000.0], [0.1, 50.0])
            .needed()
            .follows(&[("rinse", "q")])
            .if_known()
            .help("Fresh water in the hours of service.")
            .as_cure(DILUTION)
            .when(When::Is("water", &[BY_FLOW])),
        input("V_z", "The standing rinse holds", L, [0.0, 100_000.0], [1.0, 5000.0])
            .only_followed()
            .follows(&[("standing-rinse", "V")])
            .if_known()
            .help("As its sheet of the standing rinse has it."),
        input("Q_z", "Of it, let out a day in the mean", L_PER_DAY, [0.0, 1e7], [0.0, 1e5])
            .only_followed()
            .follows(&[("standing-rinse", "Q_day")])
            .if_known()
            .help("As its sheet of the standing rinse has it.")
            .when(When::Is("kind", &[STANDING])),
        input("f_z", "Of what comes in, in it when it is changed", PERCENT, [0.0, 100.0], [0.0, 100.0])
            .only_followed()
            .follows(&[("standing-rinse", "f_m")])
            .if_known()
            .help("As its sheet of the standing rinse has it.")
            .when(When::Is("kind", &[STANDING])),
        input("f_za", "The same in the mean", PERCENT, [0.0, 100.0], [0.0, 100.0])
            .only_followed()
            .follows(&[("standing-rinse", "f_on")])
            .if_known()
            .help("As its sheet of the standing rinse has it: what wafers carry on.")
            .when(When::Is("kind", &[STANDING])),
        input("V_d", "Volume let out at once", L, [0.0, 100_000.0], [1.0, 5000.0])
            .needed()
            .from_origin(&[("make-up", "V_dump")])
            .help("What a dump drains; what stays behind in the tank is not in it.")
            .when(When::Is("kind", &[DUMP])),
        input("t_d", "Days of service between dumps", DAYS, [0.01, 10_000.0], [1.0, 1000.0])
            .needed()
            .from_origin(&[("ageing", "t_full")])
            .if_known()
            .help("Working days; on a mean day the volume is divided by these.")
            .when(When::Is("kind", &[DUMP])),
        input("V_k", "Drawn off for a correction", L, [0.0, 100_000.0], [1.0, 5000.0])
            .needed()
            .from_origin(&[("correction", "V_x")])
            .if_known()
            .help("Each time, before anything is added.")
            .when(When::Is("kind", &[DRAW])),
        input("t_k", "Days of service between corrections", DAYS, [0.01, 10_000.0], [1.0, 1000.0])
            .needed()
            .help("Working days; on a mean day the volume is divided by these.")
            .when(When::Is("kind", &[DRAW])),
        input("Q_t", "Volume a day", L_PER_DAY, [0.0, 1e7], [0.0, 1e5])
            .needed()
            .help("On a mean working day. Left out, a bleed is as the bath’s sheet of ageing says, and samples as its checklist.")
            .when(When::Is("kind", &[BLEED, SAMPLES, OTHER])),
        input("Q_b", "Bleed of the bath", L_PER_DAY, [0.0, 1e7], [0.0, 1e5])
            .only_followed()
            .from_origin(&[("ageing", "q_b")])
            .if_known()
            .help("As its sheet of ageing has it; a volume typed above goes before it.")
            .when(When::Is("kind", &[BLEED])),
        input("Q_p", "Samples of the bath", L_PER_DAY, [0.0, 1e7], [0.0, 1e5])
            .only_followed()
            .from_origin(&[("sampling", "Q_s")])
            .if_known()
            .help("As its sampling checklist has it; a volume typed above goes before it.")
            .when(When::Is("kind", &[SAMPLES])),
        choice("ac", "Acid or base in it, given as", NUMBER, ACIDITY)
            .help("For the pH of the mix on its route. A pH tells strong acid alone; weak acids hold more."),
        input("pH", "pH", NUMBER, TOLD, [1.0, 13.0])
            .needed()
            .help("Of this stream as it leaves, at 25 °C. Below 0.5 titrate it.")
            .when(When::Is("ac", &[BY_PH])),
        input("A", "Free acid", MEQ_PER_L, [0.0, 40_000.0], [0.0, 5000.0])
            .needed()
            .help("By titration to about pH 4, before metals fall. A mole of sulfuric acid is two equivalents.")
            .when(When::Is("ac", &[FREE_ACID])),
        input("B", "Free base", MEQ_PER_L, [0.0, 40_000.0], [0.0, 5000.0])
            .needed()
            .help("By titration to about pH 8.")
            .when(When::Is("ac", &[FREE_BASE])),
        input("A_0", "Free acid in what it comes from", MEQ_PER_L, [0.0, 40_000.0], [0.0, 5000.0])
            .needed()
            .from_origin(&[("stream", "e_on")])
            .if_known()
            .help("By titration of the bath; a rinse thins it as it thins the metals. A mole of sulfuric acid is two equivalents.")
            .when(When::Is("ac", &[FROM_ORIGIN])),
        input("a_prev", "Free acid carried in from the rinse before", EQ_PER_DAY, [0.0, 1e9], [0.0, 1e6])
            .only_followed()
            .from_origin(&[("stream", "a_on")])
            .if_known()
            .help("Only for the balance: what the rinse before says it passed on.")
            .when(When::Is("ac", &[FROM_ORIGIN])),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("c_in", "In the liquid it comes from", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
                    .needed()
                    .from_origin(&[("make-up", "c_M"), ("stream", "c_on")])
                    .help("In the bath, or in the last stage of the rinse before."),
                input("c_k", "Measured in the bath", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
                    .only_followed()
                    .from_origin(&[("correction", "c_off")])
                    .if_known()
                    .help("By its correction: it counts for what is drawn off, and where the make-up has no such metal."),
                input("c_f", "In the rinse water", MG_PER_L_METAL, [0.0, 10_000.0], [0.0, 10.0])
                    .only_followed()
                    .follows(&[("rinse", "c_f")])
                    .if_known()
                    .help("As its sheet of rinse has it.")
                    .when(When::Is("kind", &[RINSE])),
                input("m_prev", "Carried in from the rinse before", G_PER_DAY_METAL, [0.0, 1e9], [0.0, 1e6])
                    .only_followed()
                    .from_origin(&[("stream", "m_on")])
                    .help("Only for the balance: what the rinse before says it passed on.")
                    .when(When::Is("kind", FOR_WAFERS)),
            ],
            answers: &[
                output("c_w", "In this stream", MG_PER_L_METAL).role(Role::Concentration),
                output("m_w", "Leaves with it", G_PER_DAY_METAL).role(Role::Load),
                output("m_in", "Comes in", G_PER_DAY_METAL),
                output("c_on", "In what stays on the wafers", G_PER_L_METAL),
                output("m_on", "Carried on by the wafers", G_PER_DAY_METAL),
                output("m_bath", "Taken from a bath, from rinse water or typed", G_PER_DAY_METAL),
                output("m_rinse", "Taken over from a rinse", G_PER_DAY_METAL),
                output("m_once", "In what is let out at once", G_METAL),
            ],
        },
        Table {
            id: "routes",
            label: "What each route says of it",
            key_label: "Route",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[verdict("takes", "This liquid", &[
                routes::SHOULD,
                routes::MAY,
                routes::MUST_NOT,
                routes::FIND_OUT,
            ])],
        },
    ],
    outputs: &[
        output("Q_day", "Volume a day", L_PER_DAY).role(Role::Flow),
        output("c_T", "All metals together", MG_PER_L_METAL).beside(),
        verdict("belongs", "Route that suits it", routes::ALL).beside().role(Role::Suggested),
        output("q_run", "Flow in the hours of service", L_PER_MIN),
        output("V_once", "Let out at once", L),
        output("D", "Drag-out", L_PER_DAY),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL),
        output("c_Ton", "All metals in what stays on the wafers", G_PER_L_METAL),
        output("e", "Strong acid in it, below 0 base", MEQ_PER_L).missing(NO_ACIDITY),
        output("e_on", "Free acid in what stays on the wafers", MEQ_PER_L).missing(NO_ACIDITY),
        output("a_w", "Strong acid that leaves with it, below 0 base", EQ_PER_DAY).missing(NO_ACIDITY),
        output("a_on", "Free acid carried on by the wafers", EQ_PER_DAY).missing(NO_ACIDITY),
        output("a_bath", "Acid taken from a bath, or typed", EQ_PER_DAY).missing(NO_ACIDITY),
        output("a_rinse", "Acid taken over from a rinse", EQ_PER_DAY).missing(NO_ACIDITY),
    ],
    picture: Some(Picture { across: "v_w", up: "c_T" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Keep every acid away from this stream, its pipe and its vent: cyanide and acid give a gas that kills.",
        },
        Caution { when: &[When::Is("class", &["fluoride"])], text: cautions::FLUORIDE_TEXT },
        Caution {
            when: &[When::Is("class", &["sulfite"])],
            text: "Sulfite with acid gives sulfur dioxide, which chokes: keep acid water away.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Vapour burns: no metal drain, no spark, exhaust as the fire code says.",
        },
    ],
    sources: &[
        "Rinse: stage balances of stirred stages in steady state, exact; checked against numpy linalg.solve.",
        "Acid by pH: strong acid alone, charge balance with activities; checked against PHREEQC 3.8.6.",
        "60 mg/L for dilute and 200 g/L for concentrate, all metals together: common practice, no source.",
        "Gold, palladium, platinum, rhodium and ruthenium are reclaimed for their worth: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "numpy linalg.solve of the stage balances: 0.2 L/h of 40 g/L into 200 L/h, one stage",
            inputs: &[
                ("class", "acid"),
                ("hours", "24 h"),
                ("N", "960 per day"),
                ("d_w", "5 mL"),
                ("water", BY_FLOW),
                ("q", "200 L/h"),
            ],
            rows: &[("metals", "Cu", &[("c_in", "40 g/L")])],
            answers: &[("c_w[Cu]", "39.96004 mg/L"), ("Q_day", "4800 L/day"), ("belongs", routes::DILUTE)],
            within: 1e-6,
        },
        Example {
            source: "By hand: 240 L every 120 days is 2 L/day; of 50 g/L that is 100 g/day and 12 kg at once",
            inputs: &[("kind", DUMP), ("class", "acid"), ("V_d", "240 L"), ("t_d", "120 days")],
            rows: &[("metals", "Cu", &[("c_in", "50 g/L")])],
            answers: &[
                ("Q_day", "2 L/day"),
                ("m_w[Cu]", "100 g/day"),
                ("m_once[Cu]", "12 kg of metal"),
                ("belongs", routes::CONCENTRATE),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 28 L every 7 days is 4 L/day; of 36 g/L that is 144 g/day and 1008 g at once",
            inputs: &[("kind", DRAW), ("class", "acid"), ("V_k", "28 L"), ("t_k", "7 days")],
            rows: &[("metals", "Cu", &[("c_in", "36 g/L")])],
            answers: &[("Q_day", "4 L/day"), ("m_w[Cu]", "144 g/day"), ("m_once[Cu]", "1008 g of metal"), ("V_once", "28 L")],
            within: 1e-9,
        },
        Example {
            source: "Python recursion and scipy brentq: 1.5 mL of 50 g/L sprayed three times, 40 % of 0.10125 L mixing, is 1000 times",
            inputs: &[
                ("class", "acid"),
                ("N", "480 per day"),
                ("d_w", "1.5 mL"),
                ("stages", SPRAYED),
                ("m_x", "3"),
                ("η", "40 %"),
                ("v_w", "0.10125 L"),
            ],
            rows: &[("metals", "Cu", &[("c_in", "50 g/L")])],
            answers: &[("c_on[Cu]", "50 mg/L"), ("Q_day", "48.6 L/day")],
            within: 1e-9,
        },
        Example {
            source: "By hand: 26 and 13.6 % of 50 g/L: 40 L of 13 g/L every 10 days are 4 L/day and 52 g/day; 1.2 L/day carry on 6.8 g/L, 8.16 g/day",
            inputs: &[
                ("kind", STANDING), ("class", "acid"), ("N", "480 per day"), ("d_w", "2.5 mL"), ("V_z", "40 L"), ("Q_z", "4 L/day"), ("f_z", "26 %"), ("f_za", "13.6 %"), ("ac", FROM_ORIGIN), ("A_0", "2 eq/L"),
            ],
            rows: &[("metals", "Cu", &[("c_in", "50 g/L")])],
            answers: &[
                ("Q_day", "4 L/day"), ("c_w[Cu]", "13 g/L"), ("m_w[Cu]", "52 g/day"), ("m_on[Cu]", "8.16 g/day"),
                ("m_in[Cu]", "60.16 g/day"), ("m_once[Cu]", "520 g of metal"), ("e", "520 meq/L"), ("e_on", "272 meq/L"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 4.8 L/day of 2 eq/L into 4800 L/day, one stage, is 2 eq/L over 1001",
            inputs: &[
                ("class", "acid"),
                ("N", "960 per day"),
                ("d_w", "5 mL"),
                ("water", BY_FLOW),
                ("q", "200 L/h"),
                ("ac", FROM_ORIGIN),
                ("A_0", "2 eq/L"),
            ],
            rows: &[("metals", "Cu", &[("c_in", "0 g/L")])],
            answers: &[("e", "1.998002 meq/L"), ("e_on", "1.998002 meq/L")],
            within: 1e-6,
        },
        Example {
            source: "PHREEQC 3.8.6, phreeqc.dat: 0.01 mol/kg of HCl is pH 2.0405",
            inputs: &[("kind", OTHER), ("class", "acid"), ("Q_t", "100 L/day"), ("ac", BY_PH), ("pH", "2.0405")],
            rows: &[],
            answers: &[("e", "10 meq/L")],
            within: 0.02,
        },
        Example {
            source: "By hand: titrated, it is what was titrated",
            inputs: &[("kind", OTHER), ("class", "acid"), ("Q_t", "100 L/day"), ("ac", FREE_ACID), ("A", "12 meq/L")],
            rows: &[],
            answers: &[("e", "12 meq/L")],
            within: 1e-9,
        },
        Example {
            source: "By hand: base is less than no acid",
            inputs: &[("kind", OTHER), ("class", "alkaline"), ("Q_t", "100 L/day"), ("ac", FREE_BASE), ("B", "30 meq/L")],
            rows: &[],
            answers: &[("e", "-30 meq/L")],
            within: 1e-9,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let kind = w.word(&top, "kind")?;
    let class = class_of(w.word(&top, "class")?);
    if FROM_A_PLACE.contains(&kind)
        && w.rows(metals::TABLE)?.is_empty()
        && w.optional(&top, "c_from")?.is_none()
    {
        let reason = "Where it comes from, or how much metal it holds, is still to be typed.";
        let remedy =
            "Choose the place that it comes from, or add its metals. What holds none is “another liquid”.";
        return Err(Stop::todo("kind", reason, remedy));
    }
    let stands = w.optional(&top, "V_z")?;
    if (kind == STANDING) != stands.is_some() && FOR_WAFERS.contains(&kind) {
        let (reason, remedy) = if stands.is_some() {
            ("this place has a sheet of a standing rinse", "Choose “standing rinse”, or take that sheet off.")
        } else {
            (
                "how much the standing rinse holds is not known",
                "Add its sheet, “Standing rinse”, by “+ Sheet”.",
            )
        };
        return Err(Stop::todo("kind", reason, remedy));
    }
    let [hours] = w.inputs(["hours"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    // In a rinse the water that leaves is what runs in; the wafers carry out what they carried in.
    let (volume, drag_out) = match kind {
        RINSE => {
            let [n, d_w] = w.inputs(["N", "d_w"])?;
            let drag_out = w.answer("D", n * d_w)?;
            let water = if w.word(&top, "water")? == BY_WAFER {
                let [v_w] = w.inputs(["v_w"])?;
                n * v_w
            } else {
                let [q] = w.inputs(["q"])?;
                q * hours / one_day
            };
            (water, drag_out)
        }
        STANDING => {
            let [n, d_w] = w.inputs(["N", "d_w"])?;
            let drag_out = w.answer("D", n * d_w)?;
            (w.optional(&top, "Q_z")?.ok_or_else(not_known)?, drag_out)
        }
        DUMP => {
            let [v_d, t_d] = w.inputs(["V_d", "t_d"])?;
            (v_d / t_d, none(w)?)
        }
        DRAW => {
            let [v_k, t_k] = w.inputs(["V_k", "t_k"])?;
            (v_k / t_k, none(w)?)
        }
        _ => {
            let followed = match kind {
                BLEED => w.optional(&top, "Q_b")?,
                SAMPLES => w.optional(&top, "Q_p")?,
                _ => None,
            };
            let q_t = match (w.optional(&top, "Q_t")?, followed.filter(|flow| flow.si > 0.0)) {
                (None, Some(followed)) => followed,
                _ => w.inputs::<1>(["Q_t"])?[0],
            };
            (q_t, none(w)?)
        }
    };
    let volume = w.answer("Q_day", volume)?;
    let at_once = match kind {
        DUMP => w.inputs::<1>(["V_d"])?[0],
        DRAW => w.inputs::<1>(["V_k"])?[0],
        STANDING => stands.filter(|_| volume.si > 0.0).unwrap_or(Q::constant("none", 0.0, L)),
        _ => Q::constant("none", 0.0, L),
    };
    let at_once = w.answer("V_once", at_once)?;
    w.answer("q_run", volume * one_day / hours)?;
    let rinsed = if kind == RINSE { rinsed(w, volume, drag_out)? } else { None };
    let shares = if kind == STANDING { Some(shares(w)?) } else { None };
    acidity(w, kind, [rinsed, shares], (volume, drag_out))?;

    let mut together = Q::constant("none", 0.0, MG_PER_L_METAL);
    let mut together_on = Q::constant("none", 0.0, G_PER_L_METAL);
    let mut is_valuable = false;
    for row in w.rows(metals::TABLE)? {
        let c_in = held(w, &row, kind)?;
        let clean = Q::constant("0", 0.0, G_PER_L_METAL);
        let (c_w, c_on, m_in, m_feed) = if kind == RINSE {
            let feed = w.optional(&row, "c_f")?.filter(|feed| feed.si > 0.0);
            let m_feed = feed.map(|feed| feed * volume);
            let feed = feed.unwrap_or(clean);
            let (c_w, c_on) = match rinsed {
                None => (feed, feed),
                Some((r, times)) => {
                    let last = diluted(c_in, feed, times);
                    (overflow(c_in, feed, last, r).or_stop("d_w")?, last)
                }
            };
            (c_w, c_on, c_in * drag_out, m_feed)
        } else if let Some((last, mean)) = shares {
            let (last, mean) = (c_in * last, c_in * mean);
            // What goes back to the bath has not left it.
            (last, mean, last * volume + mean * drag_out, None)
        } else {
            (c_in, clean, c_in * volume, None)
        };
        let all_in = m_feed.map_or(m_in, |m_feed| m_in + m_feed);
        let all_in = w.give(&row, "m_in", all_in)?;
        let c_w = w.give(&row, "c_w", c_w)?;
        w.give(&row, "m_w", c_w * volume)?;
        let c_on = w.give(&row, "c_on", c_on)?;
        together_on = together_on + c_on;
        w.give(&row, "m_on", c_on * drag_out)?;
        let before = if FOR_WAFERS.contains(&kind) { w.optional(&row, "m_prev")? } else { None };
        let nothing = Q::constant("0", 0.0, G_PER_DAY_METAL);
        let from_bath = match before {
            // Less what a standing rinse gives back to it.
            Some(before) if kind == STANDING => all_in - before,
            Some(_) => m_feed.unwrap_or(nothing),
            None => all_in,
        };
        w.give(&row, "m_bath", from_bath)?;
        w.give(&row, "m_rinse", before.unwrap_or(nothing))?;
        w.give(&row, "m_once", c_w * at_once)?;
        together = together + c_w;
        is_valuable |= metals::is_valuable(&row.key) && c_w.si > 0.0;
    }
    let together = w.answer("c_T", together)?;
    w.answer("m_T", together * volume)?;
    w.answer("c_Ton", together_on)?;
    let mg_per_l = together.number(MG_PER_L_METAL);
    let belongs = routes::suggestion(class, is_valuable, mg_per_l);
    w.say(&top, "belongs", belongs)?;
    for (kind, _) in routes::KINDS {
        let row = w.row("routes", kind)?;
        w.say(&row, "takes", routes::takes(kind, class, belongs, mg_per_l))?;
    }
    Ok(())
}

/// Strong acid in it, if anybody knows: a rinse thins that of what it comes from as it thins the metals.
fn acidity(
    w: &mut Work,
    kind: &str,
    [rinsed, shares]: [Option<(Q, Q)>; 2],
    (volume, drag_out): (Q, Q),
) -> Result<(), Stop> {
    let none = Q::constant("none", 0.0, EQ_PER_DAY);
    let (mut comes_in, mut carried_on, mut before) = (None, none, None);
    let acid = match w.word(&w.top(), "ac")? {
        BY_PH => {
            let [ph] = w.inputs(["pH"])?;
            strong_acid_at(ph, Q::constant("25 °C", 25.0, CELSIUS)).or_stop("pH")?
        }
        FREE_ACID => w.inputs::<1>(["A"])?[0],
        FREE_BASE => -w.inputs::<1>(["B"])?[0],
        FROM_ORIGIN => {
            let [held] = w.inputs(["A_0"])?;
            let clean = Q::constant("none", 0.0, MEQ_PER_L);
            match rinsed {
                None if let Some((last, mean)) = shares => {
                    let mean = w.answer("e_on", held * mean)?;
                    let last = held * last;
                    carried_on = mean * drag_out;
                    comes_in = Some(last * volume + carried_on);
                    before = w.optional(&w.top(), "a_prev")?;
                    last
                }
                Some((r, times)) => {
                    let last = w.answer("e_on", diluted(held, clean, times))?;
                    (comes_in, carried_on) = (Some(held * drag_out), last * drag_out);
                    before = w.optional(&w.top(), "a_prev")?;
                    overflow(held, clean, last, r).or_stop("d_w")?
                }
                // Nothing is dragged in, and so nothing stays on the wafers.
                None if kind == RINSE => w.answer("e_on", clean)?,
                None => held,
            }
        }
        _ => return Ok(()),
    };
    let acid = w.answer("e", acid)?;
    let leaves = w.answer("a_w", acid * volume)?;
    w.answer("a_on", carried_on)?;
    let comes_in = comes_in.unwrap_or(leaves);
    let from_bath = match before {
        Some(before) if kind == STANDING => comes_in - before,
        Some(_) => none,
        None => comes_in,
    };
    w.answer("a_bath", from_bath)?;
    w.answer("a_rinse", before.unwrap_or(none))?;
    Ok(())
}

/// What the liquid holds of a metal where it comes from: a draw-off what was measured, others what the make-up
/// says, and what was measured where that has no such metal.
fn held(w: &Work, row: &Row, kind: &str) -> Result<Q, Stop> {
    let measured = w.optional(row, "c_k")?;
    let made_up = w.optional(row, "c_in")?;
    match if kind == DRAW { measured.or(made_up) } else { made_up.or(measured) } {
        Some(held) => Ok(held),
        None => w.of::<1>(row, ["c_in"]).map(|[c_in]| c_in),
    }
}

/// Water to one of drag-out, and how many times that dilutes; none where nothing is dragged in, or neither metal nor
/// acid is asked for.
fn rinsed(w: &mut Work, water: Q, drag_out: Q) -> Result<Option<(Q, Q)>, Stop> {
    if w.rows(metals::TABLE)?.is_empty() && w.word(&w.top(), "ac")? != FROM_ORIGIN {
        return Ok(None);
    }
    if water.si <= 0.0 {
        let reason = "no water runs through this rinse";
        return Err(Stop::at("kind", reason, "Type its water, a wafer or by flow."));
    }
    if drag_out.si <= 0.0 {
        return Ok(None);
    }
    let r = w.step("r", "Water to one of drag-out", NUMBER, water / drag_out)?;
    let times = dilution(r, rinse(w)?).or_stop("stages")?;
    Ok(Some((r, w.step("x", "Times diluted", NUMBER, times)?)))
}

/// How the rinse is run.
fn rinse(w: &Work) -> Result<Rinse, Stop> {
    let [stages] = w.inputs(["stages"])?;
    let full = Q::constant("all of it", 1.0, NUMBER);
    match w.word(&w.top(), "stages")? {
        SPRAYED => {
            let [times, share] = w.inputs(["m_x", "η"])?;
            rinse_of(stages, times, share)
        }
        DUMPED => rinse_of(stages, w.inputs::<1>(["m_x"])?[0], full),
        _ => rinse_of(stages, full, full),
    }
}

/// Of what comes in, what is in a standing rinse at its change, and in the mean.
fn shares(w: &Work) -> Result<(Q, Q), Stop> {
    let top = w.top();
    let (last, mean) = (w.optional(&top, "f_z")?, w.optional(&top, "f_za")?);
    last.zip(mean).ok_or_else(not_known)
}

fn not_known() -> Stop {
    Stop::todo("kind", "what the standing rinse comes to is not known", "See its sheet, “Standing rinse”.")
}

fn none(w: &mut Work) -> Result<Q, Stop> {
    w.answer("D", Q::constant("none", 0.0, L_PER_DAY))
}
