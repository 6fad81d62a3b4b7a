//! When the refinement is offered, what it gives, and what it leaves alone.

use super::{Offer, Outcome, SecondEyeRefinement};
use crate::biometry::CornealSurgeryKind;
use crate::case::SecondEyeChoice;
use crate::iol_power::Formula;
use crate::iol_power::ladder::Convention;
use crate::lens::RecordConstants;
use crate::plan::Plan;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::testing::{DraftUnderTest, SURGERIES, earlier_operation, plan, sphere};
use crate::rules::testing_lens::meet_second_eye_conditions;

/// The second eye with every condition met, then changed.
fn second_eye(change: impl FnOnce(&mut DraftUnderTest)) -> SecondEyeRefinement {
    changed(change).second_eye.expect("an earlier operation")
}

fn changed(change: impl FnOnce(&mut DraftUnderTest)) -> Plan {
    plan(|draft| {
        meet_second_eye_conditions(draft);
        change(draft);
    })
}

fn set_error(draft: &mut DraftUnderTest, predicted: i32, achieved: i32) {
    let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
    earlier.predicted = sphere(predicted);
    earlier.achieved = sphere(achieved);
}

/// SRK/T in closed form at 50 digits (`tests/oracle/closed_forms.py`), AL 23.50 mm, K 43.50 and
/// 44.00 D, A 119: +21.00 D predicts 0.018306 D, +21.50 D −0.321036. The first eye came out 0.50 D
/// more myopic than predicted: half of it makes −0.231694 and −0.571036.
#[test]
fn half_the_error_is_added_beside_the_unrefined_prediction() {
    let second = second_eye(|draft| draft.chosen().power = Some(HundredthDiopters::new(2_150)));
    let refined = second.refined.unwrap();
    assert_eq!(refined.formula, Formula::SrkT);
    assert_eq!(refined.shift, Diopters::new(-0.25));
    for (power, unrefined, with_half) in [
        (2_100, 0.018_306, -0.231_694),
        (2_150, -0.321_036, -0.571_036),
    ] {
        let pair = refined
            .rungs
            .iter()
            .find(|pair| pair.power.hundredths() == power)
            .unwrap();
        assert!((pair.unrefined.d() - unrefined).abs() <= 0.000_000_5);
        assert!((pair.refined.d() - with_half).abs() <= 0.000_000_5);
    }
    let chosen = refined.chosen.unwrap();
    assert!((chosen.refined.d() - -0.571_036).abs() <= 0.000_000_5);
}

/// From the numbers above, target 0: the weakest power on the myopic side is +21.50 D unrefined and
/// +21.00 D refined. A step of 0.5 D is about 0.34 D there, so +20.50 D predicts about +0.35 D, and
/// +0.10 D refined: the strongest power on the hyperopic side, and the nearest.
#[test]
fn the_convention_may_propose_another_power_for_refined_predictions() {
    for (convention, unrefined, refined) in [
        (Convention::FirstMyopic, 2_150, 2_100),
        (Convention::FirstHyperopic, 2_100, 2_050),
        (Convention::Nearest, 2_100, 2_050),
    ] {
        let second = second_eye(|draft| draft.0.lens.convention = Some(convention));
        let proposed = second.refined.unwrap();
        let power = |power| Some(HundredthDiopters::new(power));
        assert_eq!(
            proposed.proposed_unrefined,
            power(unrefined),
            "{convention:?}"
        );
        assert_eq!(proposed.proposed_refined, power(refined), "{convention:?}");
    }
    let without = second_eye(|draft| draft.0.lens.convention = None);
    assert_eq!(without.refined.unwrap().proposed_refined, None);
}

/// By hand: +0.06 less −0.47 is +0.53 D, half of it +0.265 D; nothing is rounded on the way.
#[test]
fn the_direction_of_the_error_is_that_of_the_shift() {
    for (predicted, achieved, error, shift) in
        [(-47, 6, 53, 0.265), (0, 0, 0, 0.0), (0, -1, -1, -0.005)]
    {
        let second = second_eye(|draft| set_error(draft, predicted, achieved));
        assert_eq!(second.error, HundredthDiopters::new(error).into());
        assert_eq!(second.refined.unwrap().shift, Diopters::new(shift));
    }
}

type Change = fn(&mut DraftUnderTest);

