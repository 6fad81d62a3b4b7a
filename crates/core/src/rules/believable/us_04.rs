//! `US-04`: the axial length was measured by contact ultrasound.

use super::{LENGTH_AND_K_TO_POWER, ULTRASOUND_LENGTHS, length_and_method};
use crate::biometry::LengthMethod;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "US-04",
    title: "Axial length is by contact ultrasound",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the axial length of the operative eye was measured by contact ultrasound. Immersion ultrasound and optical biometry pass.",
    why: "The probe on the cornea indents it. Contact ultrasound reads 0.20 mm shorter than immersion on average, 0 to 0.94 mm, and 0.47 mm shorter than optical biometry; 1 mm is 2.5 to 3 D of lens power.",
    options: "Consider optical biometry or immersion ultrasound where the eye allows it; a spread of repeated readings may show how steady the probe was.",
    sources: &[ULTRASOUND_LENGTHS, LENGTH_AND_K_TO_POWER],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (length, method) = length_and_method(facts)?;
    if method != LengthMethod::Contact {
        return Ok(None);
    }
    Finding::new(Fact::LengthBy { length, method }, Limit::NoProbe).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{LengthMethod, Method};
    use crate::rules::testing::{
        assert_found, assert_not_evaluated, assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn only_contact_is_a_finding() {
        for method in [Method::Optical, Method::ImmersionUltrasound] {
            assert_satisfied(&RULE, |draft| draft.set_length_by("23.50 mm", method));
        }
        assert_found(
            &RULE,
            |draft| draft.set_length_by("23.50 mm", Method::ContactUltrasound),
            Fact::LengthBy {
                length: micrometers(23_500),
                method: LengthMethod::Contact,
            },
            Limit::NoProbe,
        );
    }

    #[test]
    fn length_and_its_method_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| {
            draft.set_length_by("23.50 mm", Method::Manual);
        });
    }
}
