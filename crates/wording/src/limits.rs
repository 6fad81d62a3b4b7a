//! Limits: their values as a person reads them, and what is wrong with one that was typed.
//!
//! Meaning, group and standing of a limit are texts of reference of the shipped file.

use std::borrow::Cow;

use millrace_core::limits::{AboutLimit, LimitError, Limits, OFF};
use millrace_core::quantity::MeasureError;

use crate::{Show, Words, entry};

messages! {
    number_and_unit(number, unit) = "{number} {unit}";
    of_limit(name, error) = "{name} {error}";
    unit_missing(text, example) = "\"{text}\" needs its unit: write {example}";
    outside(text, least, most, unit) = "\"{text}\" is outside {least} {unit} to {most} {unit}";
    not_whole(text, unit) = "\"{text}\" is not a whole number of {unit}";
    not_a_spread(text) = "\"{text}\" is not a spread from {=0.000} D to {=10.000} D";
    no_such_limit(name) = "no limit is called {name}";
    wrong_way_round(lower, upper) = "\u{201c}{lower}\u{201d} would lie over \u{201c}{upper}\u{201d}; change the other one first";
    neither(text, one, other) = "\"{text}\" is neither \"{one}\" nor \"{other}\"";
}

/// A value of this limit as its file writes it, "2.80 mm" or "epithelium", in these words.
pub fn value(words: Words, about: &AboutLimit, written: &str) -> String {
    if let Some(word) = about.words.iter().find(|word| **word == written) {
        return words.reference(word).to_owned();
    }
    if written == OFF {
        return words.reference(OFF).to_owned();
    }
    let number = words.number(number(about, written)).into_owned();
    number_and_unit(words, number, words.reference(about.unit))
}

/// The number of such a value, without its unit.
pub fn number<'a>(about: &AboutLimit, written: &'a str) -> &'a str {
    written.strip_suffix(about.unit).unwrap_or(written).trim()
}

impl Show for LimitError {
    /// Without the name the file knows the limit by: it stands beside its field.
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::File(error) => {
                let at = error.span.start;
                entry::at_line(words, at.line, at.col, error.code.to_string())
            }
            Self::NoSuch { name } => no_such_limit(words, name),
            Self::Value(MeasureError::Number { error, .. }) => return error.show(words),
            Self::Value(MeasureError::Unit { text, example, .. }) => {
                unit_missing(words, text, words.number(words.reference(example)))
            }
            Self::Value(other) => return other.show(words),
            Self::Range {
                text,
                least,
                most,
                unit,
                ..
            } => {
                let [least, most] = [least, most].map(|bound| {
                    let written = bound.to_string().replace('-', "\u{2212}");
                    words.number(&written).into_owned()
                });
                outside(words, text, least, most, words.reference(unit))
            }
            Self::Whole { text, unit, .. } => not_whole(words, text, words.reference(unit)),
            Self::Spread { text, .. } => not_a_spread(words, text),
            Self::Order { lower, upper } => {
                wrong_way_round(words, meaning(words, lower), meaning(words, upper))
            }
            Self::Word {
                text, one, other, ..
            } => neither(words, text, words.reference(one), words.reference(other)),
        }
        .into()
    }
}

/// What is wrong with a file of limits, with the name the file knows the limit by.
pub fn in_file(words: Words, error: &LimitError) -> String {
    let name = match error {
        LimitError::Value(
            MeasureError::Number { quantity, .. } | MeasureError::Unit { quantity, .. },
        ) => quantity,
        LimitError::Whole { name, .. }
        | LimitError::Spread { name, .. }
        | LimitError::Range { name, .. }
        | LimitError::Word { name, .. } => name,
        LimitError::File(_)
        | LimitError::NoSuch { .. }
        | LimitError::Order { .. }
        | LimitError::Value(_) => return error.show(words).into_owned(),
    };
    of_limit(words, name, error)
}

/// What a limit limits, by its name in the file.
fn meaning(words: Words, name: &str) -> &'static str {
    let catalog = Limits::shipped().catalog();
    let mut entries = catalog.into_iter();
    let entry = entries.find(|entry| entry.about.name == name);
    entry.map_or("", |entry| words.reference(entry.about.what))
}
