//! The inner loops of the Monte Carlo: eyes in batches whose numbers lie side by side and stay in the
//! processor's first cache.

use super::monte_carlo::{Drawn, Question};
use super::standard_normal::Sequence;
use super::tally::{NO_ANSWER, Tally};
use super::{ErrorSource, Errors, Lane, SOURCES};
use crate::iol_power::{CornealRadii, Formula, FormulaInputs, Refusal};
use crate::quantity::{Diopters, Millimeters, Number};

/// Eyes of one batch.
pub(super) const BATCH: usize = 128;

/// A number of every eye of a batch.
type Batch = [f64; BATCH];

/// The work of one block, compiled for the widest vectors of the machine it runs on; without fused
/// operations these give the bits of any other machine.
pub(super) struct Block<'a> {
    pub(super) question: &'a Question<'a>,
    pub(super) formulas: &'a [Drawn],
    /// Places of the sources whose errors are drawn.
    pub(super) used: &'a [usize],
    /// How many eyes.
    pub(super) count: usize,
    pub(super) random: Sequence,
    /// One for every formula.
    pub(super) tallies: Vec<Tally>,
}

impl pulp::NullaryFnOnce for Block<'_> {
    type Output = Vec<Tally>;

    #[inline(always)]
    fn call(mut self) -> Vec<Tally> {
        let mut standard = [[0.0; BATCH]; SOURCES];
        let mut radii = [[0.0; BATCH]; 2];
        let mut refractions = [0.0; BATCH];
        let mut left = self.count;
        while 0 < left {
            draw(&mut standard, self.used, &mut self.random);
            let count = left.min(BATCH);
            let mut measured_with = None;
            for (drawn, tally) in self.formulas.iter().zip(&mut self.tallies) {
                // Once for all formulas, as long as the readings are equally sure for all.
                let sure = drawn.deviation_bits(ErrorSource::CornealPower);
                if measured_with != sure {
                    measure(&mut radii, self.question.inputs, drawn, &standard);
                    measured_with = sure;
                }
                let eyes = Eyes {
                    standard: &standard,
                    radii: &radii,
                };
                refract(self.question, drawn, eyes, &mut refractions);
                if let Some(refractions) = refractions.get(..count) {
                    tally.count(refractions);
                }
            }
            left -= count;
        }
        self.tallies
    }
}

/// Draws the errors of the sources in use, in standard deviations.
#[inline(always)]
fn draw(standard: &mut [Batch; SOURCES], used: &[usize], random: &mut Sequence) {
    let mut unused = [0.0; BATCH];
    for sources in used.chunks(2) {
        let pair = match *sources {
            [first, second] => standard.get_disjoint_mut([first, second]).ok(),
            [single] => standard.get_mut(single).map(|only| [only, &mut unused]),
            _ => None,
        };
        if let Some([first, second]) = pair {
            for eye in 0..BATCH {
                let [one, other] = random.pair(eye as u64);
                put(first, eye, one);
                put(second, eye, other);
            }
        }
        random.skip(BATCH as u64);
    }
}

/// Measures the corneas.
#[inline(always)]
fn measure(
    [first, second]: &mut [Batch; 2],
    inputs: &FormulaInputs,
    drawn: &Drawn,
    standard: &[Batch; SOURCES],
) {
    let inputs = *inputs;
    for eye in 0..BATCH {
        let errors = errors_of(standard, eye, &drawn.deviations);
        if let Some(CornealRadii(one, other)) = errors.cornea(&inputs) {
            put(first, eye, one.mm().0);
            put(second, eye, other.mm().0);
        }
    }
}

/// The eyes of a batch.
#[derive(Clone, Copy)]
struct Eyes<'a> {
    /// Errors in standard deviations; zero where none are drawn.
    standard: &'a [Batch; SOURCES],
    /// Corneal radii as measured, mm.
    radii: &'a [Batch; 2],
}

/// Refractions by one formula; [`NO_ANSWER`] for an eye that has none.
#[inline(always)]
fn refract(question: &Question<'_>, drawn: &Drawn, eyes: Eyes<'_>, refractions: &mut Batch) {
    // One loop for each formula, so that within it nothing is asked or computed that the formula
    // does not need.
    macro_rules! each {
        ($($formula:ident)*) => {
            match drawn.formula {
                $(Formula::$formula => {
                    refract_by(Formula::$formula, question, drawn, eyes, refractions);
                })*
            }
        };
    }
    each! {
        SrkT T2 Holladay1 HofferQ Haigis ThickLens
        DoubleKNoHistory DoubleKKnownCorrection HaigisModifiedRadius
    }
}

