//! `PX-02`: pseudoexfoliation and a shallow chamber.

use super::pseudoexfoliation;
use crate::biometry::DepthStart;
use crate::evidence::{
    HOUSE, KUCHLE_2000, PSEUDOEXFOLIATION_SIGNS, REPEATABILITY_2022, Standing, TENSION_RING_78,
};
use crate::rules::depth::depth_at_least;
use crate::rules::{Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PX-02",
    title: "Pseudoexfoliation and a shallow chamber",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Anterior chamber depth from the epithelium of an eye with pseudoexfoliation against 2.50 mm. As measured, the limit itself passes; with a spread, the measurement's own or the table's, the chance that the true depth lies under the limit decides, as in DP-01: clear, borderline or satisfied.",
    why: "In pseudoexfoliation, the operation was complicated in 13.4 % of eyes with a chamber shallower than 2.5 mm and in 2.8 % of the others: a shallow chamber tells that the lens has come forward on weak zonules. Another report marks the risk from 2.074 mm down. In a trial of 78, zonules separated in none with a capsular tension ring and in 12.8 % without.",
    options: "Consider a capsular tension ring and iris hooks or rings at hand, and gentle turning of the nucleus; phacodonesis may be looked for at the slit lamp. If borderline, consider repeating the measurement.",
    sources: &[
        Standing::Printed.of(
            KUCHLE_2000,
            "abstract: depth < 2.5 mm, complications 13.4 against 2.8 %",
        ),
        Standing::Printed.of(PSEUDOEXFOLIATION_SIGNS, "anterior chamber depth < 2.074 mm"),
        Standing::Printed.of(TENSION_RING_78, "zonular separation 0 against 12.8 %"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium, since which depth was meant is not stated; 5 % on either side"),
        Standing::Printed.of(REPEATABILITY_2022, "spread where the measurement has none of its own: repeatability 0.13 mm / 2.77 = 0.047 mm (1 SD), upper end of its range"),
    ],
    limits: &[
        "pseudoexfoliation_depth",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "borderline_chance",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    pseudoexfoliation(facts)?;
    let limit = facts.limits.pseudoexfoliation_depth;
    depth_at_least(facts, DepthStart::Epithelium, limit)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::rules::Certainty;
    use crate::rules::testing::{
        DraftUnderTest, assert_certainty, assert_finding, assert_not_applicable,
        assert_not_evaluated, assert_satisfied, verdict,
    };

    fn eye_by(depth: &str, method: Method) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.operated().state.pseudoexfoliation = Some(true);
            draft.set_depth(depth, method);
        }
    }

    fn eye(depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        eye_by(depth, Method::Optical)
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        let by_hand = |depth| eye_by(depth, Method::Manual);
        assert_satisfied(&RULE, by_hand("2.50 mm"));
        assert_satisfied(&RULE, by_hand("2.501 mm"));
        let texts = [
            "2.499 mm from the epithelium",
            "at least 2.50 mm from the epithelium",
        ];
        assert_finding(&RULE, by_hand("2.499 mm"), texts);
    }

    /// The table's 47 µm and any printed table of the normal distribution: Φ(0) = 0.5, Φ(1) =
    /// 0.8413; 77 µm are z = 1.638, Φ = 0.9493, and 78 µm z = 1.660, Φ = 0.9515.
    #[test]
    fn with_a_spread_the_chance_decides() {
        for (depth, chance) in [
            ("2.423 mm", 0.9493),
            ("2.453 mm", 0.8413),
            ("2.50 mm", 0.5),
            ("2.577 mm", 0.0507),
        ] {
            let verdict = verdict(&RULE, eye(depth));
            assert_certainty(verdict, Certainty::Borderline { chance });
        }
        let clear = verdict(&RULE, eye("2.422 mm"));
        assert_certainty(clear, Certainty::Clear { chance: 0.9515 });
        assert_satisfied(&RULE, eye("2.578 mm"));
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
