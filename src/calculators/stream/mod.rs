//! One liquid that leaves: a rinse, a bath dump, a bleed, samples, or one typed; what is in it, and
//! which route it should take.
//!
//! - this file: the declaration;
//! - [`examples`]: worked examples with known answers;
//! - [`sum`]: volume, metals, acid, and what each route says of it.

mod examples;
mod sum;
#[cfg(test)]
mod tests;

use super::rinse::{DILUTION, DUMPED, SPRAYED, STAGES};
use super::{CLASSES, UNKNOWN, cautions, routes};
use crate::calculator::{
    Calculator, Caution, Picture, Role, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::science::neutralisation::TOLD;
use crate::units::{
    DAYS, EQ_PER_DAY, G_METAL, G_PER_DAY_METAL, G_PER_L_METAL, HOUR, L, L_PER_DAY, L_PER_MIN, MEQ_PER_L,
    MG_PER_L_METAL, ML, NUMBER, PER_DAY, PERCENT,
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
        input("V_d", "Volume of a dump", L, [0.0, 100_000.0], [1.0, 5000.0])
            .needed()
            .from_origin(&[("make-up", "V_dump")])
            .help("What drains at once; what stays behind in the tank is not in it.")
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
                output("m_once", "In a dump", G_METAL),
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
        output("V_once", "Volume of a dump", L),
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
    examples: examples::LIST,
    work: sum::work,
};
