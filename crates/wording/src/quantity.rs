//! Quantities with their unit, in the decimals of the trade.

use std::borrow::Cow;

use millrace_core::biometry::{
    AnteriorChamberDepth, AxialLength, CornealRadius, CornealReading, CornealThickness,
    EndothelialDensity, LensThickness, LocsTenths, Refraction,
};
use millrace_core::optics::SpheroCylinder;
use millrace_core::quantity::{
    Diopters, Direction, HundredthDiopters, KeratometricIndex, Meridian, Micrometers, Millimeters,
    ThousandthDiopters,
};

use crate::{Show, Words};

messages! {
    millimeters(number) = "{number} mm";
    micrometers(number) = "{number} µm";
    diopters(number) = "{number} D";
    degrees(number) = "{number}°";
    per_square_millimeter(number) = "{number} cells/mm²";
    power_at_index(power, index) = "{power} at {index}";
    sphere_and_cylinder(sphere, cylinder) = "{sphere} / {cylinder}";
    sphere_cylinder_axis(sphere, cylinder, axis) = "{sphere} / {cylinder} × {axis}";
}

/// A corneal power, a difference or another size: without a sign.
pub fn unsigned(words: Words, power: HundredthDiopters) -> String {
    diopters(words, words.exact(power.hundredths(), 2, 2))
}

/// A computed size of a power, without a sign, with two decimals.
pub fn computed_unsigned(words: Words, power: Diopters) -> String {
    diopters(words, words.fixed(power.d(), 2))
}

/// A thickness in the unit of the trade.
pub fn thickness(words: Words, thickness: Micrometers) -> String {
    micrometers(words, thickness.um())
}

impl Show for Micrometers {
    /// In millimeters with two decimals, three when needed.
    fn show(&self, words: Words) -> Cow<'_, str> {
        millimeters(words, words.exact(self.um(), 3, 2)).into()
    }
}

impl Show for HundredthDiopters {
    /// With sign, two decimals and unit: a lost sign has put the wrong lens into an eye.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let sign = if self.hundredths() < 0 { "" } else { "+" };
        let number = words.exact(self.hundredths(), 2, 2);
        diopters(words, format!("{sign}{number}")).into()
    }
}

impl Show for ThousandthDiopters {
    /// With sign, two decimals, three where they are needed.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let sign = if self.thousandths() < 0 { "" } else { "+" };
        let number = words.exact(self.thousandths(), 3, 2);
        diopters(words, format!("{sign}{number}")).into()
    }
}

impl Show for Refraction {
    /// "−1.25 D / −0.75 D × 90°"; a sphere alone where there is no cylinder.
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self.axis() {
            Some(axis) => sphere_cylinder_axis(words, self.sphere(), self.cylinder(), axis),
            None => self.sphere().show(words).into_owned(),
        }
        .into()
    }
}

impl Show for Diopters {
    /// With sign and two decimals; zero has the sign `+`, also when it was a tiny negative number.
    fn show(&self, words: Words) -> Cow<'_, str> {
        diopters(words, words.signed(self.d(), 2)).into()
    }
}

impl Show for Millimeters {
    /// With two decimals.
    fn show(&self, words: Words) -> Cow<'_, str> {
        millimeters(words, words.fixed(self.mm(), 2)).into()
    }
}

impl Show for Meridian {
    fn show(&self, words: Words) -> Cow<'_, str> {
        degrees(words, self.degrees()).into()
    }
}

impl Show for Direction {
    fn show(&self, words: Words) -> Cow<'_, str> {
        degrees(words, self.degrees()).into()
    }
}

impl Show for KeratometricIndex {
    fn show(&self, words: Words) -> Cow<'_, str> {
        words.number(&self.to_string()).into_owned().into()
    }
}

impl Show for SpheroCylinder {
    /// "−0.26 D / −0.46 D × 148°"; no axis for a cylinder that rounds to nothing.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let rounds_to_nothing = self
            .cylinder
            .nearest_hundredth()
            .is_some_and(|cylinder| cylinder.hundredths() == 0);
        match Meridian::nearest(self.axis_degrees) {
            Some(axis) if !rounds_to_nothing => {
                sphere_cylinder_axis(words, self.sphere, self.cylinder, axis)
            }
            _ => sphere_and_cylinder(words, self.sphere, self.cylinder),
        }
        .into()
    }
}

macro_rules! lengths {
    ($($type:ty),*) => {
        $(impl Show for $type {
            fn show(&self, words: Words) -> Cow<'_, str> {
                self.get().show(words).into_owned().into()
            }
        })*
    };
}

lengths!(
    AxialLength,
    AnteriorChamberDepth,
    LensThickness,
    CornealRadius
);

impl Show for CornealThickness {
    fn show(&self, words: Words) -> Cow<'_, str> {
        thickness(words, self.get()).into()
    }
}

impl Show for EndothelialDensity {
    fn show(&self, words: Words) -> Cow<'_, str> {
        per_square_millimeter(words, self.per_mm2()).into()
    }
}

impl Show for CornealReading {
    /// "7.80 mm" or "43.25 D at 1.3375".
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Radius(radius) => radius.show(words).into_owned(),
            Self::Power { power, index } => power_at_index(words, unsigned(words, *power), index),
        }
        .into()
    }
}

impl Show for LocsTenths {
    fn show(&self, words: Words) -> Cow<'_, str> {
        words.number(&self.to_string()).into_owned().into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DecimalSign;

    #[test]
    fn quantities_are_written_as_the_trade_does() {
        let english = Words::ENGLISH;
        assert_eq!(Micrometers::new(23_456).show(english), "23.456 mm");
        assert_eq!(HundredthDiopters::new(2_150).show(english), "+21.50 D");
        assert_eq!(HundredthDiopters::new(-25).show(english), "\u{2212}0.25 D");
        assert_eq!(HundredthDiopters::new(0).show(english), "+0.00 D");
        assert_eq!(Diopters::new(-0.004).show(english), "+0.00 D");
        assert_eq!(Millimeters::new(4.931).show(english), "4.93 mm");
        assert_eq!(unsigned(english, HundredthDiopters::new(75)), "0.75 D");
    }

    #[test]
    fn the_decimal_sign_reaches_every_number() {
        let comma = Words {
            decimals: DecimalSign::Comma,
            ..Words::ENGLISH
        };
        let reading: CornealReading = "43.25 D at 1.3375".parse().unwrap();
        assert_eq!(reading.show(comma), "43,25 D at 1,3375");
        let lens = SpheroCylinder {
            sphere: Diopters::new(-0.26),
            cylinder: Diopters::new(-0.46),
            axis_degrees: 148.0,
        };
        assert_eq!(lens.show(comma), "\u{2212}0,26 D / \u{2212}0,46 D × 148°");
        assert_eq!(
            lens.show(Words::ENGLISH),
            "\u{2212}0.26 D / \u{2212}0.46 D × 148°"
        );
    }

    #[test]
    fn a_cylinder_that_rounds_to_nothing_has_no_axis() {
        let lens = SpheroCylinder {
            sphere: Diopters::new(-0.26),
            cylinder: Diopters::new(-0.004),
            axis_degrees: 148.0,
        };
        assert_eq!(lens.show(Words::ENGLISH), "\u{2212}0.26 D / +0.00 D");
    }
}
