//! What else there is to know of a finding.

use serde::{Deserialize, Serialize};

use super::{Band, BorderlineDepth, OddsFactor, Place, RiskItem, Which, WhyUnclear};
use crate::biometry::Side;
use crate::chamber::WorkingPlane;
use crate::iol_power::Formula;
use crate::optics::DoubleAngle;
use crate::quantity::{Direction, HundredthDiopters, Meridian, Micrometers};

/// One thing more to know.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Detail {
    BirthDateMissing,
    /// Reasons that people gave, as typed.
    ReasonsGiven(Vec<String>),
    /// The depth from the epithelium that follows from the corneal thickness.
    DepthFromEpithelium {
        thickness: Micrometers,
        depth: Micrometers,
    },
    /// Power for emmetropia beside the average of the lens.
    EmmetropicPower {
        /// Of this eye.
        power: HundredthDiopters,
        /// Of the lens.
        average: HundredthDiopters,
    },
    EmmetropicPowers {
        /// Of this eye.
        operated: HundredthDiopters,
        /// Of the other.
        fellow: HundredthDiopters,
    },
    AtStandardIndex(Vec<HundredthDiopters>),
    /// Measurements dated after the planned day.
    DatedAfter(Vec<Which>),
    /// How published predictions scatter after corneal surgery.
    ScatterAfterSurgery,
    /// Published differences between lengths by sound and by light.
    UltrasoundMeans,
    FilledEye,
    ByTwoMethods {
        /// The one planned by.
        first: Astigmatism,
        /// The other.
        second: Astigmatism,
    },
    Repeat,
    /// No spread is known, so borderline cannot be judged.
    SpreadUnknown,
    /// One standard deviation.
    Spread {
        of: SpreadOf,
        deviation: Micrometers,
        /// Whether the table's stands in for a measured zero.
        instead_of_zero: bool,
    },
    /// The interval of a measurement, and where the limit lies to it.
    Interval {
        /// Chance that the true value lies in it.
        percent: i32,
        low: Micrometers,
        high: Micrometers,
        /// Of the measurement against the limit.
        place: Place,
    },
    AqueousDepth(Micrometers),
    /// Why it is unclear whether the nucleus is hard, and is taken as if it were.
    TakenAsHard(WhyUnclear),
    /// There is room for many small pieces.
    RoomToDivide,
    /// Capsulorhexis beside optic.
    CapsulorhexisAndOptic {
        capsulorhexis: Micrometers,
        optic: Micrometers,
    },
    /// The mean margin over a turning piece, an estimate at rest.
    Margin {
        plane: WorkingPlane,
        pieces: u8,
        /// Ends of its middle 80 %.
        low: Micrometers,
        high: Micrometers,
        /// In the most unfavorable direction.
        worst: Micrometers,
        /// Share of directions in which a piece touches.
        touch_percent: i32,
    },
    /// Whole nucleus on a pupil.
    OnPupil(Micrometers),
    /// Half the way around what passes the tunnel, beside the tunnel's lips.
    Passage {
        half_perimeter: Micrometers,
        lips: Micrometers,
    },
    /// How far a capsulorhexis stretches around the nucleus lying flat.
    StretchFlat(i32),
    /// What light would read where contact ultrasound reads shorter.
    OpticalDepth(Micrometers),
    /// An estimate of the room over a turning piece, as plans of earlier programs hold it.
    Estimate {
        pieces: u8,
        longest: Micrometers,
        /// Room 2 mm off the axis, where the piece is still under the cornea.
        off_axis: Option<Micrometers>,
        /// Whether the room is shown rounded up to its limit.
        rounded_up: bool,
    },
    /// Risk points, item by item.
    RiskPoints {
        /// Band of the sum.
        band: Band,
        given: Vec<RiskItem>,
        unknown: Vec<RiskItem>,
    },
    /// A depth too near to the limit of its risk point.
    BorderlineDepth(BorderlineDepth),
    /// Odds ratios are not multiplied, and make no percentage.
    NotMultiplied,
    /// Ratios of the paper that its abstract does not print.
    RatiosLeftOut,
    FactorNotRecorded(OddsFactor),
    /// A factor whose own limit is not printed.
    FactorNotApplied(OddsFactor),
    /// Whether the first operation was complicated.
    FirstOperation {
        complicated: Option<bool>,
    },
    /// How a prediction error is counted.
    ErrorConvention,
    /// How far the refractions of the two eyes are apart: this eye's less the other's.
    RefractionsApart {
        found: HundredthDiopters,
        /// As biometry would have it.
        expected: HundredthDiopters,
    },
    NoneProposed,
    /// Model of which two records differ, and the formula by which they differ most.
    SameModel {
        model: String,
        formula: Formula,
    },
    /// The formulas that are farthest apart.
    Extremes {
        lowest: (Formula, HundredthDiopters),
        highest: (Formula, HundredthDiopters),
    },
    NothingForSulcus,
    /// How often the capsule ruptured over such a posterior polar opacity.
    PolarRupture {
        /// Whether it is 4 mm wide or more, if that was recorded.
        wide: Option<bool>,
    },
    /// The lens is taken to sit so far forward of the bag.
    TakenForward(Micrometers),
    /// The power that the eye needs for the target, in that place.
    NeededPower(HundredthDiopters),
    /// Length of an anterior chamber lens that a cornea suggests.
    SuggestedLength {
        diameter: Micrometers,
        suggested: Micrometers,
    },
    /// What a toric step is expected to leave.
    ExpectedToLeave {
        /// The step.
        cylinder: Option<HundredthDiopters>,
        axis: Option<Meridian>,
        left: HundredthDiopters,
        /// Cylinder left without a step.
        without: Option<HundredthDiopters>,
    },
    /// Where an incision on the steep meridian would lie.
    SteepIncision {
        eye: Side,
        at: Direction,
    },
}

/// A corneal astigmatism.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Astigmatism {
    pub cylinder: HundredthDiopters,
    /// Its steep meridian, if it has one.
    pub steep: Option<Meridian>,
}

impl Astigmatism {
    /// To the nearest hundredth; nothing for a number that is no power.
    pub(crate) fn of(astigmatism: DoubleAngle) -> Option<Self> {
        Some(Self {
            cylinder: astigmatism.cylinder().nearest_hundredth()?,
            steep: astigmatism.steep_meridian(),
        })
    }
}

/// What a standard deviation is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SpreadOf {
    Depth,
    DepthAndThickness,
}
