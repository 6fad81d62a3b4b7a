//! The eye from outside: as ISO 8429 sees it, and as the surgeon does.

use millrace_core::astigmatism::{Seat, as_seen_from};
use millrace_core::biometry::Sector;
use millrace_core::quantity::{Direction, Meridian, math};
use millrace_wording::quantity::degrees as degrees_of;
use millrace_wording::text::plan;
use millrace_wording::{Show as _, sheet as say};

use super::{Figure, Shape, Words};
use crate::content::Subject;

/// Radius of the circle, points.
const RADIUS: f64 = 38.0;
const CENTER: [f64; 2] = [80.0, 54.0];
const SIZE: [f64; 2] = [160.0, 108.0];

/// The four places an eye is described by.
const PLACES: [u16; 4] = [90, 180, 270, 360];

/// What turns a direction into where it is seen.
type Turn<'a> = &'a dyn Fn(Direction) -> Direction;

/// Facing the patient: 0° at the observer's right, counted counter-clockwise, for both eyes alike.
pub(super) fn facing_the_patient(subject: Subject<'_>) -> Figure {
    let title = say::facing_the_patient(subject.words);
    let mut figure = outline(subject, title, &|direction| direction);
    for degrees in [30_u16, 60, 120, 150] {
        let at = on_circle(f64::from(degrees), RADIUS + 9.0);
        let angle = degrees_of(subject.words, degrees);
        figure.words.push(Words::new(at, "center", angle));
    }
    figure
}

/// As the surgeon sees it: from the temple for a temporal incision, else from the head.
pub(super) fn from_the_seat(subject: Subject<'_>) -> Figure {
    let (side, words) = (subject.side, subject.words);
    let seat = seat(subject);
    let mut figure = outline(subject, say::surgeons_view(words), &|direction| {
        as_seen_from(seat, side, direction)
    });
    figure.title = say::surgeons_view_from(words, seat);
    figure.caption = match seat {
        Seat::Superior => say::forehead_is_nearest(words, figure.caption),
        Seat::Temporal => say::temple_is_nearest(words, figure.caption),
    };
    figure
}

/// Nobody enters a seat: the drawing supposes the one behind the incision, and says which.
fn seat(subject: Subject<'_>) -> Seat {
    let place = subject
        .draft
        .approach
        .incision_direction
        .map(|direction| subject.side.sector(direction));
    match place {
        Some(Sector::Temporal | Sector::Superotemporal | Sector::Inferotemporal) => Seat::Temporal,
        _ => Seat::Superior,
    }
}

fn outline(subject: Subject<'_>, title: &str, turn: Turn<'_>) -> Figure {
    let (side, words) = (subject.side, subject.words);
    let mut figure = Figure {
        title: title.to_owned(),
        alt: in_words(subject, title),
        width: SIZE[0],
        height: SIZE[1],
        shapes: vec![Shape::area(circle(CENTER, RADIUS), 1.2, 255)],
        words: Vec::new(),
        caption: String::new(),
    };
    scale(&mut figure);
    for degrees in PLACES {
        if let Ok(direction) = Direction::new(degrees) {
            let sector = side.sector(direction).show(words).into_owned();
            name_place(&mut figure, &sector, turn(direction));
        }
    }
    let toric = subject.draft.lens.toric().filter(|_| subject.signed);
    if let Some(direction) = subject.draft.approach.incision_direction {
        incision(&mut figure, turn(direction));
        if toric.is_none() {
            label_incision(&mut figure, (subject, direction), turn(direction));
        }
        figure.caption = say::incision_bar(words, direction);
    } else {
        say::incision_not_stated(words).clone_into(&mut figure.caption);
    }
    if let Some(toric) = toric {
        marks(&mut figure, toric.axis, turn);
        figure.caption = say::with_marks(words, figure.caption, toric.axis);
    }
    figure
}

/// A place on a circle around the center; the page counts down.
fn on_circle(degrees: f64, radius: f64) -> [f64; 2] {
    let radians = degrees.to_radians();
    [
        CENTER[0] + radius * math::cos(radians),
        CENTER[1] - radius * math::sin(radians),
    ]
}

fn circle([x, y]: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    (0..72_u8)
        .map(|step| (f64::from(step) * 5.0).to_radians())
        .map(|angle| [x + radius * math::cos(angle), y + radius * math::sin(angle)])
        .collect()
}

