//! Where the parts of an eye lie, millimeters beside the axis and behind the corneal vertex. What was measured has
//! its place; the rest is named as missing.

use millrace_core::biometry::{ChamberDepth, DepthStart, EyeRecord, Item};
use millrace_core::chamber::LENS_DIAMETER;
use millrace_core::quantity::{Millimeters, math};

/// Power of a cornea at 1.3375 times its radius, D × mm.
const POWER_TIMES_RADIUS: f64 = 337.5;
/// Places along a curve.
const STEPS: u8 = 64;
/// Half the angle of the wall that is drawn as measured, around the pole at the axial length, radians.
const WALL: f64 = 0.3;
/// Deepest that is drawn where nothing tells how long the eye is, mm.
const NO_LENGTH: f64 = 12.0;

/// Everything of an eye that has a place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EyePlaces {
    pub cornea: Option<CornealArc>,
    /// Depth of the back of the cornea on the axis.
    pub endothelium: Option<f64>,
    /// From where to where the chamber depth was measured.
    pub chamber: Option<[f64; 2]>,
    /// Front and back of the lens on the axis.
    pub lens: Option<[f64; 2]>,
    /// The wall behind, at the axial length.
    pub wall: Option<f64>,
    pub missing: Vec<Missing>,
}

/// The front of the cornea.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornealArc {
    pub radius: f64,
    /// Half its diameter and the depth of its edge; nothing where nobody measured how wide it is, or where no
    /// surface of this radius is as wide.
    pub edge: Option<[f64; 2]>,
}

/// What has no place, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    NotMeasured(Item),
    /// It counts from the endothelium, and the thickness of the cornea is not known.
    DepthFromUnknown,
    /// Its thickness is known, and not where it begins.
    LensNowhere,
    /// No surface of this radius is as wide as the cornea.
    TooWide,
}

impl EyePlaces {
    /// Of what is recorded of an eye.
    pub fn of(eye: &EyeRecord) -> Self {
        let mut places = Self {
            endothelium: eye
                .corneal_thickness
                .as_ref()
                .map(|it| mm(it.value.get().millimeters())),
            wall: eye
                .axial_length
                .as_ref()
                .map(|it| mm(it.value.get().millimeters())),
            ..Self::default()
        };
        places.note(Item::AxialLength, places.wall.is_some());
        places.place_cornea(eye);
        places.place_chamber(eye);
        places.place_lens(eye);
        places.note(Item::CornealThickness, places.endothelium.is_some());
        places
    }

    fn note(&mut self, item: Item, is_measured: impl Into<Measured>) {
        if is_measured.into() == Measured::No {
            self.missing.push(Missing::NotMeasured(item));
        }
    }

    fn place_cornea(&mut self, eye: &EyeRecord) {
        let diameter = eye.corneal_diameter.as_ref();
        let half = diameter.map(|it| mm(it.value.get().millimeters()) / 2.0);
        self.note(Item::Keratometry, eye.keratometry.is_some());
        self.note(Item::CornealDiameter, half.is_some());
        let Some(keratometry) = &eye.keratometry else {
            return;
        };
        let radius = POWER_TIMES_RADIUS / keratometry.value.mean_power().d();
        let edge = half
            .filter(|half| *half < radius)
            .map(|half| [half, radius - (radius * radius - half * half).sqrt()]);
        if edge.is_none() && half.is_some() {
            self.missing.push(Missing::TooWide);
        }
        self.cornea = Some(CornealArc { radius, edge });
    }

    fn place_chamber(&mut self, eye: &EyeRecord) {
        let Some(recorded) = &eye.chamber_depth else {
            return self.missing.push(Missing::NotMeasured(Item::ChamberDepth));
        };
        let depth: ChamberDepth = recorded.value;
        let start = match depth.start {
            DepthStart::Epithelium => Some(0.0),
            DepthStart::Endothelium => self.endothelium,
        };
        match start {
            Some(start) => {
                self.chamber = Some([start, start + mm(depth.depth.get().millimeters())]);
            }
            None => self.missing.push(Missing::DepthFromUnknown),
        }
    }

