//! Sums in figures, as typed behind a sign of equality: `= 3*40`, `= (2 + 3)*4,5`.

use super::read::{LONGEST, number};
use super::{Style, Unread};

/// A sum in figures: `3*40`, `(2 + 3)*4,5`.
pub(super) struct Sum<'a> {
    rest: &'a str,
    style: &'a Style,
}

impl<'a> Sum<'a> {
    /// A text without its sign of equality.
    pub(super) fn of(text: &'a str, style: &'a Style) -> Sum<'a> {
        Sum { rest: text.trim(), style }
    }

    /// What it comes to.
    pub(super) fn whole(mut self) -> Result<f64, Unread> {
        let number = self.terms(0)?;
        if !self.rest.is_empty() {
            return Err(Unread::Wrong(format!("the sum cannot be read from “{}” on", self.rest)));
        }
        if !number.is_finite() {
            return Err(Unread::Wrong("the sum divides by zero or is too large".into()));
        }
        Ok(number)
    }

    fn next(&mut self, mark: char) -> bool {
        match self.rest.trim_start().strip_prefix(mark) {
            Some(rest) => {
                self.rest = rest.trim_start();
                true
            }
            None => false,
        }
    }

    fn terms(&mut self, depth: usize) -> Result<f64, Unread> {
        let mut sum = self.factors(depth)?;
        loop {
            if self.next('+') {
                sum += self.factors(depth)?;
            } else if self.next('-') {
                sum -= self.factors(depth)?;
            } else {
                return Ok(sum);
            }
        }
    }

    fn factors(&mut self, depth: usize) -> Result<f64, Unread> {
        let mut product = self.one(depth)?;
        loop {
            if self.next('*') {
                product *= self.one(depth)?;
            } else if self.next('/') {
                product /= self.one(depth)?;
            } else {
                return Ok(product);
            }
        }
    }

    fn one(&mut self, depth: usize) -> Result<f64, Unread> {
        if depth > LONGEST {
            return Err(Unread::Wrong("the sum has too many brackets".into()));
        }
        if self.next('-') {
            return Ok(-self.one(depth + 1)?);
        }
        if self.next('(') {
            let inner = self.terms(depth + 1)?;
            return if self.next(')') {
                Ok(inner)
            } else {
                Err(Unread::Wrong("the sum lacks a closing bracket".into()))
            };
        }
        let text = self.rest;
        let part = |&(at, c): &(usize, char)| {
            c.is_ascii_digit() || ".,eE".contains(c) || ("+-".contains(c) && text[..at].ends_with(['e', 'E']))
        };
        let end = text.char_indices().find(|found| !part(found)).map_or(text.len(), |(at, _)| at);
        let (figures, rest) = text.split_at(end);
        self.rest = rest.trim_start();
        match number(figures, self.style) {
            Err(Unread::Ambiguous([first, second])) => {
                let reason = format!("in the sum “{figures}” can be read as {first} or {second}");
                Err(Unread::Wrong(format!("{reason}; write one of these")))
            }
            Err(_) if figures.is_empty() => Err(Unread::Wrong("the sum lacks a number".into())),
            other => other,
        }
    }
}
