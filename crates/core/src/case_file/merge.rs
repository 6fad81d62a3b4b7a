//! Two drafts that began as the same one, put together value by value by a person.
//!
//! A value is what was entered in one act or hangs together: a measurement with its method, day and person; the
//! patient; the lens with its power and axis. Parts of two people's are never mixed in one.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Map, Value};

use super::differences::{Difference, differences};
use super::{CaseFileError, read_json, write_json};
use crate::case::Draft;

/// Which of the two drafts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideOf {
    First,
    Second,
}

/// Who changed a value since both began.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChangedBy {
    One(SideOf),
    Both,
}

/// A value in which the two differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    /// The value, as its file names it from the whole to the part.
    pub value: Vec<String>,
    /// What of it differs.
    pub entries: Vec<Difference>,
    pub changed_by: ChangedBy,
    /// Whether a person has to choose: both changed it, or it is a decision.
    pub is_chosen: bool,
}

/// What is decided, and hangs together: no part of it is taken over by itself.
const DECISIONS: [&str; 7] = [
    "approach",
    "eye_changes",
    "imports",
    "lens",
    "reasons",
    "second_look",
    "set_aside",
];
/// What holds for the operative eye alone, but for [`OF_THE_PATIENT`].
const OF_THE_EYE: [&str; 7] = [
    "approach",
    "eye_changes",
    "lens",
    "operation",
    "reasons",
    "second_look",
    "theatre",
];
/// What stands among the above and holds whichever eye is operated on.
const OF_THE_PATIENT: [[&str; 2]; 2] = [["theatre", "allergies"], ["theatre", "medicines"]];
/// What the register found and nobody decides.
const OF_THE_REGISTER: &str = "other_cases";

/// Every value in which two drafts differ that began as `base`, in the order of their names.
///
/// Where the operative eye differs, it is one value with all that was planned for it. Where nobody knows how
/// both began, each is taken to have changed every value. What the register has of other cases is no such value:
/// the newer one holds.
///
/// # Errors
///
/// [`CaseFileError`] if a draft cannot be written.
pub fn apart(
    base: Option<&Draft>,
    first: &Draft,
    second: &Draft,
) -> Result<Vec<Apart>, CaseFileError> {
    let eyes = Eyes::of(first, second);
    let mut values: BTreeMap<Vec<String>, Vec<Difference>> = BTreeMap::new();
    let found = differences(first, second)?.into_iter();
    for difference in found.filter(|it| !is_of_the_register(&it.entry)) {
        let value = value_of(&difference.entry, eyes);
        values.entry(value).or_default().push(difference);
    }
    let changed = |draft| -> Result<BTreeSet<Vec<String>>, CaseFileError> {
        let found = base.map_or_else(|| Ok(Vec::new()), |base| differences(base, draft))?;
        let names = found.iter().map(|it| value_of(&it.entry, eyes));
        Ok(names.collect())
    };
    let (by_first, by_second) = (changed(first)?, changed(second)?);
    let apart = values.into_iter().map(|(value, entries)| {
        let changed_by = match (by_first.contains(&value), by_second.contains(&value)) {
            (true, false) => ChangedBy::One(SideOf::First),
            (false, true) => ChangedBy::One(SideOf::Second),
            _ => ChangedBy::Both,
        };
        Apart {
            is_chosen: changed_by == ChangedBy::Both || is_decision(&value),
            value,
            entries,
            changed_by,
        }
    });
    Ok(apart.collect())
}

/// `first` with these values of `second` in place of its own, and with what `second` says of other cases.
///
/// # Errors
///
/// [`CaseFileError`] if the two together make no case that would be read.
pub fn together(
    first: &Draft,
    second: &Draft,
    of_second: &BTreeSet<Vec<String>>,
) -> Result<Draft, CaseFileError> {
    let eyes = Eyes::of(first, second);
    let mut made = document(first)?;
    let theirs = document(second)?;
    put(&mut made, &theirs, &[OF_THE_REGISTER.to_owned()]);
    for value in of_second {
        if eyes == Eyes::Same || !is_eye(value) {
            put(&mut made, &theirs, value);
        } else {
            put_eye(&mut made, &theirs);
        }
    }
    keep_number_of_its_day(&mut made, [&document(first)?, &theirs]);
    read_json(&Value::Object(made).to_string())
}

