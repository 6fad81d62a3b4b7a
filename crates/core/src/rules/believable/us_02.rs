//! `US-02`: an ultrasound axial length is used with constants for optical biometry, by choice.

use super::{ULTRASOUND_LENGTHS, length_and_method, lens_constants};
use crate::biometry::LengthMethod;
use crate::case::UltrasoundChoice;
use crate::lens::BiometryKind;
use crate::prediction::{OPTICAL_LESS_CONTACT, OPTICAL_LESS_IMMERSION};
use crate::rules::{Because, Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "US-02",
    title: "Ultrasound length is used with constants for optical biometry",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether an ultrasound axial length of the operative eye is used with lens constants for optical biometry because somebody chose so. Either choice is a finding, shown with the length the formulas are given.",
    why: "Published means: contact ultrasound reads 0.20 mm shorter than immersion (0 to 0.94 mm), optical biometry 0.18 mm longer than immersion and 0.47 mm longer than contact. These means come from different comparisons and do not quite add up, and a mean says little of one eye: an added mean difference is an estimate, and a length taken as measured is short by an unknown amount.",
    options: "Consider measuring optically, or choosing a lens record with constants for ultrasound. If the choice stands, the reason may be recorded.",
    sources: &[ULTRASOUND_LENGTHS],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (length, method) = length_and_method(facts)?;
    let difference = match method {
        LengthMethod::Optical => return Err(Because::OpticalLength.into()),
        LengthMethod::Immersion => OPTICAL_LESS_IMMERSION,
        LengthMethod::Contact => OPTICAL_LESS_CONTACT,
    };
    if lens_constants(facts)? == BiometryKind::Ultrasound {
        return Err(Because::UltrasoundConstants.into());
    }
    let added = match facts.draft.lens.ultrasound.ok_or(Because::UseNotChosen)? {
        UltrasoundChoice::AsMeasured => None,
        UltrasoundChoice::AddPublishedDifference => Some(difference),
    };
    let found = Fact::LengthUsed {
        length,
        method,
        added,
    };
    Finding::new(found, Limit::ConstantsFor(BiometryKind::Optical))
        .with([Detail::UltrasoundMeans])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{LengthMethod, Method};
    use crate::case::UltrasoundChoice;
    use crate::lens::BiometryKind;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, micrometers,
    };
    use crate::rules::{Detail, Fact, Limit};

    #[test]
    fn either_choice_is_shown_with_what_is_added() {
        use UltrasoundChoice::{AddPublishedDifference, AsMeasured};
        for (measured_by, method, choice, added) in [
            (
                Method::ContactUltrasound,
                LengthMethod::Contact,
                AsMeasured,
                None,
            ),
            (
                Method::ContactUltrasound,
                LengthMethod::Contact,
                AddPublishedDifference,
                Some(micrometers(470)),
            ),
            (
                Method::ImmersionUltrasound,
                LengthMethod::Immersion,
                AddPublishedDifference,
                Some(micrometers(180)),
            ),
        ] {
            let finding = assert_found(
                &RULE,
                |draft| {
                    draft.choose_lens(BiometryKind::Optical);
                    draft.set_length_by("23.50 mm", measured_by);
                    draft.0.lens.ultrasound = Some(choice);
                },
                Fact::LengthUsed {
                    length: micrometers(23_500),
                    method,
                    added,
                },
                Limit::ConstantsFor(BiometryKind::Optical),
            );
            assert_eq!(finding.details, [Detail::UltrasoundMeans]);
        }
    }

    #[test]
    fn without_a_choice_or_a_mismatch_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
            draft.0.lens.ultrasound = Some(UltrasoundChoice::AsMeasured);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.0.lens.ultrasound = Some(UltrasoundChoice::AsMeasured);
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
