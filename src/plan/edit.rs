//! Every change that a user can make to a plan.

use super::document::{Entries, Entry, Id, Place, Plan, Sheet, numbered, tidy};
use crate::calculator::subject::Sort;
use crate::calculator::{Calculator, Form, Input, Recipe, find_or_push};
use crate::calculators::{find, for_places_of, from_start, site};
use crate::science::metals;
use crate::units::{Style, Unit, Unread, read::split};
use std::sync::Arc;

/// Where one entry of a plan stands.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Field {
    /// At which place.
    pub place: Id,
    /// In which calculator.
    pub calculator: &'static str,
    /// In which table; empty for single inputs.
    pub table: &'static str,
    /// In which row; empty for single inputs.
    pub key: String,
    /// Which input.
    pub symbol: &'static str,
}

impl Field {
    /// A single input.
    pub fn single(place: Id, calculator: &'static str, symbol: &'static str) -> Field {
        Field { place, calculator, table: "", key: String::new(), symbol }
    }

    /// A cell of a row.
    pub fn cell(
        place: Id,
        calculator: &'static str,
        table: &'static str,
        key: &str,
        symbol: &'static str,
    ) -> Field {
        Field { place, calculator, table, key: key.into(), symbol }
    }

    /// The declared input.
    pub fn input(&self) -> Option<&'static Input> {
        let calculator = find(self.calculator)?;
        let port = calculator.port(self.symbol)?;
        calculator.input_at(port)
    }
}

impl Plan {
    /// The sheet of `calculator` at a place, made if it is not there.
    pub fn sheet_mut(&mut self, id: Id, calculator: &str) -> Option<&mut Sheet> {
        Some(Arc::make_mut(self.place_mut(id)?.sheets.entry(calculator.into()).or_default()))
    }

    /// What stands at a field, if anything was entered.
    pub fn entry(&self, field: &Field) -> Option<&Entry> {
        let sheet = self.place(field.place)?.sheets.get(field.calculator)?;
        if field.table.is_empty() {
            return sheet.entries.get(field.symbol);
        }
        let (_, entries) = sheet.rows.get(field.table)?.iter().find(|(key, _)| *key == field.key)?;
        entries.get(field.symbol)
    }

    /// The entries that a field belongs to; its row is made if it is not there.
    fn entries_mut(&mut self, field: &Field) -> Option<&mut Entries> {
        let sheet = self.sheet_mut(field.place, field.calculator)?;
        if field.table.is_empty() {
            return Some(&mut sheet.entries);
        }
        let rows = sheet.rows.entry(field.table.into()).or_default();
        let at = find_or_push(rows, &field.key, Entries::new);
        rows.get_mut(at).map(|(_, entries)| entries)
    }

    /// Types `text` at a field that shows `unit`. A bare number gets that unit; empty text takes the
    /// entry away, so that the link or the default is back; text that cannot be read is kept, and the
    /// last good text stands.
    pub fn type_in(&mut self, field: &Field, text: &str, unit: Option<&Unit>) {
        let style = self.style();
        let Some(input) = field.input() else { return };
        let Some(entries) = self.entries_mut(field) else { return };
        let text = text.trim();
        if text.is_empty() {
            let before = entries.remove(field.symbol);
            // The unit that was chosen or typed stays the field's: the next bare number is in it.
            let show = before.and_then(|entry| match entry.show {
                Some(show) => Some(show),
                None => input.read(&entry.text, &style).ok().map(|datum| datum.value.unit.symbol.to_string()),
            });
            let is_own = |symbol: &String| {
                symbol != input.unit.symbol && Unit::named(input.unit.kind, symbol).is_some()
            };
            if let Some(show) = show.filter(|symbol| input.form == Form::Number && is_own(symbol)) {
                entries.insert(field.symbol.into(), Entry { show: Some(show), ..Entry::default() });
            }
            return;
        }
        let text = match unit.map(|unit| unit.symbol).filter(|symbol| !symbol.is_empty()) {
            Some(symbol) if is_bare_number(text, input, &style) => format!("{text} {symbol}"),
            _ => text.to_string(),
        };
        let before = entries.remove(field.symbol);
        let stands = match input.read(&text, &style) {
            Ok(_) => None,
            Err(_) => before.and_then(|entry| match input.read(&entry.text, &style) {
                Ok(_) => Some(entry.text),
                Err(_) => entry.stands,
            }),
        };
        entries.insert(field.symbol.into(), Entry { text, stands, show: None });
    }

