//! What lies ready if the planned lens cannot be used: a spare for bag or sulcus, and a lens for
//! the anterior chamber.

use crate::case::{Draft, LensPlan};
use crate::iol_power::ladder::Ladder;
use crate::iol_power::sulcus::{StepwiseChange, by_vergence, five_percent, stepwise};
use crate::iol_power::{Formula, Refusal};
use crate::lens::{LensRecord, LensSite};
use crate::limits::Limits;
use crate::prediction::{formula_inputs, shown_formulas};
use crate::quantity::{Diopters, Micrometers};

/// The spare lens.
#[derive(Clone, Debug)]
pub struct SparePlan {
    /// Its ladder in the bag, with its own constants.
    pub bag: Ladder,
    /// Its power in the sulcus, per formula; empty if the maker does not allow it there.
    pub sulcus: Vec<SulcusPower>,
    /// How far forward of the bag it is taken to sit.
    pub sulcus_shift: Micrometers,
}

/// Power for the sulcus by one formula: two published rules beside the vergence result.
#[derive(Clone, Debug)]
pub struct SulcusPower {
    /// The formula.
    pub formula: Formula,
    /// Exact power in the bag.
    pub bag: Diopters,
    /// Change by the stepwise rule, which speaks of positive powers only.
    pub stepwise: Option<StepwiseChange>,
    /// Power by the rule of five percent, which speaks of positive powers only.
    pub five_percent: Option<Diopters>,
    /// Power by vergence with the lens forward.
    pub vergence: Result<Diopters, Refusal>,
}

pub(super) fn spare_plan(draft: &Draft, limits: &Limits) -> Option<SparePlan> {
    let record = draft.lens.spare.as_ref()?;
    let bag = ladder_for(draft, record)?;
    let target = bag.target.diopters();
    let shift = limits.sulcus_shift;
    let mut sulcus = Vec::new();
    if record.may_sit_in_sulcus {
        for column in &bag.columns {
            let Ok(answer) = &column.answer else { continue };
            if !column.formula.has_fitted_constant() {
                continue;
            }
            // Both published rules speak of positive powers; vergence holds for any.
            let positive = Some(answer.exact_power).filter(|power| 0.0 < power.d());
            sulcus.push(SulcusPower {
                formula: column.formula,
                bag: answer.exact_power,
                stepwise: positive.map(stepwise),
                five_percent: positive.map(five_percent),
                vergence: by_vergence(answer.eye, shift.millimeters(), target),
            });
        }
    }
    Some(SparePlan {
        bag,
        sulcus,
        sulcus_shift: shift,
    })
}

pub(super) fn chamber_lens_ladder(draft: &Draft) -> Option<Ladder> {
    ladder_for(draft, draft.lens.chamber_lens.as_ref()?)
}

/// The ladder of another lens for the same eye and target.
fn ladder_for(draft: &Draft, record: &LensRecord) -> Option<Ladder> {
    let LensPlan {
        target, convention, ..
    } = draft.lens;
    let (operated, _) = draft.eyes.split(draft.operation.eye?);
    let inputs = formula_inputs(operated.0, &draft.lens, Some(record));
    let mut formulas = shown_formulas(&inputs);
    if record.site == LensSite::AnteriorChamber {
        // The thick-lens eye knows only where a lens rests in the bag.
        formulas.retain(|formula| formula.has_fitted_constant());
    }
    Some(Ladder::compute(
        &formulas,
        &inputs,
        &record.powers,
        target?,
        convention,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{DraftUnderTest, ordinary_draft};
    use crate::rules::testing_lens::lens_record;

    fn spare(change: impl FnOnce(&mut DraftUnderTest, &mut LensRecord)) -> Option<SparePlan> {
        let mut draft = ordinary_draft();
        draft.plan_lens();
        let mut record = LensRecord {
            may_sit_in_sulcus: true,
            ..lens_record()
        };
        change(&mut draft, &mut record);
        draft.0.lens.spare = Some(record);
        spare_plan(&draft.0, Limits::shipped())
    }

    /// Forward of the bag the lens works harder, so less power is needed there.
    #[test]
    fn a_lens_allowed_in_the_sulcus_gets_three_powers_per_formula() {
        let plan = spare(|_, _| {}).unwrap();
        assert_eq!(plan.sulcus_shift, Micrometers::new(500));
        let answering = plan
            .bag
            .columns
            .iter()
            .filter(|column| column.answer.is_ok())
            .count();
        assert_eq!((plan.sulcus.len(), answering), (5, 5));
        for power in &plan.sulcus {
            assert!(power.vergence.unwrap() < power.bag);
            assert!((power.five_percent.unwrap().d() / power.bag.d() - 0.95).abs() < 1e-12);
        }
    }

    #[test]
    fn no_sulcus_power_where_the_maker_does_not_allow_it_or_the_rules_do_not_speak() {
        let forbidden = spare(|_, record| record.may_sit_in_sulcus = false).unwrap();
        assert!(forbidden.sulcus.is_empty());
        // A very long eye needs a negative power, of which neither published rule speaks.
        let long = spare(|draft, _| draft.set_axial_length("38.00 mm")).unwrap();
        let negative = long.sulcus.iter().filter(|power| power.bag.d() <= 0.0);
        let mut count = 0;
        for power in negative {
            assert_eq!((power.stepwise, power.five_percent), (None, None));
            assert!(power.vergence.is_ok());
            count += 1;
        }
        assert!(0 < count);
    }

    #[test]
    fn without_a_target_there_is_no_spare_plan() {
        assert!(spare(|draft, _| draft.0.lens.target = None).is_none());
        let met = spare(|draft, _| draft.0.lens.target = Some(HundredthDiopters::new(-50)));
        assert_eq!(met.unwrap().bag.target, HundredthDiopters::new(-50));
    }
}
