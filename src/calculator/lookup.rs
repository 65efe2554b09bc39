//! Finding one's way in a declaration: tables, ports, rows of defaults, examples as given.

use super::declare::{Calculator, Example, Input, Output, Role, Table};
use super::{Datum, Given, Key, Port, find_or_push};
use crate::units::{NUMBER, Style, Unit};

/// Whether two texts are the very same in memory, as the symbols of declarations and sums mostly are. That is told
/// far sooner than whether they read alike, and at every key it is asked ten thousand times.
fn is_very_same(a: &str, b: &str) -> bool {
    std::ptr::eq(a, b)
}

/// Where the input of a symbol stands among the columns of a table.
pub(super) fn column_of(columns: &[Input], symbol: &str) -> Option<usize> {
    let same = columns.iter().position(|input| is_very_same(input.symbol, symbol));
    same.or_else(|| columns.iter().position(|input| input.symbol == symbol))
}

/// The same of an answer.
pub(super) fn answer_of(answers: &[Output], symbol: &str) -> Option<usize> {
    let same = answers.iter().position(|output| is_very_same(output.symbol, symbol));
    same.or_else(|| answers.iter().position(|output| output.symbol == symbol))
}

impl Table {
    /// A row of defaults.
    pub fn default_row(&self) -> Vec<Datum> {
        self.columns.iter().map(Input::default_datum).collect()
    }

    /// Whether its rows are named after the places that lead here, or come from here.
    pub fn has_row_for_each_place(&self) -> bool {
        self.columns.iter().filter_map(|input| input.follows).any(|follows| follows.over.is_each())
    }
}

impl Calculator {
    /// The tables, of which the first is the single inputs and answers.
    pub fn all_tables(&self) -> impl Iterator<Item = Table> {
        (0..=self.tables.len()).map(|t| self.table(t))
    }

    /// A table by number; 0 is the single inputs and answers.
    pub fn table(&self, t: usize) -> Table {
        let single = Table {
            id: "",
            label: self.title,
            key_label: "",
            add: None,
            suggest: &[],
            presets: &[],
            columns: self.inputs,
            answers: self.outputs,
        };
        t.checked_sub(1).and_then(|t| self.tables.get(t)).copied().unwrap_or(single)
    }

    /// The columns of a table, without the rest of it: asked for at every number.
    #[inline]
    pub fn columns(&self, t: usize) -> &'static [Input] {
        match t.checked_sub(1) {
            None => self.inputs,
            Some(t) => self.tables.get(t).map_or(&[], |table| table.columns),
        }
    }

    /// The answers of a table, without the rest of it.
    #[inline]
    pub fn answers(&self, t: usize) -> &'static [Output] {
        match t.checked_sub(1) {
            None => self.outputs,
            Some(t) => self.tables.get(t).map_or(&[], |table| table.answers),
        }
    }

    /// The number of a table by its id; the empty one is 0.
    pub fn table_named(&self, id: &str) -> Option<usize> {
        if id.is_empty() {
            Some(0)
        } else {
            self.tables.iter().position(|table| table.id == id).map(|t| t + 1)
        }
    }

    /// Where a symbol lives.
    pub fn port(&self, symbol: &str) -> Option<Port> {
        let find = |is_it: fn(&str, &str) -> bool| {
            (0..=self.tables.len()).find_map(|table| {
                let input = self.columns(table).iter().position(|input| is_it(input.symbol, symbol));
                let column = input
                    .or_else(|| self.answers(table).iter().position(|output| is_it(output.symbol, symbol)))?;
                Some(Port { table, column, answer: input.is_none() })
            })
        };
        find(is_very_same).or_else(|| find(|a, b| a == b))
    }

    /// Every input and answer that has a role, and the role.
    pub fn roles(&self) -> impl Iterator<Item = (Port, Role)> {
        (0..=self.tables.len()).flat_map(move |table| {
            let port = move |column, answer| Port { table, column, answer };
            let inputs = self.columns(table).iter().map(|input| input.role).enumerate();
            let outputs = self.answers(table).iter().map(|output| output.role).enumerate();
            let inputs = inputs.filter_map(move |(column, role)| Some((port(column, false), role?)));
            inputs.chain(outputs.filter_map(move |(column, role)| Some((port(column, true), role?))))
        })
    }

    /// The declared input at a port; `None` if an answer is there.
    pub fn input_at(&self, port: Port) -> Option<&'static Input> {
        if port.answer { None } else { self.columns(port.table).get(port.column) }
    }

    /// The declared answer at a port; `None` if an input is there.
    pub fn output_at(&self, port: Port) -> Option<&'static Output> {
        if port.answer { self.answers(port.table).get(port.column) } else { None }
    }

    /// The declared unit at a port.
    pub fn unit(&self, port: Port) -> &'static Unit {
        let input = self.input_at(port).map(|input| input.unit);
        input.or(self.output_at(port).map(|output| output.unit)).unwrap_or(NUMBER)
    }

    /// What a port is called.
    pub fn label(&self, port: Port) -> &'static str {
        let input = self.input_at(port).map(|input| input.label);
        input.or(self.output_at(port).map(|output| output.label)).unwrap_or_default()
    }

    /// A row as a link brings it: defaults, and nothing yet in the column that follows.
    pub fn fresh(&self, column: Port) -> Vec<Datum> {
        let mut row = self.table(column.table).default_row();
        if let Some(datum) = row.get_mut(column.column) {
            datum.value.si = f64::NAN;
        }
        row
    }

    /// Every input at its default, and no rows.
    pub fn defaults(&self) -> Given {
        let rows = |t| -> Vec<(Key, Vec<Datum>)> {
            if t == 0 { vec![("".into(), self.table(t).default_row())] } else { Vec::new() }
        };
        (0..=self.tables.len()).map(rows).collect()
    }

    /// Reads an example's texts, as a form would.
    pub fn given(&self, example: &Example) -> Result<Given, String> {
        let mut given = self.defaults();
        for (table, key, texts) in [("", "", example.inputs)].iter().chain(example.rows) {
            let t = self.table_named(table).ok_or_else(|| format!("no table {table}"))?;
            let at = find_or_push(&mut given[t], key, || self.table(t).default_row());
            for (symbol, text) in *texts {
                let port = self.port(symbol).filter(|port| port.table == t && !port.answer);
                let k = port.ok_or_else(|| format!("no input {symbol}"))?.column;
                let read = self.table(t).columns[k].read(text, &Style::default());
                given[t][at].1[k] = read.map_err(|unread| format!("{symbol}: {unread:?}"))?;
            }
        }
        Ok(given)
    }
}
