//! Toric eyes against ray-transfer matrices, discs against `SciPy`, and properties over the whole range.

use millrace_core::astigmatism::{
    AnteriorAstigmatism, Cloud, Covariance, ToricEye, ToricLens, rotation,
};
use millrace_core::biometry::{CornealReading, Keratometry, MeridianReading};
use millrace_core::iol_power::Formula;
use millrace_core::lens::PowerLabel;
use millrace_core::optics::{DoubleAngle, PowerVector, SpheroCylinder};
use millrace_core::quantity::{Diopters, Meridian, Millimeters, math};
use proptest::prelude::*;

use crate::support::table;

pub(crate) const EYES: &str = "tests/check-values/toric_eyes.csv";
const DISCS: &str = "tests/check-values/toric_discs.csv";

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    clippy::struct_field_names,
    reason = "fields have the names of the table"
)]
struct Eye {
    eye_id: String,
    formula: String,
    optical_length_mm: f64,
    lens_position_mm: f64,
    flat_mm: f64,
    steep_mm: f64,
    steep_degrees: f64,
    lens_equivalent_d: f64,
    lens_cylinder_d: f64,
    lens_axis_degrees: f64,
    cornea_sphere_d: f64,
    cornea_cylinder_d: f64,
    cornea_axis: f64,
    spectacles_sphere_d: f64,
    spectacles_cylinder_d: f64,
    spectacles_axis: f64,
}

impl Eye {
    fn built(&self) -> (ToricEye, ToricLens) {
        let formula = Formula::THIN_LENS
            .into_iter()
            .find(|formula| formula.key() == self.formula)
            .expect("a formula of the table is one of the five");
        let power = |radius_mm| {
            formula
                .corneal_power_of(Millimeters::new(radius_mm))
                .expect("a thin-lens formula has a corneal power")
        };
        let (flat, steep) = (power(self.flat_mm), power(self.steep_mm));
        let astigmatism = DoubleAngle::of(steep - flat, self.steep_degrees);
        let eye = ToricEye {
            optical_length: Millimeters::new(self.optical_length_mm),
            lens_position: Millimeters::new(self.lens_position_mm),
            cornea: astigmatism.power_vector((flat + steep) * 0.5),
        };
        let lens = ToricLens {
            labeled: Diopters::new(self.lens_equivalent_d),
            label: PowerLabel::SphericalEquivalent,
            cylinder: Diopters::new(self.lens_cylinder_d),
            axis_degrees: self.lens_axis_degrees,
        };
        (eye, lens)
    }
}

fn assert_written(at: &str, found: PowerVector, [sphere, cylinder, axis]: [f64; 3]) -> bool {
    let found = found.minus_cylinder();
    assert!((found.sphere.d() - sphere).abs() < 1e-9, "{at}: {found:?}");
    assert!(
        (found.cylinder.d() - cylinder).abs() < 1e-9,
        "{at}: {found:?}"
    );
    // The axis of a cylinder of rounding size is none.
    if cylinder.abs() < 1e-3 {
        return false;
    }
    let off = (found.axis_degrees - axis + 90.0).rem_euclid(180.0) - 90.0;
    assert!(off.abs() < 1e-6, "{at}: {found:?}, axis {axis}");
    true
}

/// The second implementation multiplies 4×4 ray-transfer matrices and splits nothing into meridians.
#[test]
fn toric_eyes_agree_with_ray_transfer_matrices() {
    let (mut count, mut with_axis) = (0, 0);
    for row in table(EYES).into_deserialize() {
        let row: Eye = row.unwrap();
        let (eye, lens) = row.built();
        let found = eye.refraction_with(lens.power()).unwrap();
        let at_cornea = [row.cornea_sphere_d, row.cornea_cylinder_d, row.cornea_axis];
        assert_written(&row.eye_id, found.at_cornea, at_cornea);
        let at_spectacles = [
            row.spectacles_sphere_d,
            row.spectacles_cylinder_d,
            row.spectacles_axis,
        ];
        with_axis += usize::from(assert_written(
            &row.eye_id,
            found.at_spectacles,
            at_spectacles,
        ));
        count += 1;
    }
    assert!(600 <= count && 500 <= with_axis, "{count} {with_axis}");
}

