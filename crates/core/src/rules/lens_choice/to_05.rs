//! `TO-05`: the posterior cornea of a toric plan was not measured.

use super::toric_steps;
use crate::astigmatism::PosteriorBasis;
use crate::astigmatism::posterior::{MULTIPLIER_SOURCE, REGRESSION_SOURCE};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-05",
    title: "Posterior cornea is left out or estimated",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "For a toric lens: whether the astigmatism of the back of the cornea enters the plan as measured. Left out, and estimated by the regression or the multiplier, do not pass.",
    why: "The back of the cornea mostly takes power away in the vertical: with the rule the whole cornea has less astigmatism than keratometry shows, against the rule more. The regression on 928 eyes takes 0.27 D against the rule, 0.22 D and 0.15 of the cylinder with it; single eyes differ.",
    options: "Consider tomography; the regression or the multiplier may be chosen, or the back left out knowingly.",
    sources: &[REGRESSION_SOURCE, MULTIPLIER_SOURCE],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if let Err(verdict) = toric_steps(facts) {
        return verdict;
    }
    let Ok(terms) = &facts.toric.cornea else {
        return not_evaluated("astigmatism of the cornea after the operation");
    };
    let found = match terms.posterior.basis {
        PosteriorBasis::Measured => return Verdict::Satisfied,
        PosteriorBasis::NotMeasured => "left out, since it was not measured".to_owned(),
        PosteriorBasis::LeftOut => "left out by choice".to_owned(),
        PosteriorBasis::Regression(orientation) => {
            format!("estimated by the regression, {orientation}")
        }
        PosteriorBasis::Multiplier(orientation) => {
            format!("estimated by the multiplier, {orientation}")
        }
    };
    Finding::new(found, "measured").into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::astigmatism::PosteriorChoice;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    #[test]
    fn only_measured_passes() {
        assert_satisfied(&RULE, toric(|_| {}));
        for (choice, found) in [
            (PosteriorChoice::LeftOut, "left out by choice"),
            (
                PosteriorChoice::Regression,
                "estimated by the regression, with the rule",
            ),
            (
                PosteriorChoice::Multiplier,
                "estimated by the multiplier, with the rule",
            ),
        ] {
            let chosen = toric(|draft| draft.0.lens.posterior = Some(choice));
            assert_finding(&RULE, chosen, [found, "measured"]);
        }
        assert_finding(
            &RULE,
            toric(|draft| draft.operated().posterior_astigmatism = None),
            ["left out, since it was not measured", "measured"],
        );
    }

    #[test]
    fn a_toric_lens_and_a_cornea_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, toric(|draft| draft.operated().keratometry = None));
    }
}
