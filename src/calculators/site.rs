//! The site: what every other sheet takes from the place where the line stands.

use crate::calculator::{
    Calculator, Example, Input, Refuse, Stop, Subject, Table, Work, choice, input, note, output,
};
use crate::science::{air, metals, water};
use crate::units::{
    CELSIUS, Currency, Decimal, Gallon, HOUR, KPA, M, M_PER_S, MG_PER_L_METAL, MONEY, NUMBER, PER_KG,
    PER_KWH, PER_M3, PER_NORMAL_M3, PERCENT, Style, System,
};

const POINT: &str = "point (1.5)";
const COMMA: &str = "comma (1,5)";
const US_GALLON: &str = "US (3.785 L)";
const IMPERIAL_GALLON: &str = "imperial (4.546 L)";
const METRIC: &str = "metric";
const US: &str = "US";

/// Who stands for the plan, on the cover of its report.
pub const AUTHOR: &str = "author";

/// How a plan reads and shows numbers, from the words chosen at its site.
pub fn style(decimal: &str, gallon: &str, units: &str, currency: &str) -> Style {
    Style {
        decimal: if decimal == COMMA { Decimal::Comma } else { Decimal::Point },
        gallon: if gallon == IMPERIAL_GALLON { Gallon::Imperial } else { Gallon::Us },
        system: if units == US { System::Us } else { System::Metric },
        digits: 3,
        currency: Currency::named(currency),
    }
}

/// The words of a style, by symbol: how a new plan starts.
pub fn words(style: Style) -> [(&'static str, &'static str); 3] {
    [
        ("decimal", if style.decimal == Decimal::Comma { COMMA } else { POINT }),
        ("gallon", if style.gallon == Gallon::Imperial { IMPERIAL_GALLON } else { US_GALLON }),
        ("units", if style.system == System::Us { US } else { METRIC }),
    ]
}

const fn price(symbol: &'static str, label: &'static str, unit: &'static crate::units::Unit) -> Input {
    input(symbol, label, unit, [0.0, 1e9], [0.0, 1e6])
        .optional()
        .group("Prices, in your own currency")
        .help("Only what you type is used.")
}

const fn limit(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, MG_PER_L_METAL, [0.0, 1e5], [0.0, 1000.0])
        .optional()
        .help("From your permit, at the point where water leaves the site.")
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "site",
    title: "Site",
    question: "When does the line run, in what room, and what does the permit say?",
    subject: Subject::Site,
    quick: false,
    from_start: true,
    inputs: &[
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0])
            .usually(24.0)
            .group("Calendar")
            .help("A day is a working day of these hours."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0])
            .usually(350.0)
            .group("Calendar")
            .help("Working days; shutdowns are not among them."),
        input("T_room", "Room temperature", CELSIUS, [-20.0, 60.0], [15.0, 30.0])
            .usually(21.0)
            .group("Room")
            .help("Of the air around the baths."),
        input("RH", "Relative humidity", PERCENT, [0.0, 100.0], [20.0, 80.0])
            .usually(45.0)
            .group("Room")
            .help("Of the air around the baths."),
        input("v_air", "Air speed over the baths", M_PER_S, [0.0, 5.0], [0.05, 0.5])
            .usually(0.2)
            .group("Room")
            .help("Over a tank with lip exhaust 0.2 to 0.5 m/s is common practice."),
        input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0])
            .usually(0.0)
            .group("Room")
            .help(
                "It lowers the pressure of the air, and with it what a pump can suck and where water boils.",
            ),
        choice("units", "Units for answers", NUMBER, &[(METRIC, 0.0), (US, 0.0)])
            .group("How numbers are read and shown")
            .help("What you typed stays as you typed it."),
        choice("gallon", "A gallon is", NUMBER, &[(US_GALLON, 0.0), (IMPERIAL_GALLON, 0.0)])
            .group("How numbers are read and shown")
            .help("What “gal” means wherever it is typed."),
        choice("decimal", "Decimal sign", NUMBER, &[(POINT, 0.0), (COMMA, 0.0)])
            .group("How numbers are read and shown")
            .help("Both are read; this one is shown."),
        price("p_kWh", "Electricity", PER_KWH),
        price("p_water", "DI water", PER_M3),
        price("p_air", "Compressed air", PER_NORMAL_M3),
        price("p_N2", "Nitrogen", PER_NORMAL_M3),
        price("p_drum", "A drum taken away", MONEY),
        price("p_resin", "A resin exchange", MONEY),
        note(AUTHOR, "Prepared by").group("Report").help("Your name or office, for the cover of the report."),
        note("currency", "Currency")
            .group("Prices, in your own currency")
            .help("A name or sign, short: it stands behind prices and sums of money."),
    ],
    tables: &[Table {
        id: metals::TABLE,
        label: "Metals: permit limits and prices",
        key_label: "Metal",
        add: Some("Add a metal"),
        suggest: metals::SYMBOLS,
        presets: &[],
        columns: &[
            limit("daily", "Daily limit"),
            limit("monthly", "Monthly limit"),
            input("p_metal", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6])
                .optional()
                .help("What a kilogram of the metal costs you."),
        ],
        answers: &[],
    }],
    outputs: &[
        output("h_year", "Hours of service a year", HOUR),
        output("p_amb", "Pressure of the air", KPA),
        output("T_dew", "Dew point of the room", CELSIUS)
            .missing("the air is colder or drier than 0 °C of dew point"),
        output("T_boil", "Water boils at", CELSIUS).missing("known up to 101.5 kPa, not far below the sea"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Calendar: arithmetic.",
        "Air: standard atmosphere, ASHRAE Handbook Fundamentals, ch. 1. The weather moves the pressure by 3 %.",
        "Dew point and boiling point: saturation line of IAPWS-IF97.",
    ],
    examples: &[
        Example {
            source: "By hand: 16 h × 250 = 4000 h",
            inputs: &[("hours", "16 h"), ("days", "250")],
            rows: &[],
            answers: &[("h_year", "4000 h")],
            within: 1e-12,
        },
        Example {
            source: "ASHRAE Handbook Fundamentals 2017, ch. 1, table 1: 95.461 kPa at 500 m",
            inputs: &[("z_site", "500 m")],
            rows: &[],
            answers: &[("p_amb", "95461 Pa")],
            within: 1e-4,
        },
        Example {
            source: "PsychroLib 2.5.0: dew point 8.62626 °C at 21 °C and 45 %",
            inputs: &[("T_room", "21 °C"), ("RH", "45 %"), ("z_site", "0 m")],
            rows: &[],
            answers: &[("T_dew", "8.62626 °C")],
            // Of the absolute temperature: 0.04 K.
            within: 1.5e-4,
        },
        Example {
            source: "IAPWS-IF97, table 36: 372.755919 K at 0.1 MPa, which is 111 m high in the standard atmosphere",
            inputs: &[("z_site", "110.88 m")],
            rows: &[],
            answers: &[("p_amb", "100 kPa"), ("T_boil", "99.6059 °C")],
            within: 2e-5,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let [hours, days] = w.inputs(["hours", "days"])?;
    w.answer("h_year", hours * days)?;
    let [z, t, rh] = w.inputs(["z_site", "T_room", "RH"])?;
    let p = w.answer("p_amb", air::pressure(z).or_stop("z_site")?)?;
    // Frost and pressures beyond the saturation line are no fault of the site: the answer is missing.
    if let Ok(dew) = air::dew_point(t, rh) {
        w.answer("T_dew", dew)?;
    }
    if let Ok(boiling) = water::boiling_point(p) {
        w.answer("T_boil", boiling)?;
    }
    Ok(())
}
