//! A field for one exact quantity.

use egui::{Align2, Id, Ui};

use super::field::{Field, Named};
use super::line_edit::{self, Ends, Line, LineEnd};
use super::minor_button;
use super::quantity_kind::{Kind, has_sign};
use crate::words::in_use;

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
            && let Some(value) = self.offer_signs(ui, &judge)
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

    /// Where nothing but the sign is missing, both signs stand beside the field; the value, once one is chosen.
    fn offer_signs(&self, ui: &mut Ui, judge: &dyn Fn(&str) -> Result<(), String>) -> Option<T> {
        let typed = line_edit::stands(ui, self.id)?;
        if has_sign(&typed) || judge(&typed).is_ok() {
            return None;
        }
        let both = ["+", "\u{2212}"].map(|sign| format!("{sign}{typed}"));
        if both.iter().any(|text| judge(text).is_err()) {
            return None;
        }
        let words = in_use(ui);
        for text in both {
            let value = self.kind.parse(&text, words).ok()?;
            let button = minor_button(ui, &(self.kind.write)(value, words));
            if button.clicked() {
                line_edit::give_back(ui, self.id);
                return Some(value);
            }
        }
        None
    }
}
