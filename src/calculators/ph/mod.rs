//! pH of a bath, what brings it to another one, and two bottles that hold it there.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum;
//! - [`bottles`]: what may be added to a bath of which class;
//! - [`meets`]: what is dissolved that must not meet a bath of which class.

pub(super) mod bottles;
mod meets;
mod sum;
#[cfg(test)]
mod tests;

use super::reagent::{STOCK_GRAMS, STOCK_MOLES, STOCK_SHARE, STRENGTHS};
use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Severity, Subject, Table, When, choice, input, output,
    verdict,
};
use crate::units::{
    CELSIUS, G_PER_L, KG, KG_PER_L, L, MASS_PERCENT, MINUTE, ML, ML_PER_DAY, MOL_PER_L, NUMBER, PER_DAY,
    PERCENT,
};

/// The table of what is dissolved.
const TABLE: &str = "solutes";

const COUNTED: &str = "counted";
const LEFT_OUT: &str = "left out, as in textbooks";
const BY_NAME: &str = "of the list, in mol/L";
const BY_MASS: &str = "of the list, in g/L";
const ACID: &str = "an acid, pKa typed";
const BASE: &str = "a base, pKa typed";
const NO: &str = "no";
const YES: &str = "yes";
const HOLDS: When = When::Is("hold", &[YES]);
const UP: &str = "the bottle that raises";
const DOWN: &str = "the bottle that lowers";

/// Classes that acid may be added to: it must not meet the others.
const TAKES_ACID: &[&str] = &["acid", "alkaline", "oxidiser", "ammonia or complexed"];
const MAY_LOWER: When = When::Is("class_p", TAKES_ACID);

const fn pka(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, NUMBER, [-5.0, 20.0], [0.0, 14.0])
        .optional()
        .help("At 25 °C and infinite dilution. An acid or base without any counts as strong.")
}

const UP_STRENGTH: &str = "Strength of what raises";
const DOWN_STRENGTH: &str = "Strength of what lowers";

const fn given(symbol: &'static str, label: &'static str) -> Input {
    choice(symbol, label, NUMBER, STRENGTHS).group("Change").help("As the label of the bottle has it.")
}

const fn moles(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, MOL_PER_L, [1e-6, 30.0], [0.01, 20.0])
        .usually(1.0)
        .group("Change")
        .help("Of the substance; not equivalents.")
}

const fn grams(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, G_PER_L, [0.0001, 2000.0], [1.0, 1000.0])
        .needed()
        .group("Change")
        .help("Of the pure substance in a litre.")
}

const fn share(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, MASS_PERCENT, [0.01, 98.0], [1.0, 96.0])
        .needed()
        .group("Change")
        .help("By mass: what a label says in % as a rule.")
}

