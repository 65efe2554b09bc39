//! What a declaration can be held to without running it.

use bathbook::calculator::{Calculator, Form, Input, Output, Over, Port, Role, Subject, When};
use bathbook::units::{Kind, Style};
use std::collections::HashSet;

/// More than this is no check of an example: a fault of a percent in a constant would pass.
const WIDEST: f64 = 0.02;

pub fn inputs(calculator: &Calculator) -> impl Iterator<Item = &'static Input> {
    calculator.all_tables().flat_map(|table| table.columns)
}

pub fn outputs(calculator: &Calculator) -> impl Iterator<Item = &'static Output> {
    calculator.all_tables().flat_map(|table| table.answers)
}

/// Ids and titles that two calculators share.
pub fn twins(all: &[&Calculator]) -> Vec<String> {
    let mut seen = HashSet::new();
    let mut names = all.iter().flat_map(|calculator| [("id", calculator.id), ("title", calculator.title)]);
    let twice: Vec<_> = names.by_ref().filter(|name| !seen.insert(*name)).collect();
    twice.into_iter().map(|(what, name)| format!("{what} “{name}” twice")).collect()
}

/// What is wrong with a declaration.
pub fn faults(calculator: &Calculator) -> Vec<String> {
    let mut faults = Vec::new();
    let mut must = |holds: bool, fault: String| {
        if !holds {
            faults.push(fault);
        }
    };
    let id = calculator.id;
    must(
        !id.is_empty() && id.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
        format!("the id “{id}” cannot stand in an address"),
    );
    must(is_label(calculator.title), format!("the title “{}” is not in sentence case", calculator.title));
    must(calculator.question.ends_with('?'), format!("“{}” is no question", calculator.question));
    must(!calculator.outputs.is_empty(), "no answers".into());
    must(
        !calculator.sources.is_empty() && calculator.sources.iter().all(|source| is_source(source)),
        "no source".into(),
    );
    must(!calculator.examples.is_empty(), "no example".into());
    for example in calculator.examples {
        let name = example.source;
        must(is_source(name), "an example without a source".into());
        must(!example.answers.is_empty(), format!("example “{name}” has no answers"));
        must(
            (0.0..=WIDEST).contains(&example.within),
            format!("example “{name}” is held to {} only", example.within),
        );
    }

    let mut symbols = HashSet::new();
    for input in inputs(calculator) {
        let (symbol, [low, high], [from, to]) = (input.symbol, input.hard, input.usual);
        must(symbols.insert(symbol), format!("symbol {symbol} twice"));
        must(!symbol.contains(['[', ']']), format!("{symbol}: brackets are for rows"));
        must(is_label(input.label), format!("{symbol}: the label “{}” is not in sentence case", input.label));
        must(input.help.ends_with('.'), format!("{symbol}: help “{}” is no sentence", input.help));
        must(
            input.when.is_none_or(|when| is_known(calculator, when)),
            format!("{symbol}: a condition that is not there"),
        );
        if let Form::Choice(words) = input.form {
            let starts = words.iter().enumerate().any(|(at, _)| at as f64 == input.default);
            must(starts || input.optional, format!("{symbol}: starts at none of its words"));
            let names: HashSet<_> = words.iter().map(|(word, _)| *word).collect();
            must(names.len() == words.len(), format!("{symbol}: a word twice"));
        }
        if input.form == Form::Number {
            must(low <= from && from < to && to <= high, format!("{symbol}: ranges"));
            must(
                input.optional || !input.default.is_nan(),
                format!("{symbol}: is neither usually so, nor needed, nor optional"),
            );
            must(
                input.default.is_nan() || (from..=to).contains(&input.default),
                format!("{symbol}: its usual value is not usual"),
            );
            must(
                input.picks.iter().all(|(_, number)| (low..=high).contains(number)),
                format!("{symbol}: a pick out of range"),
            );
        }
    }
    for input in calculator.tables.iter().flat_map(|table| table.columns) {
        let is_sum = input.follows.is_some_and(|follows| follows.over == Over::Sum);
        must(
            !is_sum || input.default == 0.0,
            format!("{}: a row that nobody mentions has none of it", input.symbol),
        );
    }
    for output in outputs(calculator) {
        let symbol = output.symbol;
        must(symbols.insert(symbol), format!("symbol {symbol} twice"));
        must(
            is_label(output.label),
            format!("{symbol}: the label “{}” is not in sentence case", output.label),
        );
        must(
            output.missing.is_none_or(|missing| is_reason(&missing.text())),
            format!("{symbol}: may be missing, and does not say what it needs"),
        );
        for (_, _, why) in output.above.iter().chain(&output.below) {
            must(is_sentence(why), format!("{symbol}: the limit’s “{why}” is no sentence"));
        }
    }
    for caution in calculator.cautions {
        must(is_sentence(caution.text), format!("caution “{}” is no sentence", caution.text));
        must(
            caution.when.iter().all(|when| is_known(calculator, *when)),
            format!("caution “{}”: a condition that is not there", caution.text),
        );
        let tables: HashSet<usize> =
            caution.when.iter().filter_map(|when| table_of(calculator, when)).collect();
        must(
            tables.len() < 2,
            format!("caution “{}”: rows of two tables are never one and the same row", caution.text),
        );
    }
    let mut roles = HashSet::new();
    for (port, role) in calculator.roles() {
        let name = calculator.label(port);
        must(roles.insert(std::mem::discriminant(&role)), format!("{name}: role {role:?} twice"));
        must(fits(calculator, port, role), format!("{name}: cannot be {role:?}"));
    }
    if let Some(picture) = calculator.picture {
        let across = calculator.port(picture.across).and_then(|port| calculator.input_at(port));
        must(across.is_some_and(|input| input.form == Form::Number), "picture: across".into());
        must(calculator.outputs.iter().any(|output| output.symbol == picture.up), "picture: up".into());
    }
    for table in calculator.tables {
        for (name, cells) in table.presets {
            must(table.suggest.contains(name), format!("preset {name} is not offered"));
            for (symbol, text) in *cells {
                let input = table.columns.iter().find(|input| input.symbol == *symbol);
                let read = input.map(|input| input.read(text, &Style::default()));
                must(read.is_some_and(|read| read.is_ok()), format!("preset {name}: {symbol} “{text}”"));
            }
        }
    }
    for recipe in calculator.recipes {
        let name = recipe.name;
        let reads = |columns: &[Input], (symbol, text): &(&str, &str)| {
            let input = columns.iter().find(|input| input.symbol == *symbol);
            input.is_some_and(|input| input.read(text, &Style::default()).is_ok())
        };
        let is_marked = ["common practice", "from memory"].iter().any(|mark| recipe.source.contains(mark));
        must(is_marked, format!("recipe {name}: “{}” is no mark of where it comes from", recipe.source));
        let table = calculator.tables.iter().find(|table| table.id == recipe.table);
        must(table.is_some(), format!("recipe {name}: no table {}", recipe.table));
        let columns = table.map_or(&[][..], |table| table.columns);
        must(
            recipe.inputs.iter().all(|cell| reads(calculator.inputs, cell)),
            format!("recipe {name}: inputs"),
        );
        for (key, cells) in recipe.rows {
            must(cells.iter().all(|cell| reads(columns, cell)), format!("recipe {name}: {key}"));
            must(
                recipe.ranges.iter().any(|(of, ..)| of == key),
                format!("recipe {name}: {key} has no range"),
            );
        }
        for (key, symbol, [low, high]) in recipe.ranges {
            let cell = recipe.rows.iter().find(|(known, _)| known == key);
            let text = cell.and_then(|(_, cells)| cells.iter().find(|(known, _)| known == symbol));
            let input = columns.iter().find(|input| input.symbol == *symbol);
            let number = text.zip(input).and_then(|((_, text), input)| {
                Some(input.unit.from_si(input.read(text, &Style::default()).ok()?.value.si))
            });
            must(
                number.is_some_and(|number| (*low..=*high).contains(&number)),
                format!("recipe {name}: {key} is outside of its range"),
            );
        }
    }
    if let Some(order) = calculator.work_order {
        let table = calculator.tables.iter().find(|table| table.id == order.table);
        let has = |symbol: &str| table.is_some_and(|t| t.columns.iter().any(|c| c.symbol == symbol));
        must(has(order.added) && order.signed.iter().all(|symbol| has(symbol)), "work order: columns".into());
    }
    faults
}

