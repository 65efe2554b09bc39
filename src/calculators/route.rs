//! One of the ways out: what arrives on it, whether it may, and what it carries away.

use super::routes::{self, KINDS, fits};
use super::{CLASSES, UNKNOWN, class_of, rules, stream};
use crate::calculator::Severity::{self, Note, Serious};
use crate::calculator::{
    Calculator, Caution, Example, Role, Row, Stop, Subject, Table, When, Work, choice, input, output, verdict,
};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::regulation::limit_on;
use crate::science::segregation::{Class, strong_acid_with_caustic};
use crate::units::{
    DAYS, G_METAL, G_PER_DAY_METAL, KG_METAL, L, L_PER_DAY, L_PER_MIN, MG_PER_L_METAL, NUMBER,
};

const HELD: &str = "is collected or treated first";
const DISCHARGED: &str = "leaves the site as it is";
const IN_ORDER: &str = "in order";
const TOO_RICH: &str = "too rich for this route";
const ELSEWHERE: &str = "belongs on another route";

const BELONGS: &[(&str, f64)] = &[
    (routes::ACID_BASE, 0.0),
    (routes::DILUTE, 0.0),
    (routes::CONCENTRATE, 0.0),
    (routes::RECLAIM, 0.0),
    (routes::CYANIDE, 0.0),
    (routes::FLUORIDE, 0.0),
    (routes::SOLVENTS, 0.0),
    (routes::OXIDISERS, 0.0),
    (routes::AMMONIA, 0.0),
    (routes::SULFITE, 0.0),
    (routes::OWN, 0.0),
    (routes::FIND_OUT, 0.0),
];

