//! Where imported measurements came from: what was read, from which bytes, and by whom it was taken.
//!
//! A case keeps hashes; the bytes are kept by the register. An import counts for a measurement only
//! while the measurement reads as it was taken: what was changed by hand since is not imported.

use core::fmt;
use core::str::FromStr;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use super::CommandRefused;
use super::plain_text;
use crate::biometry::{Item, Side};
use crate::calendar::Day;
use crate::quantity::{checked_when_read, stored_as_text};

/// Measurements taken from one object.
#[serde_as]
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Import {
    pub origin: Origin,
    /// Hash of its bytes as they were received.
    pub sha256: Sha256,
    pub by: String,
    /// The day it was taken.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
    /// What was taken of it, at least one.
    pub took: Vec<Taken>,
}

/// What an import was read from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Origin {
    Dicom {
        /// Its unique identifier.
        instance: String,
        /// Identifier of its class.
        class: String,
    },
    /// A line of a table, read by a mapping that a person made.
    Table {
        /// Number of the mapping in the register.
        mapping: u32,
        /// Line, from 1, the head being the first.
        line: u32,
    },
}

/// One measurement that was taken.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Taken {
    pub eye: Side,
    pub measurement: Item,
    /// As it stood there, with its unit.
    pub read: String,
    pub taken_as: String,
}

/// A hash, written as 64 small hexadecimal digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sha256([u8; 32]);

/// A text that is no hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a hash is 64 digits of 0 to 9 and a to f")]
pub struct NotAHash;

impl fmt::Display for Sha256 {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl FromStr for Sha256 {
    type Err = NotAHash;

    fn from_str(text: &str) -> Result<Self, NotAHash> {
        let is_digit = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
        if text.len() != 64 || !text.chars().all(is_digit) {
            return Err(NotAHash);
        }
        let mut bytes = [0; 32];
        for (index, byte) in bytes.iter_mut().enumerate() {
            let digits = text.get(2 * index..2 * index + 2).ok_or(NotAHash)?;
            *byte = u8::from_str_radix(digits, 16).map_err(|_| NotAHash)?;
        }
        Ok(Self(bytes))
    }
}

stored_as_text!(Sha256);
checked_when_read!(Import, Import::check);

impl Import {
    /// It says who took what, in texts that can be printed.
    fn check(&self) -> Result<(), CommandRefused> {
        if self.by.trim().is_empty() {
            return Err(CommandRefused::AuthorMissing);
        }
        if self.took.is_empty() {
            return Err(CommandRefused::NothingTaken);
        }
        plain_text::check_count("values of an import", self.took.len())?;
        plain_text::check("name of the person", &self.by)?;
        if let Origin::Dicom { instance, class } = &self.origin {
            plain_text::check("identifier of the instance", instance)?;
            plain_text::check("identifier of the class", class)?;
        }
        for taken in &self.took {
            plain_text::check("value as it was read", &taken.read)?;
            plain_text::check("value as it was taken", &taken.taken_as)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use crate::case_file::{read, write};

    const HASH: &str = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

    fn case(from: &str, to: &str) -> String {
        let text = format!(
            r#"(
                format: "millrace case", version: 2, patient: (), operation: (),
                imports: [
                    (
                        origin: dicom(instance: "1.2.3.4", class: "1.2.840.10008.5.1.4.1.1.78.7"),
                        sha256: "{HASH}", by: "T. Lindqvist", on: "2026-11-20",
                        took: [(
                            eye: right, measurement: anterior_chamber_depth,
                            read: "3.120000 mm FL", taken_as: "3.12 mm",
                        )],
                    ),
                    (
                        origin: table(mapping: 3, line: 12), sha256: "{HASH}", by: "T. Lindqvist",
                        on: "2026-11-20",
                        took: [(
                            eye: left, measurement: axial_length, read: "23,45",
                            taken_as: "23.45 mm",
                        )],
                    ),
                ],
            )"#
        );
        assert!(text.contains(from), "{from}");
        text.replacen(from, to, 1)
    }

    #[test]
    fn imports_are_kept_with_the_case() {
        let draft = read(&case(HASH, HASH)).unwrap();
        assert_eq!(draft.imports.len(), 2);
        assert_eq!(draft.imports[0].sha256.to_string(), HASH);
        assert_eq!(read(&write(&draft).unwrap()).unwrap(), draft);
    }

    #[test]
    fn what_says_not_who_took_what_is_refused() {
        for (from, to, said) in [
            (HASH, "e3b0", "a hash is 64 digits of 0 to 9 and a to f"),
            (
                &HASH[60..],
                "B855",
                "a hash is 64 digits of 0 to 9 and a to f",
            ),
            (
                "\"T. Lindqvist\"",
                "\" \"",
                "the name of the person is missing",
            ),
            (
                "\"1.2.3.4\"",
                r#""1.2\n3.4""#,
                "identifier of the instance holds an invisible or a control character (U+000A)",
            ),
            (
                "\"23,45\"",
                &format!("\"{}\"", "2".repeat(201)),
                "value as it was read has 201 characters; at most 200 are kept",
            ),
        ] {
            let message = read(&case(from, to)).unwrap_err().to_string();
            assert!(message.ends_with(said), "{message}");
        }
        let (start, end) = ("took: [(", ")],");
        let text = case(HASH, HASH);
        let (before, rest) = text.split_once(start).unwrap();
        let (_, after) = rest.split_once(end).unwrap();
        let message = read(&format!("{before}took: [],{after}")).unwrap_err();
        assert!(
            message
                .to_string()
                .ends_with("an import takes at least one measurement")
        );
    }
}
