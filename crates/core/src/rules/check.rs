//! Comparisons that several rules share. Every limit itself passes.

use core::fmt;

use super::verdict::not_evaluated;
use super::{Finding, Verdict};
use crate::quantity::{Diopters, HundredthDiopters, decimal};

/// A finding unless `low ≤ value ≤ high`.
pub(super) fn within<T: PartialOrd + fmt::Display>(value: &T, low: &T, high: &T) -> Verdict {
    if low <= value && value <= high {
        return Verdict::Satisfied;
    }
    Finding::new(value, format!("{low} to {high}")).into()
}

/// A finding if `value < limit`.
pub(super) fn at_least<T: PartialOrd + fmt::Display>(value: &T, limit: &T) -> Verdict {
    if limit <= value {
        return Verdict::Satisfied;
    }
    Finding::new(value, format!("at least {limit}")).into()
}

/// A finding if `limit < value`.
pub(super) fn at_most<T: PartialOrd + fmt::Display>(value: &T, limit: &T) -> Verdict {
    if value <= limit {
        return Verdict::Satisfied;
    }
    Finding::new(value, format!("at most {limit}")).into()
}

/// [`within`], once there is a value.
pub(super) fn known_within<T: PartialOrd + fmt::Display>(
    value: Option<T>,
    [low, high]: [T; 2],
    missing: &'static str,
) -> Verdict {
    value.map_or(not_evaluated(missing), |value| within(&value, &low, &high))
}

/// [`at_most`], once there is a value.
pub(super) fn known_at_most<T: PartialOrd + fmt::Display>(
    value: Option<T>,
    limit: &T,
    missing: &'static str,
) -> Verdict {
    value.map_or(not_evaluated(missing), |value| at_most(&value, limit))
}

/// A power without a sign: a corneal power, a difference or a magnitude.
///
/// Computed powers are compared in whole hundredths, the fineness of what was measured, so that
/// two roundings on the way through a radius do not move an eye across a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Unsigned(pub HundredthDiopters);

impl Unsigned {
    /// The nearest hundredth of a computed power; nothing for a number that is no power.
    pub(super) fn nearest(power: Diopters) -> Option<Self> {
        power.nearest_hundredth().map(Self)
    }

    /// How far two computed powers are apart.
    pub(super) fn apart(one: Diopters, other: Diopters) -> Option<Self> {
        Self::nearest(Diopters::new((one - other).d().abs()))
    }
}

impl fmt::Display for Unsigned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} D", decimal::write(self.0.hundredths(), 2, 2))
    }
}
