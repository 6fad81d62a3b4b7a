//! What is missing for a rule.

use serde::{Deserialize, Serialize};

use crate::biometry::DepthStart;

/// What a rule could not be looked at for want of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Missing {
    /// A measurement.
    Measurement {
        /// Which.
        which: Which,
        /// Of which eye.
        of: Eyes,
    },
    /// Axial length and keratometry of both eyes.
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
    /// Keratometry before corneal surgery.
    KeratometryBefore,
    /// Number of keratometry readings.
    NumberOfReadings,
    /// Difference between repeated keratometry readings.
    RepeatDifference,
    /// A corneal power that can be converted.
    ConvertiblePower,
    /// Corneal powers that can be compared.
    ComparablePowers,
    /// Whether light or sound measured the axial length.
    LengthMethod,
    /// Days of axial length and keratometry.
    MeasurementDays,
    /// Who measured axial length and keratometry.
    WhoMeasured,
    /// Birth date and planned day.
    BirthDateAndDay,
    /// Planned day of the operation.
    PlannedDay,
    /// Target refraction.
    Target,
    /// The chosen lens.
    Lens,
    /// Chosen lens and target.
    LensAndTarget,
    /// The chosen power.
    Power,
    /// Chosen cylinder and axis.
    CylinderAndAxis,
    /// The formula the power is chosen by.
    Formula,
    /// The convention by which a power is proposed.
    Convention,
    /// A proposed power.
    Proposal,
    /// A spare lens.
    BackupLens,
    /// Average power in the lens record.
    AveragePower,
    /// Constant of the chosen lens for the formula.
    LensConstant,
    /// Power for emmetropia by the formula planned by.
    EmmetropicPower {
        /// Of which eye.
        of: Eyes,
    },
    /// The same as a usable number.
    UsableEmmetropicPower {
        /// Of which eye.
        of: Eyes,
    },
    /// An answer of the formula.
    Answer,
    /// Answers of two formulas.
    TwoAnswers,
    /// Usable powers of two formulas.
    UsableAnswers,
    /// A usable power by the formula.
    UsablePower,
    /// An answer about astigmatism of the formula.
    ToricAnswer,
    /// Chance that a toric step leaves less than none.
    StepChance,
    /// Astigmatism of the cornea after the operation.
    CorneaAfter,
    /// Steep meridian of the cornea.
    SteepMeridian,
    /// Cylinder that leaves none.
    ExactCylinder,
    /// What the chosen cylinder leaves.
    WhatIsLeft,
    /// A cylinder that leaves a known refraction.
    LeastCylinder,
    /// Prediction of the ladder.
    LadderPrediction,
    /// Whether the eye holds silicone oil.
    SiliconeOil,
    /// Whether there was corneal refractive surgery.
    CornealSurgery,
    /// Whether the cornea is irregular.
    IrregularCornea,
    /// Grade of the nucleus.
    NucleusGrade,
    /// Whether there are guttata.
    Guttata,
    /// Whether there is pseudoexfoliation.
    Pseudoexfoliation,
    /// Whether there is pseudoexfoliation or phacodonesis.
    WeakZonules,
    /// How far the lens center lies from the axis.
    LensDecentration,
    /// Whether the cataract is white.
    WhiteCataract,
    /// Whether an endothelial graft with gas is likely.
    GraftLikely,
    /// Whether an alpha-blocker is, or was, taken.
    AlphaBlocker,
    /// Experience of the surgeon.
    SurgeonGrade,
    /// The chosen approach.
    Approach,
    /// Width of the incision.
    IncisionWidth,
    /// Diameter of the capsulorhexis.
    Capsulorhexis,
    /// Number of pieces.
    Pieces,
    /// A way of dividing the nucleus into so many.
    Division,
    /// Room in the chamber.
    Room,
    /// The same as a usable number.
    UsableRoom,
    /// Items of the risk points that could lift the sum to the limit.
    RiskItems,
    /// Factors of the odds ratios.
    OddsFactors,
    /// What the conditions of the refinement ask for.
    RefinementConditions,
    /// Usable limits for the difference of axial length.
    UsableDifferenceLimits,
    /// A usable limit for the age of measurements.
    UsableAgeLimit,
    /// A usable limit for the chance of a borderline depth.
    UsableBorderlineChance,
    /// A usable spread.
    UsableSpread {
        /// Of which measurement.
        which: Which,
    },
}

/// A measurement by its name alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Which {
    /// Axial length.
    AxialLength,
    /// Keratometry.
    Keratometry,
    /// Anterior chamber depth.
    ChamberDepth,
    /// The same from the epithelium.
    DepthFromEpithelium,
    /// Lens thickness.
    LensThickness,
    /// Corneal thickness.
    CornealThickness,
    /// Corneal diameter.
    CornealDiameter,
    /// Pupil.
    Pupil,
    /// Endothelial cell density.
    Endothelium,
}

/// Which eye something is wanted of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Eyes {
    /// The eye that is planned for.
    This,
    /// Both.
    Both,
}

impl Missing {
    /// A measurement of the eye that is planned for.
    #[must_use]
    pub const fn of_this_eye(which: Which) -> Self {
        let of = Eyes::This;
        Self::Measurement { which, of }
    }

    /// A measurement of both eyes.
    #[must_use]
    pub const fn of_both_eyes(which: Which) -> Self {
        let of = Eyes::Both;
        Self::Measurement { which, of }
    }
}
