//! What holds of every plan, whatever was typed into it: properties over random edits.

use bathbook::calculator::{Calculator, Example, Form, Input, Subject};
use bathbook::calculators::{find, for_places_of};
use bathbook::network::Cell;
use bathbook::plan::{Field, Id, Plan, examples};
use bathbook::results::Results;
use bathbook::sentence::sentence;
use bathbook::units::{
    G_PER_L_METAL, INCH_PER_FOOT, KW, L, ML, NUMBER, PER_MINUTE, PERCENT, SECOND, Style, UNITS, Unit, read,
};
use proptest::prelude::*;
use std::fmt::Debug;

/// One random thing that a user does: which, three choices, and a text.
type Deed = (u8, [usize; 3], f64, String);

fn deeds() -> impl Strategy<Value = Vec<Deed>> {
    let text = prop_oneof![
        3 => Just(String::new()),
        1 => "[ -~µ°·]{0,12}",
        1 => prop_oneof!["[0-9]{1,4}[.,][0-9]{1,3} ?(L|gal|mL|°C|%|g/L|mm|W)", "= ?[0-9]{1,3} ?[*/+-] ?[0-9]{1,3}"],
        1 => prop::sample::select(vec![
            "Cu", "copper", "Au", "CuSO4·5H2O", "H2SO4", "KAu(CN)2", "NaOH", "Cl", "HF", "0", "1e300", "-1", "NaN", "inf",
        ]).prop_map(String::from),
    ];
    prop::collection::vec((0..24u8, prop::array::uniform3(0..1000usize), 0.0..=1.0f64, text), 0..30)
}

fn pick<T: Copy>(from: &[T], at: usize) -> Option<T> {
    from.get(at.checked_rem(from.len())?).copied()
}

/// A text for an input: the one given, or one within its usual or hard range.
fn text_for(input: &Input, share: f64, text: &str) -> String {
    if !text.is_empty() {
        return text.into();
    }
    match input.form {
        Form::Choice(words) => pick(words, (share * 1000.0) as usize).map_or("", |(word, _)| word).into(),
        Form::Text => "NiSO4·6H2O".into(),
        Form::Number => {
            let [low, high] = if share > 0.2 { input.usual } else { input.hard };
            format!("{:.4} {}", low + (high - low) * share, input.unit.symbol)
        }
    }
}

/// Rows of the same key are the same thing: a metal "Cu" typed where a place is called "Cu" is that place's row
/// too, until it has another name. Tables with a row for each place are meant so.
fn has_a_row_named_like_a_place(plan: &Plan) -> bool {
    let is_meant = |calculator: &str, table: &str| {
        let tables = find(calculator).map(|calculator| calculator.all_tables());
        tables.into_iter().flatten().any(|known| known.id == table && known.has_row_for_each_place())
    };
    let sheets = plan.places.iter().flat_map(|place| &place.sheets);
    let tables = sheets.flat_map(|(id, sheet)| sheet.rows.iter().map(move |(table, rows)| (id, table, rows)));
    let other = tables.filter(|(id, table, _)| !is_meant(id, table));
    let mut keys = other.flat_map(|(_, _, rows)| rows).map(|(key, _)| key);
    keys.any(|key| plan.places.iter().any(|place| place.name == *key))
}

fn field(plan: &Plan, [a, b, c]: [usize; 3]) -> Option<(Field, &'static Input)> {
    let place = plan.places.get(a.checked_rem(plan.places.len())?)?;
    let ids: Vec<&str> = place.sheets.keys().map(String::as_str).collect();
    let calculator: &'static Calculator = find(pick(&ids, b)?)?;
    let all: Vec<_> = calculator.all_tables().collect();
    let table = all.get(if c % 3 == 0 { 0 } else { b % all.len() })?;
    let input = table.columns.get(c.checked_rem(table.columns.len())?)?;
    if table.id.is_empty() || std::ptr::eq(table.columns, calculator.inputs) {
        return Some((Field::single(place.id, calculator.id, input.symbol), input));
    }
    let rows = place.sheets.get(calculator.id)?.rows.get(table.id);
    let keys: Vec<&str> = rows.into_iter().flatten().map(|(key, _)| key.as_str()).collect();
    let key = pick(&keys, a + c).or(pick(table.suggest, c)).unwrap_or("Cu");
    Some((Field::cell(place.id, calculator.id, table.id, key, input.symbol), input))
}

