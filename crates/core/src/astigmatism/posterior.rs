//! What the back of the cornea does to the astigmatism: measured, left out, or estimated.
//!
//! # Sign
//!
//! The back of the cornea has negative power, mostly strongest in the vertical. "−0.27 D at 90"
//! therefore takes power away in the vertical: with the rule the whole cornea has less astigmatism
//! than its front, against the rule more.
//!
//! # Equation
//!
//! ```text
//! measured m, strongest at β   −m at β
//! regression                   with the rule −(0.15·C + 0.22) at 90
//!                              oblique       −(0.05·C + 0.27) at 90
//!                              against it    −0.27 at 90
//! multiplier                   with the rule 0.75, against it 1.41 times the front: (0.75 − 1)·front
//! ```
//!
//! C is the cylinder of the front at index 1.3375 (which index the paper took is not in what was
//! read of it: assumption). The term is a power at the corneal plane, added to the front as each
//! formula sees it. An index such as 1.3375 already makes the front weaker than it is, on the mean by
//! what the back takes away; a measured back is added all the same, without correcting the front
//! (assumption), which understates a front's astigmatism by a tenth.
//!
//! # Source
//!
//! Regression on 928 eyes, Am J Ophthalmol (printed, abstract); multiplier where the lens cylinder is
//! at most 2 D: Goggin, J Refract Surg 2015;31 (printed, abstract).

use super::{Orientation, ToricCaution, ToricRefusal};
use crate::biometry::PosteriorAstigmatism;
use crate::evidence::{GOGGIN_2015, HOUSE, OPTICS, POSTERIOR_928, Source, Standing};
use crate::optics::DoubleAngle;
use crate::quantity::{Diopters, HundredthDiopters};

/// How the back of the cornea enters the plan. Unchosen: measured if present, else left out with a
/// caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PosteriorChoice {
    Measured,
    LeftOut,
    /// Estimated by the regression on 928 eyes.
    Regression,
    /// Estimated by the multiplier 0.75 or 1.41.
    Multiplier,
}

/// What a posterior term rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PosteriorBasis {
    Measured,
    /// Nothing: not measured and nothing chosen.
    NotMeasured,
    LeftOut,
    Regression(Orientation),
    Multiplier(Orientation),
}

/// The regression on 928 eyes.
pub const REGRESSION_SOURCE: Source = Standing::Printed.of(
    POSTERIOR_928,
    "with the rule −(0.15·Cyl + 0.22) D at 90, oblique −(0.05·Cyl + 0.27), against −0.27",
);

pub const MULTIPLIER_SOURCE: Source = Standing::Printed.of(
    GOGGIN_2015,
    "0.75 with, 1.41 against the rule, lens cylinder up to 2 D",
);

impl PosteriorBasis {
    /// Where the term comes from.
    pub const fn source(self) -> Source {
        match self {
            Self::Measured => Standing::Derived.of(
                OPTICS,
                "negative power of the back as measured, added to the front",
            ),
            Self::NotMeasured | Self::LeftOut => {
                Standing::Assumption.of(HOUSE, "posterior cornea taken as without astigmatism")
            }
            Self::Regression(_) => REGRESSION_SOURCE,
            Self::Multiplier(_) => MULTIPLIER_SOURCE,
        }
    }
}

/// The back of the cornea as a term of the astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PosteriorTerm {
    /// What it adds to the front.
    pub astigmatism: DoubleAngle,
    pub basis: PosteriorBasis,
    /// Largest lens cylinder it may be used with, if there is one.
    pub largest_lens_cylinder: Option<HundredthDiopters>,
}

/// Largest lens cylinder of the multiplier (printed, abstract).
const MULTIPLIER_CYLINDER: HundredthDiopters = HundredthDiopters::new(200);

impl PosteriorTerm {
    /// The term for a front of astigmatism `front` at index 1.3375.
    pub fn of(
        choice: Option<PosteriorChoice>,
        measured: Option<PosteriorAstigmatism>,
        front: DoubleAngle,
    ) -> Result<Self, ToricRefusal> {
        let plain = |astigmatism, basis| Self {
            astigmatism,
            basis,
            largest_lens_cylinder: None,
        };
        let nothing = |basis| plain(DoubleAngle::ZERO, basis);
        let as_measured = |back| plain(term_of(back), PosteriorBasis::Measured);
        Ok(match choice {
            None => measured.map_or_else(|| nothing(PosteriorBasis::NotMeasured), as_measured),
            Some(PosteriorChoice::Measured) => {
                as_measured(measured.ok_or(ToricRefusal::PosteriorNotMeasured)?)
            }
            Some(PosteriorChoice::LeftOut) => nothing(PosteriorBasis::LeftOut),
            Some(PosteriorChoice::Regression) => {
                let orientation = orientation_of(front)?;
                plain(
                    by_regression(front, orientation),
                    PosteriorBasis::Regression(orientation),
                )
            }
            Some(PosteriorChoice::Multiplier) => {
                let orientation = orientation_of(front)?;
                let factor = match orientation {
                    Orientation::WithTheRule => 0.75,
                    Orientation::AgainstTheRule => 1.41,
                    Orientation::Oblique => return Err(ToricRefusal::MultiplierOblique),
                };
                Self {
                    astigmatism: front * (factor - 1.0),
                    basis: PosteriorBasis::Multiplier(orientation),
                    largest_lens_cylinder: Some(MULTIPLIER_CYLINDER),
                }
            }
        })
    }

    /// Refuses a lens cylinder the term is not published for.
    pub fn allows(&self, cylinder: HundredthDiopters) -> Result<(), ToricRefusal> {
        match self.largest_lens_cylinder {
            Some(largest) if largest < cylinder => Err(ToricRefusal::MultiplierAbove { cylinder }),
            _ => Ok(()),
        }
    }

