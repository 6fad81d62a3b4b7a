//! What makes an operation risky, as findings name it.

use serde::{Deserialize, Serialize};

use crate::quantity::Micrometers;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RiskItem {
    PreviousVitrectomy,
    CornealScarring,
    SmallPupil,
    /// Anterior chamber depth under the limit.
    ShallowChamber,
    HighAge,
    HighAmetropia,
    CapsulePlaque,
    PosteriorPolar,
    OtherDifficulty,
    /// Dense, total, white or brunescent cataract.
    DenseCataract,
    Pseudoexfoliation,
    Phacodonesis,
}

/// The bands of the sum, from memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Band {
    /// 0.
    None,
    /// 1 to 2.
    OneToTwo,
    /// 3 to 5.
    ThreeToFive,
    /// 6 or more.
    SixOrMore,
}

/// A chamber depth, from the epithelium, too near to the limit of its risk point to tell.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BorderlineDepth {
    #[serde(rename = "depth_um")]
    pub depth: Micrometers,
    /// Under it a point is given.
    #[serde(rename = "limit_um")]
    pub limit: Micrometers,
    /// Chance that the true depth lies under the limit, 0 to 1.
    pub chance: f64,
}

impl BorderlineDepth {
    /// Whether the point is given, which the depth as measured decides.
    pub fn is_given(&self) -> bool {
        self.depth < self.limit
    }
}

impl RiskItem {
    /// All, in the order of the table.
    pub const ALL: [Self; 12] = [
        Self::PreviousVitrectomy,
        Self::CornealScarring,
        Self::SmallPupil,
        Self::ShallowChamber,
        Self::HighAge,
        Self::HighAmetropia,
        Self::CapsulePlaque,
        Self::PosteriorPolar,
        Self::OtherDifficulty,
        Self::DenseCataract,
        Self::Pseudoexfoliation,
        Self::Phacodonesis,
    ];

    pub const fn points(self) -> i32 {
        match self {
            Self::DenseCataract | Self::Pseudoexfoliation | Self::Phacodonesis => 3,
            _ => 1,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OddsFactor {
    /// Trainee of less experience.
    Trainee,
    /// Pseudoexfoliation or phacodonesis.
    WeakZonules,
    YoungerMale,
    /// Brunescent, white or mature cataract.
    DenseCataract,
}

impl OddsFactor {
    /// All, highest ratio first.
    pub const ALL: [Self; 4] = [
        Self::Trainee,
        Self::WeakZonules,
        Self::YoungerMale,
        Self::DenseCataract,
    ];

    /// By how much, as printed.
    pub const fn ratio(self) -> f64 {
        match self {
            Self::Trainee => 3.75,
            Self::WeakZonules => 3.47,
            Self::YoungerMale => 3.05,
            Self::DenseCataract => 2.41,
        }
    }
}
