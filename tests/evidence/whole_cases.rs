//! Whole cases of drawn eyes: a demo case with the measurements of another eye.
//!
//! Axial length, chamber depth, lens, diameter and cornea come from the printed population of
//! `millrace simulate`. What no source was found for is an assumption: the differences between the two
//! eyes, the density and the grades; thickness as in the population of rules PO-06. Hard eyes are those
//! of the chamber model: depth 2.95 ± 0.35 mm, nucleus 8.0 ± 0.76 × 3.7 ± 0.48 mm, pupil 6.8 ± 1 mm.

use millrace_core::biometry::{
    EyeRecord, Keratometry, LocsTenths, MeridianReading, NucleusGrade, Side,
};
use millrace_core::case::{Approach, Draft, Slot};
use millrace_core::case_file;
use millrace_core::chamber::Nucleus;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::formula_inputs;
use millrace_core::quantity::{HundredthDiopters, KeratometricIndex, Meridian, Micrometers};
use millrace_simulate::{Population, TrueEye};
use rand_distr::{Distribution as _, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;

use crate::support::read;

/// Who is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A nucleus that is not hard; nothing else wrong with the eye.
    Ordinary,
    Hard,
}

/// Draws whole cases, each planned as a surgeon in no doubt would.
pub(crate) struct Cases {
    kind: Kind,
    base: Draft,
    population: Population,
    random: Xoshiro256PlusPlus,
}

impl Cases {
    pub(crate) fn new(kind: Kind, seed: u64) -> Self {
        Self {
            kind,
            base: case_file::read(&read("demo-data/cases/ordinary-eye.ron")).unwrap(),
            population: Population::printed().unwrap(),
            random: Xoshiro256PlusPlus::seed_from_u64(seed),
        }
    }

    /// A number drawn again until it lies within the bounds.
    fn within(&mut self, [mean, deviation]: [f64; 2], [low, high]: [f64; 2]) -> f64 {
        loop {
            let standard: f64 = StandardNormal.sample(&mut self.random);
            let value = mean + deviation * standard;
            if low <= value && value <= high {
                return value;
            }
        }
    }

    fn eye(&mut self) -> TrueEye {
        loop {
            if let Some(eye) = self.population.draw(&mut self.random) {
                return eye;
            }
        }
    }

    fn draft(&mut self) -> Draft {
        let mut draft = self.base.clone();
        let eye = self.eye();
        let length = eye.axial_length.mm();
        let CornealPowers { mean, cylinder } = CornealPowers::of(&eye);
        let depth = match self.kind {
            Kind::Ordinary => eye.chamber_depth.mm(),
            Kind::Hard => self.within([2.95, 0.35], [1.6, 4.2]),
        };
        let steep = eye.steep_degrees;
        let lens = eye.lens_thickness.mm();
        let white = eye.corneal_diameter.mm();
        for side in [Side::Right, Side::Left] {
            let is_fellow = side == Side::Left;
            // Assumption: how far the two eyes of one patient lie apart, 1 SD.
            let mut beside = |value: f64, deviation: f64, range: [f64; 2]| {
                if is_fellow {
                    self.within([value, deviation], range)
                } else {
                    value
                }
            };
            let measured = Measurements {
                length: beside(length, 0.25, [14.5, 39.0]),
                mean_k: beside(mean, 0.3, [30.0, 60.0]),
                cylinder: beside(cylinder, 0.3, [0.0, 12.0]),
                steep: if is_fellow { 180.0 - steep } else { steep },
                depth: beside(depth, 0.07, [1.0, 7.9]),
                lens: beside(lens, 0.07, [2.1, 7.9]),
                white: beside(white, 0.1, [7.1, 14.9]),
                thickness: self.within([544.0, 38.0], [300.0, 900.0]),
            };
            measured.enter(draft.eyes.get_mut(side));
        }
        self.operated(&mut draft);
        draft
    }

    /// What is recorded of the operative eye alone, and the patient.
    fn operated(&mut self, draft: &mut Draft) {
        let (grades, pupil) = match self.kind {
            Kind::Ordinary => ([3.0, 0.8], [7.2, 0.8]),
            Kind::Hard => ([5.7, 0.4], [6.8, 1.0]),
        };
        let range = match self.kind {
            Kind::Ordinary => [0.5, 4.4],
            Kind::Hard => [5.0, 6.9],
        };
        let opalescence = self.within(grades, range);
        let color = self.within([opalescence, 0.3], range);
        let tenths = |grade: f64| LocsTenths::new(rounded(grade * 10.0)).unwrap();
        let eye = draft.eyes.get_mut(Side::Right);
        eye.state.nucleus = Some(NucleusGrade::LocsIii {
            opalescence: tenths(opalescence),
            color: Some(tenths(color)),
        });
        let density = rounded(self.within([2450.0, 350.0], [1200.0, 4000.0]));
        eye.endothelium.as_mut().unwrap().value =
            millrace_core::biometry::EndothelialDensity::new(density).unwrap();
        let pupil = self.within(pupil, [3.0, 9.5]);
        eye.pupil.as_mut().unwrap().value = format!("{pupil:.1} mm").parse().unwrap();
        let size = match self.kind {
            Kind::Ordinary => [[7.13, 0.76], [3.05, 0.48]],
            Kind::Hard => [[8.0, 0.76], [3.7, 0.48]],
        };
        let diameter = self.within(size[0], [5.5, 9.9]);
        let thickness = self.within(size[1], [1.6, 5.4]);
        let [diameter, thickness] =
            [diameter, thickness].map(|mm| Micrometers::new(rounded(mm * 100.0) * 10));
        draft.approach.nucleus = Some(Nucleus::new(diameter, thickness).unwrap());
        draft.approach.approach = Some(Approach::Phacoemulsification);
        draft.approach.capsulorhexis = Some(Micrometers::new(5_300));
        let age = rounded(self.within([73.0, 9.0], [45.0, 97.0]));
        draft.patient.birth_date = chrono::NaiveDate::from_ymd_opt(2026 - age, 6, 2);
        choose_power(draft);
        refraction(draft);
    }
}

