//! Cases and lens records as files: RON that a person can read, edit and compare line by line.
//!
//! A register keeps the same documents as JSON, so that a database can look inside; both pass
//! through the same stored types and the same checks.
//!
//! What is stored are the types of the domain themselves, which read only what their checks let pass
//! (`docs/decisions/0011-domain-types-are-stored.md`); a version, once released, is never changed.
//! Unknown fields, unknown versions and repeated keys are refused with the place.

mod differences;
mod error;
mod lens_import;
mod merge;
mod stored;

pub use differences::{Difference, differences};
pub use error::{CaseFileError, ContentError};
pub use lens_import::{LensChange, LensChangeKind, LensImport, lens_import};
pub use merge::{Apart, ChangedBy, SideOf, apart, together};

use ron::Options;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::case::Draft;
use crate::lens::LensRecord;

const CASE_FORMAT: &str = "millrace case";
const LENS_FORMAT: &str = "millrace lenses";
/// Version that is written.
pub const NEWEST: u32 = 3;
/// Oldest version that is read.
pub const OLDEST: u32 = 1;

/// What every file begins with; read before the rest, so that a newer file is named as such
/// instead of tripping over its first new field.
#[derive(Deserialize)]
struct Header {
    format: String,
    version: u32,
}

pub fn read(text: &str) -> Result<Draft, CaseFileError> {
    check_header(text, CASE_FORMAT)?;
    let case: stored::CaseFile = options().from_str(text)?;
    case.into_draft()
}

/// Writes a case file of the newest version.
pub fn write(draft: &Draft) -> Result<String, CaseFileError> {
    write_file(&stored::CaseFile::from_draft(draft))
}

/// Reads a case from the JSON of the same stored document.
pub fn read_json(text: &str) -> Result<Draft, CaseFileError> {
    let header: Header = from_json(text)?;
    header.check(CASE_FORMAT)?;
    let case: stored::CaseFile = from_json(text)?;
    case.into_draft()
}

/// Writes a case as JSON of the newest version, in one line and always in the same order: equal
/// drafts have equal bytes.
pub fn write_json(draft: &Draft) -> Result<String, CaseFileError> {
    serde_json::to_string(&stored::CaseFile::from_draft(draft)).map_err(|error| {
        CaseFileError::WriteJson {
            problem: error.to_string(),
        }
    })
}

/// A case inside another stored document.
pub(crate) mod inside {
    use serde::de::{Deserializer, Error as _};
    use serde::{Deserialize as _, Serialize as _, Serializer};

    use super::{CASE_FORMAT, stored};
    use crate::case::Draft;

    pub(crate) fn serialize<S: Serializer>(
        draft: &Draft,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        stored::CaseFile::from_draft(draft).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Draft, D::Error> {
        let case = stored::CaseFile::deserialize(deserializer)?;
        case.header()
            .check(CASE_FORMAT)
            .and_then(|()| case.into_draft())
            .map_err(D::Error::custom)
    }
}

pub fn read_lenses(text: &str) -> Result<Vec<LensRecord>, CaseFileError> {
    check_header(text, LENS_FORMAT)?;
    let file: stored::LensFile = options().from_str(text)?;
    file.into_records()
}

/// Writes a file of lens records of the newest version.
pub fn write_lenses(records: &[LensRecord]) -> Result<String, CaseFileError> {
    write_file(&stored::LensFile::from_records(records))
}

fn options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

fn check_header(text: &str, format: &'static str) -> Result<(), CaseFileError> {
    let header: Header = options().from_str(text)?;
    header.check(format)
}

impl Header {
    fn check(self, format: &'static str) -> Result<(), CaseFileError> {
        if self.format != format {
            return Err(CaseFileError::Format {
                found: self.format,
                wanted: format,
            });
        }
        if !(OLDEST..=NEWEST).contains(&self.version) {
            return Err(CaseFileError::Version {
                found: self.version,
                newest: NEWEST,
            });
        }
        Ok(())
    }
}

fn from_json<'a, T: Deserialize<'a>>(text: &'a str) -> Result<T, CaseFileError> {
    serde_json::from_str(text).map_err(|error| CaseFileError::json(&error))
}

fn write_file(stored: &impl Serialize) -> Result<String, CaseFileError> {
    let pretty = PrettyConfig::new().extensions(Extensions::IMPLICIT_SOME);
    let mut text = options().to_string_pretty(stored, pretty)?;
    text.push('\n');
    Ok(text)
}

#[cfg(test)]
mod tests;
