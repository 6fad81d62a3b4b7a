//! What was seen of one eye. A finding nobody looked for is `None`, which is not "absent".

use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::{CornealReading, NucleusGrade, Refraction};
use crate::quantity::{
    Diopters, HundredthDiopters, Micrometers, OutOfRange, Text, checked_when_read,
};

/// State of cornea, lens, zonules and vitreous.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EyeState {
    /// Grade of the nucleus with its scale.
    pub nucleus: Option<NucleusGrade>,
    /// Dense or total cataract: no view of the fundus.
    pub dense_cataract: Option<bool>,
    pub white_cataract: Option<bool>,
    /// Brunescent (brown to black) cataract.
    pub brunescent: Option<bool>,
    pub posterior_polar: Option<bool>,
    /// Plaque on the posterior capsule.
    pub capsule_plaque: Option<bool>,
    pub pseudoexfoliation: Option<bool>,
    /// Phacodonesis: the lens trembles, the zonules are weak.
    pub phacodonesis: Option<bool>,
    /// How far the lens center lies from the axis.
    #[serde_as(as = "Option<Text>")]
    pub lens_decentration: Option<Micrometers>,
    /// Corneal guttata or Fuchs dystrophy.
    pub guttata: Option<bool>,
    /// Scars that cloud the view.
    pub corneal_scarring: Option<bool>,
    /// Irregular cornea: ectasia, warpage, scars that bend the surface.
    pub irregular_cornea: Option<bool>,
    /// An endothelial graft with gas is to be expected later.
    pub keratoplasty_likely: Option<bool>,
    pub previous_vitrectomy: Option<bool>,
    /// A defect of the iris, or its adhesion to cornea or angle: it would not carry an anterior chamber
    /// IOL.
    pub iris_defect: Option<bool>,
    /// A chamber angle that is narrow or closed.
    pub narrow_angle: Option<bool>,
    /// Silicone oil in the vitreous cavity.
    pub silicone_oil: Option<SiliconeOil>,
    pub corneal_surgery: Option<CornealSurgery>,
    /// Another circumstance that makes the operation harder (poor position, deep orbit …).
    pub other_difficulty: Option<bool>,
    pub refraction: Option<Refraction>,
}

impl EyeState {
    pub(super) fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}

/// Whether the eye is filled with silicone oil, and what that did to its axial length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SiliconeOil {
    Absent,
    /// Oil, and the axial length is as the instrument gave it for a normal vitreous.
    LengthUncorrected,
    /// Oil, and the instrument measured in its mode for oil.
    LengthCorrected,
}

/// Corneal refractive surgery, if there was any.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", rename_all = "snake_case", deny_unknown_fields)]
pub enum CornealSurgery {
    Absent,
    Done {
        kind: CornealSurgeryKind,
        /// Both principal meridians before it, if known.
        before: Option<[CornealReading; 2]>,
        /// Myopia removed, at the corneal plane, if known.
        #[serde_as(as = "Option<Text>")]
        correction: Option<HundredthDiopters>,
    },
}

/// What corneal refractive surgery was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CornealSurgeryKind {
    MyopicLaser,
    HyperopicLaser,
    /// Anything else: radial cuts, a graft.
    Other,
}

checked_when_read!(CornealSurgery, CornealSurgery::check);

impl CornealSurgery {
    /// Least and most myopia that surgery removes (house values). It is given without a sign: a
    /// refraction typed in its place has the wrong one.
    pub const CORRECTION: [HundredthDiopters; 2] =
        [HundredthDiopters::new(0), HundredthDiopters::new(3_000)];

    fn check(&self) -> Result<(), OutOfRange> {
        match *self {
            Self::Done {
                correction: Some(correction),
                ..
            } => OutOfRange::unless_within("myopia removed", correction, Self::CORRECTION),
            _ => Ok(()),
        }
    }

    /// Mean power at 1.3375 before the surgery, if known.
    pub fn power_before(self) -> Option<Diopters> {
        match self {
            Self::Done {
                before: Some([first, second]),
                ..
            } => Some((first.standard_power() + second.standard_power()) * 0.5),
            _ => None,
        }
    }
}