/// A place in the order of a day goes with the day it was given for.
fn keep_number_of_its_day(made: &mut Map<String, Value>, of: [&Map<String, Value>; 2]) {
    let of_its_day = |document: &Map<String, Value>| {
        let operation = document.get("operation").and_then(Value::as_object)?;
        let part = |name| operation.get(name).cloned();
        Some((part("date"), part("list_number")))
    };
    let is_of_one = of.into_iter().any(|it| of_its_day(it) == of_its_day(made));
    if !is_of_one && let Some(operation) = made.get_mut("operation").and_then(Value::as_object_mut)
    {
        operation.remove("list_number");
    }
}

fn is_decision(value: &[String]) -> bool {
    let is_named = |section: &String| DECISIONS.contains(&section.as_str());
    is_eye(value) || value.first().is_some_and(is_named)
}

fn is_eye(value: &[String]) -> bool {
    value == ["operation", "eye"]
}

fn is_of_the_register(entry: &[String]) -> bool {
    entry.first().is_some_and(|name| name == OF_THE_REGISTER)
}

/// Whether both drafts are planned for one eye.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Eyes {
    Same,
    Differ,
}

impl Eyes {
    fn of(first: &Draft, second: &Draft) -> Self {
        if first.operation.eye == second.operation.eye {
            Self::Same
        } else {
            Self::Differ
        }
    }
}

/// The value that an entry is part of.
fn value_of(entry: &[String], eyes: Eyes) -> Vec<String> {
    let section = entry.first().map_or("", String::as_str);
    let is_of_the_patient = OF_THE_PATIENT
        .iter()
        .any(|path| entry.starts_with(&path.map(str::to_owned)));
    if eyes == Eyes::Differ && OF_THE_EYE.contains(&section) && !is_of_the_patient {
        return ["operation", "eye"].map(str::to_owned).to_vec();
    }
    let depth = match section {
        "patient" => 1,
        decision if DECISIONS.contains(&decision) => 1,
        "right_eye" | "left_eye" if entry.get(1).is_some_and(|part| part == "state") => 3,
        _ => 2,
    };
    entry.iter().take(depth).cloned().collect()
}

/// Puts all that holds for the operative eye alone into another document.
fn put_eye(into: &mut Map<String, Value>, from: &Map<String, Value>) {
    let before = into.clone();
    for section in OF_THE_EYE {
        put(into, from, &[section.to_owned()]);
    }
    for path in OF_THE_PATIENT {
        put(into, &before, &path.map(str::to_owned));
    }
}

fn document(draft: &Draft) -> Result<Map<String, Value>, CaseFileError> {
    let text = write_json(draft)?;
    serde_json::from_str(&text).map_err(|error| CaseFileError::json(&error))
}

/// Puts what stands in one document at a path into another, or takes it out there.
fn put(into: &mut Map<String, Value>, from: &Map<String, Value>, path: &[String]) {
    let Some((name, rest)) = path.split_first() else {
        return;
    };
    if rest.is_empty() {
        match from.get(name) {
            Some(value) => into.insert(name.clone(), value.clone()),
            None => into.remove(name),
        };
        return;
    }
    let nothing = Map::new();
    let from = from.get(name).and_then(Value::as_object);
    let within = into
        .entry(name.clone())
        .or_insert_with(|| Value::Object(Map::new()));
    if let Some(within) = within.as_object_mut() {
        put(within, from.unwrap_or(&nothing), rest);
        if within.is_empty() {
            into.remove(name);
        }
    }
}

#[cfg(test)]
mod tests;