/// The cylinder that leaves none, by solving the same matrices the other way: no astigmatism is left
/// in any eye of the table, and the lens for that refraction is the one that was put in.
#[test]
fn the_exact_cylinder_leaves_none_in_every_eye_of_the_table() {
    let mut count = 0;
    for row in table(EYES).into_deserialize() {
        let row: Eye = row.unwrap();
        let (eye, lens) = row.built();
        let exact = eye.cylinder_for(lens.labeled, lens.label).unwrap();
        let put_in = ToricLens {
            cylinder: exact.cylinder,
            axis_degrees: row.steep_degrees,
            ..lens
        };
        let left = eye.refraction_with(put_in.power()).unwrap();
        let cylinder = left.at_spectacles.cylinder_magnitude().d();
        assert!(cylinder < 1e-10, "{}: {cylinder}", row.eye_id);
        let back = eye.lens_for(left.at_spectacles.m).unwrap();
        assert!((back.m - put_in.power().m).d().abs() < 1e-9);
        assert!((back.cylinder_magnitude() - exact.cylinder).d().abs() < 1e-9);
        count += 1;
    }
    assert!(600 <= count);
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Disc {
    mean_x: f64,
    mean_y: f64,
    xx: f64,
    xy: f64,
    yy: f64,
    radius: f64,
    chance: f64,
}

#[test]
fn chances_over_a_disc_agree_with_scipy() {
    let mut count = 0;
    for row in table(DISCS).into_deserialize() {
        let row: Disc = row.unwrap();
        let cloud = Cloud {
            mean: DoubleAngle {
                x: Diopters::new(row.mean_x),
                y: Diopters::new(row.mean_y),
            },
            covariance: Covariance {
                xx: row.xx,
                xy: row.xy,
                yy: row.yy,
            },
        };
        let found = cloud.chance_within(Diopters::new(row.radius));
        assert!((found - row.chance).abs() < 1e-9, "{found} {}", row.chance);
        count += 1;
    }
    assert!(160 <= count);
}

/// Printed: the mean of 200 incisions was 0.18 D at 97 while their mean size was 0.50 D. By hand: four
/// incisions of 0.50 D whose axes lie ±α about 97 have a centroid of 0.50·cos 2α; 0.18 D at 2α =
/// acos(0.36) = 68.9°.
#[test]
fn a_centroid_at_twice_the_angle_is_smaller_than_the_mean_size() {
    let alpha = (90.0 - math::asin(0.36).to_degrees()) / 2.0;
    let mean = [97.0 - alpha, 97.0 + alpha, 97.0 - alpha, 97.0 + alpha]
        .map(|degrees| DoubleAngle::of(Diopters::new(0.50), degrees))
        .into_iter()
        .fold(DoubleAngle::ZERO, |sum, one| sum + one)
        * 0.25;
    assert!((mean.cylinder().d() - 0.18).abs() < 1e-12);
    assert!((mean.steep_degrees().unwrap() - 97.0).abs() < 1e-9);
}

/// Published: about 1.45, range 1.3 to 2.3, rising with axial length and K (formulas.md section 12):
/// here with the lens that leaves emmetropia, lens 5.0 mm behind the cornea in the ordinary eye and
/// deeper in the longer one, as every formula places it.
#[test]
fn the_ratio_lies_in_the_published_range_and_rises() {
    let ratio = |length_mm: f64, k_d: f64| {
        let eye = ToricEye {
            optical_length: Millimeters::new(length_mm),
            lens_position: Millimeters::new(5.0 + 0.15 * (length_mm - 23.5)),
            cornea: DoubleAngle::of(Diopters::new(2.0), 90.0).power_vector(Diopters::new(k_d)),
        };
        let power = eye.lens_for(Diopters::new(0.0)).unwrap().m;
        let exact = eye.cylinder_for(power, PowerLabel::SphericalEquivalent);
        exact.unwrap().ratio
    };
    assert!((ratio(23.5, 43.5) - 1.45).abs() < 0.05);
    let steps = |from: f64| (0..=12).map(move |step| from + f64::from(step) * 0.5);
    for length in steps(21.0) {
        for k in steps(40.5) {
            let here = ratio(length, k);
            assert!((1.3..=2.3).contains(&here), "{length} {k}: {here}");
            assert!(here < ratio(length + 0.5, k), "{length} {k}");
            assert!(here < ratio(length, k + 0.5), "{length} {k}");
        }
    }
}

/// Exact turns against the closed form at the corneal plane: equal there when the lens has no distance
/// from the cornea to speak of, and near it in an eye.
#[test]
fn turns_follow_the_closed_form() {
    let eye = |position_mm| ToricEye {
        optical_length: Millimeters::new(23.5),
        lens_position: Millimeters::new(position_mm),
        cornea: DoubleAngle::of(Diopters::new(2.0), 90.0).power_vector(Diopters::new(43.5)),
    };
    for (position_mm, tolerance_d) in [(1e-6, 1e-6), (5.0, 0.05)] {
        let eye = eye(position_mm);
        let labeled = eye.lens_for(Diopters::new(0.0)).unwrap().m;
        let exact = eye
            .cylinder_for(labeled, PowerLabel::SphericalEquivalent)
            .unwrap();
        for degrees in 1..=30 {
            let lens = ToricLens {
                labeled,
                label: PowerLabel::SphericalEquivalent,
                cylinder: exact.cylinder,
                axis_degrees: 90.0 + f64::from(degrees),
            };
            let left = eye.refraction_with(lens.power()).unwrap();
            let left_d = left.at_cornea.cylinder_magnitude().d();
            let closed = rotation::left_in_closed_form(
                Diopters::new(2.0),
                Diopters::new(2.0),
                f64::from(degrees),
            );
            let off = (left_d - closed.d()).abs();
            assert!(off < tolerance_d, "{position_mm} {degrees}: {off}");
        }
    }
}

fn keratometry(flat_d: f64, steep_d: f64, steep: u16) -> Keratometry {
    let at = |power_d: f64, meridian: Meridian| MeridianReading {
        reading: format!("{power_d:.2} D at 1.3375")
            .parse::<CornealReading>()
            .expect("a power of a cornea"),
        meridian,
    };
    let meridian = Meridian::new(steep).expect("1 to 180");
    Keratometry {
        flat: at(flat_d, meridian.perpendicular()),
        steep: at(steep_d, meridian),
        readings: None,
        repeat_difference: None,
    }
}

proptest! {
    /// Sphere, cylinder and axis survive the way through the power vector, and a lens equals its
    /// transposition (Thibos 1997).
    #[test]
    fn power_vectors_lose_nothing(
        sphere in -20.0..20.0,
        cylinder in -8.0..-0.001,
        axis in 0.001..180.0,
        meridian in 0.0..180.0,
    ) {
        let lens = SpheroCylinder {
            sphere: Diopters::new(sphere),
            cylinder: Diopters::new(cylinder),
            axis_degrees: axis,
        };
        let back = lens.power_vector().minus_cylinder();
        prop_assert!((back.sphere - lens.sphere).d().abs() < 1e-12);
        prop_assert!((back.cylinder - lens.cylinder).d().abs() < 1e-12);
        let off = (back.axis_degrees - axis + 90.0).rem_euclid(180.0) - 90.0;
        prop_assert!(off.abs() < 1e-8);
        let (vector, turned) = (lens.power_vector(), lens.transposed().power_vector());
        prop_assert!((vector.j0 - turned.j0).d().abs() < 1e-12);
        prop_assert!((vector.j45 - turned.j45).d().abs() < 1e-12);
        // P(θ) = M + J0·cos 2θ + J45·sin 2θ
        let doubled = f64::to_radians(2.0 * meridian);
        let power = vector.m.d() + vector.j0.d() * math::cos(doubled) + vector.j45.d() * math::sin(doubled);
        prop_assert!((lens.power_in(meridian).d() - power).abs() < 1e-12);
    }

    /// An eye and its mirror image (every meridian α becomes 180 − α) are left with the same sphere
    /// and cylinder, at mirrored axes.
    #[test]
    fn a_mirrored_eye_has_a_mirrored_answer(
        corneal in 0.01..8.0,
        steep in 0.0..180.0,
        cylinder in 0.0..12.0,
        axis in 0.0..180.0,
        labeled in 5.0..30.0,
    ) {
        let left = |mirror: bool| {
            let at = |degrees: f64| if mirror { 180.0 - degrees } else { degrees };
            let eye = ToricEye {
                optical_length: Millimeters::new(23.5),
                lens_position: Millimeters::new(5.2),
                cornea: DoubleAngle::of(Diopters::new(corneal), at(steep))
                    .power_vector(Diopters::new(44.0)),
            };
            let lens = ToricLens {
                labeled: Diopters::new(labeled),
                label: PowerLabel::WeakestMeridian,
                cylinder: Diopters::new(cylinder),
                axis_degrees: at(axis),
            };
            eye.refraction_with(lens.power()).unwrap().at_spectacles
        };
        let (plain, mirrored) = (left(false), left(true));
        prop_assert!((plain.m - mirrored.m).d().abs() < 1e-10);
        prop_assert!((plain.j0 - mirrored.j0).d().abs() < 1e-10);
        prop_assert!((plain.j45 + mirrored.j45).d().abs() < 1e-10);
    }

    /// The front of the cornea has the difference of its powers, wherever it lies.
    #[test]
    fn the_front_is_the_difference_of_its_powers(
        flat in 3_600_u16..4_800,
        more in 1_u16..600,
        steep in 1_u16..=180,
    ) {
        let (flat_d, steep_d) = (f64::from(flat) / 100.0, f64::from(flat + more) / 100.0);
        let front = AnteriorAstigmatism::of(&keratometry(flat_d, steep_d, steep)).unwrap();
        let astigmatism = front.at_standard_index();
        // Radii equal to the nearest micrometer count as equal: 0.01 D can be that little.
        if 2 < more {
            prop_assert!((astigmatism.cylinder().d() - f64::from(more) / 100.0).abs() < 1e-9);
            prop_assert_eq!(astigmatism.steep_meridian().unwrap().degrees(), steep);
        }
    }

    /// Chances rise with the size and never leave 0 to 1; the ellipses grow with their share.
    #[test]
    fn chances_are_chances(
        x in -3.0..3.0,
        y in -3.0..3.0,
        major in 0.01..2.0,
        minor in 0.01..2.0,
        correlation in -0.99..0.99,
    ) {
        let cloud = Cloud {
            mean: DoubleAngle { x: Diopters::new(x), y: Diopters::new(y) },
            covariance: Covariance {
                xx: major * major,
                xy: correlation * major * minor,
                yy: minor * minor,
            },
        };
        let mut last = 0.0;
        for radius in [0.0, 0.25, 0.5, 0.75, 1.0, 3.0, 30.0] {
            let chance = cloud.chance_within(Diopters::new(radius));
            prop_assert!(last - 1e-9 <= chance && chance <= 1.0 + 1e-9, "{} {}", radius, chance);
            last = chance;
        }
        prop_assert!((last - 1.0).abs() < 1e-9);
        let half_axes = [0.5, 0.8, 0.95].map(|share| cloud.ellipse(share).unwrap().semi_major.d());
        prop_assert!(half_axes[0] < half_axes[1] && half_axes[1] < half_axes[2]);
    }
}
