//! How the numbers of the settings are typed and shown, beside those of a case.

use millrace_core::iol_power::{AConstant, PersonalizedAcd, SurgeonFactor};
use millrace_core::quantity::decimal;

use crate::widgets::Kind;

/// A number of eyes; what is too few is the core's business.
pub(super) const EYES: Kind<u32> = Kind {
    unit: "eyes",
    typed_units: &[],
    range: || "a whole number of eyes".to_owned(),
    read: |text| {
        let count = decimal::parse(text, 0).map_err(|error| error.to_string())?;
        u32::try_from(count).map_err(|_| format!("{text} is no number of eyes"))
    },
    write: |value| value.to_string(),
};

/// A constant for SRK/T and T2.
pub(super) const A_CONSTANT: Kind<AConstant> = Kind {
    unit: "",
    typed_units: &[],
    range: || range("", AConstant::RANGE),
    read: |text| AConstant::new(number(text)?).map_err(|error| error.to_string()),
    write: |value| value.value().to_string(),
};

/// Personalized chamber depth of Hoffer Q.
pub(super) const PACD: Kind<PersonalizedAcd> = Kind {
    unit: "mm",
    typed_units: &[],
    range: || range(" mm", PersonalizedAcd::RANGE),
    read: |text| PersonalizedAcd::new(number(text)?).map_err(|error| error.to_string()),
    write: |value| value.value().to_string(),
};

/// Surgeon factor of Holladay 1.
pub(super) const SURGEON_FACTOR: Kind<SurgeonFactor> = Kind {
    unit: "mm",
    typed_units: &[],
    range: || range(" mm", SurgeonFactor::RANGE),
    read: |text| SurgeonFactor::new(number(text)?).map_err(|error| error.to_string()),
    write: |value| real_minus(value.value()),
};

/// Any number that a constructor of the core judges as a whole with others.
pub(super) const NUMBER: Kind<f64> = Kind {
    unit: "",
    typed_units: &[],
    range: || "a number".to_owned(),
    read: number,
    write: real_minus,
};

fn real_minus(value: f64) -> String {
    value.to_string().replace('-', "\u{2212}")
}

fn range(unit: &str, [min, max]: [f64; 2]) -> String {
    format!("{} to {}{unit}", real_minus(min), real_minus(max))
}

/// Decimals as the core's parser takes them, point or comma, up to six.
fn number(text: &str) -> Result<f64, String> {
    decimal::parse(text, 6).map_err(|error| error.to_string())?;
    let plain = text.trim().replace(',', ".").replace('\u{2212}', "-");
    // Read from its own digits: scaled back from millionths it could be off in the last bit.
    plain
        .parse()
        .map_err(|_| format!("\"{text}\" is not a number"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn constants_keep_their_digits_and_refuse_what_no_lens_has() {
        for text in ["118.66", "118,66"] {
            let constant = A_CONSTANT.parse(text).unwrap();
            assert_eq!((A_CONSTANT.write)(constant), "118.66");
        }
        assert_eq!(
            A_CONSTANT.parse("11.8").unwrap_err(),
            "A constant 11.8 is outside 100 to 130"
        );
        assert_eq!(
            (NUMBER.write)(NUMBER.parse("-0,111").unwrap()),
            "\u{2212}0.111"
        );
        assert_eq!(
            (NUMBER.write)(NUMBER.parse("\u{2212}1.35").unwrap()),
            "\u{2212}1.35"
        );
        for text in ["", "x", "NaN", "inf", "1e3", "1.2.3", "0.0000001"] {
            assert!(NUMBER.parse(text).is_err(), "{text}");
        }
        assert_eq!(EYES.parse("241").unwrap(), 241);
        assert_eq!(EYES.parse("-3").unwrap_err(), "-3 is no number of eyes");
    }
}
