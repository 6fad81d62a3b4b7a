//! Numbers with their units.

use crate::biometry::LengthMethod;
use crate::quantity::{HundredthDiopters, Micrometers, decimal};
use crate::rules::Quantity;

/// A number with its unit.
#[must_use]
pub fn quantity(quantity: Quantity) -> String {
    match quantity {
        Quantity::Length(length) => length.to_string(),
        Quantity::Thickness(thickness) => thickness_um(thickness),
        Quantity::Depth { depth, from } => format!("{depth} {from}"),
        Quantity::Power(power) => power.to_string(),
        Quantity::Magnitude(size) => magnitude(size),
        Quantity::PowerAt { power, index } => format!("{} at {index}", magnitude(power)),
        Quantity::Density(cells) => format!("{cells} cells/mm²"),
        Quantity::Readings(1) => "1 reading".to_owned(),
        Quantity::Readings(count) => format!("{count} readings"),
        Quantity::Years(years) => format!("{years} years"),
        Quantity::Points(points) => format!("{points} points"),
        Quantity::Percent(percent) => format!("{percent} %"),
        Quantity::Chance(tenths) => format!("{} %", decimal::write(tenths, 1, 1)),
    }
}

/// A power without a sign.
pub(super) fn magnitude(size: HundredthDiopters) -> String {
    format!("{} D", decimal::write(size.hundredths(), 2, 2))
}

/// A corneal thickness in the unit of the trade.
pub(super) fn thickness_um(thickness: Micrometers) -> String {
    format!("{} µm", thickness.um())
}

/// A length with its method.
pub(super) fn length_by(length: Micrometers, method: LengthMethod) -> String {
    let method = match method {
        LengthMethod::Optical => "optical biometry",
        LengthMethod::Immersion => "immersion ultrasound",
        LengthMethod::Contact => "contact ultrasound",
    };
    format!("{length} by {method}")
}

/// A chance in whole percent; one that rounds to none or to certainty is not shown as such.
#[must_use]
pub fn percent(chance: f64) -> String {
    if chance >= 0.995 {
        "over 99 %".to_owned()
    } else if chance < 0.005 {
        "under 1 %".to_owned()
    } else {
        format!("{:.0} %", chance * 100.0)
    }
}
