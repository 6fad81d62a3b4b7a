//! `TO-05`: the posterior cornea of a toric plan was not measured.

use super::toric_steps;
use crate::astigmatism::PosteriorBasis;
use crate::astigmatism::posterior::{MULTIPLIER_SOURCE, REGRESSION_SOURCE};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-05",
    title: "Posterior cornea is left out or estimated",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "For a toric lens: whether the astigmatism of the posterior cornea enters the plan as measured. Left out, and estimated by the regression or the multiplier, do not pass.",
    why: "The posterior cornea mostly takes power away in the vertical: with the rule the whole cornea has less astigmatism than keratometry shows, against the rule more. The regression on 928 eyes takes 0.27 D against the rule, 0.22 D and 0.15 of the cylinder with it; single eyes differ.",
    options: "Consider tomography; the regression or the multiplier may be chosen, or the back left out knowingly.",
    sources: &[REGRESSION_SOURCE, MULTIPLIER_SOURCE],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    let terms = facts.toric().cornea.as_ref();
    let basis = terms.map_err(|_| Missing::CorneaAfter)?.posterior.basis;
    if basis == PosteriorBasis::Measured {
        return Ok(None);
    }
    Finding::new(Fact::Posterior(basis), Limit::Measured).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::astigmatism::{Orientation, PosteriorBasis, PosteriorChoice};
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Limit};

    #[test]
    fn only_measured_passes() {
        assert_satisfied(&RULE, toric(|_| {}));
        let with = Orientation::WithTheRule;
        for (choice, basis) in [
            (PosteriorChoice::LeftOut, PosteriorBasis::LeftOut),
            (
                PosteriorChoice::Regression,
                PosteriorBasis::Regression(with),
            ),
            (
                PosteriorChoice::Multiplier,
                PosteriorBasis::Multiplier(with),
            ),
        ] {
            let chosen = toric(|draft| draft.0.lens.posterior = Some(choice));
            assert_found(&RULE, chosen, Fact::Posterior(basis), Limit::Measured);
        }
        assert_found(
            &RULE,
            toric(|draft| draft.operated().posterior_astigmatism = None),
            Fact::Posterior(PosteriorBasis::NotMeasured),
            Limit::Measured,
        );
    }

    #[test]
    fn a_toric_lens_and_a_cornea_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, toric(|draft| draft.operated().keratometry = None));
    }
}