#[inline(always)]
fn refract_by(
    formula: Formula,
    question: &Question<'_>,
    drawn: &Drawn,
    eyes: Eyes<'_>,
    refractions: &mut Batch,
) {
    // Copies, which the loop cannot change.
    let inputs = *question.inputs;
    let deviations = drawn.deviations;
    let power = question.power.diopters();
    for eye in 0..BATCH {
        let errors = errors_of(eyes.standard, eye, &deviations);
        let cornea = cornea_of(eyes.radii, eye);
        let cornea = if inputs.cornea.is_some() {
            Some(cornea)
        } else {
            None
        };
        let measured = errors.inputs_with(cornea, &inputs);
        let refraction_d = match refraction(&errors, formula, &measured, power) {
            Ok(refraction) => refraction.0,
            Err(_) => NO_ANSWER,
        };
        put(refractions, eye, refraction_d);
    }
}

/// Errors of one eye.
#[inline(always)]
fn errors_of(standard: &[Batch; SOURCES], eye: usize, deviations: &[f64; SOURCES]) -> Errors<Lane> {
    // Written out in the order of the sources, since a loop is not sure to be unrolled.
    let [a, b, c, d, e, f, g, h, i, j] = standard;
    let [sa, sb, sc, sd, se, sf, sg, sh, si, sj] = deviations;
    Errors([
        Lane(at(a, eye) * sa),
        Lane(at(b, eye) * sb),
        Lane(at(c, eye) * sc),
        Lane(at(d, eye) * sd),
        Lane(at(e, eye) * se),
        Lane(at(f, eye) * sf),
        Lane(at(g, eye) * sg),
        Lane(at(h, eye) * sh),
        Lane(at(i, eye) * si),
        Lane(at(j, eye) * sj),
    ])
}

#[inline(always)]
fn cornea_of([first, second]: &[Batch; 2], eye: usize) -> CornealRadii<Lane> {
    let radius = |radii| Millimeters::new(Lane(at(radii, eye)));
    CornealRadii(radius(first), radius(second))
}

/// Refraction of one eye, in diopters.
#[inline(always)]
fn refraction<N: Number>(
    errors: &Errors<N>,
    formula: Formula,
    measured: &FormulaInputs<N>,
    power: Diopters,
) -> Result<N, Refusal> {
    let eye = errors.eye(formula, measured)?;
    Ok(errors.refraction(&eye, power)?.d())
}

#[inline(always)]
#[expect(
    clippy::indexing_slicing,
    reason = "an eye is below BATCH; a choice here would be one in every loop"
)]
fn at(batch: &Batch, eye: usize) -> f64 {
    batch[eye]
}

