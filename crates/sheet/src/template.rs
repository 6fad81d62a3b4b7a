//! The template: a part that is always the same, and one that a clinic may adapt.

/// The fixed part: page, identity, eye, lens, power, overrides, foot.
const FIXED: &str = include_str!("../../../assets/sheet/fixed.typ");
/// Shapes both parts draw with.
const SHAPES: &str = include_str!("../../../assets/sheet/shapes.typ");
/// The shipped part that a clinic may adapt.
const ARRANGEMENT: &str = include_str!("../../../assets/sheet/arrangement.typ");

/// The page that lists the sheets of a day.
const LIST: &str = include_str!("../../../assets/sheet/list.typ");

/// How the sheet is set.
///
/// Identity, eye, lens, power, overrides and foot stand in a fixed part that no arrangement
/// reaches. An arrangement that covers or hides them is refused when the sheet is made.
#[derive(Clone, Debug)]
pub struct Template {
    fixed: String,
    arrangement: String,
}

impl Template {
    /// The shipped template.
    #[must_use]
    pub fn shipped() -> Self {
        Self::with_arrangement(ARRANGEMENT.to_owned())
    }

    /// The text of the shipped arrangement, for a clinic to begin with.
    #[must_use]
    pub const fn shipped_arrangement() -> &'static str {
        ARRANGEMENT
    }

    /// A clinic's own arrangement of what is not fixed.
    #[must_use]
    pub fn with_arrangement(arrangement: String) -> Self {
        Self {
            fixed: FIXED.to_owned(),
            arrangement,
        }
    }

    /// Another fixed part: only tests have one, to show that it is refused.
    #[cfg(test)]
    pub(crate) fn with_fixed(change: impl FnOnce(&str) -> String) -> Self {
        Self {
            fixed: change(FIXED),
            ..Self::shipped()
        }
    }

    /// The page that lists sheets; nothing of it is a clinic's.
    pub(crate) fn list() -> Self {
        Self {
            fixed: LIST.to_owned(),
            arrangement: String::new(),
        }
    }

    /// Paths and texts, the main one first.
    pub(crate) fn sources(&self) -> [(&'static str, &str); 3] {
        [
            ("/fixed.typ", &self.fixed),
            ("/arrangement.typ", &self.arrangement),
            ("/shapes.typ", SHAPES),
        ]
    }
}
