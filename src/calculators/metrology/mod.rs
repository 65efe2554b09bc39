//! Which measuring tools a line must have and should have, and whether its wafers may share them.
//!
//! - this file: the declaration;
//! - [`sum`]: the rule: common practice, no source.

mod sum;
#[cfg(test)]
mod tests;

use super::make_up::sort::{self, SAID_WORDS};
use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Input, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{ML_PER_DAY, NUMBER, PERCENT, UM};

const LAYERS: &str = "layers";
const TOOLS: &str = "tools";

pub const MICROSCOPE: &str = "Microscope";
pub const FOUR_POINT: &str = "Four-point probe";
pub const PROFILE: &str = "Profile measurement";
pub const SECTION: &str = "Cross-section, electron microscope and ion beam";
pub const STRESS: &str = "Stress and roughness";
pub const CELL: &str = "Plating test cell";
pub const PH_PROBE: &str = "pH probe";

pub const REQUIRED: &str = "required";
pub const RECOMMENDED: &str = "recommended";
pub const NOT_NEEDED: &str = "not needed";
pub const NOT_SAID: &str = "not known yet";

const EVERY_WAFER: &str = "every plated wafer is looked at";
const BLANKET_FILM: &str = "some film is blanket";
const NO_BLANKET: &str = "no film is blanket";
const PATTERN: &str = "some film is patterned";
const NO_PATTERN: &str = "no film is patterned";
const STACK: &str = "layers are plated on each other";
const NO_STACK: &str = "no layer is plated on another";
const THICK: &str = "a layer is thick enough to bow a wafer";
const THIN: &str = "every layer is thin";
const THIN_ONE: &str = "too thin to bow a wafer";
const ADDITIVES: &str = "some bath lives by its additives";
const NO_ADDITIVES: &str = "no bath has additives that are dosed";
const PH_HELD: &str = "the pH of some bath is held";
const NO_PH: &str = "no bath is held by its pH";
const ADDITIVES_OPEN: &str = "whether every bath is without additives is not known";
const PH_OPEN: &str = "whether the pH of every bath is left alone is not known";

const ONE: &str = "one for all";
const EACH: &str = "one for each group";
const NO_TOOL: &str = "none";

const ONE_GROUP: &str = "all wafers are of one group";
const GROUPS: &str = "wafers of several groups";
const OTHERS: &str = "others use them for wafers free of these metals";
const ALLOWED: &str = "the site lets groups share";

const APART: &str = "each group has tools of its own";
const TOGETHER: &str = "groups share tools";
const NOBODY: &str = "this line alone";
const FREE: &str = "wafers free of these metals too";

const AS_OPEN: &str = "as its open area says";
const BLANKET: &str = "blanket";
const PATTERNED: &str = "patterned";
const MONITORS: &str = "patterned, with blanket monitors";

const AS_LINE: &str = "as the others";
const COPPER: &str = "copper";
const GOLD: &str = "gold, no copper";
const NEITHER: &str = "neither copper nor gold";

const AS_MADE: &str = "as its make-up says";
const NOTHING: &str = "plates nothing";
const AS_CLASS: &str = "as its make-up or class says";
const YES: &str = "yes";
const NO: &str = "no";

const fn of_bath(input: Input, from: &'static [crate::calculator::Source]) -> Input {
    input.each(from).if_known()
}

