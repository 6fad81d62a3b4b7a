//! How the numbers of the settings are typed and shown, beside those of a case.

use millrace_core::iol_power::{AConstant, PersonalizedAcd, SurgeonFactor};
use millrace_core::quantity::decimal;
use millrace_wording::desk::widgets as say;
use millrace_wording::{Words, entry, quantity};

use crate::widgets::Kind;
use crate::widgets::quantity_kind::{in_words, scaled};

/// A number of eyes; what is too few is the core's business.
pub(super) const EYES: Kind<u32> = Kind {
    unit: "",
    typed_units: &["eyes"],
    range: |words| say::a_count_of_eyes(words).to_owned(),
    read: |text, words| {
        let count = scaled(text, 0, words)?;
        u32::try_from(count).map_err(|_| entry::no_number_of_eyes(words, text))
    },
    write: |value, _| value.to_string(),
};

/// A constant for SRK/T and T2.
pub(super) const A_CONSTANT: Kind<AConstant> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| range(AConstant::RANGE, words),
    read: |text, words| AConstant::new(number(text, words)?).map_err(in_words(words)),
    write: |value, words| digits(value.value(), words),
};

/// Personalized chamber depth of Hoffer Q.
pub(super) const PACD: Kind<PersonalizedAcd> = Kind {
    unit: "mm",
    typed_units: &[],
    range: |words| quantity::millimeters(words, range(PersonalizedAcd::RANGE, words)),
    read: |text, words| PersonalizedAcd::new(number(text, words)?).map_err(in_words(words)),
    write: |value, words| digits(value.value(), words),
};

/// Surgeon factor of Holladay 1.
pub(super) const SURGEON_FACTOR: Kind<SurgeonFactor> = Kind {
    unit: "mm",
    typed_units: &[],
    range: |words| quantity::millimeters(words, range(SurgeonFactor::RANGE, words)),
    read: |text, words| SurgeonFactor::new(number(text, words)?).map_err(in_words(words)),
    write: |value, words| digits(value.value(), words),
};

/// Any number that a constructor of the core judges as a whole with others.
pub(super) const NUMBER: Kind<f64> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::a_number(words).to_owned(),
    read: number,
    write: digits,
};

fn digits(value: f64, words: Words) -> String {
    let text = value.to_string().replace('-', "\u{2212}");
    words.number(&text).into_owned()
}

fn range([min, max]: [f64; 2], words: Words) -> String {
    say::range(words, digits(min, words), digits(max, words))
}

/// Decimals as the core's parser takes them, point or comma, up to six.
fn number(text: &str, words: Words) -> Result<f64, String> {
    decimal::parse(text, 6).map_err(in_words(words))?;
    let plain = text.trim().replace(',', ".").replace('\u{2212}', "-");
    // Read from its own digits: scaled back from millionths it could be off in the last bit.
    plain.parse().map_err(|_| entry::not_a_number(words, text))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: Words = Words::ENGLISH;

    #[test]
    fn constants_keep_their_digits_and_refuse_what_no_lens_has() {
        for text in ["118.66", "118,66"] {
            let constant = A_CONSTANT.parse(text, EN).unwrap();
            assert_eq!((A_CONSTANT.write)(constant, EN), "118.66");
        }
        assert_eq!(
            A_CONSTANT.parse("11.8", EN).unwrap_err(),
            "A constant 11.8 is outside 100 to 130"
        );
        assert_eq!(
            (NUMBER.write)(NUMBER.parse("-0,111", EN).unwrap(), EN),
            "\u{2212}0.111"
        );
        assert_eq!(
            (NUMBER.write)(NUMBER.parse("\u{2212}1.35", EN).unwrap(), EN),
            "\u{2212}1.35"
        );
        for text in ["", "x", "NaN", "inf", "1e3", "1.2.3", "0.0000001"] {
            assert!(NUMBER.parse(text, EN).is_err(), "{text}");
        }
        assert_eq!(EYES.parse("241", EN).unwrap(), 241);
        assert_eq!(
            EYES.parse("-3", EN).unwrap_err(),
            "-3 is not a valid number of eyes"
        );
    }
}