    fn place_lens(&mut self, eye: &EyeRecord) {
        let Some(recorded) = &eye.lens_thickness else {
            return self.missing.push(Missing::NotMeasured(Item::LensThickness));
        };
        match self.chamber {
            Some([_, front]) => {
                let thickness = mm(recorded.value.get().millimeters());
                self.lens = Some([front, front + thickness]);
            }
            None => self.missing.push(Missing::LensNowhere),
        }
    }

    /// Whether nothing at all has a place.
    pub const fn is_empty(&self) -> bool {
        self.cornea.is_none()
            && self.endothelium.is_none()
            && self.chamber.is_none()
            && self.wall.is_none()
    }

    /// Width and depth of all that is drawn, mm.
    pub fn extent(&self) -> [f64; 2] {
        let edge = self.cornea.and_then(|cornea| cornea.edge);
        let across = [
            self.wall,
            edge.map(|[half, _]| 2.0 * half),
            self.lens.map(|_| LENS_DIAMETER.mm()),
            self.cornea.map(|cornea| 2.0 * cornea.open_half()),
        ];
        let deep = [
            self.wall,
            self.lens.map(|[_, back]| back),
            self.chamber.map(|[_, front]| front),
            edge.map(|[_, depth]| depth),
        ];
        let most =
            |of: &[Option<f64>], least: f64| of.iter().flatten().copied().fold(least, f64::max);
        let least = if self.wall.is_some() { 0.0 } else { NO_LENGTH };
        [most(&across, least), most(&deep, least)]
    }

    /// The outline of the eyeball: a circle whose diameter is the axial length, from the depth of the edge of the
    /// cornea on one side around the pole to the other.
    pub fn globe(&self) -> Option<Vec<[f64; 2]>> {
        let length = self.wall?;
        let radius = length / 2.0;
        let from = self.cornea.and_then(|cornea| cornea.edge);
        let from = from.map_or(0.0, |[_, depth]| depth.min(radius));
        let aside = (radius * radius - (radius - from) * (radius - from)).sqrt();
        let begin = math::atan2(aside, radius - from);
        Some(arc(radius, begin, 2.0 * core::f64::consts::PI - begin))
    }

    /// The wall around the pole, which the axial length ends at.
    pub fn pole(&self) -> Option<Vec<[f64; 2]>> {
        let pole = core::f64::consts::PI;
        Some(arc(self.wall? / 2.0, pole - WALL, pole + WALL))
    }
}

impl CornealArc {
    /// Half of what is drawn where nobody measured how wide it is: as far as the surface turns by 45°.
    pub fn open_half(self) -> f64 {
        self.radius * core::f64::consts::FRAC_1_SQRT_2
    }

