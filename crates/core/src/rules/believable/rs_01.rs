//! `RS-01`: an eye after corneal refractive surgery is planned by a formula that does not fit it, or by none.

use super::{corneal_surgery, surgery_name};
use crate::evidence::{NO_SOURCE, Source, Standing};
use crate::iol_power::Formula;
use crate::plan::formula_inputs;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "RS-01",
    title: "Formula does not fit the corneal surgery",
    group: Group::Believable,
    severity: Severity::Stop,
    bearing: None,
    checks: "After recorded corneal surgery on the operated eye: whether the formula planned by fits that surgery. After laser for myopia the methods for operated corneas pass: double-K SRK/T with the no-history K or the known correction, and Haigis with the modified radius. After laser for hyperopia only double-K SRK/T with the no-history K does. The thick-lens eye passes after any surgery if the back radius of the cornea was measured. Nothing else passes, nor does no formula chosen.",
    why: "After corneal refractive surgery keratometry misjudges the corneal power, and formulas that read the lens position from it misplace the lens. The methods that make up for it were made for one kind of laser and mislead after another. It is common practice to refuse formulas for normal eyes until a method is chosen.",
    options: "A method that fits the surgery may be chosen in the ladder, or the back surface of the cornea measured for the thick-lens eye. Until then the plan cannot be signed.",
    sources: &[Source {
        work: NO_SOURCE,
        locator: "normal-eye formulas refused until a method is chosen",
        standing: Standing::CommonPractice,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let kind = match corneal_surgery(facts) {
        Ok(kind) => kind,
        Err(verdict) => return verdict,
    };
    let planned_by = match facts.draft.lens.formula {
        None => "no formula chosen",
        Some(formula) if fits(formula, facts) => return Verdict::Satisfied,
        Some(Formula::ThickLens) => "thick lens without a measured back surface",
        Some(formula) => formula.name(),
    };
    Finding::new(
        format!("{planned_by} after {}", surgery_name(kind)),
        "a formula that fits this surgery",
    )
    .into()
}

/// Whether a formula was made for a cornea operated on in this way, by the formulas' own table.
fn fits(formula: Formula, facts: &Facts<'_>) -> bool {
    let lens = &facts.draft.lens;
    formula
        .fits(&formula_inputs(
            facts.operated.0,
            lens,
            lens.record.as_ref(),
        ))
        .is_ok()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgery;
    use crate::biometry::CornealSurgeryKind::{self, HyperopicLaser, MyopicLaser, Other};
    use crate::biometry::Method;
    use crate::iol_power::Formula;
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, measured,
    };

    const LIMIT: &str = "a formula that fits this surgery";

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

    const fn said(kind: CornealSurgeryKind) -> &'static str {
        match kind {
            MyopicLaser => "laser for myopia",
            HyperopicLaser => "laser for hyperopia",
            Other => "other corneal surgery",
        }
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
                    let text = format!("{} after {}", formula.name(), said(kind));
                    assert_finding(&RULE, change, [&text, LIMIT]);
                }
            }
        }
    }

    #[test]
    fn only_the_thick_lens_needs_the_back_surface() {
        for kind in SURGERIES {
            let surgery = said(kind);
            let text = format!("thick lens without a measured back surface after {surgery}");
            let thick_lens = plan(kind, Some(Formula::ThickLens));
            assert_finding(&RULE, thick_lens, [&text, LIMIT]);
        }
        assert_satisfied(&RULE, plan(MyopicLaser, Some(Formula::DoubleKNoHistory)));
    }

    #[test]
    fn no_formula_stops_after_any_surgery() {
        for kind in SURGERIES {
            let text = format!("no formula chosen after {}", said(kind));
            assert_finding(&RULE, plan(kind, None), [&text, LIMIT]);
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
