//! Coils and exchangers: what a tube or a plate exchanger passes on, what the bath brings, how long a tube it
//! takes, and plastic beside metal.
//!
//! - this file: the declaration;
//! - [`tube`]: films and wall of a tube;
//! - [`sum`]: the sum.

mod sum;
mod tube;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Severity, Source, Subject, Table, When, choice, input,
    output, verdict,
};
use crate::science::plastics::{FIRST_SOFTENS, plastics_soften};
use crate::units::{
    AMPERE, CELSIUS, KELVINS, KG_PER_L, KJ_PER_KG_K, KPA, KW, L_PER_MIN, M, M_PER_S, M2, M2_K_PER_W, MM,
    MPAS, NUMBER, PERCENT, W_PER_K, W_PER_M_K, W_PER_M2_K, WATT,
};

const TABLE: &str = "tubes";
const COIL: &str = "tube in the bath";
const COUNTER: &str = "exchanger outside, counterflow";
const PARALLEL: &str = "exchanger outside, parallel flow";
pub(super) const COOL: &str = "cools the bath";
pub(super) const HEAT: &str = "heats the bath";
const WATER: &str = "water";
const OTHER: &str = "another liquid";
const ANOTHER: &str = "another material";
const STRAIGHT: &str = "straight or in wide bends";
const WOUND: &str = "wound as a coil";
const TYPED: &str = "typed: stirred by pump or air";
const ACROSS: &str = "bath flows across it";
const AT_REST: &str = "bath at rest";
const BY_WALL: &str = "the wall";
const BY_BATH: &str = "the bath’s side";
const BY_MEDIUM: &str = "the medium’s side";
const BY_FOULING: &str = "what fouls it";
const LAMINAR: &str = "laminar";
const UNCERTAIN: &str = "uncertain, taken as laminar";
const TURBULENT: &str = "turbulent";

/// Usual tubes: name, conductivity in W/(m·K), outside and bore in mm, all from memory.
const USUAL_TUBES: &[(&str, f64, f64, f64)] = &[
    ("PFA 12 × 9 mm", 0.19, 12.0, 9.0),
    ("PFA 3.2 × 2.4 mm", 0.19, 3.2, 2.4),
    ("PVDF 16 × 13 mm", 0.19, 16.0, 13.0),
    ("PP 20 × 16 mm", 0.22, 20.0, 16.0),
    ("Stainless steel 12 × 10 mm", 16.0, 12.0, 10.0),
    ("Titanium 12 × 10.6 mm", 20.0, 12.0, 10.6),
];

const IN_BATH: When = When::Is("kind", &[COIL]);
const OUTSIDE: When = When::Is("kind", &[COUNTER, PARALLEL]);
const ANOTHER_LIQUID: When = When::Is("medium", &[OTHER]);
const CURES: &[Source] = &[("coil", "l"), ("coil", "q"), ("coil", "T_s"), ("coil", "A_x")];

const MORE_ROOM: &[Source] = &[("coil", "n_t"), ("coil", "d_i")];