/// Why valuable metal has a way of its own, whatever its concentration.
const WORTH: &str =
    ". It also holds valuable metal, which is reclaimed and not drained, however dilute it is";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "route",
    title: "Route",
    question: "What arrives on this route, may it, and what does it carry away?",
    subject: Subject::Route,
    quick: false,
    from_start: true,
    inputs: &[
        choice("kind", "What it is for", MG_PER_L_METAL, KINDS)
            .starts_at(1)
            .takes_on("stream", "belongs")
            .help("Segregated liquids have a route for each class; gold and its like are reclaimed."),
        input("c_max", "Limit on all metals together", MG_PER_L_METAL, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .help("Left out: 1 mg/L for acid and base water, 60 mg/L for dilute, 200 g/L for concentrate, all common practice. Each stream is held to it before it is mixed."),
        choice("ends", "What arrives", NUMBER, &[(HELD, 0.0), (DISCHARGED, 0.0)])
            .help("The permit of the site counts where water leaves it."),
        choice("rule", "Published limits to compare with", NUMBER, rules::PLATING)
            .help("Your permit rules. Which part binds you is for the control authority; the semiconductor part, 40 CFR 469, leaves electroplating out.")
            .when(When::Is("ends", &[DISCHARGED])),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .from_site(&[("site", "days")])
            .help("For the year’s sum."),
        input("Q", "Volume a day", L_PER_DAY, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .sums(&[("stream", "Q_day")])
            .help("All streams that lead here."),
        input("q_run", "Flow in the hours of service", L_PER_MIN, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
            .sums(&[("stream", "q_run")])
            .help("All streams that lead here, dumps spread out."),
        input("V_1", "Largest let out at once", L, [0.0, 1e6], [0.0, 5000.0]).usually(0.0)
            .largest(&[("stream", "V_once")])
            .help("The largest dump that leads here."),
    ],
    tables: &[
        Table {
            id: "streams",
            label: "Streams that lead here",
            key_label: "Stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                choice("what", "What it is", NUMBER, stream::KINDS).starts_at(stream::OTHER_AT).each(&[("stream", "kind")]).help("Follows the stream."),
                choice("class", "Class", NUMBER, CLASSES).starts_at(UNKNOWN).each(&[("stream", "class")]).help("Follows the stream."),
                input("Q_s", "A day", L_PER_DAY, [0.0, 1e9], [0.0, 1e9]).usually(0.0).each(&[("stream", "Q_day")]).help("Follows the stream."),
                input("c_T", "Metals in it", MG_PER_L_METAL, [0.0, 1e9], [0.0, 1e9]).usually(0.0).each(&[("stream", "c_T")]).help("Follows the stream."),
                choice("belongs", "Suits it", NUMBER, BELONGS).starts_at(11).each(&[("stream", "belongs")]).help("Follows the stream."),
            ],
            answers: &[
                output("c_s", "Held against the limit", MG_PER_L_METAL).cured_by(&[
                    ("drag-out", "t_s"),
                    ("drag-out", "n_s"),
                    ("stream", "d_w"),
                    ("stream", "v_w"),
                    ("stream", "q"),
                ]),
                verdict("verdict", "On this route", &[IN_ORDER, TOO_RICH, ELSEWHERE]),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals on this route",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                input("m", "A day", G_PER_DAY_METAL, [0.0, 1e9], [0.0, 1e9]).usually(0.0)
                    .role(Role::Load)
                    .sums(&[("stream", "m_w")])
                    .help("All streams that lead here."),
                input("m_1", "Most in one dump", G_METAL, [0.0, 1e12], [0.0, 1e12])
                    .optional()
                    .largest(&[("stream", "m_once")])
                    .help("Of the dumps that lead here."),
                rules::permit_daily(),
                rules::permit_monthly(),
            ],
            answers: &[
                output("c_mean", "Mean", MG_PER_L_METAL),
                output("c_peak", "On the day of the largest dump", MG_PER_L_METAL),
                output("m_year", "In a year of service", KG_METAL),
                output("pub_d", "Published, daily", MG_PER_L_METAL).missing("none published"),
                output("pub_m", "Published, average", MG_PER_L_METAL).missing("none published"),
            ],
        },
    ],
    outputs: &[
        output("Q_day", "Volume a day", L_PER_DAY).role(Role::Flow),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL).beside(),
        output("c_mix", "All metals together, mixed", MG_PER_L_METAL).beside(),
        output("c_worst", "Richest stream", MG_PER_L_METAL),
        output("q_mean", "Flow in the hours of service", L_PER_MIN),
        output("V_dump", "Largest let out at once", L),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("kind", &[routes::CYANIDE])],
            text: "No acid ever reaches this route, its lift station, its container or its vent. It has a pipe of its own to the end.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::FLUORIDE])],
            text: "Hydrofluoric acid: no glass, no metal; the site’s own first aid for it stands ready.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::OXIDISERS])],
            text: "No organic matter, no resin, no closed cap: oxidisers gas and set fire.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::ACID_BASE])],
            text: strong_acid_with_caustic(),
        },
    ],
    sources: &[
        "Conservation of mass. Limits of 1 mg/L, 60 mg/L and 200 g/L: common practice, no source.",
        "Published limits: 40 CFR 433.15, 433.17 and 413; dilution in place of treatment: 433.15(c).",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: &[Example {
        source: "By hand: 480 L/day with 36 g/day are 75 mg/L; 0.036 kg × 350 days = 12.6 kg",
        inputs: &[("Q", "480 L/day"), ("days", "350")],
        rows: &[("metals", "Cu", &[("m", "36 g/day")])],
        answers: &[("c_mean[Cu]", "75 mg/L"), ("m_T", "36 g/day"), ("m_year[Cu]", "12.6 kg of metal")],
        within: 1e-9,
    }],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let kind = w.word(&top, "kind")?;
    let streams = w.rows("streams")?;
    refuse_what_must_not_meet(w, kind, &streams)?;

    let [q, q_run, v_1, days] = w.inputs(["Q", "q_run", "V_1", "days"])?;
    let q = w.answer("Q_day", q)?;
    w.answer("q_mean", q_run)?;
    let v_1 = w.answer("V_dump", v_1)?;
    let by_kind = w.inputs::<1>(["kind"])?[0];
    let limit = w.optional(&top, "c_max")?.unwrap_or(by_kind);
    let mut worst = Q::constant("none", 0.0, MG_PER_L_METAL);
    for row in &streams {
        let [c_t] = w.of(row, ["c_T"])?;
        let c_s = w.give(row, "c_s", c_t)?;
        worst = worst.max(c_s);
        let belongs = w.word(row, "belongs")?;
        let is_rich = c_s.si > limit.si * (1.0 + 1e-9);
        let verdict = if is_rich {
            TOO_RICH
        } else if fits(kind, belongs) {
            IN_ORDER
        } else {
            ELSEWHERE
        };
        w.say(row, "verdict", verdict)?;
        let why = why_too_rich(kind, w.word(row, "what")?);
        w.at_most(row, "c_s", limit, too_rich(kind), why);
        if verdict == ELSEWHERE {
            let (severity, why) = misplaced(kind, belongs);
            w.add_finding(row, "verdict", severity, format!("{}: {why}", row.key));
        }
    }
    w.answer("c_worst", worst)?;

    let one_day = Q::constant("1 day", 1.0, DAYS);
    let is_discharged = w.word(&top, "ends")? == DISCHARGED;
    let rule = if is_discharged { Some(rules::rule(w.word(&top, "rule")?)) } else { None };
    let mut sum = Q::constant("none", 0.0, G_PER_DAY_METAL);
    for row in w.rows(metals::TABLE)? {
        let [m] = w.of(&row, ["m"])?;
        let m_1 = w.optional(&row, "m_1")?.unwrap_or(Q::constant("0", 0.0, G_METAL));
        sum = sum + m;
        let nothing = Q::constant("0", 0.0, MG_PER_L_METAL);
        let is_dry = q.si <= 0.0;
        w.give(&row, "c_mean", if is_dry { nothing } else { m / q })?;
        w.give(&row, "c_peak", if is_dry { nothing } else { (m + m_1 / one_day) / (q + v_1 / one_day) })?;
        w.give(&row, "m_year", m * days * one_day)?;
        if let Some(rule) = rule {
            let published = limit_on(rule, &row.key);
            let constant = |number: f64| Q::constant("limit", number, MG_PER_L_METAL);
            if let Some(limit) = published {
                w.give(&row, "pub_d", constant(limit.daily))?;
                if let Some(average) = limit.average {
                    w.give(&row, "pub_m", constant(average))?;
                }
            }
            let (daily, monthly) = (w.optional(&row, "lim_d")?, w.optional(&row, "lim_m")?);
            if let Some(limit) = daily {
                w.at_most(&row, "c_peak", limit, Serious, "The permit’s daily limit counts on that day.");
            }
            if let Some(limit) = monthly {
                w.at_most(&row, "c_mean", limit, Serious, "The permit’s monthly limit counts for the mean.");
            }
            if let (None, None, Some(limit)) = (daily, monthly, published) {
                let why = format!(
                    "That is the published daily limit ({}); type your permit’s own at the site.",
                    rule.section()
                );
                w.at_most(&row, "c_peak", constant(limit.daily), Severity::Caution, &why);
            }
        }
    }
    let sum = w.answer("m_T", sum)?;
    let mixed = if q.si > 0.0 { sum / q } else { Q::constant("0", 0.0, MG_PER_L_METAL) };
    w.answer("c_mix", mixed)?;
    watered_down(w, &streams)?;
    meet_acid_and_alkaline(w, &streams)
}