#[test]
fn no_refined_number_without_every_condition() {
    let not_met: [(usize, Change); 10] = [
        // 43.75 D against 44.36 D.
        (0, |draft| {
            draft.set_fellow_keratometry("44.11 D at 1.3375", "44.61 D at 1.3375");
        }),
        (1, |draft| {
            draft.fellow().earlier_operation = Some(earlier_operation(Some(true)));
        }),
        (2, |draft| draft.0.lens.formula = Some(Formula::Haigis)),
        (2, |draft| {
            let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
            earlier.formula = Some(Formula::T2);
        }),
        (3, |draft| draft.operate_cornea(CornealSurgeryKind::Other)),
        (3, |draft| {
            draft.operate_cornea(SURGERIES[0]);
            draft.fellow().state = draft.operated().state.clone();
            draft.operated().state.corneal_surgery = None;
        }),
        // One step over 1.50 D on either side.
        (4, |draft| set_error(draft, -25, -176)),
        (4, |draft| set_error(draft, -25, 126)),
        // 23.50 mm against 23.801 mm.
        (5, |draft| draft.set_axial_lengths("23.50 mm", "23.801 mm")),
        (6, |draft| {
            let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
            earlier.lens_model = Some("TEST-2".to_owned());
        }),
    ];
    for (index, change) in not_met {
        let second = second_eye(change);
        assert_eq!(second.offer, Offer::ConditionNotMet);
        assert_eq!(second.refined, None);
        for (at, condition) in second.conditions.iter().enumerate() {
            let fails = matches!(condition.outcome, Outcome::NotMet(_));
            assert_eq!(fails, at == index, "{condition:?}");
        }
    }
}

#[test]
fn no_refined_number_while_a_condition_cannot_be_told() {
    let untold: [(usize, Change); 10] = [
        (0, |draft| draft.fellow().keratometry = None),
        (0, |draft| draft.operated().keratometry = None),
        (1, |draft| {
            draft.fellow().earlier_operation = Some(earlier_operation(None));
        }),
        (2, |draft| draft.0.lens.formula = None),
        (2, |draft| {
            draft.fellow().earlier_operation.as_mut().unwrap().formula = None;
        }),
        (3, |draft| draft.operated().state.corneal_surgery = None),
        (3, |draft| draft.fellow().state.corneal_surgery = None),
        (5, |draft| draft.fellow().axial_length = None),
        (6, |draft| {
            draft
                .fellow()
                .earlier_operation
                .as_mut()
                .unwrap()
                .lens_model = None;
        }),
        (6, DraftUnderTest::without_lens),
    ];
    for (index, change) in untold {
        let second = second_eye(change);
        assert_eq!(second.offer, Offer::CannotBeTold);
        assert_eq!(second.refined, None);
        for (at, condition) in second.conditions.iter().enumerate() {
            let untold = matches!(condition.outcome, Outcome::CannotBeTold(_));
            assert_eq!(untold, at == index, "{condition:?}");
        }
    }
    // A condition that fails weighs more than one that cannot be told.
    let both = second_eye(|draft| {
        draft.fellow().keratometry = None;
        draft.fellow().earlier_operation = Some(earlier_operation(Some(true)));
    });
    assert_eq!(both.offer, Offer::ConditionNotMet);
}

#[test]
fn what_was_decided_changes_no_prediction_and_no_proposal() {
    let with = |choice| {
        changed(|draft| {
            draft.chosen().power = Some(HundredthDiopters::new(2_150));
            draft.0.lens.second_eye = choice;
        })
    };
    let undecided = with(None);
    for choice in [SecondEyeChoice::Refined, SecondEyeChoice::Unrefined] {
        let decided = with(Some(choice));
        assert_eq!(decided.ladder, undecided.ladder);
        let [decided, undecided] =
            [&decided, &undecided].map(|plan| plan.second_eye.as_ref().unwrap());
        assert_eq!(decided.choice, Some(choice));
        assert_eq!(decided.refined, undecided.refined);
    }
}

/// The limits themselves pass: 1.50 D off, and lengths 0.30 mm apart.
#[test]
fn at_its_limits_the_refinement_is_offered() {
    for change in [
        (|draft| set_error(draft, -25, -175)) as fn(&mut DraftUnderTest),
        |draft| set_error(draft, -25, 125),
        |draft| draft.set_axial_lengths("23.50 mm", "23.80 mm"),
        |draft| draft.set_axial_lengths("23.50 mm", "23.20 mm"),
    ] {
        assert_eq!(second_eye(change).offer, Offer::Offered);
    }
}

/// Only its error counts: neither the first eye's lens power nor, within the limit, its length.
#[test]
fn the_first_eyes_lens_enters_nothing() {
    let as_is = second_eye(|_| {});
    let other = second_eye(|draft| {
        draft.set_axial_lengths("23.50 mm", "23.70 mm");
        let earlier = draft.fellow().earlier_operation.as_mut().unwrap();
        earlier.lens_power = HundredthDiopters::new(1_000);
    });
    assert_eq!((as_is.error, as_is.refined), (other.error, other.refined));
    assert!(plan(|_| {}).second_eye.is_none());
}

#[test]
fn without_a_ladder_or_an_answer_there_is_nothing_to_refine() {
    for second in [
        second_eye(|draft| draft.0.lens.target = None),
        second_eye(|draft| draft.chosen().record.constants = RecordConstants::default()),
    ] {
        let refined = second.refined.unwrap();
        assert_eq!((refined.rungs, refined.chosen), (Vec::new(), None));
        assert_eq!(refined.proposed_refined, None);
    }
}
