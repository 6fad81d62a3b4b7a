//! Properties of the spread of a prediction over the whole physical range of `properties.rs`, by
//! every formula: nothing here expects a number, so nothing here has an origin to name.

use millrace_core::certainty::{
    Basis, Budget, ColumnCertainty, Distribution, LadderCertainty, Level, Normal, Pool, Prediction,
    Spreads,
};
use millrace_core::iol_power::{Formula, FormulaInputs};
use millrace_core::limits::Limits;
use millrace_core::quantity::{Diopters, HundredthDiopters, Micrometers};
use proptest::prelude::*;

use crate::properties::any_eye;

fn any_normal() -> impl Strategy<Value = Normal> {
    (-8.0..8.0, 0.01..3.0).prop_map(|(mean, deviation)| Normal {
        mean: Diopters::new(mean),
        deviation: Diopters::new(deviation),
    })
}

fn any_mixture() -> impl Strategy<Value = Distribution> {
    prop::collection::vec(any_normal(), 1..=9)
        .prop_map(|normals| Distribution::of(normals).expect("at least one"))
}

/// Whole half diopters, over what lenses are made in and somewhat beyond.
fn any_power() -> impl Strategy<Value = HundredthDiopters> {
    (-40..=100).prop_map(|halves| HundredthDiopters::new(50 * halves))
}

/// How much more the sources may spread in a clinic than as shipped.
#[derive(Clone, Copy, Debug)]
struct More {
    length: i32,
    depth: i32,
    thickness: i32,
    mean_k: f64,
    refraction: f64,
    label: f64,
}

fn more() -> impl Strategy<Value = More> {
    (
        0..300,
        0..300,
        0..300,
        0.0..1.0,
        0.0..0.5,
        prop_oneof![Just(0.0), 0.0..2.0],
    )
        .prop_map(
            |(length, depth, thickness, mean_k, refraction, label)| More {
                length,
                depth,
                thickness,
                mean_k,
                refraction,
                label,
            },
        )
}

fn wider(more: More) -> Limits {
    let mut limits = Limits::shipped().clone();
    let um = |length: Micrometers, more| Micrometers::new(length.um() + more);
    let d = |power: Diopters, more| Diopters::new(power.d() + more);
    limits.spread_length_optical = um(limits.spread_length_optical, more.length);
    limits.spread_chamber_depth = um(limits.spread_chamber_depth, more.depth);
    limits.spread_lens_thickness = um(limits.spread_lens_thickness, more.thickness);
    limits.spread_mean_k = d(limits.spread_mean_k, more.mean_k);
    limits.spread_refraction = d(limits.spread_refraction, more.refraction);
    limits.lens_tolerance_to_15 = d(limits.lens_tolerance_to_15, more.label);
    limits.lens_tolerance_to_25 = d(limits.lens_tolerance_to_25, more.label);
    limits.lens_tolerance_to_30 = d(limits.lens_tolerance_to_30, more.label);
    limits.lens_tolerance_over_30 = d(limits.lens_tolerance_over_30, more.label);
    limits
}

/// The columns of all formulas, refused ones included; the scatter is as shipped.
fn certainty(inputs: &FormulaInputs, known: &Spreads) -> LadderCertainty {
    let column = |formula| ColumnCertainty {
        formula,
        basis: Basis::of(formula, inputs, known, None, Limits::shipped()),
        rungs: Vec::new(),
    };
    LadderCertainty {
        columns: Formula::ALL.map(column).into(),
        pooled: Vec::new(),
        withheld: Vec::new(),
    }
}

fn pooled(all: &[(Formula, Prediction)]) -> Option<Distribution> {
    Some(
        Pool::of(all.iter().map(|(_, one)| one))?
            .distribution()
            .clone(),
    )
}

fn predictions(inputs: &FormulaInputs, power: HundredthDiopters) -> Vec<(Formula, Prediction)> {
    let limits = Limits::shipped();
    certainty(inputs, &Spreads::usual(limits)).predictions(power, limits)
}

