//! Closed sets of the trade, each with its words.

use std::borrow::Cow;

use millrace_core::astigmatism::Orientation;
use millrace_core::biometry::{
    CornealSurgeryKind, DepthStart, Item, LengthMethod, Method, NucleusGrade, Sector, Side,
};
use millrace_core::case::{Anesthesia, Approach, Critical, State, SurgeonGrade};
use millrace_core::chamber::{Delivery, NucleusSize, SectionError, WorkingPlane};
use millrace_core::evidence::{Source, Standing};
use millrace_core::plan::PlanRefused;
use millrace_core::quantity::Direction;
use millrace_core::rules::Severity;
use millrace_core::signing::SheetNumber;

use crate::measurements::name;
use crate::{Show, Words};

messages! {
    right_eye_head = "Right eye";
    left_eye_head = "Left eye";
    right_eye_capitals = "RIGHT EYE";
    left_eye_capitals = "LEFT EYE";

    locs_iii(opalescence) = "LOCS III opalescence (NO) {opalescence}";
    locs_iii_with_color(opalescence, color) = "LOCS III opalescence (NO) {opalescence}, color (NC) {color}";
    who_simplified(grade) = "WHO simplified {grade}";
    emery_little(numeral) = "Emery-Little {numeral}";

    sector_at(sector, direction) = "{sector} at {direction}";

    source_with_place(work, place, standing) = "{work}: {place} [{standing}]";
    source(work, standing) = "{work} [{standing}]";
}

/// "Right eye", at the head of a line.
pub fn eye_head(words: Words, side: Side) -> &'static str {
    match side {
        Side::Right => right_eye_head(words),
        Side::Left => left_eye_head(words),
    }
}

/// "RIGHT EYE", where it must not be missed.
pub fn eye_capitals(words: Words, side: Side) -> &'static str {
    match side {
        Side::Right => right_eye_capitals(words),
        Side::Left => left_eye_capitals(words),
    }
}

/// "temporal at 180°".
pub fn place(words: Words, side: Side, direction: Direction) -> String {
    sector_at(words, side.sector(direction), direction)
}

shown! { Side, words {
    Right = "right eye";
    Left = "left eye";
}}

shown! { DepthStart, words {
    Epithelium = "from the epithelium";
    Endothelium = "from the endothelium";
}}

shown! { Method, words {
    Optical = "optical";
    ImmersionUltrasound = "immersion ultrasound";
    ContactUltrasound = "contact ultrasound";
    Keratometer = "keratometer";
    Topographer = "topographer";
    Tomographer = "tomographer";
    SpecularMicroscope = "specular microscope";
    Pachymeter = "pachymeter";
    Manual = "manual";
}}

shown! { LengthMethod, words {
    Optical = "optical biometry";
    Immersion = "immersion ultrasound";
    Contact = "contact ultrasound";
}}

shown! { Sector, words {
    Nasal = "nasal";
    Superonasal = "superonasal";
    Superior = "superior";
    Superotemporal = "superotemporal";
    Temporal = "temporal";
    Inferotemporal = "inferotemporal";
    Inferior = "inferior";
    Inferonasal = "inferonasal";
}}

shown! { CornealSurgeryKind, words {
    MyopicLaser = "laser for myopia";
    HyperopicLaser = "laser for hyperopia";
    Other = "other corneal surgery";
}}

shown! { Critical, words {
    Number = "hospital number";
    Eye = "operative eye";
    Flat = "flat reading";
    FlatMeridian = "flat meridian";
    Steep = "steep reading";
    SteepMeridian = "steep meridian";
    Target = "target";
} else {
    Self::AxialLength => name(words, Item::AxialLength).into(),
    Self::ChamberDepth => name(words, Item::ChamberDepth).into(),
    Self::LensThickness => name(words, Item::LensThickness).into(),
}}

shown! { SurgeonGrade, words {
    Independent = "independent surgeon";
    ExperiencedTrainee = "experienced trainee";
    Trainee = "less experienced trainee";
}}

shown! { Approach, words {
    Phacoemulsification = "phacoemulsification";
    SmallIncision = "manual small-incision surgery (SICS)";
}}

shown! { Anesthesia, words {
    Topical = "topical";
    TopicalIntracameral = "topical and intracameral";
    SubTenon = "sub-Tenon";
    Peribulbar = "peribulbar";
    Retrobulbar = "retrobulbar";
    General = "general";
}}

shown! { Severity, words {
    Stop = "Stop";
    Review = "Review";
    Note = "Note";
}}

shown! { PlanRefused, words {
    NoEye = "the operative eye is not chosen: set operation.eye to right or left";
}}

shown! { State, words {
    Draft = "draft";
    Measured = "measured";
    Planned = "planned";
    Signed = "signed";
    SetAside = "set aside";
}}

shown! { Orientation, words {
    WithTheRule = "with the rule";
    AgainstTheRule = "against the rule";
    Oblique = "oblique";
}}

shown! { Standing, words {
    Printed = "printed";
    Secondary = "secondary source";
    Derived = "derived";
    Memory = "from memory";
    CommonPractice = "common practice";
    Assumption = "assumption";
}}

impl Show for NucleusGrade {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::LocsIii {
                opalescence,
                color: None,
            } => locs_iii(words, opalescence),
            Self::LocsIii {
                opalescence,
                color: Some(color),
            } => locs_iii_with_color(words, opalescence, color),
            Self::WhoSimplified(grade) => who_simplified(words, grade.grade()),
            Self::EmeryLittle(grade) => {
                let numerals = ["I", "II", "III", "IV", "V"];
                let numeral = numerals.get(usize::from(grade.grade()).saturating_sub(1));
                emery_little(words, numeral.copied().unwrap_or("?"))
            }
        }
        .into()
    }
}

shown! { WorkingPlane, words {
    Bag = "in the bag";
    Pupil = "in the pupil plane";
    Chamber = "in mid-chamber";
}}

shown! { Delivery, words {
    Whole = "whole";
    Halves = "in two parts";
    Thirds = "in three parts";
}}

shown! { NucleusSize, words {
    Measured = "measured";
    Guessed = "a guess";
}}

shown! { SectionError, words {
    Keratometry = "keratometry is missing";
    CornealThickness = "corneal thickness is missing";
    ChamberDepth = "anterior chamber depth is missing";
}}

impl Show for SheetNumber {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

impl Show for Source {
    /// Citation, place and standing.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let work = words.reference(self.work.citation);
        match words.reference(self.locator) {
            "" => source(words, work, self.standing),
            place => source_with_place(words, work, place, self.standing),
        }
        .into()
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::EmeryLittleGrade;

    use super::*;

    #[test]
    fn a_black_nucleus_is_grade_five() {
        let black = NucleusGrade::EmeryLittle(EmeryLittleGrade::new(5).unwrap());
        assert_eq!(black.show(Words::ENGLISH), "Emery-Little V");
    }
}
