//! Cases of the register whose patient may be this one under another number, or another under this one.

use millrace_core::case::Patient;

use crate::case_id::CaseId;
use crate::catalog::Line;
use crate::entry::CaseEntry;
use crate::error::RegisterError;
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
            let mut doubts = Vec::new();
            for line in catalog.lines.iter().filter(|line| asked.may_be(line)) {
                let entry = line.entry(reading)?;
                if Some(entry.case) != own {
                    doubts.extend(asked.doubt(patient, entry));
                }
            }
            Ok(doubts)
        })
    }
}

/// A patient as the list knows one; nothing for what is not stated.
struct Folded {
    name: Option<String>,
    number: Option<String>,
}

impl Folded {
    fn of(patient: &Patient) -> Self {
        Self {
            name: patient.name.as_deref().map(fold),
            number: patient.number.as_deref().map(closed),
        }
    }

    /// Whether name or number is that of a line.
    fn may_be(&self, line: &Line) -> bool {
        let number = line.number.as_deref().map(closed);
        (self.number.is_some() && self.number == number)
            || self.name.as_ref() == Some(&line.name_folded)
    }

    fn doubt(&self, patient: &Patient, entry: CaseEntry) -> Option<PatientDoubt> {
        let [numbers, names] = [
            same(
                self.number.as_ref(),
                entry.number.as_deref().map(closed).as_ref(),
            ),
            same(self.name.as_ref(), entry.name.as_deref().map(fold).as_ref()),
        ];
        let births = same(patient.birth_date.as_ref(), entry.birth_date.as_ref());
        match (numbers, names, births) {
            (Some(true), Some(false), _) | (Some(true), _, Some(false)) => {
                Some(PatientDoubt::NumberOfAnother(entry))
            }
            (Some(false), Some(true), Some(true)) => Some(PatientDoubt::AnotherNumber(entry)),
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
