//! Which field it is, and what it is called.

use egui::{Id, Ui};

use super::line_edit;

/// How a field gets its name in the accessibility tree.
#[derive(Clone, Copy)]
pub enum Named<'a> {
    /// By a label that stands beside it, and its words.
    By(Id, &'a str),
    /// By words of its own, where no label stands beside it.
    As(&'a str),
}

#[derive(Clone, Copy)]
pub struct Field<'a> {
    /// Its edit: another case has another one.
    pub id: Id,
    /// What it is called in the accessibility tree.
    pub named: Named<'a>,
}

impl<'a> Field<'a> {
    /// One that a label stands beside.
    pub const fn by(id: Id, label: Id, words: &'a str) -> Self {
        Self {
            id,
            named: Named::By(label, words),
        }
    }

    /// One without a label beside it.
    pub const fn called(id: Id, words: &'a str) -> Self {
        Self {
            id,
            named: Named::As(words),
        }
    }
}

impl Field<'_> {
    /// Whether something is being typed into it that it has not taken yet.
    pub fn is_typed_into(&self, ui: &Ui) -> bool {
        line_edit::typed_into(ui, self.id).is_some_and(|text| !text.trim().is_empty())
    }
}

impl Named<'_> {
    pub(super) fn words(&self) -> &str {
        match self {
            Self::By(_, words) | Self::As(words) => words,
        }
    }
}
