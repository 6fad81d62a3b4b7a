//! What was seen of one eye. A finding nobody looked for is `None`, which is not "absent".

use super::{CornealReading, NucleusGrade};
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};

/// State of cornea, lens, zonules and vitreous.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EyeState {
    /// Grade of the nucleus with its scale.
    pub nucleus: Option<NucleusGrade>,
    /// Dense or total cataract: no view of the fundus.
    pub dense_cataract: Option<bool>,
    /// White cataract.
    pub white_cataract: Option<bool>,
    /// Brunescent (brown to black) cataract.
    pub brunescent: Option<bool>,
    /// Posterior polar cataract.
    pub posterior_polar: Option<bool>,
    /// Plaque on the posterior capsule.
    pub capsule_plaque: Option<bool>,
    /// Pseudoexfoliation.
    pub pseudoexfoliation: Option<bool>,
    /// Phacodonesis: the lens trembles, the zonules are weak.
    pub phacodonesis: Option<bool>,
    /// How far the lens center lies from the axis.
    pub lens_decentration: Option<Micrometers>,
    /// Corneal guttata or Fuchs dystrophy.
    pub guttata: Option<bool>,
    /// Scars that cloud the view.
    pub corneal_scarring: Option<bool>,
    /// Irregular cornea: ectasia, warpage, scars that bend the surface.
    pub irregular_cornea: Option<bool>,
    /// An endothelial graft with gas is to be expected later.
    pub keratoplasty_likely: Option<bool>,
    /// Vitrectomy before.
    pub previous_vitrectomy: Option<bool>,
    /// Silicone oil in the vitreous cavity.
    pub silicone_oil: Option<SiliconeOil>,
    /// Corneal refractive surgery before.
    pub corneal_surgery: Option<CornealSurgery>,
    /// Another circumstance that makes the operation harder (poor position, deep orbit …).
    pub other_difficulty: Option<bool>,
    /// Spherical equivalent of today's refraction.
    pub refraction: Option<HundredthDiopters>,
}

/// Whether the eye is filled with silicone oil, and what that did to its axial length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SiliconeOil {
    /// No oil.
    Absent,
    /// Oil, and the axial length is as the instrument gave it for a normal vitreous.
    LengthUncorrected,
    /// Oil, and the instrument measured in its mode for oil.
    LengthCorrected,
}

/// Corneal refractive surgery, if there was any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornealSurgery {
    /// None.
    Absent,
    /// There was.
    Done {
        /// What was corrected.
        kind: CornealSurgeryKind,
        /// Both principal meridians before it, if known.
        before: Option<[CornealReading; 2]>,
        /// Myopia removed, at the corneal plane, if known.
        correction: Option<HundredthDiopters>,
    },
}

/// What corneal refractive surgery was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CornealSurgeryKind {
    /// Laser for myopia.
    MyopicLaser,
    /// Laser for hyperopia.
    HyperopicLaser,
    /// Anything else: radial cuts, a graft.
    Other,
}

impl CornealSurgery {
    /// Mean power at 1.3375 before the surgery, if known.
    #[must_use]
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
