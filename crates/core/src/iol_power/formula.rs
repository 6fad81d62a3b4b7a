//! The formulas as a list: what each needs, what it refuses, and how it reaches its answer.

use super::after_corneal_surgery::double_k::{self, BeforeAndAfter};
use super::after_corneal_surgery::{modified_haigis_radius, no_history_k};
use super::thick_lens::{self, LensShape, ThickLensEye};
use super::{
    Caution, Cautions, CornealRadii, Estimate, FormulaConstants, Refusal, ThinLensEye, haigis,
    hoffer_q, holladay_1, srk_t, t2,
};
use crate::evidence::Source;
use crate::quantity::{Diopters, Millimeters};

/// A published way from biometry to lens power.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Formula {
    /// SRK/T.
    SrkT,
    /// T2.
    T2,
    /// Holladay 1.
    Holladay1,
    /// Hoffer Q.
    HofferQ,
    /// Haigis.
    Haigis,
    /// Thick-lens paraxial eye.
    ThickLens,
    /// SRK/T with K before and the no-history K after corneal surgery.
    DoubleKNoHistory,
    /// SRK/T with K before and the measured K less 0.23 of the known correction.
    DoubleKKnownCorrection,
    /// Haigis with the radius modified for myopic surgery.
    HaigisModifiedRadius,
}

/// What was done to the cornea before, as far as the formulas care.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornealHistory {
    /// Nothing.
    Untouched,
    /// Nobody recorded it: computed as untouched, with a caution.
    NotRecorded,
    /// Laser surgery for myopia.
    Myopic,
    /// Laser surgery for hyperopia.
    Hyperopic,
    /// Anything else that changed its shape: radial cuts, a graft.
    Other,
}

impl CornealHistory {
    /// Whether the cornea is known to have been operated on.
    #[must_use]
    pub const fn is_operated(self) -> bool {
        matches!(self, Self::Myopic | Self::Hyperopic | Self::Other)
    }
}

/// What a formula may ask of an eye and a lens; what is absent stays absent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FormulaInputs {
    /// Axial length, or why there is none that may be used.
    pub axial_length: Result<Estimate<Millimeters>, Refusal>,
    /// Axial length for a formula without constants that could make up for the method, or why there
    /// is none.
    pub optical_length: Result<Estimate<Millimeters>, Refusal>,
    /// Corneal front radii.
    pub cornea: Option<CornealRadii>,
    /// Chamber depth from the epithelium to the lens front.
    pub acd: Option<Millimeters>,
    /// Lens thickness.
    pub lens_thickness: Option<Millimeters>,
    /// Corneal thickness.
    pub corneal_thickness: Option<Millimeters>,
    /// Mean back radius of the cornea.
    pub posterior_radius: Option<Millimeters>,
    /// What was done to the cornea.
    pub history: CornealHistory,
    /// Mean corneal power at 1.3375 before that.
    pub power_before_surgery: Option<Diopters>,
    /// Myopia removed, at the corneal plane.
    pub known_correction: Option<Diopters>,
    /// Constants of the lens.
    pub constants: FormulaConstants,
    /// Index and thickness of the optic.
    pub shape: Option<LensShape>,
    /// Whether the thick-lens eye takes the sum-of-segments length.
    pub sum_of_segments: bool,
}

impl FormulaInputs {
    /// An eye of which nothing was measured and nothing recorded.
    #[must_use]
    pub fn absent() -> Self {
        let missing = Err(Refusal::NotMeasured {
            what: "axial length",
        });
        Self {
            axial_length: missing,
            optical_length: missing,
            cornea: None,
            acd: None,
            lens_thickness: None,
            corneal_thickness: None,
            posterior_radius: None,
            history: CornealHistory::NotRecorded,
            power_before_surgery: None,
            known_correction: None,
            constants: FormulaConstants::default(),
            shape: None,
            sum_of_segments: false,
        }
    }

