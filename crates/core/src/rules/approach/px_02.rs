//! `PX-02`: pseudoexfoliation and a shallow chamber.

use super::with_pseudoexfoliation;
use crate::evidence::{HOUSE, PSEUDOEXFOLIATION_SIGNS, Source, Standing, TENSION_RING_78};
use crate::rules::check::at_least;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PX-02",
    title: "Pseudoexfoliation and a shallow chamber",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Anterior chamber depth from the epithelium of an eye with pseudoexfoliation against 2.074 mm. The limit itself passes.",
    why: "In pseudoexfoliation, an anterior chamber shallower than 2.074 mm marks a risk of weak zonules. In a trial of 78, zonules separated in none with a tension ring and in 12.8 % without.",
    options: "Consider a tension ring and iris hooks or rings at hand, and gentle turning of the nucleus; phacodonesis may be looked for at the slit lamp.",
    sources: &[
        Source {
            work: PSEUDOEXFOLIATION_SIGNS,
            locator: "anterior chamber depth < 2.074 mm",
            standing: Standing::Printed,
        },
        Source {
            work: TENSION_RING_78,
            locator: "zonular separation 0 against 12.8 %",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "depth from the epithelium, since which depth was meant is not stated",
            standing: Standing::Assumption,
        },
    ],
    limits: &["pseudoexfoliation_depth"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    with_pseudoexfoliation(facts, || match facts.operated.0.depth_from_epithelium() {
        Some(depth) => at_least(&depth, &facts.limits.pseudoexfoliation_depth),
        None => not_evaluated("anterior chamber depth from the epithelium"),
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    fn eye(depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.operated().state.pseudoexfoliation = Some(true);
            draft.set_depth(depth, Method::Optical);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, eye("2.074 mm"));
        assert_satisfied(&RULE, eye("2.075 mm"));
        let texts = ["2.073 mm", "at least 2.074 mm"];
        assert_finding(&RULE, eye("2.073 mm"), texts);
    }

    #[test]
    fn only_with_pseudoexfoliation_and_a_depth() {
        assert_not_evaluated(&RULE, |draft| draft.set_depth("1.80 mm", Method::Optical));
        assert_not_evaluated(&RULE, |draft| {
            eye("1.80 mm")(draft);
            draft.operated().chamber_depth = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            eye("1.80 mm")(draft);
            draft.operated().corneal_thickness = None;
            let depth = draft.operated().chamber_depth.as_mut().unwrap();
            depth.value.start = DepthStart::Endothelium;
        });
        assert_not_applicable(&RULE, |draft| {
            eye("1.80 mm")(draft);
            draft.operated().state.pseudoexfoliation = Some(false);
        });
    }
}
