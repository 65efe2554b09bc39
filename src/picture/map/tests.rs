use super::layout::{Drawing, HAIR, PAD, SMALL, TITLE};
use super::*;
use crate::calculator::{Calculator, Finding, Input, Outcome, Output, Severity, Stop, Table, choice, output};
use crate::network::Cell;
use crate::units::{G_PER_DAY_METAL, L_PER_DAY, MG_PER_L_METAL, NUMBER, Value};
use std::sync::Arc;

/// Invented: a stream's sheet with nothing but what the map reads.
static SHEET: Calculator = Calculator {
    id: "stream-of-test",
    title: "Stream",
    question: "",
    subject: Subject::Stream,
    quick: false,
    from_start: true,
    inputs: INPUTS,
    tables: &[Table {
        id: "metals",
        label: "",
        key_label: "",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[],
        answers: METAL,
    }],
    outputs: FLOW,
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[],
    examples: &[],
    work: |_| Err(Stop::fault("never run here")),
};
const INPUTS: &[Input] = &[
    choice("kind", "Sort", NUMBER, &[("rinse", 0.0), ("bath dump", 0.0)]).role(Role::OwnWater(&["rinse"])),
    choice("class", "Class", NUMBER, &[("acid", 0.0), ("cyanide", 0.0)]).role(Role::Class),
];
const FLOW: &[Output] = &[output("q_day", "Volume a day", L_PER_DAY).role(Role::Flow)];
const METAL: &[Output] = &[
    output("c_w", "Concentration", MG_PER_L_METAL).role(Role::Concentration),
    output("m_w", "Mass a day", G_PER_DAY_METAL).role(Role::Load),
];

/// A stream of litres a day with grams of copper a day.
fn answered(
    results: &mut Results,
    place: Id,
    sort: f64,
    litres: f64,
    copper: f64,
    severity: Option<Severity>,
) {
    let word = |si: f64| crate::calculator::Datum::from(Value { si, unit: NUMBER });
    let given = vec![vec![("".into(), vec![word(sort), word(0.0)])], vec![("Cu".into(), vec![])]];
    let (volume, mass) = (L_PER_DAY.to_si(litres), G_PER_DAY_METAL.to_si(copper));
    let answers = vec![vec![("".into(), vec![volume])], vec![("Cu".into(), vec![mass / volume, mass])]];
    let finding = |severity| Finding { severity, text: "too much".into(), at: String::new(), limit: None };
    let outcome =
        Outcome { answers, findings: severity.map(finding).into_iter().collect(), ..Outcome::default() };
    let cell = Cell {
        place,
        name: "".into(),
        calculator: &SHEET,
        given,
        origins: Vec::new(),
        sheet: Arc::default(),
        links: Arc::default(),
        issues: Vec::new(),
        broken: None,
    };
    results.network.cells.push(Arc::new(cell));
    results.outcomes.push(Ok(outcome.into()));
}

/// An invented line: a bath, a rinse and a dump to one route, a lost stream, a drain for the tank.
fn line() -> (Plan, Results) {
    let (mut plan, mut results) = (Plan::new("Invented"), Results::default());
    let bath = plan.add(Subject::Bath, "Copper bath");
    let [rinse, dump, lost] = ["Rinse", "Dump", "Samples"].map(|name| plan.add(Subject::Stream, name));
    let route = plan.add(Subject::Route, "Dilute metal");
    let drain = plan.add(Subject::Drain, "Trench");
    for stream in [rinse, dump, lost] {
        plan.set_from(stream, Some(bath));
    }
    plan.set_to(rinse, Some(route));
    plan.set_to(dump, Some(route));
    plan.set_to(route, Some(drain));
    plan.set_from(drain, Some(bath));
    answered(&mut results, rinse, 0.0, 3000.0, 60.0, Some(Severity::Caution));
    answered(&mut results, dump, 1.0, 1000.0, 240.0, None);
    answered(&mut results, lost, 1.0, 1.0, 1.0, Some(Severity::Serious));
    (plan, results)
}

fn many(n: usize) -> (Plan, Results) {
    let (mut plan, mut results) = (Plan::new("Invented"), Results::default());
    let baths: Vec<Id> = (0..4).map(|k| plan.add(Subject::Bath, &format!("Bath {k}"))).collect();
    let routes: Vec<Id> = (0..9).map(|k| plan.add(Subject::Route, &format!("Route {k}"))).collect();
    let drain = plan.add(Subject::Drain, "Trench");
    for k in 0..n {
        let id = plan.add(Subject::Stream, &format!("A stream with a rather long name, number {k} 槽槽槽"));
        plan.set_from(id, Some(baths[k % 4]));
        plan.set_to(id, (k % 10 < 9).then(|| routes[k % 10]));
        answered(&mut results, id, 1.0, 10.0 + 997.0 * (k % 7) as f64, k as f64, None);
    }
    for route in routes {
        plan.set_to(route, Some(drain));
    }
    plan.set_from(drain, Some(baths[0]));
    (plan, results)
}

