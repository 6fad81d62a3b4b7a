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
//!
//! # Scatter of its own
//!
//! An effect is found by keratometry before and after, so that its observed scatter holds that of two
//! keratometries. They are taken off before keratometry is added to it for the next eye:
//!
//! ```text
//! σi² = σobs² − 2·σk²        σk: keratometry, per component (derived)
//! ```
//!
//! Where the two keratometries make as much as was observed, nothing is left to the incision, and
//! that is said: 0.1736 − 2·0.30² is less than nothing, so that keratometry explains the whole
//! published scatter.

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
    pub approach: Option<Approach>,
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
            ("scatter of the SIA", scatter, Self::SCATTER),
        ] {
            OutOfRange::unless_within(quantity, power, limits)?;
        }
        let quantity = "number of eyes behind the SIA";
        OutOfRange::unless_within(quantity, self.eyes, [Self::FEWEST_EYES, u32::MAX])
    }

    /// Centroid of the flattening of the incision's own meridian.
    pub const fn flattening(self) -> HundredthDiopters {
        self.flattening
    }

    /// Standard deviation of each double-angle component.
    pub const fn scatter(self) -> HundredthDiopters {
        self.scatter
    }

    pub const fn eyes(self) -> u32 {
        self.eyes
    }

    /// The day it was worked out.
    pub const fn on(self) -> Option<NaiveDate> {
        self.on
    }
}

/// What an incision term rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IncisionBasis {
    Surgeon(IncisionEffect),
    /// The published temporal incision of 2.8 mm.
    Published,
}

/// What both bases share.
const OWN_MERIDIAN: Source = Standing::Assumption.of(
    HOUSE,
    "an incision flattens its own meridian, wherever it lies, and leaves the mean power",
);

impl IncisionBasis {
    /// Where the term comes from.
    pub const fn sources(self) -> &'static [Source] {
        match self {
            Self::Surgeon(_) => &[OWN_MERIDIAN],
            Self::Published => {
                const {
                    &[
                        Standing::Printed.of(
                            TEMPORAL_INCISION_2021,
                            "centroid 0.18 D at 97, mean size 0.50 ± 0.36 D",
                        ),
                        Standing::Derived.of(
                            OPTICS,
                            "scatter of the incision's effect about that centroid, taken as round; two keratometries taken off",
                        ),
                        OWN_MERIDIAN,
                    ]
                }
            }
        }
    }
}

/// The incision as a term of the astigmatism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IncisionTerm {
    /// What it adds to the cornea.
    pub astigmatism: DoubleAngle,
    /// Standard deviation of each double-angle component as observed, which holds two keratometries.
    pub scatter: Diopters,
    pub direction: Direction,
    /// Where it lies on this eye, in words.
    pub place: Sector,
    pub basis: IncisionBasis,
}

/// What an observed scatter leaves to the incision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OwnScatter {
    /// Standard deviation of each double-angle component.
    Left(Diopters),
    /// Two keratometries explain all of it.
    InKeratometry,
}

impl OwnScatter {
    /// What is left of an observed scatter when two keratometries of this spread are taken off.
    pub fn of(observed: Diopters, keratometry: Diopters) -> Self {
        let left = observed.d() * observed.d() - 2.0 * keratometry.d() * keratometry.d();
        if 0.0 < left {
            Self::Left(Diopters::new(left.sqrt()))
        } else {
            Self::InKeratometry
        }
    }

    /// What is counted beside the eye's own keratometry.
    pub const fn counted(self) -> Diopters {
        match self {
            Self::Left(scatter) => scatter,
            Self::InKeratometry => Diopters::new(0.0),
        }
    }
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
mod tests;
