//! What the document begins with: another format or version is not read.

use serde::{Deserialize, Serialize};

/// Version that is written and read.
pub const VERSION: u32 = 1;

#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(super) enum Format {
    #[serde(rename = "millrace plan")]
    Plan,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub(super) enum Version {
    One,
}

impl From<Version> for u32 {
    fn from(Version::One: Version) -> Self {
        VERSION
    }
}

impl TryFrom<u32> for Version {
    type Error = String;

    fn try_from(version: u32) -> Result<Self, String> {
        match version {
            VERSION => Ok(Self::One),
            other => Err(format!("version {other} of a plan is not known")),
        }
    }
}
