//! The line map: boxes for baths, streams, routes, drains, treated streams and where those leave the site, and
//! lines for what flows between them.
//!
//! - [`layout`]: where boxes and lines stand, on a wide page and on a narrow one.
//! - [`file`]: the same as a file;
//! - [`text`]: how much of a text fits.

pub mod text;
pub mod layout;
mod file;
#[cfg(test)]
mod tests;

use super::flows::{self, Amount, Flow, Metal, Sheet};
use crate::calculator::subject::SORTS;
use crate::calculator::{Key, Role, Subject};
use crate::plan::{Id, Plan};
use crate::results::{Marks, Results, count};

/// The columns of the map, in the order of flow.
pub const COLUMNS: [Subject; 6] =
    [Subject::Bath, Subject::Stream, Subject::Route, Subject::Drain, Subject::Treated, Subject::Discharge];

/// What the widths of the lines show.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Quantity {
    /// Volume per day.
    #[default]
    Volume,
    /// The mass of one metal per day.
    Metal(Key),
}

/// The worst that there is to look at somewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Stop.
    Stop,
    /// Caution, or a field that cannot be read.
    Caution,
    /// Something is still to be typed.
    Todo,
}

/// One box.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// Which column.
    pub column: usize,
    /// The place; `None` for "No route yet" and its like.
    pub place: Option<Id>,
    /// The sheet that it leads to.
    pub sheet: Option<Sheet>,
    /// The place's name.
    pub title: String,
    /// What it comes to, in at most two short lines.
    pub lines: Vec<String>,
    /// The worst there, and the words for it with a shape before them.
    pub sign: Option<(Sign, String)>,
}

/// What a line stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// What comes from a place.
    From,
    /// What leads to a route or a discharge, or runs through a drain.
    To,
    /// What leads nowhere yet.
    Nowhere,
    /// A tank that may be let out into a drain.
    Tank,
}

/// One line.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// The box where it starts.
    pub from: usize,
    /// The box where it ends.
    pub to: usize,
    /// What it stands for.
    pub way: Way,
    /// Volume per time.
    pub volume: Option<Amount>,
    /// The metals in it.
    pub metals: Vec<Metal>,
}

/// The map of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Map {
    /// The boxes, by column, each column from the top.
    pub nodes: Vec<Node>,
    /// The lines.
    pub edges: Vec<Edge>,
    /// The metals that flow.
    pub metals: Vec<Key>,
}

impl Edge {
    /// How much flows, in SI; `None` where it is not known or nothing of it comes this way.
    pub fn amount(&self, quantity: &Quantity) -> Option<Amount> {
        let amount = match quantity {
            Quantity::Volume => self.volume,
            Quantity::Metal(key) => self.metals.iter().find(|metal| metal.key == *key)?.load,
        };
        amount.filter(|(si, _)| *si > 0.0)
    }
}

impl Map {
    /// Reads the map from a plan and what it comes to.
    pub fn of(plan: &Plan, results: &Results) -> Map {
        let streams = flows::flowing(plan, results, Subject::Stream);
        let routes = flows::gathering(plan, results, Subject::Route, &streams);
        let treated = flows::flowing(plan, results, Subject::Treated);
        let discharges = flows::gathering(plan, results, Subject::Discharge, &treated);
        let mut metals = flows::metals_of(&streams);
        metals.extend(
            flows::metals_of(&treated).into_iter().filter(|key| !metals.contains(key)).collect::<Vec<_>>(),
        );
        let mut map = Map { metals, ..Map::default() };
        map.add_places(plan, results, Subject::Bath, |id| bath_lines(results, id));
        map.add_flowing(results, Subject::Stream, &in_order_of_origins(plan, &streams));
        map.add_gathering(results, Subject::Route, &routes, &streams);
        map.add_places(plan, results, Subject::Drain, |id| drain_lines(results, id));
        map.add_flowing(results, Subject::Treated, &in_order_of_origins(plan, &treated));
        map.add_gathering(results, Subject::Discharge, &discharges, &treated);
        map.join_flowing(&streams, Subject::Route);
        map.join_flowing(&treated, Subject::Discharge);
        map.join_through_drains(plan, &routes);
        map
    }

