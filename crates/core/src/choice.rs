//! Choices from closed sets that measurements, findings and cases share.

use serde::{Deserialize, Serialize};

/// Sex as recorded in the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sex {
    Female,
    Male,
    /// Another entry.
    Other,
}

/// Experience of the surgeon, as audits group it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SurgeonGrade {
    Independent,
    ExperiencedTrainee,
    /// Trainee of less experience.
    Trainee,
}

/// What was decided on predictions refined by the first eye's error. Both stay on show; ladder,
/// proposal and rules keep the unrefined ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SecondEyeChoice {
    Refined,
    /// The refinement was declined.
    Unrefined,
}

/// How an ultrasound axial length is used with constants for optical biometry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UltrasoundChoice {
    AsMeasured,
    /// With the published mean difference added: 0.47 mm for contact, 0.18 mm for immersion.
    AddPublishedDifference,
}

/// The two ways a cataract is removed here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Approach {
    Phacoemulsification,
    /// Manual small-incision surgery (SICS).
    SmallIncision,
}

/// One of the numbers that are entered twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Critical {
    Number,
    Eye,
    AxialLength,
    Flat,
    FlatMeridian,
    Steep,
    SteepMeridian,
    ChamberDepth,
    LensThickness,
    Target,
}

impl Critical {
    pub const fn name(self) -> &'static str {
        match self {
            Self::Number => "hospital number",
            Self::Eye => "operative eye",
            Self::AxialLength => "axial length",
            Self::Flat => "flat reading",
            Self::FlatMeridian => "flat meridian",
            Self::Steep => "steep reading",
            Self::SteepMeridian => "steep meridian",
            Self::ChamberDepth => "anterior chamber depth",
            Self::LensThickness => "lens thickness",
            Self::Target => "target",
        }
    }
}
