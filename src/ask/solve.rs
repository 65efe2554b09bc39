//! Backwards: the input that gives a wanted answer, and what cures a finding.

use super::sweep::points;
use crate::calculator::{Finding, Form, Input, Severity, Source, Stop};
use crate::calculators::find;
use crate::network::{Network, Origin, Spot};
use crate::plan::{Field, Id};
use crate::sentence::within;
use crate::units::Value;

/// The input value at which `answer` becomes `target` (both SI); of several, the nearest to now.
///
/// The declared hard range is searched, so no starting guess is needed; the parts of it where the
/// calculator refuses are passed over. Works across links.
pub fn solve(network: &Network, input: &Spot, answer: &Spot, target: f64) -> Result<f64, Stop> {
    let (mut network, declared) = (network.clone(), network.input(input));
    let declared = declared.filter(|input| input.form == Form::Number);
    let declared = declared.ok_or_else(|| Stop::fault("only a number can be solved for"))?;
    let now = network.value(input).unwrap_or(declared.default_datum().value.si);
    let mut off = |x: f64| {
        network.set(input, x);
        network.value(answer).ok().map(|y| y - target)
    };
    // The usual range closer than the rest: beyond it a sheet may refuse, and then nothing is found between.
    let over = |range: [f64; 2], n| points(range.map(|end| declared.unit.to_si(end)), n);
    let mut xs = over(declared.hard, 80);
    xs.extend(over(declared.usual, 40));
    crate::order::sort(&mut xs, f64::total_cmp);
    let ys: Vec<_> = xs.iter().map(|&x| off(x)).collect();
    let mut roots = Vec::new();
    for k in 0..xs.len() {
        let Some(y0) = ys[k] else { continue };
        if y0 == 0.0 {
            roots.push(xs[k]);
        }
        let Some(y1) = ys.get(k + 1).copied().flatten().filter(|y1| y0 * y1 < 0.0) else { continue };
        let (mut a, mut b) = (xs[k], xs[k + 1]);
        for _ in 0..60 {
            let middle = 0.5 * (a + b);
            let Some(y) = off(middle) else { break };
            if y * y0 > 0.0 { a = middle } else { b = middle }
        }
        // A pole or a jump changes sign too, but does not come close to the target.
        let step = (y0 - y1).abs();
        roots.extend(off(b).filter(|y| y.abs() < 1e-6 * step).map(|_| b));
    }
    let nearest = roots.into_iter().min_by(|a, b| (a - now).abs().total_cmp(&(b - now).abs()));
    nearest.ok_or_else(|| {
        let reason = format!("no {} in its range gives that", within(declared.label));
        let remedy = "Change another input, or aim for a value nearer to the present one.";
        Stop::at(declared.symbol, reason, remedy)
    })
}

/// What would cure a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// Where to act.
    pub place: Id,
    /// What the place is called.
    pub name: String,
    /// On which sheet.
    pub calculator: &'static str,
    /// On which input: `c`, or `c[Cu]`.
    pub symbol: String,
    /// What that input is called.
    pub label: &'static str,
    /// What to type there: three digits, rounded to the safe side; or the word to choose.
    pub text: String,
    /// What must be said with it.
    pub remark: &'static str,
}

impl Cure {
    /// The field to type into.
    pub fn field(&self) -> Option<Field> {
        let (symbol, key) = self.symbol.split_once('[').unwrap_or((&self.symbol, ""));
        let calculator = find(self.calculator)?;
        let port = calculator.port(symbol)?;
        let (table, symbol) = (calculator.table(port.table).id, calculator.input_at(port)?.symbol);
        Some(Field::cell(self.place, calculator.id, table, key.trim_end_matches(']'), symbol))
    }

    /// Whether it is a word to choose.
    pub fn is_choice(&self) -> bool {
        let field = self.field();
        field.and_then(|field| field.input()).is_some_and(|input| !input.words().is_empty())
    }

    /// What to do, as it is said at a place: "Copper bath: Cu, wanted 50.0 g/L".
    pub fn said(&self, here: Id) -> String {
        let whose = if self.place == here { String::new() } else { format!("{}: ", self.name) };
        let row = self.symbol.split_once('[').map(|(_, key)| key.trim_end_matches(']'));
        let of_row = row.map(|key| format!("{key}, ")).unwrap_or_default();
        let remark = if self.remark.is_empty() { String::new() } else { format!(" ({})", self.remark) };
        let colon = if self.is_choice() { ":" } else { "" };
        format!("{whose}{of_row}{}{colon} {}{remark}", within(self.label), self.text)
    }
}

/// Whether a value that would cure something calls for a caution of its own at that input, such as a
/// slope below the code's least.
fn is_beyond(network: &Network, spot: &Spot, symbol: &str, si: f64) -> bool {
    let mut network = network.clone();
    network.set(spot, si);
    let outcome = network.run(None).swap_remove(spot.cell);
    let warns = |finding: &Finding| finding.severity >= Severity::Caution && finding.at == symbol;
    outcome.is_ok_and(|outcome| outcome.findings.iter().any(warns))
}

