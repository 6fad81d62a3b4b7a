//! The toric plan of one eye, from draft to chances.

use super::*;
use crate::astigmatism::PosteriorChoice;
use crate::quantity::{Direction, Meridian, Micrometers};
use crate::rules::testing::{DraftUnderTest, plan};
use crate::rules::testing_lens::toric;

/// The toric eye, steep at 75.
fn oblique(change: impl FnOnce(&mut DraftUnderTest)) -> ToricPlan {
    plan(toric(move |draft| {
        let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
        keratometry.steep.meridian = Meridian::new(75).unwrap();
        keratometry.flat.meridian = Meridian::new(165).unwrap();
        change(draft);
    }))
    .toric
}

/// All of `tests/oracle/toric_plan.py 42.75 44.75 75 21`, 4×4 matrices in Python.
#[test]
fn every_step_agrees_with_the_second_implementation() {
    let plan = oblique(|draft| draft.choose_toric(225, 79));
    let prediction = plan.answer(Formula::SrkT).unwrap();
    assert!((prediction.net.cylinder().d() - 1.887_393_2).abs() < 5e-8);
    assert!((prediction.best_axis_degrees.unwrap() - 74.240_984).abs() < 5e-7);
    assert_eq!(prediction.suggested_axis.unwrap().degrees(), 74);
    assert!((prediction.exact.cylinder.d() - 2.795_740_884).abs() < 5e-10);
    assert!((prediction.exact.ratio - 1.481_271).abs() < 5e-7);

    let expected = [
        (None, [0.951_028_16, -1.886_805_9, 164.241], None),
        (
            Some(150),
            [0.451_978_29, -0.874_509_68, 164.519_9],
            Some(0.999_431_4),
        ),
        (
            Some(225),
            [0.199_290_37, -0.368_580_13, 165.233_9],
            Some(0.996_065_8),
        ),
        (
            Some(300),
            [0.082_513_072, -0.138_834_9, 70.717_84],
            Some(0.980_353_8),
        ),
        (
            Some(375),
            [0.331_196_46, -0.644_375_31, 73.294_25],
            Some(0.928_464_6),
        ),
    ];
    assert_eq!(plan.steps.len(), expected.len());
    for (step, (cylinder, written, chance)) in plan.steps.iter().zip(expected) {
        assert_step(step, (cylinder, written, chance));
        assert_eq!(step.axis.map(Meridian::degrees), cylinder.map(|_| 74));
    }
    let chosen = plan.chosen.as_ref().unwrap();
    let written = [0.246_348_43, -0.463_168_38, 147.827_9];
    assert_step(chosen, (Some(225), written, Some(0.995_292_7)));
    let off = prediction.chosen.unwrap().off_axis_degrees.unwrap();
    assert!((off - (79.0 - 74.240_984)).abs() < 5e-7);
    assert_eq!(
        prediction.least_left().unwrap().cylinder,
        Some(HundredthDiopters::new(300))
    );
    assert_eq!(plan.rotations.len(), 30);
}

fn assert_step(
    step: &StepCertainty,
    (cylinder, [sphere, minus, axis], chance): (Option<i32>, [f64; 3], Option<f64>),
) {
    assert_eq!(step.cylinder.map(HundredthDiopters::hundredths), cylinder);
    let found = step.residual.spectacles();
    assert!((found.sphere.d() - sphere).abs() < 5e-8, "{found:?}");
    assert!((found.cylinder.d() - minus).abs() < 5e-8, "{found:?}");
    assert!((found.axis_degrees - axis).abs() < 5e-4, "{found:?}");
    match (step.chance_of_less, chance) {
        (Some(found), Some(chance)) => assert!((found - chance).abs() < 1e-6, "{found}"),
        (found, chance) => assert_eq!(found, chance),
    }
    assert!(step.chances.is_sorted(), "{:?}", step.chances);
}

/// The lens stands at 79, the best axis is 74.24: turned clockwise by 5° it stands near it, and leaves
/// what the suggested axis leaves; turned on by 5° it leaves more.
#[test]
fn a_turn_toward_the_best_axis_helps() {
    let plan = oblique(|draft| draft.choose_toric(225, 79));
    let turn = plan
        .rotations
        .iter()
        .find(|turn| turn.degrees == 5)
        .unwrap();
    let suggested = &plan.steps[2].residual;
    assert!((turn.clockwise.cylinder() - suggested.cylinder()).d().abs() < 0.002);
    assert!(turn.clockwise.cylinder() < turn.counter_clockwise.cylinder());
    let [on, back] = turn.closed_form;
    assert!(back < on);
}

#[test]
fn the_formula_planned_by_stands_first_and_the_others_beside_it() {
    let plan = oblique(|draft| draft.0.lens.formula = Some(Formula::Haigis));
    let order: Vec<_> = plan.formulas.iter().map(|column| column.formula).collect();
    assert_eq!(
        order,
        [
            Formula::Haigis,
            Formula::SrkT,
            Formula::T2,
            Formula::Holladay1,
            Formula::HofferQ,
            Formula::ThickLens
        ]
    );
    for formula in Formula::THIN_LENS {
        assert!(plan.answer(formula).is_some(), "{formula:?}");
    }
    let thick = plan.formulas.last().unwrap();
    assert!(thick.answer.is_err());
}