    /// As [`Plan::type_in`], for text that grows key by key: what stands is `before`, the entry as it was
    /// when the user began, and never a part of what is being typed (the 1,5 of 1,500).
    pub fn type_over(&mut self, field: &Field, before: Option<Entry>, text: &str, unit: Option<&Unit>) {
        if let Some(entries) = self.entries_mut(field) {
            match before {
                Some(before) => entries.insert(field.symbol.into(), before),
                None => entries.remove(field.symbol),
            };
        }
        self.type_in(field, text, unit);
    }

    /// Shows a field in another unit. What was typed stays as it is, so switching back is exact; where
    /// nothing is typed, the usual or the linked value stays one.
    pub fn show_in(&mut self, field: &Field, unit: &Unit) {
        let style = self.style();
        let Some(input) = field.input().filter(|input| input.form == Form::Number && input.shows(unit))
        else {
            return;
        };
        let Some(entries) = self.entries_mut(field) else { return };
        let entry = entries.entry(field.symbol.into()).or_default();
        let typed = input.read(&entry.text, &style).ok().map(|datum| datum.value.unit);
        entry.show = (typed != Some(unit)).then(|| unit.symbol.to_string());
    }

    /// Takes an entry away, so that the link or the default is back.
    pub fn clear(&mut self, field: &Field) {
        if let Some(entries) = self.entries_mut(field) {
            entries.remove(field.symbol);
        }
    }

    /// Adds a row, with what is declared for one of that name; gives the name that it got.
    pub fn add_row(
        &mut self,
        place: Id,
        calculator: &'static str,
        table: &'static str,
        key: &str,
    ) -> Option<String> {
        let sheet = self.sheet_mut(place, calculator)?;
        let rows = sheet.rows.entry(table.into()).or_default();
        let declared = find(calculator).and_then(|c| c.tables.iter().find(|declared| declared.id == table));
        let preset = declared.and_then(|declared| declared.presets.iter().find(|(name, _)| *name == key));
        let key = free_key(rows, table, key, None);
        rows.push((key.clone(), Entries::new()));
        for (symbol, text) in preset.map_or(&[][..], |(_, cells)| cells) {
            self.type_in(&Field::cell(place, calculator, table, &key, symbol), text, None);
        }
        Some(key)
    }

    /// Fills a sheet in with a recipe: its inputs, and its rows in place of those that were typed. What the
    /// recipe does not name stays.
    pub fn fill_in(&mut self, place: Id, calculator: &'static str, recipe: &Recipe) {
        self.empty_table(place, calculator, recipe.table);
        for (symbol, text) in recipe.inputs {
            self.type_in(&Field::single(place, calculator, symbol), text, None);
        }
        for (key, cells) in recipe.rows {
            let Some(key) = self.add_row(place, calculator, recipe.table, key) else { continue };
            for (symbol, text) in *cells {
                self.type_in(&Field::cell(place, calculator, recipe.table, &key, symbol), text, None);
            }
        }
    }

    /// Fills a sheet in as at another place of this plan: the rows of a table without the records of the
    /// work, and the inputs that recipes type.
    pub fn fill_in_as(&mut self, place: Id, calculator: &'static str, other: Id) {
        let Some(declared) = find(calculator) else { return };
        let Some(table) = declared.recipes.first().map(|recipe| recipe.table) else { return };
        let Some(from) = self.place(other).and_then(|place| place.sheets.get(calculator)).cloned() else {
            return;
        };
        if place == other {
            return;
        }
        self.empty_table(place, calculator, table);
        let order = declared.work_order.filter(|order| order.table == table);
        let is_record = |symbol: &str| order.is_some_and(|o| o.added == symbol || o.signed.contains(&symbol));
        let mut rows = from.rows.get(table).cloned().unwrap_or_default();
        rows.iter_mut().for_each(|(_, entries)| entries.retain(|symbol, _| !is_record(symbol)));
        let symbols = declared.recipes.iter().flat_map(|recipe| recipe.inputs).map(|(symbol, _)| *symbol);
        let Some(sheet) = self.sheet_mut(place, calculator) else { return };
        for symbol in symbols {
            match from.entries.get(symbol) {
                Some(entry) => sheet.entries.insert(symbol.into(), entry.clone()),
                None => sheet.entries.remove(symbol),
            };
        }
        sheet.rows.insert(table.into(), rows);
    }

