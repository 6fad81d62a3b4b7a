//! What a surgeon's own incision does to the cornea, as entered so far: for a case, and for all of them.

use chrono::NaiveDate;
use millrace_core::astigmatism::IncisionEffect;
use millrace_core::quantity::{HundredthDiopters, OutOfRange};
use millrace_wording::Words;
use millrace_wording::desk::settings as say;

use crate::widgets::Parts;

/// Its figures; the day may stay unknown.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct IncisionParts {
    pub(super) flattening: Option<HundredthDiopters>,
    pub(super) scatter: Option<HundredthDiopters>,
    pub(super) eyes: Option<u32>,
    pub(super) on: Option<NaiveDate>,
}

impl Parts for IncisionParts {
    type Whole = IncisionEffect;

    fn of(effect: &IncisionEffect) -> Self {
        Self {
            flattening: Some(effect.flattening()),
            scatter: Some(effect.scatter()),
            eyes: Some(effect.eyes()),
            on: effect.on(),
        }
    }

    fn whole(&self) -> Option<IncisionEffect> {
        self.made()?.ok()
    }
}

impl IncisionParts {
    /// The effect once its three numbers are there, or why they are none.
    pub(super) fn made(&self) -> Option<Result<IncisionEffect, OutOfRange>> {
        let (flattening, scatter, eyes) = (self.flattening?, self.scatter?, self.eyes?);
        Some(IncisionEffect::new(flattening, scatter, eyes, self.on))
    }

    /// What is not entered yet.
    pub(super) fn missing(&self, words: Words) -> Vec<&'static str> {
        let parts = [
            (say::flattening_missing(words), self.flattening.is_none()),
            (say::scatter_missing(words), self.scatter.is_none()),
            (say::eyes_missing(words), self.eyes.is_none()),
        ];
        parts
            .into_iter()
            .filter_map(|(what, is_missing)| is_missing.then_some(what))
            .collect()
    }
}
