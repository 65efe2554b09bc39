//! Dilution of a stock and mixing of two liquids: masses add up, volumes do not, and it may get hot.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum and the work order.

mod sum;
#[cfg(test)]
mod tests;

use super::cautions;
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Subject, Table, When, WorkOrder, choice, input, note,
    output,
};
use crate::units::{CELSIUS, G_PER_L, KELVINS, KG, KG_PER_L, KJ, L, MASS_PERCENT, MOL_PER_L, NUMBER, Unit};

const BY_MASS: &str = "a stock to a strength in mass %";
const BY_VOLUME: &str = "a stock to a strength per litre";
const MIX: &str = "two liquids into one another";
const IN_MOL: &str = "mol/L";
const IN_GRAMS: &str = "g/L";
const A_VOLUME: &str = "a volume";
const A_MASS: &str = "a mass";

const SULFURIC: &str = "sulfuric acid";
const HYDROCHLORIC: &str = "hydrochloric acid";
const NITRIC: &str = "nitric acid";
const PHOSPHORIC: &str = "phosphoric acid";
const SODIUM: &str = "sodium hydroxide";
const POTASSIUM: &str = "potassium hydroxide";
const OTHER: &str = "another, with densities typed";

const SUBSTANCES: &[(&str, f64)] = &[
    (SULFURIC, 0.0),
    (HYDROCHLORIC, 0.0),
    (NITRIC, 0.0),
    (PHOSPHORIC, 0.0),
    (SODIUM, 0.0),
    (POTASSIUM, 0.0),
    (OTHER, 0.0),
];
const ACIDS: &[&str] = &[SULFURIC, HYDROCHLORIC, NITRIC, PHOSPHORIC];
const CAUSTICS: &[&str] = &[SODIUM, POTASSIUM];
const KNOWN_ONLY: &str = "choose the substance, or type the densities";
const HEAT_ONLY: &str = "the heat of this substance is not known here";

const fn strength(symbol: &'static str, label: &'static str, unit: &'static Unit, most: f64) -> Input {
    input(symbol, label, unit, [0.0, most], [0.0, most]).needed()
}

