//! What the template is given: words and places, nothing to compute. Every text is a JSON string and
//! never becomes source of the template.

use serde::Serialize;

use crate::What;
use crate::figures::Figure;
use crate::labels::Labels;
use crate::outdated::Mark;

#[derive(Serialize)]
pub(crate) struct SheetData {
    pub(crate) paper: &'static str,
    pub(crate) fonts: Vec<&'static str>,
    /// Of the words: what a reader speaks them in.
    pub(crate) language: &'static str,
    pub(crate) labels: Labels,
    pub(crate) title: String,
    /// Nothing on a draft.
    pub(crate) signed: Option<Signed>,
    /// Why it is not to work by: also on a draft; nothing on a sheet to work by.
    pub(crate) outdated: Option<Mark>,
    pub(crate) identity: Identity,
    pub(crate) lens: Lens,
    /// Allergies, and what keeps the blood from clotting, as it was told or that nobody asked.
    pub(crate) told: Vec<Fact>,
    /// What theatre must see at a glance.
    pub(crate) special: Vec<String>,
    /// Who entered the critical numbers once more, when, and whether they agree.
    pub(crate) second_look: Fact,
    pub(crate) overrides: Vec<Override>,
    pub(crate) caution: &'static str,
    pub(crate) program: String,
    pub(crate) approach: Vec<Fact>,
    /// What nobody stated or asked of the approach, in words.
    pub(crate) approach_missing: String,
    pub(crate) figures: Vec<Figure>,
    pub(crate) measurements: Measurements,
    pub(crate) formulas: Formulas,
    pub(crate) findings: Findings,
}

/// A name and what stands behind it.
#[derive(Serialize)]
pub(crate) struct Fact {
    pub(crate) name: &'static str,
    pub(crate) text: String,
    /// What of it a person typed, in whatever script: whether, for the template.
    #[serde(serialize_with = "whether")]
    pub(crate) typed: Option<What>,
    /// Whether it is to be seen first.
    pub(crate) strong: bool,
}

#[derive(Serialize)]
pub(crate) struct Signed {
    pub(crate) number: String,
    pub(crate) supersedes: Option<String>,
    pub(crate) by: String,
    pub(crate) role: String,
    pub(crate) when: String,
    pub(crate) fingerprint: String,
    /// The QR code, a vector picture.
    pub(crate) qr: String,
    pub(crate) qr_alt: String,
}

#[derive(Serialize)]
pub(crate) struct Identity {
    pub(crate) name: String,
    pub(crate) number: String,
    pub(crate) born: String,
    pub(crate) sex: String,
    pub(crate) operation: String,
    /// "RIGHT EYE".
    pub(crate) eye: &'static str,
    /// Side of the page: as seen facing the patient, a right eye is at the left.
    pub(crate) at: &'static str,
}

#[derive(Serialize)]
pub(crate) struct Lens {
    pub(crate) name: String,
    pub(crate) model: String,
    pub(crate) site: String,
    pub(crate) make: String,
    /// Nothing on a draft.
    pub(crate) power: Option<String>,
    pub(crate) cylinder: Option<String>,
    pub(crate) axis: Option<String>,
    pub(crate) facts: Vec<Fact>,
    pub(crate) others: Vec<OtherLens>,
}

/// What lies ready beside the lens.
#[derive(Serialize)]
pub(crate) struct OtherLens {
    pub(crate) title: String,
    pub(crate) name: String,
    pub(crate) power: String,
    pub(crate) lines: Vec<String>,
}

#[derive(Serialize)]
pub(crate) struct Override {
    pub(crate) severity: String,
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) sentence: String,
    pub(crate) reason: String,
    pub(crate) by: String,
    pub(crate) on: String,
}

#[derive(Serialize)]
pub(crate) struct Measurements {
    pub(crate) title: String,
    pub(crate) rows: Vec<MeasuredRow>,
    pub(crate) missing: String,
    /// Day and person, where they are the same for every row; the rows then leave them out.
    pub(crate) all: Option<DayAndWho>,
}

#[derive(Clone, PartialEq, Serialize)]
pub(crate) struct DayAndWho {
    pub(crate) day: String,
    pub(crate) who: String,
}

#[derive(Serialize)]
pub(crate) struct MeasuredRow {
    pub(crate) name: String,
    pub(crate) value: String,
    pub(crate) method: String,
    /// Nothing for what follows from other rows.
    pub(crate) taken: Option<DayAndWho>,
}

#[derive(Serialize)]
pub(crate) struct Formulas {
    pub(crate) title: String,
    pub(crate) rows: Vec<FormulaRow>,
    pub(crate) refused: Vec<Refused>,
    pub(crate) notes: Vec<String>,
    pub(crate) constants: String,
}

#[derive(Serialize)]
pub(crate) struct FormulaRow {
    pub(crate) name: String,
    pub(crate) planned_by: bool,
    pub(crate) predicted: String,
    pub(crate) proposed: String,
}

/// Formulas without an answer, under one reason.
#[derive(Serialize)]
pub(crate) struct Refused {
    pub(crate) names: String,
    pub(crate) reason: String,
}

#[derive(Serialize)]
pub(crate) struct Findings {
    pub(crate) rows: Vec<FindingRow>,
    pub(crate) not_evaluated: Vec<String>,
    pub(crate) changed_limits: Vec<String>,
}

#[derive(Serialize)]
pub(crate) struct FindingRow {
    pub(crate) severity: String,
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) text: String,
    /// What became of a reason that does not count, or that none was given.
    pub(crate) reason: Option<String>,
}

#[expect(
    clippy::ref_option,
    clippy::trivially_copy_pass_by_ref,
    reason = "as it is called by serde"
)]
fn whether<S: serde::Serializer>(typed: &Option<What>, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_bool(typed.is_some())
}
