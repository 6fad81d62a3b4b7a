//! `AC-05`: few endothelial cells for an anterior chamber IOL.

use crate::evidence::{HOUSE, KJO_2020, NO_SOURCE, Standing};
use crate::lens::Place;
use crate::rules::check::at_least;
use crate::rules::{Because, Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "AC-05",
    title: "Few endothelial cells for the anterior chamber IOL",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Endothelial cell density against 2000 cells/mm², where an anterior chamber IOL lies ready. The limit itself passes.",
    why: "A lens before the iris goes on to cost endothelial cells for years, after an operation that was complicated already (common practice). No minimum density is accepted; the limit is our own value, above that of EN-01.",
    options: "Consider a lens fixed behind the iris, or none in the first session.",
    sources: &[
        Standing::Assumption.of(HOUSE, "2000 cells/mm², the clinic's to change"),
        Standing::CommonPractice.of(NO_SOURCE, "an anterior chamber IOL costs endothelial cells"),
        Standing::Printed.of(KJO_2020, "no accepted minimum"),
    ],
    limits: &["chamber_lens_endothelium"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    lens.ok_or(Because::NoAnteriorChamberIol)?;
    let density = facts.operated.0.endothelium.as_ref();
    let density = density.ok_or(Missing::of_this_eye(Which::Endothelium))?;
    let limit = facts.limits.chamber_lens_endothelium;
    Ok(at_least(Quantity::Density, density.value.per_mm2(), limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::Place;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::chamber_record;

    fn counted(density: &str) -> impl FnOnce(&mut DraftUnderTest) {
        let density = density.to_owned();
        move |draft| {
            draft.lay_ready(Place::AnteriorChamber, chamber_record());
            draft.set_endothelium(&density);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, counted("2000 cells/mm²"));
        let texts = ["1999 cells/mm²", "at least 2000 cells/mm²"];
        assert_finding(&RULE, counted("1999 cells/mm²"), texts);
    }

    #[test]
    fn only_for_such_a_lens_and_a_count() {
        assert_not_applicable(&RULE, |draft| draft.set_endothelium("1200 cells/mm²"));
        assert_not_evaluated(&RULE, |draft| {
            draft.lay_ready(Place::AnteriorChamber, chamber_record());
        });
    }
}
