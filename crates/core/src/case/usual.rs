//! What a surgeon usually plans with, chosen by one act.

use super::{Command, Slot};
use crate::iol_power::Formula;
use crate::iol_power::ladder::Convention;
use crate::lens::{LensRecord, OtherRecord};

/// What a surgeon usually plans with; what is left out stays in the case as it is.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct UsualPlan {
    /// The planned lens, with what the clinic's other records of its model say.
    pub lens: Option<(LensRecord, Vec<OtherRecord>)>,
    /// The formula to plan by.
    pub formula: Option<Formula>,
    /// Which available power is proposed.
    pub convention: Option<Convention>,
}

impl UsualPlan {
    /// Whether it chooses nothing.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The same as single changes.
    pub(super) fn changes(self) -> impl Iterator<Item = Command> {
        let lens = self.lens.map(|(record, others)| {
            Command::ChooseLens(Slot::Planned, Some(Box::new(record)), others)
        });
        let formula = self.formula.map(|it| Command::ChooseFormula(Some(it)));
        let convention = self
            .convention
            .map(|it| Command::ChooseConvention(Some(it)));
        lens.into_iter().chain(formula).chain(convention)
    }
}
