//! The template: a part that is always the same, and one that a clinic may adapt.

use std::sync::{Arc, LazyLock};

use typst::diag::{FileError, FileResult};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};

/// The text of the shipped part that a clinic may adapt.
const ARRANGEMENT_TEXT: &str = include_str!("../../../assets/sheet/arrangement.typ");
/// The text of the fixed part.
const FIXED_TEXT: &str = include_str!("../../../assets/sheet/fixed.typ");

/// A part, read once: the layout engine then knows it again without reading or hashing it.
type Part = FileResult<Source>;

/// The fixed part: page, identity, eye, lens, power, overrides, foot.
static FIXED: LazyLock<Part> = LazyLock::new(|| part("/fixed.typ", FIXED_TEXT));
/// Shapes both parts draw with.
static SHAPES: LazyLock<Part> = LazyLock::new(|| {
    let text = include_str!("../../../assets/sheet/shapes.typ");
    part("/shapes.typ", text)
});
/// The shipped part that a clinic may adapt.
static ARRANGEMENT: LazyLock<Part> = LazyLock::new(|| arrangement(ARRANGEMENT_TEXT));
/// The page that lists the sheets of a day, and what stands beside it.
static LIST: LazyLock<Template> = LazyLock::new(|| Template {
    fixed: part("/list.typ", include_str!("../../../assets/sheet/list.typ")),
    arrangement: arrangement(""),
    own: None,
});

/// How the sheet is set.
///
/// Identity, eye, lens, power, overrides and foot stand in a fixed part that no arrangement
/// reaches. An arrangement that covers, hides or changes them, or prints in its own room what could be
/// taken for them, is refused when the sheet is made.
#[derive(Clone, Debug)]
pub struct Template {
    fixed: Part,
    arrangement: Part,
    /// The text of a clinic's own arrangement.
    own: Option<Arc<str>>,
}

impl Template {
    pub fn shipped() -> Self {
        Self {
            fixed: FIXED.clone(),
            arrangement: ARRANGEMENT.clone(),
            own: None,
        }
    }

    /// The text of the shipped arrangement, for a clinic to begin with.
    pub const fn shipped_arrangement() -> &'static str {
        ARRANGEMENT_TEXT
    }

    /// A clinic's own arrangement of what is not fixed.
    pub fn with_arrangement(text: String) -> Self {
        Self {
            own: Some(text.as_str().into()),
            arrangement: arrangement(text),
            ..Self::shipped()
        }
    }

    /// The text of a clinic's own arrangement; nothing for the shipped one.
    pub fn own_arrangement(&self) -> Option<&str> {
        self.own.as_deref()
    }

    /// The same fixed part with another arrangement.
    pub(crate) fn arranged_by(&self, text: String) -> Self {
        Self {
            arrangement: arrangement(text),
            ..self.clone()
        }
    }

    /// Whether nothing of it is a clinic's.
    pub(crate) const fn is_shipped(&self) -> bool {
        self.own.is_none()
    }

    /// Another fixed part: only tests have one, to show that it is refused.
    #[cfg(test)]
    pub(crate) fn with_fixed(change: impl FnOnce(&str) -> String) -> Self {
        Self {
            fixed: part("/fixed.typ", change(FIXED_TEXT)),
            ..Self::shipped()
        }
    }

    /// The page that lists sheets; nothing of it is a clinic's.
    pub(crate) fn list() -> &'static Self {
        &LIST
    }

    /// The parts, the main one first.
    pub(crate) fn sources(&self) -> FileResult<[Source; 3]> {
        Ok([
            self.fixed.clone()?,
            self.arrangement.clone()?,
            SHAPES.clone()?,
        ])
    }
}

fn arrangement(text: impl Into<String>) -> Part {
    part("/arrangement.typ", text)
}

fn part(path: &str, text: impl Into<String>) -> Part {
    Ok(Source::new(id(path)?, text.into()))
}

/// What the layout engine calls a path.
pub(crate) fn id(path: &str) -> FileResult<FileId> {
    let path = VirtualPath::new(path).map_err(|_| FileError::Other(None))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}