    /// The box of a place.
    pub fn at(&self, place: Option<Id>) -> Option<usize> {
        let place = place?;
        self.nodes.iter().position(|node| node.place == Some(place))
    }

    /// What the widths may show.
    pub fn quantities(&self) -> Vec<Quantity> {
        let metals = self.metals.iter().cloned().map(Quantity::Metal);
        std::iter::once(Quantity::Volume).chain(metals).collect()
    }

    /// What the map shows, in words.
    pub fn summary(&self) -> String {
        let number = |column: usize| {
            self.nodes.iter().filter(|node| node.column == column && node.place.is_some()).count()
        };
        // The second generation is named where there is one.
        let columns = COLUMNS.iter().enumerate().filter(|(at, _)| *at < 4 || number(*at) > 0);
        let parts =
            columns.map(|(at, subject)| count(number(at), &subject.sort().title.to_ascii_lowercase()));
        let lost = |subject: Subject| {
            let column = column_of(subject);
            let is_lost = |edge: &&Edge| edge.way == Way::Nowhere && self.nodes[edge.from].column == column;
            (self.edges.iter().filter(is_lost).count(), subject.sort())
        };
        let lost = [lost(Subject::Stream), lost(Subject::Treated)];
        let lost = lost.iter().filter(|(n, _)| *n > 0).map(|(n, sort)| {
            let what = sort.leads_to.first().map_or("", |to| to.sort().title).to_ascii_lowercase();
            format!(" {} without a {what}.", count(*n, &sort.title.to_ascii_lowercase()))
        });
        let lost: String = lost.collect();
        format!(
            "Map of the line: {}.{lost} The table below says the same.",
            parts.collect::<Vec<_>>().join(", ")
        )
    }

    /// What a line says, in words.
    pub fn edge_text(&self, results: &Results, edge: &Edge, quantity: &Quantity) -> String {
        let title = |at: usize| self.nodes.get(at).map_or("", |node| node.title.as_str());
        let ends = format!("{} to {}", title(edge.from), title(edge.to));
        if edge.way == Way::Tank {
            return format!("{} may be let out into {}", title(edge.from), title(edge.to));
        }
        match (edge.amount(quantity), quantity) {
            (Some(amount), Quantity::Volume) => format!("{ends}: {}", flows::text(results, amount)),
            (Some(amount), Quantity::Metal(key)) => format!("{ends}: {} {key}", flows::text(results, amount)),
            (None, _) => ends,
        }
    }

    /// What the widths and sorts of its lines say.
    pub fn legend(&self, results: &Results, quantity: &Quantity) -> String {
        let widest = self.edges.iter().filter_map(|edge| edge.amount(quantity));
        let widest = widest.max_by(|a, b| a.0.total_cmp(&b.0));
        let mut text = match (widest, quantity) {
            (Some(amount), quantity) => {
                let of = if let Quantity::Metal(key) = quantity { format!(" {key}") } else { String::new() };
                let shown = flows::text(results, amount);
                format!(
                    "The widest line is {shown}{of}, the others are to scale. A thin line is little, or not known yet."
                )
            }
            (None, _) if self.edges.is_empty() => "Nothing flows yet.".to_string(),
            (None, _) => "No amounts are known yet.".to_string(),
        };
        let has = |way| self.edges.iter().any(|edge| edge.way == way);
        if has(Way::Nowhere) {
            text += " Dashes: leads nowhere yet.";
        }
        if has(Way::Tank) {
            text += " Dots: a tank that may be let out into a drain.";
        }
        text
    }

    fn add_places(
        &mut self,
        plan: &Plan,
        results: &Results,
        subject: Subject,
        lines: impl Fn(Id) -> Vec<String>,
    ) {
        let column = column_of(subject);
        let places = plan.places.iter().filter(|place| place.subject == subject);
        self.nodes.extend(places.map(|place| Node {
            column,
            place: Some(place.id),
            sheet: flows::sheet_at(results, place.id),
            title: place.name.clone(),
            lines: lines(place.id),
            sign: sign(flows::marks_at(results, place.id)),
        }));
    }