    /// Takes all rows of a table away, and the steps of a work order that were theirs.
    fn empty_table(&mut self, place: Id, calculator: &'static str, table: &'static str) {
        let Some(sheet) = self.sheet_mut(place, calculator) else { return };
        let rows =
            sheet.rows.get(table).map(|rows| rows.iter().map(|(key, _)| key.clone()).collect::<Vec<_>>());
        for key in rows.unwrap_or_default() {
            self.remove_row(place, calculator, table, &key);
        }
    }

    /// Renames a row; gives the name that it got.
    pub fn rename_row(
        &mut self,
        place: Id,
        calculator: &'static str,
        table: &'static str,
        key: &str,
        name: &str,
    ) -> Option<String> {
        let rows = self.sheet_mut(place, calculator)?.rows.get_mut(table)?;
        let at = rows.iter().position(|(known, _)| known == key)?;
        let name = free_key(rows, table, name, Some(at));
        rows[at].0 = name.clone();
        if is_ordered(calculator, table)
            && let Some(sheet) = self.sheet_mut(place, calculator)
        {
            sheet.row_renamed(key, Some(&name));
        }
        Some(name)
    }

    /// Takes a row away.
    pub fn remove_row(&mut self, place: Id, calculator: &'static str, table: &'static str, key: &str) {
        let Some(sheet) = self.sheet_mut(place, calculator) else { return };
        if let Some(rows) = sheet.rows.get_mut(table) {
            rows.retain(|(known, _)| known != key);
        }
        if is_ordered(calculator, table) {
            sheet.row_renamed(key, None);
        }
    }

    /// Moves a row up or down by one.
    pub fn move_row(
        &mut self,
        place: Id,
        calculator: &'static str,
        table: &'static str,
        key: &str,
        down: bool,
    ) {
        let Some(rows) = self.sheet_mut(place, calculator).and_then(|sheet| sheet.rows.get_mut(table)) else {
            return;
        };
        let Some(at) = rows.iter().position(|(known, _)| known == key) else { return };
        let other = if down { at + 1 } else { at.wrapping_sub(1) };
        if other < rows.len() {
            rows.swap(at, other);
        }
    }

    /// Renames a place; another place's name gets a number behind it. Rows that are named after it where it
    /// leads to, or comes from, go with it.
    pub fn rename(&mut self, id: Id, name: &str) {
        let name = self.free_name(name, Some(id));
        let Some(place) = self.place(id).cloned() else { return };
        let from: Vec<Id> = self
            .places
            .iter()
            .map(|there| there.id)
            .filter(|there| self.comes_from(&place, *there))
            .collect();
        let has_row = |there: &Place| place.is_feeding(there) || from.contains(&there.id);
        for there in self.places.iter_mut().filter(|there| has_row(there)) {
            for (calculator, sheet) in &mut there.sheets {
                let tables = find(calculator).map_or(&[][..], |calculator| calculator.tables);
                for table in tables.iter().filter(|table| table.has_row_for_each_place()) {
                    let rows = Arc::make_mut(sheet).rows.get_mut(table.id);
                    let row = rows.and_then(|rows| rows.iter_mut().find(|(key, _)| *key == place.name));
                    row.into_iter().for_each(|(key, _)| *key = name.clone());
                }
            }
        }
        if let Some(place) = self.place_mut(id) {
            place.name = name;
        }
    }

    /// Takes a place away; what came from it or led to it leads nowhere then. The site stays.
    pub fn remove(&mut self, id: Id) {
        if self.site().is_none_or(|site| site.id == id) {
            return;
        }
        self.places.retain(|place| place.id != id);
        for place in &mut self.places {
            place.from = place.from.filter(|from| *from != id);
            place.to = place.to.filter(|to| *to != id);
        }
    }

    /// Says where a place comes from; not from itself, and not in a circle.
    pub fn set_from(&mut self, id: Id, from: Option<Id>) {
        if self.comes_round(id, from) {
            return;
        }
        let allowed = self.place(id).map_or(&[][..], |place| place.subject.sort().comes_from);
        let fits = from.is_none_or(|from| self.place(from).is_some_and(|p| allowed.contains(&p.subject)));
        if let Some(place) = self.place_mut(id).filter(|_| fits) {
            place.from = from;
        }
    }

