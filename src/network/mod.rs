//! The plan resolved into numbers: one cell per sheet, in the order of declaration.
//!
//! A link reaches only backwards, so one pass from front to back evaluates everything. The network
//! is also what `ask` works on: it may be changed and run thousands of times without touching text.
//!
//! `fill` fetches linked values.

mod fill;

use crate::calculator::{
    Calculator, Datum, Depth, Follows, Given, Input, Key, Outcome, Output, Over, Port, Source, Stop, Subject,
};
use crate::calculators::ALL;
use crate::plan::{Entry, Id, Place, Plan, Sheet};
use crate::units::{Style, Unit, Unread};
use std::sync::Arc;

/// One calculator at one place, with its values.
#[derive(Clone)]
pub struct Cell {
    /// Where.
    pub place: Id,
    /// What the place is called; unique in a plan.
    pub name: Key,
    /// What.
    pub calculator: &'static Calculator,
    /// What was typed there.
    pub sheet: Arc<Sheet>,
    /// With which values; linked ones are filled in by [`Network::run`].
    pub given: Given,
    /// Where each value came from: by table, row and column. Rows that links bring come after.
    pub origins: Vec<Vec<Vec<Origin>>>,
    /// What inputs and columns follow, or would follow if nobody had typed.
    pub links: Arc<[Link]>,
    /// Entries that cannot be read; what stands in their place is used.
    pub issues: Vec<Issue>,
    /// Why the sheet cannot be evaluated whatever is typed: two rows of one name, a late source.
    pub broken: Option<Stop>,
}

/// An entry that cannot be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Issue {
    /// Which input.
    pub at: Port,
    /// In which row; empty for single inputs.
    pub key: String,
    /// What is wrong.
    pub unread: Unread,
    /// What stands instead: the last good text, or words for a link or a default.
    pub stands: String,
}

/// A declared link, resolved: none, one or several spots.
#[derive(Clone)]
pub struct Link {
    /// The input or column that follows.
    pub to: Port,
    /// Its declaration.
    pub input: &'static Input,
    /// From where it follows.
    pub over: Over,
    /// What it follows.
    pub from: Vec<Spot>,
}

/// Where the value of an input came from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    /// Nobody typed anything.
    Default,
    /// The user typed it.
    Typed,
    /// It follows its links.
    Linked,
    /// The user typed it over its links, which are still there to return to.
    Overtyped,
}

/// One number of one cell; or, of a table's symbol without a key, the numbers of all rows.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Which cell of [`Network::cells`].
    pub cell: usize,
    /// Which of its symbols.
    pub port: Port,
    /// Which row.
    pub key: Option<Key>,
}

/// What one cell came to. An outcome is shared by the evaluations in which nothing of it changed.
pub type Answered = Result<Arc<Outcome>, Stop>;

/// All cells of a plan.
#[derive(Clone, Default)]
pub struct Network {
    /// In the order of evaluation.
    pub cells: Vec<Arc<Cell>>,
    /// How numbers are read and shown.
    pub style: Style,
    /// The places that it was resolved from.
    places: Arc<[Place]>,
}

impl Network {
    /// Resolves a plan.
    pub fn of(plan: &Plan) -> Network {
        Network::default().after_edit(plan)
    }

    /// The same where this is the plan before an edit, as it was resolved: between the same places, a sheet on
    /// which nothing was typed since is the very same cell.
    pub fn after_edit(&self, plan: &Plan) -> Network {
        let style = plan.style();
        let is_linked_as_before = style == self.style && is_linked_alike(&plan.places, &self.places);
        let mut network = Network { cells: Vec::new(), style, places: plan.places.as_slice().into() };
        let order = in_order_of_flow(plan);
        for calculator in ALL {
            for place in order.iter().filter(|place| place.subject == calculator.subject) {
                let Some(sheet) = place.sheets.get(calculator.id) else { continue };
                let before = self.cells.get(network.cells.len()).filter(|_| is_linked_as_before);
                let cell = match before.filter(|cell| cell.sheet == *sheet) {
                    Some(same) => Arc::clone(same),
                    None => Arc::new(network.cell(plan, place, calculator, sheet)),
                };
                network.cells.push(cell);
            }
        }
        network
    }

