//! The wafers that the line plates: their size, what of them is open, how many there are.

use crate::calculator::{
    Calculator, Example, Picture, Refuse, Stop, Subject, When, Work, choice, input, output,
};
use crate::quantity::Q;
use crate::science::faraday;
use crate::units::{CM2, DAYS, HOUR, MM, NUMBER, PER_DAY, PER_HOUR, PERCENT};

const A_DAY: &str = "wafers a day";
const AN_HOUR: &str = "wafers an hour";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "wafers",
    title: "Wafers",
    question: "Which wafers are plated, how much of each is open, and how many come?",
    subject: Subject::Site,
    quick: false,
    from_start: true,
    inputs: &[
        input("D", "Diameter", MM, [10.0, 600.0], [50.0, 300.0])
            .needed()
            .group("Size")
            .help("Of the wafers that most baths plate; a bath may plate others.")
            .picks(&[("100 mm", 100.0), ("150 mm", 150.0), ("200 mm", 200.0), ("300 mm", 300.0)]),
        input("e", "Edge exclusion", MM, [0.0, 50.0], [0.0, 10.0]).usually(3.0)
            .group("Size")
            .help("Width of the ring at the edge that the seal covers and nothing is plated on."),
        input("open", "Open area", PERCENT, [0.001, 100.0], [1.0, 100.0])
            .needed()
            .group("Size")
            .help("Share of the face inside the seal that resist leaves open: from the mask’s data. 100 % for a blanket film."),
        choice("starts", "Given as", NUMBER, &[(A_DAY, 0.0), (AN_HOUR, 0.0)])
            .group("Number")
            .help("Either the number of a working day, or that of an hour of service."),
        input("N_d", "Wafers a day", PER_DAY, [0.01, 1e6], [1.0, 20_000.0])
            .needed()
            .group("Number")
            .help("Good and bad ones that go through the line on a mean working day; rework counts again.")
            .when(When::Is("starts", &[A_DAY])),
        input("N_h", "Wafers an hour", PER_HOUR, [0.001, 1e5], [0.1, 1000.0])
            .needed()
            .group("Number")
            .help("In the mean over the hours of service.")
            .when(When::Is("starts", &[AN_HOUR])),
        input("peak", "Busiest day over the mean", NUMBER, [1.0, 20.0], [1.0, 3.0]).usually(1.0)
            .group("Number")
            .help("Lots come in bunches: 1.2 means a fifth more than the mean on a busy day. Chambers are counted for that day."),
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0]).usually(24.0)
            .group("Calendar")
            .follows(&[("site", "hours")])
            .help("A day is a working day of these hours."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .group("Calendar")
            .follows(&[("site", "days")])
            .help("Working days; shutdowns are not among them."),
    ],
    tables: &[],
    outputs: &[
        output("N", "Wafers a working day", PER_DAY),
        output("N_run", "Wafers an hour of service", PER_HOUR).beside(),
        output("N_top", "An hour of the busiest day", PER_HOUR).beside(),
        output("N_year", "Wafers a year", NUMBER),
        output("A_face", "Face inside the seal", CM2),
        output("A_open", "Plated area of a wafer", CM2),
    ],
    picture: Some(Picture { across: "open", up: "A_open" }),
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &["Area and calendar: definitions; the area checked against scipy quad of 2·π·r."],
    examples: &[
        Example {
            source: "scipy.integrate quad of 2·π·r: 172.0336 cm² of a 300 mm wafer with 2 mm of edge, a quarter open",
            inputs: &[("D", "300 mm"), ("e", "2 mm"), ("open", "25 %"), ("N_d", "100 per day")],
            rows: &[],
            answers: &[("A_open", "172.0336 cm²")],
            within: 6e-6,
        },
        Example {
            source: "By hand: 20 an hour in 16 h are 320 a day, 80 000 in 250 days; 24 an hour on a day a fifth busier",
            inputs: &[
                ("D", "150 mm"), ("open", "10 %"), ("starts", AN_HOUR), ("N_h", "20 per hour"), ("hours", "16 h"), ("days", "250"), ("peak", "1.2"),
            ],
            rows: &[],
            answers: &[("N", "320 per day"), ("N_year", "80000"), ("N_run", "20 per hour"), ("N_top", "24 per hour")],
            within: 1e-9,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [hours, days, peak] = w.inputs(["hours", "days", "peak"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let a_day = if w.word(&top, "starts")? == A_DAY {
        w.inputs::<1>(["N_d"])?[0]
    } else {
        w.inputs::<1>(["N_h"])?[0] * hours / one_day
    };
    let a_day = w.answer("N", a_day)?;
    let an_hour = w.answer("N_run", a_day * one_day / hours)?;
    w.answer("N_top", an_hour * peak)?;
    w.answer("N_year", a_day * one_day * days)?;
    let [diameter, edge, open] = w.inputs(["D", "e", "open"])?;
    w.answer("A_face", faraday::face_area(diameter, edge).or_stop("e")?)?;
    w.answer("A_open", faraday::plated_area(diameter, edge, open).or_stop("open")?)?;
    Ok(())
}