fn is_sound(map: &Map, drawing: &Drawing) {
    assert_eq!(drawing.shapes.len(), map.nodes.len());
    assert_eq!(drawing.runs.len(), map.edges.len());
    for (k, a) in drawing.shapes.iter().enumerate() {
        assert!(a.x >= 0.0 && a.x + a.w <= drawing.width, "{a:?} in {}", drawing.width);
        assert!(a.y >= 0.0 && a.y + a.h <= drawing.height, "{a:?} in {}", drawing.height);
        assert!(a.h >= 48.0, "a finger needs 48 px");
        assert!(a.title.iter().all(|line| text::width(line, TITLE) <= a.w - 2.0 * PAD), "{a:?}");
        assert!(a.lines.iter().all(|line| text::width(line, SMALL) <= a.w - 2.0 * PAD), "{a:?}");
        for b in &drawing.shapes[k + 1..] {
            let apart =
                a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h + 8.0 <= b.y || b.y + b.h + 8.0 <= a.y;
            assert!(apart, "{a:?} and {b:?}");
        }
    }
    for run in &drawing.runs {
        assert!(run.width >= HAIR && run.width < 60.0, "{run:?}");
        let numbers = run.path.split(|c: char| !c.is_ascii_digit() && c != '.' && c != '-');
        let numbers: Vec<f64> = numbers.filter_map(|number| number.parse().ok()).collect();
        assert!(numbers.iter().all(|n| n.is_finite() && *n >= -0.1), "{run:?}");
    }
}

#[test]
fn a_line_reads_from_baths_to_drains() {
    let (plan, results) = line();
    let map = Map::of(&plan, &results);
    let titles: Vec<_> = map.nodes.iter().map(|node| (node.column, node.title.as_str())).collect();
    assert_eq!(
        titles,
        [
            (0, "Copper bath"),
            (1, "Rinse"),
            (1, "Dump"),
            (1, "Samples"),
            (2, "Dilute metal"),
            (2, "No route yet"),
            (3, "Trench")
        ]
    );
    let node = |title: &str| map.nodes.iter().find(|node| node.title == title).unwrap();
    assert_eq!(node("Rinse").lines, ["3000\u{a0}L/day · acid", "20.0\u{a0}mg/L\u{a0}Cu"]);
    assert_eq!(node("Dilute metal").lines, ["4000\u{a0}L/day", "300\u{a0}g/day\u{a0}Cu"]);
    assert_eq!(node("Rinse").sign, Some((Sign::Caution, "▲ 1 caution".into())));
    assert_eq!(node("Samples").sign, Some((Sign::Stop, "■ 1 stop".into())));
    assert!(
        map.summary().starts_with("Map of the line: 1 bath, 3 streams, 1 route, 1 drain. 1 stream without")
    );
}

#[test]
fn widths_are_to_scale_and_a_rinse_takes_no_water_from_its_bath() {
    let (plan, results) = line();
    let map = Map::of(&plan, &results);
    let copper = Quantity::Metal("Cu".into());
    assert_eq!(map.quantities(), [Quantity::Volume, copper.clone()]);
    for page in [390.0, 876.0] {
        let width = |from: &str, to: &str, quantity: &Quantity| {
            let title = |at: usize| map.nodes[at].title.as_str();
            let is_it = |edge: &Edge| title(edge.from) == from && title(edge.to) == to;
            let edge = map.edges.iter().position(is_it).unwrap();
            map.lay_out(page, quantity).runs.iter().find(|run| run.edge == edge).unwrap().width
        };
        let litres = ["Rinse", "Dump"].map(|from| width(from, "Dilute metal", &Quantity::Volume));
        assert!((litres[0] / litres[1] - 3.0).abs() < 1e-9, "{litres:?}");
        let grams = ["Rinse", "Dump"].map(|from| width(from, "Dilute metal", &copper));
        assert!((grams[1] / grams[0] - 4.0).abs() < 1e-9, "{grams:?}");
        assert_eq!(width("Copper bath", "Rinse", &Quantity::Volume), HAIR);
        assert!(width("Copper bath", "Rinse", &copper) > HAIR);
        assert_eq!(width("Samples", "No route yet", &Quantity::Volume), HAIR);
    }
}

#[test]
fn nothing_overlaps_on_any_page_however_long_the_plan() {
    for (plan, results) in [line(), many(40), many(1), (Plan::new("Empty"), Results::default())] {
        let map = Map::of(&plan, &results);
        for page in [320.0, 358.0, 390.0, 600.0, 620.0, 700.0, 876.0, 1400.0, 3000.0] {
            for quantity in map.quantities() {
                let drawing = map.lay_out(page, &quantity);
                is_sound(&map, &drawing);
                assert!(!drawing.is_narrow || page < 700.0, "{page}");
                assert!(drawing.is_narrow || page > 600.0, "{page}");
            }
        }
        let narrowest = map.lay_out(320.0, &Quantity::Volume);
        assert!(narrowest.shapes.iter().all(|shape| shape.w >= 180.0), "room for words on a phone");
    }
}

