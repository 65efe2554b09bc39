//! Starting recipes: what usual baths hold, as ranges. None is anybody's product, and none is averaged from
//! data sheets. Densities of concentrates are from memory; the bath's comes from the solution model where that
//! covers it, and is added up until it is measured where not.

use super::words::{Supply, Wanted};
use super::{ADDED, MODEL, TABLE};
use crate::calculator::{Recipe, Severity, Stop, Texts, Work};

/// The word for a bath that starts from no recipe.
pub const OWN: &str = "none: your own";

const PRACTICE: &str = "common practice, no source";
const MEMORY: &str = "from memory";

/// The word for a tank that is to hold water and nothing else.
pub const WATER_ONLY: &str = "none: water alone";

/// The words of the choice: none, the name of each recipe, and water alone.
pub const WORDS: &[(&str, f64)] = &{
    let mut words = [(OWN, 0.0); LIST.len() + 2];
    words[LIST.len() + 1].0 = WATER_ONLY;
    let mut k = 0;
    while k < LIST.len() {
        words[k + 1] = (LIST[k].name, 0.0);
        k += 1;
    }
    words
};

const fn recipe(
    name: &'static str,
    source: &'static str,
    inputs: Texts,
    rows: &'static [(&'static str, Texts)],
    ranges: &'static [(&'static str, &'static str, [f64; 2])],
) -> Recipe {
    Recipe { name, source, inputs, table: TABLE, rows, ranges }
}

