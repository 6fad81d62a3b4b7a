//! A field for one exact quantity.

use egui::{Align2, Id, Ui};

use super::field::{Field, Named};
use super::line_edit::{self, Ends, Line, LineEnd};
use super::quantity_kind::{Kind, has_sign};
use crate::words::in_use;
use millrace_wording::desk::widgets as say;

/// What a person did with a field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Commit<T> {
    Entered(T),
    Cleared,
}

impl<T> Commit<T> {
    /// The value, if one was entered.
    pub fn value(self) -> Option<T> {
        match self {
            Self::Entered(value) => Some(value),
            Self::Cleared => None,
        }
    }
}

impl Fielded<String> {
    pub(super) fn of_text(end: LineEnd) -> Self {
        let commit = |text: String| {
            if text.is_empty() {
                return Commit::Cleared;
            }
            Commit::Entered(text)
        };
        Self {
            commit: end.finished.map(commit),
            problem: end.problem,
        }
    }
}

impl<T> Commit<T> {
    /// The same change of something made from the value.
    pub fn map<U>(self, make: impl FnOnce(T) -> U) -> Commit<U> {
        match self {
            Self::Entered(value) => Commit::Entered(make(value)),
            Self::Cleared => Commit::Cleared,
        }
    }
}

/// What one pass of a field brought.
#[derive(Debug)]
pub struct Fielded<T> {
    /// The change, once per change.
    pub commit: Option<Commit<T>>,
    /// Why the text that stands there is not taken, in words.
    pub problem: Option<String>,
}

/// A field for one quantity: point or comma, exact, refused in words.
pub struct NumberField<'a, T: 'static> {
    id: Id,
    named: Named<'a>,
    kind: &'a Kind<T>,
    value: Option<T>,
    width: f32,
    first: Option<&'a str>,
    check: Option<&'a dyn Fn(T) -> Result<(), String>>,
}

impl<'a, T: Copy + PartialEq> NumberField<'a, T> {
    pub const WIDTH: f32 = 84.0;

    /// A field that shows `value`.
    pub fn new(id: Id, named: Named<'a>, kind: &'a Kind<T>, value: Option<T>) -> Self {
        Self {
            id,
            named,
            kind,
            value,
            width: Self::WIDTH,
            first: None,
            check: None,
        }
    }

    #[must_use]
    pub fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// What has to be said before a number can be taken; the number waits in the field until then.
    #[must_use]
    pub fn after(mut self, first: Option<&'a str>) -> Self {
        self.first = first;
        self
    }

    /// What else a value has to hold up to.
    #[must_use]
    pub fn check(mut self, check: &'a dyn Fn(T) -> Result<(), String>) -> Self {
        self.check = Some(check);
        self
    }

    pub fn show(self, ui: &mut Ui) -> Fielded<T> {
        let kind = self.kind;
        let words = in_use(ui);
        let judge = |text: &str| {
            let value = kind.parse(text, words)?;
            if let Some(check) = self.check {
                check(value)?;
            }
            match self.first {
                Some(first) => Err(first.to_owned()),
                None => Ok(()),
            }
        };
        let line = Line {
            field: Field {
                id: self.id,
                named: self.named,
            },
            shown: self
                .value
                .map(|value| (kind.write)(value, words))
                .unwrap_or_default(),
            align: Align2::RIGHT_CENTER,
            width: self.width,
            about: &|| (kind.range)(words),
            hint: "",
            ends: Ends::OnLeaving,
        };
        let end = line_edit::show(ui, &line, &judge);
        if end.problem.is_some()
            && let Some(value) = self.offer(ui, &judge)
        {
            return Fielded {
                commit: Some(Commit::Entered(value)),
                problem: None,
            };
        }
        let commit = end.finished.and_then(|text| {
            if text.is_empty() {
                return self.value.map(|_| Commit::Cleared);
            }
            let value = kind.parse(&text, words).ok()?;
            (self.value != Some(value)).then_some(Commit::Entered(value))
        });
        Fielded {
            commit,
            problem: end.problem,
        }
    }

    /// What the text may have been meant for, to be chosen beside the field; the value, once it is.
    fn offer(&self, ui: &mut Ui, judge: &dyn Fn(&str) -> Result<(), String>) -> Option<T> {
        let typed = line_edit::stands(ui, self.id)?;
        let words = in_use(ui);
        let value = |text: &str| self.kind.parse(text, words).ok();
        let unit = self.kind.unit;
        for text in with_a_sign(&typed, judge) {
            let value = value(&text)?;
            if line_edit::offer(ui, self.id, &(self.kind.write)(value, words)) {
                return Some(value);
            }
        }
        let value = value(&with_a_point(&typed, judge)?)?;
        let number = (self.kind.write)(value, words);
        let asked = say::meant(words, number, words.reference(unit));
        line_edit::offer(ui, self.id, &asked).then_some(value)
    }
}

/// Where nothing but the sign is missing: with either sign.
fn with_a_sign(typed: &str, judge: &dyn Fn(&str) -> Result<(), String>) -> Vec<String> {
    let both = ["+", "\u{2212}"].map(|sign| format!("{sign}{typed}"));
    let is_offered =
        !has_sign(typed) && judge(typed).is_err() && both.iter().all(|text| judge(text).is_ok());
    if is_offered { both.into() } else { Vec::new() }
}

/// Where nothing but the decimal point is missing: with it, if there is one place for it alone.
fn with_a_point(typed: &str, judge: &dyn Fn(&str) -> Result<(), String>) -> Option<String> {
    if typed.len() < 2 || !typed.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let pointed = (1..typed.len()).filter_map(|at| {
        let (whole, rest) = typed.split_at_checked(at)?;
        let text = format!("{whole}.{rest}");
        judge(&text).is_ok().then_some(text)
    });
    let mut found: Vec<_> = pointed.collect();
    let only = found.pop()?;
    found.is_empty().then_some(only)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Takes numbers from 1 to 40.
    fn judge(text: &str) -> Result<(), String> {
        let number: f64 = text.parse().map_err(|_| "no number".to_owned())?;
        let is_taken = (1.0..=40.0).contains(&number);
        is_taken.then_some(()).ok_or_else(|| "out".to_owned())
    }

    #[test]
    fn no_point_is_offered_where_it_would_be_a_guess() {
        assert_eq!(with_a_point("99", &judge).as_deref(), Some("9.9"));
        assert_eq!(with_a_point("125", &judge), None, "1.25 or 12.5");
        assert_eq!(with_a_point("007", &judge), None, "nothing fits");
        for text in ["", "9", "12.5", "-99", "9 9", "x9"] {
            assert_eq!(with_a_point(text, &judge), None, "{text}");
        }
    }
}
