//! A pipe run by gravity: does it fall enough, does it carry what comes, and does it need a lift.
//!
//! - this file: the declaration;
//! - [`sum`]: fall, flow, and a tank let out;
//! - [`meets`]: what must never meet in it;
//! - [`lift`]: the lift station, and [`place`]: where it may stand;
//! - [`examples`]: worked examples.
//!
//! Runs that join, with their turns and vents, are a sheet of its own, which this one follows.

mod sum;
mod meets;
mod lift;
mod place;
mod examples;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN, routes};
use crate::calculator::{
    Calculator, Caution, Input, Output, Picture, Severity, Subject, Table, When, choice, input, output,
    verdict,
};
use crate::science::plastics::plastics_soften;
use crate::units::{
    CELSIUS, DEGREE, INCH_PER_FOOT, KG_PER_L, KPA, L, L_PER_MIN, M, M_PER_S, M2, MG_PER_L_METAL, MINUTE, MM,
    MPAS, NORMAL_L_PER_MIN, NUMBER, PER_HOUR, PERCENT, ROUGHNESS, SHARE,
};

const ROUTES: &str = "routes";
const STREAMS: &str = "streams";
const NOT_NEEDED: &str = "not needed";
const NEEDED: &str = "needed";
const NOT_SIZED: &str = "needed, not yet sized";
pub(super) const NONE_PLANNED: &str = "none";
pub(super) const PLANNED: &str = "one is planned";
const SAME_LEVEL: &str = "none, or not to be used";
const BELOW: &str = "there is one";
const ON_FLOOR: &str = "on this floor";
const ON_BELOW: &str = "on the floor below";
const IN_PIT: &str = "in a pit, or nearer";
const DOES: &str = "does";
const NOT_THE_TANK: &str = "too small for the tank let out";
const TOO_SMALL: &str = "too small";

/// The least slopes of [`PLUMBING_CODES`](crate::science::drain::PLUMBING_CODES), in its order.
const CODES: &[(&str, f64)] = &[
    ("1/4 in per ft up to 2 1/2 in, 1/8 up to 6 in, 1/16 above", 0.0),
    ("1/4 in per ft up to 3 in, 1/8 above by permission", 1.0),
];

/// Usual bores, with the trade's sizes in inches.
const SIZES: [(&str, f64); 8] = [
    ("32 mm (1 1/4 in)", 32.0),
    ("40 mm (1 1/2 in)", 40.0),
    ("50 mm (2 in)", 50.0),
    ("65 mm (2 1/2 in)", 65.0),
    ("75 mm (3 in)", 75.0),
    ("100 mm (4 in)", 100.0),
    ("150 mm (6 in)", 150.0),
    ("200 mm (8 in)", 200.0),
];

const TANK: When = When::Above("V_1", 0.0);
const STATION: When = When::Is("station", &[PLANNED]);

const fn planned(input: Input) -> Input {
    input.group("Lift station").when(STATION)
}

const fn placed(input: Input) -> Input {
    input.group("Where the station stands").when(STATION)
}

const fn lifted(output: Output) -> Output {
    output.needs("a lift station that is planned")
}

