//! All formulas that speak of one lens, together, and how what each is known to tend to counts there.
//!
//! # Equation
//!
//! Of n formulas with predictions m, variances s² by every source but the tendency, and published
//! biases b (zero where none is known):
//!
//! ```text
//! m̄  = Σ m / n
//! t² = max(0, Σ [(m + b − m̄)² − (m − m̄)²] / n)
//! pool: equal mixture of N(m, s² + t²)
//! ```
//!
//! So the variance of the pool is the mean of s² and the larger of two: how far the formulas lie
//! from their mean as they stand, and how far they would, were each off as published. Whether the
//! biases are there in this clinic is not known; the range is wide enough for either, and never for
//! both at once. Biases that bring the formulas together are in their disagreement already; those
//! that all go one way, or drive them apart, are not. A formula alone is at its mean: t² = b².

use super::{Distribution, ErrorSource, Normal, Prediction, SOURCES};
use crate::quantity::Diopters;

/// Formulas that speak of one lens: what is said of them together, everywhere.
#[derive(Clone, Debug, PartialEq)]
pub struct Pool {
    parts: Vec<Part>,
    distribution: Distribution,
}

/// One formula as it counts in the pool.
#[derive(Clone, Debug, PartialEq)]
struct Part {
    mean: Diopters,
    /// By every source, D², in the order of [`ErrorSource::ALL`]; of the tendency, the pool's.
    variances: [f64; SOURCES],
}

impl Part {
    fn normal(&self) -> Normal {
        Normal {
            mean: self.mean,
            deviation: Diopters::new(self.variances.iter().sum::<f64>().sqrt()),
        }
    }
}

impl Pool {
    /// The formulas that speak; nothing if none does.
    pub fn of<'a>(predictions: impl IntoIterator<Item = &'a Prediction>) -> Option<Self> {
        let predictions: Vec<_> = predictions.into_iter().collect();
        let tendency = tendency(&predictions);
        let parts = predictions.into_iter().map(|prediction| {
            let mut variances = prediction.variances;
            if let Some(slot) = variances.get_mut(ErrorSource::Tendency as usize) {
                *slot = tendency;
            }
            Part {
                mean: prediction.linear.refraction,
                variances,
            }
        });
        let parts: Vec<_> = parts.collect();
        let distribution = Distribution::of(parts.iter().map(Part::normal).collect())?;
        Some(Self {
            parts,
            distribution,
        })
    }

    /// What the refraction may turn out to be.
    pub const fn distribution(&self) -> &Distribution {
        &self.distribution
    }

    /// Mean variance by one source over the formulas, D².
    pub fn variance_by(&self, source: ErrorSource) -> f64 {
        mean(
            self.parts
                .iter()
                .filter_map(|part| part.variances.get(source as usize))
                .copied(),
        )
    }

    /// What it may turn out to be if this source is measured once more, independently, and the mean
    /// of both used: that has half the variance of one.
    pub fn measured_once_more(&self, source: ErrorSource) -> Option<Distribution> {
        let normals = self.parts.iter().map(|part| {
            let mut part = part.clone();
            *part.variances.get_mut(source as usize)? /= 2.0;
            Some(part.normal())
        });
        Distribution::of(normals.collect::<Option<_>>()?)
    }
}

