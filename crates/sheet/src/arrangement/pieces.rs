//! Text cut into the pieces by which a number on the page is compared with one of the data.

/// A sign before a number, in whatever form.
pub(super) const fn is_sign(letter: char) -> bool {
    matches!(
        letter,
        '+' | '-' | '±' | '−' | '‐'
            ..='―'
                | '⁺'
                | '⁻'
                | '₊'
                | '₋'
                | '∓'
                | '﹢'
                | '﹣'
                | '＋'
                | '－'
                | '˗'
                | '➕'
                | '➖'
                | '⊕'
                | '⊖'
                | '†'
                | '‡'
    )
}

/// A mark between whole numbers and decimals.
pub(super) const fn is_decimal_mark(letter: char) -> bool {
    matches!(
        letter,
        '.' | ',' | '·' | '٫' | '٬' | '‚' | '․' | '∙' | '⋅' | '•' | '。' | '，' | '．'
    )
}

/// A letter that is read as a digit where only digits are expected.
const fn is_like_a_digit(letter: char) -> bool {
    matches!(
        letter,
        'O' | 'o'
            | 'Q'
            | 'Ο'
            | 'ο'
            | 'О'
            | 'о'
            | '○'
            | '◯'
            | '°'
            | 'º'
            | '∘'
            | '〇'
            | '०'
            | 'l'
            | 'I'
            | 'i'
            | '|'
            | '!'
            | 'ı'
            | 'Ι'
            | 'І'
            | 'і'
            | 'Ӏ'
            | 'ӏ'
            | 'ǀ'
            | '∣'
            | '׀'
            | 'ו'
            | 'ا'
            | 'Z'
            | 'z'
            | 'S'
            | 's'
            | 'Ѕ'
            | 'ѕ'
            | 'Ζ'
            | 'B'
            | 'β'
            | 'ß'
            | 'Β'
            | 'В'
            | 'в'
            | 'G'
            | 'б'
            | 'b'
            | 'g'
            | 'q'
            | 'Э'
            | 'З'
            | 'з'
            | 'э'
            | 'Ʒ'
            | 'ʒ'
            | 'Ч'
            | 'ч'
            | 'ε'
            | 'Є'
            | 'є'
    )
}

/// What of a text runs from right to left, and digits of scripts that do, which do not.
const fn runs_to_the_left(letter: char) -> bool {
    matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}')
}

/// Letters between any two of which a line may break.
const fn is_han(letter: char) -> bool {
    matches!(letter, '\u{2e80}'..='\u{9fff}' | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{3ffff}')
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Apart,
    Leftward,
    LeftwardDigit,
    Other,
}

fn kind(letter: char, [before, after]: [Option<char>; 2]) -> Kind {
    let is_digit = |it: Option<char>| it.is_some_and(char::is_numeric);
    match letter {
        // A time.
        ':' if is_digit(before) && is_digit(after) => Kind::Other,
        '=' | ';' | ':' | '|' | '(' | ')' | '[' | ']' | '{' | '}' | '→' | '"' | '“' | '”' | '„'
        | '…' | '\u{200b}' => Kind::Apart,
        it if it.is_whitespace() || is_han(it) => Kind::Apart,
        it if runs_to_the_left(it) && (it.is_numeric() || is_decimal_mark(it)) => {
            Kind::LeftwardDigit
        }
        it if runs_to_the_left(it) => Kind::Leftward,
        _ => Kind::Other,
    }
}

/// The pieces of a text in its own order.
pub(super) fn pieces(text: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let (mut start, mut last, mut before) = (0, Kind::Apart, None);
    for (index, letter) in text.char_indices() {
        let after = text
            .get(index + letter.len_utf8()..)
            .and_then(|rest| rest.chars().next());
        let kind = kind(letter, [before, after]);
        if kind != last {
            if last != Kind::Apart {
                pieces.extend(text.get(start..index));
            }
            start = index;
        }
        (last, before) = (kind, Some(letter));
    }
    if last != Kind::Apart {
        pieces.extend(text.get(start..));
    }
    let trimmed = pieces.into_iter().map(trimmed);
    trimmed.filter(|piece| !piece.is_empty()).collect()
}

/// Without the marks that end a clause: a number at its end is the number.
fn trimmed(piece: &str) -> &str {
    piece
        .trim_start_matches(['\'', '‘', '’', '«', '»'])
        .trim_end_matches(['.', ',', '\'', '‘', '’', '«', '»', '!', '?'])
}

/// Whether it holds a digit of any script, a fraction, or a number in a circle.
pub(super) fn is_number(piece: &str) -> bool {
    piece.chars().any(char::is_numeric)
}

/// Whether all of it is signs.
pub(super) fn is_sign_alone(piece: &str) -> bool {
    !piece.is_empty() && piece.chars().all(is_sign)
}

/// Whether it is read as a number though it holds no digit: "+lI.OO".
pub(super) fn looks_like_a_number(piece: &str) -> bool {
    let digits = piece.trim_start_matches(is_sign);
    let marked = digits
        .trim_matches(is_decimal_mark)
        .contains(is_decimal_mark);
    let signed = digits.len() < piece.len();
    !digits.is_empty()
        && (marked || signed)
        && digits
            .chars()
            .all(|it| is_like_a_digit(it) || is_decimal_mark(it))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_cut_where_a_reader_would_begin_anew() {
        assert_eq!(
            pieces("AL=23.50 mm (optical); K1: 43.25 D, 16:40."),
            ["AL", "23.50", "mm", "optical", "K1", "43.25", "D", "16:40"]
        );
        assert_eq!(pieces("22,50 .50 −1.25×90°"), ["22,50", ".50", "−1.25×90°"]);
        assert_eq!(pieces("2.4毫米 مم5"), ["2.4", "مم", "5"]);
        assert_eq!(pieces("مم٥٫٢"), ["مم", "٥٫٢"]);
    }

    #[test]
    fn letters_that_look_like_a_number_are_one() {
        for piece in ["+lI.OO", "I2.OO", "−O", "22.50", "lO,SO", "З.ОО"] {
            assert!(looks_like_a_number(piece) || is_number(piece), "{piece}");
        }
        for piece in [
            "so", "is", "IOL", "e.g", "I.O.L", "-go-", "Bag", "+", "–", "...",
        ] {
            let like = looks_like_a_number(piece) || is_number(piece);
            assert!(!like, "{piece}");
        }
    }
}