/// The library.
pub const LIST: &[Recipe] = &[
    recipe(
        "Copper, acid sulfate",
        PRACTICE,
        // At 65 % so much copper would crystallise beside the acid, once cold.
        &[("recipe", "Copper, acid sulfate"), ("class", "acid"), ("by", MODEL), ("f_1", "85 %")],
        &[
            ("Copper sulfate", &[("c_m", "50 g/L")]),
            ("Sulfuric acid", &[("c_s", "100 g/L")]),
            ("Hydrochloric acid", &[("c_i", "0.05 g/L")]),
            ("Suppressor", &[("supply", Supply::DOSE), ("d", "10 mL/L")]),
            ("Brightener", &[("supply", Supply::DOSE), ("d", "5 mL/L")]),
            ("Leveller", &[("supply", Supply::DOSE), ("d", "3 mL/L")]),
        ],
        &[
            ("Copper sulfate", "c_m", [30.0, 70.0]),
            ("Sulfuric acid", "c_s", [10.0, 200.0]),
            ("Hydrochloric acid", "c_i", [0.03, 0.1]),
            ("Suppressor", "d", [2.0, 25.0]),
            ("Brightener", "d", [0.5, 15.0]),
            ("Leveller", "d", [0.5, 15.0]),
        ],
    ),
    recipe(
        "Nickel, sulfamate",
        PRACTICE,
        &[("recipe", "Nickel, sulfamate"), ("class", "acid"), ("by", ADDED)],
        &[
            ("Nickel sulfamate", &[("ρ_k", "1.55 kg/L"), ("c_m", "85 g/L")]),
            ("Nickel chloride", &[("wanted", Wanted::ION), ("species", "Cl"), ("c_i", "3 g/L")]),
            ("Boric acid", &[("c_s", "33 g/L")]),
            ("Wetting agent", &[("supply", Supply::DOSE), ("d", "2 mL/L")]),
        ],
        &[
            ("Nickel sulfamate", "c_m", [60.0, 110.0]),
            ("Nickel chloride", "c_i", [0.0, 8.0]),
            ("Boric acid", "c_s", [30.0, 45.0]),
            ("Wetting agent", "d", [0.5, 5.0]),
        ],
    ),
    recipe(
        "Tin, methanesulfonate",
        MEMORY,
        &[("recipe", "Tin, methanesulfonate"), ("class", "acid"), ("by", ADDED)],
        &[
            (
                "Tin methanesulfonate",
                &[("supply", Supply::BY_METAL), ("k_m", "300 g/L"), ("ρ_k", "1.55 kg/L"), ("c_m", "50 g/L")],
            ),
            (
                "Methanesulfonic acid",
                &[
                    ("supply", Supply::BY_MASS),
                    ("w", "70 %"),
                    ("ρ_k", "1.35 kg/L"),
                    ("wanted", Wanted::SUBSTANCE),
                    ("c_s", "150 g/L"),
                ],
            ),
            ("Grain refiner", &[("supply", Supply::DOSE), ("d", "40 mL/L")]),
            ("Antioxidant", &[("supply", Supply::DOSE), ("d", "10 mL/L")]),
        ],
        &[
            ("Tin methanesulfonate", "c_m", [20.0, 90.0]),
            ("Methanesulfonic acid", "c_s", [80.0, 220.0]),
            ("Grain refiner", "d", [10.0, 100.0]),
            ("Antioxidant", "d", [2.0, 30.0]),
        ],
    ),
    recipe(
        "Tin-silver, methanesulfonate",
        MEMORY,
        &[("recipe", "Tin-silver, methanesulfonate"), ("class", "acid"), ("by", ADDED)],
        &[
            (
                "Tin methanesulfonate",
                &[("supply", Supply::BY_METAL), ("k_m", "300 g/L"), ("ρ_k", "1.55 kg/L"), ("c_m", "60 g/L")],
            ),
            (
                "Silver methanesulfonate",
                &[("supply", Supply::BY_METAL), ("k_m", "50 g/L"), ("ρ_k", "1.1 kg/L"), ("c_m", "1 g/L")],
            ),
            (
                "Methanesulfonic acid",
                &[
                    ("supply", Supply::BY_MASS),
                    ("w", "70 %"),
                    ("ρ_k", "1.35 kg/L"),
                    ("wanted", Wanted::SUBSTANCE),
                    ("c_s", "120 g/L"),
                ],
            ),
            ("Complexer", &[("supply", Supply::DOSE), ("d", "60 mL/L")]),
            ("Grain refiner", &[("supply", Supply::DOSE), ("d", "40 mL/L")]),
        ],
        &[
            ("Tin methanesulfonate", "c_m", [30.0, 100.0]),
            ("Silver methanesulfonate", "c_m", [0.3, 3.0]),
            ("Methanesulfonic acid", "c_s", [60.0, 220.0]),
            ("Complexer", "d", [20.0, 150.0]),
            ("Grain refiner", "d", [10.0, 100.0]),
        ],
    ),
    recipe(
        "Gold, sulfite",
        MEMORY,
        &[("recipe", "Gold, sulfite"), ("class", "sulfite"), ("by", ADDED)],
        &[
            (
                "Sodium gold sulfite",
                &[
                    ("formula", "Na3Au(SO3)2"),
                    ("supply", Supply::BY_METAL),
                    ("k_m", "100 g/L"),
                    ("ρ_k", "1.2 kg/L"),
                    ("species", "Au"),
                    ("c_m", "12 g/L"),
                ],
            ),
            ("Sodium sulfite", &[("wanted", Wanted::SUBSTANCE), ("c_s", "50 g/L")]),
            ("Grain refiner", &[("supply", Supply::DOSE), ("d", "5 mL/L")]),
        ],
        &[
            ("Sodium gold sulfite", "c_m", [6.0, 18.0]),
            ("Sodium sulfite", "c_s", [20.0, 100.0]),
            ("Grain refiner", "d", [0.5, 20.0]),
        ],
    ),
    recipe(
        "Gold, cyanide in weak acid",
        MEMORY,
        &[("recipe", "Gold, cyanide in weak acid"), ("class", "cyanide"), ("by", ADDED)],
        &[
            (
                "Potassium citrate",
                &[("formula", "K3C6H5O7"), ("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L")],
            ),
            (
                "Potassium dihydrogen phosphate",
                &[("formula", "KH2PO4"), ("wanted", Wanted::SUBSTANCE), ("c_s", "50 g/L")],
            ),
            ("Potassium gold cyanide", &[("formula", "KAu(CN)2"), ("species", "Au"), ("c_m", "10 g/L")]),
        ],
        &[
            ("Potassium gold cyanide", "c_m", [4.0, 16.0]),
            ("Potassium citrate", "c_s", [40.0, 180.0]),
            ("Potassium dihydrogen phosphate", "c_s", [0.0, 100.0]),
        ],
    ),
    recipe(
        "Silver, cyanide",
        MEMORY,
        &[("recipe", "Silver, cyanide"), ("class", "cyanide"), ("by", ADDED)],
        &[
            ("Potassium silver cyanide", &[("formula", "KAg(CN)2"), ("species", "Ag"), ("c_m", "30 g/L")]),
            ("Potassium cyanide", &[("formula", "KCN"), ("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L")]),
            (
                "Potassium carbonate",
                &[("formula", "K2CO3"), ("wanted", Wanted::SUBSTANCE), ("c_s", "15 g/L")],
            ),
        ],
        &[
            ("Potassium silver cyanide", "c_m", [15.0, 60.0]),
            ("Potassium cyanide", "c_s", [40.0, 150.0]),
            ("Potassium carbonate", "c_s", [0.0, 90.0]),
        ],
    ),
    recipe(
        "Palladium, ammonia",
        MEMORY,
        &[("recipe", "Palladium, ammonia"), ("class", "ammonia or complexed"), ("by", ADDED)],
        &[
            (
                "Tetraamminepalladium chloride",
                &[("formula", "Pd(NH3)4Cl2"), ("species", "Pd"), ("c_m", "10 g/L")],
            ),
            ("Ammonium chloride", &[("formula", "NH4Cl"), ("wanted", Wanted::SUBSTANCE), ("c_s", "60 g/L")]),
        ],
        &[("Tetraamminepalladium chloride", "c_m", [2.0, 25.0]), ("Ammonium chloride", "c_s", [20.0, 150.0])],
    ),
    recipe(
        "Indium, sulfate",
        MEMORY,
        &[("recipe", "Indium, sulfate"), ("class", "acid"), ("by", ADDED)],
        &[
            ("Indium sulfate", &[("formula", "In2(SO4)3"), ("species", "In"), ("c_m", "20 g/L")]),
            ("Sodium sulfate", &[("formula", "Na2SO4"), ("wanted", Wanted::SUBSTANCE), ("c_s", "10 g/L")]),
        ],
        &[("Indium sulfate", "c_m", [10.0, 60.0]), ("Sodium sulfate", "c_s", [0.0, 30.0])],
    ),
];

