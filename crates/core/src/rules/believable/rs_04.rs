//! `RS-04`: keratometry before and after corneal surgery contradict each other.

use super::{corneal_surgery, mean_k};
use crate::biometry::{CornealSurgery, CornealSurgeryKind};
use crate::evidence::{HOUSE, Standing};
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::{
    Because, Contradiction, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity,
};

/// How far the fall of K and the recorded correction may be apart (assumption).
pub const CORRECTION_TOLERANCE: HundredthDiopters = HundredthDiopters::new(200);

pub const RULE: Rule = Rule {
    id: "RS-04",
    title: "Keratometry before and after corneal surgery contradict each other",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Mean K of the operative eye before the surgery against mean K now, both at index 1.3375, to the nearest 0.01 D. After laser for myopia K before must be the higher one, after laser for hyperopia the lower one; equal ones do not pass. After laser for myopia with a known correction, how far K fell is compared with it too; 2.00 D apart passes. Other surgery is not asked about.",
    why: "Laser for myopia flattens the cornea and laser for hyperopia steepens it, about as much as was corrected. Numbers that say otherwise may have been exchanged, belong to the other eye, or be filed under the wrong surgery, and methods for corneas after refractive surgery start from them. The tolerance of 2.00 D is our own value.",
    options: "Consider comparing both with their printouts, the eye they belong to, and the kind of surgery with the patient's papers. If they stand, the reason may be recorded.",
    sources: &[Standing::Assumption.of(
        HOUSE,
        "direction of the change of K; within 2.00 D of the known correction",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let kind = corneal_surgery(facts)?;
    if kind == CornealSurgeryKind::Other {
        return Err(Because::OtherSurgeryUnknown.into());
    }
    let now = mean_k(facts)?;
    let surgery = facts.operated.0.state.corneal_surgery;
    let before = surgery
        .and_then(CornealSurgery::power_before)
        .and_then(Diopters::nearest_hundredth)
        .ok_or(Missing::KeratometryBefore)?;
    // A reason recorded for one contradiction must not stand for both.
    let mut found = Vec::new();
    let is_myopic = kind == CornealSurgeryKind::MyopicLaser;
    let agrees = if is_myopic {
        now < before
    } else {
        before < now
    };
    if !agrees {
        found.push(Contradiction::Direction { before, now });
    }
    if let Some(CornealSurgery::Done {
        correction: Some(correction),
        ..
    }) = surgery
        && is_myopic
    {
        let change = now - before;
        if (change + correction).abs() > CORRECTION_TOLERANCE {
            found.push(Contradiction::Correction { change, correction });
        }
    }
    if found.is_empty() {
        return Ok(None);
    }
    let limit = Limit::Changes(found.clone(), kind);
    Finding::new(Fact::Contradictions(found), limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgeryKind::{HyperopicLaser, MyopicLaser, Other};
    use crate::biometry::{CornealSurgery, CornealSurgeryKind};
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters,
    };
    use crate::rules::{Contradiction, Fact, Limit};

    /// Mean K now is 43.75 D (43.50 and 44.00 D).
    fn operated(
        kind: CornealSurgeryKind,
        before: [&str; 2],
        correction: Option<i32>,
    ) -> impl FnOnce(&mut DraftUnderTest) {
        let before = before.map(|text| text.parse().unwrap());
        move |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Done {
                kind,
                before: Some(before),
                correction: correction.map(diopters),
            });
        }
    }

    const EQUAL: [&str; 2] = ["43.75 D at 1.3375", "43.75 D at 1.3375"];
    const HIGHER: [&str; 2] = ["43.76 D at 1.3375", "43.76 D at 1.3375"];
    const LOWER: [&str; 2] = ["43.74 D at 1.3375", "43.74 D at 1.3375"];
    const MUCH_HIGHER: [&str; 2] = ["47.25 D at 1.3375", "48.25 D at 1.3375"];

    /// Mean K before the surgery against 43.75 D now.
    const fn direction(before: i32) -> Contradiction {
        let [before, now] = [diopters(before), diopters(4_375)];
        Contradiction::Direction { before, now }
    }

    const fn correction(change: i32, correction: i32) -> Contradiction {
        let [change, correction] = [diopters(change), diopters(correction)];
        Contradiction::Correction { change, correction }
    }

    #[track_caller]
    fn assert_contradict(
        kind: CornealSurgeryKind,
        change: impl FnOnce(&mut DraftUnderTest),
        found: &[Contradiction],
    ) {
        let limit = Limit::Changes(found.to_vec(), kind);
        assert_found(&RULE, change, Fact::Contradictions(found.to_vec()), limit);
    }

    #[test]
    fn laser_for_myopia_lowers_k() {
        assert_satisfied(&RULE, operated(MyopicLaser, HIGHER, None));
        for (before, hundredths) in [(EQUAL, 4_375), (LOWER, 4_374)] {
            let found = [direction(hundredths)];
            assert_contradict(MyopicLaser, operated(MyopicLaser, before, None), &found);
        }
    }

    #[test]
    fn laser_for_hyperopia_raises_it() {
        assert_satisfied(&RULE, operated(HyperopicLaser, LOWER, None));
        for (before, hundredths) in [(EQUAL, 4_375), (HIGHER, 4_376)] {
            let found = [direction(hundredths)];
            assert_contradict(
                HyperopicLaser,
                operated(HyperopicLaser, before, None),
                &found,
            );
        }
    }

    /// By hand: mean K fell from 47.75 to 43.75 D, by 4.00 D.
    #[test]
    fn the_known_correction_may_be_2_diopters_off() {
        for correction in [200, 400, 600] {
            assert_satisfied(&RULE, operated(MyopicLaser, MUCH_HIGHER, Some(correction)));
        }
        for corrected in [199, 601, -400] {
            let found = [correction(-400, corrected)];
            let change = operated(MyopicLaser, MUCH_HIGHER, Some(corrected));
            assert_contradict(MyopicLaser, change, &found);
        }
    }

    #[test]
    fn both_contradictions_are_shown() {
        let found = [direction(4_374), correction(1, 300)];
        assert_contradict(MyopicLaser, operated(MyopicLaser, LOWER, Some(300)), &found);
    }

    #[test]
    fn a_correction_of_myopia_says_nothing_of_hyperopia() {
        assert_satisfied(&RULE, operated(HyperopicLaser, LOWER, Some(900)));
    }

    #[test]
    fn other_surgery_and_none_do_not_concern_it() {
        assert_not_applicable(&RULE, operated(Other, LOWER, Some(300)));
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        });
    }

    #[test]
    fn the_record_and_both_keratometries_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().state.corneal_surgery = None);
        for kind in SURGERIES.into_iter().filter(|kind| *kind != Other) {
            assert_not_evaluated(&RULE, |draft| draft.operate_cornea(kind));
            assert_not_evaluated(&RULE, |draft| {
                operated(kind, HIGHER, None)(draft);
                draft.operated().keratometry = None;
            });
        }
    }
}