/// What its make-up says of a bath; nothing where that has no answer.
const fn of_make_up(
    symbol: &'static str,
    label: &'static str,
    from: &'static [crate::calculator::Source],
) -> Input {
    let input = choice(symbol, label, NUMBER, SAID_WORDS).help("Follows its make-up.");
    of_bath(Input { optional: true, only_followed: true, default: f64::NAN, ..input }, from)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "metrology",
    title: "Metrology",
    question: "Which measuring tools must the line have, which should it have, and may its wafers share them?",
    subject: Subject::Site,
    quick: true,
    from_start: false,
    inputs: &[
        choice("rule", "By the site’s contamination rule", NUMBER, &[(APART, 0.0), (TOGETHER, 0.0)])
            .help("For tools that touch wafers: copper spreads in silicon, and gold with it."),
        choice("other", "The tools serve", NUMBER, &[(NOBODY, 0.0), (FREE, 0.0)])
            .help("Wafers that go back to where no metal may go count as a group of their own."),
        input("d_s", "A layer is thick from", UM, [0.01, 1000.0], [1.0, 50.0])
            .usually(5.0)
            .help("Common practice: from there its stress bows a wafer so that it is seen."),
    ],
    tables: &[
        Table {
            id: LAYERS,
            label: "Layers",
            key_label: "Layer or its bath",
            add: Some("Add a layer"),
            suggest: &["Copper", "Nickel", "Gold", "Tin-silver"],
            presets: &[],
            columns: &[
                of_bath(
                    input("d", "Thickness", UM, [0.0001, 2000.0], [0.01, 200.0]).needed(),
                    &[("plating", "d_top")],
                )
                .help("Its thickest, where wafers differ."),
                choice("plates", "Its bath plates", NUMBER, &[(AS_MADE, 0.0), (YES, 0.0), (NOTHING, 0.0)])
                    .help("A dip without metal plates nothing, and asks for no tool."),
                of_make_up("metal_b", "It holds metal to plate", &[("make-up", "plates")]),
                of_bath(
                    input("open", "Open area", PERCENT, [0.001, 100.0], [1.0, 100.0]).optional(),
                    &[("plating", "open")],
                )
                .help("A film on all of the wafer is blanket."),
                choice("film", "Film", NUMBER, &[(AS_OPEN, 0.0), (BLANKET, 0.0), (PATTERNED, 0.0), (MONITORS, 0.0)])
                    .help("A probe scratches: sheet resistance is for blanket films and monitors, never for product."),
                choice("on", "Plated on another layer", NUMBER, &[(NO, 0.0), (YES, 0.0)])
                    .help("A profile shows a stack from outside; what each layer has is seen in a section."),
                choice("group", "Its wafers are of", NUMBER, &[
                    (AS_LINE, 0.0), (COPPER, 1.0), (GOLD, 2.0), (NEITHER, 3.0),
                ])
                    .help("By the worst metal that ever was on them. Layers on the same wafers have the same."),
                of_bath(
                    input("u_a", "Additives dosed", ML_PER_DAY, [0.0, 1e9], [0.0, 1e5]).optional(),
                    &[("dosing", "u_all")],
                )
                .help("All of its bath together; 0 where it has none. Left out, its make-up says whether it has any."),
                of_make_up("adds_b", "It has additives", &[("make-up", "adds")]),
                of_bath(choice("class", "Class of its bath", NUMBER, CLASSES).starts_at(UNKNOWN), &[("make-up", "class")])
                    .help("What the bath is by hazard."),
                choice("held", "The pH of its bath is held", NUMBER, &[(AS_CLASS, 0.0), (YES, 0.0), (NO, 0.0)])
                    .help("All but strong acid. An acid bath that is weak, such as nickel with boric acid, is held too: its make-up says so, or you do."),
                of_make_up("held_b", "It is run on its pH", &[("make-up", "held")]),
            ],
            answers: &[
                verdict("is_f", "It counts as", &[BLANKET, PATTERNED, MONITORS, NOTHING]),
                verdict("is_t", "Its stress", &[THICK, THIN_ONE, NOTHING]),
            ],
        },
        Table {
            id: TOOLS,
            label: "Tools",
            key_label: "Tool",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("need", "Needed or not", &[REQUIRED, RECOMMENDED, NOT_NEEDED, NOT_SAID]),
                verdict("why", "What decides", &[
                    EVERY_WAFER, BLANKET_FILM, NO_BLANKET, PATTERN, NO_PATTERN, STACK, NO_STACK, THICK, THIN, ADDITIVES,
                    NO_ADDITIVES, ADDITIVES_OPEN, PH_HELD, NO_PH, PH_OPEN,
                ]),
                verdict("share", "How many", &[ONE, EACH, NO_TOOL]),
                output("n", "Number", NUMBER),
            ],
        },
    ],
    outputs: &[
        output("n_r", "Kinds of tools required", NUMBER),
        output("n_c", "Kinds of tools recommended", NUMBER).beside(),
        output("n_g", "Groups of wafers that must not share", NUMBER).beside(),
        verdict("why_g", "What decides on sharing", &[ONE_GROUP, GROUPS, OTHERS, ALLOWED]).beside(),
        output("n_t", "Tools in all", NUMBER),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("rule", &[TOGETHER])],
            text: "Copper and gold left on a stage or in tweezers spoil the next wafers: carriers and tweezers of each group’s own, a cleaned stage.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "A glass pH probe does not stand fluoride: take one for it, and never glass in the test cell.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Test cell, probe, beakers and waste bottle of a cyanide bath are its own: on no bench, and in no hood, where acid is.",
        },
        Caution {
            when: &[When::Above("n_r", 0.0)],
            text: "Bath on the bench is as dangerous as in the tank: the same protection.",
        },
    ],
    sources: &[
        "Which tool is required or recommended: common practice, no source.",
        "Methods, named from memory: sheet resistance by four probes in line, ASTM F390; thickness by profile, ISO 4518, by section, ISO 1463, in the electron microscope, ISO 9220; stress from the bow, Stoney 1909; test cell, DIN 50957.",
    ],
    examples: &[
        Example {
            source: "The rule, by hand: a patterned stack of three with additives and a held pH, on wafers of one group",
            inputs: &[],
            rows: &[
                (LAYERS, "Copper", &[("d", "30 µm"), ("open", "15 %"), ("u_a", "900 mL/day"), ("class", "acid")]),
                (LAYERS, "Nickel", &[("d", "3 µm"), ("open", "15 %"), ("on", YES), ("class", "acid"), ("held", YES)]),
                (LAYERS, "Tin-silver", &[("d", "20 µm"), ("open", "15 %"), ("on", YES), ("class", "acid")]),
                (LAYERS, "Acid dip", &[("plates", NOTHING), ("class", "acid")]),
            ],
            answers: &[
                ("n_r", "2"), ("n_c", "4"), ("n_g", "1"), ("why_g", ONE_GROUP), ("n_t", "6"), ("need[Four-point probe]", NOT_NEEDED),
                ("is_f[Copper]", PATTERNED), ("is_t[Copper]", THICK), ("is_t[Nickel]", THIN_ONE), ("is_f[Acid dip]", NOTHING),
            ],
            within: 1e-12,
        },
        Example {
            source: "The rule, by hand: blanket copper and gold on other wafers, shared with wafers free of metal: three groups",
            inputs: &[("other", FREE)],
            rows: &[
                (LAYERS, "Copper", &[("d", "1 µm"), ("open", "100 %"), ("group", COPPER), ("class", "acid"), ("u_a", "0 mL/day")]),
                (LAYERS, "Gold", &[("u_a", "0 mL/day"), ("d", "1 µm"), ("open", "100 %"), ("group", GOLD), ("class", "cyanide")]),
            ],
            answers: &[
                ("n_r", "2"), ("n_c", "1"), ("n_g", "3"), ("why_g", OTHERS), ("n[Microscope]", "3"), ("n[pH probe]", "2"),
                ("n_t", "8"), ("need[Profile measurement]", NOT_NEEDED), ("need[Plating test cell]", NOT_NEEDED),
            ],
            within: 1e-12,
        },
    ],
    work: sum::work,
};
