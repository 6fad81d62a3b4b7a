//! Where two drafts differ, entry by entry, as their stored documents write it.

use std::collections::BTreeMap;

use serde::Serialize;
use serde_json::Value;

use super::{CaseFileError, stored};
use crate::case::Draft;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Which entry, as its file names it from the whole to the part: `eyes`, `right`, `axial_length`, `value`.
    pub entry: Vec<String>,
    /// What the first draft holds; nothing where it holds none.
    pub first: Option<String>,
    /// What the second draft holds.
    pub second: Option<String>,
}

/// Every entry in which two drafts differ, in the order of their names.
pub fn differences(first: &Draft, second: &Draft) -> Result<Vec<Difference>, CaseFileError> {
    between(
        &stored::CaseFile::from_draft(first),
        &stored::CaseFile::from_draft(second),
    )
}

/// The same of any two stored documents.
pub(super) fn between<T: Serialize>(
    first: &T,
    second: &T,
) -> Result<Vec<Difference>, CaseFileError> {
    let [first, second] = [entries(first)?, entries(second)?];
    let mut names: Vec<&Vec<String>> = first.keys().chain(second.keys()).collect();
    names.sort();
    names.dedup();
    let differing = names.into_iter().filter_map(|name| {
        let (first, second) = (first.get(name), second.get(name));
        (first != second).then(|| Difference {
            entry: name.clone(),
            first: first.cloned(),
            second: second.cloned(),
        })
    });
    Ok(differing.collect())
}

/// Every entry of the stored document with its name.
fn entries(of: &impl Serialize) -> Result<BTreeMap<Vec<String>, String>, CaseFileError> {
    let document = serde_json::to_value(of).map_err(|error| CaseFileError::WriteJson {
        problem: error.to_string(),
    })?;
    let mut entries = BTreeMap::new();
    collect(&document, &[], &mut entries);
    Ok(entries)
}

fn collect(value: &Value, name: &[String], entries: &mut BTreeMap<Vec<String>, String>) {
    let under = |part: &str| [name, &[part.to_owned()]].concat();
    match value {
        Value::Object(parts) => {
            for (part, value) in parts {
                collect(value, &under(part), entries);
            }
        }
        Value::Array(parts) => {
            for (index, value) in parts.iter().enumerate() {
                collect(value, &under(&(index + 1).to_string()), entries);
            }
        }
        Value::Null => {}
        Value::String(text) => {
            entries.insert(name.to_owned(), text.clone());
        }
        Value::Bool(_) | Value::Number(_) => {
            entries.insert(name.to_owned(), value.to_string());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case_file::read;
    use crate::quantity::HundredthDiopters;

    const HARD: &str = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");

    #[test]
    fn equal_drafts_differ_in_nothing() {
        let draft = read(HARD).unwrap();
        assert_eq!(differences(&draft, &draft).unwrap(), []);
        assert_eq!(
            differences(&Draft::default(), &Draft::default()).unwrap(),
            []
        );
    }

    #[test]
    fn each_entry_is_named_with_both_values() {
        let first = read(HARD).unwrap();
        let mut second = first.clone();
        second.lens.target = Some(HundredthDiopters::new(-100));
        second.patient.number = None;
        let found = differences(&first, &second).unwrap();
        let told: Vec<_> = found
            .iter()
            .map(|difference| {
                (
                    difference.entry.join("."),
                    difference.first.as_deref(),
                    difference.second.as_deref(),
                )
            })
            .collect();
        // As the demo case writes them.
        assert_eq!(
            told,
            [
                ("lens.target".to_owned(), Some("-0.30 D"), Some("-1.00 D")),
                ("patient.number".to_owned(), Some("40-2291"), None),
            ]
        );
    }
}
