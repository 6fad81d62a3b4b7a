#![doc = include_str!("sulcus.md")]

use serde::{Deserialize, Serialize};

use super::{EyeModel, Refusal};
use crate::evidence::{DUBEY_2012, OPTICS, SULCUS_LETTER, Source, Standing};
use crate::quantity::{Diopters, Millimeters};

pub const REFERENCE: &str = include_str!("sulcus.md");

/// Source of the stepwise rule.
pub const STEPWISE_SOURCE: Source = Standing::Printed.of(DUBEY_2012, "");

/// Source of the rule of five percent.
pub const PERCENT_SOURCE: Source = Standing::Printed.of(SULCUS_LETTER, "−5 %");

/// Source of the vergence result.
pub const VERGENCE_SOURCE: Source = Standing::Derived.of(
    OPTICS,
    "same formula with the lens forward by the stated shift",
);

/// Power change of the stepwise rule: from one number to another, both zero or negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepwiseChange {
    /// The smaller change.
    pub least: Diopters,
    /// The larger change; equal to the smaller where the rule prints one number.
    pub most: Diopters,
    /// Whether the rule says "at least".
    pub at_least: bool,
}

impl StepwiseChange {
    /// The power that the change makes of the power for the bag.
    pub fn power(self, bag: Diopters) -> StepwisePower {
        if self.at_least {
            return StepwisePower::AtMost(bag + self.least);
        }
        if self.least == self.most {
            return StepwisePower::Exactly(bag + self.least);
        }
        StepwisePower::Between(bag + self.most, bag + self.least)
    }
}

/// Power for the sulcus by the stepwise rule.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum StepwisePower {
    #[serde(rename = "exactly_d")]
    Exactly(Diopters),
    #[serde(rename = "at_most_d")]
    AtMost(Diopters),
    /// From the lower to the higher.
    #[serde(rename = "between_d")]
    Between(Diopters, Diopters),
}

/// The weakest power that the stepwise rule is applied to, D (assumption): how far down its first step
/// reaches is not known, and half a diopter of a weak lens moves more than the shift does.
pub const STEPWISE_FROM_D: f64 = 9.0;

/// Bag power to sulcus power by Dubey 2012: below 18 D −0.5; 18 to 25 D at least −1.0; above 25 D
/// −1.5 to −2.0. Nothing under [`STEPWISE_FROM_D`].
pub fn stepwise(bag_power: Diopters) -> Option<StepwiseChange> {
    let power_d = bag_power.d();
    let (least_d, most_d, at_least) = if 25.0 < power_d {
        (-1.5, -2.0, false)
    } else if 18.0 <= power_d {
        (-1.0, -1.0, true)
    } else if STEPWISE_FROM_D <= power_d {
        (-0.5, -0.5, false)
    } else {
        return None;
    };
    Some(StepwiseChange {
        least: Diopters::new(least_d),
        most: Diopters::new(most_d),
        at_least,
    })
}

/// Bag power to sulcus power by the rule of five percent.
pub fn five_percent(bag_power: Diopters) -> Diopters {
    bag_power * 0.95
}

/// Power for the target with the lens `forward` of the predicted position.
pub fn by_vergence(
    eye: EyeModel,
    forward: Millimeters,
    target: Diopters,
) -> Result<Diopters, Refusal> {
    eye.with_lens_forward(forward).power_for(target)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stepwise_rule_at_its_limits() {
        let change = |power: f64| {
            let change = stepwise(Diopters::new(power)).unwrap();
            (change.least.d(), change.most.d(), change.at_least)
        };
        assert_eq!(change(9.0), (-0.5, -0.5, false));
        for weak in [8.99, 0.5, 0.0, -3.0, f64::NAN] {
            assert_eq!(stepwise(Diopters::new(weak)), None, "{weak}");
        }
        assert_eq!(change(17.99), (-0.5, -0.5, false));
        assert_eq!(change(18.0), (-1.0, -1.0, true));
        assert_eq!(change(25.0), (-1.0, -1.0, true));
        assert_eq!(change(25.01), (-1.5, -2.0, false));
        assert!((five_percent(Diopters::new(20.0)).d() - 19.0).abs() < 1e-12);
    }
}
