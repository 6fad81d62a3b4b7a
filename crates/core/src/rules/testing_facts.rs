//! How tests write facts: the numbers of the simple ones in words, the rest as they are.

use super::{Limit, Quantity};
use crate::biometry::{CornealReading, DepthStart};
use crate::quantity::{HundredthDiopters, Meridian, Micrometers};

/// A quantity as tests write it: "23.50 mm", "2.80 mm from the epithelium", "540 \u{b5}m", "+21.50 D"
/// with a sign, "2.51 D" without one, "44.00 D at 1.3315", "3 readings", "120 years", "3 points".
pub(crate) fn quantity(text: &str) -> Quantity {
    let length = |text: &str| Micrometers::parse(text, "length", "").unwrap();
    if let Some(depth) = text.strip_suffix(" from the epithelium") {
        let (depth, from) = (length(depth), DepthStart::Epithelium);
        return Quantity::Depth { depth, from };
    }
    if let Some(depth) = text.strip_suffix(" from the endothelium") {
        let (depth, from) = (length(depth), DepthStart::Endothelium);
        return Quantity::Depth { depth, from };
    }
    if text.contains(" at ") {
        return text.parse::<CornealReading>().unwrap().into();
    }
    let (number, unit) = text.split_once(' ').unwrap();
    let whole = || number.parse().unwrap();
    match unit {
        "mm" => Quantity::Length(length(text)),
        "\u{b5}m" => Quantity::Thickness(length(text)),
        "D" => {
            let power = HundredthDiopters::parse(text, "power").unwrap();
            if number.starts_with(['+', '\u{2212}']) {
                Quantity::Power(power)
            } else {
                Quantity::Magnitude(power)
            }
        }
        "cells/mm\u{b2}" => Quantity::Density(whole()),
        "reading" | "readings" => Quantity::Readings(whole()),
        "days" => Quantity::Days(whole()),
        "years" => Quantity::Years(whole()),
        "points" => Quantity::Points(whole()),
        "%" => match number.split_once('.') {
            None => Quantity::Percent(whole()),
            Some((whole, tenth)) => Quantity::Chance(format!("{whole}{tenth}").parse().unwrap()),
        },
        _ => panic!("{text}"),
    }
}

/// A limit as tests write it: "at least 3.00 mm", "at most 2.50 D", "under 3 points", "2.80 mm from
/// the epithelium or more", "21.20 mm to 26.60 mm".
pub(crate) fn limit(text: &str) -> Limit {
    if let Some(text) = text.strip_prefix("at least ") {
        Limit::AtLeast(quantity(text))
    } else if let Some(text) = text.strip_prefix("at most ") {
        Limit::AtMost(quantity(text))
    } else if let Some(text) = text.strip_prefix("under ") {
        Limit::Under(quantity(text))
    } else if let Some(text) = text.strip_suffix(" or more") {
        Limit::OrMore(quantity(text))
    } else {
        let (low, high) = text.split_once(" to ").unwrap();
        Limit::Within(quantity(low), quantity(high))
    }
}

/// A power without further ado, in hundredths of a diopter.
pub(crate) const fn diopters(hundredths: i32) -> HundredthDiopters {
    HundredthDiopters::new(hundredths)
}

/// A length without further ado, in micrometers.
pub(crate) const fn micrometers(um: i32) -> Micrometers {
    Micrometers::new(um)
}

/// A meridian without further ado.
pub(crate) fn meridian(degrees: u16) -> Meridian {
    Meridian::new(degrees).unwrap()
}
