//! How a number is written: the one place that knows the decimal sign.

use std::borrow::Cow;

use crate::Words;

/// The sign between whole numbers and decimals. Both are read anywhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DecimalSign {
    /// "23.45".
    #[default]
    Point,
    /// "23,45".
    Comma,
}

impl DecimalSign {
    /// A number that is written with a point, with this sign.
    pub fn write(self, number: &str) -> Cow<'_, str> {
        match self {
            Self::Point => number.into(),
            Self::Comma => number.replacen('.', ",", 1).into(),
        }
    }
}

impl Words {
    /// A number with so many decimals, real minus, no plus; one that rounds to zero has no sign.
    pub fn fixed(self, value: f64, decimals: usize) -> String {
        let text = self.signed(value, decimals);
        text.strip_prefix('+').map_or(text.clone(), str::to_owned)
    }

    /// A number with its sign always, real minus; one that rounds to zero is "+0.00".
    pub fn signed(self, value: f64, decimals: usize) -> String {
        let text = format!("{:.decimals$}", value.abs());
        let is_zero = text.bytes().all(|byte| byte == b'0' || byte == b'.');
        let sign = if value < 0.0 && !is_zero {
            '\u{2212}'
        } else {
            '+'
        };
        format!("{sign}{}", self.decimals.write(&text))
    }

    /// A whole number of 10^−`scale`, exactly, with at least so many decimals and real minus.
    pub fn exact(self, scaled: i32, scale: u8, at_least: u8) -> String {
        let text = millrace_core::quantity::decimal::write(scaled, scale, at_least);
        self.decimals.write(&text).into_owned()
    }

    /// A number that a file or another program wrote with a point.
    pub fn number(self, written: &str) -> Cow<'_, str> {
        self.decimals.write(written)
    }
}

/// A chance in whole percent; one that rounds to none or to certainty is not shown as such.
pub fn percent(words: Words, chance: f64) -> String {
    if chance >= 0.995 {
        over_99_percent(words).to_owned()
    } else if chance < 0.005 {
        under_1_percent(words).to_owned()
    } else {
        format!("{:.0} %", chance * 100.0)
    }
}

messages! {
    over_99_percent = "over 99 %";
    under_1_percent = "under 1 %";
}

#[cfg(test)]
mod tests {
    use super::*;

    const COMMA: Words = Words {
        decimals: DecimalSign::Comma,
        ..Words::ENGLISH
    };

    #[test]
    fn a_sign_is_never_lost_and_zero_has_none_to_lose() {
        let english = Words::ENGLISH;
        assert_eq!(english.signed(21.374, 2), "+21.37");
        assert_eq!(english.signed(-0.5, 2), "\u{2212}0.50");
        assert_eq!(english.signed(-0.004, 2), "+0.00");
        assert_eq!(english.fixed(-0.25, 3), "\u{2212}0.250");
        assert_eq!(english.fixed(-0.0004, 3), "0.000");
        assert_eq!(COMMA.signed(-0.5, 2), "\u{2212}0,50");
    }

    #[test]
    fn exact_numbers_keep_every_digit() {
        assert_eq!(Words::ENGLISH.exact(23_450, 3, 2), "23.45");
        assert_eq!(COMMA.exact(23_456, 3, 2), "23,456");
        assert_eq!(COMMA.exact(-25, 2, 2), "\u{2212}0,25");
        assert_eq!(COMMA.exact(540, 0, 0), "540");
    }

    #[test]
    fn a_chance_is_neither_none_nor_certain() {
        assert_eq!(percent(Words::ENGLISH, 0.001), "under 1 %");
        assert_eq!(percent(Words::ENGLISH, 0.5), "50 %");
        assert_eq!(percent(Words::ENGLISH, 0.9999), "over 99 %");
    }
}
