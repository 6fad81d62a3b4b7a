//! Cases of the register whose patient may be this one under another number, or another under this one.
//!
//! A case that is set aside is no doubt: it is how the wrong one of two was put away.

use std::collections::HashMap;

use millrace_core::case::{Draft, Patient};
use millrace_core::finding::{Doubt, OtherCase};
use rusqlite::Connection;

use crate::case_id::CaseId;
use crate::catalog::{self, Line};
use crate::entry::CaseEntry;
use crate::error::{Fault, RegisterError};
use crate::fold::fold;
use crate::open::Register;

/// Why another case does not go together with a patient: one of the two is another's, or mistyped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PatientDoubt {
    /// It has the hospital number, and another name or birth date.
    NumberOfAnother(CaseEntry),
    /// It has the name and the birth date, and another hospital number.
    AnotherNumber(CaseEntry),
}

impl Register {
    /// Other cases that do not go together with this patient, in the order of the list. Capitals, accents and
    /// the separators of a number make no difference; what is not stated contradicts nothing.
    ///
    /// `own` is the case of the patient, if it is in the register itself.
    ///
    /// # Errors
    ///
    /// [`crate::Fault::Damaged`] if the list or one of these cases is not what was saved.
    pub fn patient_doubts(
        &self,
        patient: &Patient,
        own: Option<CaseId>,
    ) -> Result<Vec<PatientDoubt>, RegisterError> {
        let asked = Folded::of(patient);
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            let found = doubted(reading, &catalog.lines, &asked, own)?;
            let told = |(entry, doubt)| match doubt {
                Doubt::NumberOfAnother => PatientDoubt::NumberOfAnother(entry),
                Doubt::AnotherNumber => PatientDoubt::AnotherNumber(entry),
            };
            Ok(found.into_iter().map(told).collect())
        })
    }

    /// What [`Draft::other_cases`] of a case is as the register stands, in the order of the cases' names.
    ///
    /// # Errors
    ///
    /// As [`Self::patient_doubts`].
    pub fn other_cases(
        &self,
        patient: &Patient,
        own: CaseId,
    ) -> Result<Vec<OtherCase>, RegisterError> {
        let asked = Folded::of(patient);
        self.read(|reading| {
            let catalog = self.catalog(reading)?;
            Ok(named(doubted(reading, &catalog.lines, &asked, Some(own))?))
        })
    }
}

/// As [`Register::other_cases`], within a transaction.
pub(crate) fn others_of(
    reading: &Connection,
    patient: &Patient,
    own: CaseId,
) -> Result<Vec<OtherCase>, Fault> {
    let asked = Folded::of(patient);
    let lines = catalog::lines(reading)?;
    Ok(named(doubted(reading, &lines, &asked, Some(own))?))
}

/// Other cases that do not go together with a patient, each held against what was saved.
fn doubted(
    reading: &Connection,
    lines: &[Line],
    asked: &Folded,
    own: Option<CaseId>,
) -> Result<Vec<(CaseEntry, Doubt)>, Fault> {
    let mut found = Vec::new();
    let others = lines.iter().filter(|line| line.is_in_use());
    for line in others.filter(|line| asked.may_be(line)) {
        let entry = line.entry(reading)?;
        if Some(entry.case) != own
            && let Some(doubt) = asked.doubt(&Folded::listed(&entry))
        {
            found.push((entry, doubt));
        }
    }
    Ok(found)
}

/// The first of them by name: always the same ones of many.
fn named(found: Vec<(CaseEntry, Doubt)>) -> Vec<OtherCase> {
    first(
        found
            .into_iter()
            .map(|(entry, doubt)| other(entry.case, doubt)),
    )
}

fn first(others: impl Iterator<Item = OtherCase>) -> Vec<OtherCase> {
    let mut others: Vec<_> = others.collect();
    others.sort_unstable_by(|one, other| one.case.cmp(&other.case));
    others.truncate(OtherCase::NAMED);
    others
}

fn other(case: CaseId, doubt: Doubt) -> OtherCase {
    let case = case.to_string();
    OtherCase { case, doubt }
}

/// Everybody of the register, and those who join them, for many new cases at once.
pub(crate) struct Everybody<'a> {
    reading: &'a Connection,
    lines: Vec<Line>,
    joined: Vec<(CaseId, Folded)>,
    by_number: HashMap<String, Vec<Place>>,
    by_name: HashMap<String, Vec<Place>>,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    Line(usize),
    Joined(usize),
}

