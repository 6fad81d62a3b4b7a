//! `FL-01`: guidance names another formula for this axial length.

use crate::biometry::CornealSurgery;
use crate::evidence::{NATIONAL_GUIDANCE_2017, Standing};
use crate::iol_power::Formula;
use crate::limits::Limits;
use crate::quantity::Micrometers;
use crate::rules::{
    Because, Fact, Facts, Finding, Group, Limit, Look, Missing, NamedFor, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "FL-01",
    title: "Guidance names another formula for this length",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "The chosen formula against those that guidance names for the axial length of the operative eye: under 22.00 mm Haigis or Hoffer Q, over 26.00 mm Haigis or SRK/T, unless the clinic sets other lengths. Both lengths belong to the middle, for which guidance names SRK/T: there the formulas agree, and the rule does not apply. Not for eyes after corneal surgery and the methods made for them.",
    why: "A summary of national guidance of 2017 names formulas by length. It names three only, so a formula it leaves out is not a wrong one. It stands beside the lens power table and hides no formula.",
    options: "Consider reading the named formulas in the lens power table before choosing a power.",
    sources: &[Standing::Secondary.of(
        NATIONAL_GUIDANCE_2017,
        "< 22.0 mm Haigis or Hoffer Q; 22 to 26 SRK/T; > 26 Haigis or SRK/T",
    )],
    limits: &["guidance_short", "guidance_long"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let formula = facts.draft.lens.formula;
    let eye = facts.operated.0;
    if formula.is_some_and(Formula::is_for_operated_corneas) {
        return Err(Because::FormulaForOperatedCorneas.into());
    }
    if let Some(CornealSurgery::Done { .. }) = eye.state.corneal_surgery {
        return Err(Because::GuidanceForUntouchedCorneas.into());
    }
    let formula = formula.ok_or(Missing::Formula)?;
    let length = facts.length()?;
    let (named, lengths) = guidance(length, facts.limits).ok_or(Because::OrdinaryLength)?;
    if named.contains(&formula) {
        return Ok(None);
    }
    let limit = Limit::NamedFormulas {
        formulas: named.to_vec(),
        lengths,
    };
    Finding::new(Fact::FormulaAt { formula, length }, limit).found()
}

/// The formulas named for a length; nothing in the middle, where the others agree with the named one.
fn guidance(length: Micrometers, limits: &Limits) -> Option<(&'static [Formula], NamedFor)> {
    let (short, long) = (limits.guidance_short, limits.guidance_long);
    if length < short {
        return Some((&[Formula::Haigis, Formula::HofferQ], NamedFor::Under(short)));
    }
    if length > long {
        return Some((&[Formula::Haigis, Formula::SrkT], NamedFor::Over(long)));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgeryKind;
    use crate::iol_power::Formula;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit, NamedFor};

    fn plan(draft: &mut DraftUnderTest, formula: Formula, length: &str) {
        draft.0.lens.formula = Some(formula);
        draft.set_axial_length(length);
    }

    #[test]
    fn a_named_formula_passes() {
        for (formula, length) in [
            (Formula::Haigis, "21.999 mm"),
            (Formula::HofferQ, "21.999 mm"),
            (Formula::Haigis, "26.001 mm"),
            (Formula::SrkT, "26.001 mm"),
        ] {
            assert_satisfied(&RULE, |draft| plan(draft, formula, length));
        }
    }

    #[test]
    fn another_one_is_a_finding() {
        let short = (
            &[Formula::Haigis, Formula::HofferQ][..],
            NamedFor::Under(micrometers(22_000)),
        );
        let long = (
            &[Formula::Haigis, Formula::SrkT][..],
            NamedFor::Over(micrometers(26_000)),
        );
        for (formula, length, (named, lengths)) in [
            (Formula::SrkT, "21.999 mm", short),
            (Formula::ThickLens, "21.999 mm", short),
            (Formula::HofferQ, "26.001 mm", long),
            (Formula::Holladay1, "26.001 mm", long),
        ] {
            assert_found(
                &RULE,
                |draft| plan(draft, formula, length),
                Fact::FormulaAt {
                    formula,
                    length: length.parse().unwrap(),
                },
                Limit::NamedFormulas {
                    formulas: named.to_vec(),
                    lengths,
                },
            );
        }
    }

    /// It spoke of nearly every eye that was not planned by SRK/T, and changed what nobody did.
    #[test]
    fn ordinary_lengths_do_not_concern_it() {
        for (formula, length) in [
            (Formula::HofferQ, "22.00 mm"),
            (Formula::T2, "23.50 mm"),
            (Formula::SrkT, "23.50 mm"),
            (Formula::Haigis, "26.00 mm"),
        ] {
            assert_not_applicable(&RULE, |draft| plan(draft, formula, length));
        }
    }

    #[test]
    fn operated_corneas_do_not_concern_it() {
        for formula in [
            Formula::DoubleKNoHistory,
            Formula::DoubleKKnownCorrection,
            Formula::HaigisModifiedRadius,
        ] {
            assert_not_applicable(&RULE, |draft| plan(draft, formula, "23.50 mm"));
        }
        assert_not_applicable(&RULE, |draft| {
            plan(draft, Formula::ThickLens, "23.50 mm");
            draft.operate_cornea(CornealSurgeryKind::MyopicLaser);
        });
    }

    #[test]
    fn formula_and_length_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.0.lens.formula = None);
        assert_not_evaluated(&RULE, |draft| {
            draft.0.lens.formula = Some(Formula::SrkT);
            draft.operated().axial_length = None;
        });
    }
}
