//! What shows only when a calculator runs: over its examples, what is near them, and many inputs drawn
//! from its ranges. The draws are the same at each run.

use crate::declared::{inputs, is_sentence, outputs};
use bathbook::ask::solve;
use bathbook::calculator::{Calculator, Datum, Depth, Form, Given, Input, Outcome, Stop, Table, When};
use bathbook::calculators::{ALL, site};
use bathbook::network::Network;
use bathbook::units::Style;
use std::collections::BTreeSet;

const ROUNDS: usize = 600;
const MOST_ROUNDS: usize = 10 * ROUNDS;

/// Inputs that nothing reads, and why they are there all the same.
const UNREAD: &[(&str, &str, &str)] = &[
    ("site", "currency", "the plan’s style reads it"),
    ("site", "author", "the cover of the report reads it"),
];

/// Texts for text inputs: formulas, elements and ions, and what is none.
const TEXTS: &[&str] = &[
    "",
    "CuSO4·5H2O",
    "H2SO4",
    "Cu",
    "SO4",
    "x(",
    "KAu(CN)2",
    "Cl",
    "HNO3",
    "NaOH",
    "NiSO4·6H2O",
    "HCl",
    "HF",
    "H2O2",
    "Na2SO3",
    "AgNO3",
];

/// A source of choices that is the same at each run.
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        self.0 >> 33
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }

    /// A share in tenths: the ends of the range come up often.
    fn share(&mut self) -> f64 {
        self.below(11) as f64 / 10.0
    }

    fn one_in(&mut self, n: usize) -> bool {
        self.below(n) == 0
    }

    fn of<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.below(from.len()))
    }

    fn datum(&mut self, input: &Input, within: [f64; 2]) -> Datum {
        let mut datum = input.default_datum();
        match input.form {
            Form::Number if input.optional && self.one_in(3) => (),
            Form::Number => datum.value.si = input.unit.to_si(self.number(within)),
            Form::Choice(words) => datum.value.si = self.below(words.len()) as f64,
            Form::Text => datum.text = self.of(TEXTS).map(|text| (*text).into()),
        }
        datum
    }

    /// Even over the range, or over its powers of ten.
    fn number(&mut self, [low, high]: [f64; 2]) -> f64 {
        let share = self.share();
        if low > 0.0 && self.one_in(2) { low * (high / low).powf(share) } else { low + (high - low) * share }
    }

    fn row(&mut self, table: &Table, key: &str, within: impl Fn(&Input) -> [f64; 2]) -> Vec<Datum> {
        let mut row: Vec<Datum> =
            table.columns.iter().map(|input| self.datum(input, within(input))).collect();
        let preset = table.presets.iter().find(|(name, _)| *name == key);
        if let Some((_, cells)) = preset.filter(|_| !self.one_in(4)) {
            for (symbol, text) in *cells {
                let at = table.columns.iter().position(|input| input.symbol == *symbol);
                let read = at.and_then(|at| table.columns[at].read(text, &Style::default()).ok());
                if let (Some(at), Some(datum)) = (at, read) {
                    row[at] = datum;
                }
            }
        }
        row
    }

    /// Chooses the words of inputs under which a caution stands.
    fn heed(&mut self, calculator: &Calculator, given: &mut Given) {
        let Some(caution) = self.of(calculator.cautions) else { return };
        for when in caution.when {
            let When::Is(symbol, words) = when else { continue };
            let Some(port) = calculator.port(symbol) else { continue };
            let Some(input) = calculator.input_at(port) else { continue };
            let word = self.of(words).copied().unwrap_or_default();
            if let Ok(datum) = input.read(word, &Style::default()) {
                given[port.table].iter_mut().for_each(|row| row.1[port.column] = datum.clone());
            }
        }
    }

    /// Everything drawn anew.
    fn anywhere(&mut self, calculator: &Calculator, round: usize) -> Given {
        let within = |input: &Input| if round.is_multiple_of(2) { input.hard } else { input.usual };
        let mut given = calculator.defaults();
        for (t, table) in calculator.all_tables().enumerate() {
            if t > 0 && table.columns.is_empty() {
                continue;
            }
            let keys = self.keys(&table, if t == 0 { None } else { Some(round % 3) });
            given[t] = keys.iter().map(|key| ((*key).into(), self.row(&table, key, within))).collect();
        }
        given
    }

    fn keys(&mut self, table: &Table, rows: Option<usize>) -> Vec<&'static str> {
        let Some(rows) = rows else { return vec![""] };
        let names: &[&str] = if table.suggest.is_empty() { &["Cu", "Au", "Ni", "Ag"] } else { table.suggest };
        let drawn: BTreeSet<&str> = (0..rows).filter_map(|_| self.of(names).copied()).collect();
        drawn.into_iter().collect()
    }

    /// An example, or all at its default, with some of it drawn anew.
    fn near(&mut self, calculator: &Calculator, round: usize) -> Given {
        let examples: Vec<Given> =
            calculator.examples.iter().filter_map(|example| calculator.given(example).ok()).collect();
        let mut given = match self.one_in(3) {
            true => calculator.defaults(),
            false => self.of(&examples).cloned().unwrap_or_else(|| calculator.defaults()),
        };
        for (t, table) in calculator.all_tables().enumerate().skip(1) {
            if given[t].is_empty() && !table.columns.is_empty() && self.one_in(2) {
                let keys = self.keys(&table, Some(1 + round % 2));
                given[t] =
                    keys.iter().map(|key| ((*key).into(), self.row(&table, key, |i| i.usual))).collect();
            }
        }
        for _ in 0..self.below(4) {
            let t = self.below(given.len());
            let at = self.below(given[t].len());
            let columns = calculator.columns(t);
            let column = self.below(columns.len());
            if let Some(datum) = given[t].get_mut(at).and_then(|row| row.1.get_mut(column)) {
                let input = &columns[column];
                let within = if self.one_in(3) { input.hard } else { input.usual };
                *datum = self.datum(input, within);
            }
        }
        given
    }
}

