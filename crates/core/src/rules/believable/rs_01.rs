//! `RS-01`: an eye after corneal refractive surgery is planned by a formula that does not fit it, or by none.

use super::corneal_surgery;
use crate::evidence::{NO_SOURCE, Standing};
use crate::iol_power::Formula;
use crate::prediction::formula_inputs;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "RS-01",
    title: "Formula does not fit the corneal surgery",
    group: Group::Believable,
    severity: Severity::Stop,
    bearing: None,
    checks: "After recorded corneal surgery on the operative eye: whether the chosen formula fits that surgery. After laser for myopia the methods for corneas after refractive surgery pass: double-K SRK/T with the no-history K or the known correction, and Haigis with the modified radius. After laser for hyperopia only double-K SRK/T with the no-history K does. The thick-lens eye passes after any surgery if the posterior corneal radius was measured. Nothing else passes, nor does no formula chosen.",
    why: "After corneal refractive surgery keratometry misjudges the corneal power, and formulas that read the lens position from it misplace the lens. The methods that make up for it were made for one kind of laser and mislead after another. It is common practice to refuse formulas for normal eyes until a method is chosen.",
    options: "A method that fits the surgery may be chosen in the lens power table, or the posterior surface of the cornea measured for the thick-lens eye. Until then the plan cannot be signed.",
    sources: &[Standing::CommonPractice.of(
        NO_SOURCE,
        "normal-eye formulas refused until a method is chosen",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let surgery = corneal_surgery(facts)?;
    let formula = facts.draft.lens.formula;
    if formula.is_some_and(|formula| fits(formula, facts)) {
        return Ok(None);
    }
    Finding::new(
        Fact::FormulaAfter { formula, surgery },
        Limit::FittingFormula,
    )
    .found()
}

/// Whether a formula was made for a cornea operated on in this way, by the formulas' own table.
fn fits(formula: Formula, facts: &Facts<'_>) -> bool {
    let lens = &facts.draft.lens;
    let inputs = formula_inputs(facts.operated.0, lens, lens.record());
    formula.fits(&inputs).is_ok()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgery;
    use crate::biometry::CornealSurgeryKind::{self, HyperopicLaser, MyopicLaser};
    use crate::biometry::Method;
    use crate::iol_power::Formula;
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, measured,
    };
    use crate::rules::{Fact, Limit};

    /// What every formula fits, the thick lens with a measured back surface.
    const FITTING: [(Formula, &[CornealSurgeryKind]); 9] = [
        (Formula::SrkT, &[]),
        (Formula::T2, &[]),
        (Formula::Holladay1, &[]),
        (Formula::HofferQ, &[]),
        (Formula::Haigis, &[]),
        (Formula::ThickLens, &SURGERIES),
        (Formula::DoubleKNoHistory, &[MyopicLaser, HyperopicLaser]),
        (Formula::DoubleKKnownCorrection, &[MyopicLaser]),
        (Formula::HaigisModifiedRadius, &[MyopicLaser]),
    ];

    #[track_caller]
    fn assert_unfit(
        change: impl FnOnce(&mut DraftUnderTest),
        formula: Option<Formula>,
        surgery: CornealSurgeryKind,
    ) {
        let found = Fact::FormulaAfter { formula, surgery };
        assert_found(&RULE, change, found, Limit::FittingFormula);
    }

    fn plan(
        kind: CornealSurgeryKind,
        formula: Option<Formula>,
    ) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.operate_cornea(kind);
            draft.0.lens.formula = formula;
        }
    }

    fn with_back_surface(draft: &mut DraftUnderTest) {
        let radius = measured("6.40 mm".parse().unwrap(), Method::Tomographer);
        draft.operated().posterior_radius = Some(radius);
    }

    #[test]
    fn every_formula_after_every_surgery() {
        assert_eq!(FITTING.map(|(formula, _)| formula), Formula::ALL);
        for (formula, fitting) in FITTING {
            for kind in SURGERIES {
                let change = |draft: &mut DraftUnderTest| {
                    plan(kind, Some(formula))(draft);
                    with_back_surface(draft);
                };
                if fitting.contains(&kind) {
                    assert_satisfied(&RULE, change);
                } else {
                    assert_unfit(change, Some(formula), kind);
                }
            }
        }
    }

    #[test]
    fn only_the_thick_lens_needs_the_back_surface() {
        for kind in SURGERIES {
            let thick_lens = Some(Formula::ThickLens);
            assert_unfit(plan(kind, thick_lens), thick_lens, kind);
        }
        assert_satisfied(&RULE, plan(MyopicLaser, Some(Formula::DoubleKNoHistory)));
    }

    #[test]
    fn no_formula_stops_after_any_surgery() {
        for kind in SURGERIES {
            assert_unfit(plan(kind, None), None, kind);
        }
    }

    #[test]
    fn without_surgery_it_does_not_apply_and_unasked_it_is_not_evaluated() {
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        });
        assert_not_evaluated(&RULE, |draft| draft.operated().state.corneal_surgery = None);
    }
}
