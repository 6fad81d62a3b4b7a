//! Where a person can be at the desk, and where to come back to another day.

use egui::Key;
use millrace_wording::Words;
use millrace_wording::desk::frame;

use crate::exchange::CaseId;

/// The pages of a case, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Page {
    #[default]
    Biometry,
    Lens,
    /// How the nucleus comes out.
    Approach,
    Sheet,
    Outcome,
}

impl Page {
    pub const ALL: [(Self, Key); 5] = [
        (Self::Biometry, Key::Num1),
        (Self::Lens, Key::Num2),
        (Self::Approach, Key::Num3),
        (Self::Sheet, Key::Num4),
        (Self::Outcome, Key::Num5),
    ];

    pub const fn code(self) -> &'static str {
        match self {
            Self::Biometry => "biometry",
            Self::Lens => "lens",
            Self::Approach => "approach",
            Self::Sheet => "sheet",
            Self::Outcome => "outcome",
        }
    }

    /// The page with this code.
    pub fn with_code(code: &str) -> Option<Self> {
        let pages = Self::ALL.into_iter().map(|(page, _)| page);
        pages.into_iter().find(|page| page.code() == code)
    }

    /// Its name on the tab.
    pub fn name(self, words: Words) -> &'static str {
        match self {
            Self::Biometry => frame::biometry(words),
            Self::Lens => frame::lens(words),
            Self::Approach => frame::approach(words),
            Self::Sheet => frame::sheet(words),
            Self::Outcome => frame::outcome(words),
        }
    }
}

/// A field of a page, by the name that stands beside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aim {
    pub page: Page,
    pub name: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Front {
    Page,
    /// The operations of a day.
    Day,
    /// The second look at its critical numbers, during which nothing on the desk shows a first one.
    SecondLook,
    Settings,
}

/// What is shown where there is no room beside the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    Page,
    List,
    Findings,
}

#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Whereabouts {
    pub page: Page,
    pub case: Option<CaseId>,
}
