//! Available powers of a lens: ranges with a step, exact.

use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use crate::quantity::{HundredthDiopters, Text, checked_when_read};

/// Powers from one to another by a step.
#[serde_as]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct PowerRange {
    #[serde_as(as = "Text")]
    from: HundredthDiopters,
    #[serde_as(as = "Text")]
    to: HundredthDiopters,
    #[serde_as(as = "Text")]
    step: HundredthDiopters,
}

checked_when_read!(PowerRange, PowerRange::check);

/// A range that is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PowerRangeError {
    /// The last power is below the first.
    #[error("powers from {from} to {to} run backwards")]
    Backwards {
        from: HundredthDiopters,
        to: HundredthDiopters,
    },
    /// The step is not positive, or does not lead from the first power to the last.
    #[error("powers from {from} to {to} cannot be reached in steps of {step}")]
    Step {
        from: HundredthDiopters,
        to: HundredthDiopters,
        step: HundredthDiopters,
    },
    #[error(
        "power {power} is outside {} to {}",
        PowerRange::WEAKEST,
        PowerRange::STRONGEST
    )]
    OutOfRange { power: HundredthDiopters },
    /// Ranges overlap or stand out of order.
    #[error("power ranges overlap or are out of order at {at}")]
    Overlap {
        /// First power of the later range.
        at: HundredthDiopters,
    },
}

impl PowerRange {
    /// Weakest power any implant has (house value).
    pub const WEAKEST: HundredthDiopters = HundredthDiopters::new(-4_000);
    /// Strongest power any implant has (house value).
    pub const STRONGEST: HundredthDiopters = HundredthDiopters::new(8_000);

    /// Checks that the step leads exactly from the first power to the last.
    pub fn new(
        from: HundredthDiopters,
        to: HundredthDiopters,
        step: HundredthDiopters,
    ) -> Result<Self, PowerRangeError> {
        let range = Self { from, to, step };
        range.check().map(|()| range)
    }

    fn check(&self) -> Result<(), PowerRangeError> {
        let Self { from, to, step } = *self;
        for power in [from, to] {
            if power < Self::WEAKEST || Self::STRONGEST < power {
                return Err(PowerRangeError::OutOfRange { power });
            }
        }
        if to < from {
            return Err(PowerRangeError::Backwards { from, to });
        }
        let span = (to - from).hundredths();
        if step.hundredths() <= 0 || span % step.hundredths() != 0 {
            return Err(PowerRangeError::Step { from, to, step });
        }
        Ok(())
    }

    pub const fn from(&self) -> HundredthDiopters {
        self.from
    }

    pub const fn to(&self) -> HundredthDiopters {
        self.to
    }

    pub const fn step(&self) -> HundredthDiopters {
        self.step
    }

    fn iter(self) -> impl Iterator<Item = HundredthDiopters> {
        let count = (self.to - self.from).hundredths() / self.step.hundredths();
        (0..=count).map(move |index| {
            HundredthDiopters::new(self.from.hundredths() + index * self.step.hundredths())
        })
    }
}

/// All powers a lens is made in, rising.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", transparent)]
pub struct Powers(Vec<PowerRange>);

checked_when_read!(Powers, Powers::check);

impl Powers {
    /// Joins ranges; they may touch, as where the step changes, but not overlap.
    pub fn new(ranges: Vec<PowerRange>) -> Result<Self, PowerRangeError> {
        let powers = Self(ranges);
        powers.check().map(|()| powers)
    }

    fn check(&self) -> Result<(), PowerRangeError> {
        for (earlier, later) in self.0.iter().zip(self.0.iter().skip(1)) {
            if later.from < earlier.to {
                return Err(PowerRangeError::Overlap { at: later.from });
            }
        }
        Ok(())
    }

    pub fn ranges(&self) -> &[PowerRange] {
        &self.0
    }

    /// Every power once, rising.
    pub fn iter(&self) -> impl Iterator<Item = HundredthDiopters> {
        let mut last = None;
        self.0
            .iter()
            .flat_map(|range| range.iter())
            .filter(move |power| {
                let is_new = last != Some(*power);
                last = Some(*power);
                is_new
            })
    }

    /// Whether the lens is made in this power.
    pub fn contains(&self, power: HundredthDiopters) -> bool {
        self.iter().any(|available| available == power)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn range(from: i32, to: i32, step: i32) -> Result<PowerRange, PowerRangeError> {
        PowerRange::new(
            HundredthDiopters::new(from),
            HundredthDiopters::new(to),
            HundredthDiopters::new(step),
        )
    }

    #[test]
    fn steps_may_change_at_the_ends() {
        let powers = Powers::new(vec![
            range(500, 1_000, 100).unwrap(),
            range(1_000, 3_000, 50).unwrap(),
            range(3_000, 3_400, 100).unwrap(),
        ])
        .unwrap();
        let all: Vec<_> = powers.iter().map(HundredthDiopters::hundredths).collect();
        assert_eq!(all.len(), 5 + 41 + 4);
        assert!(all.is_sorted_by(|a, b| a < b));
        assert!(powers.contains(HundredthDiopters::new(1_050)));
        assert!(!powers.contains(HundredthDiopters::new(550)));
        assert!(!powers.contains(HundredthDiopters::new(3_450)));
    }

    #[test]
    fn impossible_ranges_are_refused() {
        assert_eq!(
            range(1_000, 3_000, 30).unwrap_err().to_string(),
            "powers from +10.00 D to +30.00 D cannot be reached in steps of +0.30 D"
        );
        assert!(range(1_000, 3_000, 0).is_err());
        assert!(range(3_000, 1_000, 50).is_err());
        assert!(range(-4_000, 8_000, 50).is_ok());
        assert!(range(-4_050, 0, 50).is_err());
        assert!(range(0, 8_050, 50).is_err());
        let overlapping = vec![
            range(500, 1_100, 100).unwrap(),
            range(1_000, 3_000, 50).unwrap(),
        ];
        assert_eq!(
            Powers::new(overlapping).unwrap_err().to_string(),
            "power ranges overlap or are out of order at +10.00 D"
        );
    }
}