    /// The caution it needs, unless it was measured.
    pub const fn caution(&self) -> Option<ToricCaution> {
        match self.basis {
            PosteriorBasis::Measured => None,
            PosteriorBasis::NotMeasured => Some(ToricCaution::PosteriorLeftOut),
            PosteriorBasis::LeftOut => Some(ToricCaution::PosteriorLeftOutByChoice),
            PosteriorBasis::Regression(_) | PosteriorBasis::Multiplier(_) => {
                Some(ToricCaution::PosteriorEstimated)
            }
        }
    }
}

/// Power taken away where the negative power is strongest.
fn term_of(back: PosteriorAstigmatism) -> DoubleAngle {
    let taken = -back.magnitude().diopters();
    DoubleAngle::of(taken, f64::from(back.steep().degrees()))
}

fn by_regression(front: DoubleAngle, orientation: Orientation) -> DoubleAngle {
    let cylinder_d = front.cylinder().d();
    let taken_d = match orientation {
        Orientation::WithTheRule => 0.15 * cylinder_d + 0.22,
        Orientation::Oblique => 0.05 * cylinder_d + 0.27,
        Orientation::AgainstTheRule => 0.27,
    };
    DoubleAngle::of(Diopters::new(-taken_d), 90.0)
}

fn orientation_of(front: DoubleAngle) -> Result<Orientation, ToricRefusal> {
    let degrees = front.steep_degrees().ok_or(ToricRefusal::NoSteepMeridian)?;
    Ok(Orientation::of(degrees))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Meridian;

    fn front(cylinder: f64, degrees: f64) -> DoubleAngle {
        DoubleAngle::of(Diopters::new(cylinder), degrees)
    }

    /// Cylinder and steep meridian of front and back together.
    fn total(choice: PosteriorChoice, cylinder: f64, degrees: f64) -> (f64, f64) {
        let front = front(cylinder, degrees);
        let back =
            PosteriorAstigmatism::new(HundredthDiopters::new(30), Meridian::new(90).unwrap());
        let term = PosteriorTerm::of(Some(choice), back.ok(), front).unwrap();
        let sum = front + term.astigmatism;
        (sum.cylinder().d(), sum.steep_degrees().unwrap())
    }

    fn assert_total(choice: PosteriorChoice, of: (f64, f64), expected: (f64, f64)) {
        let found = total(choice, of.0, of.1);
        let off = ((found.0 - expected.0).abs(), (found.1 - expected.1).abs());
        assert!(off.0 < 1e-9 && off.1 < 1e-6, "{choice:?} {of:?}: {found:?}");
    }

    /// By hand. Measured 0.30 at 90: 2.00 − 0.30 = 1.70 with the rule, 1.00 + 0.30 = 1.30 against it.
    /// Regression with the rule at 2 D: 0.15·2 + 0.22 = 0.52, 2.00 − 0.52 = 1.48; against it 1.27.
    /// Multiplier: 2.00·0.75 = 1.50, 1.00·1.41 = 1.41.
    #[test]
    fn the_back_weakens_with_the_rule_and_strengthens_against_it() {
        use PosteriorChoice::{LeftOut, Measured, Multiplier, Regression};
        for (choice, with, against) in [
            (Measured, 1.70, 1.30),
            (LeftOut, 2.00, 1.00),
            (Regression, 1.48, 1.27),
            (Multiplier, 1.50, 1.41),
        ] {
            assert_total(choice, (2.0, 90.0), (with, 90.0));
            assert_total(choice, (1.0, 180.0), (against, 180.0));
        }
    }

    /// By hand: 2 D at 45 is (0, 2); 0.05·2 + 0.27 = 0.37 at 180 is (0.37, 0): √4.1369 = 2.033937 D
    /// at half of atan(2/0.37) = 79.518782°, 39.759391°.
    #[test]
    fn an_oblique_front_is_turned() {
        let (cylinder_d, degrees) = total(PosteriorChoice::Regression, 2.0, 45.0);
        assert!((cylinder_d - 2.033_937).abs() < 5e-7, "{cylinder_d}");
        assert!((degrees - 39.759_391).abs() < 5e-7, "{degrees}");
    }

    #[test]
    fn what_was_not_measured_is_left_out_with_a_caution_or_refused() {
        let of = |choice, measured| PosteriorTerm::of(choice, measured, front(2.0, 90.0));
        let term = of(None, None).unwrap();
        assert_eq!(term.astigmatism, DoubleAngle::ZERO);
        assert_eq!(term.caution(), Some(ToricCaution::PosteriorLeftOut));
        assert_eq!(
            of(Some(PosteriorChoice::Measured), None),
            Err(ToricRefusal::PosteriorNotMeasured)
        );
        let back =
            PosteriorAstigmatism::new(HundredthDiopters::new(30), Meridian::new(90).unwrap());
        assert_eq!(of(None, back.ok()).unwrap().caution(), None);
    }

    #[test]
    fn the_multiplier_has_its_limits() {
        let of = |front| PosteriorTerm::of(Some(PosteriorChoice::Multiplier), None, front);
        assert_eq!(of(front(1.0, 45.0)), Err(ToricRefusal::MultiplierOblique));
        assert_eq!(of(DoubleAngle::ZERO), Err(ToricRefusal::NoSteepMeridian));
        let term = of(front(1.0, 90.0)).unwrap();
        assert_eq!(term.allows(HundredthDiopters::new(200)), Ok(()));
        let cylinder = HundredthDiopters::new(201);
        let above = ToricRefusal::MultiplierAbove { cylinder };
        assert_eq!(term.allows(cylinder), Err(above));
    }
}
