//! No toric answer, and why.

use serde::{Deserialize, Serialize};

use crate::iol_power::Refusal;
use crate::quantity::{HundredthDiopters, Micrometers};

/// Why there is no answer about astigmatism.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
#[error("{self:?}")]
pub enum ToricRefusal {
    /// Something that is needed was not entered.
    Missing {
        what: ToricNeeds,
    },
    /// Principal meridians that cannot be those of a regular cornea.
    NotAtRightAngles {
        /// Angle between them.
        apart: u16,
    },
    IrregularCornea,
    /// The cornea had refractive surgery.
    OperatedCornea,
    /// The formula has no answer for the eye itself.
    Formula(#[from] Refusal),
    /// The formula takes no power of a single front surface.
    NotByMeridian,
    /// A correction for the posterior cornea was chosen that takes a measurement nobody made.
    PosteriorNotMeasured,
    /// An estimate of the posterior cornea was chosen for a front without principal meridians.
    NoSteepMeridian,
    /// The multiplier is printed for with and against the rule only.
    MultiplierOblique,
    /// The multiplier is printed for lens cylinders up to 2 D.
    MultiplierAbove {
        cylinder: HundredthDiopters,
    },
    /// The effect of a manual small-incision operation is not published here.
    SmallIncisionUnknown,
    /// The incision is wider than the one whose effect is published.
    WideIncisionUnknown {
        width: Micrometers,
    },
}

/// What an answer about astigmatism needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ToricNeeds {
    Keratometry,
    IncisionDirection,
    Approach,
    IncisionWidth,
    Power,
    Lens,
    Formula,
    FormulaOnLadder,
    LensTargetAndFormula,
}
