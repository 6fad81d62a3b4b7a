//! How measurements of several parts stand in a file: their parts beside the circumstances, so that a
//! person reads one list.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::As;

use super::{
    AnteriorChamberDepth, ChamberDepth, DepthStart, FlatIsSteep, Keratometry, Measured,
    MeridianReading, Method, PosteriorAstigmatism,
};
use crate::calendar::Day;
use crate::quantity::{HundredthDiopters, Meridian, Micrometers, OutOfRange, Text};

/// The file's form of one measured type: its parts, and those the file lists after the method; the
/// last function refuses parts or spreads that cannot be.
macro_rules! flat {
    ($form:ident, $value:ident, $spread:ty,
     [$($(#[$part_attribute:meta])* $part:ident: $part_type:ty,)*]
     [$($(#[$later_attribute:meta])* $later:ident: $later_type:ty,)*]
     $refusal:ty, $check:expr) => {
        #[derive(Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $form {
            $($(#[$part_attribute])* $part: $part_type,)*
            method: Method,
            $(
                #[serde(default, skip_serializing_if = "Option::is_none")]
                $(#[$later_attribute])*
                $later: Option<$later_type>,
            )*
            #[serde(default, skip_serializing_if = "Option::is_none", with = "As::<Option<Text>>")]
            spread: Option<$spread>,
            #[serde(default, skip_serializing_if = "Option::is_none", with = "As::<Option<Day>>")]
            on: Option<NaiveDate>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            by: Option<String>,
        }

        impl From<Measured<$value, $spread>> for $form {
            fn from(measured: Measured<$value, $spread>) -> Self {
                let Measured { value, method, spread, on, by } = measured;
                let $value { $($part,)* $($later,)* } = value;
                Self { $($part,)* method, $($later,)* spread, on, by }
            }
        }

        impl TryFrom<$form> for Measured<$value, $spread> {
            type Error = $refusal;

            fn try_from(form: $form) -> Result<Self, Self::Error> {
                let $form { $($part,)* method, $($later,)* spread, on, by } = form;
                let value = $value { $($part,)* $($later,)* };
                let measured = Self { value, method, spread, on, by };
                $check(&measured)?;
                Ok(measured)
            }
        }
    };
}

flat!(
    FlatKeratometry, Keratometry, HundredthDiopters,
    [flat: MeridianReading, steep: MeridianReading,]
    [readings: u8, #[serde(with = "As::<Option<Text>>")] repeat_difference: HundredthDiopters,]
    FlatIsSteep,
    |measured: &Measured<Keratometry, _>| measured.value.check()
);

flat!(
    FlatDepth, ChamberDepth, Micrometers,
    [
        #[serde(rename = "value")] depth: AnteriorChamberDepth,
        #[serde(rename = "from")] start: DepthStart,
    ]
    []
    OutOfRange,
    |_: &_| Ok::<_, OutOfRange>(())
);

flat!(
    FlatPosteriorAstigmatism, PosteriorAstigmatism, HundredthDiopters,
    [
        #[serde(with = "As::<Text>")] magnitude: HundredthDiopters,
        #[serde(rename = "steep_meridian")] steep: Meridian,
    ]
    []
    OutOfRange,
    |measured: &Measured<PosteriorAstigmatism, _>| {
        measured.value.check()?;
        let Some(spread) = measured.spread else { return Ok(()) };
        let quantity = "spread of the posterior corneal astigmatism";
        OutOfRange::unless_within(quantity, spread, PosteriorAstigmatism::SPREAD)
    }
);
