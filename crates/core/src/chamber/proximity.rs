//! How near pieces and whole nucleus of this eye come to the endothelium, at rest: every division at
//! every working plane.
//!
//! No published distance in millimeters against cell loss was found: the numbers are geometry, and
//! any limit on them a house value.

use serde::{Deserialize, Serialize};

use super::margin_range::{EIGHTY_PERCENT, InputSpread, Slopes};
use super::nearness::{Nearness, margin};
use super::turning::Under;
use super::{
    ChamberSection, DIVISIONS, Delivery, Division, Nucleus, NucleusSize, Space, Spheroid,
    WorkingPlane,
};
use crate::quantity::{Micrometers, Millimeters};

/// Where, besides the axis, the margin is given (assumption).
pub const OFF_AXIS: Millimeters = Millimeters::new(2.0);

/// Thickness of a lens that nobody measured (assumption): the middle of the printed 3.51-5.23 mm.
pub const UNMEASURED_LENS: Millimeters = Millimeters::new(4.37);

/// What the geometry is computed from beside the section.
#[derive(Clone, Copy, Debug)]
pub struct Worked {
    pub nucleus: Nucleus,
    /// How its size is known; one nobody said counts as a guess.
    pub size: Option<NucleusSize>,
    /// What irrigation adds to the depth.
    pub deepening: Micrometers,
    /// One standard deviation of the aqueous depth, mm; nothing where it is not known.
    pub depth_spread: Option<f64>,
}

/// How near everything comes, at every working plane.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Proximity {
    #[serde(rename = "deepening_mm")]
    pub deepening: Millimeters,
    /// What the bag's depth is taken from.
    #[serde(rename = "lens_thickness_mm")]
    pub lens_thickness: Millimeters,
    pub lens_thickness_measured: bool,
    /// Whose spread the size of the nucleus is given.
    pub nucleus_size: NucleusSize,
    /// One standard deviation of the aqueous depth.
    #[serde(rename = "depth_spread_mm")]
    pub depth_spread: Option<Millimeters>,
    /// From the deepest forward; a plane behind the middle of the corneal sphere is left out.
    pub planes: Vec<PlaneProximity>,
    pub whole: WholeProximity,
}

/// How near the pieces come at one plane.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaneProximity {
    pub plane: WorkingPlane,
    /// From the endothelium to the middle of a piece, on the axis.
    #[serde(rename = "middle_mm")]
    pub middle: Millimeters,
    /// By number of pieces.
    pub divisions: Vec<DivisionProximity>,
}

/// How near the pieces of one division come.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DivisionProximity {
    pub division: Division,
    /// Mean clearance over all directions, of the piece with the least.
    #[serde(rename = "margin_mm")]
    pub margin: Millimeters,
    /// Its standard deviation; nothing where the spread of the depth is not known.
    #[serde(rename = "deviation_mm")]
    pub deviation: Option<Millimeters>,
    #[serde(rename = "margin_2_mm_off_axis_mm")]
    pub off_axis: Option<Millimeters>,
    /// In the most unfavorable direction of all.
    #[serde(rename = "worst_mm")]
    pub worst: Millimeters,
    /// At least this in nine directions of ten.
    #[serde(rename = "nine_in_ten_mm")]
    pub nine_in_ten: Millimeters,
    /// Share of directions in which a piece touches, 0 to 1.
    pub touch_share: f64,
    #[serde(rename = "lying_flat_mm")]
    pub lying_flat: Millimeters,
    /// Radius of the circle that leaves the margin.
    #[serde(rename = "reach_mm")]
    pub reach: Millimeters,
    /// Of the piece with the least margin: from its middle to its farthest point.
    #[serde(rename = "turning_radius_mm")]
    pub turning_radius: Millimeters,
    /// The same piece: along its middle, across it, and its thickness.
    #[serde(rename = "extents_mm")]
    pub extents: [Millimeters; 3],
}

