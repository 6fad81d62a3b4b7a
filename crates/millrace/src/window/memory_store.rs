//! Cases in memory, for the demo: gone when the window closes.

use core::ops::Range;

use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, CaseRow, CaseState, Revision};

use super::store::{Change, Store};

/// Cases in memory.
#[derive(Default)]
pub(crate) struct MemoryStore {
    cases: Vec<Stored>,
}

struct Stored {
    draft: Draft,
    revision: u64,
    author: String,
}

impl Stored {
    fn revision(&self) -> Revision {
        Revision(self.revision.to_string())
    }
}

impl MemoryStore {
    fn at(&self, case: &CaseId) -> Option<usize> {
        let index = case.0.parse().ok()?;
        (index < self.cases.len()).then_some(index)
    }

    fn opened(&self, index: usize) -> Answer {
        let Some(stored) = self.cases.get(index) else {
            return unknown();
        };
        Answer::Opened {
            case: CaseId(index.to_string()),
            revision: stored.revision(),
            draft: Box::new(stored.draft.clone()),
        }
    }
}

fn unknown() -> Answer {
    Answer::Failed {
        message: "That case is not here any more".to_owned(),
    }
}

impl Store for MemoryStore {
    fn save(&mut self, case: &CaseId, change: Change) -> Answer {
        let Some(stored) = self.at(case).and_then(|index| self.cases.get_mut(index)) else {
            return unknown();
        };
        if stored.revision() != change.seen {
            return Answer::Conflict {
                case: case.clone(),
                revision: stored.revision(),
                theirs: Box::new(stored.draft.clone()),
                author: stored.author.clone(),
            };
        }
        stored.draft = change.draft;
        stored.author = change.author;
        stored.revision += 1;
        Answer::Saved {
            case: case.clone(),
            revision: stored.revision(),
        }
    }

    fn begin(&mut self, draft: Draft, author: &str) -> Answer {
        self.cases.push(Stored {
            draft,
            revision: 1,
            author: author.to_owned(),
        });
        self.opened(self.cases.len() - 1)
    }

    fn open(&mut self, case: &CaseId) -> Answer {
        self.at(case)
            .map_or_else(unknown, |index| self.opened(index))
    }

    fn list(&mut self, search: &str, rows: Range<usize>) -> Answer {
        let wanted = search.to_lowercase();
        let mut found: Vec<_> = self
            .cases
            .iter()
            .enumerate()
            .map(|(index, stored)| row(index, &stored.draft))
            .filter(|row| {
                [&row.name, &row.number]
                    .into_iter()
                    .flatten()
                    .any(|text| text.to_lowercase().contains(&wanted))
                    || wanted.is_empty()
            })
            .collect();
        found.sort_by(|one, other| {
            let key = |row: &CaseRow| (row.date.is_none(), row.date, row.name.clone());
            key(one).cmp(&key(other))
        });
        let total = found.len();
        let start = rows.start.min(total);
        let shown = found
            .into_iter()
            .skip(start)
            .take(rows.end.saturating_sub(start))
            .collect();
        Answer::Listed {
            search: search.to_owned(),
            total,
            start,
            rows: shown,
        }
    }
}

fn row(index: usize, draft: &Draft) -> CaseRow {
    CaseRow {
        case: CaseId(index.to_string()),
        name: draft.patient.name.clone(),
        number: draft.patient.number.clone(),
        eye: draft.operation.eye,
        date: draft.operation.date,
        state: CaseState::of(draft),
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::Side;

    use super::*;

    fn change(seen: &str, eye: Side) -> Change {
        let mut draft = Draft::default();
        draft.operation.eye = Some(eye);
        Change {
            seen: Revision(seen.to_owned()),
            draft,
            author: "B".to_owned(),
        }
    }

    #[test]
    fn of_two_saves_from_one_revision_the_second_overwrites_nothing() {
        let mut store = MemoryStore::default();
        let Answer::Opened { case, revision, .. } = store.begin(Draft::default(), "A") else {
            panic!("a case opens");
        };
        let first = store.save(&case, change(&revision.0, Side::Right));
        assert!(matches!(first, Answer::Saved { .. }));
        let second = store.save(&case, change(&revision.0, Side::Left));
        let Answer::Conflict { theirs, author, .. } = second else {
            panic!("a conflict is told");
        };
        assert_eq!(theirs.operation.eye, Some(Side::Right));
        assert_eq!(author, "B");
    }
}
