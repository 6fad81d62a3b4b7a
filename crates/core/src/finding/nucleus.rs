//! Whether the nucleus counts as hard, and why.

use serde::{Deserialize, Serialize};

/// Whether the nucleus counts as hard: one judgment, which every rule takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HardNucleus {
    Yes(WhyHard),
    No(WhyNotHard),
    /// It may be hard: the entries do not tell.
    Unclear(WhyUnclear),
}

impl HardNucleus {
    /// Whether it counts as not hard.
    pub const fn is_no(self) -> bool {
        matches!(self, Self::No(_))
    }

    pub const fn is_unclear(self) -> bool {
        matches!(self, Self::Unclear(_))
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhyHard {
    /// Its grade, of LOCS III the opalescence.
    Grade,
    /// Its LOCS III color, where the opalescence alone would not make it hard.
    Color,
    /// It is brunescent, and nobody graded it.
    Brunescent,
    /// Somebody judged so, with a reason.
    Judged,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhyNotHard {
    Grade,
    /// Somebody judged so, with a reason.
    Judged,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhyUnclear {
    /// Neither grade nor an appearance that tells of it.
    NotGraded,
    /// The cataract is white or dense, and nobody graded the nucleus behind it.
    White,
    Dense,
    /// The grade says soft, and the appearance does not.
    BrunescentGradedSoft,
    WhiteGradedSoft,
    DenseGradedSoft,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_unclear_is_neither() {
        for (judgment, is_no, is_unclear) in [
            (HardNucleus::Yes(WhyHard::Grade), false, false),
            (HardNucleus::No(WhyNotHard::Judged), true, false),
            (HardNucleus::Unclear(WhyUnclear::NotGraded), false, true),
        ] {
            assert_eq!(judgment.is_no(), is_no, "{judgment:?}");
            assert_eq!(judgment.is_unclear(), is_unclear, "{judgment:?}");
        }
    }
}
