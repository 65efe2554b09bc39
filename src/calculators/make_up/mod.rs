//! Make-up of a bath: volumes, ingredients, water by mass balance, heat, and the order of work.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum from volumes to water;
//! - [`words`]: the words that a row is filled with;
//! - [`recipes`]: starting recipes;
//! - [`ingredient`]: what a row says, and how much of it is weighed or measured;
//! - [`bath`]: density, heat capacity, heat of mixing, metals;
//! - [`dissolving`]: what dissolves, in the first water and when the bath is cold;
//! - [`components`]: the same by the names that an analysis gives them, for its correction;
//! - [`meets`]: what must never meet in a bath, and which caution an ingredient calls for;
//! - [`sort`]: what sort of bath that makes: pH, additives, metal;
//! - [`label`]: what a step of the work order says of an ingredient;
//! - [`order`]: the work order.

mod words;
mod recipes;
mod ingredient;
pub(super) mod meets;
mod bath;
pub(super) mod dissolving;
pub(super) mod components;
pub(super) mod sort;
mod label;
mod order;
mod sum;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod traps;

use super::{CLASSES, UNKNOWN, cautions};
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Role, Subject, Table, When, WorkOrder, choice, input, note,
    output, verdict,
};
use crate::science::metals;
use crate::units::{
    CELSIUS, G_PER_L, G_PER_L_METAL, KELVINS, KG, KG_PER_L, KJ, KJ_PER_KG_K, L, MASS_PERCENT, ML_PER_L,
    MOL_PER_L, NUMBER, PERCENT, PERCENT_METAL,
};
use words::{Supply, Wanted};

/// The table of what goes in.
const TABLE: &str = "ingredients";

const MODEL: &str = "from the solution model";
const TYPED: &str = "typed";
const ADDED: &str = "volumes added up (an estimate)";

const LIQUIDS: When = When::Not("supply", &[Supply::SOLID]);
const CONCENTRATES: When =
    When::Is("supply", &[Supply::BY_MASS, Supply::BY_MOL, Supply::BY_METAL, Supply::BY_GRAMS]);

