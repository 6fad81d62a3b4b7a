//! `SU-01`: the spare lens may not sit in the sulcus.

use crate::evidence::{NO_SOURCE, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SU-01",
    title: "The spare lens may not sit in the sulcus",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the maker allows the spare lens in the ciliary sulcus, as its record says.",
    why: "If the capsular bag does not hold, the sulcus is the next place for a lens. A spare that is not made for it leaves nothing ready (common practice).",
    options: "Consider a spare that the maker allows in the sulcus, or a lens for the anterior chamber; a wrong record may be corrected.",
    sources: &[Source {
        work: NO_SOURCE,
        locator: "a lens for the sulcus lies ready",
        standing: Standing::CommonPractice,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    match &facts.draft.lens.spare {
        None => not_evaluated("spare lens"),
        Some(spare) if spare.may_sit_in_sulcus => Verdict::Satisfied,
        Some(spare) => Finding::new(
            format!("{} is not allowed in the sulcus", spare.name),
            "allowed in the sulcus",
        )
        .with_detail("nothing lies ready for the sulcus")
        .into(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::LensRecord;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::lens_record;

    #[test]
    fn the_spares_own_record_decides() {
        assert_finding(
            &RULE,
            |draft| draft.0.lens.spare = Some(lens_record()),
            [
                "Lens under test is not allowed in the sulcus",
                "allowed in the sulcus",
            ],
        );
        assert_satisfied(&RULE, |draft| {
            draft.plan_lens();
            draft.0.lens.spare = Some(LensRecord {
                may_sit_in_sulcus: true,
                ..lens_record()
            });
        });
    }

    #[test]
    fn without_a_spare_it_says_so() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
    }
}
