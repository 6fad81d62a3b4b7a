//! A second look: another person enters the critical numbers again without seeing the first ones.
//!
//! Compared is what was entered, digit by digit: any difference counts, however small (house rule;
//! no published tolerance was found, and a slip of one digit can be small). What was left out counts
//! too, except a lens thickness, which a second look may leave alone.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{serde_as, skip_serializing_none};

use super::plain_text;
use super::{CommandRefused, Critical, Draft};
use crate::biometry::{
    AxialLength, ChamberDepth, CornealReading, EyeRecord, FlatIsSteep, LensThickness,
    MeridianReading, Side,
};
use crate::calendar::Day;
use crate::quantity::{HundredthDiopters, Meridian, Text, checked_when_read};

/// What the second person entered from the papers, for the eye that is operated on.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct SecondLook {
    /// Who looked.
    pub by: String,
    /// The day.
    #[serde_as(as = "Day")]
    pub on: NaiveDate,
    /// Hospital number.
    pub number: String,
    /// The eye to be operated on.
    pub eye: Side,
    /// Axial length.
    pub axial_length: AxialLength,
    /// The meridian of the longer radius, with its index if it is a power.
    pub flat: MeridianReading,
    /// The meridian of the shorter radius.
    pub steep: MeridianReading,
    /// Chamber depth with its surface; nothing if the papers give none.
    #[serde(rename = "anterior_chamber_depth")]
    pub chamber_depth: Option<ChamberDepth>,
    /// Lens thickness; nothing if it was not looked at.
    pub lens_thickness: Option<LensThickness>,
    /// Target; nothing if the papers give none.
    #[serde_as(as = "Option<Text>")]
    pub target: Option<HundredthDiopters>,
}

checked_when_read!(SecondLook, check_second_look);

/// A number that was entered twice, exactly as it was entered.
#[derive(Clone, Debug, PartialEq)]
pub enum Looked {
    /// A hospital number.
    Number(String),
    /// An eye.
    Eye(Side),
    /// An axial length.
    AxialLength(AxialLength),
    /// A reading, with its index if it is a power.
    Reading(CornealReading),
    /// A meridian.
    Meridian(Meridian),
    /// A chamber depth with its surface.
    Depth(ChamberDepth),
    /// A lens thickness.
    LensThickness(LensThickness),
    /// A target.
    Target(HundredthDiopters),
}

/// One number as both entered it; nothing where one of them entered none.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// Which number.
    pub what: Critical,
    /// As the case has it.
    pub first: Option<Looked>,
    /// As the second person entered it.
    pub second: Option<Looked>,
}

impl Pair {
    /// Whether the two are not the same. A lens thickness that was not looked at differs from nothing.
    #[must_use]
    pub fn differs(&self) -> bool {
        let is_left_alone = self.what == Critical::LensThickness && self.second.is_none();
        !is_left_alone && self.first != self.second
    }
}

/// Every critical number of the case beside the second look, or nothing if nobody took one.
///
/// The first numbers are those of the case as it is now: one that is changed after the second look
/// shows as a difference again.
#[must_use]
pub fn pairs(draft: &Draft) -> Option<Vec<Pair>> {
    let look = draft.second_look.as_ref()?;
    let unmeasured = EyeRecord::default();
    let eye = draft.operation.eye;
    let record = eye.map_or(&unmeasured, |side| draft.eyes.get(side));
    let keratometry = record.keratometry.as_ref().map(|measured| &measured.value);
    let (flat, steep) = (keratometry.map(|k| k.flat), keratometry.map(|k| k.steep));
    let depth = record.chamber_depth.as_ref().map(|depth| depth.value);
    let length = record.axial_length.as_ref().map(|length| length.value);
    let thickness = record.lens_thickness.as_ref().map(|lens| lens.value);
    let number = draft.patient.number.as_deref().map(str::trim);
    let number = number.filter(|number| !number.is_empty());
    let reading = |at: Option<MeridianReading>| at.map(|at| Looked::Reading(at.reading));
    let meridian = |at: Option<MeridianReading>| at.map(|at| Looked::Meridian(at.meridian));
    let number_of = |number: &str| Looked::Number(number.to_owned());
    let rows = [
        (
            Critical::Number,
            number.map(number_of),
            Some(number_of(look.number.trim())),
        ),
        (
            Critical::Eye,
            eye.map(Looked::Eye),
            Some(Looked::Eye(look.eye)),
        ),
        (
            Critical::AxialLength,
            length.map(Looked::AxialLength),
            Some(Looked::AxialLength(look.axial_length)),
        ),
        (Critical::Flat, reading(flat), reading(Some(look.flat))),
        (
            Critical::FlatMeridian,
            meridian(flat),
            meridian(Some(look.flat)),
        ),
        (Critical::Steep, reading(steep), reading(Some(look.steep))),
        (
            Critical::SteepMeridian,
            meridian(steep),
            meridian(Some(look.steep)),
        ),
        (
            Critical::ChamberDepth,
            depth.map(Looked::Depth),
            look.chamber_depth.map(Looked::Depth),
        ),
        (
            Critical::LensThickness,
            thickness.map(Looked::LensThickness),
            look.lens_thickness.map(Looked::LensThickness),
        ),
        (
            Critical::Target,
            draft.lens.target.map(Looked::Target),
            look.target.map(Looked::Target),
        ),
    ];
    let pair = |(what, first, second)| Pair {
        what,
        first,
        second,
    };
    Some(rows.into_iter().map(pair).collect())
}

/// The numbers in which a recorded second look differs from the case; none if nobody took one.
#[must_use]
pub fn differences(draft: &Draft) -> Vec<Pair> {
    let all = pairs(draft).unwrap_or_default();
    all.into_iter().filter(Pair::differs).collect()
}

/// A second look is somebody's, of some patient, and its flat meridian is not the steeper one.
pub(super) fn check_second_look(look: &SecondLook) -> Result<(), CommandRefused> {
    if look.by.trim().is_empty() {
        return Err(CommandRefused::AuthorMissing);
    }
    plain_text::check("name of the person", &look.by)?;
    if look.number.trim().is_empty() {
        return Err(CommandRefused::NumberMissing);
    }
    plain_text::check("hospital number", &look.number)?;
    Ok(FlatIsSteep::check(look.flat, look.steep)?)
}

#[cfg(test)]
mod tests;
