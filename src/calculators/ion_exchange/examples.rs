//! Worked examples with known answers.

use super::*;
use crate::calculator::Example;

pub(super) static LIST: &[Example] = &[
    Example {
        source: "By hand with IUPAC weights: copper of 50 and nickel of 10 mg/L are 1.9144 meq/L; 1.8 eq/L × 60 % are 564.14 bed volumes",
        inputs: &[
            ("resin", STRONG),
            ("Q", "12000 L/day"),
            ("q_p", "500 L/h"),
            ("q_T", "1.8 eq/L"),
            ("V_b", "100 L"),
        ],
        rows: &[("metals", "Cu", &[("c", "50 mg/L")]), ("metals", "Ni", &[("c", "10 mg/L")])],
        answers: &[
            ("BV", "564.1404"),
            ("t_b", "4.701171 days"),
            ("S", "5 bed volumes/h"),
            ("c_o[Cu]", "1 mg/L"),
        ],
        within: 2e-4,
    },
    Example {
        source: "Davis, Water and Wastewater Engineering (2010), example 8-1: calcium of 1.4 beside sodium of 2.6 meq/L on 2 eq/L; 1.0 eq/L and 710 L/L",
        inputs: &[
            ("resin", STRONG),
            ("Q", "1000 L/day"),
            ("q_T", "2 eq/L"),
            ("u", "100 %"),
            ("α", "0.53"),
            ("V_b", "10 L"),
        ],
        rows: &[
            ("metals", "Ca", &[("c", "28.0546 mg/L"), ("z", "2")]),
            ("others", "Na", &[("c_j", "59.7740 mg/L")]),
        ],
        answers: &[("q_m", "1 eq/L"), ("BV", "710")],
        within: 0.015,
    },
    Example {
        source: "fluids 1.3.1 Ergun with iapws 1.5.5 water: beads of 0.6 mm, void 0.38, 0.005 m/s, 0.8 m at 20 °C take 12.3522 kPa",
        inputs: &[
            ("Q", "20000 L/day"),
            ("q_p", "1272.345 L/h"),
            ("q_T", "1.2 eq/L"),
            ("V_b", "56.5487 L"),
            ("D", "300 mm"),
        ],
        rows: &[("metals", "Cu", &[("c", "20 mg/L")])],
        answers: &[("Δp", "12.3522 kPa"), ("h", "0.8 m"), ("v", "18 m/h")],
        within: 0.003,
    },
    Example {
        source: "fluids 1.3.1 v_terminal, Richardson and Zaki’s exponent: 14.1247 m/h widen beads of 0.6 mm and 1.25 kg/L by half at 20 °C; 0.8 m by 0.4 m",
        inputs: &[
            ("Q", "20000 L/day"),
            ("q_T", "1.2 eq/L"),
            ("V_b", "56.5487 L"),
            ("D", "300 mm"),
            ("ρ_p", "1.25 kg/L"),
        ],
        rows: &[("metals", "Cu", &[("c", "20 mg/L")])],
        answers: &[("v_b", "14.1247 m/h"), ("q_b", "998.4 L/h"), ("h_b", "0.4 m"), ("V_bw", "166.4 L")],
        within: 0.02,
    },
    Example {
        source: "Plug flow with second-order uptake, marched in numpy: 0.40098 of 1 meq/L after 300 000 s, with 0.8 eq/L, 2·10⁻⁵ m³/(mol·s) and 400 s of contact",
        inputs: &[
            ("Q", "21600 L/day"),
            ("q_p", "900 L/h"),
            ("q_T", "0.8 eq/L"),
            ("V_b", "100 L"),
            ("k", "0.00002 m³/(mol·s)"),
            ("t_try", "3.4722222 days"),
        ],
        rows: &[("metals", "Cu", &[("c", "31.7730 mg/L")])],
        answers: &[("c_try", "12.74034 mg/L")],
        within: 2e-3,
    },
    Example {
        source: "By hand: gold of 19.697 mg/L in a complex of one charge is 0.1 meq/L; 1.2 eq/L × 60 % are 7200 bed volumes",
        inputs: &[
            ("kind", routes::CYANIDE),
            ("resin", ANION),
            ("Q", "1000 L/day"),
            ("q_T", "1.2 eq/L"),
            ("V_b", "10 L"),
        ],
        rows: &[("metals", "Au", &[("c", "19.6970 mg/L")])],
        answers: &[("BV", "7200"), ("t_b", "72 days"), ("m_h[Au]", "18.6970 g/day")],
        within: 1e-4,
    },
    Example {
        source: "By hand: 50 L with 3, 2 and 6 bed volumes make 550 L in 2.267 h; 2 × 1.2 eq/L × 50 L of HCl are 4.375 kg",
        inputs: &[("Q", "4800 L/day"), ("q_T", "1.2 eq/L"), ("V_b", "50 L"), ("service", HERE)],
        rows: &[("metals", "Ni", &[("c", "30 mg/L")])],
        answers: &[("V_s", "550 L"), ("t_s", "2.266667 h"), ("m_a", "4.3750 kg")],
        within: 1e-3,
    },
];