/// Intervals are nested around the median, and their ends leave the chance they promise.
fn intervals_hold(whole: &Distribution) -> Result<(), TestCaseError> {
    let [half, eighty, ninety_five] = Level::ALL.map(|level| whole.interval(level));
    let [a, b, c] = [ninety_five[0], eighty[0], half[0]];
    let [d, e, f] = [half[1], eighty[1], ninety_five[1]];
    prop_assert!(a < b && b < c && c < d && d < e && e < f);
    for level in Level::ALL {
        let [low, high] = whole.interval(level);
        let outside = (1.0 - f64::from(level.percent()) / 100.0) / 2.0;
        prop_assert!(
            (whole.chance_up_to(low) - outside).abs() < 1e-9,
            "{level:?}"
        );
        prop_assert!(
            (whole.chance_over(high) - outside).abs() < 1e-9,
            "{level:?}"
        );
        prop_assert!(whole.chance_up_to(low) < 0.5 && 0.5 < whole.chance_up_to(high));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Chances lie in 0 to 1, a wider band holds no less, and both sides of a limit make one.
    #[test]
    fn chances_are_chances(
        whole in any_mixture(),
        target_d in -10.0..5.0,
        band_d in 0.0..4.0,
        more_d in 0.0..4.0,
    ) {
        let target = Diopters::new(target_d);
        let narrow = whole.chance_within(target, Diopters::new(band_d));
        let wide = whole.chance_within(target, Diopters::new(band_d + more_d));
        prop_assert!(0.0 <= narrow && narrow <= 1.0 && 0.0 <= wide && wide <= 1.0);
        prop_assert!(narrow <= wide, "{narrow} {wide}");
        let [below, over] = [whole.chance_up_to(target), whole.chance_over(target)];
        prop_assert!(0.0 <= below && below <= 1.0 && 0.0 <= over && over <= 1.0);
        prop_assert!((below + over - 1.0).abs() < 1e-12, "{below} {over}");
        // What a band holds is what neither side of it holds.
        let low = whole.chance_up_to(Diopters::new(target_d - band_d));
        let high = whole.chance_over(Diopters::new(target_d + band_d));
        prop_assert!((narrow + low + high - 1.0).abs() < 1e-12);
    }

    #[test]
    fn intervals_hold_what_they_promise(whole in any_mixture()) {
        intervals_hold(&whole)?;
    }

    /// The same of the pools that eyes really have.
    #[test]
    fn intervals_of_any_eye_hold_what_they_promise(inputs in any_eye(), power in any_power()) {
        if let Some(whole) = pooled(&predictions(&inputs, power)) {
            intervals_hold(&whole)?;
        }
    }

    /// A formula alone is pooled as it speaks; several never make the whole surer than if no bias of
    /// theirs were known.
    #[test]
    fn biases_are_never_lost_by_a_formula_alone(inputs in any_eye(), power in any_power()) {
        let all = predictions(&inputs, power);
        for one in &all {
            prop_assert_eq!(pooled(core::slice::from_ref(one)), Some(one.1.distribution()));
        }
        let plain: Vec<_> = all
            .iter()
            .map(|(formula, one)| (*formula, Prediction { bias: Diopters::new(0.0), ..one.clone() }))
            .collect();
        if let (Some(whole), Some(plain)) = (pooled(&all), pooled(&plain)) {
            prop_assert!(plain.deviation() <= whole.deviation());
        }
    }

    /// Formulas that disagree never make the whole surer than its parts.
    #[test]
    fn a_pool_spreads_at_least_as_its_parts(whole in any_mixture()) {
        let parts = whole.components();
        let squares = parts.iter().map(|part| part.deviation.d() * part.deviation.d());
        #[expect(clippy::cast_precision_loss, reason = "at most nine")]
        let within = squares.sum::<f64>() / parts.len() as f64;
        prop_assert!(within.sqrt() <= whole.deviation().d() * (1.0 + 1e-15));
        prop_assert!(0.0 <= whole.disagreement());
    }

    /// Shares and disagreement make the whole; what is measured again never makes it less sure; a
    /// formula that is refused leaves no trace.
    #[test]
    fn a_budget_adds_up(inputs in any_eye(), power in any_power()) {
        let limits = Limits::shipped();
        let known = Spreads::usual(limits);
        let whole = certainty(&inputs, &known);
        let answers = predictions(&inputs, power);
        let budget = Budget::of(&whole.predictions(power, limits));
        prop_assert_eq!(budget.is_none(), answers.is_empty());
        if let Some(budget) = budget {
            let whole_d = budget.distribution.deviation().d();
            let shares: f64 = budget.items.iter().map(|item| item.share).sum();
            prop_assert!((shares + budget.disagreement_share() - 1.0).abs() < 1e-9, "{shares}");
            for item in &budget.items {
                prop_assert!(0.0 <= item.share && item.share <= 1.0, "{item:?}");
                prop_assert_eq!(item.repeated.is_some(), item.source.can_be_repeated());
                let repeated_d = item.repeated.map_or(whole_d, Diopters::d);
                prop_assert!(0.0 < repeated_d && repeated_d <= whole_d, "{item:?}");
            }
            // Formula by formula, only those that answer, in the order of the table.
            let alone: Vec<_> = Formula::ALL
                .into_iter()
                .filter_map(|formula| {
                    let basis = Basis::of(formula, &inputs, &known, None, limits).ok()?;
                    Some((formula, basis.predict(power, limits).ok()?))
                })
                .collect();
            prop_assert_eq!(pooled(&alone), Some(budget.distribution));
            prop_assert_eq!(Budget::of(&alone).map(|b| b.items), Some(budget.items));
        }
    }

    /// A spread that grows, of whatever source, never makes a formula or the pool surer.
    #[test]
    fn a_larger_spread_never_lowers_the_deviation(
        inputs in any_eye(),
        power in any_power(),
        more in more(),
    ) {
        let shipped = Limits::shipped();
        let wide = wider(more);
        let [before, after] = [(shipped, shipped), (&wide, &wide)].map(|(known, label)| {
            certainty(&inputs, &Spreads::usual(known)).predictions(power, label)
        });
        prop_assert_eq!(before.len(), after.len());
        for ((formula, less), (_, more)) in before.iter().zip(&after) {
            let [less_d, more_d] = [less, more].map(|one| one.deviation().d());
            prop_assert!(less_d <= more_d, "{formula:?} {less_d} {more_d}");
            prop_assert_eq!(less.linear, more.linear);
        }
        if let (Some(less), Some(more)) = (pooled(&before), pooled(&after)) {
            prop_assert!(less.deviation() <= more.deviation());
        }
    }

    /// More scatter of a formula leaves more to the lens position, and so more to every prediction.
    #[test]
    fn more_scatter_spreads_every_prediction_more(
        inputs in any_eye(),
        power in any_power(),
        more_d in 0.0..0.2,
    ) {
        let shipped = Limits::shipped();
        let mut scattered = shipped.clone();
        for scatter in [
            &mut scattered.scatter_srk_t,
            &mut scattered.scatter_t2,
            &mut scattered.scatter_holladay_1,
            &mut scattered.scatter_hoffer_q,
            &mut scattered.scatter_haigis,
        ] {
            *scatter = Diopters::new(scatter.d() + more_d);
        }
        let known = Spreads::usual(shipped);
        for formula in Formula::THIN_LENS {
            let [less, more] = [shipped, &scattered].map(|limits| {
                Basis::of(formula, &inputs, &known, None, limits)
                    .and_then(|basis| basis.predict(power, limits))
            });
            if let Ok(less) = less {
                let [less_d, more_d] = [less.deviation(), more.unwrap().deviation()].map(Diopters::d);
                prop_assert!(less_d <= more_d, "{formula:?} {less_d} {more_d}");
            }
        }
    }
}

/// The properties above pass over what is refused; this one counts that ordinary eyes are not.
#[test]
fn every_ordinary_eye_has_a_distribution_by_five_formulas() {
    let mut answered = 0;
    for length_um in (20_000..=28_000).step_by(500) {
        for k_d in 40..=44 {
            let k_d = f64::from(k_d);
            let length_mm = f64::from(length_um) / 1_000.0;
            let inputs = crate::properties::inputs(length_mm, [k_d, k_d + 1.0], 3.2);
            answered += predictions(&inputs, HundredthDiopters::new(2_100)).len();
        }
    }
    // 17 lengths, 5 corneas, the five formulas for untouched corneas.
    assert_eq!(answered, 17 * 5 * 5);
}
