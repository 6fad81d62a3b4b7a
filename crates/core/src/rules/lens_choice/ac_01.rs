//! `AC-01`: the lens for the anterior chamber is too long or too short.

use crate::evidence::{HOUSE, NO_SOURCE, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::within;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// How much longer than the corneal diameter the lens is suggested to be (memory).
const LONGER_THAN_CORNEA: Micrometers = Micrometers::new(1_000);

/// How far from the suggested length a lens may be without a finding (assumption).
const TOLERANCE: Micrometers = Micrometers::new(500);

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "AC-01",
    title: "Length of the anterior chamber lens does not suit the cornea",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Overall length of the lens chosen for the anterior chamber against the suggested one, corneal diameter (white to white) + 1 mm. A difference of 0.5 mm passes.",
    why: "A lens too short turns in the chamber, one too long presses into the angle. The suggestion is recalled, and the tolerance a house value.",
    options: "Consider a lens of another length; the corneal diameter may be checked.",
    sources: &[
        Source {
            work: NO_SOURCE,
            locator: "length = white to white + 1 mm",
            standing: Standing::Memory,
        },
        Source {
            work: HOUSE,
            locator: "tolerance 0.5 mm",
            standing: Standing::Assumption,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(lens) = &facts.draft.lens.chamber_lens else {
        return not_applicable("no lens for the anterior chamber was chosen");
    };
    let Some(diameter) = &facts.operated.0.corneal_diameter else {
        return not_evaluated("corneal diameter (white to white)");
    };
    let diameter = diameter.value.get();
    let suggested = diameter + LONGER_THAN_CORNEA;
    let (shortest, longest) = (suggested - TOLERANCE, suggested + TOLERANCE);
    match within(&lens.overall_length, &shortest, &longest) {
        Verdict::Finding(finding) => finding
            .with_detail(format!(
                "corneal diameter {diameter} suggests a length of {suggested}"
            ))
            .into(),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, measured,
    };
    use crate::rules::testing_lens::lens_record;

    /// The lens is 13.00 mm long, so it is suggested for 12.00 mm and passes from 11.50 to 12.50.
    fn cornea(diameter: &str) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.0.lens.chamber_lens = Some(lens_record());
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
        assert_eq!(
            finding.detail.unwrap(),
            "corneal diameter 11.499 mm suggests a length of 12.499 mm"
        );
        let texts = ["13.00 mm", "13.001 mm to 14.001 mm"];
        assert_finding(&RULE, cornea("12.501 mm"), texts);
    }

    #[test]
    fn only_for_a_chosen_lens_and_a_measured_cornea() {
        assert_not_applicable(&RULE, |draft| {
            cornea("11.00 mm")(draft);
            draft.0.lens.chamber_lens = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.0.lens.chamber_lens = Some(lens_record());
        });
    }
}
