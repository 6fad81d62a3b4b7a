//! The formulas as a list: what each needs, what it refuses, and how it reaches its answer.

use super::after_corneal_surgery::double_k::{self, BeforeAndAfter};
use super::after_corneal_surgery::{modified_haigis_radius, no_history_k};
use super::thick_lens::{self, ThickLensEye};
use super::{
    Caution, Cautions, CornealHistory, CornealRadii, Estimate, EyeModel, FormulaConstants,
    FormulaInputs, MadeFor, Needed, NeededConstant, Refusal, ThinLensEye, haigis, hoffer_q,
    holladay_1, srk_t, t2,
};
use crate::evidence::Source;
use crate::quantity::{Diopters, Millimeters, Number};

/// One formula a row: permanent name in files, name as clinicians write it, where the equation comes
/// from, and the constant of a lens that it takes.
macro_rules! formulas {
    ($($(#[$doc:meta])* $formula:ident: $key:literal, $name:literal, $source:expr, $constant:ident;)*) => {
        /// A published way from biometry to lens power.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize,
            serde::Deserialize,
        )]
        pub enum Formula {
            $($(#[$doc])* #[serde(rename = $key)] $formula,)*
        }

        impl Formula {
            /// All, in the order of every table.
            pub const ALL: [Self; [$($key),*].len()] = [$(Self::$formula),*];

            /// Permanent name in files.
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$formula => $key,)*
                }
            }

            /// Name as clinicians write it.
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$formula => $name,)*
                }
            }

            /// Where the equation comes from.
            pub const fn source(self) -> Source {
                match self {
                    $(Self::$formula => $source,)*
                }
            }

            /// The constant of a lens that it takes.
            pub const fn constant(self) -> NeededConstant {
                match self {
                    $(Self::$formula => NeededConstant::$constant,)*
                }
            }
        }
    };
}

formulas! {
    SrkT: "srk_t", "SRK/T", srk_t::SOURCE, A;
    T2: "t2", "T2", t2::SOURCE, A;
    Holladay1: "holladay_1", "Holladay 1", holladay_1::SOURCE, SurgeonFactor;
    HofferQ: "hoffer_q", "Hoffer Q", hoffer_q::SOURCE, PersonalizedAcd;
    Haigis: "haigis", "Haigis", haigis::SOURCE, Haigis;
    /// Thick-lens paraxial eye.
    ThickLens: "thick_lens", "Thick lens", thick_lens::SOURCE, Optic;
    /// SRK/T with K before and the no-history K after corneal surgery.
    DoubleKNoHistory: "double_k_no_history", "Double-K SRK/T, no-history K", double_k::SOURCE, A;
    /// SRK/T with K before and the measured K less 0.23 of the known correction.
    DoubleKKnownCorrection: "double_k_known_correction", "Double-K SRK/T, known correction",
        double_k::SOURCE, A;
    /// Haigis with the radius modified for myopic surgery.
    HaigisModifiedRadius: "haigis_modified_radius", "Haigis, modified radius",
        modified_haigis_radius::SOURCE, Haigis;
}

impl Formula {
    /// The five thin-lens formulas for untouched corneas.
    pub const THIN_LENS: [Self; 5] = [
        Self::SrkT,
        Self::T2,
        Self::Holladay1,
        Self::HofferQ,
        Self::Haigis,
    ];

    /// Whether it is made for corneas that had refractive surgery.
    pub const fn is_for_operated_corneas(self) -> bool {
        matches!(
            self,
            Self::DoubleKNoHistory | Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius
        )
    }

    /// Whether a constant fitted to results makes up for what its eye leaves out.
    pub const fn has_fitted_constant(self) -> bool {
        !matches!(self, Self::ThickLens)
    }

