//! The line that brings a liquid to a bath: pressure, velocity, what a pump can suck, filling, what a change wastes.
//!
//! - this file: the declaration;
//! - [`examples`]: worked examples with known answers;
//! - [`sum`]: the sum;
//! - [`liquid`]: what flows, and what it must not meet.

mod examples;
mod sum;
mod liquid;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Input, Output, Picture, Severity, Subject, Table, When, choice, input, output,
    verdict,
};
use crate::units::{
    CELSIUS, KG_PER_L, KPA, L, L_PER_MIN, M, M_PER_S, M3_PER_H, MASS_PERCENT, MINUTE, MM, MPAS,
    NORMAL_L_PER_MIN, NUMBER, PER_MINUTE, PERCENT, WATT,
};

const FITTINGS: &str = "fittings";
const BORES: &str = "bores";

pub(super) const TYPED: &str = "as typed";
pub(super) const MODEL: &str = "by the solution model";
const WATER: &str = "water";
/// Its vapour pressure is more than water's where it is strong.
const VOLATILE: &str = "hydrochloric acid";
/// What the solution model knows, each with its formula.
const SUBSTANCES: &[(&str, &str)] = &[
    (WATER, "H2O"),
    ("sulfuric acid", "H2SO4"),
    (VOLATILE, "HCl"),
    ("phosphoric acid", "H3PO4"),
    ("sodium hydroxide", "NaOH"),
    ("potassium hydroxide", "KOH"),
    ("copper sulfate", "CuSO4"),
    ("nickel sulfate", "NiSO4"),
];
const WORDS: &[(&str, f64)] = &{
    let mut words = [("", 0.0); SUBSTANCES.len()];
    let mut k = 0;
    while k < SUBSTANCES.len() {
        words[k] = (SUBSTANCES[k].0, 0.0);
        k += 1;
    }
    words
};

const LAMINAR: &str = "laminar";
const UNSTABLE: &str = "unstable";
const TURBULENT: &str = "turbulent";
const FULL: &str = "full";
const EMPTY: &str = "empty";
const DOES: &str = "does";
const TOO_FAST: &str = "too fast";
const TOO_MUCH: &str = "takes more pressure than there is";

/// Usual bores of tube.
const TUBES: [(&str, f64); 8] = [
    ("4 mm", 4.0),
    ("6 mm", 6.0),
    ("9.5 mm (3/8 in)", 9.5),
    ("12.7 mm (1/2 in)", 12.7),
    ("16 mm", 16.0),
    ("19 mm (3/4 in)", 19.0),
    ("25 mm (1 in)", 25.0),
    ("40 mm (1 1/2 in)", 40.0),
];

const fn typed(input: Input) -> Input {
    input.group("Liquid").when(When::Is("by", &[TYPED]))
}

