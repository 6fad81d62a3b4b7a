//! The mark on a print of a draft, and on a signed sheet that is no longer the one to work by: across every page, and in a band at its
//! head and foot. What was signed stays as it is under it.

use chrono::{DateTime, Utc};
use millrace_core::signing::SheetNumber;
use millrace_wording::{Words, sheet as say};
use serde::Serialize;

/// Why a signed sheet is no longer the one to work by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outdated {
    /// The current sheet of the case took its place.
    SupersededBy(SheetNumber),
    /// No later sheet was signed, but the case was saved again, last at this moment.
    ChangedSince(DateTime<Utc>),
}

/// What the template is given of either.
#[derive(Serialize)]
pub(crate) struct Mark {
    /// Lines across the page.
    pub(crate) across: [String; 2],
    /// What the bands say.
    pub(crate) band: String,
    /// What follows from it, beside that.
    pub(crate) note: String,
}

impl Mark {
    /// On a print that nobody signed.
    pub(crate) fn of_draft(words: Words) -> Self {
        Self {
            across: [
                say::draft(words).to_owned(),
                say::not_signed_across(words).to_owned(),
            ],
            band: say::draft_band(words).to_owned(),
            note: say::draft_note(words).to_owned(),
        }
    }
}

impl Outdated {
    pub(crate) fn mark(self, words: Words) -> Mark {
        match self {
            Self::SupersededBy(by) => Mark {
                across: [
                    say::superseded_across(words).to_owned(),
                    say::superseded_across_by(words, by.get()),
                ],
                band: say::superseded_band(words, by.get()),
                note: say::superseded_note(words).to_owned(),
            },
            Self::ChangedSince(at) => Mark {
                across: [
                    say::changed_across(words).to_owned(),
                    say::changed_across_since(words).to_owned(),
                ],
                band: say::changed_band(words).to_owned(),
                note: say::changed_note(words, at),
            },
        }
    }

    /// The title of a sheet with this number.
    pub(crate) fn title(self, words: Words, number: &str) -> String {
        match self {
            Self::SupersededBy(by) => say::title_superseded(words, number, by.get()),
            Self::ChangedSince(_) => say::title_changed(words, number),
        }
    }
}
