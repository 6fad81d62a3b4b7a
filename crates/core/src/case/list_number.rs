//! Which operation of its day a case is, as the team ordered the list.

use serde::{Deserialize, Serialize};

/// Place in the order of a day, 1 to 99.
///
/// It belongs to the list and not to the plan: a sheet says the same whatever it is, so that it may change on a
/// signed case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct ListNumber(u8);

/// A number that is no place in the order of a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("number {found} in the order of the day is outside 1 to 99")]
pub struct NotAListNumber {
    pub found: u8,
}

impl ListNumber {
    /// The highest there is.
    pub const LAST: Self = Self(99);

    pub const fn get(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for ListNumber {
    type Error = NotAListNumber;

    fn try_from(found: u8) -> Result<Self, Self::Error> {
        if (1..=Self::LAST.0).contains(&found) {
            return Ok(Self(found));
        }
        Err(NotAListNumber { found })
    }
}

impl From<ListNumber> for u8 {
    fn from(number: ListNumber) -> Self {
        number.0
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Command, CommandRefused, Draft, update};
    use super::*;
    use crate::document::PlanDocument;
    use crate::limits::Limits;
    use crate::plan::Plan;
    use crate::rules::testing::date;
    use crate::{case_file, signing};

    fn number(of: u8) -> ListNumber {
        ListNumber::try_from(of).unwrap()
    }

    fn planned() -> Draft {
        let mut draft = Draft::default();
        draft.operation.date = Some(date(2026, 12, 3));
        draft
    }

    #[test]
    fn it_is_one_to_ninety_nine() {
        for found in [1, 2, 99] {
            assert_eq!(number(found).get(), found);
        }
        for found in [0, 100, 255] {
            assert_eq!(
                ListNumber::try_from(found).unwrap_err().to_string(),
                format!("number {found} in the order of the day is outside 1 to 99")
            );
        }
    }

    /// What is the third of Thursday is nothing of Friday.
    #[test]
    fn it_goes_with_its_day() {
        let third = update(&planned(), Command::SetListNumber(Some(number(3)))).unwrap();
        assert_eq!(third.operation.list_number, Some(number(3)));
        let same = Command::SetOperationDate(third.operation.date);
        assert_eq!(update(&third, same).unwrap(), third);
        for day in [None, Some(date(2026, 12, 4))] {
            let moved = update(&third, Command::SetOperationDate(day)).unwrap();
            assert_eq!(moved.operation.list_number, None, "{day:?}");
        }
        assert_eq!(
            update(&Draft::default(), Command::SetListNumber(Some(number(1)))),
            Err(CommandRefused::NumberWithoutDay)
        );
        let taken_back = update(&third, Command::SetListNumber(None)).unwrap();
        assert_eq!(taken_back, planned());
    }

    #[test]
    fn it_is_stored_with_the_case_and_is_nothing_of_the_plan() {
        let text = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");
        let before = case_file::read(text).unwrap();
        let mut numbered = before.clone();
        numbered.operation.list_number = Some(number(7));
        let written = case_file::write(&numbered).unwrap();
        assert!(written.contains("list_number: 7,"), "{written}");
        assert_eq!(case_file::read(&written).unwrap(), numbered);
        let json = case_file::write_json(&numbered).unwrap();
        assert_eq!(case_file::read_json(&json).unwrap(), numbered);

        let document = |draft: &Draft| {
            let plan = Plan::of(draft, Limits::shipped()).unwrap();
            serde_json::to_string(&PlanDocument::of(&plan, "test")).unwrap()
        };
        assert_eq!(document(&numbered), document(&before));
        let signed = |draft: &Draft| {
            let to_sign = signing::ToSign {
                number: signing::SheetNumber::FIRST,
                supersedes: None,
                draft,
                limits: Limits::shipped(),
                program: "test",
            };
            let signature = signing::Signature {
                name: "A. Okafor".to_owned(),
                role: "surgeon".to_owned(),
                at: chrono::DateTime::UNIX_EPOCH,
                consented_target: draft.lens.target.unwrap(),
            };
            signing::sign(to_sign, signature).unwrap().fingerprint()
        };
        assert_eq!(signed(&numbered), signed(&before));
    }

    #[test]
    fn a_file_with_another_number_or_without_its_day_is_refused_with_the_place() {
        let text = |operation: &str| {
            format!(
                "(format: \"millrace case\", version: 3, patient: (), operation: ({operation}))"
            )
        };
        let day = "date: \"2026-12-03\"";
        for (operation, said) in [
            (format!("{day}, list_number: 0"), "outside 1 to 99"),
            (format!("{day}, list_number: 100"), "outside 1 to 99"),
            ("list_number: 1".to_owned(), "needs a day"),
        ] {
            let error = case_file::read(&text(&operation)).unwrap_err().to_string();
            assert!(error.contains(said), "{operation}: {error}");
            assert!(error.contains("line 1, column"), "{operation}: {error}");
        }
        assert!(case_file::read(&text(&format!("{day}, list_number: 99"))).is_ok());
    }
}
