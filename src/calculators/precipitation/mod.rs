//! Hydroxide precipitation on a route: the pH, what stays dissolved, the reagent, and the sludge.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{reagent, rules};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Source, Subject, Table, When, choice, input, output,
};
use crate::science::metals;
use crate::units::{
    CELSIUS, EQ_PER_DAY, G_PER_DAY_METAL, KG_PER_DAY, KG_PER_L, L_PER_DAY, MASS_PERCENT, MG_PER_L,
    MG_PER_L_METAL, MOL_PER_L, NUMBER,
};

pub(super) const HIGHER: &str = "the one that leaves more";
pub(super) const FIRST: &str = "MINTEQA2";
pub(super) const SECOND: &str = "WATEQ4F; ThermoChimie for tin, cobalt and chromium";

const NOT_KNOWN: &str = "not known";
const NONE: &str = "none, as the makers of the baths say";
const AMMONIA: &str = "ammonia or amines";
const CITRATE: &str = "citrate, tartrate or gluconate";
const EDTA: &str = "EDTA or the like";
const CYANIDE: &str = "cyanide";
const SULFITE: &str = "sulfite or thiosulfate";
const PHOSPHATE: &str = "pyrophosphate";
const OTHER: &str = "another one";
/// What binds metal, so that hydroxide no longer brings it down.
const COMPLEXANTS: &[(&str, f64)] = &[
    (NOT_KNOWN, 0.0),
    (NONE, 0.0),
    (AMMONIA, 0.0),
    (CITRATE, 0.0),
    (EDTA, 0.0),
    (CYANIDE, 0.0),
    (SULFITE, 0.0),
    (PHOSPHATE, 0.0),
    (OTHER, 0.0),
];