    /// With this axial length for every formula, whatever its constants.
    #[must_use]
    pub fn with_length(self, axial_length: Millimeters) -> Self {
        let length = Ok(Estimate::good(axial_length));
        Self {
            axial_length: length,
            optical_length: length,
            ..self
        }
    }
}

/// The eye a formula built: it answers both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EyeModel {
    /// Two thin surfaces.
    Thin(ThinLensEye),
    /// Four surfaces.
    Thick(ThickLensEye),
}

impl EyeModel {
    /// Lens power that leaves `refraction`.
    ///
    /// # Errors
    ///
    /// [`Refusal`] where there is no real image or no place for the lens.
    pub fn power_for(&self, refraction: Diopters) -> Result<Diopters, Refusal> {
        match self {
            Self::Thin(eye) => eye.power_for(refraction),
            Self::Thick(eye) => eye.power_for(refraction),
        }
    }

    /// Refraction that a lens of `power` leaves.
    ///
    /// # Errors
    ///
    /// [`Refusal`] where there is no real image or no place for the lens.
    pub fn refraction_with(&self, power: Diopters) -> Result<Diopters, Refusal> {
        match self {
            Self::Thin(eye) => eye.refraction_with(power),
            Self::Thick(eye) => eye.refraction_with(power),
        }
    }

    /// Predicted lens position: the thin lens, or the center of the thick one.
    #[must_use]
    pub const fn lens_position(&self) -> Millimeters {
        match self {
            Self::Thin(eye) => eye.lens_position,
            Self::Thick(eye) => eye.lens_center,
        }
    }

    /// The same eye with the lens `forward` of where it was predicted.
    #[must_use]
    pub fn with_lens_forward(self, forward: Millimeters) -> Self {
        match self {
            Self::Thin(eye) => Self::Thin(ThinLensEye {
                lens_position: eye.lens_position - forward,
                ..eye
            }),
            Self::Thick(eye) => Self::Thick(ThickLensEye {
                lens_center: eye.lens_center - forward,
                ..eye
            }),
        }
    }
}

impl Formula {
    /// All, in the order of every table.
    pub const ALL: [Self; 9] = [
        Self::SrkT,
        Self::T2,
        Self::Holladay1,
        Self::HofferQ,
        Self::Haigis,
        Self::ThickLens,
        Self::DoubleKNoHistory,
        Self::DoubleKKnownCorrection,
        Self::HaigisModifiedRadius,
    ];

    /// The five thin-lens formulas for untouched corneas.
    pub const THIN_LENS: [Self; 5] = [
        Self::SrkT,
        Self::T2,
        Self::Holladay1,
        Self::HofferQ,
        Self::Haigis,
    ];

