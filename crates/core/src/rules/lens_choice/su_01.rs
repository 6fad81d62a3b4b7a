//! `SU-01`: the spare lens may not sit in the sulcus.

use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "SU-01",
    title: "The spare lens may not sit in the sulcus",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the maker allows the spare lens in the ciliary sulcus, as its record says.",
    why: "If the capsular bag does not hold, the sulcus is the next place for a lens. A spare that is not made for it leaves nothing ready (common practice).",
    options: "Consider a spare that the maker allows in the sulcus, or a lens for the anterior chamber; a wrong record may be corrected.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "a lens for the sulcus lies ready")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let spare = facts.draft.lens.spare.as_ref().ok_or(Missing::SpareLens)?;
    if spare.may_sit_in_sulcus {
        return Ok(None);
    }
    Finding::new(
        Fact::NotForSulcus(spare.name.clone()),
        Limit::AllowedInSulcus,
    )
    .with([Detail::NothingForSulcus])
    .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::LensRecord;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::lens_record;
    use crate::rules::{Fact, Limit};

    #[test]
    fn the_spares_own_record_decides() {
        assert_found(
            &RULE,
            |draft| draft.0.lens.spare = Some(lens_record()),
            Fact::NotForSulcus("Lens under test".to_owned()),
            Limit::AllowedInSulcus,
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