const fn density(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, KG_PER_L, [0.6, 3.0], [0.8, 1.9])
        .optional()
        .group("Liquids")
        .help("As measured or from the label, at the temperature at which volumes are read.")
        .when(When::Is("what", &[OTHER]))
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "dilution",
    title: "Dilution and mixing",
    question: "How much stock and how much water, what volume do they make, and how hot does it get?",
    subject: Subject::Mixing,
    quick: true,
    from_start: true,
    inputs: &[
        choice("ask", "Bring", NUMBER, &[(BY_MASS, 0.0), (BY_VOLUME, 0.0), (MIX, 0.0)])
            .help("By mass it is exact; by volume it is filled up to the mark."),
        choice("what", "What is dissolved", NUMBER, SUBSTANCES)
            .help("Density and heat of these are known; of another only what is typed counts."),
        strength("w_1", "Strength of the stock", MASS_PERCENT, 100.0)
            .group("Strengths")
            .help("Mass of the substance in a hundred of the stock, from the label.")
            .when(When::Is("ask", &[BY_MASS])),
        strength("w_2", "Strength wanted", MASS_PERCENT, 100.0)
            .group("Strengths")
            .help("Of the finished solution, by mass.")
            .when(When::Is("ask", &[BY_MASS])),
        choice("size", "How much is wanted", NUMBER, &[(A_VOLUME, 0.0), (A_MASS, 0.0)])
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("ask", &[BY_MASS])),
        input("V_m", "Volume wanted", L, [0.001, 100_000.0], [0.1, 5000.0])
            .needed()
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("size", &[A_VOLUME])),
        input("m_2", "Mass wanted", KG, [0.001, 100_000.0], [0.1, 5000.0])
            .needed()
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("size", &[A_MASS])),
        choice("per", "Strengths are given in", NUMBER, &[(IN_MOL, 0.0), (IN_GRAMS, 0.0)])
            .group("Strengths")
            .help("Both strengths in the same measure; equivalents are not moles.")
            .when(When::Is("ask", &[BY_VOLUME])),
        strength("C_1", "Strength of the stock", MOL_PER_L, 40.0)
            .group("Strengths")
            .help("Amount of the substance in a litre.")
            .when(When::Is("per", &[IN_MOL])),
        strength("C_2", "Strength wanted", MOL_PER_L, 40.0)
            .group("Strengths")
            .help("Amount of the substance in a litre of the finished solution.")
            .when(When::Is("per", &[IN_MOL])),
        strength("c_1", "Strength of the stock", G_PER_L, 2000.0)
            .group("Strengths")
            .help("Grams of the substance in a litre.")
            .when(When::Is("per", &[IN_GRAMS])),
        strength("c_2", "Strength wanted", G_PER_L, 2000.0)
            .group("Strengths")
            .help("Grams of the substance in a litre of the finished solution.")
            .when(When::Is("per", &[IN_GRAMS])),
        input("V_2", "Volume wanted", L, [0.001, 100_000.0], [0.1, 5000.0])
            .needed()
            .group("Strengths")
            .help("Of the finished solution, filled up to the mark.")
            .when(When::Is("ask", &[BY_VOLUME])),
        input("V_a", "Volume of the first liquid", L, [0.001, 100_000.0], [0.1, 5000.0])
            .needed()
            .group("Strengths")
            .help("For two streams, what flows of each in the same time.")
            .when(When::Is("ask", &[MIX])),
        strength("w_a", "Strength of the first liquid", MASS_PERCENT, 100.0)
            .group("Strengths")
            .help("By mass; nought for water.")
            .when(When::Is("ask", &[MIX])),
        input("V_k", "Volume of the second liquid", L, [0.001, 100_000.0], [0.1, 5000.0])
            .needed()
            .group("Strengths")
            .help("For two streams, what flows of each in the same time.")
            .when(When::Is("ask", &[MIX])),
        strength("w_k", "Strength of the second liquid", MASS_PERCENT, 100.0)
            .group("Strengths")
            .help("By mass, of the same substance; nought for water.")
            .when(When::Is("ask", &[MIX])),
        input("T_v", "Volumes are read at", CELSIUS, [5.0, 60.0], [15.0, 30.0])
            .usually(20.0)
            .group("Liquids")
            .help("Densities and volumes are meant at this temperature."),
        input("T_1", "Stock, or first liquid, starts at", CELSIUS, [5.0, 60.0], [10.0, 30.0])
            .usually(20.0)
            .group("Liquids")
            .help("Its temperature before mixing."),
        input("T_0", "Water, or second liquid, starts at", CELSIUS, [2.0, 60.0], [5.0, 30.0])
            .usually(20.0)
            .group("Liquids")
            .help("Its temperature before mixing; cold water leaves more room for the heat."),
        density("ρ_1", "Density of the stock, or first liquid"),
        density("ρ_0", "Density of the second liquid"),
        density("ρ_2", "Density of the finished solution"),
    ],
    tables: &[Table {
        id: "batches",
        label: "Batches that were made",
        key_label: "Batch",
        add: Some("Add a batch"),
        suggest: &[],
        presets: &[],
        columns: &[
            input("V_added", "Stock taken", L, [0.0, 1e5], [0.0, 5000.0])
                .optional()
                .help("What was really measured in."),
            note("lot", "Lot").help("From the label of the stock."),
            note("initials", "Made by").help("Initials of who made it."),
            note("checked", "Checked by").help("Initials of a second person."),
        ],
        answers: &[output("V_got", "Fill up to, for that stock", L).missing("type the stock taken")],
    }],
    outputs: &[
        output("V_1", "Stock, or first liquid", L),
        output("m_0", "Water, or second liquid", KG).beside().missing(KNOWN_ONLY),
        output("V", "Volume it makes", L).beside(),
        output("ΔT", "It warms by", KELVINS).beside().missing(HEAT_ONLY),
        output("T", "Temperature reached, without cooling", CELSIUS)
            .beside()
            .missing(HEAT_ONLY)
            .cured_by(&[("dilution", "T_0")]),
        output("m_1", "Mass of the stock, or first liquid", KG).missing(KNOWN_ONLY),
        output("V_0", "Volume of the water, or second liquid", L).missing(KNOWN_ONLY),
        output("ΔV", "Lost on mixing", L).missing(KNOWN_ONLY),
        output("w", "Strength", MASS_PERCENT).missing("choose the substance, or mass %"),
        output("c", "Strength per volume", G_PER_L).missing("choose the substance, or mass %"),
        output("C", "Strength in mol/L", MOL_PER_L).missing("choose the substance"),
        output("ρ", "Density", KG_PER_L).missing(KNOWN_ONLY),
        output("m", "Mass in all", KG).missing(KNOWN_ONLY),
        output("H", "Heat given off", KJ).missing(HEAT_ONLY),
    ],
    picture: Some(Picture { across: "w_2", up: "V_1" }),
    work_order: Some(WorkOrder {
        table: "batches",
        added: "V_added",
        signed: &["lot", "initials", "checked"],
        done_by: "Diluted by",
    }),
    recipes: &[],
    cautions: &[
        Caution { when: &[When::Is("what", ACIDS)], text: cautions::ACID_TEXT },
        Caution { when: &[When::Is("what", CAUSTICS)], text: cautions::CAUSTIC_TEXT },
        Caution {
            when: &[When::Is("what", &[NITRIC])],
            text: "Nitric acid oxidises: keep it from organics, solvents and resin; brown fume is poisonous.",
        },
        Caution {
            when: &[When::Is("what", &[OTHER])],
            text: "Mix only what is known to go together: never cyanide with acid, never an oxidiser with organics. The safety data sheets and a trained person decide.",
        },
        Caution { when: &[When::Above("ΔT", 20.0)], text: cautions::HOT_TEXT },
    ],
    sources: &[
        "Balance of the amount, C₁V₁ = C₂V₂, to the mark; mass balance (lever rule).",
        "Density and heat capacity of solutions: Laliberté, J. Chem. Eng. Data 54 (2009) 1725; strong sulfuric acid: table of the public atmospheric model CARMA.",
        "Heat of mixing: NBS TN 270; CRC Handbook after Parker, NSRDS-NBS 2 (1965); Koretsky, Engineering and Chemical Thermodynamics, table 6.1.",
        "Heat capacity of sulfuric acid above 94 %, limits of plastics: from memory.",
        "Acid into water: 40 CFR 265, appendix V.",
    ],
    examples: &[
        Example {
            source: "OpenStax Chemistry 2e, m68703: 0.314 L of 1.59 mol/L for 5.00 L of 0.100 mol/L",
            inputs: &[("ask", BY_VOLUME), ("what", OTHER), ("C_1", "1.59"), ("C_2", "0.1"), ("V_2", "5")],
            rows: &[],
            answers: &[("V_1", "0.3140 L"), ("V", "5 L")],
            within: 3e-3,
        },
        Example {
            source: "chempy (Myhre), thermo 0.6.1 (Laliberté) and iapws: 100 kg of 90 % acid to 30 % shrinks by 3.652 % of 255.5 L",
            inputs: &[("w_1", "90 %"), ("w_2", "30 %"), ("size", A_MASS), ("m_2", "300 kg")],
            rows: &[],
            answers: &[("ΔV", "9.33 L"), ("m_1", "100 kg"), ("m_0", "200 kg"), ("w", "30 %")],
            within: 0.01,
        },
        Example {
            source: "Koretsky table 6.1 and Felder & Rousseau table B.11 with thermo 0.6.1: 20 kg of 96 % acid in 80 kg of water, +35.03 K",
            inputs: &[
                ("w_1", "96 %"),
                ("w_2", "19.2 %"),
                ("size", A_MASS),
                ("m_2", "100 kg"),
                ("T_v", "25 °C"),
                ("T_1", "25 °C"),
                ("T_0", "25 °C"),
            ],
            rows: &[],
            answers: &[("ΔT", "35.03 K"), ("m_1", "20 kg"), ("m_0", "80 kg")],
            within: 0.01,
        },
        Example {
            source: "thermo 0.6.1 (Laliberté): 30 % sulfuric acid at 20 °C is 1.2192 kg/L; mixed with its own kind it stays so",
            inputs: &[("ask", MIX), ("w_a", "30 %"), ("w_k", "30 %"), ("V_a", "10 L"), ("V_k", "5 L")],
            rows: &[],
            answers: &[("ρ", "1.2192 kg/L"), ("V", "15 L"), ("m", "18.29 kg"), ("w", "30 %")],
            within: 1e-3,
        },
    ],
    work: sum::work,
};