#[test]
fn streams_that_run_in_a_circle_are_not_lost() {
    let (mut plan, results) = line();
    let [a, b] = ["A", "B"].map(|name| plan.add(Subject::Stream, name));
    // A file from elsewhere may hold what the screen does not allow.
    for (id, from) in [(a, b), (b, a)] {
        plan.place_mut(id).unwrap().from = Some(from);
    }
    let map = Map::of(&plan, &results);
    assert!(map.at(Some(a)).is_some() && map.at(Some(b)).is_some());
    is_sound(&map, &map.lay_out(900.0, &Quantity::Volume));
}

/// Tags are closed in turn and each `&` begins an entity: what any reader of XML asks for.
fn is_xml(text: &str) {
    let mut open: Vec<&str> = Vec::new();
    for part in text.split('<').skip(1) {
        let (tag, between) = part.split_once('>').expect("a tag that ends");
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        assert!(
            between.split('&').skip(1).all(|it| it.split(';').next().is_some_and(|e| e.len() < 5)),
            "{part}"
        );
        match tag.strip_prefix('/') {
            Some(name) => assert_eq!(open.pop(), Some(name)),
            None if tag.ends_with('/') => (),
            None => open.push(tag.split(' ').next().unwrap()),
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn a_saved_map_is_a_file_of_its_own_with_all_that_the_map_has() {
    let (mut plan, mut results) = line();
    let odd = plan.add(Subject::Stream, "Acid & <base> \"mixed\"");
    answered(&mut results, odd, 1.0, 5.0, 1.0, None);
    let map = Map::of(&plan, &results);
    let copper = Quantity::Metal("Cu".into());
    let legend = map.legend(&results, &copper);
    assert!(legend.contains("300\u{a0}g/day Cu") && legend.contains("Dots"), "{legend}");
    let file = map.file(&results, &copper, "Line & co", &legend);
    is_xml(&file);
    assert!(file.starts_with("<svg xmlns=") && file.contains("Line &amp; co"), "{file}");
    assert!(file.contains("Acid &amp; &lt;base&gt;"), "{file}");
    for node in &map.nodes {
        let word = node.title.split(' ').next().unwrap();
        assert!(file.contains(word), "{} is not in it", node.title);
    }
    assert_eq!(file.matches("<path ").count(), map.edges.len());
    // Nothing outside of it is asked for, and nothing in it runs.
    assert_eq!(file.matches("http").count(), 1);
    assert!(!file.contains("<script") && !file.contains("href"));
}

/// The line with a treated stream that leads to a sewer, and one that leads nowhere yet.
fn treated() -> (Plan, Results) {
    let (mut plan, results) = line();
    let route = plan.places.iter().find(|place| place.subject == Subject::Route).unwrap().id;
    let [water, spent] = ["Treated water", "Spent"].map(|name| plan.add(Subject::Treated, name));
    let sewer = plan.add(Subject::Discharge, "Sewer");
    for made in [water, spent] {
        plan.set_from(made, Some(route));
    }
    plan.set_to(water, Some(sewer));
    (plan, results)
}

#[test]
fn what_treatment_makes_stands_behind_the_routes() {
    let (plan, results) = treated();
    let map = Map::of(&plan, &results);
    let titles: Vec<_> = map.nodes.iter().filter(|node| node.column > 3).map(|node| &*node.title).collect();
    assert_eq!(titles, ["Treated water", "Spent", "Sewer", "No discharge yet"]);
    let ends = |edge: &Edge| (&*map.nodes[edge.from].title, &*map.nodes[edge.to].title, edge.way);
    let edges: Vec<_> = map.edges.iter().map(ends).collect();
    for edge in [
        ("Dilute metal", "Treated water", Way::From),
        ("Treated water", "Sewer", Way::To),
        ("Spent", "No discharge yet", Way::Nowhere),
        ("Samples", "No route yet", Way::Nowhere),
    ] {
        assert!(edges.contains(&edge), "{edge:?} is not in {edges:?}");
    }
    let summary = map.summary();
    assert!(
        summary.contains(
            "2 treated streams, 1 discharge. 1 stream without a route. 1 treated stream without a discharge."
        ),
        "{summary}"
    );
    for page in [320.0, 600.0, 876.0, 1100.0, 1400.0] {
        is_sound(&map, &map.lay_out(page, &Quantity::Volume));
    }
    assert!(!map.lay_out(1100.0, &Quantity::Volume).is_narrow);
}
