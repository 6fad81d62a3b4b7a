//! A fact as a text.

use std::borrow::Cow;

use crate::Words;

/// What can be said: a fact, or a text that a person typed.
///
/// A text passes as it is; whole numbers are written without grouping. A number with decimals is no
/// fact without its unit: a quantity has the decimals its trade gives it, and a bare one is written
/// with [`Words::fixed`] or [`Words::signed`].
pub trait Show {
    /// The text, in these words.
    fn show(&self, words: Words) -> Cow<'_, str>;
}

impl<T: Show + ?Sized> Show for &T {
    fn show(&self, words: Words) -> Cow<'_, str> {
        (**self).show(words)
    }
}

impl<T: Show + ?Sized> Show for Box<T> {
    fn show(&self, words: Words) -> Cow<'_, str> {
        (**self).show(words)
    }
}

impl Show for str {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.into()
    }
}

impl Show for String {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.as_str().into()
    }
}

impl Show for Cow<'_, str> {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.as_ref().into()
    }
}

impl Show for char {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

macro_rules! whole_numbers {
    ($($type:ty),*) => {
        $(impl Show for $type {
            fn show(&self, _: Words) -> Cow<'_, str> {
                // Real minus.
                self.to_string().replace('-', "\u{2212}").into()
            }
        })*
    };
}

whole_numbers!(u8, u16, u32, u64, usize, i8, i16, i32, i64);
