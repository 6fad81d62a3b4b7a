//! How uncertain the astigmatism left is: a mean and a covariance at twice the angle.
//!
//! # Equation
//!
//! ```text
//! r(c, φ)    cylinder left at the spectacle plane; c corneal astigmatism, φ turn of the lens
//! Σ = (σk² + σp² + σi²)·J·Jᵀ + σφ²·g·gᵀ     J = ∂r/∂c, g = ∂r/∂φ
//! ```
//!
//! Keratometry, posterior cornea and incision enter alike at the corneal plane, each round and
//! independent of the others (assumption). First order: a lens that turns far loses a little of its
//! mean effect, cos 2φ, which is left out (1.5 % for a spread of 5°). J and g are central
//! differences; r is so nearly straight over the steps that halving them changes nothing that is
//! shown (tested).
//!
//! Chances are those of a normal distribution over a disc.
//!
//! Source: plain propagation of errors (derived).

use core::f64::consts::PI;

use super::disc::chance_in_disc;
use super::{ToricEye, ToricLens};
use crate::evidence::{HOUSE, OPTICS, Source, Standing};
use crate::iol_power::Refusal;
use crate::optics::DoubleAngle;
use crate::quantity::{Diopters, math};

/// How chances and ellipses are computed.
pub const SOURCES: [Source; 2] = [
    Standing::Derived.of(
        OPTICS,
        "chances and ellipses: normal distribution, errors propagated to first order",
    ),
    Standing::Assumption.of(
        HOUSE,
        "each spread of the cylinder round and independent of the others",
    ),
];

/// Spreads (1 SD) that come from outside: of each double-angle component, and of the lens's turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToricSpreads {
    /// Of the keratometric astigmatism.
    pub keratometry: Diopters,
    /// Of the posterior cornea, measured or not.
    pub posterior: Diopters,
    /// Of the turn of the lens, degrees.
    pub rotation_degrees: f64,
}

/// Covariance of two components, in square diopters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Covariance {
    /// Variance of x.
    pub xx: f64,
    /// Covariance of x and y.
    pub xy: f64,
    /// Variance of y.
    pub yy: f64,
}

/// The astigmatism of the refraction at the spectacle plane, as a normal distribution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloud {
    /// Mean: the refraction predicted.
    pub mean: DoubleAngle,
    pub covariance: Covariance,
}

/// An ellipse about the mean, in the plane of twice the angle.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ellipse {
    /// Longer half axis.
    #[serde(rename = "semi_major_d")]
    pub semi_major: Diopters,
    /// Shorter half axis.
    #[serde(rename = "semi_minor_d")]
    pub semi_minor: Diopters,
    /// Direction of the longer one from x, degrees, more than −90 to 90.
    #[serde(rename = "doubled_angle_degrees")]
    pub degrees: f64,
}

/// Steps of the central differences.
const STEP_D: f64 = 1e-3;
const STEP_DEGREES: f64 = 1e-2;

impl Cloud {
    /// The cloud of an eye with a lens in it.
    pub fn of(
        eye: &ToricEye,
        lens: &ToricLens,
        spreads: &ToricSpreads,
        incision_scatter: Diopters,
    ) -> Result<Self, Refusal> {
        Self::with_steps(eye, lens, spreads, incision_scatter, [STEP_D, STEP_DEGREES])
    }

