//! Where the window stood, and what it showed, when it was last closed.

use millrace_desk::exchange::CaseId;
use millrace_desk::whereabouts::{Page, Whereabouts};
use serde::{Deserialize, Serialize};

/// What the next window comes back to.
#[derive(Clone, Debug, PartialEq, Default)]
pub(crate) struct Last {
    pub(crate) whereabouts: Whereabouts,
    /// Size of the window in points, if it is known.
    pub(crate) size: Option<[f32; 2]>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stored {
    page: String,
    case: Option<String>,
    size: Option<[f32; 2]>,
}

impl Stored {
    pub(super) fn from_last(last: &Last) -> Self {
        Self {
            page: last.whereabouts.page.code().to_owned(),
            case: last.whereabouts.case.clone().map(|case| case.0),
            size: last.size,
        }
    }

    /// Nothing for a page that there is not.
    pub(super) fn into_last(self) -> Option<Last> {
        let page = Page::with_code(&self.page)?;
        Some(Last {
            whereabouts: Whereabouts {
                page,
                case: self.case.map(CaseId),
            },
            size: self
                .size
                .filter(|size| size.iter().all(|side| side.is_finite())),
        })
    }
}
