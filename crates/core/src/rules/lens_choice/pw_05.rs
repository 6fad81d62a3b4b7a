//! `PW-05`: a chosen power leaves the eye far from the target.

use super::in_place::predicted;
use crate::evidence::{HOUSE, LUNDSTROM_2018, OPTICS, Standing};
use crate::rules::{Because, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-05",
    title: "The power leaves the eye far from the target",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Refraction predicted for the chosen power of the planned lens, and of each lens that lies ready in its own place, to the nearest 0.01 D, against the target ± 1.00 D. The limit itself passes; beyond ± 2.00 D it is for PW-06. The formula planned by predicts; where it has no result for a lens that lies ready, for want of its constant, the result of the others that is farthest from the target counts. A lens in the sulcus is taken to sit forward of the bag by the stated shift; an anterior chamber IOL is where its own constant puts it.",
    why: "A lens that lies ready is opened when something went wrong, and nobody computes then. Its power was chosen for this eye or was left over from another one.",
    options: "A power nearer to the target may be chosen, or target and measurements checked; a power that is wanted may be given its reason.",
    sources: &[
        Standing::Assumption.of(HOUSE, "1.00 D, the clinic's to change"),
        Standing::Printed.of(
            LUNDSTROM_2018,
            "93.0 % within ±1.0 D: the wider band outcomes are reported in",
        ),
        Standing::Derived.of(OPTICS, "vergence with the lens in its place"),
    ],
    limits: &["target_band", "target_band_widest", "sulcus_shift"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let predicted = predicted(facts)?;
    let limits = facts.limits;
    if predicted.off() <= limits.target_band {
        return Ok(None);
    }
    if limits.target_band_widest < predicted.off() {
        return Err(Because::FartherOff.into());
    }
    let limit = Limit::NearTarget {
        within: limits.target_band,
        target: predicted.target,
    };
    Finding::new(predicted.fact(), limit)
        .with(predicted.details())
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::lens::Place;
    use crate::quantity::Micrometers;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, verdict_of_backup,
    };
    use crate::rules::testing_lens::{choose_power, lens_record, sulcus_record};
    use crate::rules::{Because, Detail, Fact, Finding, Limit, Verdict};

    /// SRK/T in closed form (`tests/oracle/closed_forms.py`), AL 23.50 mm, K 43.50 and 44.00 D, A 119:
    /// +21.0271 D for emmetropia; +22.00 D leaves −0.6643, +22.50 D −1.0116, +24.00 D −2.0783.
    fn fact(power: i32, refraction: i32) -> Fact {
        Fact::PredictedBy {
            formula: Formula::SrkT,
            power: diopters(power),
            refraction: diopters(refraction),
        }
    }

    fn near(target: i32) -> Limit {
        Limit::NearTarget {
            within: diopters(100),
            target: diopters(target),
        }
    }

    fn aimed(power: i32, target: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            choose_power(power)(draft);
            draft.0.lens.target = Some(diopters(target));
        }
    }

    #[test]
    fn at_the_band_and_one_step_beyond() {
        assert_satisfied(&RULE, aimed(2_200, 0));
        assert_satisfied(&RULE, aimed(2_250, -1));
        let finding = assert_found(&RULE, aimed(2_250, 0), fact(2_250, -101), near(0));
        assert_eq!(finding.details, [Detail::NeededPower(diopters(2_103))]);
        // Two diopters off is the farthest that is a question; beyond it another rule stops.
        assert_found(&RULE, aimed(2_400, -8), fact(2_400, -208), near(-8));
        assert_not_applicable(&RULE, aimed(2_400, -7));
    }

    /// With the lens 0.50 mm forward, +20.0692 D for emmetropia; +22.00 D leaves −1.3864 and +21.00 D
    /// −0.6606.
    #[test]
    fn a_lens_for_the_sulcus_is_judged_forward_of_the_bag() {
        let of = |place, power| {
            verdict_of_backup(&RULE, place, |draft| {
                draft.plan_lens();
                let record = match place {
                    Place::Bag => lens_record(),
                    _ => sulcus_record(),
                };
                draft.lay_ready_with(place, record, power);
            })
        };
        assert_eq!(of(Place::Bag, 2_200), Verdict::Satisfied);
        assert_eq!(of(Place::Sulcus, 2_100), Verdict::Satisfied);
        let found = Finding::new(fact(2_200, -139), near(0)).with([
            Detail::NeededPower(diopters(2_007)),
            Detail::TakenForward(Micrometers::new(500)),
        ]);
        assert_eq!(of(Place::Sulcus, 2_200), Verdict::Finding(found));
    }

    #[test]
    fn what_a_prediction_takes_is_needed_but_no_power_of_a_lens_that_lies_ready() {
        let without = |remove: fn(&mut DraftUnderTest)| {
            move |draft: &mut DraftUnderTest| {
                choose_power(2_250)(draft);
                remove(draft);
            }
        };
        assert_not_evaluated(&RULE, without(|draft| draft.chosen().power = None));
        assert_not_evaluated(&RULE, without(DraftUnderTest::without_lens));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.target = None));
        assert_not_evaluated(&RULE, without(|draft| draft.0.lens.formula = None));
        assert_not_applicable(&RULE, without(|draft| draft.operated().axial_length = None));
        let verdict = verdict_of_backup(&RULE, Place::Bag, |draft| {
            draft.plan_lens();
            draft.lay_ready(Place::Bag, lens_record());
        });
        assert_eq!(verdict, Verdict::NotApplicable(Because::NoPowerOfBackup));
    }
}
