//! A calculator's own examples, run.

use crate::calculator::{Calculator, Depth, Example};
use crate::network::Network;
use crate::units::{CELSIUS, Kind, Style, Unit, read};

/// Runs a calculator's own examples; gives what went wrong. Also offered to the user in the app.
pub fn self_check(calculator: &'static Calculator) -> Vec<String> {
    calculator.examples.iter().filter_map(|example| check(calculator, example).err()).collect()
}

fn check(calculator: &'static Calculator, example: &Example) -> Result<(), String> {
    let wrong = |reason: String| format!("{}: {reason}", calculator.id);
    let given = calculator.given(example).map_err(wrong)?;
    let mut network = Network::alone(calculator, given.clone());
    for (symbol, text) in example.answers {
        let spot = network.spot_in(0, symbol).ok_or_else(|| wrong(format!("no {symbol}")))?;
        let output = network.output(&spot);
        let word = output.and_then(|output| output.words.iter().position(|word| word == text));
        let expected = match word {
            Some(position) => position as f64,
            None => {
                read(text, network.unit(&spot), &Style::default())
                    .map_err(|u| wrong(format!("{symbol}: {u:?}")))?
                    .si
            }
        };
        let answer = network.value(&spot).map_err(|stop| wrong(stop.text()))?;
        if (answer - expected).abs() > example.within * size(expected, network.unit(&spot)) {
            return Err(wrong(format!("{symbol}: {answer} is not {expected}")));
        }
    }
    let traced = calculator.evaluate(&given, &Style::default(), Depth::Working);
    traced.map(drop).map_err(|stop| wrong(stop.text()))
}

/// What a relative deviation is relative to. Of a temperature that is its degrees above or below 0 °C, one at
/// the least: against kelvins, a percent would be three degrees.
fn size(expected: f64, unit: &Unit) -> f64 {
    match unit.kind {
        Kind::Temperature => CELSIUS.from_si(expected).abs().max(1.0),
        _ => expected.abs().max(1e-12),
    }
}
