//! What must hold whatever is typed: random edits on random plans, and physics that only goes one way.

use bathbook::calculator::{Form, Subject};
use bathbook::calculators::{ALL, offered_at};
use bathbook::plan::{Field, Plan, examples};
use bathbook::results::Results;
use bathbook::units::{Style, System, UNITS, read};
use proptest::prelude::*;

const SUBJECTS: [Subject; 5] =
    [Subject::Bath, Subject::Mixing, Subject::Stream, Subject::Route, Subject::Drain];

/// Texts that people type, and some that nobody should.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        (-1e4..1e5f64).prop_map(|number| format!("{number:.3}")),
        (0.0..1e3f64).prop_map(|number| format!("{number:.2}")),
        (0.01..100.0f64).prop_map(|number| format!("{number} L")),
        Just("1,500".to_string()),
        Just("12 gal".to_string()),
        Just("CuSO4·5H2O".to_string()),
        Just("H2SO4".to_string()),
        Just("KAu(CN)2".to_string()),
        Just("".to_string()),
        Just("∞".to_string()),
        "\\PC{0,12}",
    ]
}

/// One edit, by numbers that are taken modulo what there is.
type Edit = (u8, usize, usize, usize, String);

fn apply(plan: &mut Plan, (what, a, b, c, text): &Edit) {
    let ids: Vec<_> = plan.places.iter().map(|place| (place.id, place.subject)).collect();
    let (id, subject) = ids[a % ids.len()];
    match what % 8 {
        0 if ids.len() < 14 => _ = plan.add(SUBJECTS[b % SUBJECTS.len()], text),
        1 => plan.set_from(id, Some(ids[b % ids.len()].0)),
        2 => plan.set_to(id, Some(ids[b % ids.len()].0)),
        3 if ids.len() > 8 => plan.remove(id),
        4 => plan.rename(id, text),
        _ => {
            let Some(calculator) = offered_at(subject).nth(b % 2).or(offered_at(subject).next()) else {
                return;
            };
            let tables: Vec<_> = calculator.all_tables().filter(|table| !table.columns.is_empty()).collect();
            let Some(table) = tables.get(c % tables.len().max(1)) else { return };
            let input = &table.columns[(a + b + c) % table.columns.len()];
            let text = match input.form {
                Form::Choice(words) => words[c % words.len()].0.to_string(),
                _ => text.clone(),
            };
            let key = ["Cu", "Au", "Sulfuric acid", "Additive"][c % 4];
            if table.id.is_empty() {
                plan.type_in(&Field::single(id, calculator.id, input.symbol), &text, Some(input.unit));
            } else if table.add.is_some() {
                if what % 2 == 0 {
                    plan.add_row(id, calculator.id, table.id, key);
                }
                plan.type_in(
                    &Field::cell(id, calculator.id, table.id, key, input.symbol),
                    &text,
                    Some(input.unit),
                );
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, ..ProptestConfig::default() })]

    /// No panic, no NaN but in what is declared as missing, no fault of ours; the same plan gives the
    /// same answers; and a plan comes back from its file as it went.
    #[test]
    fn any_edits_give_answers_or_remedies(
        edits in prop::collection::vec((any::<u8>(), 0..99usize, 0..99usize, 0..99usize, text()), 1..40),
        start in 0..4usize,
    ) {
        let mut plan = match examples::ALL.get(start) {
            Some((id, ..)) => examples::plan(id).unwrap_or_else(|| Plan::new("")),
            None => Plan::new("Anything"),
        };
        for edit in &edits {
            apply(&mut plan, edit);
        }
        let open = plan.places.last().map(|place| (place.id, offered_at(place.subject).next().map_or("", |c| c.id)));
        let results = Results::of(&plan, open);
        let again = Results::of(&plan, open);
        for (cell, (outcome, other)) in results.outcomes.iter().zip(&again.outcomes).enumerate() {
            let calculator = results.network.cells[cell].calculator;
            match (outcome, other) {
                (Ok(outcome), Ok(other)) => {
                    for ((output, si, _), (_, second, _)) in calculator.answered(outcome).zip(calculator.answered(other)) {
                        prop_assert!(si.is_finite() || output.optional.is_some(), "{} {}", calculator.id, output.symbol);
                        prop_assert_eq!(si.to_bits(), second.to_bits());
                    }
                }
                (Err(stop), Err(_)) => {
                    prop_assert!(stop.at.is_some(), "{}: {:?}", calculator.id, stop);
                    prop_assert!(!stop.reason.is_empty() && !stop.remedy.is_empty());
                }
                _ => prop_assert!(false, "{} answered once and refused once", calculator.id),
            }
        }
        let text = serde_json::to_string(&plan).expect("a plan can be written");
        let back: Plan = serde_json::from_str(&text).expect("and read");
        prop_assert_eq!(&back, &plan);
        prop_assert_eq!(back.clone().mended(), back, "what the app made needs no mending");
    }

    /// A file from elsewhere may hold any ids, names and links: it is made whole and evaluated.
    #[test]
    fn a_damaged_plan_is_made_whole(ids in prop::collection::vec((0..6u32, 0..6usize, 0..9u32, 0..9u32), 0..12)) {
        let places: Vec<_> = ids
            .iter()
            .map(|(id, subject, from, to)| {
                let subject = [Subject::Site, Subject::Bath, Subject::Mixing, Subject::Stream, Subject::Route, Subject::Drain][*subject];
                let sheets: serde_json::Map<_, _> = offered_at(subject).map(|c| (c.id.into(), serde_json::json!({}))).collect();
                serde_json::json!({"id": id, "subject": subject, "name": "one", "from": from, "to": to, "sheets": sheets})
            })
            .collect();
        let file = serde_json::json!({"format": 1, "name": "x", "next": 0, "places": places});
        let plan: Plan = serde_json::from_value(file).expect("a plan in form");
        let plan = plan.mended();
        prop_assert!(plan.site().is_some());
        let mut seen = std::collections::HashSet::new();
        prop_assert!(plan.places.iter().all(|place| seen.insert(place.id)));
        let results = Results::of(&plan, None);
        prop_assert_eq!(results.outcomes.len(), results.network.cells.len());
    }

    /// Every unit takes its numbers to SI and back, and a number shown with all figures is read again.
    #[test]
    fn units_go_there_and_back(at in 0..UNITS.len(), number in 0.001..9.0e4f64, comma in any::<bool>()) {
        let unit = UNITS[at];
        let back = unit.from_si(unit.to_si(number));
        prop_assume!(unit.to_si(number) > 0.0 && back.is_finite());
        prop_assert!((back / number - 1.0).abs() < 1e-6, "{} {}: {back}", number, unit.symbol);
        let decimal = if comma { bathbook::units::Decimal::Comma } else { bathbook::units::Decimal::Point };
        let style = Style { decimal, digits: 12, system: System::Metric, ..Style::default() };
        let shown = style.number(number);
        let read = read(&shown, unit, &style);
        // Three figures behind one separator are asked back, never guessed.
        if let Ok(value) = read {
            prop_assert!((unit.from_si(value.si) / number - 1.0).abs() < 1e-6, "{shown}");
        }
    }

    #[test]
    fn more_volume_heats_slower(litres in 20.0..2000.0f64, more in 1.01..3.0f64) {
        let time = |litres: f64| answer(Subject::Bath, "heat-up", &[("V", format!("{litres:.6} L"))], "t_up");
        let (small, large) = (time(litres), time(litres * more));
        prop_assert!((large / small / more - 1.0).abs() < 1e-5, "heat-up time goes with the volume");
    }

    #[test]
    fn more_drag_out_makes_the_rinse_richer_and_more_water_poorer(
        drag_out in 0.1..20.0f64, water in 0.2..20.0f64, more in 1.01..5.0f64
    ) {
        let rinse = |drag_out: f64, water: f64| {
            let typed = [("d_w", format!("{drag_out:.6} mL")), ("v_w", format!("{water:.6} L")), ("class", "acid".into())];
            answer(Subject::Stream, "stream", &typed, "c_T")
        };
        let now = rinse(drag_out, water);
        prop_assert!(rinse(drag_out * more, water) > now && rinse(drag_out, water * more) < now);
    }

    #[test]
    fn more_slope_needs_more_fall_and_carries_more(run in 1.0..100.0f64, slope in 0.06..0.9f64, more in 1.01..2.0f64) {
        let drain = |slope: f64, symbol: &str| {
            answer(Subject::Drain, "drain", &[("l", format!("{run:.6} m")), ("S", format!("{slope:.6} in/ft"))], symbol)
        };
        prop_assert!(drain(slope * more, "need") > drain(slope, "need"));
        prop_assert!((drain(slope * more, "Q_y") / drain(slope, "Q_y") / more.sqrt() - 1.0).abs() < 1e-5, "as the root of the slope");
    }
}

/// An answer of one sheet by itself, in SI; a stream holds 40 g/L of copper.
fn answer(subject: Subject, calculator: &'static str, typed: &[(&'static str, String)], symbol: &str) -> f64 {
    let mut plan = Plan::quick(calculator, "Alone", subject);
    let id = plan.places.iter().find(|place| place.subject == subject).map_or(0, |place| place.id);
    if calculator == "stream" {
        plan.add_row(id, calculator, "metals", "Cu");
        plan.type_in(&Field::cell(id, calculator, "metals", "Cu", "c_in"), "40 g/L", None);
    }
    for (symbol, text) in typed {
        plan.type_in(&Field::single(id, calculator, symbol), text, None);
    }
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(id, calculator).unwrap_or(0);
    let stop = results.stop(cell);
    results.answer(cell, symbol, "").unwrap_or_else(|| panic!("{symbol}: {stop:?}")).1
}

#[test]
fn every_calculator_has_a_place_where_it_is_offered() {
    for calculator in ALL {
        assert!(
            offered_at(calculator.subject).any(|offered| offered.id == calculator.id),
            "{}",
            calculator.id
        );
    }
}
