//! A refraction as it is written: sphere, cylinder, axis.

use core::fmt;
use core::str::FromStr;

use crate::quantity::{
    HundredthDiopters, MeasureError, Meridian, NotAMeridian, OutOfRange, ParseMeridianError,
    ThousandthDiopters, stored_as_text,
};

/// A refraction at the spectacle plane. The cylinder has the sign it was written with; nothing is
/// transposed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Refraction {
    sphere: HundredthDiopters,
    cylinder: HundredthDiopters,
    axis: Option<Meridian>,
}

/// Why something is no refraction.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RefractionError {
    /// Sphere or cylinder that no eye has.
    #[error(transparent)]
    Range(#[from] OutOfRange),
    /// A cylinder lies somewhere.
    #[error("a cylinder of {0} needs its axis")]
    AxisMissing(HundredthDiopters),
    #[error("an axis belongs to a cylinder, and there is none")]
    AxisAlone,
    /// A number that cannot be read.
    #[error(transparent)]
    Measure(#[from] MeasureError),
    /// An axis that cannot be read.
    #[error(transparent)]
    Axis(#[from] ParseMeridianError),
    /// An axis out of range.
    #[error(transparent)]
    Meridian(#[from] NotAMeridian),
}

impl Refraction {
    /// Smallest and largest sphere accepted (house values).
    pub const SPHERE: [HundredthDiopters; 2] = [
        HundredthDiopters::new(-4_000),
        HundredthDiopters::new(4_000),
    ];
    /// Smallest and largest cylinder accepted (house values).
    pub const CYLINDER: [HundredthDiopters; 2] = [
        HundredthDiopters::new(-2_000),
        HundredthDiopters::new(2_000),
    ];

    /// A refraction; a cylinder of zero has no axis, any other has one.
    pub fn new(
        sphere: HundredthDiopters,
        cylinder: HundredthDiopters,
        axis: Option<Meridian>,
    ) -> Result<Self, RefractionError> {
        OutOfRange::unless_within("sphere", sphere, Self::SPHERE)?;
        OutOfRange::unless_within("cylinder", cylinder, Self::CYLINDER)?;
        match (cylinder.hundredths(), axis) {
            (0, Some(_)) => Err(RefractionError::AxisAlone),
            (0, None) | (_, Some(_)) => Ok(Self {
                sphere,
                cylinder,
                axis,
            }),
            (_, None) => Err(RefractionError::AxisMissing(cylinder)),
        }
    }

    pub const fn sphere(self) -> HundredthDiopters {
        self.sphere
    }

    /// Cylinder, with the sign it was written with.
    pub const fn cylinder(self) -> HundredthDiopters {
        self.cylinder
    }

    pub const fn axis(self) -> Option<Meridian> {
        self.axis
    }

    /// Sphere and half the cylinder, exactly: −1.25/−0.75 is −1.625.
    pub const fn spherical_equivalent(self) -> ThousandthDiopters {
        ThousandthDiopters::new(10 * self.sphere.hundredths() + 5 * self.cylinder.hundredths())
    }
}

impl fmt::Display for Refraction {
    /// "−1.25 D / −0.75 D × 90°"; a sphere alone where there is no cylinder.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.axis {
            Some(axis) => write!(f, "{} / {} × {axis}", self.sphere, self.cylinder),
            None => self.sphere.fmt(f),
        }
    }
}

impl FromStr for Refraction {
    type Err = RefractionError;

    /// Reads what is shown; an `x` stands for the sign before the axis.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let Some((sphere, rest)) = text.split_once('/') else {
            let sphere = HundredthDiopters::parse(text, "refraction")?;
            return Self::new(sphere, HundredthDiopters::new(0), None);
        };
        let (cylinder, axis) = match rest.split_once(['×', 'x']) {
            Some((cylinder, axis)) => (cylinder, Some(Meridian::parse(axis)?)),
            None => (rest, None),
        };
        Self::new(
            HundredthDiopters::parse(sphere, "sphere")?,
            HundredthDiopters::parse(cylinder, "cylinder")?,
            axis,
        )
    }
}

stored_as_text!(Refraction);

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Refraction, String> {
        text.parse()
            .map_err(|error: RefractionError| error.to_string())
    }

    #[test]
    fn reads_back_what_it_shows_and_keeps_the_sign_of_the_cylinder() {
        for (text, shown) in [
            (
                "-1.25 D / -0.75 D x 90",
                "\u{2212}1.25 D / \u{2212}0.75 D × 90°",
            ),
            ("+2,00D/+0.50D×5°", "+2.00 D / +0.50 D × 5°"),
            ("0 D", "+0.00 D"),
            ("-3.5 D / 0 D", "\u{2212}3.50 D"),
        ] {
            let refraction = read(text).unwrap();
            assert_eq!(refraction.to_string(), shown);
            assert_eq!(read(shown).unwrap(), refraction);
            let axis = shown.split_once("× ").map(|(_, axis)| axis.to_owned());
            assert_eq!(refraction.axis().map(|axis| axis.to_string()), axis);
        }
    }

    /// By hand: −1.25 − 0.375 = −1.625; +2.00 + 0.25 = +2.25.
    #[test]
    fn the_spherical_equivalent_is_exact() {
        for (text, shown) in [
            ("-1.25 D / -0.75 D × 90°", "\u{2212}1.625 D"),
            ("+2.00 D / +0.50 D × 5°", "+2.25 D"),
            ("-0.47 D", "\u{2212}0.47 D"),
        ] {
            let equivalent = read(text).unwrap().spherical_equivalent();
            assert_eq!(equivalent.to_string(), shown);
        }
    }

    #[test]
    fn what_is_no_refraction_is_refused() {
        for (text, message) in [
            (
                "-1.25 D / -0.75 D",
                "a cylinder of \u{2212}0.75 D needs its axis",
            ),
            (
                "-1.25 D / 0 D x 90",
                "an axis belongs to a cylinder, and there is none",
            ),
            (
                "-1.25 D / -0.75 D x 0",
                "meridian 0° is outside 1° to 180°; the horizontal is written 180",
            ),
            (
                "-40.01 D",
                "sphere \u{2212}40.01 D is outside \u{2212}40.00 D to +40.00 D",
            ),
            (
                "1 D / 20.01 D x 9",
                "cylinder +20.01 D is outside \u{2212}20.00 D to +20.00 D",
            ),
            (
                "-1.25",
                "refraction \"-1.25\" needs its unit: write \"-0.25 D\"",
            ),
            (
                "-1.255 D",
                "refraction: \"-1.255\" has more than 2 decimals",
            ),
        ] {
            assert_eq!(read(text).unwrap_err(), message);
        }
    }
}
