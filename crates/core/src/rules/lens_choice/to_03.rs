//! `TO-03`: a toric lens for a cornea that no cylinder describes.

use super::toric_steps;
use crate::biometry::CornealSurgery;
use crate::evidence::{NO_SOURCE, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-03",
    title: "Toric lens in an irregular or operated cornea",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the cornea of the operated eye is recorded as irregular, or as having had refractive surgery, while the chosen lens is toric.",
    why: "Keratometry of two meridians does not give the astigmatism of such a cornea, and it may change. Millrace then makes no toric calculation, and TO-10 stops a cylinder that was chosen all the same.",
    options: "A lens without a cylinder may be chosen; a corneal map and a specialist's calculation may be sought.",
    sources: &[Source {
        work: NO_SOURCE,
        locator: "toric lenses are for regular corneas",
        standing: Standing::CommonPractice,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if let Err(verdict) = toric_steps(facts) {
        return verdict;
    }
    let state = &facts.operated.0.state;
    let operated = match state.corneal_surgery {
        None => None,
        Some(CornealSurgery::Absent) => Some(false),
        Some(CornealSurgery::Done { .. }) => Some(true),
    };
    let found = match (state.irregular_cornea, operated) {
        (Some(true), Some(true)) => "irregular and operated on",
        (Some(true), _) => "irregular",
        (_, Some(true)) => "operated on",
        (Some(false), Some(false)) => return Verdict::Satisfied,
        (None, _) => return not_evaluated("whether the cornea is irregular"),
        (_, None) => return not_evaluated("whether the cornea had refractive surgery"),
    };
    Finding::new(found, "regular and untouched").into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        SURGERIES, assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    #[test]
    fn either_is_enough() {
        assert_satisfied(&RULE, toric(|_| {}));
        let irregular = toric(|draft| draft.operated().state.irregular_cornea = Some(true));
        assert_finding(&RULE, irregular, ["irregular", "regular and untouched"]);
        for kind in SURGERIES {
            let texts = ["operated on", "regular and untouched"];
            assert_finding(&RULE, toric(|draft| draft.operate_cornea(kind)), texts);
            assert_finding(
                &RULE,
                toric(|draft| {
                    draft.operate_cornea(kind);
                    draft.operated().state.irregular_cornea = Some(true);
                }),
                ["irregular and operated on", "regular and untouched"],
            );
        }
    }

    #[test]
    fn what_nobody_looked_for_is_not_absent() {
        assert_not_evaluated(
            &RULE,
            toric(|draft| draft.operated().state.irregular_cornea = None),
        );
        assert_not_evaluated(
            &RULE,
            toric(|draft| draft.operated().state.corneal_surgery = None),
        );
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
    }
}
