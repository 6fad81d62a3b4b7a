//! What is left when the lens turns after the operation.
//!
//! # Equation
//!
//! ```text
//! |resid|² = C1² + C2² − 2·C1·C2·cos 2b     C1 cornea, C2 lens at the corneal plane, b off axis
//! ```
//!
//! The closed form takes both cylinders at one plane; the exact answer carries the turned lens through
//! the eye. With equal cylinders 10° leaves 34.7 %, 30° all of it: `2·sin b`. Any lens adds that share of
//! its own cylinder, as a vector, by the turn; whether the eye is then better off than without a
//! cylinder depends on both: no longer from `cos 2b = C2/2·C1`.
//!
//! Source: plain optics (derived); one third at 10°: Felipe, J Cataract Refract Surg 2011 (printed).

use super::{Residual, ToricLens, ToricPrediction};
use crate::evidence::{FELIPE_2011, OPTICS, Source, Standing};
use crate::iol_power::Refusal;
use crate::quantity::{Diopters, math};

/// One third at 10°, as published.
pub const PRINTED_SOURCE: Source = Standing::Printed.of(FELIPE_2011, "one third is left at 10°");

/// The error that a turn adds.
pub const ADDED_SOURCE: Source = Standing::Derived.of(
    OPTICS,
    "error added by a turn: the lens's cylinder at the cornea times twice the sine of the turn",
);

/// Furthest turn shown, degrees.
pub const FURTHEST: u16 = 30;

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rotation {
    pub degrees: u16,
    /// Left after a turn counter-clockwise.
    pub counter_clockwise: Residual,
    /// Left after a turn clockwise.
    pub clockwise: Residual,
    /// The closed form for both, at the corneal plane, in the same order.
    pub closed_form: [Diopters; 2],
}

/// Every turn by 1 to 30 degrees from where the lens stands.
pub fn rotations(prediction: &ToricPrediction, lens: &ToricLens) -> Result<Vec<Rotation>, Refusal> {
    let cornea = prediction.net.cylinder();
    let at_cornea = prediction.at_corneal_plane(lens.cylinder);
    let off_degrees = prediction
        .best_axis_degrees
        .map_or(0.0, |best| lens.axis_degrees - best);
    let after = |degrees: f64| {
        let refraction = prediction
            .eye
            .refraction_with(lens.turned(degrees).power())?;
        Ok::<_, Refusal>(Residual { refraction })
    };
    (1..=FURTHEST)
        .map(|degrees| {
            let turn = f64::from(degrees);
            Ok(Rotation {
                degrees,
                counter_clockwise: after(turn)?,
                clockwise: after(-turn)?,
                closed_form: [off_degrees + turn, off_degrees - turn]
                    .map(|off| left_in_closed_form(cornea, at_cornea, off)),
            })
        })
        .collect()
}

/// Error that a turn adds, as a vector: `2·C2·sin b`, with C2 the lens's cylinder at the corneal plane.
pub fn added_by_turn(at_cornea: Diopters, degrees: u16) -> Diopters {
    at_cornea * (2.0 * math::sin(f64::from(degrees).to_radians()))
}

/// Angle off the steep meridian from which the lens leaves no less than no cylinder would, degrees:
/// `cos 2b = C2/2·C1`. Nothing for a lens that leaves no less at any angle, as it corrects twice what
/// there is or more.
pub fn no_better_from(cornea: Diopters, at_cornea: Diopters) -> Option<f64> {
    let (c1, c2) = (cornea.d(), at_cornea.d());
    if !(0.0 < c2 && c2 < 2.0 * c1) {
        return None;
    }
    // The arc whose cosine is x is 90° less the one whose sine is x.
    Some((90.0 - math::asin(c2 / (2.0 * c1)).to_degrees()) / 2.0)
}

/// Cylinder left by two cylinders in one plane, `off_degrees` from cancelling.
pub fn left_in_closed_form(cornea: Diopters, lens: Diopters, off_degrees: f64) -> Diopters {
    let (c1, c2) = (cornea.d(), lens.d());
    let cosine = math::cos((2.0 * off_degrees).to_radians());
    let squared = c1 * c1 + c2 * c2 - 2.0 * c1 * c2 * cosine;
    // Rounding alone can bring a square below zero.
    Diopters::new(if squared < 0.0 { 0.0 } else { squared.sqrt() })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Printed: one third at 10°; by hand 2·sin 10° = 0.3473 and 2·sin 30° = 1.
    #[test]
    fn ten_degrees_leave_a_third_and_thirty_leave_all() {
        let left = |off| left_in_closed_form(Diopters::new(2.0), Diopters::new(2.0), off).d() / 2.0;
        assert!((left(10.0) - 0.3473).abs() < 5e-5);
        assert!((left(-10.0) - 0.3473).abs() < 5e-5);
        assert!((left(30.0) - 1.0).abs() < 1e-12);
        assert!(left(0.0).abs() < 1e-12);
        let added = |degrees| added_by_turn(Diopters::new(2.0), degrees).d() / 2.0;
        for degrees in 1..=FURTHEST {
            assert!((added(degrees) - left(f64::from(degrees))).abs() < 1e-12);
        }
        // By hand: sin 15° = (√6 − √2)/4 = 0.258819.
        assert!((added(15) - 0.517_638).abs() < 5e-7);
    }

    /// By hand: equal cylinders, cos 2b = ½, b = 30°; a lens of √2 or √3 times the cornea, 22.5° and 15°.
    /// Under-correcting lenses help up to 45° at most, and one of twice the cornea never does.
    #[test]
    fn a_lens_is_no_better_than_none_from_an_angle_that_depends_on_both() {
        let from = |c1, c2| no_better_from(Diopters::new(c1), Diopters::new(c2));
        for (c2, expected) in [
            (2.0, 30.0),
            (2.0 * 2.0_f64.sqrt(), 22.5),
            (2.0 * 3.0_f64.sqrt(), 15.0),
        ] {
            assert!((from(2.0, c2).unwrap() - expected).abs() < 1e-9);
        }
        assert!(from(2.0, 0.01).unwrap() < 45.0);
        for (c1, c2) in [
            (2.0, 4.0),
            (2.0, 5.0),
            (0.0, 1.0),
            (2.0, 0.0),
            (f64::NAN, 1.0),
        ] {
            assert_eq!(from(c1, c2), None);
        }
        for tenths in 1..40 {
            let c2 = Diopters::new(f64::from(tenths) / 10.0);
            let angle = no_better_from(Diopters::new(2.0), c2).unwrap();
            let left = left_in_closed_form(Diopters::new(2.0), c2, angle);
            assert!((left.d() - 2.0).abs() < 1e-9);
        }
    }
}
