//! A second look, as stored: values without circumstances, since the papers they were read from are
//! the first ones'.

use serde::{Deserialize, Serialize};

use super::eye::{DepthStart, Reading};
use super::patient::Side;
use super::text::Text;
use crate::biometry::{AnteriorChamberDepth, AxialLength, ChamberDepth, LensThickness};
use crate::calendar::Day;
use crate::case::{self, Author};
use crate::case_file::CaseFileError;
use crate::quantity::HundredthDiopters;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SecondLook {
    by: String,
    on: Day,
    number: String,
    eye: Side,
    axial_length: Text<AxialLength>,
    flat: Reading,
    steep: Reading,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    anterior_chamber_depth: Option<Depth>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lens_thickness: Option<Text<LensThickness>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    target: Option<Text<HundredthDiopters>>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Depth {
    value: Text<AnteriorChamberDepth>,
    from: DepthStart,
}

impl SecondLook {
    pub(super) fn from_domain(look: &case::SecondLook) -> Self {
        Self {
            by: look.author.name.clone(),
            on: Day(look.author.on),
            number: look.number.clone(),
            eye: look.eye.into(),
            axial_length: Text(look.axial_length),
            flat: Reading::from_domain(look.flat),
            steep: Reading::from_domain(look.steep),
            anterior_chamber_depth: look.chamber_depth.map(|depth| Depth {
                value: Text(depth.depth),
                from: depth.start.into(),
            }),
            lens_thickness: look.lens_thickness.map(Text),
            target: look.target.map(Text),
        }
    }

    pub(super) fn into_domain(self) -> Result<case::SecondLook, CaseFileError> {
        let at = CaseFileError::at("second_look");
        let look = case::SecondLook {
            author: Author {
                name: self.by,
                on: self.on.0,
            },
            number: self.number,
            eye: self.eye.into(),
            axial_length: self.axial_length.0,
            flat: self.flat.into_domain().map_err(&at)?,
            steep: self.steep.into_domain().map_err(&at)?,
            chamber_depth: self.anterior_chamber_depth.map(|depth| ChamberDepth {
                depth: depth.value.0,
                start: depth.from.into(),
            }),
            lens_thickness: self.lens_thickness.map(|thickness| thickness.0),
            target: self.target.map(|target| target.0),
        };
        case::check_second_look(&look).map_err(|error| at(error.into()))?;
        Ok(look)
    }
}

#[cfg(test)]
mod tests {
    use crate::case_file::{read, write};
    use crate::rules::testing::ordinary_draft;
    use crate::rules::testing_lens::second_look_of;

    /// A look without and with everything that may be left out.
    #[test]
    fn a_second_look_reads_back_as_written() {
        let mut draft = ordinary_draft();
        draft.0.second_look = Some(second_look_of(&draft.0));
        assert_eq!(read(&write(&draft.0).unwrap()).unwrap(), draft.0);
        draft.set_lens_thickness("4.503 mm");
        draft.0.lens.target = Some(crate::quantity::HundredthDiopters::new(-25));
        draft.0.second_look = Some(second_look_of(&draft.0));
        let text = write(&draft.0).unwrap();
        for stored in [
            "target: \"-0.25 D\"",
            "lens_thickness: \"4.503 mm\"",
            "from: epithelium",
        ] {
            assert!(text.contains(stored), "{stored}: {text}");
        }
        assert_eq!(read(&text).unwrap(), draft.0);
    }

    #[test]
    fn a_file_without_one_reads_as_before() {
        let draft = ordinary_draft().0;
        let text = write(&draft).unwrap();
        assert!(!text.contains("second_look"));
        assert_eq!(read(&text).unwrap().second_look, None);
    }

    #[test]
    fn a_look_the_program_would_not_have_recorded_is_refused() {
        let mut draft = ordinary_draft();
        draft.0.second_look = Some(second_look_of(&draft.0));
        let text = write(&draft.0).unwrap();
        let message = |from: &str, to: &str| {
            let changed = text.replacen(from, to, 1);
            assert_ne!(changed, text);
            read(&changed).unwrap_err().to_string()
        };
        assert_eq!(
            message("\"B. Second\"", "\" \""),
            "second_look: the name of the person is missing"
        );
        assert_eq!(
            message("number: \"1\"", "number: \"\""),
            "second_look: the patient number is missing"
        );
        assert!(message("number: \"1\"", "numbr: \"1\"").contains("numbr"));
    }
}