const fn of_liquid(
    symbol: &'static str,
    label: &'static str,
    unit: &'static crate::units::Unit,
    ranges: [[f64; 2]; 2],
) -> Input {
    input(symbol, label, unit, ranges[0], ranges[1])
        .needed()
        .group("Medium")
        .help("Of the liquid as it enters, from its data sheet: glycol carries less heat than water and flows more slowly.")
        .when(ANOTHER_LIQUID)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "coil",
    title: "Exchanger and coil",
    question: "What does the coil pass on, what must it carry off, and how long must it be?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("kind", "Kind of exchanger", NUMBER, &[(COIL, 0.0), (COUNTER, 0.0), (PARALLEL, 0.0)])
            .group("Exchanger")
            .help("A tube in the bath, or an exchanger through which the bath is pumped. Of several passes the sheet knows none."),
        choice("use", "What it does", NUMBER, &[(COOL, 0.0), (HEAT, 0.0)])
            .group("Exchanger")
            .help("Plating and pumps bring heat; losses take it."),
        input("T", "Bath temperature", CELSIUS, [0.0, 99.0], [10.0, 80.0])
            .needed()
            .group("Bath")
            .follows(&[("evaporation", "T")])
            .if_known()
            .help("As it is held in service."),
        input("T_s", "Medium enters at", CELSIUS, [0.0, 100.0], [5.0, 95.0])
            .needed()
            .group("Medium")
            .help("Where it enters the coil."),
        input("q", "Flow of the medium", L_PER_MIN, [0.01, 5000.0], [0.5, 200.0])
            .needed()
            .group("Medium")
            .help("Through all tubes together."),
        choice("medium", "Medium", NUMBER, &[(WATER, 0.0), (OTHER, 0.0)])
            .group("Medium")
            .help("Water’s properties are known; type those of another, such as a glycol mixture."),
        of_liquid("ρ_m", "Density of the medium", KG_PER_L, [[0.6, 2.0], [0.8, 1.2]]),
        of_liquid("c_m", "Heat capacity of the medium", KJ_PER_KG_K, [[1.0, 5.0], [1.8, 4.25]]),
        of_liquid("μ_m", "Viscosity of the medium", MPAS, [[0.1, 1000.0], [0.3, 50.0]]),
        of_liquid("k_m", "Conductivity of heat of the medium", W_PER_M_K, [[0.05, 1.0], [0.1, 0.7]]),
        choice("mat", "Material of the tube", W_PER_M_K, &[
            ("PFA", 0.19), ("PVDF", 0.19), ("PP", 0.22), ("stainless steel", 16.0), ("titanium", 20.0), (ANOTHER, 0.0),
        ])
            .group("Tube")
            .help("Conductivities from memory. The maker’s data say which material stands the bath.")
            .when(IN_BATH),
        input("k_w", "Conductivity of heat of the tube", W_PER_M_K, [0.01, 500.0], [0.1, 400.0])
            .needed()
            .group("Tube")
            .help("Of the material of the wall.")
            .when(When::Is("mat", &[ANOTHER])),
        input("d_o", "Outside diameter of the tube", MM, [0.5, 200.0], [2.0, 50.0]).usually(12.0)
            .group("Tube")
            .help("U and area are both on the outside.")
            .when(IN_BATH),
        input("d_i", "Bore of the tube", MM, [0.2, 199.0], [1.5, 46.0]).usually(9.0)
            .group("Tube")
            .help("Inside diameter; a thick wall of plastic costs most of the heat.")
            .when(IN_BATH),
        input("l", "Length of each tube", M, [0.01, 10_000.0], [0.5, 200.0])
            .needed()
            .group("Tube")
            .help("All of it, bends too.")
            .when(IN_BATH),
        input("n_t", "Tubes side by side", NUMBER, [1.0, 2000.0], [1.0, 500.0]).usually(1.0)
            .group("Tube")
            .help("The flow is shared among them.")
            .when(IN_BATH),
        input("f_i", "Share below the level", PERCENT, [1.0, 100.0], [50.0, 100.0]).usually(100.0)
            .group("Tube")
            .help("What stands above the liquid passes on nothing, and overheats.")
            .when(IN_BATH),
        choice("shape", "Shape of the tube", NUMBER, &[(STRAIGHT, 0.0), (WOUND, 0.0)])
            .group("Tube")
            .help("In a wound tube flow stays laminar far above a Reynolds number of 2300.")
            .when(IN_BATH),
        input("D_c", "Diameter of the coil", MM, [5.0, 5000.0], [100.0, 1500.0]).usually(300.0)
            .group("Tube")
            .help("From centre to centre of the tube.")
            .when(When::Is("shape", &[WOUND])),
        choice("side", "On the bath’s side", NUMBER, &[(TYPED, 0.0), (ACROSS, 0.0), (AT_REST, 0.0)])
            .group("Films")
            .help("How the bath passes the tube. The last two take the properties of water at the bath’s temperature.")
            .when(IN_BATH),
        input("h_o", "Film on the bath’s side", W_PER_M2_K, [1.0, 50_000.0], [100.0, 2000.0]).usually(500.0)
            .group("Films")
            .help("300 to 800 W/(m²·K) for a coil in a stirred tank, common practice.")
            .when(When::Is("side", &[TYPED])),
        input("v_b", "Speed of the bath past the tube", M_PER_S, [0.001, 5.0], [0.02, 1.0]).usually(0.1)
            .group("Films")
            .help("From eductors or the pump’s flow.")
            .when(When::Is("side", &[ACROSS])),
        input("R_f", "What fouls it", M2_K_PER_W, [0.0, 0.1], [0.0, 0.005]).usually(0.0)
            .group("Films")
            .help("On the outside area: 0.0001 to 0.0009 m²·K/W is usual, common practice; scale and sludge may come to more than all the rest.")
            .when(IN_BATH),
        input("U_x", "Coefficient U", W_PER_M2_K, [1.0, 20_000.0], [100.0, 5000.0])
            .needed()
            .group("Exchanger")
            .help("From its maker, on the same area as below.")
            .when(OUTSIDE),
        input("A_x", "Area", M2, [0.001, 1000.0], [0.05, 50.0])
            .needed()
            .group("Exchanger")
            .help("On the side on which U is meant.")
            .when(OUTSIDE),
        input("q_l", "Bath through the exchanger", L_PER_MIN, [0.01, 5000.0], [1.0, 500.0])
            .needed()
            .group("Bath")
            .help("What the pump sends through it.")
            .when(OUTSIDE),
        input("ρ", "Density of the bath", KG_PER_L, [0.7, 2.5], [0.95, 1.6])
            .optional()
            .group("Bath")
            .follows(&[("make-up", "ρ")])
            .if_known()
            .help("Left out, 1.18 kg/L is assumed, a usual acid copper bath.")
            .when(OUTSIDE),
        input("c_p", "Heat capacity of the bath", KJ_PER_KG_K, [1.0, 5.0], [2.5, 4.25])
            .optional()
            .group("Bath")
            .follows(&[("make-up", "c_p")])
            .if_known()
            .help("Left out, 3.45 kJ/(kg·K) is assumed, a usual acid copper bath.")
            .when(OUTSIDE),
        input("I", "Plating current", AMPERE, [0.0, 1e5], [0.0, 5000.0]).usually(0.0)
            .group("Heat to carry off")
            .follows(&[("plating", "I_bath")])
            .if_known()
            .help("Of all chambers on this bath at once, in the mean.")
            .when(When::Is("use", &[COOL])),
        bath_inputs::voltage("U_v").group("Heat to carry off").when(When::Above("I", 0.0)),
        bath_inputs::pump_heat()
            .group("Heat to carry off")
            .when(When::Is("use", &[COOL])),
        input("Q_o", "Heat from the room and the rest", WATT, [0.0, 1e6], [0.0, 20_000.0]).usually(0.0)
            .group("Heat to carry off")
            .help("Through walls and surface, where the room is warmer, and from whatever else warms it.")
            .when(When::Is("use", &[COOL])),
        input("Q_n", "Heat to be given", KW, [0.001, 10_000.0], [0.1, 500.0])
            .needed()
            .group("Heat to be given")
            .help("From the sheet of heat-up: to hold the bath, or to warm it in time.")
            .when(When::Is("use", &[HEAT])),
        input("m", "Margin", PERCENT, [0.0, 200.0], [0.0, 50.0]).usually(15.0)
            .group("Exchanger")
            .help("On top of the heat: 10 to 20 %, common practice."),
        input("ΔT_r", "Medium may change by", KELVINS, [0.1, 100.0], [1.0, 30.0]).usually(5.0)
            .group("Medium")
            .help("From inlet to outlet, to see what flow that takes."),
        bath_inputs::humidity().group("Room").help("A pipe colder than the dew point drips."),
        bath_inputs::room_temperature().group("Room"),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Plastic beside metal: usual tubes with the same flow",
        key_label: "Tube",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[],
        answers: &[
            output("U_t", "U on the outside", W_PER_M2_K).needs("a flow for which its film is known"),
            output("L_t", "Length needed of each tube", M).needs("a flow that can carry the heat"),
            output("R_w", "Share of the wall in the resistance", PERCENT).needs("a flow for which its film is known"),
        ],
    }],
    outputs: &[
        output("UA", "UA", W_PER_K),
        output("U", "U, on the outside for a tube", W_PER_M2_K).beside(),
        output("Q_need", "Heat to carry, with margin", KW).beside(),
        output("Q_g", "Heat that it passes on", KW).beside(),
        output("l_n", "Length needed of each tube", M).beside().needs("a tube in the bath, and a flow that can carry the heat"),
        output("Q_spare", "Heat to spare", KW)
            .below(0.0, Severity::Caution, "It passes on less than the bath needs.")
            .cured_by(CURES),
        output("A", "Area", M2),
        output("A_n", "Area needed", M2).needs("a flow that can carry the heat"),
        output("N", "Transfer units", NUMBER),
        output("N_n", "Transfer units needed", NUMBER).needs("a flow that can carry the heat"),
        output("ε", "Effectiveness", PERCENT),
        output("T_out", "Medium leaves at", CELSIUS),
        output("T_ret", "Bath returns at", CELSIUS).needs("an exchanger outside"),
        output("ΔT_m", "Mean temperature difference", KELVINS).needs("an outlet short of the bath’s temperature"),
        output("q_r", "Flow for the change allowed", L_PER_MIN).needs("heat to carry"),
        verdict("limit", "Held back most by", &[BY_WALL, BY_BATH, BY_MEDIUM, BY_FOULING]).needs("a tube in the bath"),
        verdict("flow", "Flow in the tube", &[LAMINAR, UNCERTAIN, TURBULENT]).needs("a tube in the bath"),
        output("Re", "Reynolds number in the tube", NUMBER).needs("a tube in the bath"),
        output("h_i", "Film inside, on the inside", W_PER_M2_K).needs("a tube in the bath"),
        output("h_b", "Film on the bath’s side", W_PER_M2_K).needs("a tube in the bath"),
        output("v", "Speed of the medium in the tube", M_PER_S)
            .needs("a tube in the bath")
            .above(2.5, Severity::Caution, "So fast it wears the tube and is loud: more tubes in parallel.")
            .cured_by(MORE_ROOM),
        output("Δp", "Pressure lost in the tube", KPA)
            .needs("a tube in the bath")
            .above(100.0, Severity::Caution, "That is more than most loops can give: more tubes in parallel.")
            .cured_by(MORE_ROOM),
        output("Δp_n", "Pressure lost at the length needed", KPA)
            .needs("a tube in the bath, and a flow that can carry the heat")
            .above(100.0, Severity::Caution, "That is more than most loops can give: more tubes in parallel.")
            .cured_by(MORE_ROOM),
    ],
    picture: Some(Picture { across: "q", up: "Q_g" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("UA", 0.0)],
            text: "A coil that leaks puts bath into the building’s water, or coolant into the bath: the clean side at higher pressure or a loop between, a conductivity alarm, and the local code and a licensed person decide.",
        },
        Caution {
            when: &[When::Is("use", &[HEAT])],
            text: "Low-level and over-temperature cut-outs independent of the controller shut the source off: a coil above the liquid overheats.",
        },
        Caution {
            when: &[When::Above("T_s", FIRST_SOFTENS)],
            text: concat!("The medium is above 60 °C: additives beside the tube break down, and plastics soften. ", plastics_soften!()),
        },
        Caution {
            when: &[IN_BATH, When::Is("mat", &["stainless steel", "titanium"])],
            text: "A metal tube in a bath corrodes or plates if it touches a rectifier’s circuit, and fluoride eats titanium: hang it insulated, and let the maker’s data say whether the metal stands this bath.",
        },
    ],
    sources: &[
        "Effectiveness–NTU and logarithmic mean: as in ht 1.2.0. Worked examples: Coulson & Richardson, Chemical Engineering vol. 1, example 9.1; Kern, Process Heat Transfer, examples 18.1a and 20.2.",
        "Inside: Gnielinski, Reynolds 3000 to 5e6, within 10 %; laminar 3.66, a lower bound. Wound tubes: Schmidt. As in ht 1.2.0 and fluids 1.3.1.",
        "Bath’s side: Churchill and Bernstein 1977 across a tube; Churchill and Chu 1975 at rest, Rayleigh up to 1e12; both within 20 %, as in ht 1.2.0.",
        "Pressure: Darcy–Weisbach, smooth; turbulent in a wound tube it is more than said.",
        "Conductivities and sizes of usual tubes: from memory. Film in a stirred tank, fouling, margin, most speed and pressure lost: common practice, no source. No measured U of coils in plating baths was found.",
    ],
    examples: &[
        Example {
            source: "By hand with the films of ht 1.2.0: PFA 12 × 9 mm, k 0.19, bath side 400; water of 20 °C at 60 L/min through 10 tubes",
            inputs: &[
                ("T", "40 °C"), ("T_s", "20 °C"), ("q", "60 L/min"), ("n_t", "10"), ("l", "2 m"), ("h_o", "400 W/(m²·K)"),
                ("mat", "PFA"), ("d_o", "12 mm"), ("d_i", "9 mm"), ("P_pump", "400 W"),
            ],
            rows: &[],
            answers: &[("U", "84.9681 W/(m²·K)"), ("limit", BY_WALL), ("flow", TURBULENT), ("A", "0.7539822 m²"), ("Q_need", "0.46 kW")],
            within: 0.01,
        },
        Example {
            source: "Sum of gains with margin: (1.2 + 0.3 + 0.4) kW × 1.15 = 2.185 kW",
            inputs: &[
                ("T", "25 °C"), ("T_s", "12 °C"), ("q", "8 L/min"), ("l", "20 m"), ("I", "400 A"), ("U_v", "3 V"),
                ("P_pump", "300 W"), ("Q_o", "400 W"), ("m", "15 %"),
            ],
            rows: &[],
            answers: &[("Q_need", "2.1850 kW")],
            within: 1e-6,
        },
        Example {
            source: "CoolProp 8.0.0: ethylene glycol of 30 % carries 5 kW in 15.6139 L/min at a rise of 5 K; U of 1000 on 0.5 m² is a UA of 500",
            inputs: &[
                ("kind", COUNTER), ("T", "30 °C"), ("T_s", "10 °C"), ("q", "16 L/min"), ("medium", OTHER), ("ρ_m", "1.0418 kg/L"),
                ("c_m", "3.68851 kJ/(kg·K)"), ("μ_m", "2.9830 mPa·s"), ("k_m", "0.48 W/(m·K)"), ("U_x", "1000 W/(m²·K)"),
                ("A_x", "0.5 m²"), ("q_l", "40 L/min"), ("Q_o", "5 kW"), ("m", "0 %"), ("ΔT_r", "5 K"),
            ],
            rows: &[],
            answers: &[("q_r", "15.6139 L/min"), ("UA", "500 W/K"), ("Q_need", "5 kW")],
            within: 0.005,
        },
        Example {
            source: "ht 1.2.0 LMTD: 5 kW at U 300 from 60 to 50 °C against 21 to 45 °C in counterflow takes 0.784816 m²; flows by hand",
            inputs: &[
                ("kind", COUNTER), ("use", HEAT), ("T", "21 °C"), ("T_s", "60 °C"), ("medium", OTHER), ("ρ_m", "1 kg/L"),
                ("c_m", "4 kJ/(kg·K)"), ("μ_m", "0.6 mPa·s"), ("k_m", "0.6 W/(m·K)"), ("q", "7.5 L/min"), ("U_x", "300 W/(m²·K)"),
                ("A_x", "0.784816 m²"), ("q_l", "3.1250 L/min"), ("ρ", "1 kg/L"), ("c_p", "4 kJ/(kg·K)"), ("Q_n", "5 kW"), ("m", "0 %"),
            ],
            rows: &[],
            answers: &[("A_n", "0.784816 m²"), ("Q_g", "5 kW"), ("T_out", "50 °C"), ("T_ret", "45 °C")],
            within: 1e-4,
        },
    ],
    work: sum::work,
};