/// What came up over all tries.
#[derive(Default)]
struct Seen {
    faults: BTreeSet<String>,
    answered: usize,
    cautions: BTreeSet<&'static str>,
    /// Why of limits that were broken, with their answer's symbol.
    limits: BTreeSet<(String, String)>,
    /// Optional answers that were given, and that were missing.
    given: BTreeSet<&'static str>,
    missing: BTreeSet<&'static str>,
    asked: BTreeSet<&'static str>,
    read: BTreeSet<&'static str>,
}

/// What is wrong when a calculator runs. What is rare is looked for longer.
pub fn faults(calculator: &'static Calculator) -> Vec<String> {
    let (mut draw, mut seen) = (Draw(1), Seen::default());
    let mut refusals = BTreeSet::new();
    for example in calculator.examples {
        match calculator.given(example) {
            Ok(given) => {
                try_one(calculator, &given, &mut seen);
                let answered = calculator.evaluate(&given, &Style::default(), Depth::Working);
                refusals.extend(answered.err().map(|stop| format!("no example answers: {}", stop.text())));
            }
            Err(why) => drop(seen.faults.insert(format!("example “{}”: {why}", example.source))),
        }
    }
    // While none answers, all else that could be said follows from that.
    if seen.answered == 0 && !calculator.examples.is_empty() {
        seen.faults.retain(|fault| !fault.starts_with("faulty: "));
        return seen.faults.into_iter().chain(refusals).collect();
    }
    let mut unreached = Vec::new();
    for round in 0..MOST_ROUNDS {
        let mut given =
            if round % 2 == 0 { draw.near(calculator, round) } else { draw.anywhere(calculator, round) };
        if draw.one_in(3) {
            draw.heed(calculator, &mut given);
        }
        try_one(calculator, &given, &mut seen);
        try_reads(calculator, &given, &mut draw, &mut seen);
        if round % ROUNDS == ROUNDS - 1 {
            aim(calculator, &mut draw, &mut seen);
            unreached = not_reached(calculator, &seen);
            if unreached.is_empty() {
                break;
            }
        }
    }
    let mut faults: Vec<String> = seen.faults.iter().take(12).cloned().collect();
    if seen.answered < ROUNDS / 20 {
        faults.push(format!("answers only {} times", seen.answered));
    }
    faults.extend(unreached);
    faults
}

