//! What passes between the desk and the executable around it: requests out, answers in.
//!
//! The desk asks and goes on; an answer may come in a later pass, or never. It asks for a save
//! after each change and for one save at a time, so that answers need no number.

mod day;
mod left_behind;
mod list;
mod stored;

use core::ops::Range;
use std::borrow::Cow;
use std::path::PathBuf;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};
use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_core::finding::OtherCase;
use millrace_core::lens::{LensRecord, ToricChoice};
use millrace_core::limits::Limits;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_wording::desk::sheet;
use millrace_wording::{Show, Words, terms};

use crate::settings::{PaperSize, Settings};

pub use day::{DayCase, DayList, Lacks, OpenFindings, OrderRequest, Placed, Toward};
pub use left_behind::{LeftId, LeftText, TypedText};
pub use list::{CaseRow, Listed, Listing, OnDay, Stands};
pub use stored::{Conflict, Newer, SaveRequest, Who};

/// What the desk is told of the world around it.
#[derive(Clone, Debug)]
pub struct Surroundings {
    pub today: NaiveDate,
    pub limits: Limits,
    /// The clinic's lens records.
    pub lenses: Vec<LensRecord>,
    pub keeps: Keeps,
    /// What the computer is called: the desk's name until somebody gives it one. Empty if it has none.
    pub computer: String,
}

/// Where what is typed goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeps {
    /// Into a register.
    Everything,
    /// Invented cases, thrown away when the desk is closed.
    Nothing,
}

/// Names a stored case. The desk never looks inside.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct CaseId(pub String);

/// Which of the stored versions of a case; the desk hands back what it was given and never looks
/// inside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision(pub String);

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// The one the person is to choose in the system's dialog, whose answer takes the place of this.
    Dialog,
    /// The one at this path, as it was typed; nothing is written over what is there.
    Typed(String),
    /// The one that was chosen in the dialog, which asks before it is written over.
    Chosen(PathBuf),
}

/// Which page of theatre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    Draft,
    Signed(SheetNumber),
}

/// What becomes of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetUse {
    Show(PagesOf),
    Write(Place),
    /// It is opened in the viewer of the system.
    View,
    Print,
}

/// A sheet to be set.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetRequest {
    pub which: Which,
    /// The draft, for its print; a signed sheet does not look at it.
    pub draft: Box<Draft>,
    /// The limits the draft is planned by.
    pub limits: Box<Limits>,
    pub paper: PaperSize,
}

/// What pages are of: an answer that comes late is told from the one that is waited for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PagesOf {
    pub case: CaseId,
    pub which: Which,
    /// Which state of the draft, for its print; a signed sheet stays as it is.
    pub version: u64,
    pub paper: PaperSize,
    pub words: Words,
}

/// A sheet that was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetRow {
    pub number: SheetNumber,
    pub plans: Planned,
    pub by: String,
    /// By the clock on the wall.
    pub at: NaiveDateTime,
    /// Whether it is the one to work by.
    pub standing: Standing,
}

/// What a sheet is of: eye and lens, as far as they are chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Planned {
    pub eye: Option<Side>,
    pub power: Option<HundredthDiopters>,
    pub toric: Option<ToricChoice>,
    /// The lens, as the clinic calls it.
    pub lens: Option<String>,
}

impl Planned {
    pub fn of(draft: &Draft) -> Self {
        let lens = &draft.lens;
        Self {
            eye: draft.operation.eye,
            power: lens.power(),
            toric: lens.toric(),
            lens: lens.record().map(|record| record.name.clone()),
        }
    }
}

impl Show for Planned {
    /// "RIGHT EYE, +22.50 D, Weir one-piece".
    fn show(&self, words: Words) -> Cow<'_, str> {
        let eye = self.eye.map_or_else(
            || sheet::eye_missing(words),
            |eye| terms::eye_capitals(words, eye),
        );
        let power = match &self.power {
            Some(power) => power.show(words),
            None => sheet::power_missing(words).into(),
        };
        let cylinder = self.toric.map_or_else(String::new, |toric| {
            sheet::with_cylinder(words, toric.cylinder, toric.axis)
        });
        let lens = self.lens.as_deref();
        let lens = lens.unwrap_or_else(|| sheet::lens_missing(words));
        sheet::plans(words, eye, power, cylinder, lens).into()
    }
}

impl SheetRow {
    /// Whether it is the one to work by.
    pub fn is_current(&self) -> bool {
        self.standing == Standing::Current
    }
}

/// Whether a sheet is the one to work by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    Current,
    ChangedSince,
    Superseded(SheetNumber),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PagePicture {
    /// Width in pixels.
    pub width: usize,
    /// Height in pixels.
    pub height: usize,
    /// Red, green, blue and opacity of each pixel, rows from the top.
    pub rgba: Vec<u8>,
}

