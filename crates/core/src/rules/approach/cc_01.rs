//! `CC-01`: capsulorhexis too wide for the optic.

use crate::evidence::{CLINICAL_NOTES, Standing};
use crate::lens::LensSite;
use crate::rules::check::at_least;
use crate::rules::{Because, Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "CC-01",
    title: "Capsulorhexis leaves little of the optic covered",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Diameter of the optic less diameter of the capsulorhexis against the least margin, 0.50 mm on the diameter. The limit itself passes.",
    why: "A capsulorhexis slightly smaller than the optic, 5.5 mm for 6.0 mm, keeps the optic in place and in the plane the formulas expect.",
    options: "Consider a larger optic, or a smaller capsulorhexis where the nucleus is divided; a nucleus delivered whole must pass the opening (common practice).",
    sources: &[Standing::Secondary.of(CLINICAL_NOTES, "5.5 for 6.0 mm")],
    limits: &["capsulorhexis_margin"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let record = facts.draft.lens.record().ok_or(Missing::Lens)?;
    if record.site == LensSite::AnteriorChamber {
        return Err(Because::NotInBag.into());
    }
    let capsulorhexis = facts.draft.approach.capsulorhexis;
    let capsulorhexis = capsulorhexis.ok_or(Missing::Capsulorhexis)?;
    let optic = record.optic_diameter;
    let limit = facts.limits.capsulorhexis_margin;
    let detail = Detail::CapsulorhexisAndOptic {
        capsulorhexis,
        optic,
    };
    Ok(at_least(Quantity::Length, optic - capsulorhexis, limit)
        .map(|finding| finding.with([detail])))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::LensSite;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, micrometers,
    };
    use crate::rules::testing_lens::lens_record;

    /// The record's optic is 6.00 mm.
    fn plan(capsulorhexis_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_with(lens_record());
            draft.0.approach.capsulorhexis = Some(micrometers(capsulorhexis_um));
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, plan(5_500));
        assert_satisfied(&RULE, plan(5_499));
        let finding = assert_finding(&RULE, plan(5_501), ["0.499 mm", "at least 0.50 mm"]);
        let detail = Detail::CapsulorhexisAndOptic {
            capsulorhexis: micrometers(5_501),
            optic: micrometers(6_000),
        };
        assert_eq!(finding.details, [detail]);
        assert_finding(&RULE, plan(6_200), ["−0.20 mm", "at least 0.50 mm"]);
    }

    #[test]
    fn only_for_a_lens_in_the_bag_with_a_diameter() {
        assert_not_evaluated(&RULE, |draft| {
            plan(6_200)(draft);
            draft.without_lens();
        });
        assert_not_evaluated(&RULE, |draft| draft.plan_with(lens_record()));
        assert_not_applicable(&RULE, |draft| {
            plan(6_200)(draft);
            draft.chosen().record.site = LensSite::AnteriorChamber;
        });
    }
}
