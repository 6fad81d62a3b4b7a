//! What each cylinder of a toric lens leaves, by one formula, with one labeled power.
//!
//! The marks of a toric lens stand on its weakest meridian. They belong on the steep meridian of
//! the cornea after the operation: the lens adds least power where the cornea has most.

use super::toric_eye::Refraction;
use super::{CornealTerms, ExactCylinder, ToricEye, ToricRefusal};
use crate::iol_power::{EyeModel, Formula};
use crate::lens::{PowerLabel, ToricChoice, ToricSteps};
use crate::optics::{DoubleAngle, PowerVector, SpheroCylinder};
use crate::quantity::{Diopters, HundredthDiopters, Meridian};

/// A lens in the eye: what its label says, its cylinder, and where its marks stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToricLens {
    pub labeled: Diopters,
    pub label: PowerLabel,
    /// Cylinder at the lens plane; zero for a lens that is not toric.
    pub cylinder: Diopters,
    /// Meridian of the marks, degrees.
    pub axis_degrees: f64,
}

impl ToricLens {
    pub fn power(&self) -> PowerVector {
        let weakest = match self.label {
            PowerLabel::SphericalEquivalent => self.labeled - self.cylinder * 0.5,
            PowerLabel::WeakestMeridian => self.labeled,
        };
        SpheroCylinder {
            sphere: weakest,
            cylinder: self.cylinder,
            axis_degrees: self.axis_degrees,
        }
        .power_vector()
    }

    /// The same lens turned counter-clockwise.
    #[must_use]
    pub fn turned(self, degrees: f64) -> Self {
        Self {
            axis_degrees: self.axis_degrees + degrees,
            ..self
        }
    }
}

/// What is left to correct.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// The refraction in both planes.
    pub refraction: Refraction,
}

impl Residual {
    /// Refraction at the spectacle plane, with a cylinder that is zero or negative.
    pub fn spectacles(&self) -> SpheroCylinder {
        self.refraction.at_spectacles.minus_cylinder()
    }

    /// Size of the cylinder at the spectacle plane.
    pub fn cylinder(&self) -> Diopters {
        self.refraction.at_spectacles.cylinder_magnitude()
    }

    /// Spherical equivalent at the spectacle plane.
    pub const fn spherical_equivalent(&self) -> Diopters {
        self.refraction.at_spectacles.m
    }

    /// Astigmatism the eye is left with, at the spectacle plane: what corrects it is its opposite, so
    /// an eye left with the rule (steep at 90) wears a minus cylinder at 180.
    pub fn left(&self) -> DoubleAngle {
        -self.refraction.at_spectacles.double_angle()
    }
}

/// One cylinder at the suggested axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepResult {
    /// The cylinder; nothing for the same power without one.
    pub cylinder: Option<HundredthDiopters>,
    /// Where its marks were put: the suggested axis; nothing where there is no cylinder, or the
    /// cornea has no steep meridian.
    pub axis: Option<Meridian>,
    /// Whether it corrects more than there is, which turns what is left by a right angle.
    pub overcorrects: bool,
    /// What it leaves, or why that is not known.
    pub outcome: Result<Residual, ToricRefusal>,
}

/// The chosen cylinder at the chosen axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChosenStep {
    pub choice: ToricChoice,
    /// How far the chosen axis lies from the best one, degrees, −90 to 90, counter-clockwise
    /// positive; nothing where there is no best one.
    pub off_axis_degrees: Option<f64>,
    /// Whether it corrects more than there is.
    pub overcorrects: bool,
    /// What it leaves, or why that is not known.
    pub outcome: Result<Residual, ToricRefusal>,
}

