//! Why no sheet is made.

use millrace_core::case::TextRefused;

/// A part of the sheet that no template can leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Block {
    /// Name, number and birth date.
    Identity,
    /// The eye in words.
    Eye,
    /// The lens and where it sits.
    Lens,
    /// The signed power, or on a draft that there is none.
    Power,
    /// Cylinder and marks of a toric lens.
    Cylinder,
    /// Findings that somebody went against, with the reasons.
    Overrides,
    /// Number, signature, fingerprint and page of the sheet.
    Foot,
}

impl core::fmt::Display for Block {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Identity => "name, number and birth date",
            Self::Eye => "the eye",
            Self::Lens => "the lens",
            Self::Power => "the lens power",
            Self::Cylinder => "cylinder and marks",
            Self::Overrides => "the reasons for going against findings",
            Self::Foot => "the foot",
        })
    }
}

/// Why no sheet is made. A sheet that would say less than it must is refused, never printed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// A text holds a letter that no shipped typeface has; it would be printed as a box.
    #[error("{what} holds {character:?} (U+{code:04X}), which no typeface of this program has: \
             write it in another script, or fill in the sheet by hand", code = u32::from(*.character))]
    NoGlyph {
        /// What the text is.
        what: &'static str,
        /// The letter.
        character: char,
    },
    /// A text holds a control character or one that hides.
    #[error(transparent)]
    Hidden(#[from] TextRefused),
    /// A text is too long for the block that must not be missed.
    #[error(
        "{what} has {length} characters; the sheet takes up to {limit} (house value), so that it stays legible"
    )]
    TooLong {
        /// What the text is.
        what: &'static str,
        /// Its length.
        length: usize,
        /// The longest that is taken.
        limit: usize,
    },
    /// The plan was computed for the other eye than the draft names.
    #[error("the plan is not of this draft: they name different eyes")]
    AnotherEye,
    /// The template left out, hid or covered a part that must be there.
    #[error("the template of the sheet leaves out, hides or covers {block}: no sheet is made")]
    BlockMissing {
        /// The part.
        block: Block,
    },
    /// A text leaves the page.
    #[error("on page {page} of the sheet \"{text}\" leaves the page: no sheet is made")]
    OffThePage {
        /// The page, counted from 1.
        page: usize,
        /// The text, as far as it was laid out.
        text: String,
    },
    /// The layout engine refused the template.
    #[error("the template of the sheet cannot be laid out: {message}")]
    Template {
        /// What the engine says.
        message: String,
    },
    /// The document does not meet PDF/A-2a and PDF/UA-1.
    #[error("the sheet does not meet PDF/A-2a and PDF/UA-1: {message}")]
    Standard {
        /// What the engine says.
        message: String,
    },
    /// The fingerprint does not fit into a QR code.
    #[error("the fingerprint does not fit into a QR code")]
    QrCode,
}
