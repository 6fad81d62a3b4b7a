//! What lies ready if the planned lens cannot be used.

use std::collections::BTreeMap;

use crate::case::{ChosenLens, Draft, Slot};
use crate::iol_power::ladder::Ladder;
use crate::iol_power::sulcus::{StepwiseChange, by_vergence, five_percent, stepwise};
use crate::iol_power::{Formula, Refusal};
use crate::lens::Place;
use crate::limits::Limits;
use crate::prediction::{formula_inputs, ladder_of};
use crate::quantity::{Diopters, Micrometers};

/// What is computed of a lens that lies ready.
#[derive(Clone, Debug)]
pub struct BackupPlan {
    /// Its ladder with its own constants; for a lens in the sulcus, what it would need in the bag.
    pub ladder: Ladder,
    /// Its powers in the sulcus, if that is its place.
    pub sulcus: Option<SulcusPowers>,
}

#[derive(Clone, Debug)]
pub struct SulcusPowers {
    /// How far forward of the bag the lens is taken to sit.
    pub shift: Micrometers,
    /// By each formula with a power for the bag.
    pub powers: Vec<SulcusPower>,
}

/// Power for the sulcus by one formula: two published rules beside the vergence result.
#[derive(Clone, Debug)]
pub struct SulcusPower {
    pub formula: Formula,
    /// Exact power in the bag.
    pub bag: Diopters,
    /// Change by the stepwise rule, which is silent under 9 D.
    pub stepwise: Option<StepwiseChange>,
    /// Power by the rule of five percent, which speaks of positive powers only.
    pub five_percent: Option<Diopters>,
    /// Power by vergence with the lens forward.
    pub vergence: Result<Diopters, Refusal>,
}

/// What is computed of every lens that lies ready; nothing without a target.
pub(super) fn backup_plans(draft: &Draft, limits: &Limits) -> BTreeMap<Place, BackupPlan> {
    let plan = |(slot, lens): (Slot, &ChosenLens)| match slot {
        Slot::Planned => None,
        Slot::Backup(place) => {
            let (operated, _) = draft.eyes.split(draft.operation.eye?);
            let inputs = formula_inputs(operated.0, &draft.lens, Some(&lens.record));
            let ladder = ladder_of(draft, slot, &inputs).ok()?;
            let sulcus = (place == Place::Sulcus).then(|| SulcusPowers::of(&ladder, limits));
            Some((place, BackupPlan { ladder, sulcus }))
        }
    };
    draft.lens.lenses.iter().filter_map(plan).collect()
}

impl SulcusPowers {
    fn of(bag: &Ladder, limits: &Limits) -> Self {
        let (target, shift) = (bag.target.diopters(), limits.sulcus_shift);
        let mut powers = Vec::new();
        for column in &bag.columns {
            let Ok(answer) = &column.answer else { continue };
            if !column.formula.has_fitted_constant() {
                continue;
            }
            // Both published rules speak of positive powers; vergence holds for any.
            let positive = Some(answer.exact_power).filter(|power| 0.0 < power.d());
            powers.push(SulcusPower {
                formula: column.formula,
                bag: answer.exact_power,
                stepwise: positive.and_then(stepwise),
                five_percent: positive.map(five_percent),
                vergence: by_vergence(answer.eye, shift.millimeters(), target),
            });
        }
        Self { shift, powers }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lens::LensRecord;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{DraftUnderTest, ordinary_draft};
    use crate::rules::testing_lens::lens_record;

    /// What is computed of a lens that lies ready for the sulcus.
    fn in_sulcus(change: impl FnOnce(&mut DraftUnderTest)) -> Option<BackupPlan> {
        let mut draft = ordinary_draft();
        draft.plan_lens();
        let record = LensRecord {
            may_sit_in_sulcus: true,
            ..lens_record()
        };
        let slot = Slot::Backup(Place::Sulcus);
        draft.0.lens.lenses.choose(slot, Some(record));
        change(&mut draft);
        backup_plans(&draft.0, Limits::shipped()).remove(&Place::Sulcus)
    }

    /// Forward of the bag the lens works harder, so less power is needed there.
    #[test]
    fn a_lens_for_the_sulcus_gets_three_powers_per_formula() {
        let plan = in_sulcus(|_| {}).unwrap();
        let sulcus = plan.sulcus.unwrap();
        assert_eq!(sulcus.shift, Micrometers::new(500));
        let columns = plan.ladder.columns.iter();
        let answering = columns.filter(|column| column.answer.is_ok()).count();
        assert_eq!((sulcus.powers.len(), answering), (5, 5));
        for power in &sulcus.powers {
            assert!(power.vergence.unwrap() < power.bag);
            assert!((power.five_percent.unwrap().d() / power.bag.d() - 0.95).abs() < 1e-12);
        }
    }

    /// A very long eye needs a negative power, of which neither published rule speaks.
    #[test]
    fn published_rules_are_silent_on_negative_powers() {
        let long = in_sulcus(|draft| draft.set_axial_length("38.00 mm")).unwrap();
        let powers = long.sulcus.unwrap().powers;
        let mut count = 0;
        for power in powers.iter().filter(|power| power.bag.d() <= 0.0) {
            assert_eq!((power.stepwise, power.five_percent), (None, None));
            assert!(power.vergence.is_ok());
            count += 1;
        }
        assert!(0 < count);
    }

    #[test]
    fn only_a_lens_for_the_sulcus_has_powers_there_and_none_without_a_target() {
        let mut draft = ordinary_draft();
        draft.plan_lens();
        let slot = Slot::Backup(Place::Bag);
        draft.0.lens.lenses.choose(slot, Some(lens_record()));
        let plans = backup_plans(&draft.0, Limits::shipped());
        assert_eq!(plans.len(), 1, "the planned lens is none of them");
        assert!(plans[&Place::Bag].sulcus.is_none());
        assert!(in_sulcus(|draft| draft.0.lens.target = None).is_none());
        let met = in_sulcus(|draft| draft.0.lens.target = Some(HundredthDiopters::new(-50)));
        assert_eq!(met.unwrap().ladder.target, HundredthDiopters::new(-50));
    }
}