/// What one formula makes of a toric lens.
#[derive(Clone, Debug, PartialEq)]
pub struct ToricPrediction {
    pub formula: Formula,
    /// Its eye, with the cornea after the operation.
    pub eye: ToricEye,
    /// Corneal astigmatism after the operation at the formula's index.
    pub net: DoubleAngle,
    /// Best axis in degrees: the steep meridian of the cornea after the operation.
    pub best_axis_degrees: Option<f64>,
    /// The same to the nearest whole degree.
    pub suggested_axis: Option<Meridian>,
    /// Cylinder that would leave none, and how cylinders at lens and cornea compare.
    pub exact: ExactCylinder,
    /// No cylinder first, then every cylinder the lens is made in, at the suggested axis.
    pub steps: Vec<StepResult>,
    /// The chosen cylinder at the chosen axis.
    pub chosen: Option<ChosenStep>,
}

/// What is known of the lens.
#[derive(Clone, Copy, Debug)]
pub struct LensOnOffer<'a> {
    pub labeled: HundredthDiopters,
    /// Its cylinders; nothing for a lens that is not toric.
    pub steps: Option<&'a ToricSteps>,
    pub chosen: Option<ToricChoice>,
}

impl LensOnOffer<'_> {
    pub fn lens(&self, cylinder: Diopters, axis_degrees: f64) -> ToricLens {
        ToricLens {
            labeled: self.labeled.diopters(),
            label: self
                .steps
                .map_or(PowerLabel::SphericalEquivalent, ToricSteps::label),
            cylinder,
            axis_degrees,
        }
    }
}

impl ToricPrediction {
    pub fn of(
        formula: Formula,
        eye: &EyeModel,
        terms: &CornealTerms,
        offer: &LensOnOffer<'_>,
    ) -> Result<Self, ToricRefusal> {
        let (EyeModel::Thin(thin), Some(cornea)) = (eye, terms.cornea_for(formula)) else {
            return Err(ToricRefusal::NotByMeridian);
        };
        let eye = ToricEye::new(thin, cornea);
        let net = cornea.double_angle();
        let none = offer.lens(Diopters::new(0.0), 180.0);
        let exact = eye.cylinder_for(none.labeled, none.label)?;
        let suggested_axis = net.steep_meridian();
        let outcome = |cylinder: HundredthDiopters, axis: Option<Meridian>| {
            terms.posterior.allows(cylinder)?;
            let axis = axis.ok_or(ToricRefusal::NoSteepMeridian)?;
            let lens = offer.lens(cylinder.diopters(), f64::from(axis.degrees()));
            residual(&eye, &lens)
        };
        let overcorrects = |cylinder: HundredthDiopters| exact.cylinder < cylinder.diopters();
        let mut steps = vec![StepResult {
            cylinder: None,
            axis: None,
            overcorrects: false,
            outcome: residual(&eye, &none),
        }];
        let made = offer.steps.map_or(&[][..], ToricSteps::cylinders);
        steps.extend(made.iter().map(|&cylinder| StepResult {
            cylinder: Some(cylinder),
            axis: suggested_axis,
            overcorrects: overcorrects(cylinder),
            outcome: outcome(cylinder, suggested_axis),
        }));
        let best_axis_degrees = net.steep_degrees();
        let chosen = offer.chosen.map(|choice| ChosenStep {
            choice,
            off_axis_degrees: best_axis_degrees.map(|best| off_axis(choice.axis, best)),
            overcorrects: overcorrects(choice.cylinder),
            outcome: outcome(choice.cylinder, Some(choice.axis)),
        });
        Ok(Self {
            formula,
            eye,
            net,
            best_axis_degrees,
            suggested_axis,
            exact,
            steps,
            chosen,
        })
    }

    /// What a cylinder of the lens is worth in front of the cornea, by this eye's ratio.
    pub fn at_corneal_plane(&self, cylinder: Diopters) -> Diopters {
        Diopters::new(cylinder.d() / self.exact.ratio)
    }

    /// The same power without a cylinder.
    pub fn without_cylinder(&self) -> Option<&Residual> {
        self.steps.first()?.outcome.as_ref().ok()
    }

    /// The step that leaves the smallest cylinder, the weaker of two equals; a step without one counts.
    pub fn least_left(&self) -> Option<&StepResult> {
        least_of(&self.steps, |_| true)
    }

    /// The same among the steps that do not correct more than there is.
    pub fn least_left_without_overcorrecting(&self) -> Option<&StepResult> {
        least_of(&self.steps, |step| !step.overcorrects)
    }

