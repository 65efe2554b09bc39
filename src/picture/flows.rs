//! What leaves the baths and by which way, read from the sheets' answers: for the line map and for the
//! tables beside it, so that both say the same.
//!
//! It names no calculator and no symbol: it asks for the roles that inputs and answers are declared with.

use crate::calculator::{Key, Port, Role, Subject};
use crate::plan::{Id, Plan};
use crate::results::{Marks, Results};
use crate::units::Unit;

/// A number in SI, and the unit that it is declared in.
pub type Amount = (f64, &'static Unit);

/// The sheet to go to.
pub type Sheet = (Id, &'static str);

/// One metal in what flows.
#[derive(Clone, Debug, PartialEq)]
pub struct Metal {
    /// Its symbol.
    pub key: Key,
    /// Mass per volume.
    pub concentration: Option<Amount>,
    /// Mass per time.
    pub load: Option<Amount>,
}

/// One stream, route, treated stream or discharge.
#[derive(Clone, Debug, PartialEq)]
pub struct Flow {
    /// The place.
    pub place: Id,
    /// Its name.
    pub name: String,
    /// The sheet that says most: the one with the worst to look at, else the first.
    pub sheet: Option<Sheet>,
    /// The place that it comes from.
    pub from: Option<Id>,
    /// The place that it leads to.
    pub to: Option<Id>,
    /// Whether its water is its own: only metal comes from the place before it.
    pub has_own_water: bool,
    /// Its class, in the words of its sheet.
    pub class: Option<&'static str>,
    /// Volume per time.
    pub volume: Option<Amount>,
    /// The metals in it.
    pub metals: Vec<Metal>,
    /// The route suggested for it, in the words of its sheet.
    pub suggested: Option<&'static str>,
}

/// The cells at a place, in the order of evaluation.
pub fn cells_at(results: &Results, place: Id) -> impl Iterator<Item = usize> {
    let cells = results.network.cells.iter().enumerate();
    cells.filter(move |(_, cell)| cell.place == place).map(|(at, _)| at)
}

/// How much there is to look at at a place.
pub fn marks_at(results: &Results, place: Id) -> Marks {
    cells_at(results, place).fold(Marks::default(), |sum, cell| sum.plus(results.marks(cell)))
}

/// The sheet of a place that says most: the one with the worst to look at, else the first.
pub fn sheet_at(results: &Results, place: Id) -> Option<Sheet> {
    let badness = |cell: &usize| {
        let marks = results.marks(*cell);
        (marks.stops > 0, marks.cautions + marks.fields > 0, marks.todo)
    };
    // `max_by_key` gives the last of equals, so the order is turned round.
    let cells: Vec<_> = cells_at(results, place).collect();
    let worst = cells.into_iter().rev().max_by_key(badness)?;
    Some((place, results.calculator(worst)?.id))
}

/// The number at a port, of a row or of the single inputs and answers.
fn number(results: &Results, cell: usize, port: Port, key: &str) -> Option<Amount> {
    let found = results.network.cells.get(cell)?;
    let si = if port.answer {
        let rows = results.outcome(cell)?.answers.get(port.table)?;
        *rows.iter().find(|(known, _)| **known == *key)?.1.get(port.column)?
    } else {
        let input = found.calculator.input_at(port)?;
        let at = found.given.get(port.table)?.iter().position(|(known, _)| **known == *key)?;
        if !found.calculator.asks(input, at, &found.given) {
            return None;
        }
        found.given[port.table][at].1.get(port.column)?.value.si
    };
    si.is_finite().then(|| (si, found.calculator.unit(port)))
}

/// The port that has a role in the calculator of a cell.
fn port(results: &Results, cell: usize, role: Role) -> Option<Port> {
    results.calculator(cell)?.roles().find(|(_, known)| *known == role).map(|(port, _)| port)
}

/// The single number of a role at a place.
pub fn amount_at(results: &Results, place: Id, role: Role) -> Option<Amount> {
    cells_at(results, place).find_map(|cell| number(results, cell, port(results, cell, role)?, ""))
}

/// The metals at a place.
pub fn metals_at(results: &Results, place: Id) -> Vec<Metal> {
    let mut found: Vec<Metal> = Vec::new();
    for cell in cells_at(results, place) {
        let ports = [Role::Concentration, Role::Load].map(|role| port(results, cell, role));
        let Some(table) = ports.iter().flatten().map(|port| port.table).next() else { continue };
        for key in results.rows(cell, table) {
            let [concentration, load] = ports.map(|port| number(results, cell, port?, &key));
            if concentration.or(load).is_some() && !found.iter().any(|metal| metal.key == key) {
                found.push(Metal { key, concentration, load });
            }
        }
    }
    found
}

/// The word at a port.
fn word(results: &Results, cell: usize, port: Port) -> Option<&'static str> {
    let calculator = results.calculator(cell)?;
    let (si, _) = number(results, cell, port, "")?;
    match (calculator.input_at(port), calculator.output_at(port)) {
        (Some(input), _) => input.word(si),
        (_, Some(output)) => output.words.get(si as usize).copied(),
        _ => None,
    }
}

/// The word of a role at a place.
fn word_at(results: &Results, place: Id, role: Role) -> Option<&'static str> {
    cells_at(results, place).find_map(|cell| word(results, cell, port(results, cell, role)?))
}

