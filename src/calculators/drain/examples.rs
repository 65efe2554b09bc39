//! Worked examples of the drain.

use super::{NEEDED, PLANNED};
use crate::calculator::Example;

pub(super) static EXAMPLES: &[Example] = &[
    Example {
        source: "By hand: 28 m at 1 in 48 take 583.33 mm; 300 mm there are 283.33 short and reach 14.4 m",
        inputs: &[("l", "28 m"), ("D", "50 mm"), ("S", "0.25 in/ft"), ("h_av", "300 mm")],
        rows: &[],
        answers: &[("need", "583.3333 mm"), ("spare", "-283.3333 mm"), ("l_max", "14.4 m"), ("lift", NEEDED)],
        within: 1e-6,
    },
    Example {
        source: "scipy 1.17.1 quad of the level’s fall, and Manning by fluids 1.3.1: 250 L over 0.5 m² by 25 mm into 50 mm",
        inputs: &[
            ("l", "12 m"),
            ("h_av", "450 mm"),
            ("D", "50 mm"),
            ("n", "0.009"),
            ("V_1", "250 L"),
            ("A", "0.5 m²"),
            ("d_v", "25 mm"),
            ("C_d", "0.6"),
        ],
        rows: &[],
        answers: &[("q_d", "55.3392 L/min"), ("t_d", "9.03519 min"), ("surge", "55.6339 %")],
        within: 1e-4,
    },
    Example {
        source: "scipy 1.17.1 brentq on Manning by fluids 1.3.1: depth at which 50 mm of plastic carry 60 L/min",
        inputs: &[("l", "12 m"), ("h_av", "450 mm"), ("D", "50 mm"), ("n", "0.009"), ("q_p", "60 L/min")],
        rows: &[],
        answers: &[("y_p", "0.552257")],
        within: 1e-4,
    },
    Example {
        source: "fluids 1.3.1 friction_factor (Colebrook) and Darcy–Weisbach: 40 L/min up 4 m through 30 m of 25 mm; volumes and air by hand",
        inputs: &[
            ("station", PLANNED),
            ("l", "12 m"),
            ("h_av", "450 mm"),
            ("D", "50 mm"),
            ("q_pump", "40 L/min"),
            ("q_m", "8 L/min"),
            ("s", "6 per hour"),
            ("z_l", "4 m"),
            ("l_d", "30 m"),
            ("d_d", "25 mm"),
            ("K", "12"),
            ("e", "0.0015 mm"),
            ("ρ", "998.2 kg/m³"),
            ("μ", "1.0020 mPa·s"),
            ("V_o", "40 L"),
            ("p_air", "300 kPa"),
        ],
        rows: &[],
        answers: &[("h_tot", "7.72501 m"), ("V_b", "100 L"), ("t_o", "5 min"), ("air", "158.4310 L/min")],
        within: 2e-3,
    },
    Example {
        source: "scipy 1.17.1 solve_ivp of both tanks: 250 L over 0.5 m² by 40 mm into a station that pumps 60 L/min",
        inputs: &[
            ("station", PLANNED),
            ("l", "12 m"),
            ("h_av", "450 mm"),
            ("q_pump", "60 L/min"),
            ("V_1", "250 L"),
            ("A", "0.5 m²"),
            ("d_v", "40 mm"),
            ("C_d", "0.6"),
            ("D", "100 mm"),
            ("V_o", "5 L"),
        ],
        rows: &[],
        answers: &[("V_st", "83.0810 L"), ("V_b", "90 L"), ("V_spare", "11.9190 L")],
        within: 1e-3,
    },
];
