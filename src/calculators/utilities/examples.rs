//! Worked examples with known answers.

use super::*;
use crate::calculator::Example;

pub(super) static LIST: &[Example] = &[
    Example {
        source: "By hand, P = 3^(1/2)·U·I·cos φ: 12 kW at 400 V and 0.9 take 19.245 A, 13.333 kVA; 60 % of it is 7.2 kW",
        inputs: &[("U", "400 V"), ("hours", "10 h")],
        rows: &[(ITEMS, "Chiller", &[("P", "12 kW"), ("φ_i", "0.9"), ("d", "60 %")])],
        answers: &[
            ("P_c", "12 kW"),
            ("P_m", "7.2 kW"),
            ("W_d", "72 kWh"),
            ("I_f", "19.2450 A"),
            ("S_f", "13.33333 kVA"),
            ("r_p", "12 kW"),
            ("r_m", "7.2 kW"),
            ("known", WHOLE),
        ],
        within: 1e-6,
    },
    Example {
        source: "fluids 1.3.1 isentropic_work_compression: 1000 NL/min from 20 °C and 1 atm to 700 kPa of gauge at 70 % take 7.29945 kW; ideal gas, 107.322 L/min for 100 NL/min",
        inputs: &[("T_room", "20 °C"), ("p_s", "700 kPa"), ("η_c", "70 %")],
        rows: &[(
            ITEMS,
            "Agitation",
            &[("sort", own::AIR), ("q_g", "500 NL/min"), ("n", "2"), ("d", "25 %")],
        )],
        answers: &[
            ("a_p", "1000 NL/min"),
            ("a_m", "250 NL/min"),
            ("P_k", "7.29945 kW"),
            ("a_r", "1073.2200 L/min"),
        ],
        within: 2e-4,
    },
    Example {
        source: "Ideal gas: 500 L from 800 to 600 kPa of gauge last 4.59795 min at 200 NL/min and 20 °C; 20 ft³/min of 60 °F and 14.696 psi are 535.824 NL/min (pint 0.25.3)",
        inputs: &[
            ("T_room", "20 °C"),
            ("p_s", "800 kPa"),
            ("p_l", "600 kPa"),
            ("V_k", "500 L"),
            ("t_k", "4.59795 min"),
        ],
        rows: &[
            (ITEMS, "Drying gun", &[("sort", own::AIR), ("q_g", "200 NL/min")]),
            (
                ITEMS,
                "Tool",
                &[("sort", own::NITROGEN), ("q_g", "20 ft³/min (60 °F, 14.696 psi)"), ("d", "50 %")],
            ),
        ],
        answers: &[
            ("t_l", "4.59795 min"),
            ("V_n", "500 L"),
            ("g_p", "535.8240 NL/min"),
            ("g_m", "267.9120 NL/min"),
        ],
        within: 1e-4,
    },
    Example {
        source: "By hand: two of 1 × 2 m with 0.5 m all round take 4 and 12 m²; 4, 4 and 8 L/min for 100, 50 and 60 % of 24 h are 15.552 m³ a day",
        inputs: &[("hours", "24 h")],
        rows: &[
            (
                ITEMS,
                "Cabinet",
                &[("sort", own::FLOOR), ("n", "2"), ("b", "1 m"), ("t", "2 m"), ("c", "0.5 m")],
            ),
            (ITEMS, "Agitation", &[("sort", own::DI), ("q_w", "4 L/min")]),
            (ITEMS, "Bench", &[("sort", own::DI), ("q_w", "4 L/min"), ("d", "50 %")]),
            (ITEMS, "Drums", &[("sort", own::DI), ("q_w", "8 L/min"), ("d", "60 %")]),
        ],
        answers: &[("F_a", "4 m²"), ("F_s", "12 m²"), ("w_p", "16 L/min"), ("w_d", "15.5520 m³/day")],
        within: 1e-9,
    },
    Example {
        source: "By hand: two stages of 6 W through 75 % are 16 W; five drums of 116 kg are 580 kg; 50 L at 10 bed volumes/h are 8.3333 L/min; 2 × 1 m with 0.5 m all round take 2 and 6 m²",
        inputs: &[],
        rows: &[
            (ROUTES, "Acid water", &[("even", "as it comes"), ("N_s", "2"), ("P_s", "6 W")]),
            (
                ROUTES,
                "Concentrate",
                &[
                    ("arr", "two, with automatic change-over"),
                    ("n_b", "3"),
                    ("m_f", "116 kg"),
                    ("b_r", "2 m"),
                    ("t_r", "1 m"),
                    ("c_r", "0.5 m"),
                ],
            ),
            (
                ROUTES,
                "Dilute",
                &[
                    ("resin", "regenerated here"),
                    ("V_b", "50 L"),
                    ("s_2", "10 bed volumes/h"),
                    ("Q_g", "144 L/day"),
                    ("set", "the one that leaves more"),
                    ("m_d", "3 kg/day"),
                ],
            ),
        ],
        answers: &[
            ("P_c", "16 W"),
            ("r_p", "4 W"),
            ("m_k", "580 kg"),
            ("n_k", "5"),
            ("w_p", "8.333333 L/min"),
            ("w_m", "0.10 L/min"),
            ("m_s", "3 kg/day"),
            ("F_a", "2 m²"),
            ("F_s", "6 m²"),
            ("known", PART),
        ],
        within: 1e-6,
    },
    Example {
        source: "By hand: 200 A at 6 V over 85 % are 1.41176 kW, of which 0.21176 warm the room; 5 kW of heater, 2 in the mean",
        inputs: &[],
        rows: &[(
            BATHS,
            "Copper",
            &[
                ("source", "electric or inline heater"),
                ("P_0", "5 kW"),
                ("P_t", "5 kW"),
                ("P_h", "2 kW"),
                ("t_p", "24 h"),
                ("I_b", "200 A"),
                ("I_1", "20 A"),
                ("n_c", "10"),
                ("U_b", "6 V"),
                ("η_b", "85 %"),
            ],
        )],
        answers: &[
            ("P_c", "6.4117647 kW"),
            ("P_m", "3.4117647 kW"),
            ("r_p", "211.7647 W"),
            ("r_m", "211.7647 W"),
        ],
        within: 1e-6,
    },
];
