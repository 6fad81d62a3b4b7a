//! A direction as the surgeon sees it: a turn of the ISO 8429 view, for a separate, labeled figure.
//!
//! ISO 8429 looks at the patient from in front, head up. Under the microscope the part of the eye
//! nearest to the surgeon is at the bottom of the view, at 270. Both look at the eye from outside, so
//! nothing is mirrored: the figure is turned.

use crate::biometry::Side;
use crate::quantity::Direction;

/// Where the surgeon sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// At the patient's head.
    Superior,
    /// At the temple of the operated eye.
    Temporal,
}

/// Where a direction of ISO 8429 appears to a surgeon in this seat: same counting, in the turned view.
///
/// From the head, 90 is nearest: everything turns by 180. From the temple, the temporal end is nearest:
/// 180 in a right eye, which turns by 90; 360 in a left one, which turns by 270.
pub const fn as_seen_from(seat: Seat, side: Side, direction: Direction) -> Direction {
    direction.turned(match (seat, side) {
        (Seat::Superior, _) => 180,
        (Seat::Temporal, Side::Right) => 90,
        (Seat::Temporal, Side::Left) => 270,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::Sector;

    /// Where the four places of an eye appear: bottom 270, right 360, top 90, left 180. From the head,
    /// what is above is at the bottom and the observer's right at the left. From the temple, the
    /// temporal side is at the bottom and the nasal at the top; a right eye's forehead (superior) is
    /// then at the left, a left eye's at the right, as the surgeon faces the nose.
    #[test]
    fn the_four_places_of_both_eyes_from_both_seats() {
        for (seat, side, places) in [
            (
                Seat::Superior,
                Side::Right,
                [
                    (Sector::Superior, 270),
                    (Sector::Inferior, 90),
                    (Sector::Nasal, 180),
                    (Sector::Temporal, 360),
                ],
            ),
            (
                Seat::Superior,
                Side::Left,
                [
                    (Sector::Superior, 270),
                    (Sector::Inferior, 90),
                    (Sector::Nasal, 360),
                    (Sector::Temporal, 180),
                ],
            ),
            (
                Seat::Temporal,
                Side::Right,
                [
                    (Sector::Superior, 180),
                    (Sector::Inferior, 360),
                    (Sector::Nasal, 90),
                    (Sector::Temporal, 270),
                ],
            ),
            (
                Seat::Temporal,
                Side::Left,
                [
                    (Sector::Superior, 360),
                    (Sector::Inferior, 180),
                    (Sector::Nasal, 90),
                    (Sector::Temporal, 270),
                ],
            ),
        ] {
            for (sector, expected) in places {
                let direction = [90, 180, 270, 360]
                    .map(|degrees| Direction::new(degrees).unwrap())
                    .into_iter()
                    .find(|direction| side.sector(*direction) == sector)
                    .unwrap();
                let seen = as_seen_from(seat, side, direction);
                assert_eq!(seen.degrees(), expected, "{seat:?} {side:?} {sector:?}");
            }
        }
    }

    #[test]
    fn angles_between_directions_stay() {
        let at = |degrees| Direction::new(degrees).unwrap();
        for degrees in 1..=360 {
            for (seat, side) in [
                (Seat::Superior, Side::Right),
                (Seat::Temporal, Side::Right),
                (Seat::Temporal, Side::Left),
            ] {
                let seen = |direction| as_seen_from(seat, side, direction);
                let quarter = seen(at(degrees)).turned(90);
                assert_eq!(
                    seen(at(degrees).turned(90)),
                    quarter,
                    "counter-clockwise stays so"
                );
            }
        }
    }
}