/// What is declared and did not come up.
fn not_reached(calculator: &'static Calculator, seen: &Seen) -> Vec<String> {
    let mut faults = Vec::new();
    for caution in calculator.cautions.iter().filter(|caution| !seen.cautions.contains(caution.text)) {
        faults.push(format!("caution never reached: “{}”", caution.text));
    }
    for output in outputs(calculator) {
        let symbol = output.symbol;
        let of_it = || seen.limits.iter().filter(|(at, _)| at == symbol);
        for (_, _, why) in output.above.iter().chain(&output.below) {
            if !of_it().any(|(_, text)| text.ends_with(why)) {
                faults.push(format!("{symbol}: limit never reached: “{why}”"));
            }
        }
        if !output.cures.is_empty() && of_it().next().is_none() {
            faults.push(format!("{symbol}: has cures, and never a finding with a limit to cure"));
        }
        if output.missing.is_some() && !seen.given.contains(symbol) {
            faults.push(format!("{symbol}: may be missing, and always is"));
        }
        if output.missing.is_some() && !seen.missing.contains(symbol) {
            faults.push(format!("{symbol}: may be missing, and never is"));
        }
    }
    for input in inputs(calculator) {
        let symbol = input.symbol;
        let is_listed = UNREAD.iter().any(|(id, known, _)| (*id, *known) == (calculator.id, symbol));
        let is_read = seen.read.contains(symbol) || is_read_elsewhere(calculator, symbol);
        if !seen.asked.contains(symbol) {
            faults.push(format!("{symbol}: never asked for"));
        } else if !is_read && !is_listed {
            faults.push(format!("{symbol}: changes nothing, whatever is typed"));
        } else if is_read && is_listed {
            faults.push(format!("{symbol}: is read: strike it from the list of the unread"));
        }
    }
    faults
}

/// Solves for limits that the draws did not break: a little beyond them, by what would cure them.
fn aim(calculator: &'static Calculator, draw: &mut Draw, seen: &mut Seen) {
    for output in outputs(calculator) {
        let limits = [(output.above, 1.0), (output.below, -1.0)];
        for ((limit, _, why), sign) in limits.into_iter().filter_map(|(limit, sign)| Some((limit?, sign))) {
            for round in 0..30 {
                if seen.limits.iter().any(|(at, text)| at == output.symbol && text.ends_with(why)) {
                    break;
                }
                let network = Network::alone(calculator, draw.near(calculator, round));
                let cures = output.cures.iter().filter(|(id, _)| *id == calculator.id);
                let inputs = cures.filter_map(|(_, symbol)| network.spot_in(0, symbol));
                let target = output.unit.to_si(limit + sign * 1e-3 * limit.abs().max(1.0));
                for (input, answer) in inputs.zip(std::iter::repeat(network.spot_in(0, output.symbol))) {
                    let Some(answer) = answer else { continue };
                    let Ok(si) = solve(&network, &input, &answer, target) else { continue };
                    let mut there = network.clone();
                    there.set(&input, si);
                    try_one(calculator, &there.cells[0].given, seen);
                }
            }
        }
    }
}

/// Whether an input serves another sheet, the work order, or how a plan shows its numbers.
fn is_read_elsewhere(calculator: &Calculator, symbol: &str) -> bool {
    let is_style = calculator.id == site::CALCULATOR.id
        && site::words(Style::default()).iter().any(|(known, _)| *known == symbol);
    let order = calculator.work_order.iter();
    let is_signed = order.clone().any(|order| order.added == symbol || order.signed.contains(&symbol));
    let mut links = ALL.iter().flat_map(|other| inputs(other)).filter_map(|input| input.follows);
    is_style || is_signed || links.any(|follows| follows.from.contains(&(calculator.id, symbol)))
}

