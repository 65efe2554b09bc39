//! Analysis arithmetic: from titrant and sample to g/L, with how far to trust it.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Severity, Subject, Table, When, choice, input, note,
    output, verdict,
};
use crate::units::{A_PER_DM2, AMPERE, CM, G_PER_L, GRAM, MG_PER_L, ML, MOL_PER_L, NUMBER, PERCENT};

/// The table of what is sought.
const TABLE: &str = "determinations";

const ACID_BASE: &str = "acid or base, titrated";
const EDTA: &str = "metal with EDTA";
const EDTA_BACK: &str = "metal with EDTA, back titration";
const IODOMETRIC: &str = "with iodine or thiosulfate";
const ARGENTOMETRIC: &str = "chloride with silver nitrate";
const POLYOL: &str = "boric acid with a polyol";
const WEIGHED: &str = "weighed";

const NOTHING: &str = "nothing";
const DILUTION: &str = "dilution for an instrument";
const SPIKE: &str = "spike recovery";
const CELL: &str = "slanted test cell";

const TITRATED: When = When::Not("method", &[WEIGHED]);
const GRAVIMETRIC: When = When::Is("method", &[WEIGHED]);

/// Why a row has no answer yet.
const NO_RUN: &str = "type what was read";

const SPREAD: &[&str] = &["none stands out", "one stands out: look for the reason", "too few runs to say"];

const fn run(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, ML, [0.0, 1000.0], [0.1, 50.0])
        .optional()
        .help("Titrant run in, as read on the burette; the blank is taken off by the sum.")
        .when(TITRATED)
}