/// Whether a value is one that its input usually has: no drag-out of a thousandth of a millilitre cures.
fn is_usual(network: &Network, spot: &Spot, si: f64) -> bool {
    let within = |input: &Input| input.is_within(input.usual, &Value { si, unit: input.unit });
    network.input(spot).is_none_or(within)
}

/// Whether an input follows one that is itself a cure, or an answer that has such: there it is cured for all
/// that follow it, while a value typed over the link would part the sheets of one bath.
fn is_passed_on(network: &Network, spot: &Spot, cures: &[Source]) -> bool {
    let cell = &network.cells[spot.cell];
    let row =
        cell.given[spot.port.table].iter().position(|(key, _)| spot.key.as_ref().is_none_or(|k| k == key));
    let origin = row.and_then(|row| cell.origins[spot.port.table].get(row)?.get(spot.port.column));
    if origin != Some(&Origin::Linked) {
        return false;
    }
    let links = cell.links.iter().filter(|link| link.to == spot.port);
    links.flat_map(|link| &link.from).any(|from| {
        let calculator = network.cells[from.cell].calculator;
        match (network.input(from), network.output(from)) {
            (Some(input), _) => cures.contains(&(calculator.id, input.symbol)),
            (None, Some(answer)) => answer.cures.iter().any(|cure| cures.contains(cure)),
            (None, None) => false,
        }
    })
}

/// The first word of a choice with which a finding of a cell is gone, or is less bad.
fn word_for(network: &Network, spot: &Spot, cell: usize, finding: &Finding) -> Option<&'static str> {
    let words = network.input(spot)?.words();
    let is_cured = |at: &usize| {
        let mut network = network.clone();
        network.set(spot, *at as f64);
        let outcome = network.run(None).swap_remove(cell);
        let is_as_bad = |other: &Finding| other.at == finding.at && other.severity >= finding.severity;
        outcome.is_ok_and(|outcome| !outcome.findings.iter().any(is_as_bad))
    };
    (0..words.len()).find(is_cured).map(|at| words[at].0)
}

/// What would cure a finding of a cell: of the inputs that its answer's declaration names, here and
/// at the places that this one draws on, each that alone can do it. The nearest places come first.
pub fn cures(network: &Network, cell: usize, finding: &Finding) -> Vec<Cure> {
    let (mut network, mut found) = (network.clone(), Vec::new());
    let (Some(limit), Some(answer)) = (finding.limit, network.spot_in(cell, &finding.at)) else {
        return found;
    };
    let Some(output) = network.output(&answer) else { return found };
    _ = network.value(&answer); // brings the rows that links bring
    for at in network.upstream(cell) {
        let (place, calculator) = (network.cells[at].place, network.cells[at].calculator);
        for (_, symbol) in output.cures.iter().filter(|(id, _)| *id == calculator.id) {
            for (symbol, spot) in network.spots_in(at, symbol) {
                let hidden = network.input(&spot).is_none_or(|input| {
                    let row = network.cells[at].given[spot.port.table]
                        .iter()
                        .position(|(key, _)| spot.key.as_ref() == Some(key))
                        .unwrap_or(0);
                    !calculator.asks(input, row, &network.cells[at].given)
                });
                if hidden || is_passed_on(&network, &spot, output.cures) {
                    continue;
                }
                let is_choice = network.input(&spot).is_some_and(|input| !input.words().is_empty());
                let text = if is_choice {
                    let Some(word) = word_for(&network, &spot, cell, finding) else { continue };
                    word.to_string()
                } else {
                    let Ok(si) = solve(&network, &spot, &answer, limit) else { continue };
                    if !is_usual(&network, &spot, si) || is_beyond(&network, &spot, &symbol, si) {
                        continue;
                    }
                    let more = network.value(&spot).is_ok_and(|now| si > now);
                    let unit = network.style.best(si, network.unit(&spot));
                    network.style.show_beyond(si, unit, more)
                };
                let (name, label) = (network.cells[at].name.to_string(), calculator.label(spot.port));
                let remark = network.input(&spot).map_or("", |input| input.as_cure);
                found.push(Cure { place, name, calculator: calculator.id, symbol, label, text, remark });
            }
        }
    }
    // What has a remark comes last, in the order of the declaration: more water is the very last.
    let declared = |cure: &Cure| {
        let symbol = cure.symbol.split('[').next().unwrap_or_default();
        output.cures.iter().position(|(id, known)| *id == cure.calculator && *known == symbol)
    };
    crate::order::sort_by_key(&mut found, |cure| if cure.remark.is_empty() { None } else { declared(cure) });
    found
}
