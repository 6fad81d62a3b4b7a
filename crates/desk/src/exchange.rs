//! What passes between the desk and the executable around it: requests out, answers in.
//!
//! The desk asks and goes on; an answer may come in a later pass, or never. It asks for a save
//! after each change and for one save at a time, so that answers need no number.

use core::ops::Range;

use chrono::NaiveDate;
use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;

use crate::settings::{PaperSize, Settings};

/// Names a stored case. The desk never looks inside.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct CaseId(pub String);

/// Which of the stored versions of a case; the desk hands back what it was given and never looks
/// inside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision(pub String);

/// Which file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// The one the person chooses in the system's dialog.
    Dialog,
    /// The one at this path, as it was typed.
    Path(String),
}

/// Which page of theatre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The print of the draft.
    Draft,
    /// A signed sheet.
    Signed(SheetNumber),
}

/// A sheet to be set.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetRequest {
    /// Which.
    pub which: Which,
    /// The draft, for its print; a signed sheet does not look at it.
    pub draft: Box<Draft>,
    /// The limits the draft is planned by.
    pub limits: Box<Limits>,
    /// The paper.
    pub paper: PaperSize,
}

/// What pages are of: an answer that comes late is told from the one that is waited for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PagesOf {
    /// The case.
    pub case: CaseId,
    /// Which sheet of it.
    pub which: Which,
    /// Which state of the draft, for its print; a signed sheet stays as it is.
    pub version: u64,
    /// The paper.
    pub paper: PaperSize,
}

/// A sheet that was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetRow {
    /// Its number.
    pub number: SheetNumber,
    /// Eye and lens, in words.
    pub plans: String,
    /// Who signed.
    pub by: String,
    /// When, in words.
    pub at: String,
    /// Whether it is the one to work by.
    pub standing: Standing,
}

/// "RIGHT EYE, +22.50 D, Weir one-piece": what a sheet is of, in one line.
#[must_use]
pub fn eye_and_lens(draft: &Draft) -> String {
    let eye = draft.operation.eye.map_or("eye not chosen", Side::capitals);
    let lens = &draft.lens;
    let power = lens
        .power
        .map_or_else(|| "no power chosen".to_owned(), |it| it.to_string());
    let name = lens
        .record
        .as_ref()
        .map_or("no lens chosen", |it| it.name.as_str());
    let cylinder = lens.toric.map_or_else(String::new, |toric| {
        format!(", cylinder {} at {}", toric.cylinder, toric.axis)
    });
    format!("{eye}, {power}{cylinder}, {name}")
}

impl SheetRow {
    /// Whether it is the one to work by.
    #[must_use]
    pub fn is_current(&self) -> bool {
        self.standing == Standing::Current
    }
}

/// Whether a sheet is the one to work by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is.
    Current,
    /// The case was changed after it was signed.
    ChangedSince,
    /// A later sheet took its place.
    Superseded(SheetNumber),
}

/// A picture of one page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PagePicture {
    /// Width in pixels.
    pub width: usize,
    /// Height in pixels.
    pub height: usize,
    /// Red, green, blue and opacity of each pixel, rows from the top.
    pub rgba: Vec<u8>,
}

/// What the executable is asked to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Store the draft as the next revision after `seen`.
    Save {
        /// The case.
        case: CaseId,
        /// The revision the change started from; another one since then is a conflict.
        seen: Revision,
        /// What to store.
        draft: Box<Draft>,
        /// Who changed it.
        author: String,
    },
    /// Make an empty case and open it.
    NewCase,
    /// Open a stored case.
    OpenCase(CaseId),
    /// Give these rows of the theatre list.
    List {
        /// What the names and numbers are to contain; everything if empty.
        search: String,
        /// Which rows.
        rows: Range<usize>,
    },
    /// Open the invented cases.
    OpenDemo,
    /// Open a case file as a new case.
    ImportFile(Place),
    /// Write the case to a file.
    ExportFile {
        /// What to write.
        draft: Box<Draft>,
        /// Where.
        place: Place,
    },
    /// Keep the settings.
    KeepSettings(Settings),
    /// Keep these limits for every case planned from now on.
    KeepLimits(Box<Limits>),
    /// Keep these as the clinic's lens records; no case changes.
    KeepLenses(Vec<LensRecord>),
    /// Tell which sheets were signed for this case.
    ListSheets(CaseId),
    /// Sign the newest revision of a case, which must be `seen`.
    Sign {
        /// The case.
        case: CaseId,
        /// The revision on the desk.
        seen: Revision,
        /// Who signs.
        name: String,
        /// As what.
        role: String,
        /// The consented target, entered again.
        target: HundredthDiopters,
        /// The limits it is planned by.
        limits: Box<Limits>,
    },
    /// Set a sheet and give pictures of its pages.
    ShowSheet(PagesOf, SheetRequest),
    /// Set a sheet and write it to a file.
    WriteSheet(SheetRequest, Place),
    /// Set a sheet and open it in the viewer of the system.
    ViewSheet(SheetRequest),
    /// Set a sheet and print it.
    PrintSheet(SheetRequest),
    /// Set every sheet of a day that is worked by, and write them with their list into a directory.
    WriteDay(NaiveDate, PaperSize, Place),
    /// Tell whether the sheet with this fingerprint is the one to work by.
    Verify(String),
    /// Close the window: everything is stored.
    Quit,
}

