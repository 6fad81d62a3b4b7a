//! What can be off when a refraction is predicted, and the one model that every error goes through.

use crate::iol_power::thick_lens::{ASSUMED_THICKNESS, POSTERIOR_RATIO};
use crate::iol_power::{CornealRadii, EyeModel, Formula, FormulaInputs, Refusal, ThinLensEye};
use crate::quantity::KeratometricIndex;
use crate::quantity::{Diopters, Millimeters, Number};

/// One thing that can be off.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum ErrorSource {
    /// Axial length, mm.
    AxialLength,
    /// Mean corneal power at 1.3375, D, in both meridians alike.
    CornealPower,
    /// Anterior chamber depth, mm.
    #[serde(rename = "anterior_chamber_depth")]
    ChamberDepth,
    /// Lens thickness, mm.
    LensThickness,
    /// Corneal thickness, mm.
    CornealThickness,
    /// Back radius of the cornea, mm.
    PosteriorRadius,
    /// Where the lens comes to rest against where the formula puts it, mm. It has no spread of its
    /// own: what it does is in what nothing else explains.
    LensPosition,
    /// Power of a cornea that had refractive surgery against what the method makes of it, D.
    OperatedCornea,
    /// True power of the lens against its label, D.
    LabeledPower,
    /// Refraction measured after surgery against the true one, D.
    #[serde(rename = "postoperative_refraction")]
    Refraction,
    /// What the published scatter holds and no other source here explains, D: where the lens comes
    /// to rest first of all.
    Unexplained,
    /// What the formula is known to be off by in such eyes, D.
    Tendency,
}

/// How many sources there are.
pub const SOURCES: usize = 12;

/// An error of every source, in the order of [`ErrorSource::ALL`].
#[derive(Clone, Copy, Debug)]
pub struct Errors<N>(pub [N; SOURCES]);

impl ErrorSource {
    /// All, in the order of every table.
    pub const ALL: [Self; SOURCES] = [
        Self::AxialLength,
        Self::CornealPower,
        Self::ChamberDepth,
        Self::LensThickness,
        Self::CornealThickness,
        Self::PosteriorRadius,
        Self::LensPosition,
        Self::OperatedCornea,
        Self::LabeledPower,
        Self::Refraction,
        Self::Unexplained,
        Self::Tendency,
    ];

    /// Permanent name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::AxialLength => "axial_length",
            Self::CornealPower => "corneal_power",
            Self::ChamberDepth => "anterior_chamber_depth",
            Self::LensThickness => "lens_thickness",
            Self::CornealThickness => "corneal_thickness",
            Self::PosteriorRadius => "posterior_radius",
            Self::LensPosition => "lens_position",
            Self::OperatedCornea => "operated_cornea",
            Self::LabeledPower => "labeled_power",
            Self::Refraction => "postoperative_refraction",
            Self::Unexplained => "unexplained",
            Self::Tendency => "tendency",
        }
    }

    /// Whether it is a measurement that can be repeated before surgery.
    pub const fn can_be_repeated(self) -> bool {
        matches!(
            self,
            Self::AxialLength
                | Self::CornealPower
                | Self::ChamberDepth
                | Self::LensThickness
                | Self::CornealThickness
                | Self::PosteriorRadius
        )
    }

    /// Whether it is a length; otherwise it is a power.
    pub const fn is_length(self) -> bool {
        !matches!(
            self,
            Self::CornealPower
                | Self::OperatedCornea
                | Self::LabeledPower
                | Self::Refraction
                | Self::Unexplained
                | Self::Tendency
        )
    }
}

impl<N: Number> Errors<N> {
    /// No error anywhere.
    pub fn none() -> Self {
        Self([N::of(0.0); SOURCES])
    }

    pub fn of(&self, source: ErrorSource) -> N {
        self.0
            .get(source as usize)
            .copied()
            .unwrap_or_else(|| N::of(0.0))
    }

