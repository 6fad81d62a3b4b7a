//! What the clinic's other records of the same model say, when a lens is chosen.

use serde::{Deserialize, Serialize};

use super::{BiometryKind, LensRecord, RecordConstants};
use crate::plain_text::{self, TextRefused};
use crate::quantity::checked_when_read;

/// Another record of the model of a chosen lens, with what may contradict it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct OtherRecord {
    /// Name under which the clinic files it.
    pub name: String,
    pub constants_for: BiometryKind,
    pub constants: RecordConstants,
}

checked_when_read!(OtherRecord, OtherRecord::check);

impl OtherRecord {
    /// Those of the clinic's records that are of the same model, the record itself left out.
    pub fn of_same_model(record: &LensRecord, clinic: &[LensRecord]) -> Vec<Self> {
        let same = clinic
            .iter()
            .filter(|other| other.model.trim() == record.model.trim() && *other != record);
        same.map(|other| Self {
            name: other.name.clone(),
            constants_for: other.constants_for,
            constants: other.constants,
        })
        .collect()
    }

    fn check(&self) -> Result<(), TextRefused> {
        plain_text::check("lens name", &self.name)
    }
}
