//! Exact powers in documents whose numbers are diopters: 21.5, not 2150.

use serde::de::Deserializer;
use serde::ser::{Serialize as _, Serializer};

use super::{Diopters, HundredthDiopters};

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the form that serde calls"
)]
pub(crate) fn serialize<S: Serializer>(
    power: &HundredthDiopters,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    power.diopters().serialize(serializer)
}

pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<HundredthDiopters, D::Error> {
    exact(serde::Deserialize::deserialize(deserializer)?)
}

/// Refuses what is no whole number of hundredths.
fn exact<E: serde::de::Error>(power: Diopters) -> Result<HundredthDiopters, E> {
    power
        .nearest_hundredth()
        .filter(|exact| exact.diopters() == power)
        .ok_or_else(|| E::custom("a labeled power in more than hundredths of a diopter"))
}

/// The same where there may be none.
pub(crate) mod option {
    use super::{Deserializer, Diopters, HundredthDiopters, Serializer, exact};

    #[allow(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "the form that serde calls"
    )]
    pub(crate) fn serialize<S: Serializer>(
        power: &Option<HundredthDiopters>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        serde::Serialize::serialize(&power.map(HundredthDiopters::diopters), serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<HundredthDiopters>, D::Error> {
        let power: Option<Diopters> = serde::Deserialize::deserialize(deserializer)?;
        power.map(exact).transpose()
    }
}
