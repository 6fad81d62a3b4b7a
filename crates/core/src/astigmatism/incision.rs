//! What the incision does to the cornea: it flattens its own meridian and steepens the one at right
//! angles to it.
//!
//! # Equation
//!
//! ```text
//! −f at the incision's meridian     f: centroid of the flattening, D
//! ```
//!
//! The mean power stays (a coupling of one: assumption).
//!
//! # Published effect
//!
//! Temporal phacoemulsification through 2.8 mm, 200 eyes: centroid 0.18 D at 97, mean size
//! 0.50 ± 0.36 D. An incision at 180 that flattens its own meridian steepens 90, not 97; the centroid's
//! 0.18 D is applied as flattening of the incision's own meridian, wherever that lies (assumption).
//!
//! Scatter about the centroid, from the mean square of a vector:
//!
//! ```text
//! E|v|² = 0.50² + 0.36² = 0.3796     mean square of the size: its mean squared and its variance
//! E|v − c|² = 0.3796 − 0.18² = 0.3472    about the centroid
//! per component √(0.3472/2) = 0.4167 D    the scatter taken as round (derived)
//! ```
//!
//! Source: Front Med 2021;8:670337 (printed).

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::{ToricCaution, ToricNeeds, ToricRefusal};
use crate::biometry::{Sector, Side};
use crate::calendar::Day;
use crate::choice::Approach;
use crate::evidence::{HOUSE, OPTICS, Source, Standing, TEMPORAL_INCISION_2021};
use crate::optics::DoubleAngle;
use crate::quantity::{
    Diopters, Direction, HundredthDiopters, Micrometers, OutOfRange, Text, checked_when_read,
};

/// An incision as planned; what was not decided is absent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Incision {
    /// For which approach.
    pub approach: Option<Approach>,
    /// Its width.
    pub width: Option<Micrometers>,
    /// Its direction from the center of the cornea.
    pub direction: Option<Direction>,
    /// What such an incision does to the cornea, from the surgeon's own results.
    pub effect: Option<IncisionEffect>,
}

/// Effect of a surgeon's own incisions, from the surgeon's own results.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct IncisionEffect {
    #[serde_as(as = "Text")]
    flattening: HundredthDiopters,
    #[serde_as(as = "Text")]
    scatter: HundredthDiopters,
    eyes: u32,
    #[serde_as(as = "Option<Day>")]
    on: Option<NaiveDate>,
}

checked_when_read!(IncisionEffect, IncisionEffect::check);

impl IncisionEffect {
    /// Smallest and largest flattening accepted (house value): a steepening has a lost sign.
    pub const FLATTENING: [HundredthDiopters; 2] =
        [HundredthDiopters::new(0), HundredthDiopters::new(500)];
    /// Smallest and largest scatter accepted (house value): no series has none.
    pub const SCATTER: [HundredthDiopters; 2] =
        [HundredthDiopters::new(1), HundredthDiopters::new(300)];
    /// Fewest eyes: one has no scatter.
    pub const FEWEST_EYES: u32 = 2;

    /// Centroid of the flattening, SD of each double-angle component, number of eyes, day.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] outside the ranges above.
    pub fn new(
        flattening: HundredthDiopters,
        scatter: HundredthDiopters,
        eyes: u32,
        on: Option<NaiveDate>,
    ) -> Result<Self, OutOfRange> {
        let effect = Self {
            flattening,
            scatter,
            eyes,
            on,
        };
        effect.check()?;
        Ok(effect)
    }

    fn check(&self) -> Result<(), OutOfRange> {
        let (flattening, scatter) = (self.flattening, self.scatter);
        for (quantity, power, limits) in [
            ("flattening by the incision", flattening, Self::FLATTENING),
            ("scatter of the incision's effect", scatter, Self::SCATTER),
        ] {
            OutOfRange::unless_within(quantity, power, limits)?;
        }
        let quantity = "number of eyes behind the incision's effect";
        OutOfRange::unless_within(quantity, self.eyes, [Self::FEWEST_EYES, u32::MAX])
    }

    /// Centroid of the flattening of the incision's own meridian.
    #[must_use]
    pub const fn flattening(self) -> HundredthDiopters {
        self.flattening
    }

    /// Standard deviation of each double-angle component.
    #[must_use]
    pub const fn scatter(self) -> HundredthDiopters {
        self.scatter
    }

    /// Number of eyes.
    #[must_use]
    pub const fn eyes(self) -> u32 {
        self.eyes
    }

    /// The day it was worked out.
    #[must_use]
    pub const fn on(self) -> Option<NaiveDate> {
        self.on
    }
}

/// What an incision term rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IncisionBasis {
    /// The surgeon's own results.
    Surgeon(IncisionEffect),
    /// The published temporal incision of 2.8 mm.
    Published,
}

/// What both bases share.
const OWN_MERIDIAN: Source = Source {
    work: HOUSE,
    locator: "an incision flattens its own meridian, wherever it lies, and leaves the mean power",
    standing: Standing::Assumption,
};

