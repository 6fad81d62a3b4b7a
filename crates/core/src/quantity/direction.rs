//! A direction on the eye, which unlike a meridian has a side.

use core::fmt;

/// A direction from the center of the cornea, whole degrees, 1 to 360.
///
/// ISO 8429: as seen facing the patient, counted counter-clockwise from the observer's right, the
/// same for both eyes; the observer's right is written 360. A meridian of 180 runs both ways; an
/// incision lies on one.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(try_from = "u16", into = "u16")]
pub struct Direction(u16);

/// A number of degrees that no direction has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("direction {degrees}° is outside 1° to 360°; the observer's right is written 360")]
pub struct NotADirection {
    pub degrees: u16,
}

impl TryFrom<u16> for Direction {
    type Error = NotADirection;

    fn try_from(degrees: u16) -> Result<Self, Self::Error> {
        Self::new(degrees)
    }
}

impl From<Direction> for u16 {
    fn from(direction: Direction) -> Self {
        direction.degrees()
    }
}

impl Direction {
    /// The direction of so many degrees.
    ///
    /// # Errors
    ///
    /// [`NotADirection`] unless `degrees` is 1 to 360.
    pub const fn new(degrees: u16) -> Result<Self, NotADirection> {
        if 1 <= degrees && degrees <= 360 {
            return Ok(Self(degrees));
        }
        Err(NotADirection { degrees })
    }

    /// Whole degrees, 1 to 360.
    pub const fn degrees(self) -> u16 {
        self.0
    }

    /// Turned counter-clockwise by so many degrees.
    #[must_use]
    pub const fn turned(self, degrees: u16) -> Self {
        match (self.0 + degrees % 360) % 360 {
            0 => Self(360),
            turned => Self(turned),
        }
    }

    /// The smaller angle to another direction, in degrees, 0 to 180.
    pub const fn apart(self, other: Self) -> u16 {
        let difference = self.0.abs_diff(other.0);
        if difference <= 180 {
            difference
        } else {
            360 - difference
        }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_1_to_360() {
        assert!(Direction::new(1).is_ok());
        assert_eq!(Direction::new(360).unwrap().to_string(), "360°");
        assert!(Direction::new(361).is_err());
        assert_eq!(
            Direction::new(0).unwrap_err().to_string(),
            "direction 0° is outside 1° to 360°; the observer's right is written 360"
        );
    }

    #[test]
    fn apart_is_the_smaller_angle() {
        let from = |degrees| Direction::new(degrees).unwrap();
        for (one, other, apart) in [
            (10, 10, 0),
            (10, 40, 30),
            (360, 10, 10),
            (350, 20, 30),
            (90, 270, 180),
            (90, 271, 179),
        ] {
            assert_eq!(from(one).apart(from(other)), apart, "{one} {other}");
            assert_eq!(from(other).apart(from(one)), apart, "{other} {one}");
        }
    }

    /// By hand: 65535° is 182 turns and 15°.
    #[test]
    fn a_turn_may_go_around() {
        let from = |degrees| Direction::new(degrees).unwrap();
        for (start, by, end) in [
            (350, 9, 359),
            (350, 10, 360),
            (350, 20, 10),
            (10, u16::MAX, 25),
        ] {
            assert_eq!(from(start).turned(by), from(end), "{start} {by}");
        }
    }
}