/// The undivided nucleus in the chamber.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WholeProximity {
    /// Lying flat, its equator in the pupil plane.
    #[serde(rename = "clearance_in_pupil_plane_mm")]
    pub in_pupil_plane: Option<Millimeters>,
    /// Turned over about the pupil plane.
    #[serde(rename = "clearance_turned_over_mm")]
    pub turned_over: Millimeters,
    /// How far iris and capsule must fall back before it lies free on the recorded pupil.
    #[serde(rename = "retreat_on_pupil_mm")]
    pub retreat_on_pupil: Option<Millimeters>,
    /// How far in front of the pupil plane its middle lies on the recorded pupil.
    #[serde(rename = "lift_on_pupil_mm")]
    pub lift_on_pupil: Option<Millimeters>,
    /// Lying flat on the recorded pupil.
    #[serde(rename = "clearance_on_pupil_mm")]
    pub clearance_on_pupil: Option<Millimeters>,
    /// The retreat on a pupil as wide as the nucleus, and wholly in front of the iris.
    #[serde(rename = "retreat_between_mm")]
    pub retreat_between: [Millimeters; 2],
}

/// As it was measured.
fn lens_thickness(section: &ChamberSection) -> Option<Millimeters> {
    Some(section.lens_back? - section.pupil_plane)
}

impl Worked {
    fn space(&self, section: &ChamberSection) -> Space {
        let depth = section.aqueous_depth + self.deepening.millimeters();
        let lens_thickness = lens_thickness(section).unwrap_or(UNMEASURED_LENS);
        Space {
            depth: depth.mm(),
            back_radius: section.back_radius.mm(),
            lens_thickness: lens_thickness.mm(),
        }
    }
}

impl Proximity {
    pub fn of(section: &ChamberSection, worked: &Worked) -> Self {
        let size = worked.size.unwrap_or(NucleusSize::Guessed);
        let thickness = lens_thickness(section);
        let space = worked.space(section);
        let nucleus = worked.nucleus.spheroid();
        let [diameter, thickness_spread] = size.spread();
        let spread = worked.depth_spread.map(|depth| InputSpread {
            depth,
            diameter: diameter.mm(),
            thickness: thickness_spread.mm(),
        });
        let planes = WorkingPlane::ALL.into_iter();
        Self {
            deepening: worked.deepening.millimeters(),
            lens_thickness: Millimeters::new(space.lens_thickness),
            lens_thickness_measured: thickness.is_some(),
            nucleus_size: size,
            depth_spread: worked.depth_spread.map(Millimeters::new),
            planes: planes
                .filter_map(|plane| PlaneProximity::of(plane, nucleus, space, spread))
                .collect(),
            whole: WholeProximity::of_section(section, worked),
        }
    }

    pub fn at(&self, plane: WorkingPlane) -> Option<&PlaneProximity> {
        self.planes.iter().find(|at| at.plane == plane)
    }
}

impl PlaneProximity {
    fn of(
        plane: WorkingPlane,
        nucleus: Spheroid,
        space: Space,
        spread: Option<InputSpread>,
    ) -> Option<Self> {
        let under = space.under(plane, 0.0)?;
        let aside = space.under(plane, OFF_AXIS.mm());
        let divisions = DIVISIONS.map(|division| {
            let deviation = spread.and_then(|spread| {
                let slopes = Slopes::of(division, nucleus, space, plane)?;
                Some(slopes.deviation(spread))
            });
            let near = Nearness::of(division, nucleus, under);
            DivisionProximity {
                division,
                margin: Millimeters::new(near.margin),
                deviation: deviation.map(Millimeters::new),
                off_axis: aside.map(|aside| Millimeters::new(margin(division, nucleus, aside))),
                worst: Millimeters::new(near.worst),
                nine_in_ten: Millimeters::new(near.nine_in_ten),
                touch_share: near.touch_share,
                lying_flat: Millimeters::new(near.lying_flat),
                reach: Millimeters::new(under.distance - near.margin),
                turning_radius: Millimeters::new(near.nearest.turning_radius()),
                extents: near.nearest.extents().map(Millimeters::new),
            }
        });
        Some(Self {
            plane,
            middle: Millimeters::new(under.distance),
            divisions: divisions.to_vec(),
        })
    }