/// Whether the water of a stream is its own.
fn has_own_water(results: &Results, place: Id) -> bool {
    cells_at(results, place).any(|cell| {
        let mut roles = results.calculator(cell).into_iter().flat_map(|calculator| calculator.roles());
        roles.any(|(port, role)| match role {
            Role::OwnWater(words) => word(results, cell, port).is_some_and(|word| words.contains(&word)),
            _ => false,
        })
    })
}

/// Every place of a sort that flows, in the order in which they were made: streams, or treated streams.
pub fn flowing(plan: &Plan, results: &Results, subject: Subject) -> Vec<Flow> {
    let places = plan.places.iter().filter(|place| place.subject == subject);
    let flow = places.map(|place| Flow {
        place: place.id,
        name: place.name.clone(),
        sheet: sheet_at(results, place.id),
        from: place.from,
        to: place.to,
        has_own_water: has_own_water(results, place.id),
        class: word_at(results, place.id, Role::Class),
        volume: amount_at(results, place.id, Role::Flow),
        metals: metals_at(results, place.id),
        suggested: word_at(results, place.id, Role::Suggested),
    });
    flow.collect()
}

/// Every place of a sort that gathers others, routes or discharges, with what it carries: the totals of its
/// own sheet, else those of what leads there.
pub fn gathering(plan: &Plan, results: &Results, subject: Subject, flowing: &[Flow]) -> Vec<Flow> {
    let places = plan.places.iter().filter(|place| place.subject == subject);
    let flow = places.map(|place| {
        let feeding: Vec<_> = flowing.iter().filter(|flow| flow.to == Some(place.id)).collect();
        let own = metals_at(results, place.id);
        let metals = if own.iter().any(|metal| metal.load.is_some()) { own } else { added_up(&feeding) };
        Flow {
            place: place.id,
            name: place.name.clone(),
            sheet: sheet_at(results, place.id),
            from: place.from,
            to: place.to,
            has_own_water: false,
            class: word_at(results, place.id, Role::Class),
            volume: amount_at(results, place.id, Role::Flow)
                .or_else(|| sum(feeding.iter().filter_map(|flow| flow.volume))),
            metals,
            suggested: None,
        }
    });
    flow.collect()
}

/// The sum of amounts; `None` of none.
pub fn sum(amounts: impl Iterator<Item = Amount>) -> Option<Amount> {
    amounts.reduce(|(sum, unit), (next, _)| (sum + next, unit))
}

/// The metals of several streams together; a concentration of several is not given.
fn added_up(streams: &[&Flow]) -> Vec<Metal> {
    let mut total: Vec<Metal> = Vec::new();
    for metal in streams.iter().flat_map(|stream| &stream.metals) {
        match total.iter_mut().find(|known| known.key == metal.key) {
            Some(known) => known.load = sum(known.load.into_iter().chain(metal.load)),
            None => total.push(Metal { concentration: None, ..metal.clone() }),
        }
    }
    total.retain(|metal| metal.load.is_some());
    total
}

/// The metals that any of these carries, in the order in which they are met.
pub fn metals_of(flows: &[Flow]) -> Vec<Key> {
    let mut keys: Vec<Key> = Vec::new();
    for metal in flows.iter().flat_map(|flow| &flow.metals) {
        if !keys.contains(&metal.key) {
            keys.push(metal.key.clone());
        }
    }
    keys
}

/// An amount in the unit in which it reads best. "of metal" is left out where the metal is named.
pub fn text(results: &Results, (si, unit): Amount) -> String {
    let text = results.style().answer(si, unit);
    text.strip_suffix(" of metal").map(str::to_string).unwrap_or(text)
}