const fn weighed(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, GRAM, [0.0, 1000.0], [0.01, 10.0])
        .optional()
        .help("Of the dried or burnt precipitate, without the crucible.")
        .when(GRAVIMETRIC)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "analysis",
    title: "Analysis",
    question: "What does the bath hold, by titration or weighing, and how sure is that?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("trust", "Confidence", NUMBER, &[("90 %", 0.90), ("95 %", 0.95), ("99 %", 0.99)])
            .starts_at(1)
            .group("Repeated runs")
            .help("How sure the interval is to hold the true mean; 95 % is common practice."),
        choice("also", "Also work out", NUMBER, &[(NOTHING, 0.0), (DILUTION, 0.0), (SPIKE, 0.0), (CELL, 0.0)])
            .help("A side sum beside the determinations."),
        input("c_i", "Wanted for the instrument", MG_PER_L, [1e-6, 1e6], [0.1, 100.0])
            .optional()
            .group("Dilution for an instrument")
            .help("The middle of its working range, for the first component.")
            .when(When::Is("also", &[DILUTION])),
        input("V_f", "Volume of the flask", ML, [1.0, 10_000.0], [10.0, 1000.0]).usually(100.0)
            .group("Dilution for an instrument")
            .help("The volume that the portion is made up to.")
            .when(When::Is("also", &[DILUTION])),
        input("V_s", "Volume of the sample", ML, [0.01, 10_000.0], [1.0, 500.0])
            .optional()
            .group("Spike recovery")
            .help("Before anything is added to it.")
            .when(When::Is("also", &[SPIKE])),
        input("V_k", "Liquid added to it", ML, [0.001, 1000.0], [0.05, 20.0])
            .optional()
            .group("Spike recovery")
            .help("Of a known strength: it should be found again.")
            .when(When::Is("also", &[SPIKE])),
        input("C_k", "Strength of that", G_PER_L, [1e-6, 2000.0], [0.1, 500.0])
            .optional()
            .group("Spike recovery")
            .help("Of the first component.")
            .when(When::Is("also", &[SPIKE])),
        input("c_2", "Found after it", G_PER_L, [0.0, 2000.0], [0.01, 500.0])
            .optional()
            .group("Spike recovery")
            .help("In the sample with what was added; before it, what the first component came to.")
            .when(When::Is("also", &[SPIKE])),
        input("I_c", "Current of the cell", AMPERE, [0.01, 20.0], [0.5, 5.0])
            .optional()
            .group("Slanted test cell of 267 mL")
            .help("As set on the rectifier.")
            .when(When::Is("also", &[CELL])),
        input("x_c", "Distance from the near end", CM, [0.64, 8.25], [0.64, 8.25])
            .optional()
            .group("Slanted test cell of 267 mL")
            .help("Along the panel, from its end that is nearest to the anode.")
            .when(When::Is("also", &[CELL])),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Determinations",
        key_label: "Component",
        add: Some("Add a determination"),
        suggest: &["Cu", "H2SO4", "Cl", "Ni", "H3BO3", "Sn", "Zn", "Co", "In", "Pb", "CH4O3S", "HCl", "NaOH"],
        presets: &[
            ("Cu", &[("method", EDTA)]),
            ("Ni", &[("method", EDTA)]),
            ("Zn", &[("method", EDTA)]),
            ("Co", &[("method", EDTA)]),
            ("In", &[("method", EDTA_BACK)]),
            ("Pb", &[("method", EDTA)]),
            ("Sn", &[("method", IODOMETRIC)]),
            ("Cl", &[("method", ARGENTOMETRIC)]),
            ("H3BO3", &[("method", POLYOL)]),
        ],
        columns: &[
            choice("method", "Method", NUMBER, &[
                (ACID_BASE, 0.0),
                (EDTA, 0.0),
                (EDTA_BACK, 0.0),
                (IODOMETRIC, 0.0),
                (ARGENTOMETRIC, 0.0),
                (POLYOL, 0.0),
                (WEIGHED, 0.0),
            ])
            .help("Free acid beside copper or nickel: stop at about pH 4, before hydroxide forms. Boric acid wants the polyol. Tin(II): at once and away from air."),
            note("what", "Counted as")
                .help("Formula of what the result is given as: Cu, H2SO4, Cl. Left out, it is the name of the row."),
            input("r", "Of it for one mol of titrant", NUMBER, [0.01, 10.0], [0.3, 3.0])
                .optional()
                .help("In mol. Left out where it is known: 0.5 for H2SO4 with NaOH, 1 for metals with EDTA and copper with thiosulfate.")
                .when(TITRATED),
            input("C_t", "Strength of the titrant", MOL_PER_L, [1e-6, 20.0], [0.001, 2.0]).usually(0.1)
                .help("Its nominal strength: mol/L, not equivalents.")
                .when(TITRATED),
            input("f_t", "Factor of the titrant", NUMBER, [0.1, 10.0], [0.9, 1.1]).usually(1.0)
                .help("True over nominal strength, from standardising it.")
                .when(TITRATED),
            input("C_1", "EDTA given in excess", MOL_PER_L, [1e-6, 5.0], [0.01, 0.5]).usually(0.1)
                .help("True strength; what is left of it is titrated back.")
                .when(When::Is("method", &[EDTA_BACK])),
            input("V_1", "Volume of it", ML, [0.01, 1000.0], [1.0, 100.0])
                .needed()
                .help("Pipetted into every run.")
                .when(When::Is("method", &[EDTA_BACK])),
            input("V_0", "End point before the polyol", ML, [0.0, 1000.0], [0.0, 50.0]).usually(0.0)
                .help("Titrant up to the strong acid’s end point; the boric acid is what comes after it.")
                .when(When::Is("method", &[POLYOL])),
            input("V_b", "Blank", ML, [0.0, 1000.0], [0.0, 2.0]).usually(0.0)
                .help("Titrant that a run without sample takes.")
                .when(TITRATED),
            input("V_a", "Portion titrated or weighed", ML, [0.0001, 10_000.0], [0.1, 100.0])
                .needed()
                .help("Of the bath, or of the diluted sample."),
            input("D", "Sample diluted", NUMBER, [1.0, 1e6], [1.0, 1000.0]).usually(1.0)
                .help("How many times, before the portion was taken: 10 mL to 100 mL is 10."),
            input("c_e", "Expected in the bath", G_PER_L, [1e-6, 2000.0], [0.01, 500.0])
                .optional()
                .help("Before the run: gives the titrant that it should take.")
                .when(TITRATED),
            run("v_1", "First run"),
            run("v_2", "Second run"),
            run("v_3", "Third run"),
            run("v_4", "Fourth run"),
            note("precipitate", "Weighed as")
                .help("Formula of what stands on the balance: BaSO4, AgCl, NiC8H14N4O4.")
                .when(GRAVIMETRIC),
            input("k", "Of it in a formula", NUMBER, [0.01, 20.0], [1.0, 4.0]).usually(1.0)
                .help("How many of what is counted a formula unit of the precipitate holds.")
                .when(GRAVIMETRIC),
            weighed("m_1", "First weighing"),
            weighed("m_2", "Second weighing"),
            weighed("m_3", "Third weighing"),
            weighed("m_4", "Fourth weighing"),
        ],
        answers: &[
            output("c_x", "In the bath", G_PER_L).missing(NO_RUN),
            output("C_x", "In the bath, by amount", MOL_PER_L).missing(NO_RUN),
            output("h", "Give or take", G_PER_L).missing("it takes two runs"),
            output("s_x", "Standard deviation", G_PER_L).missing("it takes two runs"),
            verdict("spread", "Outlier by Grubbs’ test", SPREAD).missing(NO_RUN),
            output("c_mL", "One mL of titrant is", G_PER_L).missing("only for what is titrated"),
            output("v_e", "Titrant it should take", ML).missing("type what is expected"),
        ],
    }],
    outputs: &[
        output("c_first", "First component", G_PER_L).missing("type a run of the first determination"),
        output("F", "Dilute for the instrument", NUMBER)
            .missing("choose the dilution, and type what the instrument wants")
            .above(1000.0, Severity::Note, "More than a thousandfold is better done in two steps.")
            .cured_by(&[("analysis", "c_i")]),
        output("V_p", "Portion for the flask", ML)
            .missing("choose the dilution, and type what the instrument wants")
            .below(1.0, Severity::Caution, "Portions below 1 mL are not measured well: dilute in two steps.")
            .cured_by(&[("analysis", "V_f"), ("analysis", "c_i")]),
        output("R", "Found again", PERCENT)
            .missing("choose the recovery, and type what was added and found")
            .below(90.0, Severity::Caution, "Something holds it back: 90 to 110 % is common practice, no source.")
            .above(110.0, Severity::Caution, "Something else is counted: 90 to 110 % is common practice, no source."),
        output("j", "Current density there", A_PER_DM2).missing("choose the test cell, and type current and distance"),
    ],
    picture: Some(Picture { across: "x_c", up: "j" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("method", &[IODOMETRIC])],
            text: "Tin(II) and iodide are titrated under exhaust with acid: never with a sample that holds cyanide.",
        },
        Caution {
            when: &[When::Is("method", &[ACID_BASE, EDTA, EDTA_BACK])],
            text: "Samples of a cyanide bath are acidified only by the maker’s procedure, under exhaust, by a trained person: cyanide and acid give a gas that kills.",
        },
    ],
    sources: &[
        "Amounts of substance by the equation of the reaction; molar masses: IUPAC standard atomic weights 2021, abridged.",
        "Boric acid: Metrohm Application Bulletin 195/2e. EDTA: Harvey, Modern Analytical Chemistry (1999), p. 330.",
        "Student’s t: Abramowitz and Stegun 26.7.3 and 26.7.4. Grubbs’ test: NIST/SEMATECH e-Handbook 1.3.5.17.1.",
        "Current density along the slanted panel, I·(5.10 − 5.24·log₁₀ x): common practice, from memory; good to 10 to 20 %.",
        "Recovery of 90 to 110 %, end point of free acid at pH 4: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "pint and periodictable 2.1.0: 12.59 mL of 0.1 mol/L EDTA for 2 mL, 40.00221 g/L of copper",
            inputs: &[],
            rows: &[(TABLE, "Cu", &[("method", EDTA), ("V_a", "2 mL"), ("v_1", "12.59 mL")])],
            answers: &[("c_x[Cu]", "40.00221 g/L"), ("c_first", "40.00221 g/L")],
            within: 3e-4,
        },
        Example {
            source: "pint and periodictable 2.1.0: 18.4 mL of 1 mol/L NaOH for 5 mL, 180.4525 g/L of sulfuric acid",
            inputs: &[],
            rows: &[(TABLE, "H2SO4", &[("C_t", "1 mol/L"), ("V_a", "5 mL"), ("v_1", "18.4 mL")])],
            answers: &[("c_x[H2SO4]", "180.4525 g/L")],
            within: 3e-4,
        },
        Example {
            source: "Metrohm Application Bulletin 195/2e: end points at 0.834 and 2.786 mL for 0.25 mL, 48.28 g/L of boric acid",
            inputs: &[],
            rows: &[(TABLE, "H3BO3", &[("method", POLYOL), ("V_a", "0.25 mL"), ("V_0", "0.834 mL"), ("v_1", "2.7860 mL")])],
            answers: &[("c_x[H3BO3]", "48.28 g/L")],
            within: 1e-3,
        },
        Example {
            source: "scipy t.ppf: 12.55, 12.58 and 12.61 mL have a half width of 0.0745241 mL at 95 %, here times 3.17730 g/L a mL",
            inputs: &[],
            rows: &[(TABLE, "Cu", &[
                ("method", EDTA),
                ("V_a", "2 mL"),
                ("v_1", "12.55 mL"),
                ("v_2", "12.58 mL"),
                ("v_3", "12.61 mL"),
            ])],
            answers: &[("h[Cu]", "0.236786 g/L"), ("spread[Cu]", SPREAD[0])],
            within: 3e-4,
        },
        Example {
            source: "By hand: 25 mL of 0.1 mol/L EDTA less 5 mL of 0.1 mol/L back are 2 mmol of nickel, 58.693·2/2 = 58.69 g/L in 2 mL",
            inputs: &[],
            rows: &[(TABLE, "Ni", &[("method", EDTA_BACK), ("V_1", "25 mL"), ("V_a", "2 mL"), ("v_1", "5 mL")])],
            answers: &[("c_x[Ni]", "58.6930 g/L")],
            within: 3e-4,
        },
    ],
    work: sum::work,
};
