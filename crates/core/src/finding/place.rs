//! Where a measurement stands against a limit.

use serde::{Deserialize, Serialize};

/// Where a measurement stands against a limit, its spread counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    Under,
    /// The limit lies inside the interval.
    Undecided,
    Over,
}
