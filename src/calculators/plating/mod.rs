//! Plating load of a bath: area, current, time, charge and metal, by wafer, day and year; what the anode does.
//!
//! - this file: the declaration;
//! - [`sum`]: steps of the recipe, metals, and the day;
//! - [`deposit`]: the metals of the deposit, with valence, share and density;
//! - [`electrodes`]: what anode and cathode do besides.

mod deposit;
mod electrodes;
mod sum;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::Severity::Serious;
use crate::calculator::{
    Calculator, Caution, Example, Picture, Subject, Table, When, choice, input, note, output,
};
use crate::science::metals;
use crate::units::{
    A_MIN, A_PER_DM2, AH_PER_DAY, AMPERE, CM2, DAYS, G_METAL, G_PER_DAY_METAL, G_PER_L_METAL, GRAM, KA_H,
    KG_METAL, KG_PER_DAY, KG_PER_L, MASS_PERCENT, MINUTE, ML, MM, MOL_PER_DAY, NORMAL_L_PER_H, NUMBER,
    PER_DAY, PERCENT, UM,
};

const SOLUBLE: &str = "soluble";
const INERT: &str = "inert";
const BY_THICKNESS: &str = "thickness";
const BY_TIME: &str = "time";
const BY_CHARGE: &str = "charge";
const STEADY: &str = "steady";
const PULSE: &str = "pulse";
const REVERSE: &str = "pulse with reverse";
const USUAL: &str = "as usual";
const SULFURIC: &str = "sulfuric acid";
const METHANESULFONIC: &str = "methanesulfonic acid";

/// The table of the recipe.
const STEPS: &str = "steps";