/// What published biases add to how far the formulas lie from their mean, D²; never less than nothing,
/// for they may not be there.
fn tendency(predictions: &[&Prediction]) -> f64 {
    let means_d = predictions.iter().map(|one| one.linear.refraction.d());
    let mean_d = mean(means_d);
    let added = predictions.iter().map(|one| {
        let [off_d, bias_d] = [one.linear.refraction.d() - mean_d, one.bias.d()];
        // (m + b − m̄)² − (m − m̄)², multiplied out: nothing, exactly, where there is no bias.
        bias_d * (bias_d + 2.0 * off_d)
    });
    let added = mean(added);
    if 0.0 < added { added } else { 0.0 }
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for value in values {
        sum += value;
        count += 1.0;
    }
    sum / count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::certainty::testing::eye;
    use crate::certainty::{Basis, Budget, Spreads};
    use crate::iol_power::Formula;
    use crate::limits::Limits;
    use crate::quantity::HundredthDiopters;

    /// Mean and bias of a formula, D.
    type Of = (f64, f64);

    /// Predictions with these means and biases; every other source together makes 0.16 D² of each.
    fn predictions(of: &[Of]) -> Vec<(Formula, Prediction)> {
        let limits = Limits::shipped();
        let known = Spreads::usual(limits);
        let basis = Basis::of(Formula::T2, &eye(23.5, 44.0), &known, None, limits).unwrap();
        let plain = basis.predict(HundredthDiopters::new(2_000), limits);
        let plain = plain.unwrap();
        let made = of.iter().map(|(mean_d, bias_d)| {
            let mut one = plain.clone();
            one.linear.refraction = Diopters::new(*mean_d);
            one.bias = Diopters::new(*bias_d);
            one.variances = [0.0; SOURCES];
            one.variances[ErrorSource::Unexplained as usize] = 0.16;
            one.variances[ErrorSource::Tendency as usize] = bias_d * bias_d;
            (Formula::T2, one)
        });
        made.collect()
    }

    /// By hand, printed biases of −0.31, +0.17 and −0.22 D. A pair at ±0.15 D disagrees by 0.0225 D².
    ///
    /// - alone: 0.31² = 0.0961;
    /// - beside one that agrees and has none: 0.0961/2 = 0.04805;
    /// - both one way: (0.31² + 0.22²)/2 = 0.07225;
    /// - brought together: (0.15 − 0.31)² + (−0.15 + 0.17)² = 0.0256 + 0.0004, half of it 0.0130 D², less
    ///   than the 0.0225 D² that stand: nothing;
    /// - driven apart: (0.46² + 0.32²)/2 − 0.0225 = 0.1345.
    #[test]
    fn biases_widen_a_pool_by_what_they_add_to_its_disagreement() {
        let cases: [(&[Of], f64, f64); 5] = [
            (&[(-0.4, -0.31)], 0.0, 0.0961),
            (&[(-0.4, -0.31), (-0.4, 0.0)], 0.0, 0.048_05),
            (&[(-0.4, -0.31), (-0.4, -0.22)], 0.0, 0.072_25),
            (&[(0.15, -0.31), (-0.15, 0.17)], 0.0225, 0.0),
            (&[(-0.15, -0.31), (0.15, 0.17)], 0.0225, 0.1345),
        ];
        for (of, apart, added) in cases {
            let predictions = predictions(of);
            let pool = Pool::of(predictions.iter().map(|(_, one)| one)).unwrap();
            let found = pool.variance_by(ErrorSource::Tendency);
            assert!((found - added).abs() < 1e-12, "{of:?}: {found}");
            let whole_d = pool.distribution().deviation().d();
            let expected = 0.16 + apart + added;
            assert!((whole_d * whole_d - expected).abs() < 1e-12, "{of:?}");
            // The budget says the same of the tendency, and nothing where it adds nothing.
            let budget = Budget::of(&predictions).unwrap();
            let mut items = budget.items.iter();
            let item = items.find(|item| item.source == ErrorSource::Tendency);
            assert_eq!(item.is_some(), 0.0 < added, "{of:?}");
            let share = item.map_or(0.0, |item| item.share);
            assert!((share - added / expected).abs() < 1e-12, "{of:?}");
        }
    }

    /// By hand: of 0.16 D² half is left, the 0.04805 D² of the tendency whole; √0.12805 = 0.357841 D.
    #[test]
    fn measuring_once_more_leaves_the_tendency() {
        let predictions = predictions(&[(-0.4, -0.31), (-0.4, 0.0)]);
        let pool = Pool::of(predictions.iter().map(|(_, one)| one)).unwrap();
        let again = pool.measured_once_more(ErrorSource::Unexplained).unwrap();
        assert!(
            (again.deviation().d() - 0.357_841).abs() < 1e-6,
            "{again:?}"
        );
        assert_eq!(Pool::of([]), None);
    }
}
