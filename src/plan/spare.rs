//! What is left out of a plan before it is handed on.

use super::{Entries, Plan};
use crate::calculators::find;
use crate::units::Kind;
use std::sync::Arc;

impl Plan {
    /// Without notes, and without the ticks of work orders, which tell what was done and when.
    pub fn without_notes(mut self) -> Plan {
        self.notes.clear();
        for sheet in self.places.iter_mut().flat_map(|place| place.sheets.values_mut()) {
            Arc::make_mut(sheet).ticks.clear();
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
    use crate::plan::{Plan, examples};
    use std::sync::Arc;

    #[test]
    fn no_price_note_or_tick_is_handed_on_where_that_was_asked() {
        let mut plan = examples::plan("heron-mere").unwrap();
        plan.notes = "for us only".into();
        Arc::make_mut(plan.places[0].sheets.values_mut().next().unwrap())
            .ticks
            .insert("Water".into(), "5 L".into());
        let text = |plan: Plan| serde_json::to_string(&plan).unwrap();
        let whole = text(plan.clone());
        let bare = text(plan.without_notes().without_prices());
        for private in ["for us only", "\"ticks\"", "0.16 per kWh", "\"p_drum\""] {
            assert!(whole.contains(private) && !bare.contains(private), "{private}");
        }
        assert!(bare.contains("16 h") && bare.contains("\"currency\""), "all else stays");
    }
}
