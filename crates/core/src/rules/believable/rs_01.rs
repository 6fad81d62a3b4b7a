//! `RS-01`: an eye after corneal refractive surgery is planned by a formula for untouched corneas, or by none.

use super::{corneal_surgery, surgery_name};
use crate::evidence::{NO_SOURCE, Source, Standing};
use crate::iol_power::Formula;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "RS-01",
    title: "Formula is for untouched corneas",
    group: Group::Believable,
    severity: Severity::Stop,
    bearing: None,
    checks: "After recorded corneal surgery on the operated eye: whether the formula planned by is a method for operated corneas. The thick-lens eye passes only if the back radius of the cornea was measured; no formula chosen does not pass.",
    why: "After corneal refractive surgery keratometry misjudges the corneal power, and formulas that read the lens position from it misplace the lens. It is common practice to refuse formulas for normal eyes until a method is chosen.",
    options: "A method for operated corneas may be chosen in the ladder, or the back surface of the cornea measured for the thick-lens eye. Until then the plan cannot be signed.",
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
        Some(Formula::ThickLens) if facts.operated.0.posterior_radius.is_some() => {
            return Verdict::Satisfied;
        }
        Some(Formula::ThickLens) => "thick lens without a measured back surface",
        Some(formula) if formula.is_for_operated_corneas() => return Verdict::Satisfied,
        Some(formula) => formula.name(),
    };
    Finding::new(
        format!("{planned_by} after {}", surgery_name(kind)),
        "a method for operated corneas",
    )
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::biometry::{CornealSurgery, CornealSurgeryKind};
    use crate::iol_power::Formula;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied, measured,
    };

    const LIMIT: &str = "a method for operated corneas";

    #[test]
    fn formulas_for_untouched_corneas_stop() {
        for formula in Formula::THIN_LENS {
            assert_finding(
                &RULE,
                |draft| {
                    draft.operate_cornea(CornealSurgeryKind::MyopicLaser);
                    draft.0.lens.formula = Some(formula);
                },
                [&format!("{} after laser for myopia", formula.name()), LIMIT],
            );
        }
    }

    #[test]
    fn no_formula_stops_after_any_surgery() {
        for (kind, text) in [
            (
                CornealSurgeryKind::MyopicLaser,
                "no formula chosen after laser for myopia",
            ),
            (
                CornealSurgeryKind::HyperopicLaser,
                "no formula chosen after laser for hyperopia",
            ),
            (
                CornealSurgeryKind::Other,
                "no formula chosen after other corneal surgery",
            ),
        ] {
            assert_finding(&RULE, |draft| draft.operate_cornea(kind), [text, LIMIT]);
        }
    }

    #[test]
    fn methods_for_operated_corneas_pass() {
        for formula in [
            Formula::DoubleKNoHistory,
            Formula::DoubleKKnownCorrection,
            Formula::HaigisModifiedRadius,
        ] {
            assert_satisfied(&RULE, |draft| {
                draft.operate_cornea(CornealSurgeryKind::MyopicLaser);
                draft.0.lens.formula = Some(formula);
            });
        }
    }

    #[test]
    fn the_thick_lens_needs_the_back_surface() {
        assert_finding(
            &RULE,
            |draft| {
                draft.operate_cornea(CornealSurgeryKind::HyperopicLaser);
                draft.0.lens.formula = Some(Formula::ThickLens);
            },
            [
                "thick lens without a measured back surface after laser for hyperopia",
                LIMIT,
            ],
        );
        assert_satisfied(&RULE, |draft| {
            draft.operate_cornea(CornealSurgeryKind::HyperopicLaser);
            draft.0.lens.formula = Some(Formula::ThickLens);
            draft.operated().posterior_radius =
                Some(measured("6.40 mm".parse().unwrap(), Method::Tomographer));
        });
    }

    #[test]
    fn without_surgery_it_does_not_apply_and_unasked_it_is_not_evaluated() {
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        });
        assert_not_evaluated(&RULE, |draft| draft.operated().state.corneal_surgery = None);
    }
}
