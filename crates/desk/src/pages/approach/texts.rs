//! Texts that the parts of this page share.

use millrace_core::chamber::{Division, DivisionProximity};
use millrace_wording::Words;
use millrace_wording::desk::approach as say;
use millrace_wording::text::proximity;

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
pub(super) fn row(words: Words, row: &DivisionProximity) -> String {
    let Division {
        sectors,
        rings,
        layers,
    } = row.division;
    say::row(
        words,
        say::row_division(words, row.division.pieces(), sectors, rings, layers),
        proximity::margin(words, row),
        proximity::directions(words, row),
    )
}