    fn cell(&self, plan: &Plan, place: &Place, calculator: &'static Calculator, sheet: &Arc<Sheet>) -> Cell {
        let mut cell = Cell {
            place: place.id,
            name: place.name.as_str().into(),
            calculator,
            sheet: Arc::clone(sheet),
            given: Vec::new(),
            origins: Vec::new(),
            links: Arc::default(),
            issues: Vec::new(),
            broken: None,
        };
        let mut links = Vec::new();
        for (table, declared) in calculator.all_tables().enumerate() {
            let single = (table == 0).then_some(("", &sheet.entries));
            let rows = if table == 0 { None } else { sheet.rows.get(declared.id) };
            let rows = rows.into_iter().flatten().map(|(key, entries)| (key.as_str(), entries));
            let typed = single.into_iter().chain(rows);
            let mut linked = vec![false; declared.columns.len()];
            for (column, input) in declared.columns.iter().enumerate() {
                let Some(follows) = &input.follows else { continue };
                let from = self.sources(plan, place, follows).unwrap_or_else(|mut stop| {
                    stop.at = Some(input.symbol);
                    cell.broken = Some(stop);
                    Vec::new()
                });
                linked[column] = !from.is_empty();
                let to = Port { table, column, answer: false };
                links.push(Link { to, input, over: follows.over, from });
            }
            let (mut rows, mut from): (Vec<(Key, Vec<Datum>)>, _) = (Vec::new(), Vec::new());
            for (key, entries) in typed {
                let (mut data, mut origins) = (Vec::new(), Vec::new());
                for (column, (input, &linked)) in declared.columns.iter().zip(&linked).enumerate() {
                    let at = Port { table, column, answer: false };
                    let (datum, origin, issue) = self.read(at, key, input, entries.get(input.symbol), linked);
                    data.push(datum);
                    origins.push(origin);
                    cell.issues.extend(issue);
                }
                if rows.iter().any(|(known, _)| **known == *key) {
                    let name = declared.columns.first().map_or("", |column| column.symbol);
                    let stop = Stop::at(name, format!("two rows are called {key}"), "Rename one of them.");
                    cell.broken = Some(stop.row(key));
                }
                rows.push((key.into(), data));
                from.push(origins);
            }
            cell.given.push(rows);
            cell.origins.push(from);
        }
        cell.links = links.into();
        cell
    }

    /// An entry's value: what was typed, or what stands where that cannot be read.
    fn read(
        &self,
        at: Port,
        key: &str,
        input: &'static Input,
        entry: Option<&Entry>,
        linked: bool,
    ) -> (Datum, Origin, Option<Issue>) {
        let untouched = if linked { Origin::Linked } else { Origin::Default };
        let typed = if linked { Origin::Overtyped } else { Origin::Typed };
        let typed_in = entry.filter(|entry| !entry.is_unit_only());
        let Some(entry) = typed_in else { return (input.default_datum(), untouched, None) };
        let unread = match input.read(&entry.text, &self.style) {
            Ok(datum) => return (datum, typed, None),
            Err(unread) => unread,
        };
        let last = entry.stands.as_ref().and_then(|text| Some((text, input.read(text, &self.style).ok()?)));
        let (datum, origin, stands) = match last {
            Some((text, datum)) => (datum, typed, format!("The last good value, {text}, still stands.")),
            None if linked => (input.default_datum(), untouched, "The linked value still stands.".into()),
            None if input.optional => (input.default_datum(), untouched, "It counts as left out.".into()),
            None => {
                let datum = input.default_datum();
                let shown = match input.word(datum.value.si) {
                    Some(word) => word.to_string(),
                    None => self.style.show(datum.value.si, datum.value.unit),
                };
                (datum, untouched, format!("The usual value, {shown}, stands."))
            }
        };
        (datum, origin, Some(Issue { at, key: key.into(), unread, stands }))
    }

