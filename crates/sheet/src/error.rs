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
    /// What is out of the ordinary with patient and eye.
    Special,
    /// Findings that somebody went against, with the reasons.
    Overrides,
    /// Number, signature, fingerprint and page of the sheet.
    Foot,
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
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
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
