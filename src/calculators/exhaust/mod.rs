//! Exhaust of a bath: air that captures what it gives off, the duct that takes it, and what dilution would take.
//!
//! - this file: the declaration;
//! - [`sum`]: openings, duct and room;
//! - [`given_off`]: hydrogen, vapours and water in what is drawn off;
//! - [`meets`]: what must never meet in one duct.

mod sum;
mod given_off;
mod meets;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN, bath_inputs};
use crate::calculator::Severity::{Caution as Look, Note};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Subject, Table, When, choice, input, note, output,
};
use crate::units::{
    AMPERE, CELSIUS, G_PER_H, KG_PER_H, KW, M, M_PER_S, M2, M3, M3_PER_H, MG_PER_M3, MINUTE, MM,
    NORMAL_L_PER_H, NUMBER, PASCAL, PER_HOUR, PERCENT, PPM_VOLUME, VOLUME_PERCENT,
};

const OPENINGS: &str = "openings";
const SHARED: &str = "shared";
const VAPOURS: &str = "vapours";

const ENCLOSED: &str = "opening of an enclosure";
const PLAIN: &str = "hood beside it, no flange";
const FLANGED: &str = "hood beside it, with a flange";
const SLOT: &str = "slot, no flange";
const FLANGED_SLOT: &str = "slot, with a flange";

const A_VAPOUR: &str = "another vapour or gas";
const HCN: &str = "hydrogen cyanide";
const HF: &str = "hydrogen fluoride";
const BY_MASS: &str = "mass in a volume of air";
const BY_SHARE: &str = "ppm by volume";

pub(super) const ALL_CURRENT: &str = "all current makes it, the worst case";
pub(super) const AS_PLATED: &str = "as the plating load has it";

const OPEN: When = When::Is("form", &[ENCLOSED, PLAIN, FLANGED]);
const APART: When = When::Is("form", &[PLAIN, FLANGED, SLOT, FLANGED_SLOT]);