    /// Says where a place leads to.
    pub fn set_to(&mut self, id: Id, to: Option<Id>) {
        let allowed = self.place(id).map_or(&[][..], |place| place.subject.sort().leads_to);
        let fits = to.is_none_or(|to| self.place(to).is_some_and(|p| allowed.contains(&p.subject)));
        if let Some(place) = self.place_mut(id).filter(|_| fits) {
            place.to = to;
        }
    }

    /// Adds a sheet to a place.
    pub fn add_sheet(&mut self, id: Id, calculator: &str) {
        self.sheet_mut(id, calculator);
    }

    /// Takes a sheet off a place, with what was typed there, if it [may be](Plan::may_remove_sheet).
    pub fn remove_sheet(&mut self, id: Id, calculator: &str) {
        let may = self.may_remove_sheet(id, calculator);
        if let Some(place) = self.place_mut(id).filter(|_| may) {
            place.sheets.remove(calculator);
        }
    }

    /// Adds a place that comes from another, as a sheet of that one leads on to it: its id, and which of its sheets
    /// to open. Where an input begins as that sheet says, the sheet of that input is the only one.
    pub fn lead_on(&mut self, from: Id, sheet: &str, sort: &Sort) -> (Id, Option<&'static Calculator>) {
        let name = self.place(from).map(|place| place.name.clone()).unwrap_or_default();
        let id = self.add(sort.subject, &format!("{name}, {}", sort.title.to_ascii_lowercase()));
        self.set_from(id, Some(from));
        let begun = for_places_of(sort.subject).find_map(|calculator| {
            let has = |by: &str| self.place(from).is_some_and(|place| place.sheets.contains_key(by));
            let begins = |input: &Input| {
                let (last, _) = input.begins_as.last()?;
                let is_meant = |by: &str| if sheet == *last { has(by) } else { sheet == by };
                let (_, word) = input.begins_as.iter().find(|(by, _)| is_meant(by))?;
                Some((input.symbol, *word))
            };
            Some((calculator, calculator.inputs.iter().find_map(begins)?))
        });
        let Some((calculator, (symbol, word))) = begun else { return (id, from_start(sort.subject).next()) };
        for other in for_places_of(sort.subject).filter(|other| other.id != calculator.id) {
            self.remove_sheet(id, other.id);
        }
        self.add_sheet(id, calculator.id);
        self.type_in(&Field::single(id, calculator.id, symbol), word, None);
        (id, Some(calculator))
    }

    /// Whether a sheet may be taken off: a place keeps one, and the site the one with the plan's settings.
    pub fn may_remove_sheet(&self, id: Id, calculator: &str) -> bool {
        let has_others = |place: &Place| {
            place.sheets.contains_key(calculator)
                && for_places_of(place.subject).any(|c| c.id != calculator && place.sheets.contains_key(c.id))
        };
        calculator != site::CALCULATOR.id && self.place(id).is_some_and(has_others)
    }
}

/// Whether the work order of a calculator has a step for each row of a table.
fn is_ordered(calculator: &str, table: &str) -> bool {
    find(calculator).and_then(|c| c.work_order).is_some_and(|order| order.table == table)
}

/// Whether a text is a number without a unit, or might become one once its reading is chosen.
fn is_bare_number(text: &str, input: &Input, style: &Style) -> bool {
    let is_pick = input.picks.iter().any(|(word, _)| *word == text);
    let is_number = input.form == Form::Number && !is_pick && split(text).1.is_empty();
    is_number
        && match crate::units::read(text, input.unit, style) {
            Ok(_) | Err(Unread::Ambiguous(_)) => true,
            Err(_) => false,
        }
}

/// A row's name: trimmed, metals by their symbols, and a number behind it if it is taken.
fn free_key(rows: &[(String, Entries)], table: &str, wanted: &str, except: Option<usize>) -> String {
    let wanted = tidy(wanted);
    // In a table of metals "copper" is Cu, so that rows meet across the plan.
    let wanted = if table == metals::TABLE { metals::symbol_of(&wanted) } else { wanted };
    let taken = |name: &str| rows.iter().enumerate().any(|(at, (key, _))| key == name && Some(at) != except);
    numbered(&wanted, taken)
}