/// What the executable has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// The last save is durable.
    Saved {
        /// The case.
        case: CaseId,
        /// Its newest revision.
        revision: Revision,
    },
    /// Somebody else stored another revision in the meantime; nothing was overwritten.
    Conflict {
        /// The case.
        case: CaseId,
        /// Its newest revision.
        revision: Revision,
        /// What it holds.
        theirs: Box<Draft>,
        /// Who stored it.
        author: String,
    },
    /// The last save failed; it is tried again with the next change or by hand.
    NotSaved {
        /// The case.
        case: CaseId,
        /// Why, and what can be done.
        why: String,
    },
    /// A case to work on.
    Opened {
        /// The case.
        case: CaseId,
        /// Its revision.
        revision: Revision,
        /// What it holds.
        draft: Box<Draft>,
    },
    /// The sheets signed for a case, the oldest first.
    Sheets {
        /// The case.
        case: CaseId,
        /// Its sheets.
        sheets: Vec<SheetRow>,
    },
    /// The case was signed; the last of these sheets is the new one.
    Signed {
        /// The case.
        case: CaseId,
        /// Its sheets.
        sheets: Vec<SheetRow>,
    },
    /// The case was not signed.
    NotSigned {
        /// The case.
        case: CaseId,
        /// What stands against it.
        why: Vec<String>,
    },
    /// The pages of a sheet.
    Pages {
        /// What they are of.
        of: PagesOf,
        /// They.
        pages: Vec<PagePicture>,
    },
    /// There are no pages.
    NoPages {
        /// What they would be of.
        of: PagesOf,
        /// Why, and what can be done.
        why: String,
    },
    /// Rows of the theatre list.
    Listed {
        /// The search they answer.
        search: String,
        /// How many rows there are altogether.
        total: usize,
        /// Where these begin.
        start: usize,
        /// The rows.
        rows: Vec<CaseRow>,
    },
    /// The list changed: ask again.
    ListChanged,
    /// Something was done that cannot be seen on the desk.
    Done {
        /// What.
        message: String,
    },
    /// Something else could not be done.
    Failed {
        /// What, why, and what can be done.
        message: String,
    },
}

/// One row of the theatre list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseRow {
    /// The case.
    pub case: CaseId,
    /// Family name, given names.
    pub name: Option<String>,
    /// Hospital number.
    pub number: Option<String>,
    /// The operated eye.
    pub eye: Option<Side>,
    /// The planned day.
    pub date: Option<NaiveDate>,
    /// How far it is.
    pub state: CaseState,
}

/// How far a case is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CaseState {
    /// Begun.
    Draft,
    /// Measured.
    Measured,
    /// Lens and approach are chosen.
    Planned,
    /// Signed.
    Signed,
    /// Operated.
    Operated,
    /// The outcome is recorded.
    Reviewed,
}

impl CaseState {
    /// The word on the list.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Measured => "measured",
            Self::Planned => "planned",
            Self::Signed => "signed",
            Self::Operated => "operated",
            Self::Reviewed => "reviewed",
        }
    }

    /// How far an unsigned draft is: measured once the length and the curvature of the operated eye
    /// are there, planned once power and approach are chosen.
    #[must_use]
    pub fn of(draft: &Draft) -> Self {
        let Some(side) = draft.operation.eye else {
            return Self::Draft;
        };
        let eye = draft.eyes.get(side);
        if eye.axial_length.is_none() || eye.keratometry.is_none() {
            return Self::Draft;
        }
        if draft.lens.power.is_some() && draft.approach.approach.is_some() {
            return Self::Planned;
        }
        Self::Measured
    }
}