    /// The spots that a declared link reaches from a place.
    fn sources(&self, plan: &Plan, here: &Place, link: &Follows) -> Result<Vec<Spot>, Stop> {
        let all = |place: Id| {
            let spots = link.from.iter().filter_map(move |(id, symbol)| self.spot(place, id, symbol));
            spots.collect::<Vec<_>>()
        };
        let first =
            |place: Option<Id>| place.map(all).unwrap_or_default().into_iter().take(1).collect::<Vec<_>>();
        match link.over {
            Over::Here => Ok(first(Some(here.id))),
            Over::Site => Ok(first(plan.site().map(|site| site.id))),
            Over::Origin => {
                let origin = here.from.and_then(|from| plan.place(from));
                match origin.filter(|place| !link.from.iter().all(|from| self.is_known(place, *from))) {
                    Some(late) => Err(Stop::at(
                        "",
                        format!("{} comes from this, and this from it", late.name),
                        "Choose another place that this comes from.",
                    )),
                    None => Ok(first(here.from)),
                }
            }
            Over::EachFromHere => {
                let drawing = plan.places.iter().filter(|place| plan.comes_from(place, here.id));
                Ok(drawing.flat_map(|place| all(place.id)).collect())
            }
            Over::Sum | Over::Largest | Over::Each => {
                let feeding = plan.places.iter().filter(|place| place.is_feeding(here));
                let (before, after): (Vec<_>, Vec<_>) =
                    feeding.partition(|place| link.from.iter().all(|from| self.is_known(place, *from)));
                match after.first() {
                    None => Ok(before.into_iter().flat_map(|place| all(place.id)).collect()),
                    Some(late) => {
                        let reason = format!("{} leads here but is worked out later", late.name);
                        Err(Stop::at("", reason, format!("Lead {} to another place.", late.name)))
                    }
                }
            }
        }
    }

    /// Whether a sheet that a link may want has been resolved already, or does not exist.
    fn is_known(&self, place: &Place, (id, symbol): Source) -> bool {
        !place.sheets.contains_key(id) || self.spot(place.id, id, symbol).is_some()
    }

    /// The cell of a calculator at a place.
    pub fn cell_at(&self, place: Id, calculator: &str) -> Option<usize> {
        self.cells.iter().position(|cell| cell.place == place && cell.calculator.id == calculator)
    }

    /// The spot of a symbol (`c`, or `c[Cu]` for one row of a table) in a calculator at a place.
    pub fn spot(&self, place: Id, calculator: &str, symbol: &str) -> Option<Spot> {
        self.spot_in(self.cell_at(place, calculator)?, symbol)
    }

    /// The same in a cell.
    pub fn spot_in(&self, cell: usize, symbol: &str) -> Option<Spot> {
        let (symbol, key) = match symbol.strip_suffix(']').and_then(|s| s.split_once('[')) {
            Some((symbol, key)) => (symbol, Some(key.into())),
            None => (symbol, None),
        };
        Some(Spot { cell, port: self.cells.get(cell)?.calculator.port(symbol)?, key })
    }

    /// The spots of a symbol in a cell, one for each row if it is in a table, and what to call them.
    pub fn spots_in(&self, cell: usize, symbol: &str) -> Vec<(String, Spot)> {
        let Some(found) = self.cells.get(cell) else { return Vec::new() };
        let Some(port) = found.calculator.port(symbol) else { return Vec::new() };
        let name = |key: &Key| if port.table == 0 { symbol.into() } else { format!("{symbol}[{key}]") };
        let rows = found.given[port.table].iter();
        rows.map(|(key, _)| (name(key), Spot { cell, port, key: Some(key.clone()) })).collect()
    }

    /// One calculator by itself, without a plan.
    pub fn alone(calculator: &'static Calculator, given: Given) -> Network {
        let cell = Cell {
            place: 0,
            name: "".into(),
            calculator,
            origins: vec![Vec::new(); given.len()],
            given,
            sheet: Arc::default(),
            links: Arc::default(),
            issues: Vec::new(),
            broken: None,
        };
        Network { cells: vec![Arc::new(cell)], ..Network::default() }
    }

