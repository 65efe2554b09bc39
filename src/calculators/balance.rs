//! Metal, water and acid of the whole line: what is taken from the baths is on a route, on no route, or
//! carried away on the wafers; what a route brings is treated, held, or stays there; what is treated is
//! discharged or not; and what is left over is shown.

use super::route;
use crate::calculator::Severity::{Caution, Note, Serious};
use crate::calculator::{Calculator, Example, Input, Stop, Subject, Table, Work, choice, input, output};
use crate::quantity::Q;
use crate::science::metals;
use crate::units::{EQ_PER_DAY, G_PER_DAY_METAL, L_PER_DAY, MG_PER_L_METAL, NUMBER, Unit};

const fn flow(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, G_PER_DAY_METAL, [0.0, 1e12], [0.0, 1e12])
        .usually(0.0)
        .help("Follows the whole line.")
}

/// Acid of a stream, where anybody knows it.
const fn acid(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, EQ_PER_DAY, [-1e12, 1e12], [-1e12, 1e12])
        .only_followed()
        .help("Follows the stream and its route.")
}

const NO_ACID: &str = "give the acid or base of a stream";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "balance",
    title: "Balance of metal, water and acid",
    question: "Does everything that leaves the baths arrive somewhere?",
    subject: Subject::Site,
    quick: false,
    from_start: true,
    inputs: &[
        input("Q_s", "Water in all streams", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
            .usually(0.0)
            .sums(&[("stream", "Q_day")])
            .help("Follows the whole line."),
        input("Q_r", "Water on all routes", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
            .usually(0.0)
            .sums(&[("route", "Q_day")])
            .help("Follows the whole line."),
        input("Q_t", "Water in treated streams", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
            .usually(0.0)
            .sums(&[("treated", "Q_day")])
            .if_known()
            .help("Follows the whole line."),
        input("Q_d", "Water that leaves the site", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
            .usually(0.0)
            .sums(&[("discharge", "Q_day")])
            .if_known()
            .help("Follows the whole line."),
        input("Q_g", "Reagents in treated streams", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
            .usually(0.0)
            .sums(&[("treated", "Q_g")])
            .if_known()
            .help("Follows the whole line."),
        input("A_g", "Acid that reagents take up", EQ_PER_DAY, [-1e12, 1e12], [-1e12, 1e12])
            .usually(0.0)
            .sums(&[("treated", "a_g")])
            .if_known()
            .help("Follows the whole line; less than none is acid added."),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals, a day",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                flow("b", "Out of the baths").sums(&[("stream", "m_bath")]),
                flow("s", "Into streams").sums(&[("stream", "m_w")]),
                flow("r", "On routes").sums(&[("route", "m")]),
                flow("o", "Out of rinses on wafers").sums(&[("stream", "m_on")]),
                flow("i", "Into rinses from rinses").sums(&[("stream", "m_rinse")]),
                flow("t", "In treated streams").sums(&[("treated", "m_w")]).if_known(),
                flow("x", "Taken away on resin").sums(&[("ion-exchange", "m_x")]).if_known(),
                flow("d", "Leaves the site").sums(&[("discharge", "m")]).if_known(),
            ],
            answers: &[
                output("e", "Carried away on wafers", G_PER_DAY_METAL),
                output("n", "On no route", G_PER_DAY_METAL),
                output("z", "Unexplained", G_PER_DAY_METAL),
                output("y", "Ends on its route", G_PER_DAY_METAL),
                output("w", "Treated, leads nowhere yet", G_PER_DAY_METAL),
            ],
        },
        Table {
            id: "streams",
            label: "Streams, a day",
            key_label: "Stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                input("Q_j", "Leaves", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
                    .usually(0.0)
                    .each(&[("stream", "Q_day")])
                    .help("Follows the stream."),
                input("Q_a", "Arrives on a route", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
                    .usually(0.0)
                    .sums(&[("route", "Q_s")])
                    .help("Follows the routes."),
                acid("a_b", "Acid out of a bath, or typed").each(&[("stream", "a_bath")]).if_known(),
                acid("a_i", "Acid from a rinse").each(&[("stream", "a_rinse")]).if_known(),
                acid("a_o", "Acid on wafers").each(&[("stream", "a_on")]).if_known(),
                acid("a_a", "Acid on a route").each(&[("route", "a_s")]).if_known(),
            ],
            answers: &[output("Q_l", "Leads nowhere", L_PER_DAY)],
        },
        Table {
            id: "routes",
            label: "Routes, a day",
            key_label: "Route",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                choice("ends", "What arrives", NUMBER, route::ENDS)
                    .each(&[("route", "ends")])
                    .help("Follows the route."),
                input("Q_i", "Arrives on the route", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
                    .usually(0.0)
                    .each(&[("route", "Q_day")])
                    .help("Follows the route."),
                input("Q_c", "Runs into containers", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
                    .only_followed()
                    .each(&[("collection", "Q")])
                    .if_known()
                    .help("Follows the sheet of collection at the route."),
                input("Q_f", "Treated streams come from", L_PER_DAY, [0.0, 1e12], [0.0, 1e12])
                    .only_followed()
                    .largest(&[("treated", "Q_0")])
                    .if_known()
                    .help("Follows the treated streams: how much they have to draw on."),
            ],
            answers: &[output("Q_h", "Leaves to nowhere", L_PER_DAY)],
        },
    ],
    outputs: &[
        output("Q_n", "Water on no route", L_PER_DAY),
        output("m_routes", "Metal on routes, all together", G_PER_DAY_METAL).beside(),
        output("c_all", "In all water together", MG_PER_L_METAL),
        output("Q_w", "Treated water that leads nowhere yet", L_PER_DAY),
        output("Q_y", "Water that ends on its route", L_PER_DAY),
        output("m_out", "Metal that leaves the site, in water and containers", G_PER_DAY_METAL),
        output("A_b", "Strong acid out of the baths, or typed", EQ_PER_DAY).missing(NO_ACID),
        output("A_r", "Strong acid on routes", EQ_PER_DAY).missing(NO_ACID),
        output("A_e", "Strong acid carried away on wafers", EQ_PER_DAY).missing(NO_ACID),
        output("A_z", "Strong acid unexplained", EQ_PER_DAY).missing(NO_ACID),
        output("A_y", "Strong acid left after reagents", EQ_PER_DAY).missing(NO_ACID),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Conservation of mass, metal by metal, and of the equivalents of strong acid less those of base.",
    ],
    examples: &[
        Example {
            source: "By hand: 4 = 3.8 into streams (3 on routes, 0.8 on none) + 0.2 away on wafers",
            inputs: &[("Q_s", "100 L/day"), ("Q_r", "80 L/day")],
            rows: &[("metals", "Cu", &[("b", "4"), ("s", "3.8"), ("r", "3"), ("o", "0.3"), ("i", "0.1")])],
            answers: &[("e[Cu]", "0.2"), ("n[Cu]", "0.8"), ("z[Cu]", "0"), ("Q_n", "20 L/day")],
            within: 1e-9,
        },
        Example {
            source: "By hand: 3 on routes = 0.1 treated (0.06 discharged) + 2.5 on resin + 0.4 that ends there; water 80 + 1 = 70 + 11",
            inputs: &[
                ("Q_s", "80 L/day"),
                ("Q_r", "80 L/day"),
                ("Q_t", "70 L/day"),
                ("Q_d", "60 L/day"),
                ("Q_g", "1 L/day"),
            ],
            rows: &[(
                "metals",
                "Cu",
                &[("b", "3"), ("s", "3"), ("r", "3"), ("t", "0.1"), ("x", "2.5"), ("d", "0.06")],
            )],
            answers: &[
                ("y[Cu]", "0.4"),
                ("w[Cu]", "0.04"),
                ("Q_y", "11 L/day"),
                ("z[Cu]", "0"),
                ("Q_w", "10 L/day"),
                ("m_out", "0.06"),
            ],
            within: 1e-9,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let [q_s, q_r, q_t, q_d] = w.inputs(["Q_s", "Q_r", "Q_t", "Q_d"])?;
    w.answer("Q_n", rounded_off(q_s - q_r, q_s, L_PER_DAY))?;
    w.answer("Q_w", rounded_off(q_t - q_d, q_t, L_PER_DAY))?;
    let mut all_lead = true;
    for row in w.rows("streams")? {
        let [leaves, arrives] = w.of(&row, ["Q_j", "Q_a"])?;
        let lost = w.give(&row, "Q_l", rounded_off(leaves - arrives, leaves, L_PER_DAY))?;
        if exceeds(lost, leaves) {
            all_lead = false;
            let litres = w.style.answer(lost.si, L_PER_DAY);
            w.add_finding(
                &row,
                "Q_l",
                Caution,
                format!("{} leads nowhere yet: {litres}. Lead it to a route.", row.key),
            );
        }
    }
    routes(w)?;
    let [q_g] = w.inputs(["Q_g"])?;
    w.answer("Q_y", rounded_off(q_r + q_g - q_t, q_r, L_PER_DAY))?;
    acids(w)?;
    let mut sum = Q::constant("none", 0.0, G_PER_DAY_METAL);
    let mut out = sum;
    for row in w.rows(metals::TABLE)? {
        let [b, s, r, o, i] = w.of(&row, ["b", "s", "r", "o", "i"])?;
        let [t, x, d] = w.of(&row, ["t", "x", "d"])?;
        let away = w.give(&row, "e", rounded_off(o - i, o, G_PER_DAY_METAL))?;
        let lost = w.give(&row, "n", rounded_off(s - r, s, G_PER_DAY_METAL))?;
        // Streams that lead nowhere are named above; this is metal lost by values typed over.
        if all_lead && exceeds(lost, s) {
            let grams = w.style.answer(lost.si, G_PER_DAY_METAL);
            w.add_finding(
                &row,
                "n",
                Caution,
                format!("{}: {grams} is on no route, though every stream leads to one. {WHY}", row.key),
            );
        }
        let rest = w.give(&row, "z", rounded_off(b - r - lost - away, b, G_PER_DAY_METAL))?;
        if exceeds(rest, b) {
            let grams = w.style.answer(rest.si, G_PER_DAY_METAL);
            w.add_finding(&row, "z", Serious, format!("{}: {grams} is unexplained. {WHY}", row.key));
        }
        sum = sum + r;
        out = out + d;
        let ends = w.give(&row, "y", rounded_off(r - t - x, r, G_PER_DAY_METAL))?;
        if ends.si < 0.0 && exceeds(ends, r) {
            let grams = w.style.answer(-ends.si, G_PER_DAY_METAL);
            let text = format!(
                "{}: {grams} more leaves treatment than the routes bring: look for a stream that stands twice, and for values typed over a link.",
                row.key
            );
            w.add_finding(&row, "y", Serious, text);
        }
        let waits = w.give(&row, "w", rounded_off(t - d, t, G_PER_DAY_METAL))?;
        if exceeds(waits, t) {
            let grams = w.style.answer(waits.si, G_PER_DAY_METAL);
            let text = format!(
                "{}: {grams} in treated streams leads nowhere yet. Lead them to a discharge or a container.",
                row.key
            );
            w.add_finding(&row, "w", Caution, text);
        }
    }
    w.answer("m_out", out)?;
    let sum = w.answer("m_routes", sum)?;
    let all = if q_s.si > 0.0 { sum / q_s } else { Q::constant("0", 0.0, MG_PER_L_METAL) };
    w.answer("c_all", all)?;
    Ok(())
}

/// A route has an end: what arrives leaves the site as it is, runs into containers, or treatment makes streams of it.
fn routes(w: &mut Work) -> Result<(), Stop> {
    for row in w.rows("routes")? {
        let [arrives] = w.of(&row, ["Q_i"])?;
        let is_held = w.word(&row, "ends")? == route::HELD;
        let goes_on = w.optional(&row, "Q_c")?.or(w.optional(&row, "Q_f")?).is_some();
        let none = Q::constant("none", 0.0, L_PER_DAY);
        let lost = w.give(&row, "Q_h", if is_held && !goes_on { arrives } else { none })?;
        if lost.si > 0.0 {
            let litres = w.style.answer(lost.si, L_PER_DAY);
            let text = format!(
                "{}: {litres} arrive on this route, and nothing says where they go. Give it a sheet of collection if it fills containers, or add a treated stream that comes from it; if it leaves the site as it is, choose that on the route.",
                row.key
            );
            w.add_finding(&row, "Q_h", Caution, text);
        }
    }
    Ok(())
}

/// Acid of the streams whose acid is known: out of a bath it is on a route or on the wafers.
fn acids(w: &mut Work) -> Result<(), Stop> {
    let none = Q::constant("none", 0.0, EQ_PER_DAY);
    let (mut baths, mut routes, mut away, mut lost, mut most) = (none, none, none, none, none);
    let (mut unknown, mut is_known) = (Vec::new(), false);
    for row in w.rows("streams")? {
        let Some(b) = w.optional(&row, "a_b")? else {
            unknown.push(row.key.to_string());
            continue;
        };
        is_known = true;
        let [i, o] = ["a_i", "a_o"].map(|symbol| w.optional(&row, symbol));
        let (i, o) = (i?.unwrap_or(none), o?.unwrap_or(none));
        let leaves = b + i - o;
        let arrives = w.optional(&row, "a_a")?;
        // What leads nowhere is named with its water.
        lost = lost + arrives.map_or(leaves, |_| none);
        baths = baths + b;
        away = away + (o - i);
        routes = routes + arrives.unwrap_or(none);
        most = most.max(b.max(-b));
    }
    if !is_known {
        return Ok(());
    }
    let top = w.top();
    w.answer("A_b", baths)?;
    let routes = w.answer("A_r", routes)?;
    w.answer("A_e", rounded_off(away, most, EQ_PER_DAY))?;
    let rest = w.answer("A_z", rounded_off(baths - routes - lost - away, most, EQ_PER_DAY))?;
    if exceeds(rest, most) {
        let shown = w.style.answer(rest.si, EQ_PER_DAY);
        w.add_finding(&top, "A_z", Serious, format!("{shown} of acid is unexplained. {WHY}"));
    }
    let [taken] = w.inputs(["A_g"])?;
    w.answer("A_y", routes - taken)?;
    if !unknown.is_empty() {
        let text = format!("The acid or base of these is not known, and left out: {}.", unknown.join("; "));
        w.add_finding(&top, "A_b", Note, text);
    }
    Ok(())
}

/// What breaks a balance.
const WHY: &str =
    "A value typed over a link breaks the balance: look at drag-out, metals and acid of the rinses.";

/// Whether a rest is more than rounding of what it is the rest of, either way.
fn exceeds(rest: Q, of: Q) -> bool {
    rest.si.abs() > 1e-6 * of.si.abs()
}

/// A difference that is nothing but rounding of what it is the difference of reads as none, and says so.
fn rounded_off(difference: Q, of: Q, unit: &'static Unit) -> Q {
    let is_rounding = difference.si.abs() <= 1e-9 * of.si.abs();
    if is_rounding { Q::call("to rounding", &[difference], 0.0, unit) } else { difference }
}
