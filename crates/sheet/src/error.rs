//! Why no sheet is made. A refusal crosses from the process that sets a sheet to the one that asked,
//! with its place.

use serde::{Deserialize, Serialize};

/// A part of the sheet that no template can leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Block {
    /// Name, number and birth date.
    Identity,
    Eye,
    Lens,
    /// The signed power, or on a draft that there is none.
    Power,
    /// Cylinder and marks of a toric lens.
    Cylinder,
    /// Prediction and target.
    Target,
    /// What lies ready beside the lens.
    Ready,
    /// Allergies and medicines, as they were told.
    Told,
    /// What is out of the ordinary with patient and eye.
    Special,
    /// Whether somebody took a second look, and what came of it.
    SecondLook,
    /// Findings that somebody went against, with the reasons.
    Overrides,
    /// Number, signature, fingerprint and page of the sheet.
    Foot,
    /// That it is no longer the sheet to work by.
    Standing,
}

/// What a clinic's arrangement did that it must not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Fault {
    /// The fixed part is not what it is without the arrangement.
    Changed,
    /// Something reaches out of the room of the arrangement.
    Leaves,
    /// Something is cut off.
    Cut,
    /// Something lies over letters.
    Over,
    /// A number that the data does not hold, or not so often.
    Number,
    /// Letters that are read as a number.
    LikeNumber,
    /// Numbers so near each other that they are read as one.
    ReadAsOne,
    /// A number with decimals, or an angle, away from the words it stands beside in the data.
    Apart,
    /// The words of the eye that is not operated.
    OtherEye,
    /// Letters that could be taken for those of the fixed part.
    Large,
    /// Letters that nobody reads on paper.
    Small,
    /// Letters that are not dark, or have an outline.
    Pale,
    /// Something turned, mirrored or stretched.
    Turned,
    /// A glyph that is not the one of its letter, or not in its place.
    Glyph,
    /// A drawing of which a number could be put together.
    Drawing,
    /// A figure of the plan that is not whole, not as it was handed over, or under another title.
    Figure,
    /// A number that is read aloud or listed and is not of the data, or a file.
    Unseen,
}

/// Where on a sheet, and what stands there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// The page, counted from 1.
    pub page: usize,
    /// From the left edge of the page, points.
    pub across_pt: f64,
    /// From the upper edge of the page, points.
    pub down_pt: f64,
    /// The text there; nothing for a drawing.
    pub text: String,
}

/// A text that a person typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum What {
    PatientName,
    PatientNumber,
    LensName,
    LensModel,
    /// Name and model of a lens that lies ready.
    ReadyLens,
    Signer,
    Role,
    /// A reason for going against a finding.
    Reason,
    ReasonAuthor,
    /// Who took the second look.
    SecondLooker,
    Measurer,
    Technique,
    Viscoelastic,
    InRoom,
    Allergies,
    Medicines,
    /// Any other text of the sheet.
    Any,
}

/// Why no sheet is made. A sheet that would say less than it must is refused, never printed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, thiserror::Error)]
#[error("{self:?}")]
#[non_exhaustive]
pub enum SheetError {
    /// A text holds a letter that no shipped typeface has; it would be printed as a box.
    NoGlyph {
        what: What,
        /// The letter.
        character: char,
    },
    /// A text holds a control character or one that hides.
    Hidden { what: What, code: u32 },
    /// A text is too long for the block that must not be missed.
    TooLong {
        what: What,
        length: usize,
        /// The longest that is taken.
        limit: usize,
    },
    /// The plan was computed for the other eye than the draft names.
    AnotherEye,
    /// The template left out, hid or covered a part that must be there.
    BlockMissing { block: Block },
    /// The clinic's arrangement prints what could be taken for another plan.
    Arrangement {
        fault: Fault,
        /// Where.
        at: Spot,
    },
    OffThePage {
        /// The page, counted from 1.
        page: usize,
        /// The text, as far as it was laid out.
        text: String,
    },
    /// The layout engine refused the template.
    Template {
        /// What the engine says.
        message: String,
    },
    /// The document does not meet PDF/A-2a and PDF/UA-1.
    Standard {
        /// What the engine says.
        message: String,
    },
    /// The fingerprint does not fit into a QR code.
    QrCode,
}