/// Whether what is at a port can have a role.
fn fits(calculator: &Calculator, port: Port, role: Role) -> bool {
    let (kind, words) = (calculator.unit(port).kind, words(calculator, port));
    let is_number = words.is_empty();
    match role {
        Role::Volume => is_number && port.table == 0 && kind == Kind::Volume,
        Role::Flow => is_number && port.table == 0 && kind == Kind::Flow,
        Role::Concentration => is_number && port.table > 0 && kind == Kind::MetalConcentration,
        Role::Load => is_number && port.table > 0 && kind == Kind::MetalFlow,
        Role::Class | Role::Suggested => !is_number && port.table == 0,
        Role::OwnWater(own) => {
            port.table == 0 && !own.is_empty() && own.iter().all(|word| words.contains(word))
        }
    }
}

/// The words of a choice or a verdict; none of a number.
fn words(calculator: &Calculator, port: Port) -> Vec<&'static str> {
    let chosen = calculator.input_at(port).map(|i| i.words().iter().map(|(word, _)| *word).collect());
    chosen.or(calculator.output_at(port).map(|o| o.words.to_vec())).unwrap_or_default()
}

/// The roles that the line map asks for, of sorts of places whose sheets give none of them. A bath without
/// a class or a route without one shows none; a stream shows all that there is.
pub fn roles_not_given(all: &[&Calculator]) -> Vec<String> {
    let own = Role::OwnWater(&[]);
    let wanted = [
        (Subject::Bath, vec![Role::Volume, Role::Concentration]),
        (
            Subject::Stream,
            vec![Role::Flow, Role::Class, own, Role::Suggested, Role::Concentration, Role::Load],
        ),
        (Subject::Route, vec![Role::Flow, Role::Load]),
        (Subject::Treated, vec![Role::Flow, Role::Class, Role::Concentration, Role::Load]),
        (Subject::Discharge, vec![Role::Flow, Role::Load]),
    ];
    let gives = |subject: Subject, role: &Role| {
        let sheets = all.iter().filter(|calculator| calculator.subject == subject);
        let mut roles = sheets.flat_map(|calculator| calculator.roles());
        roles.any(|(_, known)| std::mem::discriminant(&known) == std::mem::discriminant(role))
    };
    let pairs = wanted.iter().flat_map(|(subject, roles)| roles.iter().map(move |role| (*subject, role)));
    let missing = pairs.filter(|(subject, role)| !gives(*subject, role));
    missing.map(|(subject, role)| format!("no sheet of a {subject:?} gives {role:?}")).collect()
}

