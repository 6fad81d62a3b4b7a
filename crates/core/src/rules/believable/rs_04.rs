//! `RS-04`: keratometry before and after corneal surgery contradict each other.

use super::{corneal_surgery, mean_k, surgery_name};
use crate::biometry::{CornealSurgery, CornealSurgeryKind};
use crate::evidence::{HOUSE, Source, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::check::Unsigned;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// How far the fall of K and the recorded correction may be apart (assumption).
const TOLERANCE: Unsigned = Unsigned(HundredthDiopters::new(200));

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "RS-04",
    title: "Keratometry before and after corneal surgery contradict each other",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Mean K of the operated eye before the surgery against mean K now, both at index 1.3375, to the nearest 0.01 D. After laser for myopia K before must be the higher one, after laser for hyperopia the lower one; equal ones do not pass. After laser for myopia with a known correction, how far K fell is compared with it too; 2.00 D apart passes. Other surgery is not asked about.",
    why: "Laser for myopia flattens the cornea and laser for hyperopia steepens it, about as much as was corrected. Numbers that say otherwise may have been exchanged, belong to the other eye, or be filed under the wrong surgery, and methods for operated corneas start from them. The tolerance of 2.00 D is a house value.",
    options: "Consider comparing both with their printouts, the eye they belong to, and the kind of surgery with the patient's papers. If they stand, the reason may be recorded.",
    sources: &[Source {
        work: HOUSE,
        locator: "direction of the change of K; within 2.00 D of the known correction",
        standing: Standing::Assumption,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    look(facts).unwrap_or_else(|verdict| verdict)
}

fn look(facts: &Facts<'_>) -> Result<Verdict, Verdict> {
    let kind = corneal_surgery(facts)?;
    let before_is = match kind {
        CornealSurgeryKind::MyopicLaser => "more",
        CornealSurgeryKind::HyperopicLaser => "less",
        CornealSurgeryKind::Other => {
            return Err(not_applicable(
                "which way other corneal surgery changes K is not known",
            ));
        }
    };
    let eye = facts.operated.0;
    let now = mean_k(eye).ok_or(not_evaluated("keratometry of the operated eye"))?;
    let surgery = eye.state.corneal_surgery;
    let before = surgery
        .and_then(CornealSurgery::power_before)
        .and_then(Unsigned::nearest)
        .ok_or(not_evaluated("keratometry before the corneal surgery"))?;

    // A reason recorded for one contradiction must not stand for both.
    let (mut measured, mut limits) = (Vec::new(), Vec::new());
    let myopic = kind == CornealSurgeryKind::MyopicLaser;
    let agrees = if myopic { now < before } else { before < now };
    if !agrees {
        measured.push(format!("K before {before}, now {now}"));
        let surgery = surgery_name(kind);
        limits.push(format!("{before_is} than {now} before {surgery}"));
    }
    if let Some(CornealSurgery::Done {
        correction: Some(correction),
        ..
    }) = surgery
        && myopic
    {
        let change = now.0 - before.0;
        let off = (change + correction).hundredths().abs();
        if TOLERANCE.0.hundredths() < off {
            measured.push(format!("change of K {change}, correction {correction}"));
            limits.push(format!("K lower by the correction, within {TOLERANCE}"));
        }
    }
    if measured.is_empty() {
        return Ok(Verdict::Satisfied);
    }
    Ok(Finding::new(measured.join("; "), limits.join("; ")).into())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgeryKind::{HyperopicLaser, MyopicLaser, Other};
    use crate::biometry::{CornealSurgery, CornealSurgeryKind};
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

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
                correction: correction.map(HundredthDiopters::new),
            });
        }
    }

    const EQUAL: [&str; 2] = ["43.75 D at 1.3375", "43.75 D at 1.3375"];
    const HIGHER: [&str; 2] = ["43.76 D at 1.3375", "43.76 D at 1.3375"];
    const LOWER: [&str; 2] = ["43.74 D at 1.3375", "43.74 D at 1.3375"];
    const MUCH_HIGHER: [&str; 2] = ["47.25 D at 1.3375", "48.25 D at 1.3375"];

    #[test]
    fn laser_for_myopia_lowers_k() {
        assert_satisfied(&RULE, operated(MyopicLaser, HIGHER, None));
        let limit = "more than 43.75 D before laser for myopia";
        for (before, measured) in [
            (EQUAL, "K before 43.75 D, now 43.75 D"),
            (LOWER, "K before 43.74 D, now 43.75 D"),
        ] {
            assert_finding(
                &RULE,
                operated(MyopicLaser, before, None),
                [measured, limit],
            );
        }
    }

    #[test]
    fn laser_for_hyperopia_raises_it() {
        assert_satisfied(&RULE, operated(HyperopicLaser, LOWER, None));
        let limit = "less than 43.75 D before laser for hyperopia";
        for (before, measured) in [
            (EQUAL, "K before 43.75 D, now 43.75 D"),
            (HIGHER, "K before 43.76 D, now 43.75 D"),
        ] {
            assert_finding(
                &RULE,
                operated(HyperopicLaser, before, None),
                [measured, limit],
            );
        }
    }

    /// By hand: mean K fell from 47.75 to 43.75 D, by 4.00 D.
    #[test]
    fn the_known_correction_may_be_2_diopters_off() {
        for correction in [200, 400, 600] {
            assert_satisfied(&RULE, operated(MyopicLaser, MUCH_HIGHER, Some(correction)));
        }
        for (correction, measured) in [
            (199, "change of K −4.00 D, correction +1.99 D"),
            (601, "change of K −4.00 D, correction +6.01 D"),
            (-400, "change of K −4.00 D, correction −4.00 D"),
        ] {
            assert_finding(
                &RULE,
                operated(MyopicLaser, MUCH_HIGHER, Some(correction)),
                [measured, "K lower by the correction, within 2.00 D"],
            );
        }
    }

    #[test]
    fn both_contradictions_are_shown() {
        assert_finding(
            &RULE,
            operated(MyopicLaser, LOWER, Some(300)),
            [
                "K before 43.74 D, now 43.75 D; change of K +0.01 D, correction +3.00 D",
                "more than 43.75 D before laser for myopia; K lower by the correction, within 2.00 D",
            ],
        );
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
