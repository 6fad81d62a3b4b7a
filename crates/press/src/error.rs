//! Why the press gave no sheet.

use core::time::Duration;

use millrace_sheet::SheetError;

/// Why the press gave no sheet: the sheet is refused, or the process that was to set it died. The next sheet
/// is set by another process.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{self:?}")]
#[non_exhaustive]
pub enum PressError {
    /// The sheet is refused, as it would be without a press.
    Sheet(#[from] SheetError),
    /// It needed more memory than it may have.
    OutOfMemory {
        /// What it may have, bytes.
        limit: u64,
    },
    /// It took longer than it may take.
    OutOfTime {
        /// How long it may take.
        limit: Duration,
    },
    /// A fault of the program.
    Panicked {
        /// File and line of the source.
        at: String,
    },
    /// Another program, the system, or a fault that no program survives.
    Killed {
        /// Number of the signal.
        signal: i32,
    },
    /// It ended by itself in the middle of its work.
    Ended {
        /// Its exit status, where it has one.
        code: Option<i32>,
    },
    /// No process could be started.
    NotStarted {
        /// What the system says.
        problem: String,
    },
    /// It could not be given its limit of memory, and is not used without.
    NotLimited {
        /// What the system says.
        problem: String,
    },
    /// It answered what cannot be read.
    Unreadable,
    /// The plan cannot be written so that the process reads it as it is.
    NotHandedOver,
    /// Pages and pictures are larger together than an answer may be.
    TooLarge {
        /// What an answer may have, bytes.
        limit: u64,
    },
    /// Not tried, because sheets before it failed in a row.
    GivenUp {
        /// How many.
        after: usize,
    },
}

impl PressError {
    /// Whether nothing is said against the sheet itself, so that trying again may help.
    pub const fn is_of_the_press(&self) -> bool {
        !matches!(self, Self::Sheet(_))
    }
}
