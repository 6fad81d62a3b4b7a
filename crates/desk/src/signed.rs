//! Whether a case is signed, and the lock that this puts on it.
//!
//! What theatre holds in its hands is not changed by the way: until somebody says that the plan is to be changed,
//! no field of a signed case takes anything, and there is no undo.

use millrace_core::signing::SheetNumber;

use crate::exchange::{SheetRow, Standing};

/// What the sheets of a case say of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signed {
    /// No sheet was signed for it.
    Never,
    /// It stands as this sheet has it.
    As(SheetNumber),
    /// This sheet is the newest, and the case is no longer what it says.
    ChangedSince(SheetNumber),
    /// Its sheets could not be read.
    Unknown,
}

/// Whether a signed case may be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Lock {
    #[default]
    Closed,
    /// The person is told what a change means.
    Asked,
    Lifted,
}

impl Signed {
    /// Of these sheets, the oldest first; nothing if they could not be read.
    pub fn of(sheets: Option<&[SheetRow]>) -> Self {
        let Some(sheets) = sheets else {
            return Self::Unknown;
        };
        sheets.last().map_or(Self::Never, |sheet| {
            if sheet.is_current() {
                Self::As(sheet.number)
            } else {
                Self::ChangedSince(sheet.number)
            }
        })
    }

    /// Whether nothing of the case may change under this lock.
    pub fn is_locked(self, lock: Lock) -> bool {
        lock != Lock::Lifted && matches!(self, Self::As(_) | Self::Unknown)
    }
}

/// The case is no longer what its newest sheet says: it was changed at this desk.
pub(crate) fn changed(sheets: &mut [SheetRow]) {
    if let Some(sheet) = sheets.last_mut()
        && sheet.is_current()
    {
        sheet.standing = Standing::ChangedSince;
    }
}
