//! What a declaration follows, and what would cure its findings.

use crate::declared::{inputs, outputs};
use bathbook::calculator::{Calculator, Form, Input, Over, Port, Source, Subject};
use bathbook::calculators::{ALL, find};

/// What is wrong with declared links and cures. A link points at a known symbol of the same kind and the
/// same choices, in a calculator declared before this one (or in itself, at the place that this one comes
/// from) that stands at a place from which it can be reached; a column at a column or an answer of rows,
/// or at whatever is there to be had of each place, or, in a table of its own, of the one that this one comes from. A cure is a number or a word that can be typed or
/// chosen, here or upstream.
pub fn faults(calculator: &Calculator) -> Vec<String> {
    let mut faults = Vec::new();
    for (t, table) in calculator.all_tables().enumerate() {
        for input in table.columns {
            let Some(follows) = input.follows else { continue };
            if follows.from.is_empty() {
                faults.push(format!("{} follows nothing", input.symbol));
            }
            for from in follows.from {
                let why = link(calculator, t, input, follows.over, from);
                faults.extend(why.err().map(|why| format!("{} follows {from:?}: {why}", input.symbol)));
            }
        }
    }
    let upstream = upstream(calculator);
    for output in outputs(calculator) {
        for cure in output.cures {
            let why = match found(cure) {
                _ if !upstream.contains(&cure.0) => Some("that is not upstream"),
                None => Some("no such symbol"),
                Some((there, port)) => match there.input_at(port) {
                    None => Some("that is an answer"),
                    Some(input) if input.form == Form::Text => Some("that is a text"),
                    Some(input) if input.only_followed => Some("that is never typed"),
                    Some(_) => None,
                },
            };
            faults.extend(why.map(|why| format!("{} is cured by {cure:?}: {why}", output.symbol)));
        }
    }
    faults
}

fn link(
    calculator: &Calculator,
    table: usize,
    input: &Input,
    over: Over,
    from: &Source,
) -> Result<(), &'static str> {
    let place = |id: &str| ALL.iter().position(|calculator| calculator.id == id);
    let (there, port) = found(from).ok_or("no such symbol")?;
    let is_text = |input: &Input| input.form == Form::Text;
    if is_text(input) || there.input_at(port).is_some_and(is_text) {
        return Err("a text is not passed on");
    }
    if place(there.id) > place(calculator.id) {
        return Err("that is declared later");
    }
    if there.id == calculator.id && over != Over::Origin {
        return Err("that is itself");
    }
    if !can_reach(over, calculator.subject, there.subject) {
        return Err("no place of that sort can be reached so");
    }
    if there.unit(port).kind != input.unit.kind {
        return Err("another kind of quantity");
    }
    let theirs: Vec<&str> = match (there.input_at(port), there.output_at(port)) {
        (Some(input), _) => input.words().iter().map(|(word, _)| *word).collect(),
        (_, Some(output)) => output.words.to_vec(),
        _ => Vec::new(),
    };
    if !input.words().iter().map(|(word, _)| *word).eq(theirs.iter().copied()) {
        return Err("other words");
    }
    // A table of one column that takes no other rows has one for the place that this one comes from.
    let own =
        calculator.all_tables().nth(table).is_some_and(|own| own.columns.len() == 1 && own.add.is_none());
    if table > 0 && !over.is_each() && port.table == 0 && !(over == Over::Origin && own) {
        return Err("rows and single values are mixed up");
    }
    Ok(())
}

fn found((id, symbol): &Source) -> Option<(&'static Calculator, Port)> {
    let calculator = find(id)?;
    Some((calculator, calculator.port(symbol)?))
}

/// Whether a place of sort `here` can take a value so from one of sort `there`.
fn can_reach(over: Over, here: Subject, there: Subject) -> bool {
    match over {
        Over::Here => here == there,
        Over::Origin => here.sort().comes_from.contains(&there),
        Over::Site => there == Subject::Site && here != Subject::Site,
        // Directly, or by others of its sort.
        Over::EachFromHere => there.sort().comes_from.contains(&here),
        // Every place leads to the site.
        Over::Sum | Over::Largest | Over::Each => {
            there.sort().leads_to.contains(&here) || (here == Subject::Site && there != Subject::Site)
        }
    }
}

/// The ids of a calculator and of all that it draws on.
fn upstream(calculator: &Calculator) -> Vec<&'static str> {
    let follows = |calculator: &Calculator| -> Vec<&'static str> {
        let links = inputs(calculator).filter_map(|input| input.follows);
        links.flat_map(|follows| follows.from).map(|(id, _)| *id).collect()
    };
    let (mut ids, mut next) = (vec![calculator.id], 1);
    ids.extend(follows(calculator));
    while let Some(id) = ids.get(next).copied() {
        let more = find(id).map(follows).unwrap_or_default();
        more.into_iter().for_each(|id| {
            if !ids.contains(&id) {
                ids.push(id)
            }
        });
        next += 1;
    }
    ids
}
