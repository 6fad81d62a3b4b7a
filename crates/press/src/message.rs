//! What is asked of the process, and what it answers.

use millrace_core::biometry::Side;
use millrace_core::calendar::{Day, Moment};
use millrace_core::signing::SheetNumber;
use millrace_sheet::{Outdated, Paper, Setting, SheetError, Template, WithoutSheet};
use millrace_wording::{DecimalSign, Language, Words};
use serde::{Deserialize, Serialize};

/// What the answer of a started process begins with; what a loader or a test harness prints before it is
/// passed over.
pub(crate) const GREETING: &[u8] = b"\nmillrace press\n";

/// The first frame to the process.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct Hello {
    /// Memory it may have, bytes.
    pub(crate) memory: u64,
}

/// The first frame from the process.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct Ready {
    /// Why it could not limit itself.
    pub(crate) not_limited: Option<String>,
}

#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct Order {
    pub(crate) how: How,
    pub(crate) what: What,
    pub(crate) give: Give,
}

/// A setting of a sheet.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct How {
    paper: Paper,
    /// Nothing for the shipped one.
    arrangement: Option<String>,
    language: String,
    decimals: Decimals,
}

#[derive(Debug, Deserialize, Serialize)]
enum Decimals {
    Point,
    Comma,
}

/// What is set; the plans themselves are the pieces of the frame.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) enum What {
    /// The piece is its document.
    Draft { at: Moment },
    /// Each piece is what was signed.
    Signed { fingerprints: Vec<[u8; 32]> },
    /// The piece is what was signed; it is no longer what to work by.
    Outdated { fingerprint: [u8; 32], why: Why },
    /// The page that lists signed plans.
    List {
        day: Day,
        at: Moment,
        fingerprints: Vec<[u8; 32]>,
        without: Vec<Without>,
    },
}

/// [`Outdated`] with its moment as it is written.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) enum Why {
    SupersededBy(u32),
    ChangedSince(Moment),
}

/// What is given back of each.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Serialize)]
pub(crate) enum Give {
    /// That it can be laid out.
    Nothing,
    Pdf,
    Pages {
        pixels_per_point: f32,
    },
}

/// [`WithoutSheet`] with its day as it is written.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct Without {
    name: Option<String>,
    number: Option<String>,
    birth_date: Option<Day>,
    eye: Option<Side>,
    why: String,
}

/// For each plan what was made, or why not. The bytes are the pieces of the frame, in this order.
pub(crate) type Answer = Vec<Result<Vec<Piece>, Refused>>;

/// What a piece is.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, Serialize)]
pub(crate) enum Piece {
    Pdf,
    /// Width and height in pixels.
    Page(u32, u32),
}

#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub(crate) enum Refused {
    Sheet(SheetError),
    /// File and line of the source.
    Panicked(String),
    /// What was handed over is not what it says it is.
    Unreadable,
    TooLarge,
}

impl How {
    pub(crate) fn of(setting: Setting<'_>) -> Self {
        let Words { language, decimals } = setting.words;
        Self {
            paper: setting.paper,
            arrangement: setting.template.own_arrangement().map(str::to_owned),
            language: language.code().to_owned(),
            decimals: match decimals {
                DecimalSign::Point => Decimals::Point,
                DecimalSign::Comma => Decimals::Comma,
            },
        }
    }

    pub(crate) fn template(&self) -> Template {
        match &self.arrangement {
            Some(text) => Template::with_arrangement(text.clone()),
            None => Template::shipped(),
        }
    }

    /// Nothing for a language that this program does not speak.
    pub(crate) fn setting<'a>(&self, template: &'a Template) -> Option<Setting<'a>> {
        let decimals = match self.decimals {
            Decimals::Point => DecimalSign::Point,
            Decimals::Comma => DecimalSign::Comma,
        };
        Some(Setting {
            paper: self.paper,
            template,
            words: Words {
                language: Language::with_code(&self.language)?,
                decimals,
            },
        })
    }
}

impl From<Outdated> for Why {
    fn from(why: Outdated) -> Self {
        match why {
            Outdated::SupersededBy(number) => Self::SupersededBy(number.get()),
            Outdated::ChangedSince(at) => Self::ChangedSince(Moment(at)),
        }
    }
}

impl Why {
    /// Nothing for a number that no sheet has.
    pub(crate) fn outdated(self) -> Option<Outdated> {
        Some(match self {
            Self::SupersededBy(number) => Outdated::SupersededBy(SheetNumber::new(number)?),
            Self::ChangedSince(Moment(at)) => Outdated::ChangedSince(at),
        })
    }
}

impl From<&WithoutSheet> for Without {
    fn from(case: &WithoutSheet) -> Self {
        Self {
            name: case.name.clone(),
            number: case.number.clone(),
            birth_date: case.birth_date.map(Day),
            eye: case.eye,
            why: case.why.clone(),
        }
    }
}

impl From<Without> for WithoutSheet {
    fn from(case: Without) -> Self {
        Self {
            name: case.name,
            number: case.number,
            birth_date: case.birth_date.map(|Day(day)| day),
            eye: case.eye,
            why: case.why,
        }
    }
}