    /// Permanent name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::SrkT => "srk_t",
            Self::T2 => "t2",
            Self::Holladay1 => "holladay_1",
            Self::HofferQ => "hoffer_q",
            Self::Haigis => "haigis",
            Self::ThickLens => "thick_lens",
            Self::DoubleKNoHistory => "double_k_no_history",
            Self::DoubleKKnownCorrection => "double_k_known_correction",
            Self::HaigisModifiedRadius => "haigis_modified_radius",
        }
    }

    /// Name as clinicians write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SrkT => "SRK/T",
            Self::T2 => "T2",
            Self::Holladay1 => "Holladay 1",
            Self::HofferQ => "Hoffer Q",
            Self::Haigis => "Haigis",
            Self::ThickLens => "Thick lens",
            Self::DoubleKNoHistory => "Double-K SRK/T, no-history K",
            Self::DoubleKKnownCorrection => "Double-K SRK/T, known correction",
            Self::HaigisModifiedRadius => "Haigis, modified radius",
        }
    }

    /// Where the equation comes from.
    #[must_use]
    pub const fn source(self) -> Source {
        match self {
            Self::SrkT => srk_t::SOURCE,
            Self::T2 => t2::SOURCE,
            Self::Holladay1 => holladay_1::SOURCE,
            Self::HofferQ => hoffer_q::SOURCE,
            Self::Haigis => haigis::SOURCE,
            Self::ThickLens => thick_lens::SOURCE,
            Self::DoubleKNoHistory | Self::DoubleKKnownCorrection => double_k::SOURCE,
            Self::HaigisModifiedRadius => modified_haigis_radius::SOURCE,
        }
    }

    /// Whether it is made for corneas that had refractive surgery.
    #[must_use]
    pub const fn is_for_operated_corneas(self) -> bool {
        matches!(
            self,
            Self::DoubleKNoHistory | Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius
        )
    }

    /// Whether a constant fitted to results makes up for what its eye leaves out.
    #[must_use]
    pub const fn has_fitted_constant(self) -> bool {
        !matches!(self, Self::ThickLens)
    }

    /// Builds the eye as this formula sees it.
    ///
    /// # Errors
    ///
    /// [`Refusal`] naming the first thing that is missing or impossible.
    pub fn eye(self, inputs: &FormulaInputs) -> Result<Estimate<EyeModel>, Refusal> {
        let length = if self.has_fitted_constant() {
            inputs.axial_length?
        } else {
            inputs.optical_length?
        };
        let cornea = inputs.cornea.ok_or(Refusal::NotMeasured {
            what: "keratometry",
        })?;
        self.fits(inputs)?;
        let built = self.build(length.value, cornea, inputs)?;
        let mut cautions = built.cautions.and(length.cautions);
        if inputs.history == CornealHistory::NotRecorded {
            cautions.add(Caution::CornealSurgeryNotRecorded);
        }
        Ok(Estimate {
            value: built.value,
            cautions,
        })
    }

    /// Refuses a formula on a cornea it was not made for.
    ///
    /// # Errors
    ///
    /// [`Refusal`] saying what it is made for.
    pub fn fits(self, inputs: &FormulaInputs) -> Result<(), Refusal> {
        use CornealHistory::{Hyperopic, Myopic, NotRecorded, Untouched};
        match (self, inputs.history) {
            (Self::ThickLens, Myopic | Hyperopic | CornealHistory::Other)
                if inputs.posterior_radius.is_none() =>
            {
                Err(Refusal::NotMeasured {
                    what: "back surface of the operated cornea",
                })
            }
            (Self::ThickLens, _)
            | (Self::DoubleKNoHistory, Myopic | Hyperopic)
            | (Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius, Myopic) => Ok(()),
            (Self::DoubleKNoHistory, _) => Err(Refusal::OtherSurgery {
                to: "myopic or hyperopic laser",
            }),
            (Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius, _) => {
                Err(Refusal::OtherSurgery { to: "myopic laser" })
            }
            (_, Untouched | NotRecorded) => Ok(()),
            (_, _) => Err(Refusal::CorneaOperated),
        }
    }

    fn build(
        self,
        length: Millimeters,
        cornea: CornealRadii,
        inputs: &FormulaInputs,
    ) -> Result<Estimate<EyeModel>, Refusal> {
        let FormulaConstants {
            a_constant,
            personalized_acd,
            surgeon_factor,
            haigis,
        } = inputs.constants;
        let a_constant = a_constant.ok_or(Refusal::NoConstant { what: "A constant" });
        let haigis = haigis.ok_or(Refusal::NoConstant {
            what: "constants a0, a1, a2",
        });
        let acd = inputs.acd.ok_or(Refusal::NotMeasured {
            what: "anterior chamber depth",
        });
        let untouched = |eye| Estimate::good(EyeModel::Thin(eye));
        let operated = |eye| Estimate {
            value: EyeModel::Thin(eye),
            cautions: [Caution::AfterCornealSurgery].into_iter().collect(),
        };
        Ok(match self {
            Self::SrkT => untouched(srk_t::eye(length, cornea, a_constant?)?),
            Self::T2 => untouched(t2::eye(length, cornea, a_constant?)),
            Self::Holladay1 => {
                let factor = surgeon_factor.ok_or(Refusal::NoConstant {
                    what: "surgeon factor",
                })?;
                holladay_1::eye(length, cornea, factor).map(EyeModel::Thin)
            }
            Self::HofferQ => {
                let depth = personalized_acd.ok_or(Refusal::NoConstant { what: "pACD" })?;
                hoffer_q::eye(length, cornea, depth).map(EyeModel::Thin)
            }
            Self::Haigis => untouched(haigis::eye(length, acd?, cornea, haigis?)),
            Self::ThickLens => thick_lens_eye(length, cornea, inputs)?.map(EyeModel::Thick),
            Self::DoubleKNoHistory => {
                let measured = cornea.mean_power();
                let after = if inputs.history == CornealHistory::Hyperopic {
                    no_history_k::hyperopic(measured)
                } else {
                    no_history_k::myopic(measured)
                };
                operated(double_k_eye(length, after, a_constant?, inputs)?)
            }
            Self::DoubleKKnownCorrection => {
                let correction = inputs.known_correction.ok_or(Refusal::NotMeasured {
                    what: "correction made by the corneal surgery",
                })?;
                let after = no_history_k::with_known_correction(cornea.mean_power(), correction);
                operated(double_k_eye(length, after, a_constant?, inputs)?)
            }
            Self::HaigisModifiedRadius => {
                let radius = cornea.mean_radius();
                operated(modified_haigis_radius::eye(length, acd?, radius, haigis?))
            }
        })
    }
}

