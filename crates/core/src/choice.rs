//! Choices from closed sets that measurements, findings and cases share.

use core::fmt;

use serde::{Deserialize, Serialize};

/// Sex as recorded in the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sex {
    /// Female.
    Female,
    /// Male.
    Male,
    /// Another entry.
    Other,
}

/// Experience of the surgeon, as audits group it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SurgeonGrade {
    /// Independent surgeon.
    Independent,
    /// Trainee of more experience.
    ExperiencedTrainee,
    /// Trainee of less experience.
    Trainee,
}

/// What was decided on predictions refined by the first eye's error. Both stay on show; ladder,
/// proposal and rules keep the unrefined ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SecondEyeChoice {
    /// The refined ones were chosen.
    Refined,
    /// The refinement was declined.
    Unrefined,
}

/// How an ultrasound axial length is used with constants for optical biometry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UltrasoundChoice {
    /// As measured.
    AsMeasured,
    /// With the published mean difference added: 0.47 mm for contact, 0.18 mm for immersion.
    AddPublishedDifference,
}

/// The two ways a cataract is removed here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Approach {
    /// Phacoemulsification.
    Phacoemulsification,
    /// Manual small-incision surgery (SICS).
    SmallIncision,
}

impl fmt::Display for Approach {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Phacoemulsification => "phacoemulsification",
            Self::SmallIncision => "manual small-incision surgery (SICS)",
        })
    }
}

/// One of the numbers that are entered twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Critical {
    /// Hospital number.
    Number,
    /// Operated eye.
    Eye,
    /// Axial length.
    AxialLength,
    /// Flat reading with its index.
    Flat,
    /// Flat meridian.
    FlatMeridian,
    /// Steep reading with its index.
    Steep,
    /// Steep meridian.
    SteepMeridian,
    /// Chamber depth with its surface.
    ChamberDepth,
    /// Lens thickness.
    LensThickness,
    /// Target.
    Target,
}

impl Critical {
    /// What it is called.
    #[must_use]
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