const PULSED: When = When::Is("pattern", &[PULSE, REVERSE]);
const REVERSED: When = When::Is("pattern", &[REVERSE]);

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "plating",
    title: "Plating load",
    question: "How much current, for how long, and how much metal is that a wafer and a day?",
    subject: Subject::Bath,
    quick: true,
    from_start: true,
    inputs: &[
        input("D", "Wafer diameter", MM, [10.0, 600.0], [50.0, 300.0])
            .needed()
            .group("Wafers")
            .from_site(&[("wafers", "D")])
            .help("A step below may have another.")
            .picks(&[("100 mm", 100.0), ("150 mm", 150.0), ("200 mm", 200.0), ("300 mm", 300.0)]),
        input("e", "Edge exclusion", MM, [0.0, 50.0], [0.0, 10.0]).usually(3.0)
            .group("Wafers")
            .from_site(&[("wafers", "e")])
            .help("Width of the ring at the edge that the seal covers. A seed contact or thief that is plated too comes on top."),
        input("open", "Open area", PERCENT, [0.001, 100.0], [1.0, 100.0])
            .needed()
            .group("Wafers")
            .from_site(&[("wafers", "open")])
            .help("Share of the face inside the seal that is plated: the open area, not the whole wafer."),
        input("N", "Wafers a day", PER_DAY, [0.01, 1e6], [1.0, 20_000.0])
            .needed()
            .group("Wafers")
            .from_site(&[("wafers", "N")])
            .help("That this bath plates on a mean working day."),
        bath_inputs::hours()
            .group("Wafers")
            .help("A day is a working day of these hours."),
        bath_inputs::days().group("Wafers"),
        input("η", "Current efficiency", PERCENT, [0.1, 100.0], [10.0, 100.0])
            .needed()
            .group("Deposit")
            .help("Share of the current that deposits metal. Common practice: acid copper 97 to 100 %, nickel 93 to 97, tin 90 to 100, gold 90 to 100 in neutral baths and 30 to 40 in hard acid ones, palladium and platinum 10 to 90."),
        input("ρ_d", "Density of the deposit", KG_PER_L, [0.5, 25.0], [5.0, 22.0])
            .optional()
            .group("Deposit")
            .help("Left out, that of the bulk metals. A real deposit is often lighter: hard gold about 17 kg/L, from memory."),
        bath_inputs::class()
            .group("Deposit")
            .help("Cyanide changes the valence of copper, and what an anode may do."),
        choice("anode", "Anode", NUMBER, &[(SOLUBLE, 0.0), (INERT, 0.0)])
            .group("Electrodes")
            .help("A soluble one dissolves and replaces what is plated: the metal of which the deposit holds most. An inert one makes oxygen and acid, uses up additives, and all metal is to be replaced."),
        input("η_a", "Efficiency of the anode", PERCENT, [0.0, 120.0], [80.0, 101.0]).usually(100.0)
            .group("Electrodes")
            .help("Share of the current that dissolves it. Above that of the cathode, metal builds up in the bath; copper may dissolve without current too.")
            .when(When::Is("anode", &[SOLUBLE])),
        choice("acid", "Acid is counted as", NUMBER, &[(SULFURIC, 0.0), (METHANESULFONIC, 0.0)])
            .group("Electrodes")
            .help("The acid of the bath; the amount of hydrogen ions is the same.")
            .when(When::Is("anode", &[INERT])),
        input("I_r", "Rectifier of a chamber gives", AMPERE, [0.001, 1e5], [1.0, 1000.0])
            .optional()
            .group("Electrodes")
            .help("Its greatest current; the sheet then says whether it does."),
        bath_inputs::volume()
            .optional()
            .group("Bath")
            .if_known()
            .help("All that circulates."),
        input("d_w", "Drag-out a wafer", ML, [0.0, 10_000.0], [0.05, 50.0])
            .optional()
            .as_cure("by a longer or faster spin, or a holder that drips off: weigh some then")
            .group("Bath")
            .follows(&[("drag-out", "d_w")])
            .if_known()
            .help("Bath that a wafer and its holder carry out: 0.1 to 5 mL spun, 10 to 50 mL not spun, common practice. Left out, none is counted here."),
        input("N_o", "Wafers on the sheet of drag-out", PER_DAY, [0.0, 1e6], [0.0, 20_000.0])
            .only_followed()
            .group("Bath")
            .follows(&[("drag-out", "N")])
            .if_known()
            .help("Only to say if it counts others."),
        input("t_x", "Days without replenishment", DAYS, [0.0, 10_000.0], [0.04, 60.0]).usually(1.0)
            .group("Bath")
            .help("To see what is left of the metal by then. Water that evaporates takes no metal along."),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals of the deposit",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: deposit::SYMBOLS,
            presets: &[],
            columns: &[
                input("c_M", "In the bath", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
                    .optional()
                    .follows(&[("make-up", "c_M")])
            .if_known()
                    .help("As made up or as analysed."),
                input("w", "Share of the deposit", MASS_PERCENT, [0.0, 100.0], [0.0, 100.0])
                    .optional()
                    .help("By mass. One metal may be left out: it has the rest. 0 % for a metal that stays in the bath."),
                choice("z", "Electrons an ion", NUMBER, &[(USUAL, 0.0), ("1", 1.0), ("2", 2.0), ("3", 3.0), ("4", 4.0)])
                    .help("Usual: copper, nickel, tin, palladium, platinum, cobalt, zinc 2; gold, silver 1; indium 3. Copper in cyanide takes 1, gold in chloride 3, platinum(IV) 4."),
                input("ρ_m", "Density", KG_PER_L, [0.5, 25.0], [5.0, 22.6])
                    .optional()
                    .help("Of the metal itself; left out, from the table of elements."),
                note("salt", "Replaced by")
                    .help("Formula of the salt that replaces it, such as CuSO4·5H2O; left out, only the metal is counted."),
            ],
            answers: &[
                output("m_day", "Plated a day", G_PER_DAY_METAL),
                output("m_w", "Plated on a wafer", G_METAL),
                output("m_year", "Plated a year", KG_METAL),
                output("y", "Share of the plating current", PERCENT),
                output("z_i", "Electrons counted", NUMBER),
                output("m_a", "Anode that dissolves a month", KG_METAL),
                output("m_rep", "To be replaced a day", G_PER_DAY_METAL),
                output("m_salt", "That much salt a day", KG_PER_DAY).missing("type the formula of the salt"),
                output("t_o", "Turned over in", DAYS).needs("the bath’s volume and its metal"),
                output("c_x", "Left after the days without", G_PER_L_METAL)
                    .needs("the bath’s volume and its metal"),
            ],
        },
        Table {
            id: STEPS,
            label: "Layers and steps of the recipe",
            key_label: "Layer or step",
            add: Some("Add a layer or step"),
            suggest: &["Layer", "Strike", "Fill", "Pillar", "Bump", "Cap"],
            presets: &[
                ("Strike", &[("given", BY_TIME), ("t_g", "1 min"), ("j", "0.5 A/dm²")]),
                ("Pillar", &[("d", "30 µm"), ("j", "8 A/dm²")]),
            ],
            columns: &[
                choice("given", "The step is given by", NUMBER, &[(BY_THICKNESS, 0.0), (BY_TIME, 0.0), (BY_CHARGE, 0.0)])
                    .help("What the recipe says of this step; the others follow."),
                input("d", "Thickness", UM, [0.0001, 2000.0], [0.01, 200.0])
            .needed()
                    .help("In the open area, in the mean over the wafer.")
                    .when(When::Is("given", &[BY_THICKNESS])),
                input("t_g", "Plating time", MINUTE, [0.001, 10_000.0], [0.05, 300.0])
            .needed()
                    .help("In which current runs.")
                    .when(When::Is("given", &[BY_TIME])),
                input("q_g", "Charge", A_MIN, [1e-6, 1e6], [0.01, 10_000.0])
            .needed()
                    .help("Net charge of a wafer: plating minutes times amperes.")
                    .when(When::Is("given", &[BY_CHARGE])),
                choice("pattern", "Current", NUMBER, &[(STEADY, 0.0), (PULSE, 0.0), (REVERSE, 0.0)])
                    .help("A pulsed current plates by its mean."),
                input("j", "Current density", A_PER_DM2, [1e-4, 200.0], [0.05, 30.0])
            .needed()
                    .help("On the open area. 1 A/dm² is 10 mA/cm², or 9.3 A/ft².")
                    .when(When::Is("pattern", &[STEADY])),
                input("j_f", "Forward, while it runs", A_PER_DM2, [1e-4, 1000.0], [0.05, 100.0])
            .needed()
                    .help("Current density of the pulse itself: the peak, not the mean.")
                    .when(PULSED),
                input("δ_f", "Share of the time forward", PERCENT, [0.01, 100.0], [1.0, 99.0])
            .needed()
                    .help("On-time over the whole period.")
                    .when(PULSED),
                input("j_r", "Reverse, while it runs", A_PER_DM2, [0.0, 1000.0], [0.0, 100.0])
            .needed()
                    .help("Current density that strips; it is taken to strip with all of its current, common practice.")
                    .when(REVERSED),
                input("δ_r", "Share of the time reverse", PERCENT, [0.0, 100.0], [0.0, 50.0])
            .needed()
                    .help("Reverse time over the whole period.")
                    .when(REVERSED),
                input("η_i", "Efficiency, if another", PERCENT, [0.1, 100.0], [10.0, 100.0])
                    .optional()
                    .help("Left out, that of the bath."),
                input("N_i", "Wafers a day that get it", PER_DAY, [0.0, 1e6], [0.0, 20_000.0])
                    .optional()
                    .help("Left out, all of them. So wafers of two sizes are two rows."),
                input("D_i", "Diameter, if another", MM, [10.0, 600.0], [50.0, 300.0])
                    .optional()
                    .help("Left out, as above."),
                input("open_i", "Open area, if another", PERCENT, [0.001, 100.0], [1.0, 100.0])
                    .optional()
                    .help("Left out, as above."),
            ],
            answers: &[
                output("t_i", "Plating time", MINUTE),
                output("I_i", "Mean current", AMPERE),
                output("I_p", "Peak current", AMPERE),
                output("Q_i", "Charge", A_MIN),
                output("d_i", "Thickness", UM),
                output("A_i", "Plated area", CM2),
                output("m_i", "Deposit", GRAM),
            ],
        },
    ],
    outputs: &[
        output("t_w", "Plating time of a wafer", MINUTE),
        output("I_w", "Mean current of a wafer", AMPERE).beside(),
        output("I_top", "Peak current of a wafer", AMPERE).beside(),
        output("Q_w", "Charge of a wafer", A_MIN).beside(),
        output("Q_day", "Charge a day", AH_PER_DAY).beside(),
        output("Q_year", "Charge a year", KA_H),
        output("I_bath", "Current of the bath, mean in service", AMPERE),
        output("n_busy", "Chambers that plate at once, in the mean", NUMBER),
        output("d_top", "Thickest layer or step", UM),
        output("ρ", "Density of the deposit", KG_PER_L),
        output("m_wafer", "Deposit on a wafer", GRAM),
        output("I_spare", "Rectifier to spare", AMPERE)
            .needs("what the rectifier gives")
            .below(0.0, Serious, "The rectifier cannot give the peak current.")
            .cured_by(&[("plating", "I_r"), ("plating", "open"), ("plating", "j"), ("plating", "j_f")]),
        output("D_day", "Drag-out a day", crate::units::L_PER_DAY),
        output("n_H2", "Hydrogen at the wafers, in service", NORMAL_L_PER_H),
        output("n_O2", "Oxygen at the anodes, in service", NORMAL_L_PER_H).needs("an inert anode"),
        output("n_acid", "Acid that the anode makes, or alkali that it uses up", MOL_PER_DAY).needs("an inert anode"),
        output("m_acid", "That much of the acid chosen", KG_PER_DAY).needs("an inert anode"),
    ],
    picture: Some(Picture { across: "open", up: "I_w" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("Q_day", 0.0)],
            text: "Plating current and wet hands: covers interlocked so that no current runs while one is open, rectifiers earthed and locked out for work on contacts. The local electrical code and a licensed person decide.",
        },
        Caution {
            when: &[When::Is("anode", &[INERT])],
            text: "An inert anode makes oxygen, and mist with it: exhaust over the bath, no flame and no grease near, chambers and lids that cannot hold gas.",
        },
        Caution {
            when: &[When::Above("n_H2", 0.1)],
            text: "What does not deposit makes hydrogen, which burns and explodes from 4 % in air (from memory): exhaust whenever current runs, no closed lid, no spark.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Keep every acid away from this bath, its drain and its vent, and never lower its pH with one: cyanide and acid give a gas that kills. What an anode does to its pH is for the maker’s data and a licensed person.",
        },
        Caution {
            when: &[When::Is("class", &["sulfite"]), When::Is("anode", &[INERT])],
            text: "An inert anode uses up the alkali and the sulfite of this bath: watch its pH, for sulfite with acid gives sulfur dioxide, which chokes.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"]), When::Is("anode", &[INERT])],
            text: "An inert anode uses up the alkali of a cyanide bath and makes acid at its surface: watch the pH, and do not let it fall.",
        },
    ],
    sources: &[
        "Faraday’s law, checked against OpenStax Chemistry 2e, ch. 17.7, and table 1 of a surface-finishing tutorial printed by a maker of parts.",
        "Faraday constant: CODATA 2018. Molar masses: IUPAC 2021, abridged. Densities: periodictable 2.1.0.",
        "Efficiencies, drag-out and what reverse current strips: common practice, no source.",
        "Gases and acid: charge balance of the electrodes; an upper bound, as additives take some of the current.",
    ],
    examples: &[
        Example {
            source: "scipy quad, pint 0.24.4 and CODATA: 50 µm of copper at 98 % on a quarter of a 300 mm wafer with 10 A/dm²",
            inputs: &[("D", "300 mm"), ("e", "2 mm"), ("open", "25 %"), ("η", "98 %"), ("N", "100 per day")],
            rows: &[("metals", "Cu", &[("w", "100 %")]), (STEPS, "Layer", &[("d", "50 µm"), ("j", "10 A/dm²")])],
            answers: &[
                ("A_i[Layer]", "172.0336 cm²"), ("Q_w", "398.0312 A·min"), ("I_w", "17.20336 A"),
                ("t_w", "23.13682 min"), ("m_w[Cu]", "7.707106 g of metal"), ("z_i[Cu]", "2"),
            ],
            within: 1e-4,
        },
        Example {
            source: "The same: 3 µm of gold at 90 %, one electron, on 40 % of a 150 mm wafer with 0.5 A/dm²",
            inputs: &[("D", "150 mm"), ("e", "3 mm"), ("open", "40 %"), ("η", "90 %"), ("anode", INERT), ("N", "96 per day")],
            rows: &[("metals", "Au", &[("w", "100 %")]), (STEPS, "Layer", &[("d", "3 µm"), ("j", "0.5 A/dm²")])],
            answers: &[
                ("A_i[Layer]", "65.14407 cm²"), ("Q_w", "3.421594 A·min"), ("t_w", "10.5047 min"),
                ("m_w[Au]", "0.3771841 g of metal"), ("z_i[Au]", "1"),
            ],
            within: 1e-4,
        },
        Example {
            source: "Equivalents with periodictable 2.1.0: silver of a deposit with 3.5 % by mass takes 1.956692 % of the current",
            inputs: &[("D", "300 mm"), ("open", "15 %"), ("N", "480 per day"), ("η", "95 %"), ("anode", INERT)],
            rows: &[
                ("metals", "Sn", &[("z", "2")]),
                ("metals", "Ag", &[("w", "3.5 %")]),
                (STEPS, "Bump", &[("d", "20 µm"), ("j", "4 A/dm²")]),
            ],
            answers: &[("y[Ag]", "1.956692 %"), ("y[Sn]", "98.043308 %")],
            within: 1e-4,
        },
        Example {
            source: "scipy solve_ivp: 200 L with 40 g/L of copper after 8 h of 25 A and 0.5 L/h, inert anode: 38.03423 g/L",
            inputs: &[
                ("D", "100 mm"), ("e", "0 mm"), ("open", "100 %"), ("η", "100 %"), ("anode", INERT), ("N", "24 per day"),
                ("V", "200 L"), ("d_w", "500 mL"), ("t_x", "8 h"),
            ],
            rows: &[
                ("metals", "Cu", &[("c_M", "40 g/L")]),
                (STEPS, "Layer", &[("given", BY_CHARGE), ("q_g", "1500 A·min"), ("j", "20 A/dm²")]),
            ],
            answers: &[("c_x[Cu]", "38.03423 g/L"), ("I_bath", "25 A"), ("Q_day", "600 A·h/day"), ("D_day", "12 L/day")],
            within: 1e-5,
        },
        Example {
            source: "By hand: 10 A/dm² for 40 % of the time forward, 20 for 5 % back, is 3 in the mean; 2.8 stays at 95 %",
            inputs: &[("D", "112.8379 mm"), ("e", "0 mm"), ("open", "100 %"), ("η", "95 %"), ("N", "1 per day")],
            rows: &[
                ("metals", "Cu", &[("z", "2")]),
                (STEPS, "Fill", &[
                    ("given", BY_TIME), ("t_g", "60 min"), ("pattern", REVERSE), ("j_f", "10 A/dm²"),
                    ("δ_f", "40 %"), ("j_r", "20 A/dm²"), ("δ_r", "5 %"),
                ]),
            ],
            answers: &[("I_w", "3 A"), ("I_top", "20 A"), ("Q_w", "180 A·min"), ("m_w[Cu]", "3.319383 g of metal")],
            within: 1e-4,
        },
    ],
    work: sum::work,
};
