//! Where a number comes from, and how far that can be trusted.

mod bibliography;

use core::fmt;

pub use bibliography::*;

/// How a fact came into this program. Shown to the user wherever the fact is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// Read in the cited source, mostly its abstract.
    Printed,
    /// Read in a teaching page or a summary of the source.
    Secondary,
    /// Plain optics or geometry, worked out here.
    Derived,
    /// Recalled, not read again; cross-checked only against itself.
    Memory,
    /// A fact of the trade with no published source.
    CommonPractice,
    /// Our own, open to the clinic's judgment.
    Assumption,
}

impl Standing {
    /// Every standing, strongest first.
    pub const ALL: [Self; 6] = [
        Self::Printed,
        Self::Secondary,
        Self::Derived,
        Self::Memory,
        Self::CommonPractice,
        Self::Assumption,
    ];

    /// The word shown to the user.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Printed => "printed",
            Self::Secondary => "secondary source",
            Self::Derived => "derived",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Assumption => "assumption",
        }
    }

    /// What was taken from a work, and how.
    pub const fn of(self, work: Work, locator: &'static str) -> Source {
        Source {
            work,
            locator,
            standing: self,
        }
    }

    /// What the word means, for references and legends.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Printed => "read in the cited source, mostly its abstract",
            Self::Secondary => "read in a teaching page or a summary of the source",
            Self::Derived => "plain optics or geometry, worked out here",
            Self::Memory => "recalled, not read again; cross-checked only against itself",
            Self::CommonPractice => "a fact of the trade with no published source",
            Self::Assumption => "our own, open to the clinic's judgment",
        }
    }
}

impl fmt::Display for Standing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A published work, or the plain statement that there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Work {
    /// Short permanent name, as used in check-value files.
    pub key: &'static str,
    pub citation: &'static str,
}

/// One thing taken from one work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Source {
    pub work: Work,
    /// What was taken from it, or where it stands there.
    pub locator: &'static str,
    pub standing: Standing,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.work.citation)?;
        if !self.locator.is_empty() {
            write!(f, ": {}", self.locator)?;
        }
        write!(f, " [{}]", self.standing)
    }
}
