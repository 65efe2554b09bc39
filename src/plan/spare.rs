//! What is left out of a plan before it is handed on.

use super::{Entries, Plan};
use crate::calculator::Form;
use crate::calculators::find;
use crate::units::Kind;
use std::sync::Arc;

impl Plan {
    /// Without notes, and without what work orders tell of who did what and when: ticks, lots, initials.
    pub fn without_notes(mut self) -> Plan {
        self.notes.clear();
        for (id, sheet) in self.places.iter_mut().flat_map(|place| &mut place.sheets) {
            let sheet = Arc::make_mut(sheet);
            sheet.ticks.clear();
            let Some(calculator) = find(id) else { continue };
            let Some(order) = calculator.work_order else { continue };
            let is_text = |symbol: &str| {
                let port = calculator.port(symbol);
                port.and_then(|port| calculator.input_at(port)).is_some_and(|input| input.form == Form::Text)
            };
            // Amounts that were added are no notes: sums follow them.
            let is_note = |symbol: &str| order.signed.contains(&symbol) && is_text(symbol);
            for (_, entries) in sheet.rows.get_mut(order.table).into_iter().flatten() {
                entries.retain(|symbol, _| !is_note(symbol));
            }
        }
        self
    }

    /// Without what was typed of prices and money.
    pub fn without_prices(mut self) -> Plan {
        for (id, sheet) in self.places.iter_mut().flat_map(|place| &mut place.sheets) {
            let (Some(calculator), sheet) = (find(id), Arc::make_mut(sheet)) else { continue };
            for table in calculator.all_tables() {
                let prices = || {
                    let inputs = table.columns.iter().filter(|input| {
                        let kind = input.unit.kind;
                        kind == Kind::Money || kind.is_price()
                    });
                    inputs.map(|input| input.symbol)
                };
                let clear = |entries: &mut Entries| {
                    for symbol in prices() {
                        entries.remove(symbol);
                    }
                };
                if table.id.is_empty() {
                    clear(&mut sheet.entries);
                } else if let Some(rows) = sheet.rows.get_mut(table.id) {
                    rows.iter_mut().for_each(|(_, entries)| clear(entries));
                }
            }
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use crate::plan::{Entry, Plan, examples};
    use std::sync::Arc;

    #[test]
    fn no_price_note_or_tick_is_handed_on_where_that_was_asked() {
        let mut plan = examples::plan("heron-mere").unwrap();
        plan.notes = "for us only".into();
        let site = plan.places[0].sheets.values_mut().next().unwrap();
        Arc::make_mut(site).ticks.insert("Water".into(), "5 L".into());
        let make_up = plan.places.iter_mut().find_map(|place| place.sheets.get_mut("make-up")).unwrap();
        let (_, row) = &mut Arc::make_mut(make_up).rows.get_mut("ingredients").unwrap()[0];
        for (symbol, text) in [("initials", "X.Y."), ("added", "16.2 kg"), ("v_added", "7.7 L")] {
            row.insert(symbol.into(), Entry { text: text.into(), ..Entry::default() });
        }
        let text = |plan: Plan| serde_json::to_string(&plan).unwrap();
        let whole = text(plan.clone());
        let bare = text(plan.without_notes().without_prices());
        for private in ["for us only", "\"ticks\"", "X.Y.", "0.16 per kWh", "\"p_drum\""] {
            assert!(whole.contains(private) && !bare.contains(private), "{private}");
        }
        for kept in ["16 h", "\"currency\"", "16.2 kg", "7.7 L"] {
            assert!(bare.contains(kept), "{kept}");
        }
    }
}
