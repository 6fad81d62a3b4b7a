//! How a surgeon usually plans: offered for a case, never applied to it without being asked.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::case::{Approach, Command, Draft};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;

/// A surgeon's own ways.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct OwnWays {
    /// Formulas shown on the ladder; every one while none is named.
    pub formulas: Vec<Formula>,
    /// Which available power is proposed.
    pub convention: Option<Convention>,
    /// Effect of the surgeon's own phacoemulsification incision.
    pub phaco_incision: Option<IncisionEffect>,
    /// Effect of the surgeon's own small-incision tunnel.
    pub small_incision: Option<IncisionEffect>,
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

    /// What would put the surgeon's own convention into the case; nothing if there is none, or if
    /// the case has it.
    pub fn convention_for(&self, draft: &Draft) -> Option<Command> {
        let mine = self.convention?;
        (draft.lens.convention != Some(mine)).then_some(Command::ChooseConvention(Some(mine)))
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
mod tests {
    use millrace_core::case::update;
    use millrace_core::quantity::HundredthDiopters;

    use super::*;

    fn mine() -> OwnWays {
        let [flattening, scatter] = [25, 40].map(HundredthDiopters::new);
        OwnWays {
            formulas: vec![Formula::Haigis],
            convention: Some(Convention::FirstMyopic),
            phaco_incision: IncisionEffect::new(flattening, scatter, 60, None).ok(),
            small_incision: None,
        }
    }

    #[test]
    fn nothing_is_offered_that_was_not_set_or_already_holds() {
        let empty = OwnWays::default();
        let mut draft = Draft::default();
        assert_eq!(empty.convention_for(&draft), None);
        assert_eq!(empty.incision_for(&draft), None);
        assert_eq!(mine().incision_for(&draft), None);
        draft.approach.approach = Some(Approach::SmallIncision);
        assert_eq!(mine().incision_for(&draft), None);
        draft.approach.approach = Some(Approach::Phacoemulsification);
        for offer in [mine().convention_for(&draft), mine().incision_for(&draft)] {
            draft = update(&draft, offer.unwrap()).unwrap();
        }
        assert_eq!(draft.lens.convention, Some(Convention::FirstMyopic));
        assert_eq!(draft.approach.incision_effect, mine().phaco_incision);
        assert_eq!(mine().convention_for(&draft), None);
        assert_eq!(mine().incision_for(&draft), None);
    }

    #[test]
    fn the_formula_planned_by_is_never_hidden() {
        let mut draft = Draft::default();
        assert!(OwnWays::default().shows(Formula::T2, &draft));
        assert!(mine().shows(Formula::Haigis, &draft));
        assert!(!mine().shows(Formula::T2, &draft));
        draft.lens.formula = Some(Formula::T2);
        assert!(mine().shows(Formula::T2, &draft));
    }
}