    fn add_flow(&mut self, results: &Results, column: usize, flow: &Flow, lines: Vec<String>) {
        self.nodes.push(Node {
            column,
            place: Some(flow.place),
            sheet: flow.sheet,
            title: flow.name.clone(),
            lines,
            sign: sign(flows::marks_at(results, flow.place)),
        });
    }

    fn add_flowing(&mut self, results: &Results, subject: Subject, flowing: &[&Flow]) {
        for flow in flowing {
            self.add_flow(results, column_of(subject), flow, stream_lines(results, flow));
        }
    }

    /// What gathers, and below it a box for what leads nowhere yet.
    fn add_gathering(&mut self, results: &Results, subject: Subject, gathering: &[Flow], flowing: &[Flow]) {
        let column = column_of(subject);
        for flow in gathering {
            self.add_flow(results, column, flow, route_lines(results, flow));
        }
        let lost = flowing.iter().filter(|flow| self.at(flow.to).is_none()).count();
        let sorts = SORTS.iter().find(|sort| sort.is_flow() && sort.leads_to.contains(&subject));
        if let Some(sort) = sorts.filter(|_| lost > 0) {
            self.nodes.push(Node {
                column,
                place: None,
                sheet: None,
                title: as_title(sort.leads_nowhere),
                lines: vec![format!("for {}", count(lost, &sort.title.to_ascii_lowercase()))],
                sign: None,
            });
        }
    }

    /// Lines of what flows: from the place that it comes from, and to where it leads.
    fn join_flowing(&mut self, flowing: &[Flow], to: Subject) {
        let column = column_of(to);
        let nowhere = self.nodes.iter().position(|node| node.place.is_none() && node.column == column);
        for flow in flowing {
            let Some(here) = self.at(Some(flow.place)) else { continue };
            let (volume, metals) = (flow.volume, flow.metals.clone());
            if let Some(from) = self.at(flow.from) {
                let volume = volume.filter(|_| !flow.has_own_water);
                self.edges.push(Edge { from, to: here, way: Way::From, volume, metals: metals.clone() });
            }
            match (self.at(flow.to), nowhere) {
                (Some(to), _) => self.edges.push(Edge { from: here, to, way: Way::To, volume, metals }),
                (None, Some(to)) => {
                    self.edges.push(Edge { from: here, to, way: Way::Nowhere, volume, metals })
                }
                (None, None) => (),
            }
        }
    }

    fn join_through_drains(&mut self, plan: &Plan, routes: &[Flow]) {
        for route in routes {
            if let (Some(from), Some(to)) = (self.at(Some(route.place)), self.at(route.to)) {
                let (volume, metals) = (route.volume, route.metals.clone());
                self.edges.push(Edge { from, to, way: Way::To, volume, metals });
            }
        }
        for drain in plan.places.iter().filter(|place| place.subject == Subject::Drain) {
            if let (Some(from), Some(to)) = (self.at(drain.from), self.at(Some(drain.id))) {
                self.edges.push(Edge { from, to, way: Way::Tank, volume: None, metals: Vec::new() });
            }
        }
    }
}

/// The column of a sort of place.
fn column_of(subject: Subject) -> usize {
    COLUMNS.iter().position(|column| *column == subject).unwrap_or(0)
}

/// A text with its first letter as a capital.
pub fn as_title(text: &str) -> String {
    let (first, rest) = text.split_at(text.chars().next().map_or(0, char::len_utf8));
    first.to_ascii_uppercase() + rest
}

