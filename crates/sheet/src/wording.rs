//! What this crate refuses, as a text.

use std::borrow::Cow;

use millrace_wording::text::plan;
use millrace_wording::{Show, Words, entry, sheet as say};

use crate::{Block, Fault, SheetError, Spot, What};

impl Show for Block {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Identity => say::block_identity(words),
            Self::Eye => say::block_eye(words),
            Self::Lens => say::block_lens(words),
            Self::Power => say::block_power(words),
            Self::Cylinder => say::block_cylinder(words),
            Self::Target => say::block_target(words),
            Self::Ready => say::block_ready(words),
            Self::Told => say::block_told(words),
            Self::Special => say::block_special(words),
            Self::SecondLook => say::block_second_look(words),
            Self::Overrides => say::block_overrides(words),
            Self::Foot => say::block_foot(words),
            Self::Standing => say::block_standing(words),
        }
        .into()
    }
}

impl Show for Fault {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Changed => say::fault_changed(words),
            Self::Leaves => say::fault_leaves(words),
            Self::Cut => say::fault_cut(words),
            Self::Over => say::fault_over(words),
            Self::Number => say::fault_number(words),
            Self::LikeNumber => say::fault_like_number(words),
            Self::ReadAsOne => say::fault_read_as_one(words),
            Self::Apart => say::fault_apart(words),
            Self::OtherEye => say::fault_other_eye(words),
            Self::Large => say::fault_large(words),
            Self::Small => say::fault_small(words),
            Self::Pale => say::fault_pale(words),
            Self::Turned => say::fault_turned(words),
            Self::Glyph => say::fault_glyph(words),
            Self::Drawing => say::fault_drawing(words),
            Self::Figure => say::fault_figure(words),
            Self::Unseen => say::fault_unseen(words),
        }
        .into()
    }
}

impl Show for Spot {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let whole_mm = |points: f64| format!("{:.0}", points * 25.4 / 72.0);
        let (across, down) = (whole_mm(self.across_pt), whole_mm(self.down_pt));
        if self.text.trim().is_empty() {
            return say::spot(words, self.page, across, down).into();
        }
        say::spot_of_text(words, self.page, across, down, &self.text).into()
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
            Self::SecondLooker => say::second_looker(words),
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
            Self::Arrangement { fault, at } => say::arrangement_refused(words, fault, at),
            Self::OffThePage { page, text } => say::off_the_page(words, page, text),
            Self::Template { message } => say::not_laid_out(words, message),
            Self::Standard { message } => say::below_standard(words, message),
            Self::QrCode => return say::no_code(words).into(),
        }
        .into()
    }
}