/// By hand: the cornea before the incision is 2 D at 75 and 0.30 D at 180: (−1.7321 + 0.30, 1.0), at
/// 72.53°. The ends of that meridian are 73 and 253, neither of them temporal: the upper one. Steep at 10
/// it is (1.8794 + 0.30, 0.6840), at 8.71°, whose temporal end on a right eye is 189.
#[test]
fn the_alternative_takes_the_temporal_or_the_upper_end_of_the_steep_meridian() {
    let direction = |steep, planned| {
        let plan = oblique(move |draft| {
            draft.0.approach.incision_direction = Direction::new(planned).ok();
            let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
            keratometry.steep.meridian = Meridian::new(steep).unwrap();
            keratometry.flat.meridian = Meridian::new(steep).unwrap().perpendicular();
        });
        let alternative = plan.alternative.unwrap();
        // Flattening of the steep meridian leaves 0.20 D less than the cornea had.
        let terms = alternative.alternative.terms;
        let less = terms.before_incision().cylinder() - terms.total().cylinder();
        assert!((less.d() - 0.20).abs() < 1e-4, "{less}");
        assert!(alternative.without_cylinder.unwrap().cylinder.is_none());
        alternative.alternative.direction.degrees()
    };
    for planned in [100, 180, 270, 360] {
        assert_eq!(direction(75, planned), 73);
        assert_eq!(direction(10, planned), 189);
    }
}

#[test]
fn a_lens_that_is_not_toric_has_one_step() {
    let plan = oblique(|draft| draft.chosen().record.toric = None);
    assert_eq!(plan.steps.len(), 1);
    assert!(plan.chosen.is_none() && plan.rotations.is_empty());
    assert!(plan.alternative.is_ok());
}

/// A spread that was measured replaces the clinic's; that of the mean of two meridians is doubled.
#[test]
fn measured_spreads_replace_the_clinics() {
    let plan = oblique(|_| {});
    assert_eq!(plan.spreads.keratometry, Diopters::new(0.30));
    assert_eq!(plan.spreads.posterior, Diopters::new(0.30));
    assert!(!plan.measured_spreads.keratometry && !plan.measured_spreads.posterior);
    let measured = |choice| {
        oblique(move |draft| {
            draft.0.lens.posterior = choice;
            let eye = draft.operated();
            eye.keratometry.as_mut().unwrap().spread = Some(HundredthDiopters::new(10));
            eye.posterior_astigmatism.as_mut().unwrap().spread = Some(HundredthDiopters::new(12));
        })
    };
    let plan = measured(None);
    assert_eq!(plan.spreads.keratometry, Diopters::new(0.20));
    assert_eq!(plan.spreads.posterior, Diopters::new(0.12));
    assert!(plan.measured_spreads.keratometry && plan.measured_spreads.posterior);
    // An estimate of the back scatters more than a measurement of it.
    for choice in [PosteriorChoice::Regression, PosteriorChoice::LeftOut] {
        let plan = measured(Some(choice));
        assert_eq!(plan.spreads.posterior, Diopters::new(0.30), "{choice:?}");
        assert!(!plan.measured_spreads.posterior, "{choice:?}");
    }
}

/// By hand: the eye's incision scatters by 0.30 D as observed, and 0.30² − 2·0.30² is less than
/// nothing. With 0.50 D, 0.25 − 0.18 = 0.07 = 0.264575² is left, the keratometry of this eye being as
/// good as it likes: the incision's effect was observed by the usual one.
#[test]
fn the_incisions_own_scatter_is_counted_and_said() {
    let of = |hundredths, spread: Option<i32>| {
        oblique(move |draft| {
            let [flattening, scatter] = [20, hundredths].map(HundredthDiopters::new);
            let effect = crate::astigmatism::IncisionEffect::new(flattening, scatter, 60, None);
            draft.0.approach.incision_effect = effect.ok();
            draft.operated().keratometry.as_mut().unwrap().spread =
                spread.map(HundredthDiopters::new);
        })
    };
    let caution = ToricCaution::IncisionScatterInKeratometry;
    let explained = of(30, None);
    assert_eq!(explained.incision_scatter, Some(OwnScatter::InKeratometry));
    assert!(explained.cautions.contains(&caution));
    for spread in [None, Some(5)] {
        let left = of(50, spread);
        let scatter = left.incision_scatter.unwrap().counted();
        assert!((scatter.d() - 0.264_575).abs() < 5e-7, "{scatter:?}");
        assert!(!left.cautions.contains(&caution));
    }
}

/// A cornea that gives no answer gives its reason everywhere, and nothing is filled in.
#[test]
fn a_refusal_reaches_every_part() {
    let plan = oblique(|draft| {
        draft.0.approach.incision_effect = None;
        draft.0.approach.incision_width = Some(Micrometers::new(3_200));
    });
    let refusal = plan.cornea.unwrap_err();
    let width = Micrometers::new(3_200);
    assert_eq!(refusal, ToricRefusal::WideIncisionUnknown { width });
    assert_eq!(plan.alternative.unwrap_err(), refusal);
    // What is known is still shown: 2 D of the front at 75.
    let front = plan.terms.front.unwrap().at_standard_index();
    assert!((front.cylinder().d() - 2.0).abs() < 1e-9);
    assert!(plan.terms.posterior.is_ok());
    assert_eq!(plan.terms.incision.unwrap_err(), refusal);
    for column in &plan.formulas {
        assert!(column.answer.is_err(), "{:?}", column.formula);
    }
    assert!(plan.steps.is_empty() && plan.chosen.is_none() && plan.rotations.is_empty());
}
