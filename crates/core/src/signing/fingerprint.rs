//! What tells one signed plan from every other, and how it is written and read.

use core::fmt;
use core::str::FromStr;

use sha2::{Digest as _, Sha256};

use super::letters::{check, five_bits, letter};

/// SHA-256 of a signed plan without the fingerprint itself.
///
/// It tells whether two plans are the same to the last character. It is no proof of who signed: who
/// may write the register can compute another one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint([u8; 32]);

/// The first 75 bits of a fingerprint, as people compare and type them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct ShortFingerprint([u8; Self::VALUES]);

/// What stands on a sheet or in its QR code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PrintedFingerprint {
    Full(Fingerprint),
    Short(ShortFingerprint),
}

/// Why a text is no fingerprint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FingerprintError {
    Empty,
    Letter {
        letter: char,
    },
    /// Too few or too many letters.
    Length {
        found: usize,
    },
    /// The check letter does not fit.
    Misread,
    /// A code of a later way of writing.
    Newer,
}

/// Separates fingerprints from any other program's hashes, and version 1 from a later encoding.
const PURPOSE: &[u8] = b"millrace signed plan 1";
/// What the QR code begins with; version 1 of the code.
const CODE: &str = "MILLRACE:1:";
/// What a code of any version begins with.
const ANY_CODE: &str = "MILLRACE:";
const GROUP: usize = 4;

impl Fingerprint {
    /// Letters of the whole, with the check letter.
    pub const LETTERS: usize = Self::VALUES + 1;
    /// 256 bits in fives; the last value holds one bit and four zeros.
    const VALUES: usize = 52;

    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    pub const fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// SHA-256 over the purpose and the encoded plan, each behind its length in bytes (8, big-endian).
    pub fn of(encoded: &str) -> Self {
        let mut hasher = Sha256::new();
        for field in [PURPOSE, encoded.as_bytes()] {
            let length = u64::try_from(field.len()).unwrap_or(u64::MAX);
            hasher.update(length.to_be_bytes());
            hasher.update(field);
        }
        Self(hasher.finalize().into())
    }

    pub fn short(&self) -> ShortFingerprint {
        let mut values = [0; ShortFingerprint::VALUES];
        for (value, whole) in values.iter_mut().zip(self.values()) {
            *value = whole;
        }
        ShortFingerprint(values)
    }

    /// What the QR code of a sheet holds: only signs of the code's alphanumeric mode.
    pub fn code(&self) -> String {
        let mut text = CODE.to_owned();
        text.extend(letters_with_check(&self.values()));
        text
    }

    fn values(&self) -> [u8; Self::VALUES] {
        let mut values = [0; Self::VALUES];
        for (place, value) in values.iter_mut().enumerate() {
            for bit in 5 * place..5 * place + 5 {
                *value = (*value << 1) | self.bit(bit);
            }
        }
        values
    }

    fn bit(&self, bit: usize) -> u8 {
        let byte = self.0.get(bit / 8).copied().unwrap_or_default();
        (byte >> (7 - bit % 8)) & 1
    }

    fn from_values(values: &[u8]) -> Option<Self> {
        let mut bytes = [0_u8; 32];
        for bit in 0..5 * values.len() {
            let value = values.get(bit / 5).copied().unwrap_or_default();
            let set = (value >> (4 - bit % 5)) & 1;
            match bytes.get_mut(bit / 8) {
                Some(byte) => *byte |= set << (7 - bit % 8),
                None if set == 0 => {}
                None => return None,
            }
        }
        Some(Self(bytes))
    }
}

impl ShortFingerprint {
    /// Letters of it, with the check letter.
    pub const LETTERS: usize = Self::VALUES + 1;
    const VALUES: usize = 15;

    /// The lowest and the highest fingerprint that begins so.
    pub fn range(&self) -> [Fingerprint; 2] {
        let mut lowest = [0_u8; 32];
        let mut highest = [u8::MAX; 32];
        for bit in 0..5 * Self::VALUES {
            let value = self.0.get(bit / 5).copied().unwrap_or_default();
            let set = (value >> (4 - bit % 5)) & 1;
            let place = 7 - bit % 8;
            if let (Some(low), Some(high)) = (lowest.get_mut(bit / 8), highest.get_mut(bit / 8)) {
                *low |= set << place;
                *high &= !((1 - set) << place);
            }
        }
        [Fingerprint(lowest), Fingerprint(highest)]
    }
}

impl PrintedFingerprint {
    /// Whether it is that of a plan with this fingerprint.
    pub fn fits(&self, fingerprint: &Fingerprint) -> bool {
        match self {
            Self::Full(full) => full == fingerprint,
            Self::Short(short) => *short == fingerprint.short(),
        }
    }
}

fn letters_with_check(values: &[u8]) -> impl Iterator<Item = char> {
    let last = check(values);
    values.iter().copied().chain([last]).map(letter)
}

/// Groups of four with hyphens; what is left over joins the last group.
fn write_groups(f: &mut fmt::Formatter<'_>, values: &[u8]) -> fmt::Result {
    use fmt::Write as _;

    let whole_groups = (values.len() + 1) / GROUP;
    for (place, letter) in letters_with_check(values).enumerate() {
        if place != 0 && place % GROUP == 0 && place / GROUP < whole_groups {
            f.write_char('-')?;
        }
        f.write_char(letter)?;
    }
    Ok(())
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_groups(f, &self.values())
    }
}

impl fmt::Debug for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl fmt::Display for ShortFingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_groups(f, &self.0)
    }
}

impl FromStr for PrintedFingerprint {
    type Err = FingerprintError;

    fn from_str(text: &str) -> Result<Self, FingerprintError> {
        let text = text.trim().to_uppercase();
        let letters = match text.strip_prefix(CODE) {
            Some(letters) => letters,
            None if text.starts_with(ANY_CODE) => return Err(FingerprintError::Newer),
            None => &text,
        };
        let mut values = Vec::new();
        for letter in letters.chars() {
            if letter == '-' || letter.is_whitespace() {
                continue;
            }
            values.push(five_bits(letter).ok_or(FingerprintError::Letter { letter })?);
        }
        let Some((last, rest)) = values.split_last() else {
            return Err(FingerprintError::Empty);
        };
        let found = values.len();
        if found != ShortFingerprint::LETTERS && found != Fingerprint::LETTERS {
            return Err(FingerprintError::Length { found });
        }
        if check(rest) != *last {
            return Err(FingerprintError::Misread);
        }
        match <[u8; ShortFingerprint::VALUES]>::try_from(rest) {
            Ok(values) => Ok(Self::Short(ShortFingerprint(values))),
            Err(_) => Fingerprint::from_values(rest)
                .map(Self::Full)
                .ok_or(FingerprintError::Misread),
        }
    }
}

#[cfg(test)]
mod tests;