const fn dumped(output: Output) -> Output {
    output.needs("a tank that may be let out into it")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "drain",
    title: "Gravity drain and lift station",
    question: "Does it run off by gravity, does the pipe carry what comes, and is a lift station needed?",
    subject: Subject::Drain,
    quick: true,
    from_start: true,
    inputs: &[
        input("l", "Run to where it ends", M, [0.0, 5000.0], [0.5, 200.0])
            .needed()
            .group("Run")
            .follows(&[("drain-runs", "l_d")])
            .if_known()
            .help("Length of the sloped pipe from the outlet to the branch, trench or tank."),
        input("S", "Slope", INCH_PER_FOOT, [0.005, 6.0], [0.0625, 1.0]).usually(0.25)
            .group("Run")
            .follows(&[("drain-runs", "S")])
            .if_known()
            .picks(&[("1/4 in/ft", 0.25), ("1/8 in/ft", 0.125), ("1/16 in/ft", 0.0625), ("1/2 in/ft", 0.5), ("1 %", 0.12), ("2 %", 0.24)])
            .help("Fall per run: 1/4 in/ft is 2.083 %, or 1 in 48, or 1.19°."),
        input("h_av", "Fall available", MM, [-20_000.0, 50_000.0], [0.0, 5000.0])
            .needed()
            .group("Run")
            .follows(&[("drain-runs", "h_d")])
            .if_known()
            .help("Height of the outlet above the point where it must arrive; negative where it must go up."),
        input("h_off", "Vertical offsets", MM, [0.0, 20_000.0], [0.0, 2000.0]).usually(0.0)
            .group("Run")
            .follows(&[("drain-runs", "o_d")])
            .if_known()
            .help("Drops that take height and give no slope."),
        input("h_trap", "Trap", MM, [0.0, 2000.0], [0.0, 300.0]).usually(0.0)
            .group("Run")
            .help("Height that the trap takes; 0 if the height is measured after it."),
        choice("code", "Least slope by code", NUMBER, CODES)
            .group("Run")
            .help("Codes differ, and the local one rules; the first is one large city’s table, the second is from memory."),
        input("D", "Bore of the drain", MM, [5.0, 1000.0], [30.0, 300.0])
            .needed()
            .group("Pipe")
            .follows(&[("drain-runs", "D")])
            .if_known()
            .help("Inside diameter."),
        input("n", "Manning’s n", ROUGHNESS, [0.005, 0.05], [0.008, 0.02]).usually(0.009)
            .group("Pipe")
            .follows(&[("drain-runs", "n")])
            .if_known()
            .picks(&[("smooth plastic", 0.009), ("smooth metal", 0.011), ("cast iron or clay", 0.013), ("old or rough pipe", 0.016)])
            .help("Roughness, held constant with depth; values from memory, 20 % either way."),
        input("y", "Depth of flow, share of the bore", SHARE, [0.05, 0.95], [0.4, 0.8]).usually(0.5)
            .group("Pipe")
            .help("0.5 to 0.8 is usual to design for; any wave fills a pipe that is deeper."),
        input("q_m", "Mean flow that arrives", L_PER_MIN, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
            .group("What comes")
            .sums(&[("route", "q_mean")])
            .help("In the hours of service, of all routes that run through it."),
        input("q_p", "Peak flow", L_PER_MIN, [0.0, 1e6], [0.0, 1000.0])
            .optional()
            .group("What comes")
            .follows(&[("drain-runs", "q_T")])
            .if_known()
            .help("All that may run at one time; left out, the mean flow."),
        input("V_1", "Tank that may be let out into it", L, [0.0, 100_000.0], [0.0, 5000.0]).usually(0.0)
            .group("What comes")
            .from_origin(&[("make-up", "V_dump")])
            .help("The whole volume, as a dump once begun is seldom stopped; 0 for none."),
        input("V_r", "Largest let out on the routes that run through it", L, [0.0, 1e6], [0.0, 1e6])
            .only_followed()
            .group("What comes")
            .largest(&[("route", "V_dump")])
            .help("Of the dumps that lead to these routes."),
        choice("class_1", "Class of that tank", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("What comes")
            .from_origin(&[("make-up", "class")])
            .help("What it holds by hazard. Unknown counts as incompatible with cyanide.")
            .when(TANK),
        input("A", "Floor area of that tank", M2, [0.001, 100.0], [0.03, 10.0])
            .needed()
            .group("What comes")
            .help("Volume over area is the level above the valve.")
            .when(TANK),
        input("d_v", "Bore of its valve", MM, [1.0, 500.0], [8.0, 100.0])
            .needed()
            .group("What comes")
            .help("Inside, fully open.")
            .when(TANK),
        input("C_d", "Discharge coefficient", NUMBER, [0.1, 1.0], [0.5, 0.85]).usually(0.6)
            .group("What comes")
            .picks(&[("sharp opening", 0.6), ("short tube", 0.8)])
            .help("0.6 for a sharp opening, 0.8 for a short tube, common practice.")
            .when(TANK),
        input("l_h", "Hose or full pipe after its valve", M, [0.0, 500.0], [0.0, 50.0]).usually(0.0)
            .group("What comes")
            .help("Of the valve’s bore, up to where the drain begins: it throttles. Its own fall is left out.")
            .when(TANK),
        input("f_h", "Friction factor in it", NUMBER, [0.005, 0.2], [0.015, 0.04]).usually(0.025)
            .group("What comes")
            .help("Darcy’s, four times Fanning’s: about 0.025 for a smooth hose of this size by Colebrook.")
            .when(When::Above("l_h", 0.0)),
        choice("station", "Lift station", NUMBER, &[(NONE_PLANNED, 0.0), (PLANNED, 0.0)])
            .group("Lift station")
            .help("A closed tank with a pump, where gravity does not do."),
        planned(input("q_pump", "Pump flow at its head", L_PER_MIN, [0.01, 1e5], [5.0, 1000.0]))
            .optional()
            .help("From the maker’s curve at the head below, not at zero head; left out, twice the peak flow."),
        planned(input("s", "Most starts of the pump", PER_HOUR, [0.1, 600.0], [4.0, 30.0]).usually(10.0))
            .help("From the maker; a small motor bears 4 to 6 an hour (US Army EI 11C201), an air pump many."),
        planned(input("V_lv", "Volume between the levels of yours", L, [0.01, 1e5], [5.0, 2000.0]))
            .optional()
            .help("Of a station that you have or are offered: the sheet then tells how often it starts."),
        planned(input("V_o", "From high level to overflow", L, [0.0, 1e5], [10.0, 5000.0]))
            .optional()
            .help("What the tank still takes after the alarm."),
        planned(input("V_p", "Still draining from pipes", L, [0.0, 1e5], [0.0, 500.0]).usually(0.0))
            .help("What runs in after everything has been shut."),
        planned(input("t_r", "Time to react", MINUTE, [0.0, 1440.0], [0.0, 30.0]).usually(0.0))
            .help("From the alarm until the inflow is shut."),
        planned(input("A_s", "Floor area of the station", M2, [0.001, 100.0], [0.05, 5.0]))
            .optional()
            .help("For the level at which the inflow must be told to stop."),
        planned(input("H_o", "Level of overflow", MM, [10.0, 20_000.0], [200.0, 3000.0]))
            .optional()
            .help("Above the bottom of the station."),
        planned(input("t_w", "From “slow” to “stop”", MINUTE, [0.0, 1440.0], [0.5, 60.0]))
            .optional()
            .help("At the first signal the tool takes no new work, at the second it shuts its water."),
        planned(input("q_w", "Pump flow when it is weak", L_PER_MIN, [0.0, 1e5], [0.0, 1000.0]))
            .optional()
            .help("With little air, a worn membrane, or one pump of two."),
        planned(input("z_l", "Rise of the discharge", M, [0.0, 200.0], [0.5, 20.0]))
            .optional()
            .help("From the low level to the highest point of the discharge: on the floor below, a storey more."),
        planned(input("l_d", "Run of the discharge", M, [0.0, 5000.0], [1.0, 200.0]))
            .optional()
            .help("Length of the pressure pipe."),
        planned(input("d_d", "Bore of the discharge", MM, [2.0, 1000.0], [12.0, 150.0]))
            .optional()
            .help("Inside diameter."),
        planned(input("K", "Loss coefficients of its fittings", NUMBER, [0.0, 1000.0], [1.0, 40.0]).usually(12.0))
            .help("Sum of all bends, valves, the check valve and the outlet."),
        planned(input("e", "Roughness of its wall", MM, [0.0, 5.0], [0.0, 0.3]).usually(0.0015))
            .help("0.0015 mm is smooth plastic, from memory."),
        planned(input("ρ", "Density of the liquid", KG_PER_L, [0.6, 2.5], [0.95, 1.6]).usually(1.0))
            .help("Rinse water is 1.0."),
        planned(input("μ", "Viscosity of the liquid", MPAS, [0.1, 1e4], [0.3, 50.0]).usually(1.0))
            .help("Water at 20 °C has 1.0 mPa·s."),
        planned(input("p_air", "Air pressure, gauge", KPA, [0.0, 1500.0], [100.0, 800.0]))
            .optional()
            .help("Of an air-operated pump; left out for an electric one."),
        planned(input("k_air", "Air lost beside the stroke", NUMBER, [1.0, 5.0], [1.0, 2.5]).usually(1.0))
            .help("1 is the lower bound; dead volume and exhaust make it 1.2 to 2, common practice."),
        planned(input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0]).usually(0.0))
            .from_site(&[("site", "z_site")])
            .help("It sets the pressure of the room’s air."),
        planned(input("T_room", "Room temperature", CELSIUS, [-20.0, 60.0], [15.0, 30.0]).usually(20.0))
            .from_site(&[("site", "T_room")])
            .help("Of the air that the pump takes: normal litres are at 0 °C."),
        placed(choice("floor", "Floor below", NUMBER, &[(SAME_LEVEL, 0.0), (BELOW, 0.0)]))
            .help("Beside the tool, below it, or in a pit: by the heights that follow."),
        placed(input("z_o", "Outlet of the tool above its floor", MM, [-5000.0, 10_000.0], [0.0, 2000.0]))
            .optional()
            .help("Inside bottom of the pipe."),
        placed(input("l_s", "Run to the station", M, [0.0, 1000.0], [0.5, 50.0]))
            .optional()
            .help("At the slope above."),
        placed(input("H_in", "Inlet of the station above the floor it stands on", MM, [0.0, 5000.0], [100.0, 2000.0]))
            .optional()
            .help("With its containment and feet."),
    ],
    tables: &[Table {
        id: ROUTES,
        label: "Routes that run through it",
        key_label: "Route",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[choice("kind", "What it is for", MG_PER_L_METAL, routes::KINDS)
            .starts_at(10)
            .each(&[("route", "kind")])
            .help("Follows the route.")],
        answers: &[],
    }, Table {
        id: STREAMS,
        label: "Streams on these routes",
        key_label: "Stream",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[choice("class", "Class", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .each(&[("route", "class")])
            .help("Follows the stream.")],
        answers: &[],
    }, Table {
        id: "sizes",
        label: "Usual bores at this slope",
        key_label: "Bore",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[],
        answers: &[
            verdict("fits", "For what comes", &[DOES, NOT_THE_TANK, TOO_SMALL]),
            output("Q_s", "Carries at the chosen depth", L_PER_MIN),
            output("Q_8", "Carries at 0.8 of its bore", L_PER_MIN),
            output("v_s", "Velocity at the chosen depth", M_PER_S),
        ],
    }],
    outputs: &[
        output("spare", "Fall to spare", MM).cured_by(&[("drain", "l"), ("drain", "S"), ("drain", "h_av"), ("drain", "station")]),
        output("need", "Fall needed by the run", MM).beside(),
        output("l_max", "Furthest it runs by gravity", M).beside(),
        verdict("lift", "Lift station", &[NOT_NEEDED, NEEDED, NOT_SIZED]).beside(),
        output("S_code", "Least slope by that code", INCH_PER_FOOT),
        output("S_1", "Run for one of fall", NUMBER),
        output("S_a", "Slope as an angle", DEGREE),
        output("S_v", "Least slope at which it cleans itself at that depth", INCH_PER_FOOT),
        output("S_q", "Least slope that carries the peak at that depth", INCH_PER_FOOT).needs("a flow"),
        output("Q_y", "Carries at the chosen depth", L_PER_MIN),
        output("v", "Velocity at the chosen depth", M_PER_S)
            .below(0.6, Severity::Note, "Below that, 2 ft/s in plumbing texts, solids settle: it does not clean itself.")
            .above(3.0, Severity::Note, "Above that it is noisy and splashes, common practice.")
            .cured_by(&[("drain", "S"), ("drain", "D"), ("drain", "y")]),
        output("share_m", "Peak flow, share of what it carries at that depth", PERCENT)
            .above(100.0, Severity::Caution, "What arrives runs deeper than chosen.")
            .cured_by(&[("drain", "D"), ("drain", "S")]),
        output("y_p", "Depth at the peak flow, share of the bore", SHARE).needs("a flow that the pipe carries"),
        output("v_p", "Velocity at the peak flow", M_PER_S).needs("a flow that the pipe carries"),
        output("Q_top", "Most that it carries before it backs up", L_PER_MIN),
        output("v_top", "Fastest that it runs, at 0.81 of its bore", M_PER_S),
        dumped(output("H", "Level above the valve", MM)),
        dumped(output("q_d", "Peak when the tank is let out", L_PER_MIN)),
        dumped(output("t_d", "Time until the tank is empty", MINUTE)),
        dumped(output("surge", "Surge, share of what the drain carries", PERCENT))
            .above(100.0, Severity::Caution, "The tank with what arrives is more than the pipe carries at 0.8 of its bore: it backs up and floods. Take a smaller valve or a larger bore.")
            .cured_by(&[("drain", "d_v"), ("drain", "D")]),
        dumped(output("d_max", "Largest valve that does", MM)),
        output("D_min", "Least usual bore that does", MM).needs("a slope or a valve that some usual bore can take"),
        lifted(output("q_lift", "Pump flow", L_PER_MIN)),
        lifted(output("V_b", "Least volume between levels", L)),
        output("n_s", "Most starts of yours", PER_HOUR)
            .needs("a lift station and its volume between levels")
            .cured_by(&[("drain", "V_lv"), ("drain", "s")]),
        output("n_p", "Its starts at the peak flow", PER_HOUR).needs("its volume between levels, and a flow"),
        lifted(output("run", "Share of the time that it pumps, at the peak", PERCENT)),
        output("t_o", "Until overflow if the pump stops, at the peak", MINUTE)
            .needs("a lift station, and its volume up to the overflow")
            .below(0.0, Severity::Caution, "The signal comes too late.")
            .cured_by(&[("drain", "V_o"), ("drain", "t_r"), ("drain", "q_p")]),
        output("t_om", "The same at the mean flow", MINUTE)
            .needs("a lift station, and its volume up to the overflow"),
        output("t_ow", "Until overflow with a weak pump, at the peak", MINUTE)
            .needs("a volume up to the overflow, and a weak pump that does not keep up"),
        output("V_st", "Volume needed for the tank let out", L)
            .needs("a lift station and a tank that is let out"),
        output("V_spare", "Room to spare in the station when it is let out", L)
            .needs("a lift station, its volume up to the overflow, and a tank that is let out")
            .below(0.0, Severity::Caution, "It overflows, though it starts empty and pumps.")
            .cured_by(&[("drain", "V_o"), ("drain", "q_pump"), ("drain", "d_v")]),
        output("v_d", "Velocity in the discharge", M_PER_S).needs("bore of the discharge of a lift station"),
        output("h_tot", "Head that the pump must give", M)
            .needs("rise, run and bore of the discharge of a lift station"),
        output("air", "Air that the pump takes, as the room’s air", L_PER_MIN).needs("an air pressure"),
        output("air_n", "The same in normal litres", NORMAL_L_PER_MIN).needs("an air pressure"),
        output("h_stop", "Level at which the inflow must be told to stop", MM)
            .needs("floor area and level of overflow of a station, and a flow"),
        output("h_slow", "Level at which it must be told to slow", MM)
            .needs("that level, and the time between the two"),
        verdict("stands", "The station may stand", &[ON_FLOOR, ON_BELOW, IN_PIT])
            .needs("heights of outlet and inlet, and the run to the station"),
        output("z_s", "Height to spare at its inlet, on this floor", MM)
            .needs("heights of outlet and inlet, and the run to the station"),
    ],
    picture: Some(Picture { across: "l", up: "spare" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Vents and traps decide whether it drains at all: the plumbing code and a licensed plumber decide.",
        },
        Caution {
            when: &[],
            text: concat!("Never join drains that must not meet, such as acid and cyanide, not even in a trench, a vent or a container. Hot or strong liquids soften plastic. ", plastics_soften!()),
        },
        Caution {
            when: &[TANK],
            text: "A tank once let out is seldom stopped: see first that the way is free, the route is right and its end has room for all of it.",
        },
        Caution {
            when: &[STATION],
            text: "A lift station is sealed, vented to exhaust, contained and watched for leaks; its overflow alarm is a switch of its own, apart from the pump’s. Hydrogen, hydrogen cyanide or nitrous fumes can gather above the liquid: never open it without exhaust.",
        },
        Caution {
            when: &[STATION],
            text: "One station for each route: two routes that must not meet never share a station, its vent or its discharge.",
        },
        Caution {
            when: &[When::Is("lift", &[NEEDED]), When::Is("station", &[NONE_PLANNED])],
            text: "A lift station needs wetted parts that bear the liquid, a vent to exhaust and containment: the plumbing and fire codes decide where it may stand.",
        },
    ],
    sources: &[
        "Fall: geometry; 1/4 in per ft is common practice, no source. Least slopes: Chicago Municipal Code, Table 18-29-704.1; the second table from memory.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
        "Part-full flow: Manning with the exact circular segment, n constant; checked against fluids 1.3.1 and the US EPA storm-water model’s tables.",
        "Tank let out: Torricelli, as in Schaschke, Fluid Mechanics: Worked Examples for Engineers, examples 6.3 and 6.6; through a pipe Coulson & Richardson, vol. 1, example 3.3.",
        "Lift station: V = q·T/4, US Army EI 11C201 (1997); volume balances; friction by Colebrook, as in fluids 1.3.1.",
        "0.6 m/s: 2 ft/s in plumbing texts. 3 m/s, discharge coefficients, depth of 0.5 to 0.8: common practice, no source.",
    ],
    examples: examples::EXAMPLES,
    work: sum::work,
};