/// Usual bores of round ducts, mm (common practice, no source).
const BORES: [f64; 13] =
    [80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "exhaust",
    title: "Exhaust",
    question: "How much air must be drawn off, through what duct, and what would dilution take?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard; it decides with what it may share a duct."),
        choice("h2", "Hydrogen is counted", NUMBER, &[(ALL_CURRENT, 0.0), (AS_PLATED, 0.0)])
            .group("Hydrogen")
            .help("When the metal is used up, or nothing is in the chamber, all current makes hydrogen."),
        input("I", "Plating current", AMPERE, [0.0, 1e6], [0.0, 20_000.0])
            .optional()
            .group("Hydrogen")
            .follows(&[("plating", "I_bath")])
            .if_known()
            .help("Of all chambers at once; from the plating load it is the mean in the hours of service.")
            .when(When::Is("h2", &[ALL_CURRENT])),
        input("n_H2", "Hydrogen at the wafers", NORMAL_L_PER_H, [0.0, 1e6], [0.0, 10_000.0])
            .optional()
            .group("Hydrogen")
            .follows(&[("plating", "n_H2")])
            .if_known()
            .help("What does not deposit makes it; from the plating load.")
            .when(When::Is("h2", &[AS_PLATED])),
        input("y_H", "Most of it in the air", VOLUME_PERCENT, [0.01, 4.0], [0.1, 1.0]).usually(1.0)
            .group("Hydrogen")
            .help("1 % is a quarter of the 4 % from which it burns (from memory); the fire code may want less."),
        input("K", "Factor for incomplete mixing", NUMBER, [1.0, 50.0], [3.0, 10.0]).usually(10.0)
            .group("Dilution")
            .help("3 where clean air sweeps past the source, 10 where corners stand still (from memory)."),
        input("v_d", "Velocity to design the duct for", M_PER_S, [1.0, 30.0], [5.0, 15.0]).usually(10.0)
            .group("Duct")
            .help("7.5 to 12 m/s for vapours, common practice."),
        input("D", "Bore of the duct", MM, [20.0, 3000.0], [80.0, 1250.0])
            .optional()
            .group("Duct")
            .help("Inside diameter; left out, the next usual one is taken."),
        input("l", "Length of the duct", M, [0.0, 1000.0], [1.0, 100.0])
            .optional()
            .group("Duct")
            .help("To the fan, and from it to the outlet."),
        input("K_s", "Loss coefficients of hood and fittings", NUMBER, [0.0, 100.0], [0.5, 20.0])
            .optional()
            .group("Duct")
            .help("Sum: entry of a hood 0.5 to 1.8, a bend 0.2 to 0.4, the outlet 1 (from memory)."),
        input("e", "Roughness of its wall", MM, [0.0, 5.0], [0.0, 0.3]).usually(0.007)
            .group("Duct")
            .help("0.007 mm is smooth plastic with its joints, 0.15 mm sheet metal (from memory)."),
        input("p_x", "Scrubber, filter and the rest", PASCAL, [0.0, 10_000.0], [0.0, 2000.0]).usually(0.0)
            .group("Duct")
            .help("Pressure that they take at this flow, from the maker."),
        input("η_f", "Efficiency of the fan", PERCENT, [5.0, 95.0], [30.0, 80.0]).usually(60.0)
            .group("Duct")
            .help("Fan, drive and motor together: 45 to 65 %, common practice."),
        input("p_b", "The duct bears", PASCAL, [10.0, 50_000.0], [200.0, 5000.0])
            .optional()
            .group("Duct")
            .help("Pressure below the room’s at which it keeps its shape, from the maker: thin plastic caves in."),
        input("n_d", "Number of its duct", NUMBER, [1.0, 99.0], [1.0, 20.0])
            .optional()
            .group("Duct")
            .help("Baths of one plan with the same number share a duct; left out, it has its own."),
        input("w", "Water that evaporates", KG_PER_H, [-1000.0, 10_000.0], [0.0, 100.0])
            .optional()
            .group("Room")
            .follows(&[("evaporation", "w")])
            .if_known()
            .help("All of it is taken to leave with the exhaust."),
        bath_inputs::room_temperature().group("Room"),
        bath_inputs::humidity().group("Room").help("Of the air that is drawn off."),
        bath_inputs::height().group("Room").help("It sets the pressure of the air."),
        input("V_r", "Space that it sweeps", M3, [0.001, 1e6], [0.1, 5000.0])
            .optional()
            .group("Room")
            .help("The room, or the enclosure around the bath."),
        input("s_c", "Cleared down to", PERCENT, [0.01, 99.0], [0.1, 50.0]).usually(5.0)
            .group("Room")
            .help("Share of what was in the air when the source stopped."),
        input("T_out", "Outside air at its coldest", CELSIUS, [-40.0, 50.0], [-30.0, 20.0])
            .optional()
            .group("Room")
            .help("What is drawn off is replaced by air that must be heated."),
    ],
    tables: &[
        Table {
            id: OPENINGS,
            label: "Openings, hoods and slots",
            key_label: "Opening",
            add: Some("Add an opening"),
            suggest: &["Lid of the tank", "Rim of the tank", "Chambers", "Cabinet", "Bench"],
            presets: &[("Rim of the tank", &[("form", SLOT), ("v_c", "0.4 m/s")])],
            columns: &[
                choice("form", "Form of the opening", NUMBER, &[(ENCLOSED, 0.0), (PLAIN, 0.0), (FLANGED, 0.0), (SLOT, 0.0), (FLANGED_SLOT, 0.0)])
                    .help("An enclosure takes least air. A hood or slot beside the bath draws from all around."),
                input("v_c", "Air speed wanted", M_PER_S, [0.01, 10.0], [0.2, 2.0])
                    .needed()
                    .help("Through the opening; of a hood or slot, at the source. From memory: 0.25 to 0.5 m/s over a quiet tank, 0.5 to 1 m/s for mist and gas."),
                input("A_f", "Open area", M2, [1e-5, 100.0], [0.001, 5.0])
                    .needed()
                    .help("Of one, with lid or door open.")
                    .when(OPEN),
                input("L_s", "Length of the slot", M, [0.01, 50.0], [0.1, 5.0])
                    .needed()
                    .help("Along the rim.")
                    .when(When::Is("form", &[SLOT, FLANGED_SLOT])),
                input("x", "Distance to the source", M, [0.0, 5.0], [0.05, 1.5])
                    .needed()
                    .help("From the opening to the farthest point that it must capture: the far rim of the tank.")
                    .when(APART),
                input("n", "How many openings", NUMBER, [0.0, 1000.0], [1.0, 50.0]).usually(1.0)
                    .help("Of this sort."),
                input("d", "Open in the mean", PERCENT, [0.0, 100.0], [5.0, 100.0]).usually(100.0)
                    .help("Share of them, or of the time. The duct is sized for all of them open at once."),
            ],
            answers: &[
                output("q_1", "Air for one", M3_PER_H),
                output("q_n", "Air for all of them open", M3_PER_H),
            ],
        },
        Table {
            id: VAPOURS,
            label: "Vapours and gases to be diluted",
            key_label: "Vapour",
            add: Some("Add a vapour"),
            suggest: &["Isopropanol", "Acetone", "Ammonia"],
            presets: &[("Isopropanol", &[("formula", "C3H8O")]), ("Acetone", &[("formula", "C3H6O")]), ("Ammonia", &[("formula", "NH3")])],
            columns: &[
                choice("what", "What it is", NUMBER, &[(A_VAPOUR, 0.0), (HCN, 0.0), (HF, 0.0)])
                    .help("What kills at little is captured and interlocked, never left to dilution."),
                note("formula", "Formula").help("Such as C3H8O; for a limit in ppm it is needed."),
                input("G", "Given off", G_PER_H, [0.0, 1e6], [0.01, 10_000.0])
                    .needed()
                    .help("From what is used up, weighed or known; never from its smell."),
                choice("as", "Limit is given as", NUMBER, &[(BY_MASS, 0.0), (BY_SHARE, 0.0)])
                    .help("Both stand in safety data sheets."),
                input("C_m", "Limit by mass", MG_PER_M3, [1e-4, 1e6], [0.01, 5000.0])
                    .needed()
                    .help("From the safety data sheet and local law.")
                    .when(When::Is("as", &[BY_MASS])),
                input("C_y", "Limit by volume", PPM_VOLUME, [1e-4, 1e5], [0.01, 5000.0])
                    .needed()
                    .help("From the safety data sheet and local law.")
                    .when(When::Is("as", &[BY_SHARE])),
                input("C_0", "In the air that comes in", MG_PER_M3, [0.0, 1e6], [0.0, 100.0]).usually(0.0)
                    .help("What the room’s own air holds."),
            ],
            answers: &[
                output("C", "Limit", MG_PER_M3),
                output("Q_v", "Air to dilute it", M3_PER_H),
            ],
        },
        Table {
            id: SHARED,
            label: "What else is in its duct",
            key_label: "Exhaust",
            add: Some("Add what is in the duct"),
            suggest: &["Another bath", "Cabinet", "Drum", "Drying"],
            presets: &[],
            columns: &[choice("class_s", "Class", NUMBER, CLASSES)
                .starts_at(UNKNOWN)
                .help("What it draws off, by hazard. Unknown counts as incompatible with cyanide.")],
            answers: &[],
        },
    ],
    outputs: &[
        output("Q_t", "Exhaust, all open", M3_PER_H),
        output("Q_m", "Exhaust, mean", M3_PER_H).beside(),
        output("D_n", "Bore for that velocity", MM).beside(),
        output("D_u", "Bore of the duct", MM).beside(),
        output("v", "Velocity in the duct", M_PER_S)
            .above(15.0, Note, "Above that a duct is loud and costs pressure, common practice.")
            .below(5.0, Note, "Below that mist settles in the duct, common practice.")
            .cured_by(&[("exhaust", "D")]),
        output("p_v", "Velocity pressure", PASCAL),
        output("Δp", "Pressure lost in the duct", PASCAL).needs("length and loss coefficients of the duct"),
        output("p_f", "Pressure that the fan gives", PASCAL).needs("length and loss coefficients of the duct"),
        output("P_f", "Power of the fan", KW).needs("length and loss coefficients of the duct"),
        output("p_spare", "Pressure that the duct still bears", PASCAL)
            .needs("the duct’s length, loss coefficients and what it bears")
            .below(0.0, Look, "The fan can draw it flat when openings are shut: a stiffer duct, or a relief damper.")
            .cured_by(&[("exhaust", "D"), ("exhaust", "p_b"), ("exhaust", "p_x"), ("exhaust", "l")]),
        output("n_h", "Hydrogen counted", NORMAL_L_PER_H).needs("the plating current or the plating load"),
        output("Q_H", "Air to dilute the hydrogen", M3_PER_H).needs("the plating current or the plating load"),
        output("Q_d", "Air for dilution, all together", M3_PER_H).needs("hydrogen or a vapour"),
        output("Q_spare", "Drawn off beyond dilution", M3_PER_H)
            .needs("hydrogen or a vapour")
            .below(0.0, Look, "Dilution would take more air than is drawn off in the mean: enclose and capture at the source.")
            .cured_by(&[("exhaust", "v_c"), ("exhaust", "A_f"), ("exhaust", "d")]),
        output("T_dew", "Dew point in the duct", CELSIUS).needs("the water that evaporates, and a dew point above 0 °C"),
        output("n_ac", "Changes of air", PER_HOUR).needs("the space that it sweeps"),
        output("t_c", "Time until it is cleared", MINUTE).needs("the space that it sweeps"),
        output("H_air", "Heat for the air that replaces it", KW).needs("the outside air, colder than the room"),
    ],
    picture: Some(Picture { across: "v_d", up: "D_n" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "This sum never stands in for a ventilation engineer, a hygienist and a measurement: they decide on exhaust, its alarms and what may be breathed. Local codes rule.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "The exhaust of a cyanide bath has a duct of its own to the end, with gas alarm and interlock: acid mist, drain vents and scrubber water of other baths kept away. Licensed persons decide.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "Hydrogen fluoride burns lungs: captured in an enclosure, alarmed and scrubbed, in a duct without glass; the site’s own first aid for it stands ready.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Vapour of solvents burns and explodes: metal duct that is earthed, no spark, no mist of acid or oxidiser in it; the fire code and a licensed person decide.",
        },
        Caution {
            when: &[When::Is("class", &["oxidiser"])],
            text: "Nothing organic in the exhaust of an oxidiser, dust and grease in the duct among it: it sets fire.",
        },
        Caution {
            when: &[When::Above("n_h", 0.0)],
            text: "Hydrogen burns and explodes from 4 % in air (from memory): exhaust interlocked with the rectifier, nothing closed above the bath where it gathers, no spark.",
        },
        Caution {
            when: &[When::Is("class", &["acid", "fluoride", "oxidiser", "alkaline", "cyanide", "sulfite"])],
            text: "What drips in the duct and what leaves a scrubber is as hazardous as the bath: the duct falls to a drain of its own class, and the scrubber’s water is a stream of the plan.",
        },
    ],
    sources: &[
        "Hoods and slots: forms of the ventilation handbooks, with their air speeds and mixing factors, from memory.",
        "Duct: Darcy–Weisbach with Colebrook, as in fluids 1.3.1; velocities, bores and loss coefficients: common practice and memory.",
        "Dilution: balance of a stirred room, checked against scipy 1.17.1 solve_ivp. Hydrogen: Faraday’s law; 4 % from memory.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
        "Hydrogen cyanide, 10 ppm over 8 h and 4.7 ppm over 15 minutes: header of NIOSH Method 6010.",
        "Air: ideal gas, standard atmosphere; viscosity by Sutherland. Dew point: IAPWS-IF97.",
    ],
    examples: EXAMPLES,
    work: sum::work,
};