    /// The declared answer at a spot; `None` if an input is there.
    pub fn output(&self, spot: &Spot) -> Option<&'static Output> {
        self.cells.get(spot.cell)?.calculator.output_at(spot.port)
    }

    /// The declared unit at a spot.
    pub fn unit(&self, spot: &Spot) -> &'static Unit {
        self.cells.get(spot.cell).map_or(crate::units::NUMBER, |cell| cell.calculator.unit(spot.port))
    }

    /// The declared input at a spot; `None` if an answer is there.
    pub fn input(&self, spot: &Spot) -> Option<&'static Input> {
        self.cells.get(spot.cell)?.calculator.input_at(spot.port)
    }

    /// The cells that this one draws on, itself included, nearest first.
    pub fn upstream(&self, cell: usize) -> Vec<usize> {
        let mut found = vec![cell];
        let mut next = 0;
        while let Some(&at) = found.get(next) {
            for spot in self.cells[at].sources() {
                if !found.contains(&spot.cell) {
                    found.push(spot.cell);
                }
            }
            next += 1;
        }
        found
    }

    /// The links that draw directly on a cell: which cell, and what follows there.
    pub fn downstream(&self, cell: usize) -> impl Iterator<Item = (usize, &Link)> {
        let cells = self.cells.iter().enumerate();
        cells
            .flat_map(|(at, other)| other.links.iter().map(move |link| (at, link)))
            .filter(move |(at, link)| *at != cell && link.from.iter().any(|spot| spot.cell == cell))
    }

    /// Puts an SI value at an input, in place of whatever it had or followed.
    pub fn set(&mut self, spot: &Spot, si: f64) {
        let Port { table, column, answer: false } = spot.port else { return };
        let Some(cell) = self.cells.get_mut(spot.cell).map(Arc::make_mut) else { return };
        let at = cell.given[table].iter().position(|(key, _)| spot.key.as_ref().is_none_or(|k| k == key));
        let Some(at) = at else { return };
        let row = &mut cell.given[table][at].1;
        row[column].value.si = si;
        let (origins, columns) = (&mut cell.origins[table], row.len());
        origins.resize(origins.len().max(at + 1), vec![Origin::Linked; columns]);
        origins[at][column] = Origin::Typed;
    }

    /// Evaluates every cell; the working only of the one that is open.
    pub fn run(&mut self, open: Option<usize>) -> Vec<Answered> {
        self.run_after(open, &Ran::default())
    }

    /// The same after a run of the plan as it was before an edit: a sheet that is given the very same comes to
    /// the same, and its outcome is taken over. Where neither it nor what it follows has changed, it is as it was.
    pub fn run_after(&mut self, open: Option<usize>, last: &Ran) -> Vec<Answered> {
        let mut outcomes: Vec<Answered> = Vec::with_capacity(self.cells.len());
        let mut has_changed = Vec::with_capacity(self.cells.len());
        for at in 0..self.cells.len() {
            let depth = depth_of(at, open);
            let is_as_deep = depth == depth_of(at, last.open) && last.style == Some(self.style);
            let then = last.cells.get(at).zip(last.outcomes.get(at));
            let is_resolved = last.resolved.get(at).is_some_and(|cell| Arc::ptr_eq(cell, &self.cells[at]));
            let follows_the_same = || !self.cells[at].sources().any(|spot| has_changed[spot.cell]);
            if let Some((cell, outcome)) = then.filter(|_| is_as_deep && is_resolved && follows_the_same()) {
                self.cells[at] = Arc::clone(cell);
                outcomes.push(outcome.clone());
                has_changed.push(false);
                continue;
            }
            let filled = self.fill(at, &outcomes);
            let cell = &self.cells[at];
            let same = then.filter(|(then, _)| {
                std::ptr::eq(then.calculator, cell.calculator) && is_same_to_the_bit(&then.given, &cell.given)
            });
            let outcome = filled.and_then(|()| match same {
                Some((_, Ok(outcome))) if is_as_deep => Ok(Arc::clone(outcome)),
                _ => cell.calculator.evaluate(&cell.given, &self.style, depth).map(Arc::new),
            });
            has_changed.push(match (&outcome, same) {
                (Ok(_), Some((_, Ok(_)))) => false,
                (Err(stop), Some((_, Err(then)))) => stop != then,
                _ => true,
            });
            outcomes.push(outcome);
        }
        outcomes
    }

    /// Evaluates every cell to the same depth.
    pub fn run_all(&mut self, depth: Depth) -> Vec<Answered> {
        self.run_to(self.cells.len(), |_| Some(depth))
    }

    /// Fetches what a cell follows from the cells before it.
    fn fill(&mut self, at: usize, outcomes: &[Answered]) -> Result<(), Stop> {
        let (before, rest) = self.cells.split_at_mut(at);
        let cell = Arc::make_mut(&mut rest[0]);
        let filled = cell.fill(before, outcomes);
        cell.pass_over_hidden_issues();
        filled
    }

    /// The SI value at a spot, evaluated without working.
    pub fn value(&mut self, spot: &Spot) -> Result<f64, Stop> {
        let wanted = self.upstream(spot.cell);
        let depth = |at| wanted.contains(&at).then_some(Depth::Answers);
        let mut outcomes = self.run_to(spot.cell + 1, depth);
        let outcome = outcomes.pop().unwrap_or_else(|| Err(Stop::fault("no such cell")))?;
        let numbers = self.cells[spot.cell].numbers(Some(&outcome), spot).map(|(_, si)| si);
        let sum = numbers.reduce(|sum, next| sum + next).ok_or_else(|| Stop::fault("no such row"))?;
        if sum.is_finite() {
            Ok(sum)
        } else {
            Err(Stop::todo("", "nothing is typed there yet", "Type it first."))
        }
    }

    /// Evaluates the cells before `end` that a depth is given for.
    fn run_to(&mut self, end: usize, depth: impl Fn(usize) -> Option<Depth>) -> Vec<Answered> {
        let mut outcomes: Vec<Answered> = Vec::with_capacity(end);
        for at in 0..end.min(self.cells.len()) {
            let Some(depth) = depth(at) else {
                outcomes.push(Ok(Arc::default()));
                continue;
            };
            let filled = self.fill(at, &outcomes);
            let cell = &self.cells[at];
            outcomes.push(
                filled.and_then(|()| cell.calculator.evaluate(&cell.given, &self.style, depth).map(Arc::new)),
            );
        }
        outcomes
    }
}