const fn sucked(output: Output) -> Output {
    output.needs("the lift to the pump")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "delivery-line",
    title: "Delivery line",
    question: "What pressure does the line take, can the pump suck that, and how soon is the tank full?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class", "Class of the liquid", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("Liquid")
            .help("Of what the line carries, by hazard; not of the bath."),
        choice("class_b", "Class of the bath", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("Liquid")
            .follows(&[("make-up", "class")])
            .help("Where the line ends. What must not meet there is refused."),
        choice("by", "Density and viscosity", NUMBER, &[(TYPED, 0.0), (MODEL, 0.0)])
            .group("Liquid")
            .help("From the data sheet, or of a solution of one substance by published fits."),
        typed(input("ρ", "Density of the liquid", KG_PER_L, [0.6, 2.5], [0.75, 1.9]))
            .needed()
            .help("Of the liquid itself at its coldest: head of water is not head of acid."),
        typed(input("μ", "Viscosity of the liquid", MPAS, [0.05, 1e5], [0.3, 200.0]))
            .needed()
            .picks(&[("water 20 °C", 1.002), ("96 % sulfuric acid", 24.0), ("85 % phosphoric acid", 47.0), ("50 % caustic", 79.0)])
            .help("Dynamic, at its coldest: a cold morning may make it 2 to 3 times as much. A kinematic one in cSt is this over the density in kg/L. Picks at 20 °C, from memory."),
        choice("sub", "Solution of", NUMBER, WORDS)
            .group("Liquid")
            .help("Concentrated acid lies beyond the fits: type its data sheet’s figures.")
            .when(When::Is("by", &[MODEL])),
        input("w_s", "Strength of the solution", MASS_PERCENT, [0.01, 100.0], [1.0, 60.0])
            .needed()
            .group("Liquid")
            .help("Mass of the substance, without its water, in a hundred of the solution.")
            .when(When::Not("sub", &[WATER])),
        input("T", "Temperature of the liquid", CELSIUS, [0.0, 95.0], [5.0, 60.0]).usually(20.0)
            .group("Liquid")
            .from_site(&[("site", "T_room")])
            .help("As it comes out of its container."),
        input("p_v", "Its vapour pressure", KPA, [0.0, 200.0], [0.0, 50.0])
            .optional()
            .group("Liquid")
            .help("Absolute. Left out, water’s at its temperature: more than a salt or sulfuric acid has, less than strong hydrochloric acid, ammonia or solvents have."),
        input("q", "Flow wanted", L_PER_MIN, [0.0001, 10_000.0], [0.05, 100.0])
            .needed()
            .group("Flow")
            .help("While it is delivered."),
        input("p_av", "Pressure there is at the start", KPA, [0.0, 5000.0], [10.0, 800.0])
            .optional()
            .group("Flow")
            .help("Gauge, of the house line or of the pump at that flow with this liquid, not with water."),
        input("p_e", "Pressure at the end", KPA, [-50.0, 2000.0], [0.0, 300.0]).usually(0.0)
            .group("Flow")
            .help("Gauge; 0 into an open tank."),
        input("z", "Rise of the line", M, [-100.0, 200.0], [-10.0, 30.0])
            .needed()
            .group("Line")
            .help("Outlet above the liquid’s lowest level in its container; negative where it is lower."),
        input("l", "Run of the line", M, [0.0, 5000.0], [0.5, 200.0])
            .needed()
            .group("Line")
            .help("Length of the whole line, up and along."),
        input("D", "Bore of the line", MM, [0.5, 500.0], [3.0, 60.0])
            .needed()
            .group("Line")
            .picks(&[("4 mm", 4.0), ("9.5 mm", 9.5), ("12.7 mm", 12.7), ("19 mm", 19.0), ("25 mm", 25.0)])
            .help("Inside diameter: not the tube’s outside."),
        input("e", "Roughness of its wall", MM, [0.0, 5.0], [0.0, 0.3]).usually(0.0015)
            .group("Line")
            .help("0.0015 mm is smooth plastic, from memory."),
        input("K_o", "Loss at the outlet", NUMBER, [0.0, 100.0], [0.0, 5.0]).usually(1.0)
            .group("Line")
            .help("In velocity heads: 1 for an open end, where the liquid’s motion is lost."),
        input("z_s", "Lift to the pump", M, [-50.0, 50.0], [-5.0, 8.0])
            .optional()
            .group("Suction")
            .help("Pump above the lowest level of the liquid; negative where the liquid stands above it."),
        input("l_s", "Run of the suction", M, [0.0, 500.0], [0.0, 20.0]).usually(0.0)
            .group("Suction")
            .help("Of the same bore; it is part of the whole run."),
        input("K_s", "Loss coefficients of the suction", NUMBER, [0.0, 1000.0], [0.0, 20.0]).usually(0.5)
            .group("Suction")
            .help("Sum; 0.5 is the inlet of a tube, from memory, a foot valve is 2 and more."),
        input("h_m", "The pump needs", M, [0.0, 20.0], [0.5, 6.0]).usually(2.0)
            .group("Suction")
            .help("Its net positive suction head, as height of the liquid, from its curve; 2 m is a common margin."),
        input("z_dry", "The pump lifts, dry", M, [0.0, 10.0], [0.5, 7.0])
            .optional()
            .group("Suction")
            .help("An air-operated pump lifts far less before it is filled: the maker’s figure, of water, rules."),
        input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0]).usually(0.0)
            .group("Suction")
            .from_site(&[("site", "z_site")])
            .help("It sets the pressure of the air, which is all that lifts."),
        input("V_st", "A full stroke delivers", L, [0.0001, 100.0], [0.01, 5.0])
            .optional()
            .group("Pump")
            .help("Of an air-operated pump, both chambers."),
        input("p_air", "Air pressure, gauge", KPA, [0.0, 1500.0], [100.0, 800.0])
            .optional()
            .group("Pump")
            .help("Of an air-operated pump of the usual ratio 1 to 1."),
        input("η", "Efficiency of the pump", PERCENT, [1.0, 100.0], [20.0, 80.0])
            .optional()
            .group("Pump")
            .help("Of an electric one with its motor, from its curve."),
        input("V_f", "Volume to fill", L, [0.0, 1e6], [0.1, 5000.0])
            .optional()
            .group("Filling")
            .follows(&[("make-up", "V")])
            .if_known()
            .help("The whole bath, or what is delivered at one time."),
        choice("start", "The line starts", NUMBER, &[(FULL, 0.0), (EMPTY, 0.0)])
            .group("Filling")
            .help("An empty line is filled first."),
        input("n_c", "Changes of liquid a year", NUMBER, [0.0, 10_000.0], [0.0, 100.0]).usually(0.0)
            .group("Filling")
            .help("At each what stands in the line is lost or flushed out."),
    ],
    tables: &[
        Table {
            id: FITTINGS,
            label: "Fittings",
            key_label: "Fitting",
            add: Some("Add a fitting"),
            suggest: &["Elbow", "Tee, branch", "Ball valve", "Diaphragm valve", "Check valve", "Inlet"],
            presets: &[
                ("Elbow", &[("K", "0.9")]),
                ("Tee, branch", &[("K", "1.8")]),
                ("Ball valve", &[("K", "0.1")]),
                ("Diaphragm valve", &[("K", "4")]),
                ("Check valve", &[("K", "10")]),
                ("Inlet", &[("K", "0.5")]),
            ],
            columns: &[
                input("n", "How many", NUMBER, [0.0, 1000.0], [0.0, 50.0]).usually(1.0)
                    .help("Of this kind in the whole line."),
                input("K", "Loss coefficient", NUMBER, [0.0, 1000.0], [0.0, 20.0])
                    .optional()
                    .help("In velocity heads of this bore; those filled in are from memory, at the high end."),
                input("Kv", "Or its Kv", M3_PER_H, [0.0001, 10_000.0], [0.05, 100.0])
                    .optional()
                    .help("Flow of water at 1 bar, in m³/h; a Cv is 1.156 Kv, so divide it first."),
            ],
            answers: &[output("K_n", "Loss coefficients together", NUMBER)],
        },
        Table {
            id: BORES,
            label: "Usual bores at this flow",
            key_label: "Bore",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("fits", "For this flow", &[DOES, TOO_FAST, TOO_MUCH]),
                output("p_b", "Pressure needed at the start", KPA),
                output("v_b", "Velocity", M_PER_S),
                output("V_b", "Stands in the line", L),
            ],
        },
    ],
    outputs: &[
        output("p_s", "Pressure needed at the start", KPA).cured_by(&[("delivery-line", "D"), ("delivery-line", "q")]),
        output("h", "Head that the pump must give", M).beside(),
        output("v", "Velocity", M_PER_S).beside().cured_by(&[("delivery-line", "D"), ("delivery-line", "q")]),
        verdict("regime", "The flow is", &[LAMINAR, UNSTABLE, TURBULENT]).beside(),
        output("t_f", "Time to fill", MINUTE).beside().needs("a volume to fill"),
        output("Re", "Reynolds number", NUMBER),
        output("f", "Friction factor (Darcy)", NUMBER),
        output("p_f", "Of it friction and fittings", KPA),
        output("p_low", "Friction, if the flow stays laminar", KPA).needs("a Reynolds number from 2000 to 4000"),
        output("p_z", "Of it the rise", KPA),
        output("k_w", "Friction, against water’s at 20 °C", NUMBER),
        output("q_a", "Flow at the pressure there is", L_PER_MIN)
            .needs("a pressure that is more than the rise and the end take"),
        output("D_p", "Bore that would do at it", MM)
            .needs("a pressure that is more than the rise and the end take"),
        output("D_v", "Bore at the usual velocity", MM),
        output("q_g", "Flow by gravity alone", L_PER_MIN).needs("an outlet that is lower than the liquid"),
        sucked(output("h_s", "Suction head there is", M)),
        sucked(output("z_m", "Highest lift", M)),
        sucked(output("z_sp", "Lift to spare", M))
            .below(0.0, Severity::Serious, "The pump does not suck that high: the liquid boils or breaks off. Set it lower, best below the liquid.")
            .cured_by(&[("delivery-line", "z_s"), ("delivery-line", "q")]),
        output("V_l", "Stands in the line", L),
        output("V_ly", "Lost at changes of liquid a year", L),
        output("s", "Strokes of the pump", PER_MINUTE).needs("the volume of a full stroke"),
        output("air", "Air that it takes, at least", NORMAL_L_PER_MIN).needs("the volume of a full stroke and the air pressure"),
        output("P", "Power that it takes", WATT).needs("the efficiency of the pump, and something to pump against"),
    ],
    picture: Some(Picture { across: "q", up: "p_s" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Chemical runs in double containment with leak detection, splash guards at fittings, and pressure relief; drain it before it is opened. A line above head height carries it over people: local code decides where it may run.",
        },
        Caution {
            when: &[When::Is("class", &["oxidiser"])],
            text: "Peroxide never between two closed valves: it gasses and bursts the pipe. Vent each high point, where the gas gathers, and relieve each section.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Solvents charge up as they flow: slow, bonded and earthed, the outlet below the liquid, no spark.",
        },
        Caution {
            when: &[When::Is("class", &["acid", "alkaline"])],
            text: "Acid or caustic under pressure: face shield, apron and gloves at each coupling; eyewash and shower within reach; couplings that fit one liquid only.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "No acid line ends at this bath, shares its containment or its cabinet: cyanide and acid give a gas that kills.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "Hydrofluoric acid: no glass and no metal in pump or line; the site’s own first aid for it stands ready.",
        },
        Caution {
            when: &[When::Above("q_g", 0.0)],
            text: "An outlet lower than the liquid empties the container by itself once it runs: a valve, and a vent against siphoning.",
        },
    ],
    sources: &[
        "Friction: Darcy–Weisbach with Colebrook, 64/Re up to Reynolds 2000; from there to 4000 the turbulent, greater one counts; as in fluids 1.3.1.",
        "Suction head: energy balance; air by the standard atmosphere, water’s vapour pressure by IAPWS-IF97.",
        "Solutions: Laliberté, J. Chem. Eng. Data 54 (2009) 1725. Kv: its definition, as in fluids 1.3.1.",
        "Air: swept volume at its pressure, ideal gas: a lower bound; dead volume and exhaust add 20 to 100 %, common practice.",
        "Velocity up to 2 m/s, for solvents and oxidisers 1 m/s: common practice, no source. Loss coefficients: from memory.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: examples::LIST,
    work: sum::work,
};