    /// The front surface, as wide as it was measured.
    pub fn front(self) -> Vec<[f64; 2]> {
        let half = self.edge.map_or_else(|| self.open_half(), |[half, _]| half);
        steps()
            .map(|step| {
                let x = (2.0 * step - 1.0) * half;
                let inside = (self.radius * self.radius - x * x).max(0.0);
                [x, self.radius - inside.sqrt()]
            })
            .collect()
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Measured {
    Yes,
    No,
}

impl From<bool> for Measured {
    fn from(is_measured: bool) -> Self {
        if is_measured { Self::Yes } else { Self::No }
    }
}

const fn mm(length: Millimeters) -> f64 {
    length.mm()
}

/// From 0 to 1.
fn steps() -> impl Iterator<Item = f64> {
    (0..=STEPS).map(|step| f64::from(step) / f64::from(STEPS))
}

/// Part of the circle that touches the vertex and is centered on the axis; the angle counts from the vertex.
fn arc(radius: f64, from: f64, to: f64) -> Vec<[f64; 2]> {
    steps()
        .map(|step| from + step * (to - from))
        .map(|angle| {
            [
                radius * math::sin(angle),
                radius - radius * math::cos(angle),
            ]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use millrace_core::case_file;

    use super::*;

    const HARD: &str = include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");

    /// The right eye of the demo case: 22.84 mm; 44.25 and 45.00 D at 1.3375; 2.55 mm from the epithelium; lens
    /// 5.05 mm; cornea 538 µm and 11.4 mm wide.
    fn eye() -> EyeRecord {
        case_file::read(HARD).unwrap().eyes.right
    }

    fn near(found: f64, by_hand: f64) -> bool {
        (found - by_hand).abs() < 6e-4
    }

    /// 337.5/44.625 = 7.5630; 7.5630 − √(57.199 − 32.490) = 2.5922; 2.55 + 5.05 = 7.60.
    #[test]
    fn each_part_lies_where_it_was_measured() {
        let places = EyePlaces::of(&eye());
        assert_eq!(places.missing, []);
        let cornea = places.cornea.unwrap();
        assert!(near(cornea.radius, 7.5630), "{cornea:?}");
        let [half, depth] = cornea.edge.unwrap();
        assert!(near(half, 5.7) && near(depth, 2.5922), "{half} {depth}");
        assert!(near(places.endothelium.unwrap(), 0.538));
        let [start, front] = places.chamber.unwrap();
        assert!(near(start, 0.0) && near(front, 2.55));
        let [front, back] = places.lens.unwrap();
        assert!(near(front, 2.55) && near(back, 7.60));
        assert!(near(places.wall.unwrap(), 22.84));
        let [across, deep] = places.extent();
        assert!(near(across, 22.84) && near(deep, 22.84));
    }

    /// The ends of the arc are the ends of the chord; the middle is the vertex. The globe begins at the depth of the
    /// edge, where a circle of 22.84 mm is √(11.42² − 8.8278²) = 7.2448 mm from the axis, and its middle is the pole.
    #[test]
    fn the_curves_pass_through_what_was_measured() {
        let places = EyePlaces::of(&eye());
        let front = places.cornea.unwrap().front();
        let (first, middle, last) = (front[0], front[32], front[64]);
        assert!(near(first[0], -5.7) && near(first[1], 2.5922), "{first:?}");
        assert!(near(middle[0], 0.0) && near(middle[1], 0.0), "{middle:?}");
        assert!(near(last[0], 5.7) && near(last[1], 2.5922), "{last:?}");
        let globe = places.globe().unwrap();
        let (first, middle, last) = (globe[0], globe[32], globe[64]);
        assert!(
            near(first[0], 7.2448) && near(first[1], 2.5922),
            "{first:?}"
        );
        assert!(near(middle[0], 0.0) && near(middle[1], 22.84), "{middle:?}");
        assert!(near(last[0], -7.2448) && near(last[1], 2.5922), "{last:?}");
        let pole = places.pole().unwrap();
        assert!(near(pole[32][0], 0.0) && near(pole[32][1], 22.84));
    }

    /// 2.01 mm from the endothelium behind 0.538 mm of cornea end at 2.548 mm.
    #[test]
    fn a_depth_counts_from_its_own_surface() {
        let mut eye = eye();
        let depth = eye.chamber_depth.as_mut().unwrap();
        depth.value = ChamberDepth {
            depth: "2.01 mm".parse().unwrap(),
            start: DepthStart::Endothelium,
        };
        let [start, front] = EyePlaces::of(&eye).chamber.unwrap();
        assert!(near(start, 0.538) && near(front, 2.548), "{start} {front}");
        // Without the thickness nobody knows where it begins, and nothing is assumed.
        eye.corneal_thickness = None;
        let places = EyePlaces::of(&eye);
        assert_eq!((places.chamber, places.lens), (None, None));
        assert_eq!(
            places.missing,
            [
                Missing::DepthFromUnknown,
                Missing::LensNowhere,
                Missing::NotMeasured(Item::CornealThickness),
            ]
        );
    }

    #[test]
    fn what_is_not_measured_has_no_place_and_is_named() {
        let places = EyePlaces::of(&EyeRecord::default());
        assert!(places.is_empty());
        let items = [
            Item::AxialLength,
            Item::Keratometry,
            Item::CornealDiameter,
            Item::ChamberDepth,
            Item::LensThickness,
            Item::CornealThickness,
        ];
        assert_eq!(places.missing, items.map(Missing::NotMeasured));
        assert_eq!((places.globe(), places.pole()), (None, None));
        for item in items {
            let mut eye = eye();
            match item {
                Item::AxialLength => eye.axial_length = None,
                Item::Keratometry => eye.keratometry = None,
                Item::CornealDiameter => eye.corneal_diameter = None,
                Item::ChamberDepth => eye.chamber_depth = None,
                Item::LensThickness => eye.lens_thickness = None,
                _ => eye.corneal_thickness = None,
            }
            let places = EyePlaces::of(&eye);
            assert_eq!(places.missing[0], Missing::NotMeasured(item), "{item:?}");
            assert!(!places.is_empty());
            let has = [
                (Item::AxialLength, places.wall.is_some()),
                (Item::Keratometry, places.cornea.is_some()),
                (Item::ChamberDepth, places.chamber.is_some()),
                (Item::LensThickness, places.lens.is_some()),
                (Item::CornealThickness, places.endothelium.is_some()),
            ];
            for (of, has) in has {
                // The lens begins where the chamber ends.
                let needs_depth = of == Item::LensThickness && item == Item::ChamberDepth;
                assert_eq!(has, of != item && !needs_depth, "{of:?} without {item:?}");
            }
            let has_edge = places.cornea.is_some_and(|it| it.edge.is_some());
            let needed = [Item::Keratometry, Item::CornealDiameter];
            assert_eq!(has_edge, !needed.contains(&item), "{item:?}");
        }
    }

    /// The shortest and the longest eyes, the flattest and steepest corneas: every place can be drawn.
    #[test]
    fn extreme_eyes_have_places_that_can_be_drawn() {
        for length in ["14.00 mm", "18.00 mm", "34.00 mm", "40.00 mm"] {
            for diameter in ["7.0 mm", "11.4 mm", "15.0 mm"] {
                for power in ["30.00 D at 1.3375", "60.00 D at 1.3375"] {
                    let mut eye = eye();
                    eye.axial_length.as_mut().unwrap().value = length.parse().unwrap();
                    eye.corneal_diameter.as_mut().unwrap().value = diameter.parse().unwrap();
                    let keratometry = &mut eye.keratometry.as_mut().unwrap().value;
                    keratometry.flat.reading = power.parse().unwrap();
                    keratometry.steep.reading = power.parse().unwrap();
                    let places = EyePlaces::of(&eye);
                    let [across, deep] = places.extent();
                    let curves = [
                        places.cornea.unwrap().front(),
                        places.globe().unwrap(),
                        places.pole().unwrap(),
                    ];
                    for [x, depth] in curves.into_iter().flatten() {
                        assert!(x.is_finite() && depth.is_finite());
                        assert!(2.0 * x.abs() <= across + 1e-9, "{x} of {across}");
                        assert!((-1e-9..=deep + 1e-9).contains(&depth), "{depth} of {deep}");
                    }
                }
            }
        }
    }

    /// 60 D is a radius of 5.625 mm, which no cornea of 15 mm has: it is said, and no edge is drawn.
    #[test]
    fn a_cornea_wider_than_its_sphere_is_refused() {
        let mut eye = eye();
        eye.corneal_diameter.as_mut().unwrap().value = "15.0 mm".parse().unwrap();
        let keratometry = &mut eye.keratometry.as_mut().unwrap().value;
        keratometry.flat.reading = "60.00 D at 1.3375".parse().unwrap();
        keratometry.steep.reading = "60.00 D at 1.3375".parse().unwrap();
        let places = EyePlaces::of(&eye);
        assert_eq!(places.cornea.unwrap().edge, None);
        assert_eq!(places.missing, [Missing::TooWide]);
    }
}