impl Iterator for Cases {
    type Item = Draft;

    fn next(&mut self) -> Option<Draft> {
        Some(self.draft())
    }
}

/// Mean power and astigmatism at the standard index, diopters.
struct CornealPowers {
    mean: f64,
    cylinder: f64,
}

impl CornealPowers {
    fn of(eye: &TrueEye) -> Self {
        let millrace_core::iol_power::CornealRadii(flat, steep) = eye.cornea;
        let [flat, steep] =
            [flat, steep].map(|radius| KeratometricIndex::STANDARD.power(radius).d());
        Self {
            mean: f64::midpoint(flat, steep),
            cylinder: steep - flat,
        }
    }
}

/// One eye as its instrument prints it: millimeters, diopters, micrometers.
struct Measurements {
    length: f64,
    mean_k: f64,
    cylinder: f64,
    steep: f64,
    depth: f64,
    lens: f64,
    white: f64,
    thickness: f64,
}

impl Measurements {
    fn enter(&self, eye: &mut EyeRecord) {
        fn mm<T: core::str::FromStr<Err: core::fmt::Debug>>(value: f64) -> T {
            format!("{value:.2} mm").parse().unwrap()
        }
        eye.axial_length.as_mut().unwrap().value = mm(self.length);
        eye.chamber_depth.as_mut().unwrap().value.depth = mm(self.depth);
        eye.lens_thickness.as_mut().unwrap().value = mm(self.lens);
        eye.corneal_diameter.as_mut().unwrap().value = mm(self.white);
        let thickness = rounded(self.thickness);
        eye.corneal_thickness.as_mut().unwrap().value = format!("{thickness} µm").parse().unwrap();
        let reading = |power: f64| format!("{power:.2} D at 1.3375").parse().unwrap();
        let steep = Meridian::nearest(self.steep).unwrap();
        let keratometry = eye.keratometry.as_mut().unwrap();
        keratometry.value = Keratometry {
            flat: MeridianReading {
                reading: reading(self.mean_k - self.cylinder / 2.0),
                meridian: steep.perpendicular(),
            },
            steep: MeridianReading {
                reading: reading(self.mean_k + self.cylinder / 2.0),
                meridian: steep,
            },
            ..keratometry.value.clone()
        };
    }
}

/// The formula that guidance names for the length, and the power it proposes.
fn choose_power(draft: &mut Draft) {
    let length = draft.eyes.right.axial_length.as_ref().unwrap().value.get();
    draft.lens.formula = Some(if length < Micrometers::new(22_000) {
        Formula::HofferQ
    } else {
        Formula::SrkT
    });
    draft.lens.lenses.get_mut(Slot::Planned).unwrap().power = None;
    let record = draft.lens.record().unwrap();
    let inputs = formula_inputs(&draft.eyes.right, &draft.lens, Some(record));
    let (formula, target) = (draft.lens.formula.unwrap(), draft.lens.target.unwrap());
    let convention = draft.lens.convention;
    let ladder = Ladder::compute(&[formula], &inputs, &record.powers, target, convention);
    let column = ladder.column(formula).unwrap();
    let proposed = column
        .answer
        .as_ref()
        .ok()
        .and_then(|answer| answer.proposed);
    draft.lens.lenses.get_mut(Slot::Planned).unwrap().power = proposed;
}

/// A refraction that goes with the eye: 0.7 D at the spectacles for each diopter that its lens for
/// emmetropia lies off the average (rule of thumb), and 0.5 D of myopia by the cataract.
fn refraction(draft: &mut Draft) {
    // The demo's fellow eye belongs to another one.
    draft.eyes.left.state.refraction = None;
    let Some(power) = draft.lens.power() else {
        return;
    };
    let average = draft.lens.record().unwrap().average_power.unwrap();
    let off = f64::from(power.hundredths() - average.hundredths()) / 100.0;
    let sphere = rounded((0.7 * off - 0.5) * 4.0) * 25;
    draft.eyes.right.state.refraction = millrace_core::biometry::Refraction::new(
        HundredthDiopters::new(sphere),
        HundredthDiopters::new(0),
        None,
    )
    .ok();
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "within the bounds of what is drawn"
)]
fn rounded(value: f64) -> i32 {
    value.round() as i32
}
