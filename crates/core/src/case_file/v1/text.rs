//! Measured values as text with their unit.

use core::fmt;
use core::str::FromStr;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A value stored as the text that shows it.
#[derive(Clone, Copy)]
pub(super) struct Text<T>(pub T);

impl<T: fmt::Display> Serialize for Text<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        // Files carry the minus of the keyboard, so that a person can search for what they type.
        serializer.serialize_str(&self.0.to_string().replace('\u{2212}', "-"))
    }
}

impl<'de, T: FromStr<Err: fmt::Display>> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct TextVisitor<T>(core::marker::PhantomData<T>);

        impl<T: FromStr<Err: fmt::Display>> Visitor<'_> for TextVisitor<T> {
            type Value = Text<T>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value with its unit in quotation marks")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
                text.parse().map(Text).map_err(E::custom)
            }
        }

        deserializer.deserialize_str(TextVisitor(core::marker::PhantomData))
    }
}
