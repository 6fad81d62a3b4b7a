//! `ID-05`: axial length and keratometry of the two eyes are identical.

use crate::biometry::{AxialLength, CornealReading, EyeRecord};
use crate::evidence::{HOUSE, STEEPLES_2016, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ID-05",
    title: "Both eyes have the same numbers",
    group: Group::Identity,
    severity: Severity::Review,
    bearing: None,
    checks: "Axial length and both keratometry readings of the operative eye against those of the fellow eye, as they were given. A finding only if all three are exactly the same; one that differs by a single step passes. Without both eyes measured it cannot be looked at.",
    why: "Two eyes alike to the last digit in all three may be one eye entered twice. Of 178 British reports of a wrong lens, 26 came from transcription and 9 were left for right.",
    options: "Consider comparing both records with the instrument. If the numbers stand, the reason may be recorded.",
    sources: &[
        Standing::Assumption.of(HOUSE, "three identical numbers count as a copy"),
        Standing::Printed.of(STEEPLES_2016, "transcription 26, left/right 9 of 178"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (Some(operated), Some(fellow)) = (numbers(facts.operated.0), numbers(facts.fellow.0))
    else {
        return Err(Missing::LengthAndKeratometryOfBoth.into());
    };
    if operated != fellow {
        return Ok(None);
    }
    let (length, readings) = operated;
    let found = Fact::SameInBothEyes {
        length: length.get(),
        readings: readings.map(Into::into),
    };
    Finding::new(found, Limit::NotAllTheSame).found()
}

/// What a copied eye would share, as it was given.
fn numbers(eye: &EyeRecord) -> Option<(AxialLength, [CornealReading; 2])> {
    let keratometry = &eye.keratometry.as_ref()?.value;
    let readings = [keratometry.flat.reading, keratometry.steep.reading];
    Some((eye.axial_length.as_ref()?.value, readings))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::EyeRecord;
    use crate::rules::testing::{
        assert_found, assert_not_evaluated, assert_satisfied, micrometers, quantity,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn all_three_alike_is_a_finding() {
        assert_found(
            &RULE,
            |draft| {
                draft.set_axial_lengths("23.50 mm", "23.50 mm");
                draft.set_keratometry("43.50 D at 1.3375", "44.00 D at 1.3375");
                draft.set_fellow_keratometry("43.50 D at 1.3375", "44.00 D at 1.3375");
            },
            Fact::SameInBothEyes {
                length: micrometers(23_500),
                readings: ["43.50 D at 1.3375", "44.00 D at 1.3375"].map(quantity),
            },
            Limit::NotAllTheSame,
        );
    }

    #[test]
    fn one_step_in_any_of_them_passes() {
        assert_satisfied(&RULE, |draft| {
            draft.set_axial_lengths("23.50 mm", "23.501 mm");
        });
        assert_satisfied(&RULE, |draft| {
            draft.set_fellow_keratometry("43.51 D at 1.3375", "44.00 D at 1.3375");
        });
        assert_satisfied(&RULE, |draft| {
            draft.set_fellow_keratometry("43.50 D at 1.3375", "44.01 D at 1.3375");
        });
    }

    #[test]
    fn both_eyes_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().keratometry = None);
        assert_not_evaluated(&RULE, |draft| *draft.fellow() = EyeRecord::default());
    }
}