fn double_k_eye(
    length: Millimeters,
    after: Diopters,
    a_constant: super::AConstant,
    inputs: &FormulaInputs,
) -> Result<ThinLensEye, Refusal> {
    let before = inputs.power_before_surgery.ok_or(Refusal::NotMeasured {
        what: "keratometry before the corneal surgery",
    })?;
    double_k::eye(length, BeforeAndAfter { before, after }, a_constant)
}

fn thick_lens_eye(
    length: Millimeters,
    cornea: CornealRadii,
    inputs: &FormulaInputs,
) -> Result<Estimate<ThickLensEye>, Refusal> {
    let acd = inputs.acd.ok_or(Refusal::NotMeasured {
        what: "anterior chamber depth",
    })?;
    let lens_thickness = inputs.lens_thickness.ok_or(Refusal::NotMeasured {
        what: "lens thickness",
    })?;
    let shape = inputs.shape.ok_or(Refusal::NoConstant {
        what: "optic's index and thickness",
    })?;

    // A lens known by its label alone is taken as equiconvex.
    let mut cautions: Cautions = [Caution::NoFittedConstant, Caution::LensShapeAssumed]
        .into_iter()
        .collect();
    if inputs.corneal_thickness.is_none() {
        cautions.add(Caution::ThicknessAssumed);
    }
    if inputs.posterior_radius.is_none() {
        cautions.add(Caution::PosteriorRadiusAssumed);
    }
    if inputs.history.is_operated() {
        cautions.add(Caution::AfterCornealSurgery);
    }
    let front_radius = cornea.mean_radius();
    let axial_length = if inputs.sum_of_segments {
        thick_lens::sum_of_segments(length, lens_thickness)
    } else {
        length
    };
    let value = ThickLensEye {
        axial_length,
        front_radius,
        back_radius: inputs
            .posterior_radius
            .unwrap_or(front_radius * thick_lens::POSTERIOR_RATIO),
        corneal_thickness: inputs
            .corneal_thickness
            .unwrap_or(thick_lens::ASSUMED_THICKNESS),
        lens_center: acd + lens_thickness * thick_lens::LENS_CENTER_FACTOR,
        shape,
    };
    Ok(Estimate { value, cautions })
}