#[inline(always)]
#[expect(
    clippy::indexing_slicing,
    reason = "an eye is below BATCH; a choice here would be one in every loop"
)]
fn put(batch: &mut Batch, eye: usize, value: f64) {
    batch[eye] = value;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::certainty::{Spreads, average_eye};
    use crate::iol_power::thick_lens::LensShape;
    use crate::iol_power::{
        AConstant, CornealHistory, FormulaConstants, HaigisConstants, PersonalizedAcd,
        SurgeonFactor,
    };
    use crate::limits::Limits;
    use crate::quantity::HundredthDiopters;

    /// An eye of which everything is known, with an untouched cornea or an operated one.
    fn inputs(history: CornealHistory) -> FormulaInputs {
        let constants = FormulaConstants {
            a_constant: AConstant::new(118.7).ok(),
            personalized_acd: PersonalizedAcd::new(5.37).ok(),
            surgeon_factor: SurgeonFactor::new(1.62).ok(),
            haigis: HaigisConstants::new(1.3, 0.4, 0.1).ok(),
        };
        FormulaInputs {
            history,
            cornea: Some(CornealRadii(Millimeters::new(7.9), Millimeters::new(7.6))),
            lens_thickness: Some(Millimeters::new(4.5)),
            posterior_radius: Some(Millimeters::new(6.4)),
            power_before_surgery: Some(Diopters::new(43.5)),
            known_correction: Some(Diopters::new(5.0)),
            shape: Some(LensShape {
                index: 1.47,
                thickness: Millimeters::new(0.7),
            }),
            ..average_eye(constants, Limits::shipped())
        }
    }

    /// Every formula for such a cornea, with usual spreads and some for what is usually calibrated, all
    /// `times` as large.
    fn formulas(history: CornealHistory, times: f64) -> Vec<Drawn> {
        let usual = Spreads::usual(Limits::shipped());
        let deviations = ErrorSource::ALL
            .map(|source| times * usual.get(source).map_or(0.2, |spread| spread.deviation));
        let formulas = Formula::ALL.into_iter();
        formulas
            .filter(|formula| formula.fits(&inputs(history)).is_ok())
            .map(|formula| Drawn {
                formula,
                deviations,
            })
            .collect()
    }

    const HISTORIES: [CornealHistory; 3] = [
        CornealHistory::Untouched,
        CornealHistory::Myopic,
        CornealHistory::Hyperopic,
    ];
    const POWER: HundredthDiopters = HundredthDiopters::new(2_100);
    const USED: [usize; SOURCES] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];

    /// Vectors of eight numbers, of four, of two: an operation that is fused or reordered in one would
    /// show in the sums. Spreads thirty times as large as usual bring refusals too.
    #[test]
    fn every_width_of_vectors_draws_the_same_bits() {
        let mut levels = vec![pulp::Arch::Scalar, pulp::Arch::new()];
        #[cfg(target_arch = "x86_64")]
        levels.extend(pulp::x86::V3::try_new().map(pulp::Arch::V3));
        for history in HISTORIES {
            for times in [1.0, 30.0] {
                let inputs = inputs(history);
                let formulas = formulas(history, times);
                let question = Question {
                    inputs: &inputs,
                    power: POWER,
                    predictions: &[],
                };
                let block = || Block {
                    question: &question,
                    formulas: &formulas,
                    used: &USED,
                    count: 5_003,
                    random: Sequence::of(20_261_125),
                    tallies: vec![Tally::around(Diopters::new(0.0)); formulas.len()],
                };
                let plain = pulp::NullaryFnOnce::call(block());
                for level in &levels {
                    assert!(level.dispatch(block()) == plain, "{level:?}");
                }
                for tally in &plain {
                    assert_eq!(tally.counted() + tally.refused(), 5_003);
                }
                let refused: u64 = plain.iter().map(Tally::refused).sum();
                assert_eq!(times > 1.0, refused > 0, "{history:?} {times}");
            }
        }
    }

    /// The refraction of an eye, which the loops above ask for, and the power it needs for −0.25 D.
    fn asked<N: Number>(
        errors: &Errors<N>,
        formula: Formula,
        inputs: &FormulaInputs,
    ) -> [Result<N, Refusal>; 2] {
        let measured = errors.inputs(inputs);
        let target = Diopters::new(-0.25).lift();
        let power = errors.eye(formula, &measured);
        [
            refraction(errors, formula, &measured, POWER.diopters()),
            power.and_then(|eye| Ok(eye.power_for(target)?.d())),
        ]
    }

    /// In a lane an eye has the bits that it has alone, and no answer exactly where it has none alone.
    ///
    /// By Hoffer Q, whose tangent is another, nearly the same: 8 units in the last place move the lens
    /// by 1e-14 mm, and an answer by a hundred times as much, times its square where it is near a pole.
    #[test]
    fn an_eye_in_a_lane_is_the_eye_alone() {
        let sequence = Sequence::of(1);
        let [mut answered, mut outside, mut no_height, mut no_image] = [0; 4];
        for history in HISTORIES {
            let inputs = inputs(history);
            let spreads = [1.0, 10.0, 40.0].into_iter();
            for drawn in spreads.flat_map(|times| formulas(history, times)) {
                for eye in 0..2_000 {
                    let pairs = [0, 1, 2, 3, 4].map(|pair| sequence.pair(5 * eye + pair));
                    let mut errors = drawn.deviations;
                    for (error, standard) in errors.iter_mut().zip(pairs.as_flattened()) {
                        *error *= standard;
                    }
                    let formula = drawn.formula;
                    let lanes = asked(&Errors(errors.map(Lane)), formula, &inputs);
                    let alone = asked(&Errors(errors), formula, &inputs);
                    for (lane, alone) in lanes.into_iter().zip(alone) {
                        let lane = lane.map_or(NO_ANSWER, |lane| lane.0);
                        if let Ok(alone) = alone {
                            let off = (lane - alone).abs() / (1.0 + alone * alone);
                            let hoffer = formula == Formula::HofferQ && off <= 1e-12;
                            let same = hoffer || lane.to_bits() == alone.to_bits();
                            assert!(same, "{formula:?}: {lane} {alone}");
                        } else {
                            assert!(lane.is_nan(), "{formula:?}: {lane} {alone:?}");
                        }
                        match alone {
                            Ok(_) => answered += 1,
                            Err(Refusal::LensOutsideEye { .. }) => outside += 1,
                            Err(Refusal::NoCornealHeight { .. }) => no_height += 1,
                            Err(Refusal::NoRealImage { .. }) => no_image += 1,
                            Err(other) => panic!("{other}"),
                        }
                    }
                }
            }
        }
        // Each kind was met, or nothing was tested.
        for count in [answered, outside, no_height, no_image] {
            assert!(count > 20, "{answered} {outside} {no_height} {no_image}");
        }
    }
}
