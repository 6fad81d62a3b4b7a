//! Numbers of texts that are not made by the wording yet, written with the decimal sign in use.

use egui::Context;
use millrace_wording::DecimalSign;

use crate::words::in_use;

/// [`write`], with the sign in use.
pub(crate) fn turned(ctx: &Context, text: &str) -> String {
    write(in_use(ctx).decimals, text)
}

/// A text of the desk, or of the core, with its numbers written this way.
///
/// A point is turned only where it stands alone inside one number: "1.3375", not "0.12.3" and not
/// the number of a publication, "10.1000/182".
fn write(sign: DecimalSign, text: &str) -> String {
    if sign == DecimalSign::Point || !text.contains('.') {
        return text.to_owned();
    }
    let mut written = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_digit()) {
        let (before, from) = rest.split_at(start);
        let is_number = |letter: char| letter.is_ascii_digit() || letter == '.';
        let end = from.find(|letter| !is_number(letter)).unwrap_or(from.len());
        let (number, after) = from.split_at(end);
        written.push_str(before);
        if after.starts_with('/') {
            written.push_str(number);
        } else {
            written.push_str(&with_comma(number));
        }
        rest = after;
    }
    written.push_str(rest);
    written
}

/// "23.50" → "23,50"; "23.50." keeps the full stop; "1.2.3" is no decimal number.
fn with_comma(number: &str) -> String {
    let trimmed = number.trim_end_matches('.');
    let stops = number.get(trimmed.len()..).unwrap_or_default();
    match trimmed.split_once('.') {
        Some((whole, fraction)) if !fraction.contains('.') => {
            format!("{whole},{fraction}{stops}")
        }
        _ => number.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_point_inside_a_number_is_turned() {
        for (text, comma) in [
            ("23.45 mm", "23,45 mm"),
            ("\u{2212}0.25 D", "\u{2212}0,25 D"),
            ("43.25 D at 1.3375", "43,25 D at 1,3375"),
            ("14.00 to 40.00 mm.", "14,00 to 40,00 mm."),
            ("limit 2.80.", "limit 2,80."),
            ("version 0.12.3", "version 0.12.3"),
            ("Eye 2016;30:1049", "Eye 2016;30:1049"),
            ("2026-12-03", "2026-12-03"),
            ("et al., Eye", "et al., Eye"),
            ("doi 10.1000/182, 0.5", "doi 10.1000/182, 0,5"),
            (".5 and 5.", ".5 and 5."),
            ("", ""),
            ("÷ 2.77 × ø 6.00", "÷ 2,77 × ø 6,00"),
        ] {
            assert_eq!(write(DecimalSign::Comma, text), comma);
            assert_eq!(write(DecimalSign::Point, text), text);
        }
    }
}
