//! Texts that the parts of this page share.

use millrace_core::chamber::{Division, PieceRoom};
use millrace_core::quantity::Millimeters;
use millrace_wording::Words;
use millrace_wording::desk::approach as say;

/// "0.25", "touches −0.37": what is left over a piece, without the unit.
pub(super) fn room(words: Words, room: Millimeters) -> String {
    let number = words.fixed(room.mm(), 2);
    if room.mm() < 0.0 {
        say::touches(words, number)
    } else {
        number
    }
}

/// The same where the cornea may end before.
pub(super) fn room_off_axis(words: Words, left: Option<Millimeters>) -> String {
    left.map_or_else(
        || say::beyond_cornea(words).to_owned(),
        |left| room(words, left),
    )
}

/// "8 × 2 × 2": sectors, rings, layers.
pub(super) fn division(words: Words, division: Division) -> String {
    let Division {
        sectors,
        rings,
        layers,
    } = division;
    say::division(words, sectors, rings, layers)
}

/// A row of the table in words.
pub(super) fn row(words: Words, row: &PieceRoom) -> String {
    let Division {
        sectors,
        rings,
        layers,
    } = row.division;
    say::row(
        words,
        say::row_division(words, row.division.pieces(), sectors, rings, layers),
        row.largest_dimension,
        room(words, row.turning_on_axis),
        room_off_axis(words, row.turning_off_axis),
        room(words, row.standing_on_axis),
    )
}
