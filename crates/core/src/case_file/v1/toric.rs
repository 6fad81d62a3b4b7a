//! Cylinders of a toric lens and the chosen one, as stored.

use serde::{Deserialize, Serialize};

use super::mirror::mirror;
use super::text::Text;
use crate::astigmatism;
use crate::case_file::error::ContentError;
use crate::lens;
use crate::quantity::{HundredthDiopters, Meridian, OutOfRange};

mirror!(
    PowerLabel = lens::PowerLabel {
        SphericalEquivalent,
        WeakestMeridian
    }
);

mirror!(
    PosteriorChoice = astigmatism::PosteriorChoice {
        Measured,
        LeftOut,
        Regression,
        Multiplier
    }
);

/// Cylinders a lens is made in.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ToricSteps {
    label: PowerLabel,
    cylinders: Vec<Text<HundredthDiopters>>,
}

impl ToricSteps {
    pub(super) fn from_domain(steps: &lens::ToricSteps) -> Self {
        Self {
            label: steps.label().into(),
            cylinders: steps.cylinders().iter().copied().map(Text).collect(),
        }
    }

    pub(super) fn into_domain(self) -> Result<lens::ToricSteps, ContentError> {
        let cylinders = self.cylinders.into_iter().map(|cylinder| cylinder.0);
        Ok(lens::ToricSteps::new(
            cylinders.collect(),
            self.label.into(),
        )?)
    }
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ToricChoice {
    cylinder: Text<HundredthDiopters>,
    axis: u16,
}

impl ToricChoice {
    pub(super) fn from_domain(choice: lens::ToricChoice) -> Self {
        Self {
            cylinder: Text(choice.cylinder),
            axis: choice.axis.degrees(),
        }
    }

    pub(super) fn into_domain(self) -> Result<lens::ToricChoice, ContentError> {
        Ok(lens::ToricChoice {
            cylinder: checked_cylinder(self.cylinder.0)?,
            axis: Meridian::new(self.axis)?,
        })
    }
}

/// A cylinder some toric lens could have; whether the chosen one has it is a rule's business.
fn checked_cylinder(cylinder: HundredthDiopters) -> Result<HundredthDiopters, OutOfRange> {
    let limits = [lens::ToricSteps::SMALLEST, lens::ToricSteps::LARGEST];
    if limits[0] <= cylinder && cylinder <= limits[1] {
        return Ok(cylinder);
    }
    Err(OutOfRange::new("chosen cylinder", cylinder, limits))
}

#[cfg(test)]
mod tests {
    use crate::case_file;

    const CASE: &str = r#"(
        format: "millrace case", version: 1,
        patient: (name: "Vane, Ida", number: "1"),
        operation: (eye: right),
        right_eye: (
            second_keratometry: (
                flat: (reading: "43.00 D at 1.3375", meridian: 180),
                steep: (reading: "45.00 D at 1.3375", meridian: 90),
                method: topographer,
            ),
            posterior_astigmatism: (
                magnitude: "+0.30 D", steep_meridian: 90, method: tomographer, spread: "+0.15 D",
            ),
            state: (irregular_cornea: false),
        ),
        lens: (
            toric: (cylinder: "+2.25 D", axis: 88),
            posterior: measured,
        ),
        approach: (
            incision_effect: (flattening: "+0.25 D", scatter: "+0.35 D", eyes: 60, on: "2026-05-04"),
        ),
    )"#;

    #[test]
    fn every_field_is_read_written_and_read_back() {
        let draft = case_file::read(CASE).unwrap();
        let eye = &draft.eyes.right;
        assert!(eye.second_keratometry.is_some() && eye.posterior_astigmatism.is_some());
        assert_eq!(eye.state.irregular_cornea, Some(false));
        assert!(draft.lens.toric.is_some() && draft.lens.posterior.is_some());
        assert!(draft.approach.incision_effect.is_some());
        let written = case_file::write(&draft).unwrap();
        assert_eq!(case_file::read(&written).unwrap(), draft);
    }

    #[test]
    fn what_cannot_be_is_refused_with_a_message() {
        for (from, to, message) in [
            (
                "cylinder: \"+2.25 D\"",
                "cylinder: \"-2.25 D\"",
                "lens.toric: chosen cylinder \u{2212}2.25 D is outside +0.01 D to +20.00 D",
            ),
            (
                "axis: 88",
                "axis: 0",
                "lens.toric: meridian 0° is outside 1° to 180°; the horizontal is written 180",
            ),
        ] {
            assert!(CASE.contains(from), "{from}");
            let error = case_file::read(&CASE.replacen(from, to, 1)).unwrap_err();
            assert_eq!(error.to_string(), message);
        }
    }

    #[test]
    fn a_toric_record_says_what_its_label_means() {
        let file = |toric: &str| {
            format!(
                r#"(format: "millrace lenses", version: 1, lenses: [(
                    name: "x", model: "y", site: bag, material: pmma, haptic: plate,
                    optic_diameter: "6.00 mm", overall_length: "12.00 mm",
                    may_sit_in_sulcus: false, powers: [], toric: ({toric}),
                    constants_for: optical, constants: (),
                )])"#
            )
        };
        let read = |toric| case_file::read_lenses(&file(toric));
        let records =
            read("label: weakest_meridian, cylinders: [\"+1.50 D\", \"+2.25 D\"]").unwrap();
        let written = case_file::write_lenses(&records).unwrap();
        assert_eq!(case_file::read_lenses(&written).unwrap(), records);
        let message = |toric| read(toric).unwrap_err().to_string();
        assert!(message("cylinders: [\"+1.50 D\"]").contains("missing field named `label`"));
        assert_eq!(
            message("label: spherical_equivalent, cylinders: []"),
            "lenses: a toric lens needs at least one cylinder"
        );
        assert_eq!(
            message("label: spherical_equivalent, cylinders: [\"+2.25 D\", \"+1.50 D\"]"),
            "lenses: cylinders of a toric lens must rise: +1.50 D does not"
        );
    }
}
