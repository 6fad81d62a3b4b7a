//! The name of a case in a register.

use core::fmt;
use core::str::FromStr;

/// Digits and letters without `i`, `l`, `o` and `u`, which are misread.
const DIGITS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

/// A random name of 128 bits, written in 26 letters and digits.
///
/// It says nothing of the patient, and two registers never give the same one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CaseId(u128);

/// A text that is no name of a case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a case is named by 26 letters and digits, without i, l, o and u")]
pub struct NotACaseId;

impl CaseId {
    /// Letters and digits of a whole name.
    pub const LENGTH: usize = 26;
    /// As many tell 100,000 cases apart: two of them share these once in 30,000 registers.
    const SHORT: usize = 10;

    pub fn random() -> Result<Self, getrandom::Error> {
        let mut bytes = [0; 16];
        getrandom::fill(&mut bytes)?;
        Ok(Self::from_bytes(bytes))
    }

    /// The name with these bits.
    pub const fn from_bytes(bytes: [u8; 16]) -> Self {
        Self(u128::from_be_bytes(bytes))
    }

    /// Its beginning, for lists read by people.
    pub fn short(self) -> String {
        let mut text = self.to_string();
        text.truncate(Self::SHORT);
        text
    }
}

/// `text` in lower case if it can be a name or the beginning of one.
pub(crate) fn beginning(text: &str) -> Option<String> {
    let lower = text.to_ascii_lowercase();
    let fits = lower.bytes().all(|byte| DIGITS.contains(&byte));
    (fits && !lower.is_empty() && lower.len() <= CaseId::LENGTH).then_some(lower)
}

impl fmt::Display for CaseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use fmt::Write as _;

        for place in (0..Self::LENGTH).rev() {
            let five_bits = (self.0 >> (5 * place)) & 31;
            let index = usize::try_from(five_bits).unwrap_or_default();
            f.write_char(char::from(DIGITS.get(index).copied().unwrap_or(b'0')))?;
        }
        Ok(())
    }
}

impl fmt::Debug for CaseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for CaseId {
    type Err = NotACaseId;

    fn from_str(text: &str) -> Result<Self, NotACaseId> {
        let lower = beginning(text).ok_or(NotACaseId)?;
        if lower.len() != Self::LENGTH {
            return Err(NotACaseId);
        }
        let mut value = 0_u128;
        for byte in lower.bytes() {
            let digit = DIGITS.iter().position(|known| *known == byte);
            let digit = digit.and_then(|digit| u128::try_from(digit).ok());
            // The first of 26 digits holds three bits, not five.
            let shifted = value.checked_mul(32).ok_or(NotACaseId)?;
            value = shifted + digit.ok_or(NotACaseId)?;
        }
        Ok(Self(value))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn names_read_back(bytes in any::<[u8; 16]>()) {
            let id = CaseId::from_bytes(bytes);
            let text = id.to_string();
            prop_assert_eq!(text.len(), CaseId::LENGTH);
            prop_assert_eq!(text.parse(), Ok(id));
            prop_assert_eq!(text.to_uppercase().parse(), Ok(id));
            prop_assert!(text.starts_with(&id.short()));
        }

        #[test]
        fn names_sort_as_their_texts(first in any::<[u8; 16]>(), second in any::<[u8; 16]>()) {
            let [first, second] = [first, second].map(CaseId::from_bytes);
            prop_assert_eq!(first.cmp(&second), first.to_string().cmp(&second.to_string()));
        }

        #[test]
        fn no_other_text_is_a_name(text in "\\PC{0,30}") {
            if let Ok(id) = text.parse::<CaseId>() {
                prop_assert_eq!(id.to_string(), text.to_ascii_lowercase());
            }
        }
    }

    #[test]
    fn the_ends_of_the_range() {
        // 26 digits of 5 bits hold 130 bits, so the largest 128 bits begin with 7.
        let largest = format!("7{}", "z".repeat(25));
        assert_eq!(CaseId::from_bytes([255; 16]).to_string(), largest);
        assert_eq!(CaseId::from_bytes([0; 16]).to_string(), "0".repeat(26));
        for text in [
            format!("8{}", "0".repeat(25)),
            "0".repeat(25),
            "i".repeat(26),
        ] {
            assert_eq!(text.parse::<CaseId>(), Err(NotACaseId), "{text}");
        }
    }

    #[test]
    fn names_differ() {
        let drawn: Vec<_> = (0..1_000).map(|_| CaseId::random().unwrap()).collect();
        let mut unique = drawn.clone();
        unique.sort_unstable();
        unique.dedup();
        assert_eq!(unique.len(), drawn.len());
    }
}