/// What must never meet is refused, not added up: stream against the route, and stream against stream.
fn refuse_what_must_not_meet(w: &Work, kind: &str, streams: &[Row]) -> Result<(), Stop> {
    let mut classes = Vec::new();
    for row in streams {
        classes.push((&*row.key, class_of(w.word(row, "class")?), w.word(row, "belongs")?));
    }
    // A route carries what it is there for, whatever else leads there today.
    let carried = routes::carries(kind);
    let own = carried.map_or(String::new(), |class| format!("the {} water of this route", class.name()));
    let carried = carried.map(|class| (&*own, class));
    // A stream that the route itself does not bear comes first: it is the one to lead elsewhere.
    let against_route = classes.iter().flat_map(|one| carried.map(|other| (one, other)));
    let against_others = classes.iter().enumerate().flat_map(|(k, one)| {
        // Of two streams, the one to lead elsewhere is the one that does not belong here.
        let pair = move |other| if one.2 == kind { (other, one) } else { (one, other) };
        classes[k + 1..].iter().map(pair).map(|(one, other)| (one, (other.0, other.1)))
    });
    for ((name, class, belongs), (other, other_class)) in against_route.chain(against_others) {
        let Some(reason) = routes::conflict((name, *class), (other, other_class)) else { continue };
        let worth = if *belongs == routes::RECLAIM { WORTH } else { "" };
        let reason = format!("{reason}{worth}");
        let way = match *belongs {
            routes::FIND_OUT => "a route of its own class".into(),
            belongs if belongs == kind => "a route of its own class".into(),
            belongs => format!("a route for “{belongs}”"),
        };
        let remedy = format!("Lead {name} to {way}, with its own pipe, vent and container.");
        return Err(Stop::at("kind", reason, remedy).row(""));
    }
    Ok(())
}

