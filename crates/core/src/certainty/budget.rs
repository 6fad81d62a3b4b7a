//! The error budget: what share each source has in the variance, and what repeating a measurement
//! would gain.

use super::{Distribution, ErrorSource, Pool, Prediction};
use crate::iol_power::Formula;
use crate::quantity::Diopters;

/// What makes the refraction after one lens uncertain, over all formulas that speak.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// All formulas together.
    pub distribution: Distribution,
    /// Every source with a share, largest first.
    pub items: Vec<Item>,
    /// Variance of the disagreement between the formulas, D².
    pub disagreement: f64,
}

/// One source in the budget.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    pub source: ErrorSource,
    /// Mean of its variance over the formulas as they are pooled, D².
    #[serde(rename = "variance_d2")]
    pub variance: f64,
    /// Its share of the whole variance, 0 to 1.
    pub share: f64,
    /// Standard deviation of the whole if this measurement is made once more, independently, and
    /// the mean of both used; nothing for what cannot be measured again.
    #[serde(rename = "deviation_if_measured_once_more_d")]
    pub repeated: Option<Diopters>,
}

impl Budget {
    /// The budget of the formulas that speak; nothing if none does.
    pub fn of(predictions: &[(Formula, Prediction)]) -> Option<Self> {
        let pool = Pool::of(predictions.iter().map(|(_, prediction)| prediction))?;
        let distribution = pool.distribution().clone();
        let whole_d = distribution.deviation().d();
        let whole = whole_d * whole_d;
        let mut items: Vec<_> = ErrorSource::ALL
            .into_iter()
            .filter_map(|source| {
                let variance = pool.variance_by(source);
                (0.0 < variance).then(|| Item {
                    source,
                    variance,
                    share: variance / whole,
                    // The mean of two independent measurements has half the variance of one.
                    repeated: source
                        .can_be_repeated()
                        .then(|| Diopters::new((whole - variance / 2.0).sqrt())),
                })
            })
            .collect();
        items.sort_by(|one, other| other.variance.total_cmp(&one.variance));
        Some(Self {
            disagreement: distribution.disagreement(),
            distribution,
            items,
        })
    }

    /// Share of the disagreement between the formulas in the whole variance, 0 to 1.
    pub fn disagreement_share(&self) -> f64 {
        let whole_d = self.distribution.deviation().d();
        self.disagreement / (whole_d * whole_d)
    }
}
