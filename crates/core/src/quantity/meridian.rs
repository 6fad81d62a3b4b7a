//! A meridian of the eye, after ISO 8429.

use core::fmt;

use super::{DecimalError, decimal};

/// A meridian or axis in whole degrees, 1 to 180.
///
/// ISO 8429: as seen facing the patient, counted counter-clockwise from the observer's right, the
/// same for both eyes. The horizontal is written 180, not 0.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(try_from = "u16", into = "u16")]
pub struct Meridian(u16);

/// A number of degrees that no meridian has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("meridian {degrees}° is outside 1° to 180°; the horizontal is written 180")]
pub struct NotAMeridian {
    pub degrees: i32,
}

impl TryFrom<u16> for Meridian {
    type Error = NotAMeridian;

    fn try_from(degrees: u16) -> Result<Self, Self::Error> {
        Self::new(degrees)
    }
}

impl From<Meridian> for u16 {
    fn from(meridian: Meridian) -> Self {
        meridian.degrees()
    }
}

impl Meridian {
    /// The meridian of so many degrees.
    ///
    /// # Errors
    ///
    /// [`NotAMeridian`] unless `degrees` is 1 to 180.
    pub const fn new(degrees: u16) -> Result<Self, NotAMeridian> {
        if 1 <= degrees && degrees <= 180 {
            return Ok(Self(degrees));
        }
        Err(NotAMeridian {
            degrees: degrees as i32,
        })
    }

    /// The meridian nearest to a computed angle of any size; nothing for a number that is none.
    pub fn nearest(degrees: f64) -> Option<Self> {
        let turned = degrees.rem_euclid(180.0).round();
        if !turned.is_finite() {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and 180"
        )]
        let whole = turned as u16;
        Self::new(if whole == 0 { 180 } else { whole }).ok()
    }

    /// Whole degrees, 1 to 180.
    pub const fn degrees(self) -> u16 {
        self.0
    }

    /// The angle in radians.
    pub fn radians(self) -> f64 {
        f64::from(self.0).to_radians()
    }

    /// The smaller angle to another meridian, in degrees, 0 to 90.
    pub const fn apart(self, other: Self) -> u16 {
        let difference = self.0.abs_diff(other.0);
        if difference <= 90 {
            difference
        } else {
            180 - difference
        }
    }

    /// The meridian at right angles to this one.
    #[must_use]
    pub const fn perpendicular(self) -> Self {
        if self.0 <= 90 {
            Self(self.0 + 90)
        } else {
            Self(self.0 - 90)
        }
    }

    /// Reads "90" or "90°".
    pub fn parse(text: &str) -> Result<Self, ParseMeridianError> {
        let number = text.trim();
        let degrees = decimal::parse(number.strip_suffix('°').unwrap_or(number), 0)?;
        let whole = u16::try_from(degrees).map_err(|_| NotAMeridian { degrees })?;
        Ok(Self::new(whole)?)
    }
}

/// Why a text is no meridian.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ParseMeridianError {
    /// The text is no whole number.
    #[error(transparent)]
    Number(#[from] DecimalError),
    /// The number is outside 1 to 180.
    #[error(transparent)]
    Range(#[from] NotAMeridian),
}

impl fmt::Display for Meridian {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_1_to_180() {
        assert!(Meridian::new(0).is_err());
        assert!(Meridian::new(181).is_err());
        assert_eq!(Meridian::new(180).unwrap().to_string(), "180°");
        assert_eq!(
            Meridian::parse("0").unwrap_err().to_string(),
            "meridian 0° is outside 1° to 180°; the horizontal is written 180"
        );
        assert_eq!(
            Meridian::parse("-5").unwrap_err().to_string(),
            "meridian -5° is outside 1° to 180°; the horizontal is written 180"
        );
    }

    #[test]
    fn the_nearest_whole_degree_wraps_at_the_horizontal() {
        for (degrees, nearest) in [
            (0.0, 180),
            (0.49, 180),
            (0.51, 1),
            (179.6, 180),
            (180.0, 180),
            (-10.0, 170),
            (271.2, 91),
        ] {
            assert_eq!(Meridian::nearest(degrees), Meridian::new(nearest).ok());
        }
        assert_eq!(Meridian::nearest(f64::NAN), None);
        assert_eq!(Meridian::nearest(f64::INFINITY), None);
    }

    #[test]
    fn apart_wraps_at_the_horizontal() {
        let meridian = |degrees| Meridian::new(degrees).unwrap();
        assert_eq!(meridian(175).apart(meridian(5)), 10);
        assert_eq!(meridian(90).apart(meridian(180)), 90);
        for degrees in 1..=180 {
            let perpendicular = meridian(degrees).perpendicular();
            assert_eq!(meridian(degrees).apart(perpendicular), 90);
            // One of the 180 that there are.
            assert_eq!(Meridian::new(perpendicular.degrees()), Ok(perpendicular));
        }
        assert_eq!(meridian(135).perpendicular(), meridian(45));
    }
}
