//! Words the parts of this page share.

use millrace_core::chamber::{Division, PieceRoom};
use millrace_core::quantity::Millimeters;

/// "0.25", "touches −0.37": what is left over a piece, without the unit.
pub(super) fn room(room: Millimeters) -> String {
    let text = room.to_string();
    let number = text.trim_end_matches(" mm");
    if room.mm() < 0.0 {
        format!("touches {number}")
    } else {
        number.to_owned()
    }
}

/// The same where the cornea may end before.
pub(super) fn room_off_axis(left: Option<Millimeters>) -> String {
    left.map_or_else(|| "beyond cornea".to_owned(), room)
}

/// "8 × 2 × 2": sectors, rings, layers.
pub(super) fn division(division: Division) -> String {
    let Division {
        sectors,
        rings,
        layers,
    } = division;
    format!("{sectors} × {rings} × {layers}")
}

/// A row of the table in words.
pub(super) fn row(row: &PieceRoom) -> String {
    let Division {
        sectors,
        rings,
        layers,
    } = row.division;
    format!(
        "{} pieces, {sectors} sectors, {rings} rings, {layers} layers, longest {}, room in mm turning \
         {}, 2 mm off axis {}, standing {}",
        row.division.pieces(),
        row.largest_dimension,
        room(row.turning_on_axis),
        room_off_axis(row.turning_off_axis),
        room(row.standing_on_axis),
    )
}