    fn with_steps(
        eye: &ToricEye,
        lens: &ToricLens,
        spreads: &ToricSpreads,
        incision_scatter: Diopters,
        [step_d, step_degrees]: [f64; 2],
    ) -> Result<Self, Refusal> {
        let left = |added: DoubleAngle, turn_degrees: f64| {
            let turned = lens.turned(turn_degrees);
            let moved = ToricEye {
                cornea: eye.cornea.plus(added.power_vector(Diopters::new(0.0))),
                ..*eye
            };
            let refraction = moved.refraction_with(turned.power())?;
            Ok::<_, Refusal>(refraction.at_spectacles.double_angle())
        };
        let none = Diopters::new(0.0);
        let step = Diopters::new(step_d);
        let along = [
            DoubleAngle { x: step, y: none },
            DoubleAngle { x: none, y: step },
        ];
        let per_diopter = 0.5 / step_d;
        let per_degree = 0.5 / step_degrees;
        let by_x = (left(along[0], 0.0)? - left(-along[0], 0.0)?) * per_diopter;
        let by_y = (left(along[1], 0.0)? - left(-along[1], 0.0)?) * per_diopter;
        let turned = left(DoubleAngle::ZERO, step_degrees)?;
        let turned_back = left(DoubleAngle::ZERO, -step_degrees)?;
        let by_turn = (turned - turned_back) * per_degree;

        let variance = [spreads.keratometry, spreads.posterior, incision_scatter]
            .map(|spread| spread.d() * spread.d())
            .iter()
            .sum::<f64>();
        let corneal = outer(by_x).plus(outer(by_y)).times(variance);
        let rotation = spreads.rotation_degrees * spreads.rotation_degrees;
        Ok(Self {
            mean: left(DoubleAngle::ZERO, 0.0)?,
            covariance: corneal.plus(outer(by_turn).times(rotation)),
        })
    }

    /// The ellipse that holds this share of the distribution; nothing unless it lies between 0 and 1.
    pub fn ellipse(&self, share: f64) -> Option<Ellipse> {
        if !(0.0 < share && share < 1.0) {
            return None;
        }
        let reach = (-2.0 * math::ln(1.0 - share)).sqrt();
        let ([major, minor], radians) = self.covariance.principal();
        Some(Ellipse {
            semi_major: Diopters::new(reach * major),
            semi_minor: Diopters::new(reach * minor),
            degrees: radians * 180.0 / PI,
        })
    }

    /// Chance that the cylinder left is at most `limit`.
    pub fn chance_within(&self, limit: Diopters) -> f64 {
        let (spreads, radians) = self.covariance.principal();
        let (cosine, sine) = (math::cos(radians), math::sin(radians));
        let (x, y) = (self.mean.x.d(), self.mean.y.d());
        let center = [x * cosine + y * sine, y * cosine - x * sine];
        chance_in_disc(center, spreads, limit.d())
    }

    /// Chance that a lens which shifts the mean from this cloud's to `with` leaves a smaller cylinder
    /// than this cloud's, the one without that lens: `Φ((μ·t − |t|²/2)/(σ·|t|))`, t the shift and σ
    /// the spread along it. Nothing where nothing is shifted, or nothing scatters.
    ///
    /// The turn of the lens is left out: it moves the result across the shift, not along it.
    pub fn chance_of_less(&self, with: DoubleAngle) -> Option<f64> {
        let shift = self.mean - with;
        let length_d = shift.cylinder().d();
        let mean_d = self.mean.along(shift)?.d();
        let (x, y) = (shift.x.d() / length_d, shift.y.d() / length_d);
        let Covariance { xx, xy, yy } = self.covariance;
        let variance = x * x * xx + 2.0 * x * y * xy + y * y * yy;
        let chance = || math::normal_cdf((mean_d - length_d / 2.0) / variance.sqrt());
        (0.0 < variance).then(chance)
    }
}

impl Covariance {
    fn plus(self, other: Self) -> Self {
        Self {
            xx: self.xx + other.xx,
            xy: self.xy + other.xy,
            yy: self.yy + other.yy,
        }
    }

    fn times(self, factor: f64) -> Self {
        Self {
            xx: self.xx * factor,
            xy: self.xy * factor,
            yy: self.yy * factor,
        }
    }

    /// Standard deviations along its own axes, larger first, and the angle of the larger one.
    fn principal(self) -> ([f64; 2], f64) {
        let mean = self.xx.midpoint(self.yy);
        let half = (self.xx - self.yy) / 2.0;
        let reach = (half * half + self.xy * self.xy).sqrt();
        let radians = math::atan2(self.xy, half) / 2.0;
        // Rounding alone can bring the smaller variance below zero.
        let spread = |variance: f64| if variance < 0.0 { 0.0 } else { variance.sqrt() };
        ([spread(mean + reach), spread(mean - reach)], radians)
    }
}

