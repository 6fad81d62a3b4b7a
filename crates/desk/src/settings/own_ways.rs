//! How a surgeon usually plans: offered for a case, never applied to it without being asked.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::case::{Approach, Command, Draft, Slot, UsualPlan};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{LensRecord, OtherRecord};

/// A surgeon's own ways.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct OwnWays {
    /// Formulas shown on the ladder; every one while none is named.
    pub formulas: Vec<Formula>,
    /// The formula planned by.
    pub planned_by: Option<Formula>,
    /// The lens planned.
    pub lens: Option<UsualLens>,
    /// Which available power is proposed.
    pub convention: Option<Convention>,
    /// Effect of the surgeon's own phacoemulsification incision.
    pub phaco_incision: Option<IncisionEffect>,
    /// Effect of the surgeon's own small-incision tunnel.
    pub small_incision: Option<IncisionEffect>,
}

/// A lens as it is called among the clinic's records.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UsualLens {
    pub name: String,
    pub model: String,
}

impl UsualLens {
    pub fn of(record: &LensRecord) -> Self {
        Self {
            name: record.name.clone(),
            model: record.model.clone(),
        }
    }

    /// The one record of this name; nothing where none has it, or several do: constants are not guessed.
    fn among<'a>(&self, clinic: &'a [LensRecord]) -> Option<&'a LensRecord> {
        let mut named = clinic.iter().filter(|record| Self::of(record) == *self);
        let only = named.next()?;
        named.next().is_none().then_some(only)
    }
}

impl OwnWays {
    /// Whether a formula is shown on the ladder of this case: one of the surgeon's own, or the one
    /// that the case is planned by, which is never hidden.
    pub fn shows(&self, formula: Formula, draft: &Draft) -> bool {
        self.formulas.is_empty()
            || self.formulas.contains(&formula)
            || draft.lens.formula == Some(formula)
    }

    /// The effect of the surgeon's own incision by an approach.
    pub const fn incision(&self, approach: Approach) -> Option<IncisionEffect> {
        match approach {
            Approach::Phacoemulsification => self.phaco_incision,
            Approach::SmallIncision => self.small_incision,
        }
    }

    /// What the surgeon usually plans with and the case does not say yet: lens and formula where none is
    /// chosen, the convention where it differs. What was chosen for this eye is never offered another one.
    pub fn usual_for(&self, draft: &Draft, clinic: &[LensRecord]) -> UsualPlan {
        let lens = self.lens.as_ref().filter(|_| draft.lens.record().is_none());
        let lens = lens.and_then(|lens| lens.among(clinic));
        let lens = lens.filter(|record| record.may_sit_in(Slot::Planned.place()));
        UsualPlan {
            lens: lens.map(|record| (record.clone(), OtherRecord::of_same_model(record, clinic))),
            formula: self.planned_by.filter(|_| draft.lens.formula.is_none()),
            convention: self
                .convention
                .filter(|mine| draft.lens.convention != Some(*mine)),
        }
    }

    /// What would put the effect of the surgeon's own incision into the case; nothing if there is
    /// none for its approach, or if the case has it.
    pub fn incision_for(&self, draft: &Draft) -> Option<Command> {
        let mine = self.incision(draft.approach.approach?)?;
        let differs = draft.approach.incision_effect != Some(mine);
        differs.then_some(Command::SetIncisionEffect(Some(mine)))
    }
}

#[cfg(test)]
mod tests;