    pub fn of_pieces(&self, pieces: u8) -> Option<&DivisionProximity> {
        let mut divisions = self.divisions.iter();
        divisions.find(|near| near.division.pieces() == pieces)
    }
}

impl DivisionProximity {
    /// The middle 80 % of the margin; nothing where its spread is not known.
    pub fn interval(&self) -> Option<[Millimeters; 2]> {
        let half = self.deviation? * EIGHTY_PERCENT;
        Some([self.margin - half, self.margin + half])
    }
}

impl WholeProximity {
    /// Of the same inputs as [`Proximity::of`], without the pieces, which cost nearly all of it.
    pub fn of_section(section: &ChamberSection, worked: &Worked) -> Self {
        let (nucleus, space) = (worked.nucleus.spheroid(), worked.space(section));
        Self::of(nucleus, space, section.pupil_diameter)
    }

    fn of(nucleus: Spheroid, space: Space, pupil: Option<Millimeters>) -> Self {
        let under: Option<Under> = space.under(WorkingPlane::Pupil, 0.0);
        let retreat =
            |lift: f64| Millimeters::new(nucleus.retreat(space.depth, space.back_radius, lift));
        let lift = pupil.map(|pupil| nucleus.lift_on(pupil.mm()));
        Self {
            in_pupil_plane: under
                .map(|under| Millimeters::new(nucleus.clearance_lying_flat(under))),
            turned_over: Millimeters::new(space.depth - nucleus.across),
            retreat_on_pupil: lift.map(retreat),
            lift_on_pupil: lift.map(Millimeters::new),
            clearance_on_pupil: lift.map(|lift| {
                let at = Under {
                    back_radius: space.back_radius,
                    distance: space.depth - lift,
                };
                Millimeters::new(nucleus.clearance_lying_flat(at))
            }),
            retreat_between: [0.0, nucleus.along].map(retreat),
        }
    }
}

/// What tunnel and capsulorhexis are asked, which no chamber has a part in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passage {
    /// Half the way around what passes: whole, a half, the middle of three.
    #[serde(rename = "half_perimeters_mm")]
    pub half_perimeters: [Millimeters; 3],
    /// Length of the tunnel's lips, or the width of the incision.
    #[serde(rename = "lips_mm")]
    pub lips: Option<Millimeters>,
    /// By what share of itself the edge of the capsulorhexis stretches: on edge, flat.
    pub stretch: Option<[f64; 2]>,
    /// The capsulorhexis that does not stretch as the whole nucleus passes on edge.
    #[serde(rename = "unstretched_capsulorhexis_mm")]
    pub unstretched: Millimeters,
}

impl Passage {
    pub fn of(
        nucleus: Nucleus,
        lips: Option<Micrometers>,
        capsulorhexis: Option<Micrometers>,
    ) -> Self {
        let nucleus = nucleus.spheroid();
        let positive = |length: Option<Micrometers>| {
            let length = length.filter(|length| 0 < length.um());
            length.map(Micrometers::millimeters)
        };
        Self {
            half_perimeters: Delivery::ALL
                .map(|delivery| Millimeters::new(nucleus.half_perimeter(delivery))),
            lips: positive(lips),
            stretch: positive(capsulorhexis).map(|capsulorhexis| {
                let capsulorhexis = capsulorhexis.mm();
                [
                    nucleus.stretch_on_edge(capsulorhexis),
                    nucleus.stretch_flat(capsulorhexis),
                ]
            }),
            unstretched: Millimeters::new(nucleus.perimeter() / core::f64::consts::PI),
        }
    }

    /// Half the way around what passes, as a share of the lips.
    pub fn demand(&self, delivery: Delivery) -> Option<f64> {
        let [whole, half, third] = self.half_perimeters;
        let passes = match delivery {
            Delivery::Whole => whole,
            Delivery::Halves => half,
            Delivery::Thirds => third,
        };
        Some(passes.mm() / self.lips?.mm())
    }
}
