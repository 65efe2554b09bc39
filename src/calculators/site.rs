//! The site: what every other sheet takes from the place where the line stands.

use crate::calculator::{
    Calculator, Example, Input, Stop, Subject, Table, Work, choice, input, note, output,
};
use crate::science::metals;
use crate::units::{
    CELSIUS, Decimal, Gallon, HOUR, M, M_PER_S, MG_PER_L_METAL, MONEY, NUMBER, PER_KG, PER_KWH, PER_M3,
    PER_NORMAL_M3, PERCENT, Style, System,
};

const POINT: &str = "point (1.5)";
const COMMA: &str = "comma (1,5)";
const US_GALLON: &str = "US (3.785 L)";
const IMPERIAL_GALLON: &str = "imperial (4.546 L)";
const METRIC: &str = "metric";
const US: &str = "US";

/// How a plan reads and shows numbers, from the words chosen at its site.
pub fn style(decimal: &str, gallon: &str, units: &str) -> Style {
    Style {
        decimal: if decimal == COMMA { Decimal::Comma } else { Decimal::Point },
        gallon: if gallon == IMPERIAL_GALLON { Gallon::Imperial } else { Gallon::Us },
        system: if units == US { System::Us } else { System::Metric },
        digits: 3,
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
    input(symbol, label, unit, [0.0, 1e9], [0.0, 1e6], 0.0)
        .optional()
        .group("Prices, in your own currency")
        .help("Only what you type is used.")
}

const fn limit(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, MG_PER_L_METAL, [0.0, 1e5], [0.0, 1000.0], 0.0)
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
    inputs: &[
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0], 24.0)
            .group("Calendar")
            .help("A day is a working day of these hours."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0], 350.0)
            .group("Calendar")
            .help("Working days; shutdowns are not among them."),
        input("T_room", "Room temperature", CELSIUS, [-20.0, 60.0], [15.0, 30.0], 21.0)
            .group("Room")
            .help("Of the air around the baths."),
        input("RH", "Relative humidity", PERCENT, [0.0, 100.0], [20.0, 80.0], 45.0)
            .group("Room")
            .help("Of the air around the baths."),
        input("v_air", "Air speed over the baths", M_PER_S, [0.0, 5.0], [0.05, 0.5], 0.2)
            .group("Room")
            .help("Over a tank with lip exhaust 0.2 to 0.5 m/s is common practice."),
        input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0], 0.0)
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
        note("currency", "Currency")
            .group("Prices, in your own currency")
            .help("A name or sign to show behind prices."),
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
            input("p_metal", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6], 0.0)
                .optional()
                .help("What a kilogram of the metal costs you."),
        ],
        answers: &[],
    }],
    outputs: &[output("h_year", "Hours of service a year", HOUR)],
    picture: None,
    work_order: None,
    cautions: &[],
    sources: &["Calendar: arithmetic."],
    examples: &[Example {
        source: "By hand: 16 h × 250 = 4000 h",
        inputs: &[("hours", "16 h"), ("days", "250")],
        rows: &[],
        answers: &[("h_year", "4000 h")],
        within: 1e-12,
    }],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let [hours, days] = w.inputs(["hours", "days"])?;
    w.answer("h_year", hours * days)?;
    Ok(())
}
