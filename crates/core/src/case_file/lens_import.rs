//! What lens records from elsewhere would change among those of the clinic.

use super::differences::{Difference, between};
use super::{CaseFileError, read_lenses, write_lenses};
use crate::lens::LensRecord;

/// The clinic's records with others taken in, before anything is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct LensImport {
    /// All of them as they would be.
    pub records: Vec<LensRecord>,
    /// What becomes of each that was brought, in their order.
    pub changes: Vec<LensChange>,
}

/// What becomes of a record that was brought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LensChange {
    /// By which the clinic knows it.
    pub name: String,
    pub kind: LensChangeKind,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LensChangeKind {
    /// None is known by its name.
    New,
    /// It is what is known already.
    Same,
    /// It takes the place of another content: what differs, from what it is to what it becomes.
    Other(Vec<Difference>),
}

/// Puts each record in the place of the one of its name, or behind all.
///
/// # Errors
///
/// [`CaseFileError`] if all together are no file of lens records: there may be too many.
pub fn lens_import(
    known: &[LensRecord],
    brought: Vec<LensRecord>,
) -> Result<LensImport, CaseFileError> {
    let mut records = known.to_vec();
    let mut changes = Vec::with_capacity(brought.len());
    for record in brought {
        let name = record.name.clone();
        let there = records.iter_mut().find(|known| known.name == name);
        let kind = match there {
            None => {
                records.push(record);
                LensChangeKind::New
            }
            Some(known) if *known == record => LensChangeKind::Same,
            Some(known) => {
                let differences = between(known, &record)?;
                *known = record;
                LensChangeKind::Other(differences)
            }
        };
        changes.push(LensChange { name, kind });
    }
    read_lenses(&write_lenses(&records)?)?;
    Ok(LensImport { records, changes })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::iol_power::AConstant;

    const DEMO: &str = include_str!("../../../../demo-data/lenses.ron");

    #[test]
    fn each_record_is_new_the_same_or_another_value_by_value() {
        let known = read_lenses(DEMO).unwrap();
        let same = known[1].clone();
        let mut other = known[0].clone();
        let constant = other.constants.a_constant.as_mut().unwrap();
        constant.value = AConstant::new(118.71).unwrap();
        let mut new = known[2].clone();
        new.name = "Brought".to_owned();
        let import = lens_import(&known, vec![same, other.clone(), new.clone()]).unwrap();

        let mut expected = known.clone();
        expected[0] = other;
        expected.push(new);
        assert_eq!(import.records, expected);
        let [same, other, new] = &import.changes[..] else {
            panic!("{:?}", import.changes)
        };
        assert_eq!(same.kind, LensChangeKind::Same);
        assert_eq!((&*new.name, &new.kind), ("Brought", &LensChangeKind::New));
        let LensChangeKind::Other(differences) = &other.kind else {
            panic!("{other:?}")
        };
        let [difference] = &differences[..] else {
            panic!("{differences:?}")
        };
        assert_eq!(difference.entry, ["constants", "a_constant", "value"]);
        // As the file of the demo writes it.
        assert_eq!(difference.first.as_deref(), Some("118.66"));
        assert_eq!(difference.second.as_deref(), Some("118.71"));
    }

    /// 2000 records are the most; one more together makes no file, and nothing is handed out.
    #[test]
    fn too_many_together_are_refused() {
        let pattern = read_lenses(DEMO).unwrap().remove(0);
        let numbered = |number: usize| {
            let mut record = pattern.clone();
            record.name = format!("Record {number}");
            record
        };
        let known: Vec<_> = (0..2_000).map(numbered).collect();
        assert!(lens_import(&known, vec![numbered(1_999)]).is_ok());
        assert!(lens_import(&known, vec![numbered(2_000)]).is_err());
    }
}
