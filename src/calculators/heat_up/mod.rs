//! Heating or cooling a bath: how soon, how far, and what holds it there.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Source, Subject, When, choice, input, output, verdict,
};
use crate::science::plastics::{BURNS_SKIN, FIRST_SOFTENS, plastics_soften};
use crate::units::{
    AMPERE, CELSIUS, KELVIN_PER_HOUR, KELVINS, KG_PER_H, KG_PER_L, KJ_PER_KG_K, KW, L_PER_DAY, L_PER_MIN,
    M_PER_S, M2, MINUTE, NUMBER, PERCENT, W_PER_K,
};

pub(super) const COIL: &str = "hot or cold liquid in a coil or jacket";
pub(super) const STEADY: &str = "steam, or a stream so large that it stays as hot";
pub(super) const ELECTRIC: &str = "electric or inline heater";
const WATER: &str = "water";
const OTHER: &str = "another liquid";
const LEFT_OUT: &str = "left out";
const ALWAYS: &str = "from an open surface";
const WARM: &str = "covered on the way, open once there";
const HOLDING: &str = "when holding alone";
const ON_THE_WAY: &str = "on the way too";
const NO_LOSS: &str = "none";
const DRY: &str = "dry loss only";
const DRY_AND_WET: &str = "dry loss and evaporation";
const WET_HOLDING: &str = "dry loss; evaporation in holding alone";
const WET: &str = "evaporation only";
const ONLY_WET_HOLDING: &str = "evaporation in holding alone";