fn scale(figure: &mut Figure) {
    for tens in 0_u8..36 {
        let degrees = f64::from(tens) * 10.0;
        let inner = if tens % 3 == 0 { 0.86 } else { 0.93 };
        let ends = [inner * RADIUS, RADIUS].map(|radius| on_circle(degrees, radius));
        figure.shapes.push(Shape::line(ends.to_vec(), 0.6));
    }
}

/// The word beside the circle, with its angle under it.
fn name_place(figure: &mut Figure, place: &str, seen: Direction) {
    let (at, anchor) = match seen.degrees() {
        360 => ([CENTER[0] + RADIUS + 4.0, CENTER[1]], "left"),
        90 => ([CENTER[0], CENTER[1] - RADIUS - 9.0], "center"),
        180 => ([CENTER[0] - RADIUS - 4.0, CENTER[1]], "right"),
        _ => ([CENTER[0], CENTER[1] + RADIUS + 9.0], "center"),
    };
    figure
        .words
        .push(Words::new(at, anchor, place.to_uppercase()).strong(7.0));
}

/// A heavy bar across the edge.
fn incision(figure: &mut Figure, seen: Direction) {
    let degrees = f64::from(seen.degrees());
    let ends = [-11.0, 11.0].map(|off| on_circle(degrees + off, RADIUS * 0.96));
    figure.shapes.push(Shape::line(ends.to_vec(), 5.0));
}

/// A word inside the circle, where no marks of a lens could cross it.
fn label_incision(
    figure: &mut Figure,
    (subject, direction): (Subject<'_>, Direction),
    seen: Direction,
) {
    let words = subject.words;
    let degrees = f64::from(seen.degrees());
    let [x, y] = on_circle(degrees, RADIUS * 0.42);
    figure
        .words
        .push(Words::new([x, y - 4.0], "center", say::incision_word(words)).strong(7.0));
    figure
        .words
        .push(Words::new([x, y + 4.5], "center", direction.show(words)));
}

/// The meridian of the marks: a line with a dot at each end, as on the lens.
fn marks(figure: &mut Figure, axis: Meridian, turn: Turn<'_>) {
    let Ok(direction) = Direction::new(axis.degrees()) else {
        return;
    };
    let degrees = f64::from(turn(direction).degrees());
    let ends = [degrees, degrees + 180.0].map(|end| on_circle(end, RADIUS * 0.8));
    figure.shapes.push(Shape::line(ends.to_vec(), 2.4));
    for end in ends {
        figure.shapes.push(Shape::area(circle(end, 3.6), 0.0, 0));
    }
}

fn in_words(subject: Subject<'_>, title: &str) -> String {
    let words = subject.words;
    let incision = subject.draft.approach.incision_direction.map_or_else(
        || plan::not_stated(words).to_owned(),
        |at| subject.place(at),
    );
    let view = say::view(words, title, subject.side, incision);
    match subject.draft.lens.toric().filter(|_| subject.signed) {
        Some(toric) => say::view_marks(words, view, toric.axis),
        None => view,
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::Side;

    use super::*;

    /// ISO 8429: 0 on the observer's right, 90 up, counter-clockwise. By hand from the center 80, 54.
    #[test]
    fn angles_run_counter_clockwise_from_the_observers_right() {
        for (degrees, expected) in [
            (0.0, [90.0, 54.0]),
            (90.0, [80.0, 44.0]),
            (180.0, [70.0, 54.0]),
            (270.0, [80.0, 64.0]),
        ] {
            let found = on_circle(degrees, 10.0);
            let off = (found[0] - expected[0]).abs() + (found[1] - expected[1]).abs();
            assert!(off < 1e-9, "{degrees}: {found:?}");
        }
    }

    /// A surgeon at the temple of a right eye has the temple nearest (down), the forehead at the left.
    #[test]
    fn the_temple_is_nearest_to_a_surgeon_at_the_temple() {
        for (side, temporal_at, superior_at) in [(Side::Right, 180, 180), (Side::Left, 360, 360)] {
            let seen = |degrees| {
                let direction = Direction::new(degrees).unwrap();
                as_seen_from(Seat::Temporal, side, direction).degrees()
            };
            assert_eq!(seen(temporal_at), 270, "{side:?}");
            assert_eq!(seen(90), superior_at, "{side:?}");
        }
    }
}