static EXAMPLES: &[Example] = &[
    Example {
        source: "CoolProp 8.0.0 and fluids 1.3.1 friction_factor, Darcy–Weisbach: 600 m³/h of air of 21 °C in 200 mm, 20 m, ΣK 3: 83.741 Pa; 16.8935 Pa of velocity pressure",
        inputs: &[("D", "200 mm"), ("l", "20 m"), ("K_s", "3"), ("T_room", "21 °C")],
        rows: &[(OPENINGS, "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.333333333333 m²")])],
        answers: &[("Q_t", "600 m³/h"), ("v", "5.305165 m/s"), ("Δp", "83.7412 Pa"), ("p_v", "16.8935 Pa")],
        within: 2e-3,
    },
    Example {
        source: "By hand, V·(10·x² + A) and 3.7·L·V·x: 1800 and 2131.2 m³/h; (4·Q/(π·v))^(1/2) is 372.8777 mm at 10 m/s",
        inputs: &[("v_d", "10 m/s")],
        rows: &[
            (OPENINGS, "Bench", &[("form", PLAIN), ("v_c", "0.5 m/s"), ("A_f", "0.1 m²"), ("x", "0.3 m")]),
            (
                OPENINGS,
                "Rim of the tank",
                &[("form", SLOT), ("v_c", "0.5 m/s"), ("L_s", "0.8 m"), ("x", "0.4 m"), ("d", "50 %")],
            ),
        ],
        answers: &[
            ("q_n[Bench]", "1800 m³/h"),
            ("q_n[Rim of the tank]", "2131.2 m³/h"),
            ("Q_t", "3931.2 m³/h"),
            ("Q_m", "2865.6 m³/h"),
            ("D_n", "372.8777 mm"),
            ("D_u", "400 mm"),
        ],
        within: 1e-6,
    },
    Example {
        source: "Ideal gas and Faraday with CODATA constants: 100 A give 41.8148 NL/h of hydrogen; at 25 °C and 1 atm 1 % of it takes 4.51855 m³/h, ten times that with K 10",
        inputs: &[("I", "100 A"), ("T_room", "25 °C"), ("K", "10")],
        rows: &[(OPENINGS, "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.1 m²")])],
        answers: &[("n_h", "41.8148 NL/h"), ("Q_H", "45.18547 m³/h"), ("Q_spare", "134.81453 m³/h")],
        within: 1e-4,
    },
    Example {
        source: "chemicals 1.5.2 molar mass and ideal gas: 200 ppm of isopropanol at 25 °C and 1 atm are 491.265 mg/m³; by hand K·G/(C − C0) with 3 × 120 g/h",
        inputs: &[("K", "3"), ("T_room", "25 °C"), ("V_r", "60 m³"), ("s_c", "5 %")],
        rows: &[
            (OPENINGS, "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.333333333333 m²")]),
            (
                VAPOURS,
                "Isopropanol",
                &[("formula", "C3H8O"), ("G", "120 g/h"), ("as", BY_SHARE), ("C_y", "200 ppm")],
            ),
        ],
        answers: &[
            ("C[Isopropanol]", "491.2650 mg/m³"),
            ("Q_v[Isopropanol]", "732.8021 m³/h"),
            ("t_c", "17.9744 min"),
            ("n_ac", "10 per hour"),
        ],
        within: 2e-4,
    },
    Example {
        source: "PsychroLib 2.5.0: air of 21 °C and 45 % that takes up 6 kg of water in 712.08 kg of dry air drips at 20.714 °C",
        inputs: &[("T_room", "21 °C"), ("RH", "45 %"), ("w", "6 kg/h"), ("T_out", "-5 °C")],
        rows: &[(OPENINGS, "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.333333333333 m²")])],
        answers: &[("T_dew", "20.7140 °C")],
        within: 5e-3,
    },
];
