//! Texts that the parts of this page share.

use millrace_core::chamber::DivisionProximity;
use millrace_wording::Words;
use millrace_wording::desk::approach as say;
use millrace_wording::text::proximity;

/// What stands behind a number and belongs to it.
const UNITS: [&str; 6] = ["mm", "mm³", "mmHg", "µm", "D", "%"];
/// What stands between the two halves of one statement.
const JOINTS: [&str; 3] = ["±", "×", "="];

/// A row of the table in words.
pub(super) fn row(words: Words, row: &DivisionProximity) -> String {
    let divided = proximity::division(words, row.division);
    say::row(
        words,
        say::row_division(words, row.division.pieces(), divided),
        proximity::margin(words, row),
        proximity::directions(words, row),
    )
}

/// The text with no number parted from its unit, nor from the one it is multiplied or scattered by, where a
/// line ends.
pub(super) fn unparted(text: &str) -> String {
    let mut joined = String::with_capacity(text.len() + 8);
    let mut before: Option<&str> = None;
    for word in text.split(' ') {
        if let Some(before) = before {
            joined.push(if belong(before, word) { '\u{a0}' } else { ' ' });
        }
        joined.push_str(word);
        before = Some(word);
    }
    joined
}

fn belong(before: &str, after: &str) -> bool {
    let is_number = before.ends_with(|last: char| last.is_ascii_digit());
    let unit = after.trim_end_matches([',', '.', ';', ':', ')', ']']);
    JOINTS.contains(&before) || JOINTS.contains(&after) || (is_number && UNITS.contains(&unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_number_is_parted_from_its_unit() {
        for (text, expected) in [
            ("margin 3.07 to 3.46 mm)", "margin 3.07 to 3.46\u{a0}mm)"),
            (
                "size 7.13 ± 0.76 × 3.05 mm.",
                "size 7.13\u{a0}±\u{a0}0.76\u{a0}×\u{a0}3.05\u{a0}mm.",
            ),
            ("80 % range, 124 mm³", "80\u{a0}% range, 124\u{a0}mm³"),
            ("15 to 60 mmHg [derived]", "15 to 60\u{a0}mmHg [derived]"),
            ("after SICS (n = 90)", "after SICS (n\u{a0}=\u{a0}90)"),
            // No number stands before these.
            ("margin, mm and %", "margin, mm and %"),
            ("4 quarters  8 sectors", "4 quarters  8 sectors"),
        ] {
            assert_eq!(unparted(text), expected);
        }
    }
}