    /// The next lower cylinder under the one that leaves least; nothing under the lowest.
    pub fn next_lower(&self) -> Option<HundredthDiopters> {
        let least = self.least_left()?.cylinder?;
        let made = self.steps.iter().filter_map(|step| step.cylinder);
        made.filter(|cylinder| *cylinder < least).max()
    }
}

fn least_of(steps: &[StepResult], counts: impl Fn(&StepResult) -> bool) -> Option<&StepResult> {
    let mut least: Option<(&StepResult, Diopters)> = None;
    for step in steps.iter().filter(|step| counts(step)) {
        let Ok(residual) = &step.outcome else {
            continue;
        };
        let left = residual.cylinder();
        if least.is_none_or(|(_, smallest)| left < smallest) {
            least = Some((step, left));
        }
    }
    least.map(|(step, _)| step)
}

fn residual(eye: &ToricEye, lens: &ToricLens) -> Result<Residual, ToricRefusal> {
    let refraction = eye.refraction_with(lens.power())?;
    Ok(Residual { refraction })
}

/// From the best axis to the chosen one, −90 to 90.
fn off_axis(chosen: Meridian, best_degrees: f64) -> f64 {
    (f64::from(chosen.degrees()) - best_degrees + 90.0).rem_euclid(180.0) - 90.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Millimeters;

    /// By hand: label 20 and cylinder 3 is 18.5 to 21.5 if the label is the mean, 20 to 23 if it is
    /// the weakest meridian; weakest on the marks.
    #[test]
    fn the_label_means_what_the_record_says() {
        for (label, [weak, strong]) in [
            (PowerLabel::SphericalEquivalent, [18.5, 21.5]),
            (PowerLabel::WeakestMeridian, [20.0, 23.0]),
        ] {
            let lens = ToricLens {
                labeled: Diopters::new(20.0),
                label,
                cylinder: Diopters::new(3.0),
                axis_degrees: 70.0,
            };
            let power = lens.power().minus_cylinder();
            assert!((power.power_in(70.0).d() - weak).abs() < 1e-12);
            assert!((power.power_in(160.0).d() - strong).abs() < 1e-12);
        }
    }

    #[test]
    fn off_axis_takes_the_short_way() {
        let from = |chosen, best| off_axis(Meridian::new(chosen).unwrap(), best);
        assert!((from(175, 2.5) + 7.5).abs() < 1e-12);
        assert!((from(3, 178.0) - 5.0).abs() < 1e-12);
        assert!((from(90, 90.0)).abs() < 1e-12);
    }

    /// What is left with and against the rule may be of one size: then the weaker cylinder counts.
    #[test]
    fn of_two_equals_the_weaker_step_leaves_least() {
        let none = Diopters::new(0.0);
        let step = |hundredths, j0_d| {
            let power = PowerVector {
                m: none,
                j0: Diopters::new(j0_d),
                j45: none,
            };
            let refraction = Refraction {
                at_cornea: power,
                at_spectacles: power,
            };
            StepResult {
                cylinder: Some(HundredthDiopters::new(hundredths)),
                axis: None,
                overcorrects: false,
                outcome: Ok(Residual { refraction }),
            }
        };
        let prediction = ToricPrediction {
            formula: Formula::SrkT,
            eye: ToricEye {
                optical_length: Millimeters::new(23.5),
                lens_position: Millimeters::new(5.0),
                cornea: DoubleAngle::of(none, 90.0).power_vector(Diopters::new(43.5)),
            },
            net: DoubleAngle::of(none, 90.0),
            best_axis_degrees: None,
            suggested_axis: None,
            exact: ExactCylinder {
                cylinder: none,
                ratio: 1.4,
            },
            steps: vec![
                step(100, 0.75),
                step(150, 0.25),
                step(225, -0.25),
                step(300, -0.75),
            ],
            chosen: None,
        };
        let least = prediction.least_left().unwrap();
        assert_eq!(least.cylinder, Some(HundredthDiopters::new(150)));
    }
}
