//! What a running evaluation writes down of its arithmetic, and how that reads as a formula and in numbers.

use super::Q;
use crate::units::{Dim, Style, Value};
use std::cell::RefCell;

/// The node of every quantity that is not on a tape: literals, and all of them with no tape.
pub(super) const OFF: u32 = u32::MAX;

/// How a quantity was made from others.
pub(super) enum Expr {
    Symbol(String, Value),
    Sum(Q, Q),
    Difference(Q, Q),
    Product(Q, Q),
    Quotient(Q, Q),
    Negative(Q),
    Power(Q, i8, i8),
    Call(&'static str, Vec<Q>),
}

struct Tape {
    entries: Vec<(Expr, Dim)>,
    fault: Option<String>,
    style: Style,
}

thread_local! { static TAPE: RefCell<Option<Tape>> = const { RefCell::new(None) }; }

/// A quantity, read back from the tape as text.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// In symbols: `c·V/x`.
    pub formula: String,
    /// With the values in the user's own units: `(40.0 g/L) × 12.0 gal / 0.255`.
    pub numbers: String,
    /// The dimension that the arithmetic gave.
    pub dim: Dim,
}

/// Runs `work` with a tape, on which numbers are written in a style, or without one. The error is
/// a fault in a declaration, such as a sum of kilograms and metres.
pub fn with_tape<T>(style: Option<Style>, work: impl FnOnce() -> T) -> (T, Option<String>) {
    let fresh = style.map(|style| Tape { entries: Vec::new(), fault: None, style });
    let outer = TAPE.replace(fresh);
    let result = work();
    let fault = TAPE.replace(outer).and_then(|tape| tape.fault);
    (result, fault)
}

/// Writes an entry, if a tape is running.
pub(super) fn push(dim: Dim, expr: impl FnOnce() -> Expr) -> u32 {
    TAPE.with_borrow_mut(|tape| {
        let Some(tape) = tape else { return OFF };
        tape.entries.push((expr(), dim));
        tape.entries.len() as u32 - 1
    })
}

/// Notes a fault in a declaration, such as a sum of kilograms and metres.
pub(super) fn fault(text: String) {
    TAPE.with_borrow_mut(|tape| tape.iter_mut().for_each(|t| t.fault = Some(text.clone())));
}

/// The dimensions of quantities; none without a tape.
pub(super) fn dims<const N: usize>(of: [Q; N]) -> [Dim; N] {
    TAPE.with_borrow(|tape| of.map(|q| tape.as_ref().map_or(Dim::NONE, |tape| tape.dim(q))))
}

/// What the tape holds for a quantity; `None` without a tape.
pub(super) fn shown(q: Q) -> Option<Shown> {
    TAPE.with_borrow(|tape| {
        let tape = tape.as_ref()?;
        Some(Shown {
            formula: tape.text(q, Form::Symbols),
            numbers: tape.text(q, Form::Numbers),
            dim: tape.dim(q),
        })
    })
}

#[derive(Clone, Copy, PartialEq)]
enum Form {
    Symbols,
    Numbers,
}

/// How tightly a piece of text binds; a looser one is put in brackets.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Binds {
    Sum,
    Ratio,
    Product,
    Divisor,
    Atom,
}

impl Tape {
    fn dim(&self, q: Q) -> Dim {
        self.entries.get(q.node as usize).map_or(Dim::NONE, |(_, dim)| *dim)
    }

    fn symbol(&self, q: Q) -> Option<Value> {
        match self.entries.get(q.node as usize)? {
            (Expr::Symbol(_, value), _) => Some(*value),
            _ => None,
        }
    }

    fn text(&self, q: Q, form: Form) -> String {
        let mut text = String::new();
        self.write(&mut text, q, form);
        text
    }

    /// "40 g/L" must not run together with a product or a division around it.
    fn write_number(&self, text: &mut String, value: Value) -> Binds {
        let shown = self.style.show(value.si, value.unit);
        text.push_str(&shown);
        if shown.contains(['/', '×']) { Binds::Ratio } else { Binds::Divisor }
    }

    /// Writes a part of a formula, in brackets if it binds more loosely than `least`.
    fn write_part(&self, text: &mut String, q: Q, form: Form, least: Binds) {
        let start = text.len();
        if self.write(text, q, form) < least {
            text.insert(start, '(');
            text.push(')');
        }
    }

    fn write(&self, text: &mut String, q: Q, form: Form) -> Binds {
        let Some((expr, _)) = self.entries.get(q.node as usize) else {
            text.push_str(&self.style.literal(q.si));
            return Binds::Atom;
        };
        let mut two = |a: &Q, bound_a: Binds, between: &str, b: &Q, bound_b: Binds| {
            self.write_part(text, *a, form, bound_a);
            text.push_str(between);
            self.write_part(text, *b, form, bound_b);
        };
        let (times, over) = if form == Form::Symbols { ("·", "/") } else { (" × ", " / ") };
        match expr {
            Expr::Symbol(name, _) if form == Form::Symbols => {
                text.push_str(name);
                Binds::Atom
            }
            Expr::Symbol(_, value) => self.write_number(text, *value),
            Expr::Sum(a, b) => {
                two(a, Binds::Sum, " + ", b, Binds::Sum);
                Binds::Sum
            }
            Expr::Difference(a, b) => {
                match (self.symbol(*a), self.symbol(*b)) {
                    // Two thermometers are read on the same scale: never 60 °C − 68 °F.
                    (Some(a), Some(b)) if form == Form::Numbers && b.unit.kind.dim().is_point() => {
                        self.write_number(text, a);
                        text.push_str(" − ");
                        self.write_number(text, Value { unit: a.unit, ..b });
                    }
                    _ => two(a, Binds::Sum, " − ", b, Binds::Ratio),
                }
                Binds::Sum
            }
            Expr::Product(a, b) => {
                two(a, Binds::Product, times, b, Binds::Divisor);
                Binds::Product
            }
            Expr::Quotient(a, b) => {
                two(a, Binds::Product, over, b, Binds::Divisor);
                Binds::Product
            }
            Expr::Negative(a) => {
                text.push('−');
                self.write_part(text, *a, form, Binds::Product);
                Binds::Product
            }
            Expr::Power(a, over, under) => {
                self.write_part(text, *a, form, Binds::Atom);
                text.push_str(&match under {
                    1 => format!("^{over}"),
                    _ => format!("^({over}/{under})"),
                });
                Binds::Divisor
            }
            Expr::Call(name, arguments) => {
                text.push_str(name);
                for (at, argument) in arguments.iter().enumerate() {
                    text.push_str(if at == 0 { "(" } else { "; " });
                    self.write_part(text, *argument, form, Binds::Sum);
                }
                text.push_str(if arguments.is_empty() { "()" } else { ")" });
                Binds::Atom
            }
        }
    }
}
