//! Whether the links that a calculator declares are sound.

use crate::calculator::{Calculator, Over, Source};
use crate::calculators::{ALL, find};

/// Whether a calculator's declared links point at known symbols of the same kind and the same
/// choices, in calculators declared before it or (at an earlier place) in itself; columns at columns
/// or answers of rows, except rows for each place. Its cures likewise.
pub fn links_backwards(calculator: &Calculator) -> Result<(), String> {
    let place = |id: &str| ALL.iter().position(|c| c.id == id);
    let known = |(id, symbol): &Source| {
        let source = find(id).filter(|_| place(id) <= place(calculator.id))?;
        Some((source, source.port(symbol)?))
    };
    for (t, table) in calculator.all_tables().enumerate() {
        for input in table.columns {
            let Some(follows) = input.follows else { continue };
            for from in follows.from {
                let wrong =
                    |why: &str| Err(format!("{} {} follows {from:?}: {why}", calculator.id, input.symbol));
                let Some((source, port)) = known(from) else { return wrong("unknown or later") };
                if source.unit(port).kind != input.unit.kind {
                    return wrong("another kind");
                }
                let theirs: Vec<&str> = match (source.input_at(port), source.output_at(port)) {
                    (Some(input), _) => input.words().iter().map(|(word, _)| *word).collect(),
                    (_, Some(output)) => output.words.to_vec(),
                    _ => Vec::new(),
                };
                if !input.words().iter().map(|(word, _)| *word).eq(theirs.iter().copied()) {
                    return wrong("other words");
                }
                if t > 0 && (follows.over == Over::Each) == (port.table > 0) {
                    return wrong("rows and single values are mixed up");
                }
            }
        }
        for output in table.answers {
            if let Some(cure) = output.cures.iter().find(|cure| known(cure).is_none()) {
                return Err(format!("{} {}: no cure {cure:?}", calculator.id, output.symbol));
            }
        }
    }
    Ok(())
}
