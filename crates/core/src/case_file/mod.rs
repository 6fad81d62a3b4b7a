//! Cases and lens records as files: RON that a person can read, edit and compare line by line.
//!
//! Stored documents are types of their own, apart from the domain; a version, once released, is
//! never changed. Unknown fields, unknown versions and repeated keys are refused with the place.

mod error;
mod v1;

pub use error::CaseFileError;

use ron::Options;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::case::Draft;
use crate::lens::LensRecord;

const CASE_FORMAT: &str = "millrace case";
const LENS_FORMAT: &str = "millrace lenses";
const NEWEST: u32 = 1;

/// What every file begins with; read before the rest, so that a newer file is named as such
/// instead of tripping over its first new field.
#[derive(Deserialize)]
struct Header {
    format: String,
    version: u32,
}

/// Reads a case file.
///
/// # Errors
///
/// [`CaseFileError`] with line and column, or with the entry that cannot be.
pub fn read(text: &str) -> Result<Draft, CaseFileError> {
    check_header(text, CASE_FORMAT)?;
    let stored: v1::CaseFile = options().from_str(text)?;
    stored.into_draft()
}

/// Writes a case file of the newest version.
///
/// # Errors
///
/// [`CaseFileError::Write`] if the serializer fails, which no draft is known to cause.
pub fn write(draft: &Draft) -> Result<String, CaseFileError> {
    write_file(&v1::CaseFile::from_draft(draft))
}

/// Reads a file of lens records.
///
/// # Errors
///
/// [`CaseFileError`] with line and column, or with the entry that cannot be.
pub fn read_lenses(text: &str) -> Result<Vec<LensRecord>, CaseFileError> {
    check_header(text, LENS_FORMAT)?;
    let stored: v1::LensFile = options().from_str(text)?;
    stored.into_records()
}

/// Writes a file of lens records of the newest version.
///
/// # Errors
///
/// [`CaseFileError::Write`] if the serializer fails, which no record is known to cause.
pub fn write_lenses(records: &[LensRecord]) -> Result<String, CaseFileError> {
    write_file(&v1::LensFile::from_records(records))
}

fn options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

fn check_header(text: &str, format: &'static str) -> Result<(), CaseFileError> {
    let header: Header = options().from_str(text)?;
    if header.format != format {
        return Err(CaseFileError::Format {
            found: header.format,
            wanted: format,
        });
    }
    if header.version != NEWEST {
        return Err(CaseFileError::Version {
            found: header.version,
            newest: NEWEST,
        });
    }
    Ok(())
}

fn write_file(stored: &impl Serialize) -> Result<String, CaseFileError> {
    let pretty = PrettyConfig::new().extensions(Extensions::IMPLICIT_SOME);
    let mut text = options().to_string_pretty(stored, pretty)?;
    text.push('\n');
    Ok(text)
}
