//! Right and left, in the type: what is planned for one eye cannot be given the other's numbers.

use core::fmt;

use crate::quantity::Direction;

/// One of a patient's two eyes.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    Right,
    Left,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Right => "right eye",
            Self::Left => "left eye",
        })
    }
}

impl Side {
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }
}

impl Side {
    /// Where a direction lies on this eye: facing the patient, the observer's right is nasal in a right
    /// eye and temporal in a left one (ISO 8429).
    pub const fn sector(self, direction: Direction) -> Sector {
        // Seen from the nose: 0 is nasal, 90 superior, 180 temporal, 270 inferior.
        let from_nose = match self {
            Self::Right => direction.degrees() % 360,
            Self::Left => (540 - direction.degrees()) % 360,
        };
        match from_nose {
            23..=67 => Sector::Superonasal,
            68..=112 => Sector::Superior,
            113..=157 => Sector::Superotemporal,
            158..=202 => Sector::Temporal,
            203..=247 => Sector::Inferotemporal,
            248..=292 => Sector::Inferior,
            293..=337 => Sector::Inferonasal,
            _ => Sector::Nasal,
        }
    }
}

/// An eighth of the cornea.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Sector {
    /// Toward the nose.
    Nasal,
    /// Up and toward the nose.
    Superonasal,
    Superior,
    /// Up and toward the temple.
    Superotemporal,
    /// Toward the temple.
    Temporal,
    /// Down and toward the temple.
    Inferotemporal,
    Inferior,
    /// Down and toward the nose.
    Inferonasal,
}

/// One value for each eye, reached by naming the eye.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PerEye<T> {
    pub right: T,
    pub left: T,
}

impl<T> PerEye<T> {
    /// The named eye's value.
    pub const fn get(&self, side: Side) -> &T {
        match side {
            Side::Right => &self.right,
            Side::Left => &self.left,
        }
    }

    /// The named eye's value, to change.
    pub const fn get_mut(&mut self, side: Side) -> &mut T {
        match side {
            Side::Right => &mut self.right,
            Side::Left => &mut self.left,
        }
    }

    /// Splits the pair into the eye that is operated on and the other, each in its own type.
    pub const fn split(&self, operated: Side) -> (Operated<&T>, Fellow<&T>) {
        (
            Operated(self.get(operated)),
            Fellow(self.get(operated.other())),
        )
    }
}

/// Belongs to the eye that will be operated on. Formulas and the plan take only this.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operated<T>(pub T);

/// Belongs to the other eye. Serves comparison and nothing else.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fellow<T>(pub T);

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 8429: 0° is nasal in the right eye, temporal in the left; 90° is superior in both.
    #[test]
    fn the_same_direction_lies_elsewhere_in_the_other_eye() {
        use Sector::{
            Inferior, Inferonasal, Inferotemporal, Nasal, Superior, Superonasal, Superotemporal,
            Temporal,
        };
        let sector = |side: Side, degrees| side.sector(Direction::new(degrees).unwrap());
        for (degrees, right, left) in [
            (360, Nasal, Temporal),
            (45, Superonasal, Superotemporal),
            (90, Superior, Superior),
            (135, Superotemporal, Superonasal),
            (180, Temporal, Nasal),
            (225, Inferotemporal, Inferonasal),
            (270, Inferior, Inferior),
            (315, Inferonasal, Inferotemporal),
        ] {
            assert_eq!(sector(Side::Right, degrees), right, "{degrees}");
            assert_eq!(sector(Side::Left, degrees), left, "{degrees}");
        }
    }
}
