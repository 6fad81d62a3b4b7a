//! `CC-01`: capsulorhexis too wide for the optic.

use crate::evidence::{CLINICAL_NOTES, Source, Standing};
use crate::lens::LensSite;
use crate::rules::check::at_least;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "CC-01",
    title: "Capsulorhexis leaves little of the optic covered",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Diameter of the optic less diameter of the capsulorhexis against the least margin, 0.50 mm on the diameter. The limit itself passes.",
    why: "A capsulorhexis slightly smaller than the optic, 5.5 mm for 6.0 mm, keeps the optic in place and in the plane the formulas expect.",
    options: "Consider a larger optic, or a smaller capsulorhexis where the nucleus is divided; a nucleus delivered whole must pass the opening (common practice).",
    sources: &[Source {
        work: CLINICAL_NOTES,
        locator: "5.5 for 6.0 mm",
        standing: Standing::Secondary,
    }],
    limits: &["capsulorhexis_margin"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(record) = &facts.draft.lens.record else {
        return not_evaluated("chosen lens");
    };
    if record.site == LensSite::AnteriorChamber {
        return not_applicable("the chosen lens does not sit in the capsular bag");
    }
    let Some(capsulorhexis) = facts.draft.approach.capsulorhexis else {
        return not_evaluated("diameter of the capsulorhexis");
    };
    let optic = record.optic_diameter;
    let verdict = at_least(&(optic - capsulorhexis), &facts.limits.capsulorhexis_margin);
    match verdict {
        Verdict::Finding(finding) => finding
            .with_detail(format!("capsulorhexis {capsulorhexis}, optic {optic}"))
            .into(),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::LensSite;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::lens_record;

    /// The record's optic is 6.00 mm.
    fn plan(capsulorhexis_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.0.lens.record = Some(lens_record());
            draft.0.approach.capsulorhexis = Some(Micrometers::new(capsulorhexis_um));
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, plan(5_500));
        assert_satisfied(&RULE, plan(5_499));
        let finding = assert_finding(&RULE, plan(5_501), ["0.499 mm", "at least 0.50 mm"]);
        assert_eq!(
            finding.detail.unwrap(),
            "capsulorhexis 5.501 mm, optic 6.00 mm"
        );
        assert_finding(&RULE, plan(6_200), ["−0.20 mm", "at least 0.50 mm"]);
    }

    #[test]
    fn only_for_a_lens_in_the_bag_with_a_diameter() {
        assert_not_evaluated(&RULE, |draft| {
            plan(6_200)(draft);
            draft.0.lens.record = None;
        });
        assert_not_evaluated(&RULE, |draft| draft.0.lens.record = Some(lens_record()));
        assert_not_applicable(&RULE, |draft| {
            plan(6_200)(draft);
            draft.0.lens.record.as_mut().unwrap().site = LensSite::AnteriorChamber;
        });
    }
}
