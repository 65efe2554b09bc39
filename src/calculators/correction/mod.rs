//! Correction of a working bath: what is drawn off and added to bring it back to its targets.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum;
//! - [`missing`]: components without a result;
//! - [`dissolving`]: what does not stay dissolved, and the room that solids take;
//! - [`order`]: what must never meet, and the work order.

mod dissolving;
mod missing;
mod order;
mod sum;
#[cfg(test)]
mod tests;

use super::make_up::components::{LIQUID, NOTHING, SOLID};
use super::make_up::meets;
use super::{CLASSES, cautions};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Subject, Table, When, WorkOrder, choice, input, note,
    output, verdict,
};
use crate::science::metals;
use crate::units::{G_METAL, G_PER_L, G_PER_L_METAL, GRAM, KG, L, MASS_PERCENT, NUMBER, PERCENT};

/// The table of what is in the bath.
const TABLE: &str = "components";

const MARK: &str = "filled to the mark";
const AS_IT_COMES: &str = "as high as it comes, no water";
const LEAST: &str = "the least that will do";
const FIXED: &str = "this much";
const WATER: &str = "water";
const OTHER: &str = "another liquid";

/// Why a row has no answer yet.
const NO_RESULT: &str = "type what the analysis found";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "correction",
    title: "Correction",
    question: "What is drawn off and added to bring the bath back to its targets?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class_k", "Class", NUMBER, CLASSES)
            .starts_at(super::UNKNOWN)
            .follows(&[("make-up", "class")])
            .group("Bath")
            .help("What the bath is by hazard: no acid is ever added to cyanide."),
        input("V_m", "Volume to the mark", L, [0.1, 100_000.0], [5.0, 5000.0])
            .needed()
            .follows(&[("make-up", "V")])
            .group("Bath")
            .help("In circulation: tank, chambers, filters and pipes. With room above the mark, type up to where it may stand."),
        input("V_n", "In the tank when the sample was taken", L, [0.1, 100_000.0], [5.0, 5000.0])
            .optional()
            .group("Bath")
            .help("Left out, it was full to the mark. Low from evaporation, an analysis reads too high: better fill up with water first, mix, then take the sample."),
        choice("end", "The tank at the end", NUMBER, &[(MARK, 0.0), (AS_IT_COMES, 0.0)])
            .group("Work")
            .help("Filled up, or left at the level that the additions bring it to."),
        choice("draw", "Draw off first", NUMBER, &[(LEAST, 0.0), (FIXED, 0.0)])
            .group("Work")
            .help("The least is found for all components at once; none if there is room and nothing is too high."),
        input("V_t", "Volume to draw off", L, [0.0, 100_000.0], [0.0, 1000.0])
            .needed()
            .group("Work")
            .help("What you mean to take out before anything is added.")
            .when(When::Is("draw", &[FIXED])),
        input("tol", "Leave alone within", PERCENT, [0.0, 50.0], [0.0, 10.0]).usually(0.0)
            .group("Work")
            .help("Of what is wanted: a component as near as this is kept where it is. 2 to 5 % is common practice, no source."),
        choice("fill", "Filled up with", NUMBER, &[(WATER, 0.0), (OTHER, 0.0)])
            .group("Work")
            .help("Deionised water, or a liquid that holds some of the components, such as fresh bath.")
            .when(When::Is("end", &[MARK])),
    ],
    tables: &[
        Table {
            id: TABLE,
            label: "Components",
            key_label: "Component",
            add: Some("Add a component"),
            suggest: &["Cu", "H2SO4", "Cl", "Ni", "H3BO3", "Sn", "Ag", "CH4O3S", "Au", "Zn", "Pd", "In", "Co"],
            presets: &[
                ("Cu", &[("added_as", SOLID), ("salt", "CuSO4·5H2O")]),
                ("Ni", &[("added_as", SOLID), ("salt", "NiSO4·6H2O")]),
                ("Zn", &[("added_as", SOLID), ("salt", "ZnSO4·7H2O")]),
                ("Co", &[("added_as", SOLID), ("salt", "CoSO4·7H2O")]),
                ("Sn", &[("added_as", SOLID), ("salt", "SnSO4")]),
                ("H3BO3", &[("added_as", SOLID), ("salt", "H3BO3")]),
                ("H2SO4", &[("added_as", LIQUID)]),
                ("Cl", &[("added_as", LIQUID)]),
                ("CH4O3S", &[("added_as", LIQUID)]),
            ],
            columns: &[
                input("c", "Found by analysis", G_PER_L, [0.0, 2000.0], [0.0, 300.0])
                    .optional()
                    .follows(&[("analysis", "c_x")])
                    .if_known()
                    .help("Of the component named: g/L of copper if the row is Cu. Left out, the others are corrected without it, unless what is added of it brings one of them."),
                input("c_t", "Wanted in the bath", G_PER_L, [0.0, 2000.0], [0.0, 300.0])
                    .optional()
                    .help("Left out, it is what the make-up wants, or may come out as it likes and is only followed."),
                input("c_plan", "Wanted by the make-up", G_PER_L, [0.0, 2000.0], [0.0, 300.0])
                    .only_followed()
                    .follows(&[("make-up", "c_C")])
                    .if_known()
                    .help("Of a metal, an acid or an ion; what is typed as wanted goes before it."),
                choice("added_as", "Added as", NUMBER, &[(NOTHING, 0.0), (SOLID, 0.0), (LIQUID, 0.0)])
                    .follows(&[("make-up", "as_C")])
                    .if_known()
                    .help("What raises it. With nothing it can only be drawn off."),
                choice("h", "What is added is handled", NUMBER, meets::HAZARD_WORDS)
                    .follows(&[("make-up", "h_C")])
                    .if_known()
                    .help("By its label: hydrochloric acid that is added for its chloride is a strong acid. A formula says it by itself.")
                    .when(When::Not("added_as", &[NOTHING])),
                note("salt", "Formula of the solid")
                    .help("As on the label, with its water: CuSO4·5H2O. All that it brings of other components is counted.")
                    .when(When::Is("added_as", &[SOLID])),
                input("x_plan", "The solid of the make-up holds", MASS_PERCENT, [0.0, 100.0], [5.0, 100.0])
                    .only_followed()
                    .follows(&[("make-up", "x_C")])
                    .if_known()
                    .help("Of the component; a formula typed above, or a share below, goes before it.")
                    .when(When::Is("added_as", &[SOLID])),
                input("p", "Purity", PERCENT, [0.01, 100.0], [90.0, 100.0]).usually(100.0)
                    .follows(&[("make-up", "p_C")])
                    .if_known()
                    .help("By mass, from the label.")
                    .when(When::Is("added_as", &[SOLID])),
                input("x_s", "Or: it holds of the component", MASS_PERCENT, [0.01, 100.0], [5.0, 100.0])
                    .optional()
                    .help("Where no formula says it. Purity comes on top.")
                    .when(When::Is("added_as", &[SOLID])),
                input("s", "Strength of the liquid", G_PER_L, [0.001, 3000.0], [1.0, 1800.0])
                    .optional()
                    .follows(&[("make-up", "s_C")])
                    .if_known()
                    .help("Of the component in a litre: 96 % sulfuric acid holds 1766 g/L, 37 % hydrochloric acid 424 g/L of chloride.")
                    .when(When::Is("added_as", &[LIQUID])),
                note("also", "The liquid also brings")
                    .help("Another component of this list, such as H2SO4 in a copper concentrate.")
                    .when(When::Is("added_as", &[LIQUID])),
                input("k_b", "How much of that the liquid brings", G_PER_L, [0.0, 2000.0], [0.0, 300.0]).usually(0.0)
                    .help("In a litre of the liquid.")
                    .when(When::Is("added_as", &[LIQUID])),
                input("c_f", "In what fills up", G_PER_L, [0.0, 2000.0], [0.0, 300.0]).usually(0.0)
                    .help("Of the component, in the liquid that fills up.")
                    .when(When::Is("fill", &[OTHER])),
                input("added", "Amount added", KG, [0.0, 1e6], [0.0, 1e4])
                    .optional()
                    .help("What was weighed in; what the bath really comes to follows from it.")
                    .when(When::Is("added_as", &[SOLID])),
                input("v_added", "Volume added", L, [0.0, 1e5], [0.0, 1e4])
                    .optional()
                    .help("What was measured in; what the bath really comes to follows from it.")
                    .when(When::Is("added_as", &[LIQUID])),
                note("lot", "Lot").help("From the label."),
                note("initials", "Added by").help("Initials of who added it."),
                note("checked", "Checked by").help("Initials of a second person."),
            ],
            answers: &[
                output("c_end", "After the correction", G_PER_L).missing(NO_RESULT),
                output("m", "To weigh", KG).missing("only solids are weighed"),
                output("v", "To measure", L).missing("only liquids are measured"),
                output("m_off", "Drawn off", GRAM).missing(NO_RESULT),
                output("c_got", "Really reached", G_PER_L).missing("type what was added of each"),
                verdict("hazard", "Handle it as", meets::HAZARDS),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals in what is drawn off",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("c_off", "In what is drawn off", G_PER_L_METAL),
                output("m_M", "Drawn off", G_METAL),
            ],
        },
    ],
    outputs: &[
        output("V_x", "Draw off first", L),
        output("V_w", "Fill up with, at most", L).beside(),
        output("V_a", "Liquids to add", L).beside(),
        output("V_e", "In the tank at the end", L),
        output("f_x", "Share of the bath drawn off", PERCENT)
            .above(50.0, Severity::Caution, "More than half goes: a new make-up may cost less.")
            .cured_by(&[("correction", "V_m")]),
    ],
    picture: Some(Picture { across: "V_m", up: "V_x" }),
    work_order: Some(WorkOrder {
        table: TABLE,
        added: "added",
        signed: &["v_added", "lot", "initials", "checked"],
        done_by: "Corrected by",
    }),
    recipes: &[],
    cautions: &[
        cautions::STRONG_ACID,
        cautions::CAUSTIC,
        cautions::NICKEL,
        cautions::CYANIDE,
        cautions::FLUORIDE,
        cautions::OXIDISER,
        Caution { when: &[When::Is("class_k", &["cyanide"])], text: cautions::CYANIDE_BATH_TEXT },
        Caution {
            when: &[When::Above("V_x", 0.0)],
            text: "What is drawn off is concentrated waste: into a labelled drum or its segregated route, never into a rinse drain.",
        },
    ],
    sources: &[
        "Balances of substance with volumes taken as additive and solids as without volume; checked against numpy linalg.solve and sympy. No published example of a plating bath was found.",
        "Molar masses: IUPAC standard atomic weights 2021, abridged.",
        "What dissolves at 20 °C, beside sulfuric acid too, by the law of the make-up. Room of solids, half a litre a kilogram: common practice, no source.",
        "Fill up with water before the sample is taken; mix for 30 minutes; analyse again: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "numpy 2.4.6 linalg.solve: 40 L drawn off; 34.46154 L of concentrate, 4.786789 L of acid, 8.962264 mL of HCl, 0.74271 L of water",
            inputs: &[("class_k", "acid"), ("V_m", "200 L"), ("draw", FIXED), ("V_t", "40 L")],
            rows: &[
                (TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "65 g/L"), ("also", "H2SO4"), ("k_b", "10 g/L")]),
                (TABLE, "H2SO4", &[("c", "170 g/L"), ("c_t", "180 g/L"), ("added_as", LIQUID), ("s", "1766.4 g/L")]),
                (TABLE, "Cl", &[("c", "0.045 g/L"), ("c_t", "0.055 g/L"), ("added_as", LIQUID), ("s", "424 g/L")]),
            ],
            answers: &[
                ("v[Cu]", "34.46154 L"),
                ("v[H2SO4]", "4.786789 L"),
                ("v[Cl]", "8.962264 mL"),
                ("V_w", "0.74271 L"),
                ("c_end[Cu]", "40 g/L"),
                ("m_M[Cu]", "1440 g"),
            ],
            within: 1e-4,
        },
        Example {
            source: "sympy.solve of (V − x)·C + x·S = V·C_t: 14.81481 L out and in, in a full tank",
            inputs: &[("class_k", "acid"), ("V_m", "200 L")],
            rows: &[(TABLE, "Cu", &[("c", "38 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "65 g/L")])],
            answers: &[("V_x", "14.81481 L"), ("v[Cu]", "14.81481 L"), ("c_end[Cu]", "40 g/L")],
            within: 1e-6,
        },
        Example {
            source: "sympy.solve of V·C + x·S = (V + x)·C_t: 16 L, with room in the tank",
            inputs: &[("class_k", "acid"), ("V_m", "230 L"), ("V_n", "200 L"), ("end", AS_IT_COMES)],
            rows: &[(TABLE, "Cu", &[("c", "38 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "65 g/L")])],
            answers: &[("v[Cu]", "16 L"), ("V_e", "216 L")],
            within: 1e-6,
        },
        Example {
            source: "sympy.solve of (V − x)·C + x·C_r = V·C_t: 60 L of 12 g/L replaced by 2 g/L brings 300 L to 10 g/L",
            inputs: &[("class_k", "acid"), ("V_m", "300 L"), ("fill", OTHER)],
            rows: &[(TABLE, "Fe", &[("c", "12 g/L"), ("c_t", "10 g/L"), ("added_as", NOTHING), ("c_f", "2 g/L")])],
            answers: &[("V_x", "60 L"), ("V_w", "60 L"), ("c_end[Fe]", "10 g/L")],
            within: 1e-6,
        },
        Example {
            source: "By hand: 100 L from 8 to 10 g/L of gold is 200 g, in KAu(CN)2 with 68.37 % of gold (molmass) 292.5 g",
            inputs: &[("class_k", "cyanide"), ("V_m", "100 L")],
            rows: &[(
                TABLE,
                "Au",
                &[("c", "8 g/L"), ("c_t", "10 g/L"), ("added_as", SOLID), ("salt", "KAu(CN)2")],
            )],
            answers: &[("m[Au]", "292.54 g")],
            within: 4e-4,
        },
        Example {
            source: "By hand: 200 L from 36 to 40 g/L of copper is 800 g, in CuSO4·5H2O with 25.451 % of copper (molmass) 3.1433 kg",
            inputs: &[("class_k", "acid"), ("V_m", "200 L")],
            rows: &[(TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")])],
            answers: &[("V_x", "0 L"), ("m[Cu]", "3.1433 kg")],
            within: 4e-4,
        },
    ],
    work: sum::work,
};
