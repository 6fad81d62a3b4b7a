//! `US-01`: an ultrasound axial length meets constants for optical biometry and nobody chose how.

use super::{LENGTH_AND_K_TO_POWER, ULTRASOUND_LENGTHS, length_and_method, lens_constants};
use crate::biometry::LengthMethod;
use crate::lens::BiometryKind;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "US-01",
    title: "Ultrasound axial length with constants for optical biometry",
    group: Group::Believable,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the axial length of the operative eye was measured by ultrasound while the constants of the chosen lens are for optical biometry, and how to combine them was not chosen. Optical lengths and constants for ultrasound do not concern this rule.",
    why: "Published means: contact ultrasound reads 0.20 mm shorter than immersion (0 to 0.94 mm), optical biometry 0.18 mm longer than immersion and 0.47 mm longer than contact. 1 mm of axial length is 2.5 to 3 D of lens power, so a length 0.47 mm too short makes the lens 1.2 to 1.4 D too strong.",
    options: "The length may be taken as measured, or with the published mean difference added, or measured optically; a lens record with constants for ultrasound may be chosen. Until then there is no power and the plan cannot be signed.",
    sources: &[ULTRASOUND_LENGTHS, LENGTH_AND_K_TO_POWER],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (length, method) = length_and_method(facts)?;
    if method == LengthMethod::Optical {
        return Err(Because::OpticalLength.into());
    }
    match lens_constants(facts)? {
        BiometryKind::Ultrasound => Err(Because::UltrasoundConstants.into()),
        BiometryKind::Optical if facts.draft.lens.ultrasound.is_some() => Ok(None),
        BiometryKind::Optical => {
            Finding::new(Fact::LengthBy { length, method }, Limit::ChosenUse).found()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{LengthMethod, Method};
    use crate::case::UltrasoundChoice;
    use crate::lens::BiometryKind;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn without_a_choice_it_stops() {
        for (measured_by, method) in [
            (Method::ContactUltrasound, LengthMethod::Contact),
            (Method::ImmersionUltrasound, LengthMethod::Immersion),
        ] {
            assert_found(
                &RULE,
                |draft| {
                    draft.choose_lens(BiometryKind::Optical);
                    draft.set_length_by("23.50 mm", measured_by);
                },
                Fact::LengthBy {
                    length: micrometers(23_500),
                    method,
                },
                Limit::ChosenUse,
            );
        }
    }

    #[test]
    fn either_choice_satisfies_it() {
        for choice in [
            UltrasoundChoice::AsMeasured,
            UltrasoundChoice::AddPublishedDifference,
        ] {
            assert_satisfied(&RULE, |draft| {
                draft.choose_lens(BiometryKind::Optical);
                draft.set_length_by("23.50 mm", Method::ContactUltrasound);
                draft.0.lens.ultrasound = Some(choice);
            });
        }
    }

    #[test]
    fn what_belongs_together_does_not_concern_it() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        });
    }

    #[test]
    fn length_its_method_and_lens_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.set_length_by("23.50 mm", Method::Manual);
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        });
    }
}
