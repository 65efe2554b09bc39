//! The ticks of a work order: which steps are done, and the amount that each was ticked at.

use super::document::{Id, Plan, Sheet, tidy};
use super::foreign::line;
use super::limits::LONGEST_ENTRY;
use crate::calculator::Instruction;
use crate::units::{Style, Unit};

/// What stands beside a step that was ticked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tick {
    /// The step is as it was when it was ticked.
    Stands,
    /// Another amount is wanted by now; the amount it was ticked at.
    Ticked(String),
}

/// A name for each step that stays while amounts change: a row's step by its row, others by their first
/// words. An order has each of them once; should two be alike, the second gets a number.
pub fn step_names(steps: &[Instruction]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for step in steps {
        let name = match &step.row {
            Some(row) => row_name(row),
            None => {
                let end = step.text.find(|c: char| c.is_ascii_digit() || c == '.').unwrap_or(step.text.len());
                step.text[..end].trim().trim_end_matches(['-', '−']).trim().to_string()
            }
        };
        let numbered = (2..).map(|k| format!("{name} {k}"));
        let free = std::iter::once(name.clone()).chain(numbered).find(|name| !names.contains(name));
        names.push(free.unwrap_or(name));
    }
    names
}

/// The name of a row's step. Rows have no brackets in their names, which are tidied in plans from outside too, so that
/// it is nobody else's.
fn row_name(key: &str) -> String {
    format!("[{key}]")
}

/// The name of a step that came from outside, as that of a row is tidied.
pub(super) fn clean_name(step: &str) -> String {
    let row = step.strip_prefix('[').and_then(|step| step.strip_suffix(']'));
    row.map_or_else(|| line(step, LONGEST_ENTRY), |key| row_name(&tidy(key)))
}

impl Sheet {
    /// How a step stands that is named so; `None` if it is not ticked.
    pub fn tick(&self, name: &str, step: &Instruction, style: &Style) -> Option<Tick> {
        let at = self.ticks.get(name)?;
        let Some((si, unit)) = step.amount else {
            return Some(Tick::Stands);
        };
        // Shown in the unit in which it was ticked: showing other units changes no amount.
        let then = at.split_once('\u{a0}').and_then(|(_, symbol)| Unit::named(unit.kind, symbol));
        let now = style.show(si, then.unwrap_or(unit));
        let is_same = at.is_empty() || plain(at) == plain(&now);
        Some(if is_same { Tick::Stands } else { Tick::Ticked(at.clone()) })
    }

    /// Keeps the tick of a row's step when the row gets another name; `None` when it is taken away.
    pub(super) fn row_renamed(&mut self, key: &str, name: Option<&str>) {
        if let Some(at) = self.ticks.remove(&row_name(key))
            && let Some(name) = name
        {
            self.ticks.insert(row_name(name), at);
        }
    }
}

impl Plan {
    /// Ticks a step at the amount that is wanted now, or takes the tick away.
    pub fn tick(&mut self, id: Id, calculator: &str, name: &str, step: &Instruction, done: bool) {
        if let Some(sheet) = self.sheet_mut(id, calculator) {
            match done {
                true => sheet.ticks.insert(name.into(), step.wanted.clone()),
                false => sheet.ticks.remove(name),
            };
        }
    }

    /// Takes every tick of a sheet's work order away: the next bath is made by the same sheet.
    pub fn untick_all(&mut self, id: Id, calculator: &str) {
        if let Some(sheet) = self.sheet_mut(id, calculator) {
            sheet.ticks.clear();
        }
    }
}

/// Without what a style alone changes: the decimal sign and the spaces.
fn plain(amount: &str) -> String {
    amount.chars().filter(|c| !c.is_whitespace()).map(|c| if c == ',' { '.' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{CELSIUS, Decimal, KG, System};

    fn step(text: &str, amount: Option<(f64, &'static Unit)>, style: &Style) -> Instruction {
        let wanted = amount.map(|(si, unit)| style.answer(si, unit)).unwrap_or_default();
        Instruction { text: text.into(), row: None, wanted, amount, also: String::new() }
    }

    fn ticked(at: &Instruction) -> Sheet {
        let mut sheet = Sheet::default();
        sheet.ticks.insert("Water at".into(), at.wanted.clone());
        sheet
    }

    #[test]
    fn a_step_keeps_its_name_while_its_amounts_change() {
        let style = Style::default();
        let cold = style.answer(294.15, CELSIUS);
        let texts = [
            format!("Water at {cold} into the tank."),
            "Cool to 21 °C.".into(),
            "Mix for 30 minutes.".into(),
        ];
        let steps = texts.map(|text| step(&text, None, &style));
        assert_eq!(step_names(&steps), ["Water at", "Cool to", "Mix for"]);
        // A step that comes or goes leaves the names of the others.
        assert_eq!(step_names(&[steps[0].clone(), steps[2].clone()]), ["Water at", "Mix for"]);
        assert_eq!(step_names(&[steps[0].clone(), steps[0].clone()]), ["Water at", "Water at 2"]);
    }

    #[test]
    fn another_amount_than_the_one_ticked_is_told() {
        let style = Style::default();
        let sheet = ticked(&step("", Some((155.0, KG)), &style));
        let now = |kilograms: f64, style: &Style| {
            sheet.tick("Water at", &step("", Some((kilograms, KG)), style), style)
        };
        assert_eq!(now(155.0, &style), Some(Tick::Stands));
        assert_eq!(now(155.2, &style), Some(Tick::Stands), "it is shown as the same amount");
        assert_eq!(now(161.0, &style), Some(Tick::Ticked("155\u{a0}kg".into())));
        assert_eq!(sheet.tick("Cool to", &step("", None, &style), &style), None);
    }

    #[test]
    fn other_units_and_another_decimal_sign_change_no_amount() {
        let style = Style::default();
        let sheet = ticked(&step("", Some((15.5, KG)), &style));
        for other in [Style { system: System::Us, ..style }, Style { decimal: Decimal::Comma, ..style }] {
            assert_eq!(
                sheet.tick("Water at", &step("", Some((15.5, KG)), &other), &other),
                Some(Tick::Stands)
            );
        }
    }
}
