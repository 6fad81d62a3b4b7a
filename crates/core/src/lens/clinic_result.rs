//! The clinic's own results with a lens: how far one formula was off.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use crate::calendar::Day;
use crate::iol_power::Formula;
use crate::quantity::{Diopters, OutOfRange, checked_when_read};

/// Standard deviation of one formula's prediction error with one lens, in the clinic's own hands.
#[serde_as]
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct ClinicResult {
    pub formula: Formula,
    pub eyes: u32,
    /// Standard deviation of the prediction error, its mean being zeroed.
    #[serde(rename = "deviation_d")]
    pub deviation: Diopters,
    /// Day of the analysis.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
}

checked_when_read!(ClinicResult, ClinicResult::check);

impl ClinicResult {
    /// Fewest eyes that have a standard deviation.
    pub const FEWEST_EYES: u32 = 2;
    /// Smallest and largest standard deviation believed, D (house value).
    pub const RANGE_D: [f64; 2] = [0.05, 3.0];

    /// Refuses what no series can have given: fewer than two eyes, or a deviation outside
    /// [`Self::RANGE_D`].
    pub(super) fn check(&self) -> Result<(), OutOfRange> {
        if self.eyes < Self::FEWEST_EYES {
            let limits = [Self::FEWEST_EYES, u32::MAX];
            return Err(OutOfRange::new(
                "number of eyes of own results",
                self.eyes,
                limits,
            ));
        }
        let [least_d, most_d] = Self::RANGE_D;
        let deviation_d = self.deviation.d();
        if least_d <= deviation_d && deviation_d <= most_d {
            return Ok(());
        }
        let what = "standard deviation of own results in D";
        Err(OutOfRange::new(what, deviation_d, Self::RANGE_D))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_each_limit_and_one_step_beyond() {
        let check = |eyes, deviation_d| {
            let result = ClinicResult {
                formula: Formula::SrkT,
                eyes,
                deviation: Diopters::new(deviation_d),
                on: NaiveDate::default(),
            };
            result.check().is_ok()
        };
        assert!(check(2, 0.4) && !check(1, 0.4));
        assert!(check(2, 0.05) && !check(2, 0.049));
        assert!(check(2, 3.0) && !check(2, 3.001) && !check(2, f64::NAN));
    }
}
