//! Clocks that were set back. Nothing here orders by time: saves and sheets follow each other as they were
//! made. But whoever reads two times takes the later one for the later act, and is to know.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension as _};

use crate::error::{Fault, RegisterError};
use crate::open::Register;
use crate::read::{self, parsed};
use crate::sheet::{self, SheetStanding};

/// What the clock says against what was saved and signed last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clock {
    Plausible,
    /// It is behind: now, or when that was saved or signed, it was wrong.
    Behind {
        last: DateTime<Utc>,
    },
}

/// Where times run against the order of what was saved or signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SetBack {
    /// Saved after something that has a later time.
    Save {
        case: String,
        revision: u32,
        /// Of the save before it.
        before: DateTime<Utc>,
        at: DateTime<Utc>,
    },
    /// Signed after something that has a later time.
    Sheet {
        number: u32,
        /// Of the sheet before it, or of the save it signs.
        before: DateTime<Utc>,
        at: DateTime<Utc>,
    },
}

impl Register {
    /// Whether this moment may come after what was saved and signed last. To be asked before saving or
    /// signing, and told; it keeps nobody from either.
    pub fn clock(&self, now: DateTime<Utc>) -> Result<Clock, RegisterError> {
        self.read(|reading| {
            let last = last_saved_at(reading)?.max(sheet::last_signed_at(reading)?);
            Ok(match last {
                Some(last) if now < last => Clock::Behind { last },
                _ => Clock::Plausible,
            })
        })
    }
}

fn last_saved_at(reading: &Connection) -> Result<Option<DateTime<Utc>>, Fault> {
    let mut statement = reading.prepare_cached(
        "SELECT case_id, number FROM revision NOT INDEXED ORDER BY sequence DESC LIMIT 1",
    )?;
    let last = statement.query_row([], |row| Ok((row.get::<_, String>(0)?, row.get(1)?)));
    let Some((case, number)) = last.optional()? else {
        return Ok(None);
    };
    let revision = read::load(reading, parsed(&case)?, number)?;
    Ok(Some(revision.entry.saved_at))
}

impl SheetStanding {
    /// Whether the later sheet or save has the earlier time, so that who compares times takes the wrong one.
    pub fn clock_was_set_back(&self) -> bool {
        match self {
            Self::Superseded { sheet, by } => by.signed_at < sheet.signed_at,
            Self::ChangedSince { sheet, by } => by.saved_at < sheet.signed_at,
            Self::Current(_) | Self::Unknown => false,
        }
    }
}
