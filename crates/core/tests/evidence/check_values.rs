//! Check values: each with the number, its origin and its digits. The tolerance is half a unit in
//! the last printed digit; the program never writes an expected value.

use std::collections::BTreeMap;

use millrace_core::evidence::BIBLIOGRAPHY;
use millrace_core::iol_power::after_corneal_surgery::double_k::{self, BeforeAndAfter};
use millrace_core::iol_power::after_corneal_surgery::{modified_haigis_radius, no_history_k};
use millrace_core::iol_power::{
    AConstant, CornealRadii, HaigisConstants, PersonalizedAcd, SurgeonFactor, ThinLensEye,
    conversions, haigis, hoffer_q, holladay_1, srk_t, t2, thick_lens,
};
use millrace_core::limits::Limits;
use millrace_core::optics::{PowerVector, SpheroCylinder, vertex};
use millrace_core::quantity::{Diopters, KeratometricIndex, Millimeters};
use serde::Deserialize;

use crate::schematic_eyes;
use crate::support::read;

/// How an expected value came to be, strongest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Origin {
    /// Printed as a worked example: by the authors of an equation or, of plain optics, in a textbook.
    PublishedExample,
    /// A worked example read in a summary of the paper.
    SecondaryExample,
    /// Read from a published table.
    PublishedTable,
    /// A table that follows from plain optics, worked in the reference notes.
    DerivedTable,
    /// Computed by a second implementation written from the equations alone.
    IndependentImplementation,
    /// Worked by hand from the equation.
    HandArithmetic,
    /// A fact of the trade.
    CommonPractice,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Check {
    pub(crate) id: String,
    pub(crate) subject: String,
    pub(crate) origin: Origin,
    pub(crate) work: String,
    #[expect(
        dead_code,
        reason = "for the reader of the file; its presence is checked"
    )]
    locator: String,
    pub(crate) quantity: String,
    pub(crate) inputs: BTreeMap<String, f64>,
    expected: f64,
    printed_decimals: u32,
    /// How far the source itself says its number may be off; else half a unit of its last digit.
    within: Option<f64>,
    #[expect(dead_code, reason = "for the reader of the file")]
    note: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    check: Vec<Check>,
}

impl Check {
    fn input(&self, name: &str) -> f64 {
        *self
            .inputs
            .get(name)
            .unwrap_or_else(|| panic!("{} needs {name}", self.id))
    }

    fn mm(&self, name: &str) -> Millimeters {
        Millimeters::new(self.input(name))
    }

    fn d(&self, name: &str) -> Diopters {
        Diopters::new(self.input(name))
    }

    fn cornea(&self) -> CornealRadii {
        CornealRadii(self.mm("k1_mm"), self.mm("k2_mm"))
    }
}

pub(crate) fn all() -> Vec<Check> {
    ["optics", "formulas", "schematic_eyes"]
        .iter()
        .flat_map(|name| {
            let path = format!("tests/check-values/{name}.toml");
            let file: File = toml::from_str(&read(&path)).unwrap_or_else(|e| panic!("{path}: {e}"));
            file.check
        })
        .collect()
}