impl<'a> Everybody<'a> {
    pub(crate) fn of(reading: &'a Connection) -> Result<Self, Fault> {
        let mut everybody = Self {
            reading,
            lines: catalog::lines(reading)?,
            joined: Vec::new(),
            by_number: HashMap::new(),
            by_name: HashMap::new(),
        };
        for (index, line) in everybody.lines.iter().enumerate() {
            if line.is_in_use() {
                let place = Place::Line(index);
                let name = Some(line.name_folded.clone());
                put(&mut everybody.by_name, name, place);
                put(
                    &mut everybody.by_number,
                    line.number.as_deref().map(closed),
                    place,
                );
            }
        }
        Ok(everybody)
    }

    /// The other cases in doubt for a new one, which is one of them from now on.
    pub(crate) fn join(&mut self, case: CaseId, draft: &Draft) -> Result<Vec<OtherCase>, Fault> {
        let asked = Folded::of(&draft.patient);
        let at = |map: &HashMap<String, Vec<Place>>, key: &Option<String>| {
            let places = key.as_ref().and_then(|key| map.get(key));
            places.cloned().unwrap_or_default()
        };
        let mut places = at(&self.by_number, &asked.number);
        places.extend(at(&self.by_name, &asked.name));
        places.sort_unstable();
        places.dedup();
        let mut others = Vec::new();
        for place in places {
            others.extend(self.doubt_at(&asked, place)?);
        }
        if draft.set_aside.is_none() {
            let place = Place::Joined(self.joined.len());
            put(&mut self.by_name, asked.name.clone(), place);
            put(&mut self.by_number, asked.number.clone(), place);
            self.joined.push((case, asked));
        }
        Ok(first(others.into_iter()))
    }

    fn doubt_at(&self, asked: &Folded, place: Place) -> Result<Option<OtherCase>, Fault> {
        let of = |case, known: &Folded| asked.doubt(known).map(|doubt| other(case, doubt));
        match place {
            Place::Joined(index) => {
                let joined = self.joined.get(index);
                Ok(joined.and_then(|(case, known)| of(*case, known)))
            }
            Place::Line(index) => {
                let Some(line) = self.lines.get(index) else {
                    return Ok(None);
                };
                let entry = line.entry(self.reading)?;
                Ok(of(entry.case, &Folded::listed(&entry)))
            }
        }
    }
}

fn put(map: &mut HashMap<String, Vec<Place>>, key: Option<String>, place: Place) {
    if let Some(key) = key {
        map.entry(key).or_default().push(place);
    }
}

/// A patient as the list knows one; nothing for what is not stated.
struct Folded {
    name: Option<String>,
    number: Option<String>,
    born: Option<String>,
}

impl Folded {
    fn of(patient: &Patient) -> Self {
        Self {
            name: patient.name.as_deref().map(fold),
            number: patient.number.as_deref().map(closed),
            born: patient.birth_date.map(|date| date.to_string()),
        }
    }

    fn listed(entry: &CaseEntry) -> Self {
        Self {
            name: entry.name.as_deref().map(fold),
            number: entry.number.as_deref().map(closed),
            born: entry.birth_date.map(|date| date.to_string()),
        }
    }

    /// Whether name or number is that of a line.
    fn may_be(&self, line: &Line) -> bool {
        let number = line.number.as_deref().map(closed);
        (self.number.is_some() && self.number == number)
            || self.name.as_ref() == Some(&line.name_folded)
    }

    fn doubt(&self, other: &Self) -> Option<Doubt> {
        let numbers = same(self.number.as_ref(), other.number.as_ref());
        let names = same(self.name.as_ref(), other.name.as_ref());
        let births = same(self.born.as_ref(), other.born.as_ref());
        match (numbers, names, births) {
            (Some(true), Some(false), _) | (Some(true), _, Some(false)) => {
                Some(Doubt::NumberOfAnother)
            }
            (Some(false), Some(true), Some(true)) => Some(Doubt::AnotherNumber),
            _ => None,
        }
    }
}

/// A number without what separates its parts.
fn closed(number: &str) -> String {
    fold(number)
        .chars()
        .filter(|c| c.is_alphanumeric())
        .collect()
}

/// Whether both are the same; nothing if one is not stated.
fn same<T: PartialEq>(one: Option<&T>, other: Option<&T>) -> Option<bool> {
    one.zip(other).map(|(one, other)| one == other)
}