/// Says the ranges of the recipe that the bath started from, and what lies outside of them.
pub fn remark(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let chosen = w.word(&top, "recipe")?;
    let Some(recipe) = LIST.iter().find(|recipe| recipe.name == chosen) else { return Ok(()) };
    let text = format!(
        "{}, {}: {}. Your data sheet rules.",
        recipe.name,
        recipe.source,
        recipe.ranges_text(&super::CALCULATOR, &w.style)
    );
    w.add_finding(&top, "recipe", Severity::Note, text);
    for row in w.rows(TABLE)? {
        for (_, symbol, [low, high]) in recipe.ranges.iter().filter(|(key, ..)| *key == &*row.key) {
            // Hidden where the row is wanted in another way: nothing to compare then.
            let Some(wanted) = w.optional(&row, symbol).ok().flatten() else { continue };
            let port = super::CALCULATOR.port(symbol);
            let Some(input) = port.and_then(|port| super::CALCULATOR.input_at(port)) else { continue };
            let number = wanted.number(input.unit);
            if number < low * (1.0 - 1e-9) || number > high * (1.0 + 1e-9) {
                let range = input.range_text([*low, *high], input.unit, &w.style);
                let text = format!("{}: outside of what is usual in this recipe, {range}.", row.key);
                w.add_finding(&row, symbol, Severity::Note, text);
            }
        }
    }
    Ok(())
}