impl IncisionBasis {
    /// Where the term comes from.
    #[must_use]
    pub const fn sources(self) -> &'static [Source] {
        match self {
            Self::Surgeon(_) => &[OWN_MERIDIAN],
            Self::Published => &[
                Source {
                    work: TEMPORAL_INCISION_2021,
                    locator: "centroid 0.18 D at 97, mean size 0.50 ± 0.36 D",
                    standing: Standing::Printed,
                },
                Source {
                    work: OPTICS,
                    locator: "scatter of the incision's effect about that centroid, taken as round",
                    standing: Standing::Derived,
                },
                OWN_MERIDIAN,
            ],
        }
    }
}

/// The incision as a term of the astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IncisionTerm {
    /// What it adds to the cornea.
    pub astigmatism: DoubleAngle,
    /// Standard deviation of each double-angle component.
    pub scatter: Diopters,
    /// Where it lies.
    pub direction: Direction,
    /// Where it lies on this eye, in words.
    pub place: Sector,
    /// What it rests on.
    pub basis: IncisionBasis,
}

/// Centroid of the published effect (printed), D.
const PUBLISHED_FLATTENING_D: f64 = 0.18;
/// Mean size of the published effect and its SD (printed), D.
const PUBLISHED_SIZE_D: [f64; 2] = [0.50, 0.36];
/// Width of the published incision (printed).
const PUBLISHED_WIDTH: Micrometers = Micrometers::new(2_800);

impl IncisionTerm {
    /// The term for the incision as planned.
    ///
    /// # Errors
    ///
    /// [`ToricRefusal`] if approach, direction or, without the surgeon's own figures, width are
    /// missing, or if nothing is published for such an incision.
    pub fn of(incision: Incision, side: Side) -> Result<Self, ToricRefusal> {
        let missing = |what| ToricRefusal::Missing { what };
        let direction = incision
            .direction
            .ok_or(missing(ToricNeeds::IncisionDirection))?;
        Self::at(incision, side, direction)
    }

    /// The term for the same incision at another direction.
    ///
    /// # Errors
    ///
    /// As [`Self::of`].
    pub fn at(incision: Incision, side: Side, direction: Direction) -> Result<Self, ToricRefusal> {
        let missing = |what| ToricRefusal::Missing { what };
        let approach = incision.approach.ok_or(missing(ToricNeeds::Approach))?;
        let (flattening, scatter, basis) = match (incision.effect, approach) {
            (Some(own), _) => (
                own.flattening.diopters(),
                own.scatter.diopters(),
                IncisionBasis::Surgeon(own),
            ),
            (None, Approach::SmallIncision) => return Err(ToricRefusal::SmallIncisionUnknown),
            (None, Approach::Phacoemulsification) => {
                let width = incision.width.ok_or(missing(ToricNeeds::IncisionWidth))?;
                if PUBLISHED_WIDTH < width {
                    return Err(ToricRefusal::WideIncisionUnknown { width });
                }
                (
                    Diopters::new(PUBLISHED_FLATTENING_D),
                    published_scatter(),
                    IncisionBasis::Published,
                )
            }
        };
        Ok(Self {
            astigmatism: DoubleAngle::of(-flattening, f64::from(direction.degrees())),
            scatter,
            direction,
            place: side.sector(direction),
            basis,
        })
    }

    /// What is dubious about it.
    pub fn cautions(&self) -> impl Iterator<Item = ToricCaution> {
        let published = self.basis == IncisionBasis::Published;
        let elsewhere = published && self.place != Sector::Temporal;
        [
            published.then_some(ToricCaution::IncisionPublished),
            elsewhere.then_some(ToricCaution::IncisionElsewhere),
        ]
        .into_iter()
        .flatten()
    }
}