/// A run of before an edit, for [`Network::run_after`].
#[derive(Default)]
pub struct Ran<'a> {
    /// The cells as they were resolved.
    pub resolved: &'a [Arc<Cell>],
    /// The same with the values that they follow.
    pub cells: &'a [Arc<Cell>],
    /// What each of them came to.
    pub outcomes: &'a [Answered],
    /// The cell whose working is there.
    pub open: Option<usize>,
    /// How numbers were written.
    pub style: Option<Style>,
}

fn depth_of(at: usize, open: Option<usize>) -> Depth {
    if open == Some(at) { Depth::Working } else { Depth::Findings }
}

/// Whether a sheet is given the very same: numbers to the last bit (what is not typed is the same as itself),
/// texts, units, rows and their order.
fn is_same_to_the_bit(a: &Given, b: &Given) -> bool {
    let datum = |(a, b): (&Datum, &Datum)| {
        a.value.si.to_bits() == b.value.si.to_bits()
            && std::ptr::eq(a.value.unit, b.value.unit)
            && a.text == b.text
    };
    type Row = (Key, Vec<Datum>);
    let row = |((key, a), (other, b)): (&Row, &Row)| {
        key == other && a.len() == b.len() && a.iter().zip(b).all(datum)
    };
    let table = |(a, b): (&Vec<Row>, &Vec<Row>)| a.len() == b.len() && a.iter().zip(b).all(row);
    a.len() == b.len() && a.iter().zip(b).all(table)
}

/// Whether every link of two plans reaches the same: they have the same places and sheets, which lead the same
/// way. What was typed on the sheets does not count.
fn is_linked_alike(a: &[Place], b: &[Place]) -> bool {
    a.len() == b.len()
        && a.iter().zip(b).all(|(a, b)| {
            (a.id, a.subject, a.from, a.to) == (b.id, b.subject, b.from, b.to)
                && a.name == b.name
                && a.sheets.keys().eq(b.sheets.keys())
        })
}

/// A place's source stands before it, whatever the order in which they were made.
fn in_order_of_flow(plan: &Plan) -> Vec<&Place> {
    let depth = |place: &Place| {
        let mut depth = 0;
        let mut from = place.from;
        while let Some(next) = from.and_then(|id| plan.place(id)).filter(|_| depth <= plan.places.len()) {
            depth += 1;
            from = next.from;
        }
        depth
    };
    let mut places: Vec<_> = plan.places.iter().map(|place| (depth(place), place)).collect();
    crate::order::sort_by_key(&mut places, |(depth, place)| (place.subject != Subject::Site, *depth));
    places.into_iter().map(|(_, place)| place).collect()
}
