//! What a surgeon's own incision does to the cornea, as entered so far: for a case, and for all of them.

use chrono::NaiveDate;
use millrace_core::astigmatism::IncisionEffect;
use millrace_core::quantity::HundredthDiopters;

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
    pub(super) fn made(&self) -> Option<Result<IncisionEffect, String>> {
        let made = IncisionEffect::new(self.flattening?, self.scatter?, self.eyes?, self.on);
        Some(made.map_err(|error| error.to_string()))
    }

    /// What is not entered yet.
    pub(super) fn missing(&self) -> Vec<&'static str> {
        [
            self.flattening.is_none().then_some("flattening"),
            self.scatter.is_none().then_some("scatter"),
            self.eyes.is_none().then_some("number of eyes"),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