fn done(plan: &mut Plan, (deed, choices, share, text): &Deed) {
    let [a, b, c] = *choices;
    let id =
        |at: usize| -> Id { plan.places.get(at % plan.places.len().max(1)).map_or(99, |place| place.id) };
    let (one, other) = (id(a), id(b));
    let some = field(plan, *choices);
    let (table, key) =
        some.as_ref().map_or(("", String::new()), |(field, _)| (field.table, field.key.clone()));
    match (deed, some) {
        (0..=11, Some((field, input))) => plan.type_in(&field, &text_for(input, *share, text), None),
        (12, Some((field, input))) => {
            let units: Vec<_> = input.unit.kind.units().collect();
            if let Some(unit) = pick(&units, c) {
                plan.show_in(&field, unit);
            }
        }
        (13, Some((field, _))) => plan.clear(&field),
        (14, Some((field, _))) if !table.is_empty() => {
            plan.add_row(one, field.calculator, table, text);
        }
        (15, Some((field, _))) if !table.is_empty() => {
            plan.rename_row(field.place, field.calculator, table, &key, text);
        }
        (16, Some((field, _))) if !table.is_empty() => {
            plan.remove_row(field.place, field.calculator, table, &key)
        }
        (17, Some((field, _))) if !table.is_empty() => {
            plan.move_row(field.place, field.calculator, table, &key, c % 2 == 0);
        }
        (18, _) => {
            let sorts = [
                Subject::Bath,
                Subject::Mixing,
                Subject::Stream,
                Subject::Route,
                Subject::Drain,
                Subject::Treated,
                Subject::Discharge,
            ];
            plan.add(sorts[a % sorts.len()], text);
        }
        (19, _) if share < &0.5 => plan.remove(one),
        (20, _) => plan.set_from(one, (c > 100).then_some(other)),
        (21, _) => plan.set_to(one, (c > 100).then_some(other)),
        (22, _) => plan.rename(one, text),
        (23, Some((field, _))) if c % 4 == 0 => plan.remove_sheet(field.place, field.calculator),
        (23, _) => plan.add_sheet(one, bathbook::calculators::ALL[c % bathbook::calculators::ALL.len()].id),
        _ => (),
    }
}

/// A plan that a failing test prints as its file.
struct Random(Plan);

impl std::fmt::Debug for Random {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        f.write_str(&serde_json::to_string(&self.0).unwrap_or_default())
    }
}

fn random_plan() -> impl Strategy<Value = Random> {
    let starts = 0..=examples::ALL.len();
    (starts, deeds()).prop_map(|(start, deeds)| {
        let example = examples::ALL.get(start).and_then(|(id, ..)| examples::plan(id));
        let mut plan = example.unwrap_or_else(|| Plan::new("Random"));
        deeds.iter().for_each(|deed| done(&mut plan, deed));
        Random(plan)
    })
}

/// Every field of a plan that is asked for.
fn fields(plan: &Plan, results: &Results) -> Vec<Field> {
    let mut all = Vec::new();
    for cell in &results.network.cells {
        for (t, table) in cell.calculator.all_tables().enumerate() {
            for (key, _) in cell.given.get(t).into_iter().flatten() {
                let table_id = if t == 0 { "" } else { table.id };
                all.extend(
                    table.columns.iter().map(|input| {
                        Field::cell(cell.place, cell.calculator.id, table_id, key, input.symbol)
                    }),
                );
            }
        }
    }
    all.retain(|field| plan.place(field.place).is_some() && results.asks(field));
    all
}

fn answers(results: &Results) -> String {
    format!("{:?} {:?}", results.outcomes, results.findings())
}

/// What a sheet was given, to the last bit, and where it came from.
fn given(cell: &Cell) -> impl PartialEq + Debug {
    let rows = cell.given.iter().flatten();
    let data = rows.flat_map(|(key, data)| data.iter().map(move |datum| (key.clone(), datum)));
    let exact =
        data.map(|(key, datum)| (key, datum.value.si.to_bits(), datum.value.unit.symbol, datum.text.clone()));
    (exact.collect::<Vec<_>>(), cell.origins.clone(), cell.issues.clone())
}