/// Scatter of each component about the published centroid.
fn published_scatter() -> Diopters {
    let [size_d, spread_d] = PUBLISHED_SIZE_D;
    let about_zero = size_d * size_d + spread_d * spread_d;
    let about_centroid = about_zero - PUBLISHED_FLATTENING_D * PUBLISHED_FLATTENING_D;
    Diopters::new((about_centroid / 2.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn planned(approach: Approach, width_um: i32, degrees: u16) -> Incision {
        Incision {
            approach: Some(approach),
            width: Some(Micrometers::new(width_um)),
            direction: Direction::new(degrees).ok(),
            ..Incision::default()
        }
    }

    fn own(flattening: i32) -> Option<IncisionEffect> {
        let [flattening, scatter] = [flattening, 25].map(HundredthDiopters::new);
        IncisionEffect::new(flattening, scatter, 60, None).ok()
    }

    /// By hand: (0.25 + 0.1296 − 0.0324)/2 = 0.1736, whose root is 0.41665.
    #[test]
    fn published_scatter_by_hand() {
        assert!((published_scatter().d() - 0.41665).abs() < 5e-6);
    }

    /// By hand: flattening at 180 is steepening at 90, at 45 steepening at 135.
    #[test]
    fn an_incision_flattens_its_own_meridian() {
        let phaco = |degrees| planned(Approach::Phacoemulsification, 2_800, degrees);
        for (degrees, steepened) in [(180, 90.0), (360, 90.0), (90, 180.0), (225, 135.0)] {
            let term = IncisionTerm::of(phaco(degrees), Side::Right).unwrap();
            assert!((term.astigmatism.cylinder().d() - 0.18).abs() < 1e-12);
            let found = term.astigmatism.steep_degrees().unwrap();
            assert!((found - steepened).abs() < 1e-9, "{degrees}: {found}");
        }
    }

    #[test]
    fn the_published_effect_is_for_temporal_incisions_up_to_2_8_mm() {
        use ToricCaution::{IncisionElsewhere, IncisionPublished};
        let phaco = |width, degrees| planned(Approach::Phacoemulsification, width, degrees);
        let cautions = |side, degrees| {
            let term = IncisionTerm::of(phaco(2_400, degrees), side).unwrap();
            term.cautions().collect::<Vec<_>>()
        };
        assert_eq!(cautions(Side::Right, 180), [IncisionPublished]);
        assert_eq!(cautions(Side::Left, 360), [IncisionPublished]);
        let elsewhere = [IncisionPublished, IncisionElsewhere];
        assert_eq!(cautions(Side::Left, 180), elsewhere);
        assert_eq!(cautions(Side::Right, 90), elsewhere);
        assert_eq!(
            IncisionTerm::of(phaco(2_801, 180), Side::Right)
                .unwrap_err()
                .to_string(),
            "effect of an incision of 2.801 mm on the cornea is not known (published up to 2.80 mm): \
             the surgeon's own figures may be recorded"
        );
    }

    #[test]
    fn a_small_incision_needs_the_surgeons_own_figures() {
        let mut incision = planned(Approach::SmallIncision, 6_500, 90);
        assert_eq!(
            IncisionTerm::of(incision, Side::Right),
            Err(ToricRefusal::SmallIncisionUnknown)
        );
        incision.effect = own(80);
        let term = IncisionTerm::of(incision, Side::Right).unwrap();
        assert!((term.astigmatism.cylinder().d() - 0.8).abs() < 1e-12);
        assert!((term.astigmatism.steep_degrees().unwrap() - 180.0).abs() < 1e-9);
        assert_eq!(term.scatter, Diopters::new(0.25));
        assert_eq!(term.cautions().count(), 0);
    }

    /// The left eye is the right one in a mirror: direction d becomes 180 − d, the place stays, the
    /// effect keeps its size and its meridian is mirrored.
    #[test]
    fn a_mirrored_incision_has_a_mirrored_effect() {
        for degrees in 1..=360 {
            let phaco = |degrees| planned(Approach::Phacoemulsification, 2_800, degrees);
            let right = IncisionTerm::of(phaco(degrees), Side::Right).unwrap();
            let mirrored = match (540 - degrees) % 360 {
                0 => 360,
                mirrored => mirrored,
            };
            let left = IncisionTerm::of(phaco(mirrored), Side::Left).unwrap();
            assert_eq!(right.place, left.place, "{degrees}");
            let (right, left) = (right.astigmatism, left.astigmatism);
            assert!((right.x - left.x).d().abs() < 1e-12, "{degrees}");
            assert!((right.y + left.y).d().abs() < 1e-12, "{degrees}");
        }
    }

    #[test]
    fn what_is_missing_is_named() {
        let complete = planned(Approach::Phacoemulsification, 2_400, 180);
        let message = |remove: fn(&mut Incision)| {
            let mut incision = complete;
            remove(&mut incision);
            IncisionTerm::of(incision, Side::Right)
                .unwrap_err()
                .to_string()
        };
        assert_eq!(
            message(|incision| incision.direction = None),
            "needs the direction of the incision"
        );
        assert_eq!(
            message(|incision| incision.approach = None),
            "needs the approach, since each has its own incision"
        );
        assert_eq!(
            message(|incision| incision.width = None),
            "needs the width of the incision"
        );
    }

    #[test]
    fn figures_that_cannot_be_are_refused() {
        let new = |flattening, scatter, eyes| {
            let [flattening, scatter] = [flattening, scatter].map(HundredthDiopters::new);
            IncisionEffect::new(flattening, scatter, eyes, None)
        };
        for (flattening, scatter, eyes) in [(0, 1, 2), (500, 300, 2)] {
            assert!(new(flattening, scatter, eyes).is_ok());
        }
        for (flattening, scatter, eyes) in [(501, 25, 60), (30, 0, 60), (30, 301, 60), (30, 25, 1)]
        {
            assert!(new(flattening, scatter, eyes).is_err());
        }
        assert_eq!(
            new(-1, 25, 60).unwrap_err().to_string(),
            "flattening by the incision \u{2212}0.01 D is outside +0.00 D to +5.00 D"
        );
    }
}
