//! Worked examples with known answers.

use super::*;
use crate::calculator::Example;

pub(super) static LIST: &[Example] = &[
    Example {
        source: "By hand: 208 L × 0.9 at 8 L/day are 23.4 days; 350 × 8 L take 15 of them; 187.2 L × 1.25 kg/L + 9 kg = 243 kg",
        inputs: &[("Q", "8 L/day"), ("V", "208 L"), ("ρ", "1.25 kg/L"), ("m_t", "9 kg"), ("days", "350")],
        rows: &[(metals::TABLE, "Cu", &[("c_M", "40 g/L"), ("p_M", "5 per kg")])],
        answers: &[
            ("t_d", "23.4 days"),
            ("t_cal", "24.402857 days"),
            ("n_y", "15"),
            ("m_f", "243 kg"),
            ("lift", BY_AIDS),
            ("m_M[Cu]", "7.4880 kg of metal"),
            ("worth", "37.44"),
        ],
        within: 1e-7,
    },
    Example {
        source: "40 CFR 264.175(b)(3) as a public page works it: four drums of 55 gal need 55 gal, as 10 % are 22 gal",
        inputs: &[
            ("Q", "8 L/day"),
            ("V", "55 US gal"),
            ("ρ", "1.0 kg/L"),
            ("m_t", "9 kg"),
            ("n_s", "3"),
            ("V_c", "60 US gal"),
        ],
        rows: &[],
        answers: &[("V_need", "55 US gal"), ("V_110", "60.5 US gal"), ("V_sp", "5 US gal")],
        within: 1e-9,
    },
    Example {
        source: "By hand: 208 L from 80 to 90 % at 6 L/h are 3.4667 h; of two in turn the full one has 31.2 h",
        inputs: &[
            ("Q", "144 L/day"),
            ("q_p", "6 L/h"),
            ("V", "208 L"),
            ("ρ", "1.2 kg/L"),
            ("m_t", "9 kg"),
            ("arr", DUAL),
        ],
        rows: &[],
        answers: &[("t_w", "3.4666667 h"), ("t_pk", "31.2 h")],
        within: 1e-7,
    },
    Example {
        source: "iapws 1.5.5: 208 L filled at 15 °C may take 200.369 L of water to be 97 % full at 40 °C",
        inputs: &[
            ("Q", "8 L/day"),
            ("V", "208 L"),
            ("ρ", "1.0 kg/L"),
            ("m_t", "9 kg"),
            ("T_1", "15 °C"),
            ("T_2", "40 °C"),
            ("s_h", "97 %"),
        ],
        rows: &[],
        answers: &[("V_w", "200.3690 L")],
        within: 1e-4,
    },
];
