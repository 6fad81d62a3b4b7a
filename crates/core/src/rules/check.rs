//! Comparisons that several rules share. Every limit itself passes.

use super::look::NoLook;
use super::{Because, Facts, Finding, Limit, Missing, Quantity};
use crate::biometry::Sign;

/// A finding unless `low ≤ value ≤ high`.
pub(super) fn within<T: PartialOrd + Copy>(
    unit: fn(T) -> Quantity,
    value: T,
    [low, high]: [T; 2],
) -> Option<Finding> {
    if low <= value && value <= high {
        return None;
    }
    Some(Finding::new(
        unit(value),
        Limit::Within(unit(low), unit(high)),
    ))
}

/// A finding if `value < limit`.
pub(super) fn at_least<T: PartialOrd + Copy>(
    unit: fn(T) -> Quantity,
    value: T,
    limit: T,
) -> Option<Finding> {
    if limit <= value {
        return None;
    }
    Some(Finding::new(unit(value), Limit::AtLeast(unit(limit))))
}

/// A finding if `limit < value`.
pub(super) fn at_most<T: PartialOrd + Copy>(
    unit: fn(T) -> Quantity,
    value: T,
    limit: T,
) -> Option<Finding> {
    if value <= limit {
        return None;
    }
    Some(Finding::new(unit(value), Limit::AtMost(unit(limit))))
}

/// Whether a sign of the operated eye was seen; one that nobody recorded is not absent.
pub(super) fn recorded(facts: &Facts<'_>, sign: Sign) -> Result<bool, Missing> {
    let seen = sign.of(&facts.operated.0.state);
    seen.ok_or(Missing::Sign(sign))
}

/// Whether a condition was recorded and holds; one that nobody recorded is not absent.
pub(super) fn holds(
    recorded: Option<bool>,
    missing: Missing,
    because: Because,
) -> Result<(), NoLook> {
    match recorded {
        None => Err(missing.into()),
        Some(false) => Err(because.into()),
        Some(true) => Ok(()),
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
