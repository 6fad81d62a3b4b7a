//! `SL-01`: a second look at the critical numbers differs from the case.

use crate::case::second_look::differences;
use crate::case::{Looked, Pair};
use crate::evidence::{HOUSE, STEEPLES_2016, Standing};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity, TwoLooks};

pub const RULE: Rule = Rule {
    id: "SL-01",
    title: "Second look differs",
    group: Group::Identity,
    severity: Severity::Review,
    bearing: None,
    checks: "Hospital number, operative eye, axial length, both keratometry readings with meridian and index, chamber depth with its surface, lens thickness and target as they stand in the case, against what a second person entered without seeing them. Only the same exact value passes; a number that one of them left out does not, except a lens thickness that the second look left alone. A first number changed afterwards is compared anew. Without a recorded second look there is nothing to compare.",
    why: "Of 178 British reports of a wrong lens, 26 came from transcription. A slip of one digit can be small, so that no difference is passed over.",
    options: "Consider comparing both with the printout of the instrument. The number that is wrong may be corrected, the second look repeated, or the reason recorded.",
    sources: &[
        Standing::Printed.of(STEEPLES_2016, "transcription, 26 of 178"),
        Standing::Assumption.of(
            HOUSE,
            "any difference of the exact values counts; no tolerance was found",
        ),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if facts.draft.second_look.is_none() {
        return Err(Because::NoSecondLook.into());
    }
    let found: Vec<_> = differences(facts.draft).into_iter().map(both).collect();
    if found.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::TwoLooks(found), Limit::TwoLooksAgree).found()
}

/// A number as both entered it; a finding never holds the patient's.
fn both(pair: Pair) -> TwoLooks {
    let (what, first) = (pair.what, pair.first);
    let quantity = |looked| match looked {
        Some(Looked::Quantity(quantity)) => Some(quantity),
        _ => None,
    };
    match pair.second {
        Some(Looked::Number(_)) => TwoLooks::Number,
        Some(Looked::Eye(second)) => TwoLooks::Eye {
            first: match first {
                Some(Looked::Eye(eye)) => Some(eye),
                _ => None,
            },
            second,
        },
        Some(Looked::Meridian(second)) => TwoLooks::Meridian {
            what,
            first: match first {
                Some(Looked::Meridian(meridian)) => Some(meridian),
                _ => None,
            },
            second,
        },
        second => TwoLooks::Quantity {
            what,
            first: quantity(first),
            second: quantity(second),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::Critical;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_satisfied, diopters, meridian,
        quantity,
    };
    use crate::rules::testing_lens::second_look_of;
    use crate::rules::{Fact, Limit, Quantity, TwoLooks};

    fn look(draft: &mut DraftUnderTest) {
        draft.0.patient.number = Some("40-2291".to_owned());
        draft.0.second_look = Some(second_look_of(&draft.0));
    }

    #[track_caller]
    fn assert_differ(change: impl FnOnce(&mut DraftUnderTest), expected: Vec<TwoLooks>) {
        assert_found(
            &RULE,
            |draft| {
                look(draft);
                change(draft);
            },
            Fact::TwoLooks(expected),
            Limit::TwoLooksAgree,
        );
    }

    #[test]
    fn the_same_exact_numbers_pass_and_without_a_look_there_is_nothing_to_compare() {
        assert_satisfied(&RULE, look);
        assert_not_applicable(&RULE, |_| {});
    }

    #[test]
    fn one_micrometer_is_a_difference() {
        assert_differ(
            |draft| draft.set_axial_length("23.501 mm"),
            vec![TwoLooks::Quantity {
                what: Critical::AxialLength,
                first: Some(quantity("23.501 mm")),
                second: Some(quantity("23.50 mm")),
            }],
        );
    }

    #[test]
    fn every_difference_is_named_and_the_patient_is_not() {
        assert_differ(
            |draft| {
                draft.0.patient.number = Some("40-2292".to_owned());
                draft.operated().chamber_depth = None;
            },
            vec![
                TwoLooks::Number,
                TwoLooks::Quantity {
                    what: Critical::ChamberDepth,
                    first: None,
                    second: Some(quantity("3.20 mm from the epithelium")),
                },
            ],
        );
    }

    /// Each number of the second look, changed by itself.
    #[test]
    fn each_number_is_held_as_both_entered_it() {
        assert_differ(
            |draft| {
                draft.set_keratometry("7.80 mm", "44.25 D at 1.3375");
                let keratometry = draft.operated().keratometry.as_mut().unwrap();
                keratometry.value.flat.meridian = meridian(5);
                keratometry.value.steep.meridian = meridian(95);
                draft.set_lens_thickness("4.50 mm");
                draft.0.second_look.as_mut().unwrap().lens_thickness =
                    Some("4.51 mm".parse().unwrap());
                draft.0.lens.target = Some(diopters(-25));
            },
            vec![
                TwoLooks::Quantity {
                    what: Critical::Flat,
                    first: Some(quantity("7.80 mm")),
                    second: Some(quantity("43.50 D at 1.3375")),
                },
                TwoLooks::Meridian {
                    what: Critical::FlatMeridian,
                    first: Some(meridian(5)),
                    second: meridian(180),
                },
                TwoLooks::Quantity {
                    what: Critical::Steep,
                    first: Some(quantity("44.25 D at 1.3375")),
                    second: Some(quantity("44.00 D at 1.3375")),
                },
                TwoLooks::Meridian {
                    what: Critical::SteepMeridian,
                    first: Some(meridian(95)),
                    second: meridian(90),
                },
                TwoLooks::Quantity {
                    what: Critical::LensThickness,
                    first: Some(quantity("4.50 mm")),
                    second: Some(quantity("4.51 mm")),
                },
                TwoLooks::Quantity {
                    what: Critical::Target,
                    first: Some(Quantity::Power(diopters(-25))),
                    second: None,
                },
            ],
        );
    }
}