/// A signature under the newest revision of a case, which must be `seen`.
#[derive(Clone, Debug, PartialEq)]
pub struct SignRequest {
    pub case: CaseId,
    /// The revision on the desk.
    pub seen: Revision,
    pub name: String,
    pub role: String,
    /// The consented target, entered again.
    pub target: HundredthDiopters,
    /// The limits it is planned by.
    pub limits: Box<Limits>,
}

/// What the executable is asked to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    Save(SaveRequest),
    /// Keep a draft aside that stands beside another one which was stored.
    KeepAside(SaveRequest),
    /// Keep these texts beside the register, and no others, until they are on the drive with their cases.
    KeepTyped(Vec<TypedText>),
    /// A text that was left behind is in its field again, or is not wanted.
    SettleLeft(LeftId),
    /// Make an empty case and open it.
    NewCase,
    OpenCase(CaseId),
    List {
        /// What the names and numbers are to contain; everything of the list if empty.
        search: String,
        listing: Listing,
        rows: Range<usize>,
        /// The case whose place in the whole list is to be told.
        open: Option<CaseId>,
    },
    /// Tell the operations of this day; if there are none, of the next day that has some, or of the last.
    Day {
        day: NaiveDate,
        /// The limits its findings are told by.
        limits: Box<Limits>,
    },
    /// Give the cases of a day their places: all of them or none.
    Order(OrderRequest),
    OpenDemo,
    /// Open a case file as a new case.
    ImportFile(Place),
    ExportFile(Box<Draft>, Place),
    /// Read lens records from a file; nothing is kept of them before a person takes them.
    ReadLenses(Place),
    WriteLenses(Vec<LensRecord>, Place),
    KeepSettings(Settings),
    /// Keep these limits for every case planned from now on.
    KeepLimits(Box<Limits>),
    /// Keep these as the clinic's lens records; no case changes.
    KeepLenses(Vec<LensRecord>),
    ListSheets(CaseId),
    Sign(SignRequest),
    Sheet(SheetUse, SheetRequest),
    /// Set every sheet of a day that is worked by, and write them with their list into a directory.
    WriteDay(NaiveDate, PaperSize, Place),
    /// Tell whether the sheet with this fingerprint is the one to work by.
    Verify(String),
    /// Leave the invented cases for the person's own register.
    OpenOwn,
    /// Close the window: everything is stored.
    Quit,
}

impl Request {
    /// The file it is about, to be chosen while it is [`Place::Dialog`].
    pub const fn place_mut(&mut self) -> Option<&mut Place> {
        match self {
            Self::ImportFile(place)
            | Self::ExportFile(_, place)
            | Self::ReadLenses(place)
            | Self::WriteLenses(_, place)
            | Self::Sheet(SheetUse::Write(place), _)
            | Self::WriteDay(_, _, place) => Some(place),
            _ => None,
        }
    }
}

/// What the executable has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// The last save is durable, since this time by the clock on the wall.
    Saved {
        case: CaseId,
        revision: Revision,
        at: NaiveTime,
        /// What the register found with it of other cases with this patient's number or name.
        other_cases: Vec<OtherCase>,
    },
    /// Somebody else stored another revision of the open case.
    Newer(Newer),
    /// Texts that windows left behind, to be offered in their fields.
    Left(Vec<LeftText>),
    /// Somebody else stored another revision in the meantime; nothing was overwritten.
    Conflict {
        case: CaseId,
        conflict: Conflict,
    },
    /// The last save failed; it is tried again with the next change or by hand.
    NotSaved {
        case: CaseId,
        why: String,
    },
    Opened {
        case: CaseId,
        revision: Revision,
        draft: Box<Draft>,
        /// The sheets signed for it, the oldest first; nothing if they cannot be read.
        sheets: Option<Vec<SheetRow>>,
        /// Other cases with this patient's number or name, as the register stands now.
        other_cases: Vec<OtherCase>,
    },
    /// The sheets signed for a case, the oldest first.
    Sheets {
        case: CaseId,
        sheets: Vec<SheetRow>,
    },
    Signed {
        case: CaseId,
        /// Its sheets, the new one the last; or what stands against a signature.
        sheets: Result<Vec<SheetRow>, Vec<String>>,
    },
    Pages {
        of: PagesOf,
        /// Their pictures; or why there are none, and what can be done.
        pages: Result<Vec<PagePicture>, String>,
    },
    Listed(Listed),
    /// The operations of a day; nothing if no case has a day.
    Day(Option<DayList>),
    /// The cases that got another place are durable; or why none did.
    Ordered(Result<Vec<Placed>, String>),
    /// Lens records from a file, to be looked at before they are taken.
    LensesRead(Vec<LensRecord>),
    /// The list changed: ask again.
    ListChanged,
    /// Something was done that cannot be seen on the desk.
    Done {
        message: String,
    },
    /// Something else could not be done.
    Failed {
        message: String,
    },
}
