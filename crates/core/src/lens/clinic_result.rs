//! The clinic's own results with a lens: how far one formula was off.

use chrono::NaiveDate;

use crate::iol_power::Formula;
use crate::quantity::{Diopters, OutOfRange};

/// Standard deviation of one formula's prediction error with one lens, in the clinic's own hands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClinicResult {
    pub formula: Formula,
    pub eyes: u32,
    /// Standard deviation of the prediction error, its mean being zeroed.
    pub deviation: Diopters,
    /// Day of the analysis.
    pub on: NaiveDate,
}

impl ClinicResult {
    /// Fewest eyes that have a standard deviation.
    pub const FEWEST_EYES: u32 = 2;
    /// Smallest and largest standard deviation believed, D (house value).
    pub const RANGE_D: [f64; 2] = [0.05, 3.0];

    /// Checks that a series can have given this.
    pub fn checked(self) -> Result<Self, OutOfRange> {
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
            return Ok(self);
        }
        let what = "standard deviation of own results in D";
        Err(OutOfRange::new(what, deviation_d, Self::RANGE_D))
    }
}