const HELD: &str = "Precipitation";
const SLUDGE: &str = "Sludge";
const CURES: &[Source] = &[("precipitation", "pH"), ("precipitation", "s_c")];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "precipitation",
    title: "Hydroxide precipitation",
    question: "At which pH do these metals fall, what stays dissolved, and how much reagent and sludge is that?",
    subject: Subject::Route,
    quick: true,
    from_start: false,
    inputs: &[
        reagent::kind(),
        input("Q", "Volume a day", L_PER_DAY, [0.0, 1e9], [1.0, 1e6])
            .needed()
            .follows(&[("route", "Q_day")])
            .group("Water")
            .help("All that arrives on a mean working day."),
        choice("bound", "What binds metal in it", NUMBER, COMPLEXANTS)
            .group("Water")
            .help("Any of these keeps metal dissolved whatever the pH. Ask the maker of each bath and cleaner."),
        input("T", "Temperature of the water", CELSIUS, [1.0, 95.0], [10.0, 40.0]).usually(20.0)
            .follows(&[("neutralisation", "T")])
            .if_known()
            .group("Water")
            .help("For the reagent; what stays dissolved is for 25 °C."),
        reagent::given().follows(&[("neutralisation", "given")]).if_known(),
        reagent::ph_in().follows(&[("neutralisation", "pH_0"), ("route", "pH_m")]).if_known(),
        reagent::base().follows(&[("neutralisation", "up")]).if_known(),
        reagent::strength_as().follows(&[("neutralisation", "as_b")]).if_known(),
        reagent::strength_by_amount().follows(&[("neutralisation", "C_b")]).if_known(),
        reagent::strength_by_mass().follows(&[("neutralisation", "c_b")]).if_known(),
        reagent::strength_by_share().follows(&[("neutralisation", "w_b")]).if_known(),
        reagent::density().follows(&[("neutralisation", "ρ_b")]).if_known(),
        reagent::sulfate().follows(&[("neutralisation", "c_4")]).if_known(),
        input("pH", "pH held", NUMBER, [4.0, 13.0], [7.0, 12.0]).usually(9.0)
            .group(HELD)
            .help("Where the metals fall; 8.5 to 9.5 is common practice for mixed metals. The picture shows what each pH leaves."),
        choice("set", "Which published set counts", NUMBER, &[(HIGHER, 0.0), (FIRST, 0.0), (SECOND, 0.0)])
            .group(HELD)
            .help("They part by up to a hundred times, and both are shown. The one that leaves more is the safe one."),
        input("s_c", "Solids that do not settle", MG_PER_L, [0.0, 10_000.0], [0.0, 100.0])
            .optional()
            .group(HELD)
            .help("Left in the water that leaves; they are metal too. 10 to 50 mg/L after a settler, 1 to 5 after a filter, common practice."),
        choice("rule", "Limits where the permit has none", NUMBER, rules::PLATING)
            .group(HELD)
            .help("The permit of the site goes before. Tin, indium, cobalt and noble metals have no published one."),
        input("m_o", "Other dry solids a day", KG_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
            .group(SLUDGE)
            .help("Of a coagulant, of hardness, of dirt: they are sludge too."),
        input("x_w", "Solids in the settled sludge", MASS_PERCENT, [0.05, 60.0], [0.3, 6.0])
            .optional()
            .group(SLUDGE)
            .help("By mass, as dried at 105 °C; 0.5 to 3 % after settling is common practice."),
        input("x_c", "Solids in the pressed cake", MASS_PERCENT, [1.0, 99.0], [15.0, 50.0])
            .optional()
            .group(SLUDGE)
            .help("By mass; 20 to 40 % from a press is common practice."),
        input("ρ_s", "Density of the dry solid", KG_PER_L, [1.0, 10.0], [2.0, 5.0]).usually(3.4)
            .group(SLUDGE)
            .help("Copper hydroxide 3.4 kg/L, nickel hydroxide 4.1 (from memory). It moves the volume of the cake by a tenth."),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals in it",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                reagent::metal_in(),
                input("l_d", "Permit, daily", MG_PER_L_METAL, [0.0, 1e5], [0.0, 1e5])
                    .optional()
                    .follows(&[("route", "lim_d")])
                    .if_known()
                    .help("From the site, by way of the route."),
                input("l_m", "Permit, monthly", MG_PER_L_METAL, [0.0, 1e5], [0.0, 1e5])
                    .optional()
                    .follows(&[("route", "lim_m")])
                    .if_known()
                    .help("From the site, by way of the route."),
            ],
            answers: &[
                output("c_l", "Left in the water", MG_PER_L_METAL).cured_by(CURES),
                output("lim", "Limit that counts", MG_PER_L_METAL).missing("none typed and none published"),
                output("S_1", "Dissolved at this pH, first set", MG_PER_L_METAL),
                output("S_2", "Dissolved at this pH, second set", MG_PER_L_METAL),
                output("r_S", "The sets part by a factor of", NUMBER),
                output("L_1", "Least dissolved, first set", MG_PER_L_METAL),
                output("pH_1", "At pH, first set", NUMBER),
                output("L_2", "Least dissolved, second set", MG_PER_L_METAL),
                output("pH_2", "At pH, second set", NUMBER),
                output("c_s", "Of it, carried by solids", MG_PER_L_METAL),
                output("m_l", "Leaves with the water", G_PER_DAY_METAL),
                output("m_f", "Goes into the sludge", G_PER_DAY_METAL),
                output("m_h", "As dry hydroxide", KG_PER_DAY),
            ],
        },
        Table {
            id: reagent::DISSOLVED,
            label: "Dissolved in it, but for metals",
            key_label: "Acid, base or salt",
            add: Some("Add a substance"),
            suggest: reagent::DISSOLVED_NAMES,
            presets: &[],
            columns: &[
                reagent::unit_of_acid().follows(&[("neutralisation", "as_a")]).if_known(),
                reagent::acid_by_mass().follows(&[("neutralisation", "c_a")]).if_known(),
                reagent::acid_by_amount().follows(&[("neutralisation", "C_a")]).if_known(),
            ],
            answers: &[reagent::AMOUNT],
        },
        Table {
            id: reagent::ARRIVING,
            label: "What arrives",
            key_label: "Stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[reagent::CLASS_OF_STREAM],
            answers: &[],
        },
    ],
    outputs: &[
        output("c_T", "All metals left in the water", MG_PER_L_METAL),
        output("pH_b", "Best pH for all of them", NUMBER).missing("no metal comes in above a limit").beside(),
        output("V_d", "Reagent a day", L_PER_DAY).beside(),
        output("pH_lo", "All keep their limits from pH", NUMBER).missing("no metal comes in above a limit"),
        output("pH_hi", "To pH", NUMBER).missing("no metal comes in above a limit"),
        output("n_r", "Reagent to a litre of water", MOL_PER_L),
        output("a_r", "Acid that it takes up a day", EQ_PER_DAY),
        output("m_d", "Of it, pure substance a day", KG_PER_DAY),
        output("m_g", "Gypsum that falls, dry, a day", KG_PER_DAY).missing(reagent::NO_GYPSUM),
        output("m_T", "Dry solid a day", KG_PER_DAY),
        output("m_w", "Settled sludge a day", KG_PER_DAY).missing("type the solids in it"),
        output("V_w", "Volume of the settled sludge", L_PER_DAY).missing("type the solids in it"),
        output("y_w", "Moisture of the settled sludge", MASS_PERCENT).missing("type the solids in it"),
        output("m_c", "Pressed cake a day", KG_PER_DAY).missing("type the solids in it"),
        output("V_c", "Volume of the cake", L_PER_DAY).missing("type the solids in it"),
        output("y_c", "Moisture of the cake", MASS_PERCENT).missing("type the solids in it"),
        output("Q_out", "Treated water a day", L_PER_DAY),
    ],
    picture: Some(Picture { across: "pH", up: "c_T" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "A curve of theory, for clean water at 25 °C: jar tests with the real water decide, and the permit.",
        },
        Caution {
            when: &[],
            text: "Caustic blinds and burns: face shield, apron, eyewash and shower within reach. A stuck pH probe doses on: a high limit apart from the controller stops the pump. The local code and a licensed person decide.",
        },
        Caution {
            when: &[],
            text: "Hydroxide sludge of plating is hazardous waste as a rule (in the US listed F006, from memory): it is kept wet, labelled and apart, and its dust is breathed by nobody; nickel and cobalt cause cancer.",
        },
        Caution {
            when: &[When::Is("up", &[reagent::LIME])],
            text: "Lime dust and slurry blind and burn: goggles, dust mask and gloves. Gypsum of it and sulfate is sludge and scale.",
        },
        Caution {
            when: &[When::Is("up", &[reagent::SODA])],
            text: "Carbonate foams as its gas leaves, and brings metals down as carbonates, which these curves are not of.",
        },
    ],
    sources: &[
        "First set: EPA MINTEQA2 version 4 (NIST 46), as minteq.v4.dat of PHREEQC 3.8.6 carries it.",
        "Second set: WATEQ4F of the USGS, as wateq4f.dat of PHREEQC 3.8.6 carries it; tin, cobalt and chromium: ThermoChimie, as its sit.dat does.",
        "Both at 25 °C in 0.1 mol/kg of sodium nitrate, without carbonate or complexants; checked against PHREEQC 3.8.6 to 5 %.",
        "Reagent: charge balance with activities, checked against PHREEQC 3.8.6. Sludge: conservation of mass, atomic weights of IUPAC 2021.",
        "Published limits: 40 CFR 433.15, 433.17 and 413. Solids that settle and cake: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "PHREEQC 3.8.6, minteq.v4.dat: 0.003317 mg/L of copper over its hydroxide at pH 9; wateq4f.dat: 0.56684",
            inputs: &[("Q", "1000 L/day"), ("pH_0", "3"), ("C_b", "5 mol/L"), ("set", FIRST)],
            rows: &[(metals::TABLE, "Cu", &[("c_m", "50 mg/L")])],
            answers: &[("S_1[Cu]", "0.003317 mg/L"), ("S_2[Cu]", "0.56684 mg/L"), ("c_T", "0.003317 mg/L")],
            within: 0.02,
        },
        Example {
            source: "PHREEQC 3.8.6, minteq.v4.dat: 0.02 mol/L of nickel sulfate and 0.005 of sulfuric acid take 0.050255 mol of NaOH to pH 10.3",
            inputs: &[
                ("Q", "1000 L/day"), ("T", "25 °C"), ("given", reagent::BY_NAME), ("C_b", "5 mol/L"), ("pH", "10.3"),
            ],
            rows: &[
                (metals::TABLE, "Ni", &[("c_m", "1173.86 mg/L")]),
                (reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.005 mol/L")]),
            ],
            answers: &[("n_r", "0.050255 mol/L")],
            within: 0.01,
        },
        Example {
            source: "By hand: 100 g/day of copper are 153.5 g of hydroxide (97.56/63.546); at 2 % of solids 7.68 kg, at 30 % 0.512 kg",
            inputs: &[
                ("Q", "1000 L/day"), ("pH_0", "4"), ("C_b", "5 mol/L"), ("set", FIRST), ("x_w", "2 %"), ("x_c", "30 %"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_m", "100 mg/L")])],
            answers: &[("m_T", "0.153521 kg/day"), ("m_w", "7.67605 kg/day"), ("m_c", "0.511737 kg/day"), ("y_c", "70 %")],
            within: 1e-3,
        },
    ],
    work: sum::work,
};
