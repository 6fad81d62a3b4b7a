//! What a person sets for the desk; kept by the executable.

mod own_ways;

use millrace_wording::Words;
pub use own_ways::{OwnWays, UsualLens};

#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Settings {
    /// Who sits here: written beside measurements and reasons. Empty until it is said.
    pub author: String,
    /// What the desk is called beside what is stored at it; the name of the computer while empty.
    pub desk: String,
    /// In which role this person signs; entered with each signature while empty.
    pub role: String,
    pub theme: ThemeChoice,
    pub text_size: TextSize,
    /// The language and the decimal sign shown.
    pub words: Words,
    /// What sheets are printed on.
    pub paper: PaperSize,
    /// How this surgeon usually plans: offered, never applied unasked.
    pub own: OwnWays,
}

/// What sheets are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum PaperSize {
    /// ISO A4.
    #[default]
    A4,
    Letter,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum ThemeChoice {
    #[default]
    System,
    Light,
    Dark,
}

/// Size of the text, 80 to 200 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TextSize(u16);

impl Default for TextSize {
    fn default() -> Self {
        Self(100)
    }
}

impl TextSize {
    /// The sizes on offer, in percent.
    pub const OFFERED: [Self; 7] = [
        Self(80),
        Self(90),
        Self(100),
        Self(125),
        Self(150),
        Self(175),
        Self(200),
    ];

    /// A size of so many percent; nothing outside 80 to 200.
    pub const fn new(percent: u16) -> Option<Self> {
        if 80 <= percent && percent <= 200 {
            Some(Self(percent))
        } else {
            None
        }
    }

    pub const fn percent(self) -> u16 {
        self.0
    }

    pub fn factor(self) -> f32 {
        f32::from(self.0) / 100.0
    }

    /// The next offered size up.
    #[must_use]
    pub fn larger(self) -> Self {
        let mut offered = Self::OFFERED.into_iter();
        offered.find(|size| self < *size).unwrap_or(self)
    }

    /// The next offered size down.
    #[must_use]
    pub fn smaller(self) -> Self {
        let mut offered = Self::OFFERED.into_iter().rev();
        offered.find(|size| *size < self).unwrap_or(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_step_through_what_is_offered_and_stop_at_the_ends() {
        let size = |percent| TextSize::new(percent).unwrap();
        assert_eq!(TextSize::default().larger(), size(125));
        assert_eq!(size(110).larger(), size(125));
        assert_eq!(size(110).smaller(), size(100));
        assert_eq!(size(200).larger(), size(200));
        assert_eq!(size(80).smaller(), size(80));
        assert_eq!(TextSize::new(79), None);
        assert_eq!(TextSize::new(201), None);
    }
}