/// A concentrate that meets a dilute stream is still a concentrate.
fn watered_down(w: &mut Work, streams: &[Row]) -> Result<(), Stop> {
    let (mut rich, mut weak): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    for row in streams {
        match w.word(row, "belongs")? {
            routes::CONCENTRATE => rich.push(&row.key),
            routes::DILUTE | routes::ACID_BASE => weak.push(&row.key),
            _ => (),
        }
    }
    if !rich.is_empty() && !weak.is_empty() {
        let (rich, weak, top) = (rich.join(", "), weak.join(", "), w.top());
        let text = format!(
            "Concentrate ({rich}) and dilute water ({weak}) meet here: watering down changes neither the route that the concentrate belongs on nor the grams of metal, and all of it has to be treated."
        );
        w.add_finding(&top, "c_mix", Note, text);
    }
    Ok(())
}

fn meet_acid_and_alkaline(w: &mut Work, streams: &[Row]) -> Result<(), Stop> {
    let mut seen = (false, false);
    for row in streams {
        match class_of(w.word(row, "class")?) {
            Class::Acid => seen.0 = true,
            Class::Alkaline => seen.1 = true,
            _ => (),
        }
    }
    if seen == (true, true) {
        let top = w.top();
        w.add_finding(
            &top,
            "kind",
            Note,
            format!("Acid and alkaline streams meet here. {}", strong_acid_with_caustic()),
        );
    }
    Ok(())
}

fn misplaced(kind: &str, belongs: &str) -> (Severity, String) {
    match belongs {
        routes::RECLAIM => (
            Serious,
            "it holds valuable metal, which is reclaimed and not drained, however dilute it is. Lead it to a reclaim route.".into(),
        ),
        routes::FIND_OUT => (Severity::Caution, "its class is not known. Choose it on the stream’s sheet before it is led anywhere.".into()),
        _ => (Serious, format!("it belongs on the route “{belongs}”, not on “{kind}”.")),
    }
}

fn too_rich(kind: &str) -> Severity {
    if kind == routes::DILUTE { Severity::Caution } else { Serious }
}

/// What to do with a stream that is too rich: less drag-out cures a rinse, and nothing else.
fn why_too_rich(kind: &str, what: &str) -> &'static str {
    match (kind, what) {
        (routes::DILUTE, stream::RINSE) => {
            "Each stream counts before it is mixed. Less drag-out by a longer or faster spin, or the concentrate route, would do; best for a first rinse of its own."
        }
        (routes::DILUTE, stream::DUMP) => {
            "A dump holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::BLEED) => {
            "A bleed holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::DRAW) => {
            "What is drawn off holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::SAMPLES) => {
            "Samples hold what the bath holds, however they are mixed: lead them to the concentrate route."
        }
        (routes::DILUTE, _) => "Each stream counts before it is mixed. The concentrate route would do.",
        (routes::ACID_BASE, _) => "Metal belongs on the dilute or the concentrate route.",
        _ => "It is too rich for this route.",
    }
}