#[test]
fn every_check_value_is_met_to_its_last_printed_digit() {
    let mut failed = Vec::new();
    for check in all() {
        let found = compute(&check);
        let half_unit = 0.5 / f64::from(10_u32.pow(check.printed_decimals));
        let tolerance = check.within.unwrap_or(half_unit);
        let off = (found - check.expected).abs();
        // A number exactly half way may be printed either way.
        let met = off <= tolerance * (1.0 + 1e-9);
        if !met {
            failed.push(format!(
                "{}: expected {}, found {found}",
                check.id, check.expected
            ));
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

#[test]
fn every_check_names_a_known_work_and_has_an_id_of_its_own() {
    let checks = all();
    let mut ids: Vec<_> = checks.iter().map(|check| check.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), checks.len());
    for check in &checks {
        assert!(
            BIBLIOGRAPHY.iter().any(|work| work.key == check.work),
            "{}",
            check.work
        );
    }
}

fn compute(check: &Check) -> f64 {
    match check.subject.as_str() {
        "keratometric_index" => {
            let index = KeratometricIndex::parse(&check.input("index").to_string()).unwrap();
            index.power(check.mm("radius_mm")).d()
        }
        "thin_lens_eye" | "vertex_distance" => {
            vertex::to_cornea(check.d("spectacle_d")).unwrap().d()
        }
        "rotated_cylinder" => rotation_residual_percent(check.input("rotation_degrees")),
        "posterior_cornea" => thick_lens::POSTERIOR_RATIO,
        "depth_limit" => Limits::shipped().chamber_depth.millimeters().mm(),
        "no_history_k" => no_history(check),
        "haigis_modified_radius" => modified_haigis_radius::radius(check.mm("measured_mm")).mm(),
        "conversions" => conversion(check),
        "le_grand" => schematic_eyes::le_grand(&check.quantity),
        "gullstrand_1" | "thick_lens" => schematic_eyes::gullstrand(&check.quantity, &check.inputs),
        _ => thin_lens(check),
    }
}

fn conversion(check: &Check) -> f64 {
    let a = AConstant::new(check.input("a_constant")).unwrap();
    match check.quantity.as_str() {
        "pacd_mm" => conversions::personalized_acd(a).unwrap().value(),
        "surgeon_factor_mm" => conversions::surgeon_factor(a).unwrap().value(),
        "a0_mm" => conversions::haigis(a).unwrap().a0_mm(),
        other => panic!("{}: no quantity {other}", check.id),
    }
}

fn thin_lens(check: &Check) -> f64 {
    let eye = thin_lens_eye(check);
    match check.quantity.as_str() {
        "lens_position_mm" => eye.lens_position.mm(),
        "power_for_target_d" => eye.power_for(check.d("target_d")).unwrap().d(),
        other => panic!("{}: no quantity {other}", check.id),
    }
}

fn thin_lens_eye(check: &Check) -> ThinLensEye {
    let length = check.mm("axial_length_mm");
    let a = || AConstant::new(check.input("a_constant")).unwrap();
    match check.subject.as_str() {
        "srk_t" => srk_t::eye(length, check.cornea(), a()).unwrap(),
        "t2" => t2::eye(length, check.cornea(), a()),
        "holladay_1" => {
            let factor = SurgeonFactor::new(check.input("surgeon_factor_mm")).unwrap();
            holladay_1::eye(length, check.cornea(), factor).value
        }
        "hoffer_q" => {
            let depth = PersonalizedAcd::new(check.input("pacd_mm")).unwrap();
            hoffer_q::eye(length, check.cornea(), depth).value
        }
        "haigis" => {
            let [a0, a1, a2] = ["a0_mm", "a1", "a2"].map(|name| check.input(name));
            let constants = HaigisConstants::new(a0, a1, a2).unwrap();
            haigis::eye(length, check.mm("acd_mm"), check.cornea(), constants)
        }
        "double_k" => {
            let k = BeforeAndAfter {
                before: check.d("k_before_d"),
                after: check.d("k_after_d"),
            };
            double_k::eye(length, k, a()).unwrap()
        }
        other => panic!("{}: no subject {other}", check.id),
    }
}

fn no_history(check: &Check) -> f64 {
    let measured = check.d("measured_d");
    match check.quantity.as_str() {
        "corneal_power_d" => no_history_k::myopic(measured).d(),
        "hyperopic_power_d" => no_history_k::hyperopic(measured).d(),
        "known_power_d" => {
            no_history_k::with_known_correction(measured, check.d("correction_d")).d()
        }
        other => panic!("{}: no quantity {other}", check.id),
    }
}

/// What is left of a cylinder that an equal one of opposite sign should cancel, turned off axis.
fn rotation_residual_percent(degrees: f64) -> f64 {
    let cylinder = |power_d: f64, axis_degrees| {
        SpheroCylinder {
            sphere: Diopters::new(0.0),
            cylinder: Diopters::new(power_d),
            axis_degrees,
        }
        .power_vector()
    };
    let eye: PowerVector = cylinder(-2.0, 180.0);
    let lens = cylinder(2.0, degrees);
    eye.plus(lens).cylinder_magnitude().d() / 2.0 * 100.0
}