fn try_one(calculator: &'static Calculator, given: &Given, seen: &mut Seen) {
    let style = Style::default();
    let shown = calculator.evaluate(given, &style, Depth::Working);
    let plain = calculator.evaluate(given, &style, Depth::Answers);
    for (t, rows) in given.iter().enumerate() {
        for row in 0..rows.len() {
            let asked = calculator.columns(t).iter().filter(|input| calculator.asks(input, row, given));
            seen.asked.extend(asked.map(|input| input.symbol));
        }
    }
    match (shown, plain) {
        (Ok(shown), Ok(plain)) => {
            seen.answered += 1;
            if bits(&shown) != bits(&plain) {
                seen.faults.insert("answers otherwise with the working than without".into());
            }
            look(calculator, &shown, seen);
        }
        (Err(shown), Err(plain)) if shown == plain => seen.faults.extend(refused(calculator, &shown)),
        (shown, plain) => {
            let [shown, plain] = [shown, plain].map(|outcome| outcome.map(|_| "answers"));
            seen.faults.insert(format!("{shown:?} with the working, {plain:?} without"));
        }
    }
}

fn bits(outcome: &Outcome) -> Vec<u64> {
    let rows = outcome.answers.iter().flatten();
    rows.flat_map(|(_, row)| row.iter().map(|si| si.to_bits())).collect()
}

/// What is wrong with a refusal.
fn refused(calculator: &Calculator, stop: &Stop) -> Option<String> {
    let Some(symbol) = stop.at else { return Some(format!("faulty: {}", stop.reason)) };
    // It is led to, so it must be something that can be typed or chosen.
    if calculator.port(symbol).and_then(|port| calculator.input_at(port)).is_none() {
        return Some(format!("refuses at {symbol}, which is no declared input: “{}”", stop.text()));
    }
    let is_shown_well = is_sentence(&stop.reason) && is_sentence(&stop.remedy) && is_sentence(&stop.text());
    (!is_shown_well).then(|| format!("refuses in no sentence: “{}”", stop.text()))
}

/// Notes what came up in an outcome, and what is wrong with its texts.
fn look(calculator: &'static Calculator, outcome: &Outcome, seen: &mut Seen) {
    seen.cautions.extend(&outcome.cautions);
    for finding in &outcome.findings {
        if !is_sentence(&finding.text) {
            seen.faults.insert(format!("finds in no sentence: “{}”", finding.text));
        }
        let symbol = finding.at.split('[').next().unwrap_or_default();
        if !symbol.is_empty() && calculator.port(symbol).is_none() {
            seen.faults.insert(format!("finds something at {symbol}, which is not declared"));
        }
        if finding.limit.is_some() {
            seen.limits.insert((symbol.into(), finding.text.clone()));
        }
    }
    for step in &outcome.order {
        if step.text.contains("..") || step.text.contains("  ") || step.text.trim().is_empty() {
            seen.faults.insert(format!("work order: “{}”", step.text));
        }
    }
    for (output, si, _) in calculator.answered(outcome).filter(|(output, ..)| output.missing.is_some()) {
        let which = if si.is_finite() { &mut seen.given } else { &mut seen.missing };
        which.insert(output.symbol);
    }
}

/// Changes one input at a time, of those not yet seen to matter, and looks whether anything changes.
fn try_reads(calculator: &'static Calculator, given: &Given, draw: &mut Draw, seen: &mut Seen) {
    let before = told(calculator, given);
    for (t, rows) in given.iter().enumerate() {
        for row in 0..rows.len() {
            for (column, input) in calculator.columns(t).iter().enumerate() {
                let is_settled =
                    seen.read.contains(input.symbol) || is_read_elsewhere(calculator, input.symbol);
                if is_settled || !calculator.asks(input, row, given) {
                    continue;
                }
                let mut other = given.clone();
                other[t][row].1[column] = draw.datum(input, input.usual);
                if told(calculator, &other) != before {
                    seen.read.insert(input.symbol);
                }
            }
        }
    }
}

/// All that a sheet says, but for remarks that an input is unusual: those need no `work` to read it.
fn told(calculator: &Calculator, given: &Given) -> String {
    let mut outcome = calculator.evaluate(given, &Style::default(), Depth::Working);
    if let Ok(outcome) = &mut outcome {
        outcome.findings.retain(|finding| !finding.text.contains(" is unusual; "));
    }
    format!("{outcome:?}")
}