    /// The eye that a formula builds of measurements that already carry their errors
    /// ([`Self::inputs`]), with the errors that come after them.
    pub fn eye(&self, formula: Formula, inputs: &FormulaInputs<N>) -> Result<EyeModel<N>, Refusal> {
        let built = formula.eye(inputs)?.value;
        let forward = Millimeters::new(-self.of(ErrorSource::LensPosition));
        Ok(match built.with_lens_forward(forward) {
            EyeModel::Thin(eye) if formula.is_for_operated_corneas() => {
                EyeModel::Thin(ThinLensEye {
                    corneal_power: eye.corneal_power
                        + Diopters::new(self.of(ErrorSource::OperatedCornea)),
                    ..eye
                })
            }
            eye => eye,
        })
    }

    /// The refraction that a lens labeled `power` is measured to leave in that eye.
    pub fn refraction(&self, eye: &EyeModel<N>, power: Diopters) -> Result<Diopters<N>, Refusal> {
        let true_power = power.lift() + Diopters::new(self.of(ErrorSource::LabeledPower));
        let refraction = eye.refraction_with(true_power)?;
        let added = [
            ErrorSource::Refraction,
            ErrorSource::Unexplained,
            ErrorSource::Tendency,
        ];
        Ok(added.into_iter().fold(refraction, |sum, source| {
            sum + Diopters::new(self.of(source))
        }))
    }

    /// The measurements, each off by its error.
    pub fn inputs(&self, inputs: &FormulaInputs) -> FormulaInputs<N> {
        let cornea = inputs.cornea.map(|CornealRadii(first, second)| {
            CornealRadii(self.radius(first), self.radius(second))
        });
        let length = |source| Millimeters::new(self.of(source));
        let axial = length(ErrorSource::AxialLength);
        // What the thick-lens eye takes as usual where it was not measured may be off too.
        let operated = inputs.history.is_operated();
        let posterior_radius = match (inputs.posterior_radius, cornea) {
            (Some(radius), _) => Some(radius.lift()),
            (None, Some(cornea)) if !operated => Some(cornea.mean_radius() * POSTERIOR_RATIO),
            (None, _) => None,
        };
        let thickness = inputs.corneal_thickness.unwrap_or(ASSUMED_THICKNESS);
        FormulaInputs {
            axial_length: inputs
                .axial_length
                .map(|length| length.map(|length| length.lift() + axial)),
            optical_length: inputs
                .optical_length
                .map(|length| length.map(|length| length.lift() + axial)),
            cornea,
            acd: inputs
                .acd
                .map(|depth| depth.lift() + length(ErrorSource::ChamberDepth)),
            acd_lacks: inputs.acd_lacks,
            lens_thickness: inputs
                .lens_thickness
                .map(|thickness| thickness.lift() + length(ErrorSource::LensThickness)),
            corneal_thickness: Some(thickness.lift() + length(ErrorSource::CornealThickness)),
            posterior_radius: posterior_radius
                .map(|radius| radius + length(ErrorSource::PosteriorRadius)),
            history: inputs.history,
            power_before_surgery: inputs.power_before_surgery.map(Diopters::lift),
            known_correction: inputs.known_correction,
            constants: inputs.constants,
            shape: inputs.shape,
            sum_of_segments: inputs.sum_of_segments,
        }
    }

