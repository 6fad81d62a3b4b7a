//! Who saves, when, with what.

use chrono::{DateTime, Utc};
use millrace_core::case::plain_text;

use crate::error::Fault;

/// Who saved something, when, and with which program; kept with every revision.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp<'a> {
    pub by: &'a str,
    /// The name of the desk, if it has one.
    pub desk: Option<&'a str>,
    /// The moment; this crate reads no clock.
    pub at: DateTime<Utc>,
    pub program: &'a str,
}

impl Stamp<'_> {
    /// Somebody is named, in visible characters, and so is the desk, if there is one.
    pub(crate) fn check(&self) -> Result<(), Fault> {
        if self.by.trim().is_empty() {
            return Err(Fault::Nobody);
        }
        plain_text::check("name of the person", self.by)?;
        if let Some(desk) = self.desk {
            plain_text::check("name of the desk", desk)?;
        }
        plain_text::check("name of the program", self.program)?;
        Ok(())
    }
}
