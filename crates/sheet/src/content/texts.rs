//! Texts that people typed, before anything is laid out: refused if they hide something, if no
//! typeface has a letter, or if they are too long for a block that must not be missed.

use millrace_core::case::{TextRefused, plain_text};

use crate::data::SheetData;
use crate::{SheetError, What, fonts};

/// Longest name of a person (house value).
const NAME: usize = 120;
/// Longest number of a patient (house value).
const NUMBER: usize = 40;
/// Longest name, model or role (house value).
const SHORT: usize = 80;
/// A word with more letters is given places where it may break.
const LONG_WORD: usize = 24;
/// Letters between two such places.
const BETWEEN_BREAKS: usize = 12;

/// Checks every text that a person typed, and lets long words break.
pub(super) fn check(data: &mut SheetData) -> Result<(), SheetError> {
    let SheetData {
        identity,
        lens,
        signed,
        overrides,
        approach,
        told,
        second_look,
        measurements,
        findings,
        ..
    } = data;
    let mut texts: Vec<(What, &mut String, Option<usize>)> = vec![
        (What::PatientName, &mut identity.name, Some(NAME)),
        (What::PatientNumber, &mut identity.number, Some(NUMBER)),
        (What::LensName, &mut lens.name, Some(SHORT)),
        (What::LensModel, &mut lens.model, Some(SHORT)),
    ];
    for other in &mut lens.others {
        texts.push((What::ReadyLens, &mut other.name, Some(2 * SHORT)));
    }
    if let Some(signed) = signed {
        texts.push((What::Signer, &mut signed.by, Some(NAME)));
        texts.push((What::Role, &mut signed.role, Some(SHORT)));
    }
    for over in overrides {
        texts.push((What::Reason, &mut over.reason, None));
        texts.push((What::ReasonAuthor, &mut over.by, Some(NAME)));
    }
    for fact in approach.iter_mut().chain(told).chain([second_look]) {
        texts.extend(fact.typed.map(|what| (what, &mut fact.text, None)));
    }
    let taken = measurements.rows.iter_mut().map(|row| &mut row.taken);
    for taken in taken.chain([&mut measurements.all]).flatten() {
        texts.push((What::Measurer, &mut taken.who, Some(NAME)));
    }
    for row in &mut findings.rows {
        texts.extend(
            row.reason
                .as_mut()
                .map(|reason| (What::Reason, reason, None)),
        );
    }
    for (what, text, limit) in texts {
        if let Err(TextRefused::Hidden { code, .. }) = plain_text::check("", text) {
            return Err(SheetError::Hidden { what, code });
        }
        has_glyphs(what, text)?;
        let length = text.chars().count();
        if let Some(limit) = limit.filter(|limit| *limit < length) {
            return Err(SheetError::TooLong {
                what,
                length,
                limit,
            });
        }
        *text = breakable(text, LONG_WORD);
    }
    // A narrow column.
    for row in &mut measurements.rows {
        if let Some(taken) = &mut row.taken {
            taken.who = breakable(&taken.who, BETWEEN_BREAKS);
        }
    }
    Ok(())
}

/// The net under the list above: every text of the sheet, whoever wrote it.
pub(crate) fn check_all(value: &serde_json::Value) -> Result<(), SheetError> {
    use serde_json::Value;
    match value {
        Value::String(text) => has_glyphs(What::Any, text),
        Value::Array(values) => values.iter().try_for_each(check_all),
        Value::Object(fields) => fields.values().try_for_each(check_all),
        Value::Null | Value::Bool(_) | Value::Number(_) => Ok(()),
    }
}

fn has_glyphs(what: What, text: &str) -> Result<(), SheetError> {
    match fonts::without_glyph(text) {
        None => Ok(()),
        Some(character) => Err(SheetError::NoGlyph { what, character }),
    }
}

/// Lets a word without an end break, so that it does not leave the page.
fn breakable(text: &str, longest: usize) -> String {
    let words = text.split(' ').map(|word| {
        if word.chars().count() <= longest {
            return word.to_owned();
        }
        let letters: Vec<char> = word.chars().collect();
        let parts = letters
            .chunks(BETWEEN_BREAKS)
            .map(|part| part.iter().collect::<String>());
        parts.collect::<Vec<_>>().join("\u{200b}")
    });
    words.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_words_without_an_end_are_given_places_to_break() {
        let name = "Wolfeschlegelsteinhausen, Ada";
        assert_eq!(
            breakable(name, 24),
            "Wolfeschlege\u{200b}lsteinhausen\u{200b}, Ada"
        );
        assert_eq!(
            breakable("twenty-four letters exact", 24),
            "twenty-four letters exact"
        );
        let long = breakable(&"x".repeat(30), 24);
        assert_eq!(
            long,
            format!("{0}\u{200b}{0}\u{200b}xxxxxx", "x".repeat(12))
        );
    }
}
