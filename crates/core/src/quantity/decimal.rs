//! Decimal numbers as people type them, read exactly: "23.50", "23,50", "−0,25".

/// Why a text is no decimal number of the wanted fineness.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DecimalError {
    /// Nothing, or white space only.
    #[error("a number is missing")]
    Empty,
    /// Something other than one signed decimal number.
    #[error("\"{text}\" is not a number")]
    NotANumber { text: String },
    /// A point or comma where only a whole number is kept.
    #[error("\"{text}\" is not a whole number, written without point or comma")]
    NotWhole { text: String },
    /// More digits after the point than the quantity keeps.
    #[error("\"{text}\" has more than {decimals} decimals")]
    TooFine {
        text: String,
        /// Decimals the quantity keeps.
        decimals: u8,
    },
    /// More digits than any quantity here can have.
    #[error("\"{text}\" has too many digits")]
    TooLong { text: String },
}

/// Reads `text` as a whole number of 10^−`decimals`.
///
/// Decimal point or decimal comma, one of them, at most once; an optional sign (`+`, `-`, `−`).
/// Digits beyond `decimals` are accepted only if they are zeros: nothing is rounded.
///
/// # Example
///
/// ```
/// use millrace_core::quantity::decimal::parse;
///
/// assert_eq!(parse("23,5", 3), Ok(23_500));
/// assert_eq!(parse("−0.25", 2), Ok(-25));
/// assert!(parse("23.4567", 3).is_err());
/// assert!(parse("1.234,5", 3).is_err());
/// ```
pub fn parse(text: &str, decimals: u8) -> Result<i32, DecimalError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(DecimalError::Empty);
    }
    let quoted = || shorten(trimmed);
    let (negative, digits) = split_sign(trimmed);
    let (whole, fraction) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    // "1,000" is a thousand to one reader and one to another: a whole number takes no separator.
    let all_digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    if decimals == 0 && digits.contains(['.', ',']) {
        let text = quoted();
        let is_number = all_digits(whole) && all_digits(fraction) && !fraction.is_empty();
        return Err(if is_number {
            DecimalError::NotWhole { text }
        } else {
            DecimalError::NotANumber { text }
        });
    }
    if !all_digits(whole) || !all_digits(fraction) || (whole.is_empty() && fraction.is_empty()) {
        return Err(DecimalError::NotANumber { text: quoted() });
    }
    if digits.ends_with(['.', ',']) {
        return Err(DecimalError::NotANumber { text: quoted() });
    }

    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > usize::from(decimals) {
        return Err(DecimalError::TooFine {
            text: quoted(),
            decimals,
        });
    }
    let mut scaled: i32 = 0;
    let padding = usize::from(decimals) - fraction.len();
    let kept = whole
        .bytes()
        .chain(fraction.bytes())
        .chain(core::iter::repeat_n(b'0', padding));
    for digit in kept {
        scaled = scaled
            .checked_mul(10)
            .and_then(|tens| tens.checked_add(i32::from(digit - b'0')))
            .ok_or_else(|| DecimalError::TooLong { text: quoted() })?;
    }
    Ok(if negative { -scaled } else { scaled })
}

fn split_sign(text: &str) -> (bool, &str) {
    if let Some(rest) = text.strip_prefix(['-', '\u{2212}']) {
        return (true, rest);
    }
    (false, text.strip_prefix('+').unwrap_or(text))
}

/// A rejected text can be a pasted page: its head is enough to recognise it.
fn shorten(text: &str) -> String {
    const KEPT: usize = 40;
    if text.chars().count() <= KEPT {
        return text.to_owned();
    }
    let head: String = text.chars().take(KEPT).collect();
    format!("{head}…")
}

/// Writes a whole number of 10^−`decimals` with at least `shown` decimals, more only if they are
/// not zero, with a decimal point and a real minus sign (U+2212).
pub fn write(scaled: i32, decimals: u8, shown: u8) -> String {
    let unit = 10_u32.pow(u32::from(decimals));
    let magnitude = scaled.unsigned_abs();
    let sign = if scaled < 0 { "\u{2212}" } else { "" };
    let width = usize::from(decimals);
    let digits = format!("{:0width$}", magnitude % unit);
    let wanted = usize::from(shown.min(decimals));
    let kept = digits.trim_end_matches('0').len().max(wanted);
    let fraction = digits.get(..kept).unwrap_or_default();
    if fraction.is_empty() {
        return format!("{sign}{}", magnitude / unit);
    }
    format!("{sign}{}.{fraction}", magnitude / unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_people_type() {
        for (text, scaled) in [
            ("23.5", 23_500),
            ("23,50", 23_500),
            (" 23.450 ", 23_450),
            ("+1.25", 1_250),
            ("-1.25", -1_250),
            ("\u{2212}1,25", -1_250),
            (".5", 500),
            ("23", 23_000),
            ("23.450000", 23_450),
            ("0", 0),
        ] {
            assert_eq!(parse(text, 3), Ok(scaled), "{text}");
        }
    }

    #[test]
    fn refuses_everything_else() {
        for text in [
            "",
            " ",
            "+",
            "-",
            ".",
            ",",
            "23.",
            "2 3",
            "1.234,5",
            "1,234.5",
            "0x10",
            "1e3",
            "NaN",
            "inf",
            "--1",
            "+-1",
            "23.5mm",
            "２３",
            "23.4567",
            "99999999999",
        ] {
            assert!(parse(text, 3).is_err(), "{text}");
        }
    }

    #[test]
    fn a_whole_number_takes_no_separator() {
        assert_eq!(parse("1000", 0), Ok(1_000));
        for text in ["1,000", "1.000", "5.0", "5,"] {
            assert!(parse(text, 0).is_err(), "{text}");
        }
        let is_not_whole = |text| matches!(parse(text, 0), Err(DecimalError::NotWhole { .. }));
        assert!(is_not_whole("1,000") && is_not_whole("-5.0"));
        for text in ["5,", "x.5", "5.x", "x.y"] {
            let text = text.to_owned();
            assert_eq!(parse(&text, 0), Err(DecimalError::NotANumber { text }));
        }
    }

    #[test]
    fn messages_quote_the_text_and_say_what_is_wrong() {
        assert_eq!(parse("", 2).unwrap_err().to_string(), "a number is missing");
        assert_eq!(
            parse("abc", 2).unwrap_err().to_string(),
            "\"abc\" is not a number"
        );
        assert_eq!(
            parse("1.255", 2).unwrap_err().to_string(),
            "\"1.255\" has more than 2 decimals"
        );
        let long = "9".repeat(60);
        assert_eq!(
            parse(&long, 2).unwrap_err().to_string(),
            format!("\"{}…\" has too many digits", "9".repeat(40))
        );
    }

    #[test]
    fn written_text_reads_back() {
        for scaled in [-123_456, -1, 0, 5, 50, 500, 23_450, 23_456] {
            for shown in 0..=3 {
                assert_eq!(parse(&write(scaled, 3, shown), 3), Ok(scaled));
            }
        }
        assert_eq!(write(-250, 3, 2), "\u{2212}0.25");
        assert_eq!(write(23_456, 3, 2), "23.456");
        assert_eq!(write(540, 0, 0), "540");
    }
}