const CURES: &[Source] = &[("heat-up", "T_s"), ("heat-up", "UA"), ("heat-up", "q"), ("heat-up", "P")];
const SURFACE: When = When::Is("evap", &[ALWAYS, WARM]);
const A_SOURCE: When = When::Is("source", &[COIL, STEADY]);

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "heat-up",
    title: "Heat-up and holding",
    question: "How soon is the bath at its temperature, how far can it go, and what holds it there?",
    subject: Subject::Bath,
    quick: true,
    from_start: true,
    inputs: &[
        bath_inputs::volume()
            .needed()
            .group("Bath")
            .help("All that changes temperature: tank, chambers, filters and pipes."),
        input("ρ", "Density of the bath", KG_PER_L, [0.7, 2.5], [0.95, 1.6])
            .optional()
            .group("Bath")
            .follows(&[("make-up", "ρ")])
            .help("Of the bath itself, not of water; left out, 1.18 kg/L is assumed, a usual acid copper bath."),
        input("c_p", "Heat capacity of the bath", KJ_PER_KG_K, [1.0, 5.0], [2.5, 4.25])
            .optional()
            .group("Bath")
            .follows(&[("make-up", "c_p")])
            .help("Of the bath itself per mass; left out, 3.45 kJ/(kg·K) is assumed, a usual acid copper bath. Water’s 4.18 kJ/(kg·K) with a bath’s density reads 8 to 29 % high."),
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard; cautions about hot acid depend on it."),
        input("T_0", "Temperature at the start", CELSIUS, [0.0, 100.0], [5.0, 80.0]).usually(18.0)
            .group("Bath")
            .help("Of the bath when heating or cooling begins."),
        input("T", "Target temperature", CELSIUS, [0.0, 100.0], [10.0, 80.0])
            .needed()
            .group("Bath")
            .follows(&[("evaporation", "T")])
            .if_known()
            .help("Below the start it is cooling."),
        input("L", "Dry loss to the room", W_PER_K, [0.0, 5000.0], [0.0, 500.0]).usually(0.0)
            .group("Bath")
            .help("Through walls, lid and surface for each kelvin above the room: about 8 to 10 W/K for each m² bare, common practice."),
        choice("source", "What heats or cools it", NUMBER, &[(COIL, 0.0), (STEADY, 0.0), (ELECTRIC, 0.0)])
            .group("Source")
            .help("A coil’s liquid cools down on its way through; condensing steam does not."),
        input("T_s", "Temperature of the source", CELSIUS, [-20.0, 200.0], [5.0, 150.0])
            .needed()
            .group("Source")
            .help("Where it enters the coil, or of the steam.")
            .when(A_SOURCE),
        input("UA", "UA of the coil", W_PER_K, [0.1, 1e5], [20.0, 5000.0])
            .needed()
            .group("Source")
            .follows(&[("coil", "UA")])
            .if_known()
            .help("Area times U; U is 60 to 250 W/(m²·K) for plastic, 300 to 700 for metal, common practice, and falls as a coil fouls or is exposed.")
            .when(A_SOURCE),
        input("q", "Flow through the coil", L_PER_MIN, [0.01, 5000.0], [0.5, 200.0])
            .needed()
            .group("Source")
            .help("Of the hot or cold liquid, measured where it enters.")
            .when(When::Is("source", &[COIL])),
        choice("medium", "Liquid in the coil", NUMBER, &[(WATER, 0.0), (OTHER, 0.0)])
            .group("Source")
            .help("Water’s properties are known; type those of another, such as a glycol mixture.")
            .when(When::Is("source", &[COIL])),
        input("ρ_m", "Density of the liquid in the coil", KG_PER_L, [0.6, 2.0], [0.8, 1.2])
            .needed()
            .group("Source")
            .help("Of the liquid in the coil where it enters.")
            .when(When::Is("medium", &[OTHER])),
        input("c_m", "Heat capacity of the liquid in the coil", KJ_PER_KG_K, [1.0, 5.0], [1.8, 4.25])
            .needed()
            .group("Source")
            .help("Of the liquid in the coil, per mass.")
            .when(When::Is("medium", &[OTHER])),
        input("P", "Heater power", KW, [0.001, 5000.0], [0.1, 200.0])
            .needed()
            .group("Source")
            .help("What reaches the bath; 1 to 2 kW for each 100 L is common practice.")
            .when(When::Is("source", &[ELECTRIC])),
        choice("evap", "Evaporation", NUMBER, &[(LEFT_OUT, 0.0), (ALWAYS, 0.0), (WARM, 0.0)])
            .group("Loss by evaporation")
            .help("Left out, the time is too short and the final temperature too high; above some 45 °C it is the larger loss of an open tank."),
        input("A", "Open surface", M2, [0.001, 100.0], [0.02, 10.0])
            .needed()
            .group("Loss by evaporation")
            .follows(&[("evaporation", "A_o")])
            .if_known()
            .help("What is not covered; balls or a lid cut evaporation by 70 to 90 %, common practice.")
            .when(SURFACE),
        input("φ", "Evaporation, against the pool form", PERCENT, [0.1, 2000.0], [20.0, 300.0]).usually(100.0)
            .group("Loss by evaporation")
            .follows(&[("evaporation", "φ_e")])
            .if_known()
            .help("From the sheet of evaporation, which counts by the form chosen there or by what was measured. It is counted here once, as loss, and nowhere else.")
            .when(SURFACE),
        bath_inputs::air_speed().group("Loss by evaporation").when(SURFACE),
        bath_inputs::humidity()
            .group("Loss by evaporation")
            .help("Of the air around the bath.")
            .when(SURFACE),
        bath_inputs::room_temperature().group("Room"),
        bath_inputs::height()
            .group("Room")
            .help("It sets where the bath boils."),
        input("I", "Plating current", AMPERE, [0.0, 1e5], [0.0, 5000.0]).usually(0.0)
            .group("Heat that comes anyway")
            .follows(&[("plating", "I_bath")])
            .if_known()
            .help("Of all chambers on this bath at once; from the plating load it is the mean in the hours of service."),
        bath_inputs::voltage("U").group("Heat that comes anyway").when(When::Above("I", 0.0)),
        bath_inputs::pump_heat().group("Heat that comes anyway"),
        choice("anyway", "Heat that comes anyway is counted", NUMBER, &[(HOLDING, 0.0), (ON_THE_WAY, 0.0)])
            .group("Heat that comes anyway")
            .help("On the way too, if pumps run and plating goes on meanwhile."),
        input("t", "A time to look at", MINUTE, [0.1, 100_000.0], [5.0, 1440.0]).usually(60.0)
            .group("Time allowed")
            .help("The temperature after it is given, and what it takes to be at the target by then."),
    ],
    tables: &[],
    outputs: &[
        output("t_up", "Time to the target", MINUTE)
            .above(480.0, Severity::Caution, "That is longer than a shift of 8 h.")
            .cured_by(CURES),
        output("T_end", "Temperature at which it settles", CELSIUS)
            .beside()
            .needs("a source that lets it settle between freezing and boiling"),
        output("Q_hold", "Heat to hold the target, negative to cool", KW)
            .beside()
            .below(0.0, Severity::Note, "It takes cooling to stay there.")
            .cured_by(&[("heat-up", "P_pump"), ("heat-up", "I"), ("heat-up", "U")]),
        verdict("counted", "Losses counted", &[NO_LOSS, DRY, DRY_AND_WET, WET_HOLDING, WET, ONLY_WET_HOLDING]).beside(),
        output("T_after", "Temperature after the time", CELSIUS)
            .needs("a time in which it neither boils nor freezes"),
        output("way", "Share of the way to where it settles", PERCENT)
            .needs("a source that lets it settle between freezing and boiling")
            .above(99.0, Severity::Caution, "Within 1 % of where it settles it hardly moves: not a point to design for.")
            .cured_by(CURES),
        output("ΔT", "Approach: from source to target", KELVINS)
            .needs("a coil, jacket or steam")
            .below(5.0, Severity::Caution, "The last kelvins take long, and a fouled coil no longer gets there.")
            .cured_by(&[("heat-up", "T_s")]),
        output("τ", "Time constant", MINUTE).needs("a coil or a loss"),
        output("ε", "Effectiveness of the coil", PERCENT).needs("a coil or jacket with a flow"),
        output("Q_0", "Heat from the source at the start", KW),
        output("T_out", "It leaves the coil, at the start", CELSIUS).needs("a coil or jacket with a flow"),
        output("r_0", "It rises at the start, before evaporation", KELVIN_PER_HOUR),
        output("Q_top", "Heat from the source at the target", KW),
        output("Q_spare", "Heat to spare at the target", KW)
            .below(0.0, Severity::Caution, "The source gives less than holding takes: it will not stay there.")
            .cured_by(CURES),
        output("T_hold", "Source temperature that just holds the target", CELSIUS).needs("a coil, jacket or steam"),
        output("T_need", "Source temperature for the time allowed", CELSIUS)
            .needs("no evaporation counted on the way, and a coil or steam that can be there in that time"),
        output("q_need", "Flow for the time allowed", L_PER_MIN)
            .needs("no evaporation counted on the way, and a coil whose flow alone can make that time"),
        output("UA_need", "UA for the time allowed", W_PER_K)
            .needs("no evaporation counted on the way, and as the source steam (not a coil with a flow) hotter than the target"),
        output("P_need", "Power for the time allowed", KW)
            .needs("no evaporation counted on the way, and an electric heater"),
        output("w", "Water that evaporates at the target", KG_PER_H)
            .needs("an open surface")
            .below(0.0, Severity::Note, "Water of the room condenses on a bath as cold as this: it gains water."),
        output("Q_wet", "Heat that evaporation takes at the target", KW).needs("an open surface"),
        output("q_water", "Water to make up for it", L_PER_DAY).needs("an open surface"),
        output("T_boil", "Water boils here at", CELSIUS),
    ],
    picture: Some(Picture { across: "t", up: "T_after" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("source", &[ELECTRIC])],
            text: "Never an electric heater without a low-level and an over-temperature cut-out, both independent of the controller: dry or left on, it sets plastic tanks on fire. The local electrical code and a licensed person decide.",
        },
        Caution {
            when: &[A_SOURCE],
            text: "Low-level and over-temperature cut-outs independent of the controller shut the source off.",
        },
        Caution {
            when: &[When::Above("T_s", FIRST_SOFTENS)],
            text: concat!("The source is above 60 °C: a coil this hot overheats additives beside it, and plastics soften. ", plastics_soften!()),
        },
        Caution {
            when: &[When::Above("T_s", 100.0)],
            text: "Steam and water above 100 °C burn at once and are under pressure: the pressure code and a licensed person decide.",
        },
        Caution {
            when: &[When::Above("T", FIRST_SOFTENS)],
            text: concat!("The bath is above 60 °C, where tank, pipes and pump may soften. ", plastics_soften!()),
        },
        Caution {
            when: &[When::Above("T", 60.0), When::Is("class", &["acid", "fluoride", "oxidiser", "unknown"])],
            text: "Hot acid eats and burns faster, and its mist hurts lungs: exhaust, face shield and apron; eyewash and shower within reach.",
        },
        Caution {
            when: &[When::Above("T", BURNS_SKIN)],
            text: "Liquid above 45 °C burns skin: keep hands out, guard hot pipes, let it cool before work on it.",
        },
        Caution {
            when: &[SURFACE, When::Above("T", 40.0)],
            text: "Vapour and mist over a warm bath are a matter of exposure: exhaust and a hygienist decide, not this sum.",
        },
    ],
    sources: &[
        "Heat balance of a stirred tank, exact for constant properties; checked against scipy solve_ivp and Coulson & Richardson, Chemical Engineering vol. 1, example 9.25.",
        "Coil: effectiveness–NTU relation for capacity ratio 0, as in ht 1.2.0.",
        "Evaporation: Carrier 1918, as printed in Smith, Löf & Jones, ASHRAE Transactions 104, 1998; made for pools at 25 to 30 °C, within a factor of 2 hotter. Water’s vapour pressure is the upper bound for a bath.",
        "Water: IAPWS-95, IAPWS-IF97 and Kell 1975. Pressure at height: standard atmosphere.",
        "Plastics in heat, typical U and loss: from memory and common practice, no source.",
    ],
    examples: &[
        Example {
            source: "scipy 1.17.1 solve_ivp: 250 L, source that stays at 60 °C, 0.25 kW/K, loss 0.02 kW/K",
            inputs: &[
                ("source", STEADY), ("V", "250 L"), ("ρ", "1.18 kg/L"), ("c_p", "3.4 kJ/(kg·K)"), ("T_0", "21 °C"),
                ("T", "45 °C"), ("T_s", "60 °C"), ("UA", "0.25 kW/K"), ("L", "20 W/K"), ("T_room", "21 °C"),
                ("t", "47.35 min"),
            ],
            rows: &[],
            answers: &[
                ("t_up", "67.6392 min"), ("T_end", "57.1111 °C"), ("T_after", "40.3036 °C"),
                ("Q_hold", "0.48 kW"), ("counted", DRY),
            ],
            within: 1e-4,
        },
        Example {
            source: "ht 1.2.0 effectiveness_from_NTU and scipy 1.17.1 solve_ivp: the same with 10 kg/min at 60 °C",
            inputs: &[
                ("source", COIL), ("medium", OTHER), ("ρ_m", "1 kg/L"), ("c_m", "4.18 kJ/(kg·K)"), ("q", "10 L/min"),
                ("V", "250 L"), ("ρ", "1.18 kg/L"), ("c_p", "3.4 kJ/(kg·K)"), ("T_0", "21 °C"),
                ("T", "45 °C"), ("T_s", "60 °C"), ("UA", "0.25 kW/K"), ("L", "20 W/K"), ("T_room", "21 °C"),
            ],
            rows: &[],
            answers: &[("t_up", "81.4385 min"), ("T_out", "48.2406 °C"), ("Q_0", "8.19235 kW")],
            within: 1e-4,
        },
        Example {
            source: "scipy 1.17.1 brentq over solve_ivp: flow at 70 °C that takes 120 L from 20 to 45 °C in 59 min",
            inputs: &[
                ("source", COIL), ("medium", OTHER), ("ρ_m", "1 kg/L"), ("c_m", "4.18 kJ/(kg·K)"), ("q", "10 L/min"),
                ("V", "120 L"), ("ρ", "1.1 kg/L"), ("c_p", "3.8 kJ/(kg·K)"), ("T_0", "20 °C"), ("T", "45 °C"),
                ("T_s", "70 °C"), ("UA", "0.2 kW/K"), ("L", "12 W/K"), ("T_room", "21 °C"), ("t", "59 min"),
            ],
            rows: &[],
            answers: &[("q_need", "1.90469 L/min")],
            within: 1e-3,
        },
        Example {
            source: "scipy 1.17.1 solve_ivp: cooling 250 L from 32 to 24 °C with a source that stays at 12 °C",
            inputs: &[
                ("source", STEADY), ("V", "250 L"), ("ρ", "1.2 kg/L"), ("c_p", "3.45 kJ/(kg·K)"), ("T_0", "32 °C"),
                ("T", "24 °C"), ("T_s", "12 °C"), ("UA", "0.3 kW/K"), ("L", "20 W/K"), ("T_room", "25 °C"),
            ],
            rows: &[],
            answers: &[("t_up", "29.0804 min"), ("T_end", "12.8125 °C"), ("Q_hold", "-0.02 kW")],
            within: 1e-4,
        },
        Example {
            source: "scipy 1.17.1 brentq over solve_ivp: power that takes 160 L from 15 to 65 °C in 99 min",
            inputs: &[
                ("source", ELECTRIC), ("V", "160 L"), ("ρ", "1.3 kg/L"), ("c_p", "3.1 kJ/(kg·K)"), ("T_0", "15 °C"),
                ("T", "65 °C"), ("P", "6 kW"), ("L", "30 W/K"), ("T_room", "20 °C"), ("t", "99 min"),
            ],
            rows: &[],
            answers: &[("P_need", "6.06211 kW")],
            within: 1e-4,
        },
        Example {
            source: "scipy 1.17.1 solve_ivp with vapour pressures of iapws: 6 kW into 200 L with 0.4 m² open",
            inputs: &[
                ("source", ELECTRIC), ("V", "200 L"), ("ρ", "1 kg/L"), ("c_p", "4.18 kJ/(kg·K)"), ("T_0", "21 °C"),
                ("T", "55 °C"), ("P", "6 kW"), ("L", "15 W/K"), ("T_room", "21 °C"), ("RH", "45 %"),
                ("v_air", "0.2 m/s"), ("evap", ALWAYS), ("A", "0.4 m²"),
            ],
            rows: &[],
            answers: &[("t_up", "86.7217 min"), ("counted", DRY_AND_WET)],
            within: 0.01,
        },
        Example {
            source: "scipy 1.17.1 brentq and solve_ivp with vapour pressures of iapws 1.5.5: 220 W into 40 L with 0.12 m² open",
            inputs: &[
                ("source", ELECTRIC), ("V", "40 L"), ("ρ", "1.17 kg/L"), ("c_p", "3.5 kJ/(kg·K)"), ("T_0", "18 °C"),
                ("T", "25 °C"), ("P", "220 W"), ("L", "6 W/K"), ("T_room", "21 °C"), ("RH", "45 %"),
                ("v_air", "0.1 m/s"), ("evap", ALWAYS), ("A", "0.12 m²"), ("t", "8 h"),
            ],
            rows: &[],
            answers: &[("T_end", "43.0450 °C"), ("t_up", "96.1562 min"), ("T_after", "38.7780 °C")],
            within: 1e-4,
        },
    ],
    work: sum::work,
};