const fn density(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, KG_PER_L, [0.7, 2.5], [0.85, 1.9])
        .optional()
        .group("Change")
        .help("Left out, that of the pure substance in water at 20 °C, where it is known.")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "ph",
    title: "pH",
    question: "What is the pH, how much of which bottle changes it, and what holds it?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class_p", "Class", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .follows(&[("make-up", "class")])
            .group("Bath")
            .help("What the bath is by hazard. Acid is not offered for cyanide, sulfite, fluoride, solvents, or what is not known."),
        input("V", "Volume in circulation", L, [0.001, 100_000.0], [1.0, 5000.0])
            .optional()
            .follows(&[("make-up", "V")])
            .group("Bath")
            .help("For volumes of a bottle; the pH does not ask for it."),
        input("T", "Temperature", CELSIUS, [0.0, 100.0], [15.0, 70.0]).usually(25.0)
            .group("Bath")
            .help("At which the pH is meant. Warm water is neutral below pH 7."),
        choice("activity", "Activities", NUMBER, &[(COUNTED, 0.0), (LEFT_OUT, 0.0)])
            .group("Bath")
            .help("Counted, the pH is what an electrode reads; left out, it is what a textbook works out."),
        input("pH_m", "pH as measured", NUMBER, [0.5, 14.0], [1.0, 13.0])
            .optional()
            .group("Bath")
            .help("With a probe calibrated at this temperature. What the sum misses is then made up with strong acid or base."),
        input("pH_w", "pH wanted", NUMBER, [0.5, 14.0], [1.0, 13.0])
            .optional()
            .group("Change")
            .help("Where the bath is to be, and to be held."),
        choice("up", "Bottle that raises", NUMBER, bottles::RAISE)
            .group("Change")
            .help("Nickel baths are often raised with nickel carbonate; that gives off gas, and is not worked out here."),
        given("as_up", "Strength of what raises is given"),
        moles("C_up", UP_STRENGTH).when(When::Is("as_up", &[STOCK_MOLES])),
        grams("c_up", UP_STRENGTH).when(When::Is("as_up", &[STOCK_GRAMS])),
        share("w_up", UP_STRENGTH).when(When::Is("as_up", &[STOCK_SHARE])),
        density("ρ_up", "Density of what raises").when(When::Is("as_up", &[STOCK_SHARE])),
        choice("down", "Bottle that lowers", NUMBER, bottles::LOWER)
            .group("Change")
            .help("The acid that the bath is made with, as a rule.")
            .when(MAY_LOWER),
        given("as_down", "Strength of what lowers is given").when(MAY_LOWER),
        moles("C_down", DOWN_STRENGTH).when(When::Is("as_down", &[STOCK_MOLES])),
        grams("c_down", DOWN_STRENGTH).when(When::Is("as_down", &[STOCK_GRAMS])),
        share("w_down", DOWN_STRENGTH).when(When::Is("as_down", &[STOCK_SHARE])),
        density("ρ_down", "Density of what lowers").when(When::Is("as_down", &[STOCK_SHARE])),
        choice("with", "Curve with", NUMBER, &[(UP, 0.0), (DOWN, 0.0)])
            .group("Titration curve")
            .help("The picture shows the pH over the volume of this bottle.")
            .when(MAY_LOWER),
        input("V_try", "Dose tried", L, [0.0, 100_000.0], [0.0, 10.0]).usually(0.0)
            .group("Titration curve")
            .help("A volume of this bottle to try."),
        choice("hold", "Hold the pH with two bottles", NUMBER, &[(NO, 0.0), (YES, 0.0)])
            .group("Two bottles that hold it")
            .help("A pump for each, and a probe that starts them."),
        input("v_d", "One dose", ML, [0.001, 100_000.0], [1.0, 1000.0])
            .needed()
            .group("Two bottles that hold it")
            .help("The least that the pump gives, often 1 mL or a stroke.")
            .when(HOLDS),
        input("b", "Dead band", NUMBER, [0.0, 5.0], [0.05, 1.0]).usually(0.2)
            .group("Two bottles that hold it")
            .help("From where one bottle starts to where the other does, around the pH wanted; nothing is dosed in it.")
            .when(HOLDS),
        input("t_mix", "Until the probe shows a dose", MINUTE, [0.0, 1440.0], [1.0, 60.0]).usually(10.0)
            .group("Two bottles that hold it")
            .help("Mixing and the probe’s own delay.")
            .when(HOLDS),
        input("t_d", "Between doses", MINUTE, [0.01, 1440.0], [1.0, 60.0]).usually(10.0)
            .group("Two bottles that hold it")
            .help("The pause after each; at least the time before is good practice.")
            .when(HOLDS),
        input("δ", "The probe repeats to", NUMBER, [0.0, 1.0], [0.01, 0.2]).usually(0.02)
            .group("Two bottles that hold it")
            .help("0.02 is common practice for a clean probe.")
            .when(HOLDS),
        input("d", "The pH drifts by", PER_DAY, [-10.0, 10.0], [-1.0, 1.0])
            .optional()
            .group("Two bottles that hold it")
            .help("In pH a day, as measured with nothing dosed: more than 0 if it rises.")
            .when(HOLDS),
    ],
    tables: &[Table {
        id: TABLE,
        label: "What is dissolved",
        key_label: "Acid, base or salt",
        add: Some("Add a substance"),
        suggest: bottles::NAMES,
        presets: &[],
        columns: &[
            choice("known_as", "What it is", NUMBER, &[(BY_NAME, 0.0), (BY_MASS, 0.0), (ACID, 0.0), (BASE, 0.0)])
                .help("A substance of the list, or your own with its constants."),
            input("C", "In the bath", MOL_PER_L, [0.0, 20.0], [0.0, 5.0])
                .needed()
                .help("Of the substance itself, however much of it is split.")
                .when(When::Not("known_as", &[BY_MASS])),
            input("c_s", "In the bath", G_PER_L, [0.0, 2000.0], [0.0, 500.0])
                .needed()
                .help("Of the substance as it stands in the list: nickel sulfate without its water, not nickel.")
                .when(When::Is("known_as", &[BY_MASS])),
            pka("pK_1", "First pKa").when(When::Is("known_as", &[ACID, BASE])),
            pka("pK_2", "Second pKa").when(When::Is("known_as", &[ACID])),
            pka("pK_3", "Third pKa").when(When::Is("known_as", &[ACID])),
        ],
        answers: &[
            output("C_s", "Amount in the bath", MOL_PER_L),
            verdict("from", "Its constants are from", bottles::SOURCES),
        ],
    }],
    outputs: &[
        output("pH", "pH of the bath", NUMBER),
        output("V_r", "Of the bottle", L).missing("type the pH wanted and the volume").beside(),
        verdict("bottle", "Which bottle", bottles::VERDICTS).beside(),
        output("I", "Ionic strength", MOL_PER_L).above(
            0.5,
            Severity::Caution,
            "A pH that is worked out is an indication there: measure it, and type it in.",
        ),
        output("β", "Buffer capacity", MOL_PER_L),
        output("pH_n", "Water is neutral at", NUMBER),
        output("pH_c", "pH as the sum has it", NUMBER),
        output("b_0", "Strong base that the sum misses", MOL_PER_L).missing("type the pH as measured"),
        output("n_r", "Of the bottle’s substance, a litre of bath", MOL_PER_L).missing("type the pH wanted"),
        output("m_r", "Of the bottle’s substance", KG).missing("type the pH wanted and the volume"),
        output("s_r", "Of the bottle, against the bath", PERCENT)
            .missing("type the pH wanted and the volume")
            .above(20.0, Severity::Caution, "So much liquid is no correction: it thins the bath, and the tank may run over. Take a stronger bottle.")
            .cured_by(&[("ph", "C_up"), ("ph", "C_down")]),
        output("pH_try", "pH after the dose tried", NUMBER).missing("type the volume"),
        output("Δ_up", "One dose raises it by", NUMBER).missing("say that two bottles hold it, and type volume and dose"),
        output("Δ_down", "One dose lowers it by", NUMBER).missing("say that two bottles hold it, and type volume and dose"),
        output("b_least", "Least dead band", NUMBER).missing("say that two bottles hold it, and type volume and dose"),
        output("b_x", "Dead band beyond that", NUMBER)
            .missing("say that two bottles hold it, and type volume and dose")
            .below(0.0, Severity::Caution, "The bottles hunt: a dose carries the pH past where the other one starts.")
            .cured_by(&[("ph", "b"), ("ph", "v_d"), ("ph", "t_d")]),
        output("V_day", "Takes a day", ML_PER_DAY).missing("say that two bottles hold it, and type volume, dose and drift"),
        output("f_HCN", "Free cyanide that is gas at this pH", PERCENT).missing("only for a cyanide bath"),
    ],
    picture: Some(Picture { across: "V_try", up: "pH_try" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("class_p", &["cyanide"])],
            text: "Never any acid to this bath, its rinse or its dump: free cyanide and acid give a gas that kills. A gold cyanide bath in weak acid stays as its maker made it: the free cyanide decides, not the gold complex; the maker’s safety data and a licensed person rule.",
        },
        Caution {
            when: &[MAY_LOWER],
            text: "Acid and caustic slowly, diluted, into the stirred bath, never water into acid, never both at once. Read the label of the bottle and of the bath aloud: the wrong bath may hold cyanide, sulfite or fluoride.",
        },
        Caution {
            when: &[When::Is("up", &["Ammonia"])],
            text: "Ammonia chokes and burns eyes: under exhaust, and never with hypochlorite.",
        },
        Caution {
            when: &[When::Is("class_p", &["sulfite"])],
            text: "Never any acid to this bath, its rinse or its dump: sulfite and acid give sulfur dioxide, a gas that chokes.",
        },
        Caution {
            when: &[When::Is("class_p", &["fluoride"])],
            text: "No acid to this bath, its rinse or its dump but as its maker says: fluoride and acid give hydrogen fluoride, a gas that burns lungs and skin. Hydrofluoric acid never without the site’s own first aid for it, and never in glass.",
        },
    ],
    sources: &[
        "Charge balance with activities of Debye and Hückel (Truesdell and Jones) or Davies: Parkhurst and Appelo, PHREEQC version 3, USGS Techniques and Methods 6-A43 (2013).",
        "Constants: phreeqc.dat and minteq.v4.dat of PHREEQC 3.8.6 (EPA MINTEQA2, NIST 46); sulfamic and methanesulfonic acid from memory.",
        "Water: Marshall and Franck, J. Phys. Chem. Ref. Data 10 (1981) 295; dielectric constant: Malmberg and Maryott, J. Res. NBS 56 (1956) 1.",
        "Closed to the air. Complexes of metals with citrate, ammonia and the like are not counted; volumes are taken as additive.",
        "Least dead band, and a fifth of the bath as the most of a bottle: common practice, no source. From which pH on hydrogen cyanide or sulfur dioxide leaves: from memory.",
    ],
    examples: &[
        Example {
            source: "PHREEQC 3.8.6, phreeqc.dat: H2SO4 of 0.1 mol/kg at pH 1.013; 0.2 mol NaOH a kilogram to pH 7",
            inputs: &[("class_p", "acid"), ("pH_w", "7"), ("C_up", "30 mol/L")],
            rows: &[(TABLE, "Sulfuric acid", &[("C", "0.1 mol/L")])],
            answers: &[("pH", "1.0130"), ("n_r", "0.2 mol/L"), ("bottle", bottles::RAISES)],
            within: 0.01,
        },
        Example {
            source: "PHREEQC 3.8.6, minteq.v4.dat: H3BO3 of 0.5 mol/kg with polyborates at pH 4.0907",
            inputs: &[("class_p", "acid")],
            rows: &[(TABLE, "Boric acid", &[("C", "0.5 mol/L")])],
            answers: &[("pH", "4.0907")],
            within: 0.004,
        },
        Example {
            source: "OpenStax Chemistry 2e, acid–base titrations: 25 mL of 0.1 mol/L acetic acid (Ka 1.8·10⁻⁵) with 10 mL of 0.1 mol/L NaOH at pH 4.57",
            inputs: &[("class_p", "acid"), ("activity", LEFT_OUT)],
            rows: &[
                (TABLE, "Weak acid", &[("known_as", ACID), ("C", "0.0714286 mol/L"), ("pK_1", "4.74473")]),
                (TABLE, "Sodium hydroxide", &[("C", "0.0285714 mol/L")]),
            ],
            answers: &[("pH", "4.57")],
            within: 0.0015,
        },
        Example {
            source: "By hand: 100 L of HCl of 0.01 mol/L take 1 L of NaOH of 1 mol/L to pH 7",
            inputs: &[("class_p", "acid"), ("V", "100 L"), ("pH_w", "7"), ("C_up", "1 mol/L")],
            rows: &[(TABLE, "Hydrochloric acid", &[("C", "0.01 mol/L")])],
            answers: &[("V_r", "1 L"), ("m_r", "39.9970 g")],
            within: 3e-4,
        },
    ],
    work: sum::work,
};
