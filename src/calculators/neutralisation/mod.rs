//! Neutralisation of a route’s water: reagent, pump, stages, heat, and the tanks for it.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{reagent, routes};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Subject, Table, When, choice, input, output,
};
use crate::science::metals;
use crate::science::plastics::{BURNS_SKIN, FIRST_SOFTENS, plastics_soften};
use crate::science::segregation::strong_acid_with_caustic;
use crate::units::{
    CELSIUS, EQ_PER_DAY, G_PER_L, HOUR, KELVINS, KG_PER_DAY, KJ_PER_MOL, KW, L, L_PER_DAY, L_PER_MIN,
    MEQ_PER_L, MG_PER_L_METAL, MINUTE, ML_PER_MIN, MOL_PER_L, NUMBER, PER_MINUTE, PERCENT, W_PER_M3, WATT,
};

const RAISED: &str = "raised with a base";
const LOWERED: &str = "lowered with an acid";
pub(super) const AS_IT_COMES: &str = "as it comes";
pub(super) const EVENED: &str = "evened in a tank before";
/// The table of what runs in over the day.
const PERIODS: &str = "periods";
/// Routes whose water may be lowered: the others are never offered acid.
const TAKES_ACID: &[&str] = &[routes::ACID_BASE, routes::DILUTE, routes::CONCENTRATE, routes::AMMONIA];
const TANKS: &str = "Tanks";
const HEAT_KNOWN: &str = "known for caustic soda, lime, sulfuric and hydrochloric acid; for potassium hydroxide type that of its dilution";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "neutralisation",
    title: "Neutralisation",
    question: "How much reagent does this water take, how hot does it get, and which pump, stages and tanks does it need?",
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
        input("q_m", "Mean flow in the hours of service", L_PER_MIN, [0.0, 1e6], [0.001, 1000.0])
            .needed()
            .follows(&[("route", "q_mean")])
            .group("Water")
            .help("Of all streams, dumps spread out."),
        input("V_1", "Largest dump", L, [0.0, 1e6], [0.0, 5000.0]).usually(0.0)
            .follows(&[("route", "V_dump")])
            .group("Water")
            .help("A dump comes on top of the mean flow."),
        input("t_1", "The largest dump runs in within", MINUTE, [0.1, 10_000.0], [1.0, 480.0])
            .optional()
            .group("Water")
            .follows(&[("route", "t_1")])
            .if_known()
            .help("From this and its volume the peak flow follows.")
            .when(When::Above("V_1", 0.0)),
        input("q_p", "Peak flow", L_PER_MIN, [0.0, 1e6], [0.1, 2000.0])
            .optional()
            .group("Water")
            .help("The worst hour, as measured. Left out, the mean and the largest dump together."),
        input("T", "Temperature of the water", CELSIUS, [1.0, 95.0], [10.0, 40.0]).usually(20.0)
            .group("Water")
            .help("As it comes; the stock is taken to be as warm."),
        reagent::given(),
        reagent::ph_in().follows(&[("route", "pH_m")]).if_known(),
        input("e_r", "Acid of its streams, below 0 base", MEQ_PER_L, [-50_000.0, 50_000.0], [-5000.0, 5000.0])
            .only_followed()
            .follows(&[("route", "e_m")])
            .if_known()
            .group("Water")
            .help("As the route adds it up; what is given here is held against it."),
        input("x_a", "Strongest acid, against the mean", NUMBER, [1.0, 1000.0], [1.0, 10.0]).usually(1.0)
            .group("Water")
            .help("How many times the mean the worst hour is: the pump and the heat are sized for it. A dump is far above 1."),
        choice("way", "The pH is to be", NUMBER, &[(RAISED, 0.0), (LOWERED, 0.0)])
            .group("Reagent")
            .help("Acid is not offered where it could meet cyanide, sulfite, fluoride, hypochlorite or what is not known.")
            .when(When::Is("kind_r", TAKES_ACID)),
        reagent::base(),
        choice("down", "Acid that lowers", NUMBER, reagent::ACIDS)
            .group("Reagent")
            .help("The strength below is then that of the acid.")
            .when(When::Is("way", &[LOWERED])),
        reagent::strength_as(),
        reagent::strength_by_amount(),
        reagent::strength_by_mass(),
        reagent::strength_by_share(),
        reagent::density(),
        reagent::sulfate(),
        input("h_s", "Heat of diluting the stock", KJ_PER_MOL, [-10.0, 100.0], [0.0, 30.0])
            .optional()
            .group("Reagent")
            .help("Still to come, of a mole, from a handbook or the maker: no table of it is known here. The heat is told with it.")
            .when(When::Is("up", &[reagent::POTASH])),
        input("pH_t", "pH wanted", NUMBER, [1.0, 13.0], [5.0, 11.0])
            .needed()
            .group("Reagent")
            .help("Where it is held at the end. Sewers take 5 or more by 40 CFR 403.5, and the permit says how much more."),
        input("δ", "Allowed to either side", NUMBER, [0.05, 3.0], [0.1, 2.0]).usually(0.5)
            .group("Reagent")
            .help("Half the band in which the pH may swing."),
        choice("even", "The flow is treated", NUMBER, &[(AS_IT_COMES, 0.0), (EVENED, 0.0)])
            .group(TANKS)
            .help("A tank that evens peaks and dumps lets the rest be sized on the mean."),
        input("x_h", "Heel and margin of that tank", PERCENT, [0.0, 500.0], [10.0, 100.0]).usually(20.0)
            .group(TANKS)
            .help("What stays in it, and room for what nobody foresaw: common practice.")
            .when(When::Is("even", &[EVENED])),
        input("t_r", "Residence in a stage", MINUTE, [0.5, 1440.0], [5.0, 60.0]).usually(15.0)
            .group(TANKS)
            .help("10 to 20 min for caustic and strong acid, common practice: at the largest flow."),
        input("e_v", "Stirring power", W_PER_M3, [1.0, 10_000.0], [40.0, 500.0]).usually(200.0)
            .group(TANKS)
            .help("Of the liquid: about 200 W/m³, or 1 hp for 1000 US gal, is common practice."),
        input("n_t", "Turnovers by the stirrer", PER_MINUTE, [0.05, 60.0], [0.5, 5.0]).usually(2.0)
            .group(TANKS)
            .help("How often it moves all of the liquid: 1 to 3 a minute is common practice."),
        input("T_max", "Warmest it may get", CELSIUS, [20.0, 99.0], [35.0, 80.0]).usually(FIRST_SOFTENS)
            .group(TANKS)
            .help(concat!("Sewers have a limit of their own; and ", plastics_soften!())),
    ],
    tables: &[
        Table {
            id: reagent::DISSOLVED,
            label: "Dissolved in it, but for metals",
            key_label: "Acid, base or salt",
            add: Some("Add a substance"),
            suggest: reagent::DISSOLVED_NAMES,
            presets: &[],
            columns: &[reagent::unit_of_acid(), reagent::acid_by_mass(), reagent::acid_by_amount()],
            answers: &[reagent::AMOUNT],
        },
        Table {
            id: metals::TABLE,
            label: "Metals in it",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[reagent::metal_in()],
            answers: &[
                output("c_f", "Falls as hydroxide", MG_PER_L_METAL),
                output("c_o", "In the treated water, what fell with it", MG_PER_L_METAL),
            ],
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
        Table {
            id: PERIODS,
            label: "Inflow over the day, if it is known",
            key_label: "Period",
            add: Some("Add a period"),
            suggest: &["Night", "Early", "Noon", "Late"],
            presets: &[],
            columns: &[
                input("t_e", "Lasts", HOUR, [0.01, 168.0], [0.25, 24.0]).needed().help("One after the other; then the day begins anew."),
                input("V_e", "Runs in", L, [0.0, 1e9], [0.0, 1e5]).needed().help("In this period, dumps included."),
            ],
            answers: &[],
        },
    ],
    outputs: &[
        output("V_d", "Reagent a day", L_PER_DAY),
        output("m_d", "Of it, pure substance a day", KG_PER_DAY).beside(),
        output("N_s", "Stirred stages", NUMBER)
            .beside()
            .above(1.0, Severity::Note, "One stage does not hold so far a way: the first does the most of it, the last the rest."),
        output("pH_w", "pH of the water as it comes", NUMBER),
        output("n_r", "Reagent to a litre of it", MOL_PER_L),
        output("a_r", "Acid that it takes up a day, below 0 acid added", EQ_PER_DAY),
        output("q_low", "Pump at the mean", ML_PER_MIN),
        output("q_high", "Pump at the worst", ML_PER_MIN),
        output("r_t", "Turndown of the pump", NUMBER)
            .above(10.0, Severity::Caution, "A dosing pump turns down to about a tenth, common practice: take two, or even the flow.")
            .cured_by(&[("neutralisation", "q_p"), ("neutralisation", "x_a"), ("neutralisation", "t_1")]),
        output("x_b", "The band, of all the reagent", PERCENT)
            .below(1.0, Severity::Note, "Dosing that is true to 1 % swings out of the band: a fine pump for the last stage, or a wider band.")
            .cured_by(&[("neutralisation", "δ")]),
        output("m_g", "Gypsum that falls, dry, a day", KG_PER_DAY).missing(reagent::NO_GYPSUM),
        output("c_S", "Sulfate left in the water", G_PER_L).missing(reagent::NO_GYPSUM),
        output("P_h", "Heat given off at the mean", KW).missing(HEAT_KNOWN),
        output("ΔT", "It warms up by, at the strongest", KELVINS).missing(HEAT_KNOWN),
        output("T_w", "Temperature then", CELSIUS)
            .missing(HEAT_KNOWN)
            .cured_by(&[("neutralisation", "T"), ("neutralisation", "x_a")]),
        output("T_in", "Warmest it may come in", CELSIUS).missing(HEAT_KNOWN),
        output("V_eq", "Tank that evens the flow", L).missing("say that the flow is evened"),
        output("q_t", "Flow through the stages", L_PER_MIN),
        output("V_r", "Liquid in each stage", L),
        output("P_s", "Stirring power of each", WATT),
        output("q_s", "The stirrer moves", L_PER_MIN),
        output("Q_out", "Treated water a day", L_PER_DAY),
    ],
    picture: Some(Picture { across: "pH_t", up: "V_d" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution { when: &[], text: strong_acid_with_caustic() },
        Caution {
            when: &[],
            text: "Eyewash and shower within reach, face shield and apron; high and low limits of pH and level stop the pump and shut the outlet, apart from the controller. The local code and a licensed person decide.",
        },
        Caution {
            when: &[When::Is("kind_r", &[routes::CYANIDE])],
            text: "Never any acid to this route: cyanide and acid give a gas that kills. It stays above pH 11 until the cyanide is destroyed.",
        },
        Caution {
            when: &[When::Is("kind_r", &[routes::SULFITE])],
            text: "Sulfite with acid gives sulfur dioxide, which chokes: keep it alkaline.",
        },
        Caution {
            when: &[When::Is("kind_r", &[routes::AMMONIA])],
            text: "A base drives ammonia out of this water: it chokes and burns eyes. Under exhaust, and never with hypochlorite.",
        },
        Caution {
            when: &[When::Above("T_w", BURNS_SKIN)],
            text: "It gets hot enough to burn skin and to soften plastics: cooling, a limit of temperature that stops the pump, and pipes for that heat.",
        },
        Caution {
            when: &[When::Is("up", &[reagent::SODA])],
            text: "Carbonate foams as its gas leaves: room above the liquid, a vent, and slowly.",
        },
        Caution {
            when: &[When::Is("up", &[reagent::LIME])],
            text: "Lime dust and slurry blind and burn: goggles, dust mask and gloves. The slurry is kept stirred, or it sets in tank and pipe.",
        },
        Caution {
            when: &[When::Above("c_m", 0.0)],
            text: "Metal that falls as hydroxide is still in the water: it is settled or filtered before it may leave.",
        },
    ],
    sources: &[
        "Reagent: charge balance with activities, checked against PHREEQC 3.8.6; below pH 0.5 by amount, as the equation of reaction has it.",
        "Heat: CODATA Key Values (1989) for water and hydroxide; dilution of stock and acid by NBS TN 270, CRC Handbook and Koretsky, table 6.1.",
        "Lime: portlandite of minteq.v4.dat, gypsum of phreeqc.dat, both of PHREEQC 3.8.6. It is slow: the residence is common practice, no source.",
        "Tank that evens: range of the running surplus, conservation of volume.",
        "Stages, residence, stirring, turnover, turndown and margin: common practice, no source.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; rest from memory. Hydroxides: see the sheet of precipitation.",
    ],
    examples: &[
        Example {
            source: "Alkali requirement table of a lime bulletin: 1630 lb of NaOH for 2000 lb of H2SO4, here in 18 143.7 L of 50 g/L",
            inputs: &[
                ("Q", "18143.7 L/day"), ("q_m", "12.6 L/min"), ("given", reagent::BY_NAME), ("C_b", "10 mol/L"), ("pH_t", "8"),
            ],
            rows: &[(reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "g/L"), ("c_a", "50 g/L")])],
            answers: &[("m_d", "739.36 kg/day")],
            within: 2e-3,
        },
        Example {
            source: "PHREEQC 3.8.6, minteq.v4.dat: 0.01 mol/L of copper sulfate and 0.02 of sulfuric acid take 0.059833 mol of NaOH to pH 9",
            inputs: &[
                ("Q", "1000 L/day"), ("q_m", "1 L/min"), ("T", "25 °C"), ("given", reagent::BY_NAME), ("C_b", "5 mol/L"),
                ("pH_t", "9"),
            ],
            rows: &[
                (reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.02 mol/L")]),
                (metals::TABLE, "Cu", &[("c_m", "635.46 mg/L")]),
            ],
            answers: &[("n_r", "0.059833 mol/L"), ("V_d", "11.9666 L/day")],
            within: 0.01,
        },
        Example {
            source: "PHREEQC 3.8.6, phreeqc.dat: 0.1 mol/kg of sulfuric acid takes 0.10001 mol of Ca(OH)2 to pH 9 and leaves 0.084949 mol of gypsum; minteq.v4.dat: 128.62 kJ each",
            inputs: &[
                ("Q", "1440 L/day"), ("q_m", "1 L/min"), ("T", "25 °C"), ("given", reagent::BY_NAME), ("up", reagent::LIME),
                ("C_b", "30 mol/L"), ("pH_t", "9"),
            ],
            rows: &[(reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.1 mol/L")])],
            answers: &[("n_r", "0.10001 mol/L"), ("m_d", "10.6705 kg/day"), ("m_g", "21.06 kg/day")],
            within: 0.01,
        },
        Example {
            source: "PHREEQC 3.8.6, phreeqc.dat: 0.05 mol/kg of NaOH takes 0.05 mol of HCl to pH 7",
            inputs: &[
                ("Q", "1000 L/day"),
                ("q_m", "1 L/min"),
                ("T", "25 °C"),
                ("given", reagent::BY_NAME),
                ("way", LOWERED),
                ("down", "Hydrochloric acid"),
                ("C_b", "5 mol/L"),
                ("pH_t", "7"),
            ],
            rows: &[(reagent::DISSOLVED, "Sodium hydroxide", &[("as_a", "mol/L"), ("C_a", "0.05 mol/L")])],
            answers: &[("n_r", "0.05 mol/L"), ("V_d", "10 L/day")],
            within: 1e-4,
        },
        Example {
            source: "By hand: 0.1 mol/L of HCl at 1 L/min is 0.1 mol/min; at 55.815 kJ, 0.55 of the acid’s dilution and 2 typed for the stock 5.837 kJ/min",
            inputs: &[
                ("Q", "1440 L/day"), ("q_m", "1 L/min"), ("T", "25 °C"), ("given", reagent::BY_NAME), ("up", reagent::POTASH),
                ("C_b", "5 mol/L"), ("h_s", "2 kJ/mol"), ("pH_t", "7"),
            ],
            rows: &[(reagent::DISSOLVED, "Hydrochloric acid", &[("as_a", "mol/L"), ("C_a", "0.1 mol/L")])],
            answers: &[("n_r", "0.1 mol/L"), ("P_h", "97.28 W")],
            within: 2e-3,
        },
        Example {
            source: "numpy 2.4.6, cumulative sum: six equal hours of 5, 5, 5, 60, 5 and 5 L have a running surplus of 45.8333 L",
            inputs: &[
                ("Q", "85 L/day"), ("q_m", "0.23611 L/min"), ("pH_0", "2"), ("C_b", "1 mol/L"), ("pH_t", "7"), ("even", EVENED),
                ("x_h", "0 %"),
            ],
            rows: &[
                (PERIODS, "1", &[("t_e", "1 h"), ("V_e", "5 L")]),
                (PERIODS, "2", &[("t_e", "1 h"), ("V_e", "5 L")]),
                (PERIODS, "3", &[("t_e", "1 h"), ("V_e", "5 L")]),
                (PERIODS, "4", &[("t_e", "1 h"), ("V_e", "60 L")]),
                (PERIODS, "5", &[("t_e", "1 h"), ("V_e", "5 L")]),
                (PERIODS, "6", &[("t_e", "1 h"), ("V_e", "5 L")]),
            ],
            answers: &[("V_eq", "45.8333 L")],
            within: 1e-5,
        },
    ],
    work: sum::work,
};
