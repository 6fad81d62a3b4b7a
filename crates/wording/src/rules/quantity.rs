//! Numbers with their units.

use millrace_core::rules::Quantity;

use crate::quantity::{per_square_millimeter, power_at_index, thickness, unsigned};

messages! {
    one_reading = "1 reading";
    readings(count) = "{count} readings";
}

shown! { Quantity, words {
    Depth { depth, from } = "{depth} {from}";
    Years(years) = "{years} years";
    Days(days) = "{days} days";
    Points(points) = "{points} points";
    Percent(percent) = "{percent} %";
    Chance(tenths: words.exact(*tenths, 1, 1)) = "{tenths} %";
} else {
    Self::Readings(1) => one_reading(words).into(),
    Self::Readings(count) => readings(words, count).into(),
    Self::Length(length) => length.show(words),
    Self::Thickness(it) => thickness(words, *it).into(),
    Self::Power(power) => power.show(words),
    Self::Magnitude(size) => unsigned(words, *size).into(),
    Self::PowerAt { power, index } => power_at_index(words, unsigned(words, *power), index).into(),
    Self::Density(cells) => per_square_millimeter(words, cells).into(),
}}