const fn target(
    symbol: &'static str,
    label: &'static str,
    unit: &'static crate::units::Unit,
    most: [f64; 2],
) -> Input {
    input(symbol, label, unit, [0.0, most[0]], [0.0, most[1]])
        .optional()
        .help("What a litre of the finished bath is to hold.")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "make-up",
    title: "Make-up",
    question: "What goes into the bath, in which order, and how much water?",
    subject: Subject::Bath,
    quick: true,
    from_start: true,
    inputs: &[
        input("V_t", "Tank, filled to the mark", L, [0.1, 100_000.0], [5.0, 5000.0])
            .needed()
            .group("Volume in circulation")
            .help("What the tank itself holds at its working level."),
        input("V_c", "Chambers", L, [0.0, 100_000.0], [0.0, 1000.0]).usually(0.0)
            .group("Volume in circulation")
            .help("All plating chambers together, filled as in service."),
        input("V_p", "Filters and pipes", L, [0.0, 10_000.0], [0.0, 500.0]).usually(0.0)
            .group("Volume in circulation")
            .help("Filter housings, pump, exchanger and pipes, filled."),
        input("V_stay", "Stays behind when dumped", L, [0.0, 10_000.0], [0.0, 500.0]).usually(0.0)
            .group("Volume in circulation")
            .help("Below the drain, in filters and low pipes."),
        choice("class", "Class", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("Bath")
            .help("What the bath is by hazard. Unknown counts as incompatible with cyanide."),
        choice("recipe", "Usual ranges to compare with", NUMBER, recipes::WORDS)
            .group("Bath")
            .help("Those of a recipe, told below with what lies outside of them; filling in from a recipe chooses it. Your data sheet rules."),
        input("T_m", "Temperature of make-up", CELSIUS, [5.0, 60.0], [15.0, 30.0]).usually(20.0)
            .group("Bath")
            .help("Of the water and the liquids as they go in; volumes and densities are meant at it."),
        choice("by", "Density of the bath", NUMBER, &[(MODEL, 0.0), (TYPED, 0.0), (ADDED, 0.0)])
            .group("Bath")
            .help("The model knows common salts, acids and alkalis; for others volumes are added up. A measured density is better."),
        input("ρ_typed", "Density as measured", KG_PER_L, [0.7, 3.0], [1.0, 1.6])
            .optional()
            .group("Bath")
            .help("Of the finished bath at the temperature of make-up, by hydrometer.")
            .when(When::Is("by", &[TYPED])),
        input("c_typed", "Heat capacity, if known", KJ_PER_KG_K, [1.0, 4.5], [2.5, 4.2])
            .optional()
            .group("Bath")
            .help("Left out, it comes from the solution model where that holds."),
        input("f_1", "Share of the water that goes in first", PERCENT, [10.0, 100.0], [50.0, 90.0]).usually(65.0)
            .group("Work")
            .help("60 to 70 % is common practice: enough to take up the heat, with room for what follows. Much copper beside much acid wants more."),
        input("V_b", "Made in batches of", L, [0.1, 100_000.0], [1.0, 2000.0])
            .optional()
            .group("Work")
            .help("The volume of one batch, if the mixing vessel is smaller than the bath."),
    ],
    tables: &[
        Table {
            id: TABLE,
            label: "Ingredients",
            key_label: "Ingredient",
            add: Some("Add an ingredient"),
            suggest: words::NAMES,
            presets: words::PRESETS,
            columns: &[
                note("formula", "Formula")
                    .help("As on the label, with its water: CuSO4·5H2O. Left out, a common name says it."),
                choice("supply", "Supplied as", NUMBER, Supply::WORDS)
                    .help("A solid, or a liquid whose strength is given in one of these ways."),
                choice("wanted", "Wanted as", NUMBER, Wanted::WORDS)
                    .help("40 g/L of copper is not 40 g/L of copper sulfate: say which one is meant.")
                    .when(When::Not("supply", &[Supply::DOSE])),
                note("species", "Metal or ion")
                    .help("What is counted: Cu, Ni, Cl, SO4. Left out, it is the metal of the formula.")
                    .when(When::Is("wanted", &[Wanted::METAL, Wanted::ION])),
                target("c_m", "Metal wanted", G_PER_L_METAL, [1000.0, 200.0])
                    .when(When::Is("wanted", &[Wanted::METAL])),
                target("c_i", "Ion wanted", G_PER_L, [1000.0, 200.0])
                    .when(When::Is("wanted", &[Wanted::ION])),
                target("c_s", "Substance wanted", G_PER_L, [2000.0, 400.0])
                    .when(When::Is("wanted", &[Wanted::SUBSTANCE])),
                target("C_n", "Amount wanted", MOL_PER_L, [30.0, 5.0])
                    .when(When::Is("wanted", &[Wanted::AMOUNT])),
                target("d_l", "Dose wanted", ML_PER_L, [1000.0, 500.0])
                    .when(When::Is("wanted", &[Wanted::DOSE])),
                target("d", "Dose wanted", ML_PER_L, [1000.0, 100.0])
                    .when(When::Is("supply", &[Supply::DOSE])),
                input("p", "Purity", PERCENT, [0.01, 100.0], [90.0, 100.0]).usually(100.0)
                    .help("By mass, from the label.")
                    .when(When::Is("supply", &[Supply::SOLID])),
                input("w", "Strength", MASS_PERCENT, [0.001, 100.0], [1.0, 98.0])
                    .optional()
                    .help("Mass of the substance in a hundred of the liquid, from the label.")
                    .picks(&[("96 % acid", 96.0), ("50 % acid", 50.0), ("37 % acid", 37.0)])
                    .when(When::Is("supply", &[Supply::BY_MASS])),
                input("C_k", "Strength", MOL_PER_L, [0.0001, 40.0], [0.1, 20.0])
                    .optional()
                    .help("Amount of the substance in a litre, not equivalents.")
                    .when(When::Is("supply", &[Supply::BY_MOL])),
                input("k_m", "Content of metal", G_PER_L_METAL, [0.001, 2000.0], [1.0, 400.0])
                    .optional()
                    .help("Of the concentrate, from its label.")
                    .when(When::Is("supply", &[Supply::BY_METAL])),
                input("k_s", "Content", G_PER_L, [0.001, 3000.0], [1.0, 1800.0])
                    .optional()
                    .help("Of the substance in a litre of the concentrate, from its label.")
                    .when(When::Is("supply", &[Supply::BY_GRAMS])),
                input("ρ_k", "Density of the liquid", KG_PER_L, [0.7, 3.0], [0.9, 1.9])
                    .optional()
                    .help("From the label; left out, from the solution model, and as water for an additive.")
                    .when(LIQUIDS),
                note("carries", "Also carries")
                    .help("Formula of what else the concentrate holds, such as H2SO4; it is taken off what is added of that.")
                    .when(CONCENTRATES),
                input("k_c", "How much of that", G_PER_L, [0.0, 2000.0], [0.0, 300.0])
                    .optional()
                    .help("In a litre of the concentrate.")
                    .when(CONCENTRATES),
                input("added", "Amount added", KG, [0.0, 1e6], [0.0, 1e4])
                    .optional()
                    .help("What was weighed in; the concentration really reached follows from it.")
                    .when(When::Is("supply", &[Supply::SOLID])),
                input("v_added", "Volume added", L, [0.0, 1e5], [0.0, 1e4])
                    .optional()
                    .help("What was measured in; the concentration really reached follows from it.")
                    .when(LIQUIDS),
                note("lot", "Lot").help("From the label."),
                note("initials", "Added by").help("Initials of who added it."),
                note("checked", "Checked by").help("Initials of a second person."),
            ],
            answers: &[
                output("m", "To weigh", KG),
                output("v", "To measure", L).missing("only liquids are measured"),
                output("m_b", "To weigh for a batch", KG).missing("type the volume of a batch"),
                output("v_b", "To measure for a batch", L).missing("type the volume of a batch"),
                output("s_1", "Share of what dissolves in the first water", PERCENT)
                    .missing("only solids whose solubility is known here")
                    .cured_by(&[("make-up", "f_1")]),
                output("s_c", "Share of what stays dissolved there once cold", PERCENT)
                    .missing("only for copper sulfate beside sulfuric acid")
                    .cured_by(&[("make-up", "f_1")]),
                output("x", "Share of metal in it", PERCENT_METAL).missing("only for metal by formula"),
                output("c_m_got", "Metal really reached", G_PER_L_METAL).missing("type the amount added"),
                output("c_got", "Really reached", G_PER_L).missing("type the amount added"),
                output("d_got", "Dose really reached", ML_PER_L).missing("type the volume added"),
                verdict("hazard", "Handle it as", meets::HAZARDS),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals in the finished bath",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("c_M", "In the bath", G_PER_L_METAL).role(Role::Concentration),
                output("c_M_want", "As wanted", G_PER_L_METAL),
            ],
        },
        Table {
            id: components::TABLE,
            label: "Components, as a correction takes them",
            key_label: "Component",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("c_C", "As wanted", G_PER_L),
                verdict("as_C", "Added as", components::ADDED_AS),
                output("x_C", "Share of it in the solid", MASS_PERCENT)
                    .missing("only of a solid that brings nothing else of this list"),
                output("p_C", "Purity of the solid", PERCENT).missing("only of solids"),
                output("s_C", "In a litre of the liquid", G_PER_L)
                    .missing("only of a liquid that brings nothing else of this list"),
                verdict("h_C", "Handle what brings it as", meets::HAZARDS),
            ],
        },
        Table {
            id: sort::BESIDES,
            label: "Analysed besides: additives, and pH where it is held",
            key_label: "What",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("is_D", "What it is", sort::SORTS),
                output("d_D", "Dose as wanted", ML_PER_L).missing("only of what is dosed by volume"),
            ],
        },
    ],
    outputs: &[
        output("m_w", "Water to add, in all", KG),
        output("m_w1", "Of it first", KG).beside(),
        output("V", "Volume in circulation", L).beside().role(Role::Volume),
        output("ρ", "Density of the bath", KG_PER_L).beside(),
        output("ΔT", "Acid or caustic warms it by", KELVINS).beside(),
        output("T_mix", "Temperature reached without cooling", CELSIUS)
            .beside()
            .cured_by(&[("make-up", "f_1"), ("make-up", "T_m")]),
        output("H", "Heat of mixing", KJ),
        output("V_dump", "Volume of a dump", L),
        output("c_p", "Heat capacity of the bath", KJ_PER_KG_K)
            .missing("type it: the solution model does not know it"),
        output("c_T", "All metals together", G_PER_L_METAL),
        output("m_bath", "Mass of the whole bath", KG),
        output("V_w", "Volume of the water to add", L),
        output("m_h", "Water that the salts bring along", KG),
        output("V_in", "Liquids and water, volumes added up", L),
        output("ΔV", "Gained by salts and mixing", L),
        output("N_b", "Batches", NUMBER).missing("type the volume of a batch"),
        output("m_wb", "Water for a batch", KG).missing("type the volume of a batch"),
        verdict("held", "It is run on its pH", sort::SAID),
        verdict("adds", "It has additives", sort::SAID),
        verdict("plates", "It holds metal to plate", sort::SAID),
    ],
    picture: Some(Picture { across: "V_t", up: "m_w" }),
    work_order: Some(WorkOrder {
        table: TABLE,
        added: "added",
        signed: &["v_added", "lot", "initials", "checked"],
        done_by: "Made up by",
    }),
    recipes: recipes::LIST,
    cautions: &[
        cautions::STRONG_ACID,
        cautions::CAUSTIC,
        cautions::NICKEL,
        cautions::CYANIDE,
        Caution { when: &[When::Is("class", &["cyanide"])], text: cautions::CYANIDE_BATH_TEXT },
        cautions::FLUORIDE,
        cautions::OXIDISER,
        Caution { when: &[When::Above("ΔT", 20.0)], text: cautions::HOT_TEXT },
    ],
    sources: &[
        "Mass balance: water is what the whole bath weighs less all that is added; volumes do not add up.",
        "Molar masses: IUPAC standard atomic weights 2021, abridged.",
        "Density and heat capacity of solutions: Laliberté, J. Chem. Eng. Data 54 (2009) 1725; strong sulfuric acid: table of the public atmospheric model CARMA.",
        "Heat of mixing: NBS TN 270; CRC Handbook after Parker, NSRDS-NBS 2 (1965); Koretsky, Engineering and Chemical Thermodynamics, table 6.1.",
        "Solubilities in water, 2 kg/L for crystals, limits of plastics: from memory. Share of the first water: common practice, no source.",
        "Copper sulfate beside sulfuric acid: fitted to PHREEQC 3.8.6 with pitzer.dat and parameters from memory; to 10 % up to 200 g of acid in a kilogram of water, 20 % at 400 g.",
        "Acid into water: 40 CFR 265, appendix V. Which baths are run on their pH: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "molmass fraction and pint 0.24.4: 31.91227 kg of CuSO4·5H2O of 98.5 % for 200 L with 40 g/L of copper",
            inputs: &[("V_t", "200 L")],
            rows: &[(TABLE, "Copper sulfate", &[("formula", "CuSO4(H2O)5"), ("c_m", "40 g/L"), ("p", "98.5 %")])],
            answers: &[
                ("m[Copper sulfate]", "31.91227 kg"),
                ("c_M[Cu]", "40 g/L"),
                ("V", "200 L"),
                ("V_dump", "200 L"),
            ],
            within: 4e-4,
        },
        Example {
            source: "molmass fraction and pint 0.24.4: 66.02291 kg of nickel sulfamate tetrahydrate for 150 L with 80 g/L of nickel",
            inputs: &[("V_t", "100 L"), ("V_c", "30 L"), ("V_p", "20 L"), ("V_stay", "15 L"), ("by", TYPED), ("ρ_typed", "1.2 kg/L")],
            rows: &[(TABLE, "Nickel sulfamate", &[("formula", "Ni(NH2SO3)2(H2O)4"), ("c_m", "80 g/L")])],
            answers: &[("m[Nickel sulfamate]", "66.02291 kg"), ("V_dump", "135 L"), ("m_bath", "180 kg")],
            within: 4e-4,
        },
        Example {
            source: "pint, mass balance: 10.19022 L of 96 % acid of 1.84 kg/L for 100 L with 180 g/L",
            inputs: &[("V_t", "100 L")],
            rows: &[(TABLE, "Sulfuric acid", &[
                ("formula", "H2SO4"),
                ("supply", Supply::BY_MASS),
                ("wanted", Wanted::SUBSTANCE),
                ("c_s", "180 g/L"),
                ("w", "96 %"),
                ("ρ_k", "1.84 kg/L"),
            ])],
            answers: &[("v[Sulfuric acid]", "10.19022 L")],
            within: 1e-4,
        },
        Example {
            source: "thermo 0.6.1, Laliberté density of 8 % CuSO4 with 10 % H2SO4 at 25 °C: 1157.82 kg/m³, so 92.6256 and 115.782 g/L",
            inputs: &[("V_t", "100 L"), ("T_m", "25 °C")],
            rows: &[
                (TABLE, "Copper salt", &[
                    ("formula", "CuSO4"),
                    ("wanted", Wanted::SUBSTANCE),
                    ("c_s", "92.6256 g/L"),
                ]),
                (TABLE, "Sulfuric acid", &[
                    ("supply", Supply::BY_MASS),
                    ("wanted", Wanted::SUBSTANCE),
                    ("c_s", "115.78 g/L"),
                    ("w", "96 %"),
                ]),
            ],
            answers: &[("ρ", "1.15782 kg/L"), ("m_bath", "115.78 kg")],
            within: 1e-3,
        },
        Example {
            source: "molmass fraction 0.25451, and by hand: a litre of 96 % acid of 1.84 kg/L holds 1766.4 g, and 18 kg weigh 18.75",
            inputs: &[("V_t", "100 L"), ("class", "acid"), ("by", TYPED), ("ρ_typed", "1.22 kg/L")],
            rows: &[
                (TABLE, "Copper sulfate", &[("c_m", "40 g/L")]),
                (TABLE, "Sulfuric acid", &[
                    ("supply", Supply::BY_MASS),
                    ("wanted", Wanted::SUBSTANCE),
                    ("c_s", "180 g/L"),
                    ("w", "96 %"),
                    ("ρ_k", "1.84 kg/L"),
                ]),
            ],
            answers: &[
                ("m[Copper sulfate]", "15.7165 kg"),
                ("x_C[Cu]", "25.4510 %"),
                ("s_C[H2SO4]", "1766.4 g/L"),
                ("m[Sulfuric acid]", "18.75 kg"),
            ],
            within: 4e-4,
        },
    ],
    work: sum::work,
};