/// An id as a file may hold it: usual ones, which meet often, and the largest that there are.
fn any_id() -> impl Strategy<Value = u32> {
    prop_oneof![4 => 0..9u32, 1 => u32::MAX - 3..=u32::MAX, 1 => u32::MAX / 2 - 1..=u32::MAX / 2 + 1]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// What is taken over from the results before an edit is what would be worked out anew, with its working.
    #[test]
    fn results_after_an_edit_are_those_of_the_plan_by_itself(start in 0..examples::ALL.len(), deeds in deeds(), open in 0..60usize) {
        let mut plan = examples::plan(examples::ALL[start].0).expect("an example");
        let mut results = Results::of(&plan, None);
        for (at, deed) in deeds.iter().enumerate() {
            done(&mut plan, deed);
            let cell = results.network.cells.get((open + at / 4) % results.network.cells.len().max(1));
            let open = cell.map(|cell| (cell.place, cell.calculator.id));
            results = results.after_edit(&plan, open);
            let anew = Results::of(&plan, open);
            prop_assert_eq!(answers(&results), answers(&anew));
            prop_assert_eq!(results.network.cells.len(), anew.network.cells.len());
            for (kept, anew) in results.network.cells.iter().zip(&anew.network.cells) {
                prop_assert_eq!(given(kept), given(anew), "{}", kept.calculator.id);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// A finite number, a declared "not known yet", or a refusal with reason and remedy.
    #[test]
    fn no_plan_comes_to_anything_but_a_number_or_a_reason(Random(plan) in random_plan()) {
        let results = Results::of(&plan, None);
        for (cell, outcome) in results.network.cells.iter().zip(&results.outcomes) {
            match outcome {
                Ok(outcome) => for (output, si, key) in cell.calculator.answered(outcome) {
                    prop_assert!(
                        si.is_finite() || (si.is_nan() && output.missing.is_some()),
                        "{} {}[{key}] is {si}", cell.calculator.id, output.symbol
                    );
                },
                Err(stop) => {
                    prop_assert!(stop.at.is_some(), "{}: {stop:?}", cell.calculator.id);
                    prop_assert!(!stop.reason.is_empty() && !stop.remedy.is_empty(), "{stop:?}");
                    for text in [&stop.reason, &stop.remedy] {
                        prop_assert_eq!(&sentence(text), text, "{}", cell.calculator.id);
                    }
                }
            }
        }
        // Rows and places may be called so by the user.
        let is_name = serde_json::to_string(&plan).is_ok_and(|text| text.contains("NaN") || text.contains("\"inf"));
        for found in results.findings() {
            let text = found.finding.text;
            prop_assert!(is_name || (!text.contains("NaN") && !text.contains("inf ")), "{text}");
        }
        for field in fields(&plan, &results) {
            let view = results.field(&field, plan.entry(&field)).expect("a field that is asked for has a view");
            let is_typed = plan.entry(&field).is_some_and(|entry| entry.text == view.text);
            prop_assert!(is_typed || (!view.text.contains("NaN") && !view.text.contains("inf")), "{field:?} {view:?}");
        }
    }

    /// A place's name may hold any words, also those with which a refusal is passed on.
    #[test]
    fn names_hide_no_stop(Random(plan) in random_plan()) {
        prop_assume!(!has_a_row_named_like_a_place(&plan));
        let mut renamed = plan.clone();
        for place in &plan.places {
            renamed.rename(place.id, &format!("Bath {} has no answer. Mend it there", place.id));
        }
        let [before, after] = [Results::of(&plan, None), Results::of(&renamed, None)];
        prop_assert_eq!(before.findings().len(), after.findings().len());
        prop_assert_eq!(before.todo().len(), after.todo().len());
    }

    #[test]
    fn every_plan_is_loaded_as_it_was_saved(Random(plan) in random_plan()) {
        let text = serde_json::to_string(&plan).unwrap();
        let loaded: Plan = serde_json::from_str(&text).unwrap();
        prop_assert_eq!(&loaded, &plan);
        prop_assert_eq!(&serde_json::to_string(&loaded).unwrap(), &text);
        prop_assert_eq!(loaded.clone().mended(), loaded, "edits leave nothing to mend");
    }

    #[test]
    fn every_plan_comes_to_the_same_each_time(Random(plan) in random_plan()) {
        let (one, other) = (Results::of(&plan, None), Results::of(&plan, None));
        prop_assert_eq!(answers(&one), answers(&other));
    }

    /// What stands in a field, typed again in the unit beside it, is the same to the figures shown.
    #[test]
    fn what_a_field_shows_can_be_typed_back(Random(plan) in random_plan()) {
        let results = Results::of(&plan, None);
        let is_typed_number = |field: &Field| {
            let entry = plan.entry(field).filter(|entry| !entry.is_unit_only());
            let view = entry.and_then(|entry| results.field(field, Some(entry)));
            view.is_some_and(|view| view.issue.is_none()) && field.input().is_some_and(|i| i.form == Form::Number)
        };
        let typed: Vec<_> = fields(&plan, &results).into_iter().filter(is_typed_number).collect();
        let mut again = plan.clone();
        for field in &typed {
            if let Some(view) = results.field(field, plan.entry(field)) {
                again.type_in(field, &view.text, Some(view.unit));
            }
        }
        let retyped = Results::of(&again, None);
        for field in &typed {
            let value = |results: &Results| results.datum(field).map(|(datum, _)| datum.value.si);
            let (Some(before), Some(after)) = (value(&results), value(&retyped)) else { continue };
            prop_assert!(
                (after - before).abs() <= 2e-5 * before.abs(),
                "{field:?}: {:?} was retyped as {:?}", plan.entry(field), again.entry(field)
            );
        }
    }

    #[test]
    fn a_number_written_out_in_any_unit_is_read_as_itself(
        at in 0..UNITS.len(), x in prop_oneof![-1e6..1e6f64, -1.0..1.0f64, (1..9999i32).prop_map(f64::from)],
    ) {
        let (unit, style) = (UNITS[at], Style::default());
        let si = unit.to_si(x);
        prop_assume!(si.is_finite());
        let text = format!("{} {}", style.literal(x), unit.symbol);
        let value = read(&text, unit, &style);
        let value = value.map_err(|unread| TestCaseError::fail(format!("{text}: {unread:?}")))?;
        prop_assert_eq!(value.unit.symbol, unit.symbol);
        prop_assert!((value.si - si).abs() <= 1e-12 * si.abs().max(unit.to_si(1.0).abs()), "{} is {}", text, value.si);
        prop_assert!((unit.from_si(si) - x).abs() <= 1e-9 * x.abs().max(1.0), "{text}");
    }

    #[test]
    fn more_liquid_heats_more_slowly(v in 1.0..5000.0f64, more in 1.01..3.0f64, power in 0.5..50.0f64) {
        let time = |litres: f64| {
            let inputs = [("V", number(litres, L)), ("T", "45 °C".into()), ("P", number(power, KW)), ("source", "electric or inline heater".into())];
            one("heat-up", &inputs, &[], "t_up", "")
        };
        if let (Some(slow), Some(fast)) = (time(v * more), time(v)) {
            prop_assert!(slow > fast, "{slow} s for the larger, {fast} s for the smaller");
        }
    }

    #[test]
    fn more_slope_needs_more_fall(slope in 0.01..2.0f64, more in 1.01..3.0f64) {
        let fall = |slope: f64| {
            let inputs = [("l", "12 m"), ("h_av", "450 mm"), ("D", "50 mm")].map(|(symbol, text)| (symbol, text.to_string()));
            one("drain", &[&inputs[..], &[("S", number(slope, INCH_PER_FOOT))]].concat(), &[], "need", "")
        };
        prop_assert!(fall(slope * more) > fall(slope));
        prop_assert!(fall(slope).is_some());
    }

    #[test]
    fn more_drag_out_makes_the_rinse_richer(drag in 0.01..100.0f64, more in 1.01..3.0f64, stages in 0..4usize) {
        let stages = ["one", "two in counterflow", "three in counterflow", "four in counterflow"][stages];
        let rinse = |drag: f64| {
            let inputs = [("N", "100 per day".into()), ("v_w", "2 L".into()), ("d_w", number(drag, ML)), ("stages", stages.into())];
            one("stream", &inputs, &[("c_in", "40 g/L")], "c_w", "Cu")
        };
        prop_assert!(rinse(drag * more) > rinse(drag));
        prop_assert!(rinse(drag).is_some());
    }

    /// Conservation of mass: what comes in with a wafer leaves with its water, or stays on it.
    #[test]
    fn a_rinse_sized_for_a_dilution_comes_to_it_and_loses_no_metal(
        drag in 0.01..100.0f64, times in 1.5..1e6f64, form in 0..6usize, sprays in 1..20u8, share in 1.0..100.0f64,
        tank in 1.0..200.0f64,
    ) {
        let words = ["one", "two in counterflow", "three in counterflow", "four in counterflow", "sprayed", "quick dumps"];
        let mut inputs = vec![("N", "100 per day".into()), ("d_w", number(drag, ML)), ("stages", words[form].into()), ("x_t", number(times, NUMBER))];
        match words[form] {
            "sprayed" => inputs.extend([("m_x", sprays.to_string()), ("η", number(share, PERCENT))]),
            "quick dumps" => inputs.extend([("V_q", number(tank, L)), ("n_l", "25".into())]),
            _ => (),
        }
        let answer = |symbol: &str, key: &str| one("rinse", &inputs, &[("c_in", "40 g/L")], symbol, key);
        // Refused only where it takes more dumps than are computed.
        let Some(reached) = answer("x", "") else { prop_assert_eq!(words[form], "quick dumps"); return Ok(()) };
        if words[form] == "quick dumps" {
            prop_assert!(reached >= times * (1.0 - 1e-6), "{reached} of {times}");
        } else {
            prop_assert!((reached / times - 1.0).abs() < 1e-9, "{reached} of {times}");
        }
        let [water, out, on] = [("v_w", ""), ("c_d", "Cu"), ("c_n", "Cu")].map(|(symbol, key)| answer(symbol, key).expect("an answer"));
        let (came, went) = (ML.to_si(drag) * G_PER_L_METAL.to_si(40.0), water * out + ML.to_si(drag) * on);
        prop_assert!((went / came - 1.0).abs() < 1e-9, "{came} in, {went} out");
    }

    #[test]
    fn a_longer_or_faster_spin_leaves_less(speed in 50.0..2000.0f64, seconds in 2.0..60.0f64, more in 1.01..3.0f64) {
        let left = |speed: f64, seconds: f64| {
            let inputs = [("D", "300 mm".into()), ("n_s", number(speed, PER_MINUTE)), ("t_s", number(seconds, SECOND)), ("μ", "2 mPa·s".into()), ("ρ", "1.2 kg/L".into())];
            one("drag-out", &inputs, &[], "d_w", "")
        };
        for longer_or_faster in [left(speed * more, seconds), left(speed, seconds * more)] {
            if let (Some(less), Some(now)) = (longer_or_faster, left(speed, seconds)) {
                prop_assert!(less < now, "{less} and {now}");
            }
        }
    }

    /// A file from elsewhere may hold any ids, names and links: it is made whole and evaluated.
    #[test]
    fn a_damaged_plan_is_made_whole(
        ids in prop::collection::vec((any_id(), 0..8usize, any_id(), any_id()), 0..12), next in any_id(),
    ) {
        let places: Vec<_> = ids
            .iter()
            .map(|(id, subject, from, to)| {
                let subject = [Subject::Site, Subject::Bath, Subject::Mixing, Subject::Stream, Subject::Route, Subject::Drain, Subject::Treated, Subject::Discharge][*subject];
                let sheets: serde_json::Map<_, _> = for_places_of(subject).map(|c| (c.id.into(), serde_json::json!({}))).collect();
                serde_json::json!({"id": id, "subject": subject, "name": "one", "from": from, "to": to, "sheets": sheets})
            })
            .collect();
        let file = serde_json::json!({"format": 1, "name": "x", "next": next, "places": places});
        let plan: Plan = serde_json::from_value(file).expect("a plan in form");
        let mut plan = plan.mended();
        prop_assert!(plan.site().is_some());
        for place in &plan.places {
            let before = std::iter::successors(place.from, |from| plan.place(*from)?.from);
            prop_assert!(before.take(20).count() < 20, "{} comes from itself", place.id);
        }
        // What is added after it gets ids of its own, also where the file's ids left no room.
        for _ in 0..3 {
            plan.add(Subject::Bath, "Another");
        }
        let mut seen = std::collections::HashSet::new();
        prop_assert!(plan.places.iter().all(|place| seen.insert(place.id)));
        let results = Results::of(&plan, None);
        prop_assert_eq!(results.outcomes.len(), results.network.cells.len());
    }
}

fn number(number: f64, unit: &Unit) -> String {
    format!("{} {}", Style::default().literal(number), unit.symbol)
}

/// One answer of one calculator by itself; `None` where it refuses.
fn one(
    id: &str,
    inputs: &[(&'static str, String)],
    copper: &[(&'static str, &str)],
    symbol: &str,
    key: &str,
) -> Option<f64> {
    let calculator = find(id).expect("a calculator");
    let mut plan = Plan::quick(id, "Random", calculator.subject);
    let place = plan.places.last().expect("a place").id;
    for (symbol, text) in inputs {
        plan.type_in(&Field::single(place, calculator.id, symbol), text, None);
    }
    for (symbol, text) in copper {
        plan.type_in(&Field::cell(place, calculator.id, "metals", "Cu", symbol), text, None);
    }
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(place, id)?;
    assert!(results.network.cells[cell].issues.is_empty(), "{:?}", results.network.cells[cell].issues);
    results.answer(cell, symbol, key).map(|(_, si)| si)
}

/// What was typed into a row that is named after a place stays with that place.
#[test]
fn a_row_named_after_a_place_is_renamed_with_it() {
    let mut plan = examples::plan("alder-row").expect("an example");
    let stream = plan.places.iter().find(|place| place.subject == Subject::Stream && place.to.is_some());
    let (id, name, to) = stream.map(|place| (place.id, place.name.clone(), place.to)).expect("a stream");
    let class = |name: &str| Field::cell(to.expect("a route"), "route", "streams", name, "class");
    plan.type_in(&class(&name), "acid", None);
    plan.rename(id, "Another name");
    assert!(plan.entry(&class(&name)).is_none());
    assert_eq!(plan.entry(&class("Another name")).map(|entry| entry.text.as_str()), Some("acid"));
    let text = serde_json::to_string(&plan).expect("a file");
    assert!(!text.contains(&format!("[\"{name}\"")), "no row of the old name is left");
}

/// The texts of every worked example are as a user would type them: they come through a plan the same.
#[test]
fn worked_examples_come_through_a_plan_as_they_are() {
    for calculator in bathbook::calculators::ALL {
        for Example { inputs, rows, .. } in calculator.examples {
            let mut plan = Plan::quick(calculator.id, "Example", calculator.subject);
            let place = plan.places.last().expect("a place").id;
            for (symbol, text) in *inputs {
                plan.type_in(&Field::single(place, calculator.id, symbol), text, None);
            }
            for (table, key, cells) in *rows {
                for (symbol, text) in *cells {
                    plan.type_in(&Field::cell(place, calculator.id, table, key, symbol), text, None);
                }
            }
            let results = Results::of(&plan, None);
            let cell = results.network.cell_at(place, calculator.id).expect("its sheet");
            let (issues, stop) = (&results.network.cells[cell].issues, results.stop(cell));
            assert!(issues.is_empty() && stop.is_none(), "{}: {issues:?} {stop:?}", calculator.id);
        }
    }
}

/// A bath that cannot be made up, and a stream that follows it: one stop for the bath, and none for what
/// only passes it on, whatever the bath is called.
#[test]
fn a_stop_is_told_once_and_not_hidden_by_a_name() {
    for name in
        ["Copper bath", "Bath X has no answer: y", "Make-up of Copper bath has no answer. Mend it there"]
    {
        let mut plan = Plan::new("Names");
        let bath = plan.add(Subject::Bath, name);
        let stream = plan.add(Subject::Stream, "Dump");
        plan.set_from(stream, Some(bath));
        plan.type_in(&Field::single(stream, "stream", "kind"), "bath dump", None);
        plan.type_in(&Field::single(bath, "make-up", "V_t"), "200 L", None);
        plan.type_in(&Field::single(bath, "make-up", "V_stay"), "5000 L", None);
        let results = Results::of(&plan, None);
        let stop = |place, id| {
            results
                .network
                .cell_at(place, id)
                .and_then(|cell| results.stop(cell))
                .cloned()
                .expect("a refusal")
        };
        let (own, passed) = (stop(bath, "make-up"), stop(stream, "stream"));
        assert!(
            !own.passed_on && passed.passed_on && passed.reason.contains(&own.reason),
            "{own:?} {passed:?}"
        );
        let cells: Vec<_> = results.findings().iter().map(|found| found.cell).collect();
        let of = |place, id| results.network.cell_at(place, id).is_some_and(|cell| cells.contains(&cell));
        assert!(of(bath, "make-up"), "{name}: the stop is not told");
        assert!(!of(stream, "stream"), "{name}: the stop is told twice");
    }
}