/// Whether a text is one or more sentences, as it is to be shown.
pub fn is_sentence(text: &str) -> bool {
    let starts = text.chars().next().is_some_and(|c| !c.is_whitespace());
    starts && bathbook::sentence::sentence(text) == text && !text.contains("..") && !text.contains("  ")
}

/// Whether a label or a title reads as one: a capital first, and none within a word but in symbols, formulas
/// and names such as pH and CuSO4.
fn is_label(text: &str) -> bool {
    let is_mixed = |word: &str| {
        let lower = word.chars().filter(char::is_ascii_lowercase).count();
        lower > 3 && word.chars().skip(1).any(|c| c.is_ascii_uppercase())
    };
    let words = || text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let is_capital = bathbook::sentence::sentence(text) == format!("{text}.");
    !text.is_empty() && is_capital && !text.contains("  ") && !words().any(is_mixed)
}

/// Whether a text can stand in place of an answer: words, and no sentence.
fn is_reason(text: &str) -> bool {
    text.trim() == text && !text.ends_with("needs") && !text.ends_with('.') && text.contains(' ')
}

/// Whether a text can name where something comes from: a word at the least.
fn is_source(text: &str) -> bool {
    text.chars().filter(|c| c.is_alphabetic()).count() > 5 && text.trim() == text && !text.contains("  ")
}

/// The table in which a condition's symbol stands; `None` of single inputs and answers.
fn table_of(calculator: &Calculator, when: &When) -> Option<usize> {
    let (When::Is(symbol, _) | When::Not(symbol, _) | When::Above(symbol, _)) = *when;
    calculator.port(symbol).map(|port| port.table).filter(|table| *table > 0)
}

/// Whether a condition names a symbol, and words that can be chosen there.
fn is_known(calculator: &Calculator, when: When) -> bool {
    let words = |symbol| calculator.port(symbol).map(|port| words(calculator, port));
    match when {
        When::Is(symbol, wanted) | When::Not(symbol, wanted) => {
            !wanted.is_empty()
                && words(symbol).is_some_and(|known| wanted.iter().all(|word| known.contains(word)))
        }
        When::Above(symbol, _) => calculator.port(symbol).is_some(),
    }
}
