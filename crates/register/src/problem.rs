//! What is wrong with what was stored.

use millrace_core::case_file::CaseFileError;
use millrace_core::signing::{NotASignedPlan, SheetNumber};

use crate::case_id::CaseId;

/// What was found in the file, or what the database says of it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Problem {
    Reported(String),
    /// A revision is not there.
    RevisionMissing {
        case: CaseId,
        number: u32,
    },
    /// A revision does not have the hash it was saved with.
    RevisionChanged {
        case: CaseId,
        number: u32,
    },
    /// A revision is whole and cannot be read.
    RevisionUnreadable {
        case: CaseId,
        number: u32,
        error: Box<CaseFileError>,
    },
    /// A text that this program never stores in its place.
    NotOurs {
        text: String,
        wanted: Wanted,
    },
    NoNumberLeft,
    /// A short fingerprint stands for more than one sheet.
    TwoSheets,
    /// A sheet cannot be read.
    SheetUnreadable {
        number: SheetNumber,
        error: Box<NotASignedPlan>,
    },
    /// A sheet does not say what the register says of it.
    SheetDiffers {
        number: SheetNumber,
        mismatch: Mismatch,
    },
    /// A sheet does not have the hash it was signed with.
    SheetChanged {
        number: SheetNumber,
    },
    /// A sheet is not there.
    SheetMissing {
        number: u32,
    },
    /// Sheets are numbered from 1.
    SheetZero,
    /// What was to be saved would be read as something else.
    ReadsBackOtherwise,
    /// The copy of a backup ended early.
    CopyStopped,
    /// More or fewer cases are listed than saved.
    Count {
        listed: i64,
        saved: u64,
    },
    Signed(Box<SignedProblem>),
    /// What a case is found by does not agree with what was saved.
    Index(Index),
    /// The list shows something else of a case than was saved.
    ListDiffers {
        case: CaseId,
    },
}

/// Something that follows from what was saved and is kept to find it quickly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Index {
    /// The list or one of its indexes.
    List,
    /// Words of names and numbers.
    Search,
    /// Revisions of a case.
    Revisions,
    /// Sheets of a case, or by their fingerprints.
    Sheets,
}

/// What a stored text was taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    Case,
    Moment,
    Day,
}

/// In what a signed plan is not what the register says of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mismatch {
    Number,
    Signature,
    Revision,
}

/// What is wrong with a signed plan, as a check tells it under its number.
#[derive(Clone, Debug, PartialEq)]
pub enum SignedProblem {
    /// The revision it signs is not there.
    RevisionMissing,
    /// Its hash is another.
    NotInItsPlace,
    /// It names another sheet as the one before.
    SupersedesAnother,
    Unreadable(NotASignedPlan),
    /// It is not what the register says.
    Differs(Mismatch),
}

/// A type that is stored as text.
pub(crate) trait Parsed: core::str::FromStr {
    const WANTED: Wanted;
}

impl Parsed for CaseId {
    const WANTED: Wanted = Wanted::Case;
}
impl Parsed for chrono::NaiveDate {
    const WANTED: Wanted = Wanted::Day;
}
impl Parsed for millrace_core::calendar::Moment {
    const WANTED: Wanted = Wanted::Moment;
}
