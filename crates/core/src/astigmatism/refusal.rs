//! No toric answer, and why.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::iol_power::Refusal;
use crate::quantity::{HundredthDiopters, Micrometers};

/// Why there is no answer about astigmatism.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum ToricRefusal {
    /// Something that is needed was not entered.
    #[error("needs the {what}")]
    Missing {
        /// What.
        what: ToricNeeds,
    },
    /// Principal meridians that cannot be those of a regular cornea.
    #[error("principal meridians are {apart}° apart: not a regular cornea, or a slip in copying")]
    NotAtRightAngles {
        /// Angle between them.
        apart: u16,
    },
    /// The cornea was seen to be irregular.
    #[error("the cornea is recorded as irregular: no cylinder describes it")]
    IrregularCornea,
    /// The cornea had refractive surgery.
    #[error("the cornea had refractive surgery: keratometry does not give its astigmatism")]
    OperatedCornea,
    /// The formula has no answer for the eye itself.
    #[error(transparent)]
    Formula(#[from] Refusal),
    /// The formula takes no power of a single front surface.
    #[error("not computed meridian by meridian for this formula")]
    NotByMeridian,
    /// A correction for the posterior cornea was chosen that takes a measurement nobody made.
    #[error("measured posterior cornea was chosen, and it was not measured")]
    PosteriorNotMeasured,
    /// An estimate of the posterior cornea was chosen for a front without principal meridians.
    #[error("the front of the cornea has no steep meridian to estimate the back by")]
    NoSteepMeridian,
    /// The multiplier is printed for with and against the rule only.
    #[error("the multiplier is published with and against the rule only; this cornea is oblique")]
    MultiplierOblique,
    /// The multiplier is printed for lens cylinders up to 2 D.
    #[error("the multiplier is published for lens cylinders up to +2.00 D, not for {cylinder}")]
    MultiplierAbove {
        /// The lens cylinder.
        cylinder: HundredthDiopters,
    },
    /// The effect of a manual small-incision operation is not published here.
    #[error(
        "effect of a small-incision (SICS) wound on the cornea is not known: \
         the surgeon's own figures may be recorded"
    )]
    SmallIncisionUnknown,
    /// The incision is wider than the one whose effect is published.
    #[error(
        "effect of an incision of {width} on the cornea is not known (published up to 2.80 mm): \
         the surgeon's own figures may be recorded"
    )]
    WideIncisionUnknown {
        /// Width of the incision.
        width: Micrometers,
    },
}

/// What an answer about astigmatism needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ToricNeeds {
    /// Keratometry.
    Keratometry,
    /// Direction of the incision.
    IncisionDirection,
    /// Approach.
    Approach,
    /// Width of the incision.
    IncisionWidth,
    /// The chosen power.
    Power,
    /// The chosen lens.
    Lens,
    /// The formula the power is chosen by.
    Formula,
    /// That formula on the ladder of this eye.
    FormulaOnLadder,
    /// Lens, target and a formula on the ladder.
    LensTargetAndFormula,
}

impl fmt::Display for ToricNeeds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Keratometry => "keratometry, which was not measured",
            Self::IncisionDirection => "direction of the incision",
            Self::Approach => "approach, since each has its own incision",
            Self::IncisionWidth => "width of the incision",
            Self::Power => "chosen power",
            Self::Lens => "chosen lens",
            Self::Formula => "chosen formula",
            Self::FormulaOnLadder => "formula in the lens power table of this eye",
            Self::LensTargetAndFormula => {
                "chosen lens, target and a formula in the lens power table of this eye"
            }
        })
    }
}