/// What comes from the same place stands together, each followed by what comes from it.
fn in_order_of_origins<'a>(plan: &Plan, streams: &'a [Flow]) -> Vec<&'a Flow> {
    let is_stream = |id: Option<Id>| id.is_some_and(|id| streams.iter().any(|stream| stream.place == id));
    let rank = |flow: &Flow| {
        let bath = flow.from.and_then(|from| plan.places.iter().position(|place| place.id == from));
        bath.unwrap_or(usize::MAX)
    };
    let mut first: Vec<_> = streams.iter().filter(|stream| !is_stream(stream.from)).collect();
    crate::order::sort_by_key(&mut first, |stream| rank(stream));
    let mut ordered: Vec<&Flow> = Vec::new();
    let mut waiting: Vec<&Flow> = first.into_iter().rev().collect();
    while let Some(next) = waiting.pop() {
        ordered.push(next);
        waiting.extend(streams.iter().rev().filter(|stream| stream.from == Some(next.place)));
    }
    // A circle of streams has no first one; it is not lost for that.
    let rest: Vec<_> =
        streams.iter().filter(|stream| !ordered.iter().any(|known| known.place == stream.place)).collect();
    ordered.extend(rest);
    ordered
}

/// The worst of some marks, in a shape and words.
pub fn sign(marks: Marks) -> Option<(Sign, String)> {
    if marks.stops > 0 {
        Some((Sign::Stop, format!("■ {}", count(marks.stops, "stop"))))
    } else if marks.cautions > 0 {
        Some((Sign::Caution, format!("▲ {}", count(marks.cautions, "caution"))))
    } else if marks.fields > 0 {
        Some((Sign::Caution, format!("▲ {} to mend", count(marks.fields, "field"))))
    } else if marks.waits {
        Some((Sign::Todo, "○ waits".to_string()))
    } else {
        marks.todo.then(|| (Sign::Todo, "○ to do".to_string()))
    }
}

fn joined(parts: Vec<Option<String>>, between: &str) -> Option<String> {
    let parts: Vec<_> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(between))
}

/// Metals as "60.0 mg/L Cu, 12.0 mg/L Ni".
fn metals_text(results: &Results, metals: &[Metal], of: impl Fn(&Metal) -> Option<Amount>) -> Option<String> {
    let text = |metal: &Metal| Some(format!("{}\u{a0}{}", flows::text(results, of(metal)?), metal.key));
    joined(metals.iter().map(text).collect(), ", ")
}

fn bath_lines(results: &Results, place: Id) -> Vec<String> {
    let volume = flows::amount_at(results, place, Role::Volume);
    let metals = metals_text(results, &flows::metals_at(results, place), |metal| metal.concentration);
    [volume.map(|amount| flows::text(results, amount)), metals].into_iter().flatten().collect()
}

fn stream_lines(results: &Results, stream: &Flow) -> Vec<String> {
    let volume = stream.volume.map(|amount| flows::text(results, amount));
    let first = joined(vec![volume, stream.class.map(str::to_string)], " · ");
    let metals = metals_text(results, &stream.metals, |metal| metal.concentration.or(metal.load));
    [first, metals].into_iter().flatten().collect()
}

fn route_lines(results: &Results, route: &Flow) -> Vec<String> {
    let volume = route.volume.map(|amount| flows::text(results, amount));
    let metals = metals_text(results, &route.metals, |metal| metal.load.or(metal.concentration));
    let lines: Vec<_> = [volume, metals].into_iter().flatten().collect();
    if lines.is_empty() { vec!["nothing leads here".into()] } else { lines }
}

/// The first verdict of a drain's sheets, and the headline.
fn drain_lines(results: &Results, place: Id) -> Vec<String> {
    let style = results.style();
    let mut lines = Vec::new();
    for cell in flows::cells_at(results, place) {
        let (Some(calculator), Some(outcome)) = (results.calculator(cell), results.outcome(cell)) else {
            continue;
        };
        let single = outcome.answers.first().and_then(|rows| rows.first());
        let answers = || calculator.outputs.iter().zip(single.map_or(&[][..], |(_, numbers)| numbers));
        let known = || answers().filter(|(_, si)| si.is_finite());
        let verdict = known().find(|(output, _)| !output.words.is_empty());
        lines.extend(verdict.map(|(output, si)| format!("{}: {}", output.label, output.text(*si, &style))));
        let headline = known().find(|(output, _)| output.words.is_empty());
        lines.extend(headline.map(|(output, si)| format!("{} {}", output.label, output.text(*si, &style))));
    }
    lines.truncate(2);
    lines
}
