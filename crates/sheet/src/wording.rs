//! What this crate refuses, as a text.

use std::borrow::Cow;

use millrace_wording::text::plan;
use millrace_wording::{Show, Words, entry, sheet as say};

use crate::{Block, SheetError, What};

impl Show for Block {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Identity => say::block_identity(words),
            Self::Eye => say::block_eye(words),
            Self::Lens => say::block_lens(words),
            Self::Power => say::block_power(words),
            Self::Cylinder => say::block_cylinder(words),
            Self::Special => say::block_special(words),
            Self::Overrides => say::block_overrides(words),
            Self::Foot => say::block_foot(words),
        }
        .into()
    }
}

impl Show for What {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::PatientName => say::patient_name(words),
            Self::PatientNumber => say::patient_number(words),
            Self::LensName => say::lens_name(words),
            Self::LensModel => say::lens_model(words),
            Self::ReadyLens => say::ready_lens_name(words),
            Self::Signer => say::signer_name(words),
            Self::Role => say::signer_role(words),
            Self::Reason => say::a_reason(words),
            Self::ReasonAuthor => say::reason_author(words),
            Self::Measurer => say::measurer(words),
            Self::Technique => plan::technique(words),
            Self::Viscoelastic => plan::viscoelastic(words),
            Self::InRoom => plan::in_room(words),
            Self::Allergies => plan::allergies(words),
            Self::Medicines => plan::medicines(words),
            Self::Any => say::any_text(words),
        }
        .into()
    }
}

impl Show for SheetError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let code = |code: u32| format!("{code:04X}");
        match self {
            Self::NoGlyph { what, character } => {
                let quoted = format!("{character:?}");
                say::no_glyph(words, what, quoted, code(u32::from(*character)))
            }
            Self::Hidden { what, code: it } => entry::hidden_character(words, what, code(*it)),
            Self::TooLong {
                what,
                length,
                limit,
            } => say::too_long(words, what, length, limit),
            Self::AnotherEye => return say::another_eye(words).into(),
            Self::BlockMissing { block } => say::block_missing(words, block),
            Self::OffThePage { page, text } => say::off_the_page(words, page, text),
            Self::Template { message } => say::not_laid_out(words, message),
            Self::Standard { message } => say::below_standard(words, message),
            Self::QrCode => return say::no_code(words).into(),
        }
        .into()
    }
}
