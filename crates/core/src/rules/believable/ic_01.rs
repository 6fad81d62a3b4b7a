//! `IC-01`: irregular cornea, and a lens that is not toric.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::check::recorded;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "IC-01",
    title: "Irregular cornea",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the cornea of the operative eye was recorded as irregular. A toric lens in such an eye is the business of TO-03.",
    why: "Keratometry of two meridians does not describe an irregular cornea, so mean K, and the power that follows from it, may be far off, and no formula says by how much. The cause may be treated or may go on changing.",
    options: "Consider a corneal map, repeated readings by another method, and treating surface or cause before biometry is repeated; consider telling the patient that the refraction cannot be predicted as in other eyes.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "biometry is for regular corneas")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let is_toric = facts
        .draft
        .lens
        .record()
        .is_some_and(|record| record.toric.is_some());
    if is_toric {
        return Err(Because::Toric.into());
    }
    if !recorded(facts, Sign::IrregularCornea)? {
        return Ok(None);
    }
    let found = Fact::Cornea {
        irregular: true,
        operated: false,
    };
    Finding::new(found, Limit::RegularCornea).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::toric;
    use crate::rules::{Fact, Limit};

    fn cornea(irregular: Option<bool>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.operated().state.irregular_cornea = irregular
    }

    #[test]
    fn found_with_a_lens_without_cylinder_and_without_a_lens() {
        let found = || Fact::Cornea {
            irregular: true,
            operated: false,
        };
        assert_found(&RULE, cornea(Some(true)), found(), Limit::RegularCornea);
        let with_lens = |draft: &mut DraftUnderTest| {
            draft.plan_lens();
            cornea(Some(true))(draft);
        };
        assert_found(&RULE, with_lens, found(), Limit::RegularCornea);
        assert_satisfied(&RULE, cornea(Some(false)));
        assert_not_evaluated(&RULE, cornea(None));
    }

    #[test]
    fn of_a_toric_lens_another_rule_speaks() {
        assert_not_applicable(&RULE, toric(cornea(Some(true))));
    }
}
