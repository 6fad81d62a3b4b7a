//! Values in files: exact ones as the text that shows them, and none that was not checked.

use core::fmt;
use core::str::FromStr;

use serde::de::{Error, Visitor};
use serde::ser::Error as _;
use serde::{Deserializer, Serializer};
use serde_with::{DeserializeAs, SerializeAs};

use super::{Micrometers, Millimeters};

/// Stores a value as the text that shows it, with its unit: `#[serde_as(as = "Text")]`.
pub(crate) struct Text;

impl<T: fmt::Display> SerializeAs<T> for Text {
    fn serialize_as<S: Serializer>(value: &T, serializer: S) -> Result<S::Ok, S::Error> {
        // Files carry the minus of the keyboard, so that a person can search for what they type.
        serializer.serialize_str(&value.to_string().replace('\u{2212}', "-"))
    }
}

impl<'de, T: FromStr<Err: fmt::Display>> DeserializeAs<'de, T> for Text {
    fn deserialize_as<D: Deserializer<'de>>(deserializer: D) -> Result<T, D::Error> {
        struct TextVisitor<T>(core::marker::PhantomData<T>);

        impl<T: FromStr<Err: fmt::Display>> Visitor<'_> for TextVisitor<T> {
            type Value = T;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value with its unit in quotation marks")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
                text.parse().map_err(E::custom)
            }
        }

        deserializer.deserialize_str(TextVisitor(core::marker::PhantomData))
    }
}

/// Stores a length that formulas take as a number as the text of its micrometers, as typed.
pub(crate) struct TextOfMicrometers;

impl SerializeAs<Millimeters> for TextOfMicrometers {
    fn serialize_as<S: Serializer>(length: &Millimeters, to: S) -> Result<S::Ok, S::Error> {
        let exact = length.nearest_micrometer();
        let exact = exact.ok_or_else(|| S::Error::custom("a length that is no number"))?;
        Text::serialize_as(&exact, to)
    }
}

impl<'de> DeserializeAs<'de, Millimeters> for TextOfMicrometers {
    fn deserialize_as<D: Deserializer<'de>>(from: D) -> Result<Millimeters, D::Error> {
        Text::deserialize_as(from).map(|length: Micrometers| length.millimeters())
    }
}

/// Serde for a type that is stored as its text and read by its `FromStr`.
macro_rules! stored_as_text {
    ($type:ty) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                use serde_with::SerializeAs as _;
                $crate::quantity::Text::serialize_as(self, serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                use serde_with::DeserializeAs as _;
                $crate::quantity::Text::deserialize_as(deserializer)
            }
        }
    };
}

/// Serde for a type that derives it with `#[serde(remote = "Self")]`: what its fields allow is read
/// only if `$check`, which takes the value and may refuse it, lets it pass.
macro_rules! checked_when_read {
    ($type:ty, $check:expr) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                // The derived function of the type itself, not this one.
                <$type>::serialize(self, serializer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let read = <$type>::deserialize(deserializer)?;
                match $check(&read) {
                    Ok(()) => Ok(read),
                    Err(refusal) => Err(serde::de::Error::custom(refusal)),
                }
            }
        }
    };
}

pub(crate) use {checked_when_read, stored_as_text};
