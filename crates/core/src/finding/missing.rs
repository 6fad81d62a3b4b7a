//! What is missing for a rule.

use serde::{Deserialize, Serialize};

use crate::biometry::{DepthStart, Sign};

/// What a rule could not be looked at for want of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Missing {
    Measurement {
        which: Which,
        of: Eyes,
    },
    LengthAndKeratometryOfBoth,
    /// Corneal thickness, without which a depth is not known from the other surface.
    ThicknessForDepth {
        /// The surface it is wanted from.
        from: DepthStart,
    },
    /// Keratometry with meridians at right angles.
    RegularKeratometry,
    /// The same by another method.
    RegularSecondKeratometry,
    KeratometryBefore,
    NumberOfReadings,
    /// Difference between repeated keratometry readings.
    RepeatDifference,
    ConvertiblePower,
    ComparablePowers,
    /// Whether light or sound measured the axial length.
    LengthMethod,
    /// Days of axial length and keratometry.
    MeasurementDays,
    /// Who measured axial length and keratometry.
    WhoMeasured,
    BirthDateAndDay,
    PlannedDay,
    Target,
    Lens,
    LensAndTarget,
    Power,
    CylinderAndAxis,
    Formula,
    Convention,
    Proposal,
    BackupLens,
    AveragePower,
    LensConstant,
    /// The A constant that others are said to be converted from.
    AConstant,
    /// Power for emmetropia by the formula planned by.
    EmmetropicPower {
        of: Eyes,
    },
    UsableEmmetropicPower {
        of: Eyes,
    },
    Answer,
    TwoAnswers,
    UsableAnswers,
    UsablePower,
    ToricAnswer,
    /// Chance that a toric step leaves less than none.
    StepChance,
    /// Astigmatism of the cornea after the operation.
    CorneaAfter,
    SteepMeridian,
    ExactCylinder,
    /// What the chosen cylinder leaves.
    WhatIsLeft,
    /// A cylinder that leaves a known refraction.
    LeastCylinder,
    LadderPrediction,
    FellowRefraction,
    RefractionOfBoth,
    SiliconeOil,
    CornealSurgery,
    IrregularCornea,
    NucleusGrade,
    Guttata,
    Pseudoexfoliation,
    /// Whether there is pseudoexfoliation or phacodonesis.
    WeakZonules,
    /// How far the lens center lies from the axis.
    LensDecentration,
    WhiteCataract,
    /// Whether an endothelial graft with gas is likely.
    GraftLikely,
    /// Whether a sign of the operative eye is there.
    Sign(Sign),
    AlphaBlocker,
    Anticoagulant,
    Anesthesia,
    /// Whether contact lenses are worn.
    ContactLenses,
    /// The last day with contact lenses.
    LastWorn,
    KeratometryDay,
    SurgeonGrade,
    Approach,
    IncisionWidth,
    Capsulorhexis,
    Pieces,
    /// A way of dividing the nucleus into so many.
    Division,
    WorkingPlane,
    /// A working plane in front of the middle of the corneal sphere.
    PlaneUnderCornea,
    NucleusSize,
    /// In how many parts the nucleus passes the tunnel.
    Delivery,
    /// Length of the tunnel's lips, or width of the incision.
    TunnelLips,
    Room,
    UsableRoom,
    /// Items of the risk points that could lift the sum to the limit.
    RiskItems,
    OddsFactors,
    RefinementConditions,
    UsableDifferenceLimits,
    UsableAgeLimit,
    /// A usable limit for the chance of a borderline depth.
    UsableBorderlineChance,
    UsableSpread {
        which: Which,
    },
}

/// A measurement by its name alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Which {
    AxialLength,
    Keratometry,
    ChamberDepth,
    DepthFromEpithelium,
    LensThickness,
    CornealThickness,
    CornealDiameter,
    Pupil,
    Endothelium,
}

/// Which eye something is wanted of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Eyes {
    /// The eye that is planned for.
    This,
    Both,
}

impl Missing {
    /// A measurement of the eye that is planned for.
    pub const fn of_this_eye(which: Which) -> Self {
        let of = Eyes::This;
        Self::Measurement { which, of }
    }

    pub const fn of_both_eyes(which: Which) -> Self {
        let of = Eyes::Both;
        Self::Measurement { which, of }
    }
}
