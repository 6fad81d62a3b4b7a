//! `AC-01`: the anterior chamber IOL is too long or too short.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::lens::Place;
use crate::quantity::Micrometers;
use crate::rules::check::within;
use crate::rules::{Because, Detail, Facts, Group, Look, Quantity, Rule, Severity};

/// How much longer than the corneal diameter the lens is suggested to be (memory).
const LONGER_THAN_CORNEA: Micrometers = Micrometers::new(1_000);

/// How far from the suggested length a lens may be without a finding (assumption).
const TOLERANCE: Micrometers = Micrometers::new(500);

pub const RULE: Rule = Rule {
    id: "AC-01",
    title: "Length of the anterior chamber IOL does not suit the cornea",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Overall length of the anterior chamber IOL against the suggested one, corneal diameter (white to white) + 1 mm. A difference of 0.5 mm passes.",
    why: "A lens too short turns in the chamber, one too long presses into the angle. The suggestion is recalled, and the tolerance our own value.",
    options: "Consider a lens of another length; the corneal diameter may be checked.",
    sources: &[
        Standing::Memory.of(NO_SOURCE, "length = white to white + 1 mm"),
        Standing::Assumption.of(HOUSE, "tolerance 0.5 mm"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    let lens = lens.ok_or(Because::NoAnteriorChamberIol)?;
    let length = lens.record.overall_length;
    let diameter = facts.corneal_diameter()?;
    let suggested = diameter + LONGER_THAN_CORNEA;
    let limits = [suggested - TOLERANCE, suggested + TOLERANCE];
    let detail = Detail::SuggestedLength {
        diameter,
        suggested,
    };
    Ok(within(Quantity::Length, length, limits).map(|finding| finding.with([detail])))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Lenses;
    use crate::lens::Place;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, measured, micrometers,
    };
    use crate::rules::testing_lens::lens_record;

    /// The lens is 13.00 mm long, so it is suggested for 12.00 mm and passes from 11.50 to 12.50.
    fn cornea(diameter: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.lay_ready(Place::AnteriorChamber, lens_record());
            let diameter = measured(diameter.parse().unwrap(), Method::Optical);
            draft.operated().corneal_diameter = Some(diameter);
        }
    }

    #[test]
    fn at_the_tolerance_and_one_step_beyond() {
        for diameter in ["11.50 mm", "12.00 mm", "12.50 mm"] {
            assert_satisfied(&RULE, cornea(diameter));
        }
        let texts = ["13.00 mm", "11.999 mm to 12.999 mm"];
        let finding = assert_finding(&RULE, cornea("11.499 mm"), texts);
        let [diameter, suggested] = [11_499, 12_499].map(micrometers);
        let detail = Detail::SuggestedLength {
            diameter,
            suggested,
        };
        assert_eq!(finding.details, [detail]);
        let texts = ["13.00 mm", "13.001 mm to 14.001 mm"];
        assert_finding(&RULE, cornea("12.501 mm"), texts);
    }

    #[test]
    fn only_for_a_chosen_lens_and_a_measured_cornea() {
        assert_not_applicable(&RULE, |draft| {
            cornea("11.00 mm")(draft);
            draft.0.lens.lenses = Lenses::default();
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.lay_ready(Place::AnteriorChamber, lens_record());
        });
    }
}
