//! What theatre needs beside lens and incision. Nothing has a default: what nobody entered is absent.

use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

use super::plain_text::{self, TextRefused};
use crate::quantity::checked_when_read;

/// Anesthesia, technique, what must lie ready, and what matters of the patient.
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct TheatrePlan {
    /// How the eye is made numb.
    pub anesthesia: Option<Anesthesia>,
    /// The viscoelastic, by the name the clinic uses.
    pub viscoelastic: Option<String>,
    /// Steps of the technique, in the order they are done.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub technique: Vec<String>,
    /// Things to have in the room: a tension ring, a stain, iris hooks.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub in_room: Vec<String>,
    /// Allergies; absent while nobody asked.
    pub allergies: Option<Told>,
    /// Medicines that matter for the operation; absent while nobody asked.
    pub medicines: Option<Told>,
}

checked_when_read!(TheatrePlan, TheatrePlan::check);

/// How the eye is made numb.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Anesthesia {
    /// Drops or gel.
    Topical,
    /// Drops or gel, and into the anterior chamber.
    TopicalIntracameral,
    /// Under Tenon's capsule, by a blunt cannula.
    SubTenon,
    /// Injected around the muscle cone.
    Peribulbar,
    /// Injected into the muscle cone.
    Retrobulbar,
    General,
}

/// The answer to a question that was asked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Told {
    NoneKnown,
    /// Asked, and these; at least one.
    These(Vec<String>),
}

/// One entry of the plan for theatre to set; `None`, or an empty list, clears it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TheatreEntry {
    Anesthesia(Option<Anesthesia>),
    Viscoelastic(Option<String>),
    /// Steps of the technique, in order.
    Technique(Vec<String>),
    InRoom(Vec<String>),
    Allergies(Option<Told>),
    Medicines(Option<Told>),
}

/// Why an entry for theatre is refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TheatreRefused {
    #[error("an entry of the {what} has no words")]
    Blank { what: &'static str },
    #[error("{what} are marked as known and none is named; enter them, or that none is known")]
    NoneNamed { what: &'static str },
    /// A text that could forge a line of the plan.
    #[error(transparent)]
    Hidden(#[from] TextRefused),
}

impl Anesthesia {
    /// Every kind, from the least to the most.
    pub const ALL: [Self; 6] = [
        Self::Topical,
        Self::TopicalIntracameral,
        Self::SubTenon,
        Self::Peribulbar,
        Self::Retrobulbar,
        Self::General,
    ];
}

impl TheatrePlan {
    pub(crate) fn is_blank(&self) -> bool {
        *self == Self::default()
    }

    pub(super) fn set(&mut self, entry: TheatreEntry) -> Result<(), TheatreRefused> {
        match entry {
            TheatreEntry::Anesthesia(chosen) => self.anesthesia = chosen,
            TheatreEntry::Viscoelastic(text) => self.viscoelastic = text,
            TheatreEntry::Technique(steps) => self.technique = steps,
            TheatreEntry::InRoom(things) => self.in_room = things,
            TheatreEntry::Allergies(told) => self.allergies = told,
            TheatreEntry::Medicines(told) => self.medicines = told,
        }
        self.check()
    }

    /// Every text has words and no hidden character, and a list that is said to name something does.
    fn check(&self) -> Result<(), TheatreRefused> {
        check_texts("viscoelastic", self.viscoelastic.as_slice())?;
        check_texts("technique", &self.technique)?;
        check_texts("things to have in the room", &self.in_room)?;
        check_told("allergies", self.allergies.as_ref())?;
        check_told("medications", self.medicines.as_ref())
    }

    /// What holds for the patient whichever eye is operated on; all else was planned for one eye.
    pub(super) fn for_the_other_eye(&self) -> Self {
        Self {
            allergies: self.allergies.clone(),
            medicines: self.medicines.clone(),
            ..Self::default()
        }
    }
}

fn check_told(what: &'static str, told: Option<&Told>) -> Result<(), TheatreRefused> {
    match told {
        None | Some(Told::NoneKnown) => Ok(()),
        Some(Told::These(texts)) if texts.is_empty() => Err(TheatreRefused::NoneNamed { what }),
        Some(Told::These(texts)) => check_texts(what, texts),
    }
}

fn check_texts(what: &'static str, texts: &[String]) -> Result<(), TheatreRefused> {
    plain_text::check_count(what, texts.len())?;
    for text in texts {
        if text.trim().is_empty() {
            return Err(TheatreRefused::Blank { what });
        }
        plain_text::check(what, text)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refusal(entry: TheatreEntry) -> String {
        let mut plan = TheatrePlan::default();
        plan.set(entry).unwrap_err().to_string()
    }

    #[test]
    fn none_known_is_not_the_same_as_not_asked() {
        let mut plan = TheatrePlan::default();
        assert_eq!(plan.allergies, None);
        plan.set(TheatreEntry::Allergies(Some(Told::NoneKnown)))
            .unwrap();
        assert_ne!(plan, TheatrePlan::default());
        assert_eq!(
            refusal(TheatreEntry::Medicines(Some(Told::These(Vec::new())))),
            "medications are marked as known and none is named; enter them, or that none is known"
        );
    }

    #[test]
    fn forged_and_empty_texts_are_refused() {
        assert_eq!(
            refusal(TheatreEntry::Technique(vec![
                "stain".to_owned(),
                " ".to_owned()
            ])),
            "an entry of the technique has no words"
        );
        assert_eq!(
            refusal(TheatreEntry::InRoom(vec![
                "iris hooks\nLEFT EYE".to_owned()
            ])),
            "things to have in the room holds an invisible or a control character (U+000A)"
        );
        assert_eq!(
            refusal(TheatreEntry::Viscoelastic(Some(String::new()))),
            "an entry of the viscoelastic has no words"
        );
        let told = Told::These(vec!["latex\u{202e}".to_owned()]);
        assert_eq!(
            refusal(TheatreEntry::Allergies(Some(told))),
            "allergies holds an invisible or a control character (U+202E)"
        );
    }
}