    /// A radius whose power at 1.3375 is off.
    fn radius(&self, radius: Millimeters) -> Millimeters<N> {
        let index = KeratometricIndex::STANDARD;
        let power = index.power(radius).lift::<N>();
        index.radius(power + Diopters::new(self.of(ErrorSource::CornealPower)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::iol_power::{AConstant, CornealHistory, FormulaConstants};

    /// 45 D at 1.3375, a lens for SRK/T.
    fn inputs(history: CornealHistory) -> FormulaInputs {
        let radius = Millimeters::new(7.5);
        FormulaInputs {
            cornea: Some(CornealRadii(radius, radius)),
            history,
            power_before_surgery: Some(Diopters::new(47.0)),
            constants: FormulaConstants {
                a_constant: AConstant::new(119.0).ok(),
                ..FormulaConstants::default()
            },
            ..FormulaInputs::absent()
        }
        .with_length(Millimeters::new(23.5))
    }

    fn one(source: ErrorSource, error: f64) -> Errors<f64> {
        let mut errors = Errors::none();
        errors.0[source as usize] = error;
        errors
    }

    /// By hand: 337.5/7.5 is 45 D, and a diopter more makes 337.5/46 = 7.336957 mm.
    #[test]
    fn more_power_is_a_smaller_radius() {
        let off = one(ErrorSource::CornealPower, 1.0).inputs(&inputs(CornealHistory::Untouched));
        let CornealRadii(first, second) = off.cornea.unwrap();
        for radius in [first, second] {
            assert!((radius.mm() - 7.336_957).abs() < 1e-6, "{radius:?}");
        }
    }

    type Length = fn(&FormulaInputs) -> Option<Millimeters>;

    /// A chance does not tell which way an error goes; what is shown of one does.
    #[test]
    fn each_length_is_longer_by_its_error() {
        let eye = FormulaInputs {
            acd: Some(Millimeters::new(3.0)),
            lens_thickness: Some(Millimeters::new(4.5)),
            corneal_thickness: Some(Millimeters::new(0.55)),
            posterior_radius: Some(Millimeters::new(6.5)),
            ..inputs(CornealHistory::Untouched)
        };
        let lengths: [(ErrorSource, Length, f64); 5] = [
            (
                ErrorSource::AxialLength,
                |of| of.axial_length.ok().map(|length| length.value),
                23.5,
            ),
            (ErrorSource::ChamberDepth, |of| of.acd, 3.0),
            (ErrorSource::LensThickness, |of| of.lens_thickness, 4.5),
            (
                ErrorSource::CornealThickness,
                |of| of.corneal_thickness,
                0.55,
            ),
            (ErrorSource::PosteriorRadius, |of| of.posterior_radius, 6.5),
        ];
        for (source, length, measured) in lengths {
            for error in [0.01, -0.02] {
                let off = one(source, error).inputs(&eye);
                let found = length(&off).unwrap().mm();
                assert!(
                    (found - measured - error).abs() < 1e-12,
                    "{source:?} {found}"
                );
            }
        }
    }

    /// By hand: 0.81·7.5 = 6.075 mm (printed ratio), which holds of no operated cornea.
    #[test]
    fn the_usual_back_is_that_of_an_untouched_cornea() {
        let errors = one(ErrorSource::PosteriorRadius, 0.1);
        let back = |history| errors.inputs(&inputs(history)).posterior_radius;
        let untouched = back(CornealHistory::Untouched).unwrap();
        assert!((untouched.mm() - 6.175).abs() < 1e-12, "{untouched:?}");
        assert_eq!(back(CornealHistory::Myopic), None);
    }

    /// The method's own error is one of methods after corneal surgery alone.
    #[test]
    fn an_untouched_cornea_has_no_error_of_a_method() {
        let errors = one(ErrorSource::OperatedCornea, 1.0);
        for (formula, history, off_d) in [
            (Formula::SrkT, CornealHistory::Untouched, 0.0),
            (Formula::DoubleKNoHistory, CornealHistory::Myopic, 1.0),
        ] {
            let corneal_power = |errors: &Errors<f64>| match errors.eye(formula, &inputs(history)) {
                Ok(EyeModel::Thin(eye)) => eye.corneal_power,
                other => panic!("{other:?}"),
            };
            let off = corneal_power(&errors) - corneal_power(&Errors::none());
            assert!((off.d() - off_d).abs() < 1e-12, "{formula:?}: {off:?}");
        }
    }
}
