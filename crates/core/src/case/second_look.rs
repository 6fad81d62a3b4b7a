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
    AxialLength, ChamberDepth, EyeRecord, FlatIsSteep, LensThickness, MeridianReading, Side,
};
use crate::calendar::Day;
use crate::finding::Quantity;
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
    /// A meridian.
    Meridian(Meridian),
    /// A number with its unit, and with its index or its surface where it has one.
    Quantity(Quantity),
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
    pub fn differs(&self) -> bool {
        let is_left_alone = self.what == Critical::LensThickness && self.second.is_none();
        !is_left_alone && self.first != self.second
    }
}

/// Every critical number of the case beside the second look, or nothing if nobody took one.
///
/// The first numbers are those of the case as it is now: one that is changed after the second look
/// shows as a difference again.
pub fn pairs(draft: &Draft) -> Option<Vec<Pair>> {
    let look = draft.second_look.as_ref()?;
    let unmeasured = EyeRecord::default();
    let eye = draft.operation.eye;
    let record = eye.map_or(&unmeasured, |side| draft.eyes.get(side));
    let keratometry = record.keratometry.as_ref().map(|measured| &measured.value);
    let (flat, steep) = (keratometry.map(|k| k.flat), keratometry.map(|k| k.steep));
    let axial = record.axial_length.as_ref().map(|it| it.value.get());
    let chamber = record.chamber_depth.as_ref().map(|it| it.value);
    let lens = record.lens_thickness.as_ref().map(|it| it.value.get());
    let name = draft.patient.number.as_deref().map(str::trim);
    let name = name.filter(|number| !number.is_empty());

    let number = |number: &str| Looked::Number(number.to_owned());
    let length = |length| Looked::Quantity(Quantity::Length(length));
    let reading = |at: MeridianReading| Looked::Quantity(at.reading.into());
    let meridian = |at: MeridianReading| Looked::Meridian(at.meridian);
    let depth = |depth: ChamberDepth| Looked::Quantity(depth.into());
    let power = |power| Looked::Quantity(Quantity::Power(power));
    let mut pairs = Vec::new();
    let mut add = |what, first, second| {
        pairs.push(Pair {
            what,
            first,
            second,
        });
    };
    let again = look.number.trim();
    add(Critical::Number, name.map(number), Some(number(again)));
    let again = Some(Looked::Eye(look.eye));
    add(Critical::Eye, eye.map(Looked::Eye), again);
    let again = Some(length(look.axial_length.get()));
    add(Critical::AxialLength, axial.map(length), again);
    for (what, first, second) in [
        ([Critical::Flat, Critical::FlatMeridian], flat, look.flat),
        (
            [Critical::Steep, Critical::SteepMeridian],
            steep,
            look.steep,
        ),
    ] {
        let [of_reading, of_meridian] = what;
        add(of_reading, first.map(reading), Some(reading(second)));
        add(of_meridian, first.map(meridian), Some(meridian(second)));
    }
    let again = look.chamber_depth.map(depth);
    add(Critical::ChamberDepth, chamber.map(depth), again);
    let again = look.lens_thickness.map(|lens| length(lens.get()));
    add(Critical::LensThickness, lens.map(length), again);
    let first = draft.lens.target.map(power);
    add(Critical::Target, first, look.target.map(power));
    Some(pairs)
}

/// The numbers in which a recorded second look differs from the case; none if nobody took one.
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