    /// Builds the eye as this formula sees it.
    pub fn eye<N: Number>(
        self,
        inputs: &FormulaInputs<N>,
    ) -> Result<Estimate<EyeModel<N>>, Refusal> {
        let length = if self.has_fitted_constant() {
            inputs.axial_length?
        } else {
            inputs.optical_length?
        };
        let cornea = inputs.cornea.ok_or(Refusal::NotMeasured {
            what: Needed::Keratometry,
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
    pub fn fits<N>(self, inputs: &FormulaInputs<N>) -> Result<(), Refusal> {
        use CornealHistory::{Hyperopic, Myopic, NotRecorded, Untouched};
        match (self, inputs.history) {
            (Self::ThickLens, Myopic | Hyperopic | CornealHistory::Other)
                if inputs.posterior_radius.is_none() =>
            {
                Err(Refusal::NotMeasured {
                    what: Needed::BackSurface,
                })
            }
            (Self::ThickLens, _)
            | (Self::DoubleKNoHistory, Myopic | Hyperopic)
            | (Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius, Myopic) => Ok(()),
            (Self::DoubleKNoHistory, _) => Err(Refusal::OtherSurgery {
                to: MadeFor::MyopicOrHyperopic,
            }),
            (Self::DoubleKKnownCorrection | Self::HaigisModifiedRadius, _) => {
                Err(Refusal::OtherSurgery {
                    to: MadeFor::Myopic,
                })
            }
            (_, Untouched | NotRecorded) => Ok(()),
            (_, _) => Err(Refusal::CorneaOperated),
        }
    }

    fn build<N: Number>(
        self,
        length: Millimeters<N>,
        cornea: CornealRadii<N>,
        inputs: &FormulaInputs<N>,
    ) -> Result<Estimate<EyeModel<N>>, Refusal> {
        let FormulaConstants {
            a_constant,
            personalized_acd,
            surgeon_factor,
            haigis,
        } = inputs.constants;
        let a_constant = a_constant.ok_or(Refusal::NoConstant {
            what: NeededConstant::A,
        });
        let haigis = haigis.ok_or(Refusal::NoConstant {
            what: NeededConstant::Haigis,
        });
        let acd = inputs.acd.ok_or(Refusal::NotMeasured {
            what: inputs.acd_lacks,
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
                    what: NeededConstant::SurgeonFactor,
                })?;
                holladay_1::eye(length, cornea, factor).map(EyeModel::Thin)
            }
            Self::HofferQ => {
                let depth = personalized_acd.ok_or(Refusal::NoConstant {
                    what: NeededConstant::PersonalizedAcd,
                })?;
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
                    what: Needed::Correction,
                })?;
                let after =
                    no_history_k::with_known_correction(cornea.mean_power(), correction.lift());
                operated(double_k_eye(length, after, a_constant?, inputs)?)
            }
            Self::HaigisModifiedRadius => {
                let radius = cornea.mean_radius();
                operated(modified_haigis_radius::eye(length, acd?, radius, haigis?))
            }
        })
    }
}

fn double_k_eye<N: Number>(
    length: Millimeters<N>,
    after: Diopters<N>,
    a_constant: super::AConstant,
    inputs: &FormulaInputs<N>,
) -> Result<ThinLensEye<N>, Refusal> {
    let before = inputs.power_before_surgery.ok_or(Refusal::NotMeasured {
        what: Needed::KeratometryBefore,
    })?;
    double_k::eye(length, BeforeAndAfter { before, after }, a_constant)
}

fn thick_lens_eye<N: Number>(
    length: Millimeters<N>,
    cornea: CornealRadii<N>,
    inputs: &FormulaInputs<N>,
) -> Result<Estimate<ThickLensEye<N>>, Refusal> {
    let acd = inputs.acd.ok_or(Refusal::NotMeasured {
        what: inputs.acd_lacks,
    })?;
    let lens_thickness = inputs.lens_thickness.ok_or(Refusal::NotMeasured {
        what: Needed::LensThickness,
    })?;
    let shape = inputs.shape.ok_or(Refusal::NoConstant {
        what: NeededConstant::Optic,
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
            .unwrap_or(thick_lens::ASSUMED_THICKNESS.lift()),
        lens_center: acd + lens_thickness * thick_lens::LENS_CENTER_FACTOR,
        shape,
    };
    Ok(Estimate { value, cautions })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Which formula answers for which cornea: normal ones for an untouched cornea only, methods for
    /// operated corneas only after the surgery they were made for.
    #[test]
    fn a_normal_formula_refuses_an_operated_cornea() {
        use CornealHistory::{Hyperopic, Myopic, NotRecorded, Other, Untouched};
        let histories = [Untouched, NotRecorded, Myopic, Hyperopic, Other];
        for formula in Formula::ALL {
            let fits = histories.map(|history| {
                formula
                    .fits(&FormulaInputs {
                        history,
                        ..FormulaInputs::<f64>::absent()
                    })
                    .is_ok()
            });
            let expected = match formula {
                Formula::DoubleKNoHistory => [false, false, true, true, false],
                Formula::DoubleKKnownCorrection | Formula::HaigisModifiedRadius => {
                    [false, false, true, false, false]
                }
                _ => [true, true, false, false, false],
            };
            assert_eq!(fits, expected, "{formula:?}");
        }
        // A measured back surface makes the thick lens independent of the surgery.
        let measured = FormulaInputs {
            history: Other,
            posterior_radius: Some(Millimeters::new(6.4)),
            ..FormulaInputs::absent()
        };
        assert!(Formula::ThickLens.fits(&measured).is_ok());
        assert_eq!(Formula::SrkT.fits(&measured), Err(Refusal::CorneaOperated));
    }
}