fn outer(vector: DoubleAngle) -> Covariance {
    let (x, y) = (vector.x.d(), vector.y.d());
    Covariance {
        xx: x * x,
        xy: x * y,
        yy: y * y,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lens::PowerLabel;
    use crate::quantity::Millimeters;

    fn eye() -> ToricEye {
        ToricEye {
            optical_length: Millimeters::new(23.5),
            lens_position: Millimeters::new(5.0),
            cornea: DoubleAngle::of(Diopters::new(3.0), 75.0).power_vector(Diopters::new(43.5)),
        }
    }

    fn lens(cylinder: f64) -> ToricLens {
        ToricLens {
            labeled: Diopters::new(20.0),
            label: PowerLabel::SphericalEquivalent,
            cylinder: Diopters::new(cylinder),
            axis_degrees: 75.0,
        }
    }

    fn spreads(rotation_degrees: f64) -> ToricSpreads {
        ToricSpreads {
            keratometry: Diopters::new(0.3),
            posterior: Diopters::new(0.2),
            rotation_degrees,
        }
    }

    #[test]
    fn halving_the_steps_changes_nothing() {
        let of = |steps| {
            Cloud::with_steps(&eye(), &lens(4.0), &spreads(4.0), Diopters::new(0.4), steps).unwrap()
        };
        let (whole, half) = (of([1e-3, 1e-2]), of([5e-4, 5e-3]));
        for (whole, half) in [
            (whole.covariance.xx, half.covariance.xx),
            (whole.covariance.xy, half.covariance.xy),
            (whole.covariance.yy, half.covariance.yy),
        ] {
            assert!((whole - half).abs() < 1e-8, "{whole} {half}");
        }
    }

    /// By hand: a diopter at the cornea of an emmetropic eye is one at the spectacles, and the three
    /// spreads give √(0.09 + 0.04 + 0.16) = 0.5385 in every direction, here within 3 % for what is left
    /// of sphere and cylinder. A lens without a cylinder may turn as it likes.
    #[test]
    fn a_round_cloud_without_a_cylinder() {
        let of = |rotation| {
            let scatter = Diopters::new(0.4);
            Cloud::of(&eye(), &lens(0.0), &spreads(rotation), scatter).unwrap()
        };
        assert_eq!(of(0.0).covariance, of(10.0).covariance);
        let ellipse = of(0.0).ellipse(0.5).unwrap();
        // √(−2·ln 0.5) = 1.17741
        for half_axis in [ellipse.semi_major, ellipse.semi_minor] {
            assert!((half_axis.d() / 1.17741 / 0.5385 - 1.0).abs() < 0.05);
        }
    }

    /// By hand: a turn by φ moves the effect of C at the cornea across by 2φ·C: C = 4/1.4 = 2.86,
    /// 3° is 0.0524, 2·0.0524·2.86 = 0.30 D, within 10 % for the ratio and the sphere left. The lens lies
    /// at 75, so its effect points to 150 at twice the angle, and across it is 60 or −120.
    #[test]
    fn a_turn_stretches_the_cloud_across_the_cylinder() {
        let quiet = ToricSpreads {
            keratometry: Diopters::new(0.0),
            posterior: Diopters::new(0.0),
            rotation_degrees: 3.0,
        };
        let cloud = Cloud::of(&eye(), &lens(4.0), &quiet, Diopters::new(0.0)).unwrap();
        let ([major, minor], radians) = cloud.covariance.principal();
        assert!((major / 0.30 - 1.0).abs() < 0.10, "{major}");
        assert!(minor < 1e-6, "{minor}");
        assert!((radians.to_degrees() - 60.0).abs() < 1e-6, "{radians}");
    }

    /// By hand: mean 1 at x, shift of 1.5 leaves −0.5: smaller while x is over 0.75, with SD 0.5
    /// Φ((1 − 0.75)/0.5) = Φ(0.5) = 0.6915 (printed table).
    #[test]
    fn a_step_beats_none_on_its_side_of_the_middle() {
        let at = |x| DoubleAngle {
            x: Diopters::new(x),
            y: Diopters::new(0.0),
        };
        let cloud = Cloud {
            mean: at(1.0),
            covariance: Covariance {
                xx: 0.25,
                xy: 0.0,
                yy: 0.04,
            },
        };
        let chance = cloud.chance_of_less(at(-0.5)).unwrap();
        assert!((chance - 0.6915).abs() < 5e-5, "{chance}");
        assert_eq!(cloud.chance_of_less(at(1.0)), None);
        assert_eq!(cloud.ellipse(1.0), None);
    }
}
