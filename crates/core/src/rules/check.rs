//! Comparisons that several rules share. Every limit itself passes.

use core::fmt;

use super::verdict::{not_applicable, not_evaluated};
use super::{Finding, Verdict};
use crate::quantity::{Diopters, HundredthDiopters, Micrometers, decimal};

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

/// Looks further only if a condition was recorded and holds; one that nobody recorded is not absent.
pub(super) fn only_if(
    recorded: Option<bool>,
    missing: &'static str,
    because: &'static str,
    look: impl FnOnce() -> Verdict,
) -> Verdict {
    match recorded {
        None => not_evaluated(missing),
        Some(false) => not_applicable(because),
        Some(true) => look(),
    }
}

/// A finding if something was seen. Something that nobody looked for is not absent.
pub(super) fn absent(recorded: Option<bool>, missing: &'static str) -> Verdict {
    match recorded {
        None => not_evaluated(missing),
        Some(false) => Verdict::Satisfied,
        Some(true) => Finding::new("present", "absent").into(),
    }
}

/// Whether at least one of two holds: unknown while neither was seen and one was not looked for.
pub(super) const fn either(one: Option<bool>, other: Option<bool>) -> Option<bool> {
    match (one, other) {
        (Some(true), _) | (_, Some(true)) => Some(true),
        (Some(false), Some(false)) => Some(false),
        _ => None,
    }
}

/// A power without a sign: a corneal power, a difference or a magnitude.
///
/// Computed powers are compared in whole hundredths, the fineness of what was measured, so that
/// two roundings on the way through a radius do not move an eye across a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Unsigned(pub HundredthDiopters);

impl Unsigned {
    /// The nearest hundredth of a computed power; nothing for a number that is no power.
    pub(crate) fn nearest(power: Diopters) -> Option<Self> {
        power.nearest_hundredth().map(Self)
    }

    /// How far two computed powers are apart.
    pub(crate) fn apart(one: Diopters, other: Diopters) -> Option<Self> {
        Self::nearest(Diopters::new((one - other).d().abs()))
    }
}

impl fmt::Display for Unsigned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} D", decimal::write(self.0.hundredths(), 2, 2))
    }
}

/// A corneal thickness in the unit of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Thickness(pub Micrometers);

impl fmt::Display for Thickness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} µm", self.0.um())
    }
}

#[cfg(test)]
mod tests {
    use super::either;

    #[test]
    fn either_is_unknown_only_while_it_could_still_hold() {
        let (yes, no) = (Some(true), Some(false));
        for (one, other, expected) in [
            (yes, yes, yes),
            (yes, no, yes),
            (yes, None, yes),
            (no, no, no),
            (no, None, None),
            (None, None, None),
        ] {
            assert_eq!(either(one, other), expected);
            assert_eq!(either(other, one), expected);
        }
    }
}
