//! The tests that every calculator gets by being declared.

use bathbook::ask::self_check;
use bathbook::calculator::{Calculator, Datum, Depth, Form, Input, Output, Over, When};
use bathbook::calculators::ALL;
use bathbook::network::links_backwards;
use bathbook::units::Style;
use std::collections::HashSet;

fn inputs(calculator: &Calculator) -> impl Iterator<Item = &'static Input> {
    calculator.all_tables().flat_map(|table| table.columns)
}

fn outputs(calculator: &Calculator) -> impl Iterator<Item = &'static Output> {
    calculator.all_tables().flat_map(|table| table.answers)
}

#[test]
fn published_examples_hold() {
    let wrong: Vec<_> = ALL.iter().flat_map(|calculator| self_check(calculator)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn declarations_are_complete() {
    let mut ids = HashSet::new();
    for calculator in ALL {
        let id = calculator.id;
        assert!(ids.insert(id), "{id} twice");
        assert!(!calculator.sources.is_empty() && !calculator.examples.is_empty(), "{id}: sources, examples");
        assert!(
            calculator.question.ends_with('?') && !calculator.outputs.is_empty(),
            "{id}: question, answers"
        );
        assert!(calculator.examples.iter().all(|example| !example.source.is_empty()), "{id}: example source");
        let mut symbols = HashSet::new();
        for input in inputs(calculator) {
            let (symbol, [low, high], [from, to]) = (input.symbol, input.hard, input.usual);
            assert!(symbols.insert(symbol), "{id} {symbol} twice");
            assert!(!symbol.contains(['[', ']']), "{id} {symbol}: brackets are for rows");
            assert!(
                input.help.ends_with('.') && !input.label.is_empty(),
                "{id} {symbol}: help “{}”",
                input.help
            );
            if input.form == Form::Number {
                assert!(low <= from && from < to && to <= high, "{id} {symbol}: ranges");
                assert!(input.optional || (from..=to).contains(&input.default), "{id} {symbol}: default");
                assert!(
                    input.picks.iter().all(|(_, number)| (low..=high).contains(number)),
                    "{id} {symbol}: picks"
                );
            }
            let condition = input.when.iter();
            assert!(condition.copied().all(|when| known(calculator, when)), "{id} {symbol}: condition");
        }
        let columns = calculator.tables.iter().flat_map(|table| table.columns);
        let sums = columns.filter(|input| input.follows.is_some_and(|f| f.over == Over::Sum));
        for input in sums {
            assert!(input.default == 0.0, "{id} {}: a row that nobody mentions has none of it", input.symbol);
        }
        for output in outputs(calculator) {
            assert!(symbols.insert(output.symbol) && !output.label.is_empty(), "{id} {}", output.symbol);
        }
        let mut conditions = calculator.cautions.iter().flat_map(|caution| caution.when);
        assert!(conditions.all(|when| known(calculator, *when)), "{id}: caution");
        if let Some(picture) = calculator.picture {
            let across = calculator.port(picture.across).and_then(|port| calculator.input_at(port));
            assert!(across.is_some_and(|input| input.form == Form::Number), "{id}: picture across");
            assert!(calculator.outputs.iter().any(|output| output.symbol == picture.up), "{id}: picture up");
        }
        for table in calculator.tables {
            for (name, cells) in table.presets {
                assert!(table.suggest.contains(name), "{id} {name}: a preset that is not offered");
                for (symbol, text) in *cells {
                    let input = table.columns.iter().find(|input| input.symbol == *symbol);
                    let read = input.map(|input| input.read(text, &Style::default()));
                    assert!(read.is_some_and(|read| read.is_ok()), "{id} {name} {symbol}: “{text}”");
                }
            }
        }
        if let Some(order) = calculator.work_order {
            let table = calculator.tables.iter().find(|table| table.id == order.table);
            let has = |symbol: &str| table.is_some_and(|t| t.columns.iter().any(|c| c.symbol == symbol));
            assert!(has(order.added) && order.signed.iter().all(|symbol| has(symbol)), "{id}: work order");
        }
    }
}

/// Whether a condition names a symbol, and words that can be chosen there.
fn known(calculator: &Calculator, when: When) -> bool {
    let words = |symbol| -> Option<Vec<&str>> {
        let port = calculator.port(symbol)?;
        let input = calculator.input_at(port).map(|i| i.words().iter().map(|(word, _)| *word).collect());
        input.or(calculator.output_at(port).map(|o| o.words.to_vec()))
    };
    match when {
        When::Is(symbol, wanted) | When::Not(symbol, wanted) => {
            words(symbol).is_some_and(|known| wanted.iter().all(|word| known.contains(word)))
        }
        When::Above(symbol, _) => calculator.port(symbol).is_some(),
    }
}

/// `lib.rs` lists the modules in the order that data flows; a use may only point up that list.
#[test]
fn modules_use_only_those_before_them() {
    let lib = std::fs::read_to_string("src/lib.rs").unwrap();
    let modules: Vec<_> =
        lib.lines().filter_map(|l| l.strip_prefix("pub mod ")).map(|l| l.trim_end_matches(';')).collect();
    assert!(modules.len() > 8, "{modules:?}");
    for (k, module) in modules.iter().enumerate() {
        for (path, text) in sources(module) {
            for later in &modules[k + 1..] {
                assert!(!text.contains(&format!("crate::{later}::")), "{path} uses {later}");
            }
        }
    }
}

/// Nothing outside `ui`, `keep` and the canvas painter touches the browser.
#[test]
fn the_browser_stays_at_the_edge() {
    for module in
        ["units", "quantity", "science", "calculator", "calculators", "plan", "network", "ask", "results"]
    {
        for (path, text) in sources(module) {
            for edge in ["web_sys", "js_sys", "wasm_bindgen", "leptos", "gloo"] {
                assert!(!text.contains(edge), "{path} uses {edge}");
            }
        }
    }
}

/// The files of a module, with their texts.
fn sources(module: &str) -> Vec<(String, String)> {
    fn walk(folder: &std::path::Path, found: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|e| e == "rs") {
                found.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let mut found = Vec::new();
    let file = format!("src/{module}.rs");
    if let Ok(text) = std::fs::read_to_string(&file) {
        found.push((file, text));
    }
    walk(&std::path::Path::new("src").join(module), &mut found);
    found
}

#[test]
fn links_reach_only_backwards() {
    for calculator in ALL {
        assert_eq!(links_backwards(calculator), Ok(()));
    }
}

/// Any values within the declared ranges give an answer or a remedy, never a fault; and the answer
/// with the working is the answer without it, to the last bit.
#[test]
fn ranges_hold_what_they_promise() {
    let mut state = 1u64;
    let mut share = || {
        state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        ((state >> 60).min(10)) as f64 / 10.0 // the ends of the range come up often
    };
    let style = Style::default();
    for calculator in ALL {
        let mut answered = 0;
        for round in 0..600 {
            let mut given = calculator.defaults();
            let mut draw = |input: &Input| -> Datum {
                let [low, high] = if round % 2 == 0 { input.hard } else { input.usual };
                let (mut datum, number) = (input.default_datum(), low + (high - low) * share());
                match input.form {
                    Form::Number if input.optional && share() < 0.4 => (),
                    Form::Number => datum.value.si = input.unit.to_si(number),
                    Form::Choice(_) => datum.value.si = number.round(),
                    Form::Text => {
                        let texts = ["", "CuSO4·5H2O", "H2SO4", "Cu", "SO4", "x(", "KAu(CN)2", "Cl"];
                        datum.text = Some(texts[(share() * 7.0) as usize].into());
                    }
                }
                datum
            };
            for (t, table) in calculator.all_tables().enumerate() {
                let keys = if t == 0 { &[""] } else { &["Cu", "Au"][..round % 3] };
                let row = |key: &&str| ((*key).into(), table.columns.iter().map(&mut draw).collect());
                given[t] = keys.iter().filter(|_| !table.columns.is_empty() || t == 0).map(row).collect();
            }
            let shown = calculator.evaluate(&given, &style, Depth::Working);
            let plain = calculator.evaluate(&given, &style, Depth::Answers);
            match (shown, plain) {
                (Ok(shown), Ok(plain)) => {
                    let bits = |o: &bathbook::calculator::Outcome| -> Vec<u64> {
                        o.answers
                            .iter()
                            .flatten()
                            .flat_map(|(_, row)| row.iter().map(|si| si.to_bits()))
                            .collect()
                    };
                    assert_eq!(bits(&shown), bits(&plain), "{}", calculator.id);
                    answered += 1;
                }
                (shown, plain) => {
                    let stop = shown.expect_err("refused without the working and not with it");
                    assert_eq!(Some(&stop), plain.as_ref().err());
                    assert!(stop.at.is_some(), "{}: {stop:?} at {given:#?}", calculator.id);
                    assert!(
                        !stop.reason.is_empty() && !stop.remedy.is_empty(),
                        "{}: {stop:?}",
                        calculator.id
                    );
                }
            }
        }
        assert!(answered >= 25, "{} answers only {answered} of 600", calculator.id);
    }
}
