//! `SU-01`: no backup lens may sit in the sulcus.

use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::Place;
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "SU-01",
    title: "No backup lens may sit in the sulcus",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether a backup lens for the ciliary sulcus was chosen or, failing that, the maker allows the one for the bag there, as its record says.",
    why: "If the capsular bag does not hold, the sulcus is the next place for a lens. A backup lens that is not made for it leaves nothing ready (common practice).",
    options: "Consider a backup lens that the maker allows in the sulcus, or an anterior chamber IOL; a wrong record may be corrected.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "a lens for the sulcus lies ready")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lenses = &facts.draft.lens.lenses;
    if lenses.backup(Place::Sulcus).is_some() {
        return Ok(None);
    }
    let bag = &lenses.backup(Place::Bag).ok_or(Missing::BackupLens)?.record;
    if bag.may_sit_in(Place::Sulcus) {
        return Ok(None);
    }
    Finding::new(Fact::NotForSulcus(bag.name.clone()), Limit::AllowedInSulcus)
        .with([Detail::NothingForSulcus])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::{LensRecord, Place};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::lens_record;
    use crate::rules::{Fact, Limit};

    fn for_sulcus() -> LensRecord {
        LensRecord {
            may_sit_in_sulcus: true,
            ..lens_record()
        }
    }

    #[test]
    fn a_lens_for_the_sulcus_or_one_that_may_sit_there_lies_ready() {
        assert_found(
            &RULE,
            |draft| draft.lay_ready(Place::Bag, lens_record()),
            Fact::NotForSulcus("Lens under test".to_owned()),
            Limit::AllowedInSulcus,
        );
        assert_satisfied(&RULE, |draft| {
            draft.plan_lens();
            draft.lay_ready(Place::Bag, for_sulcus());
        });
        assert_satisfied(&RULE, |draft| {
            draft.plan_lens();
            draft.lay_ready(Place::Bag, lens_record());
            draft.lay_ready(Place::Sulcus, for_sulcus());
        });
    }

    #[test]
    fn without_a_backup_lens_it_says_so() {
        assert_not_evaluated(&RULE, DraftUnderTest::plan_lens);
    }
}
