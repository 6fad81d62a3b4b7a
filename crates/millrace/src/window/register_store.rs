//! Cases in the register.

use core::ops::Range;
use std::path::{Path, PathBuf};

use millrace_core::case::{Draft, State};
use millrace_desk::exchange::{Answer, CaseId, CaseRow, CaseState, Revision};
use millrace_register::{CaseEntry, Register, RegisterError, SaveError, Stamp, Window};

use tempfile::TempDir;

use crate::clock;
use crate::register::{PROGRAM, account};

/// The register, and who saves when nobody said who sits here.
pub(crate) struct RegisterStore {
    pub(super) register: Register,
    /// Where it lies.
    pub(super) directory: PathBuf,
    account: String,
    /// The directory of the demo's register: held to be gone with the store.
    throw_away: Option<TempDir>,
}

/// A draft to store.
pub(crate) struct Change {
    /// The revision it started from.
    pub(crate) seen: Revision,
    /// What to store.
    pub(crate) draft: Draft,
    /// Who changed it.
    pub(crate) author: String,
}

impl RegisterStore {
    /// Opens the register, or begins one.
    ///
    /// # Errors
    ///
    /// [`RegisterError`], saying what can be done.
    pub(crate) fn open(path: &Path) -> Result<Self, RegisterError> {
        Ok(Self {
            register: Register::open(path)?,
            // A revision always names somebody; the person may do so in the settings.
            account: account().unwrap_or_else(|| "not named".to_owned()),
            directory: path.parent().map(Path::to_owned).unwrap_or_default(),
            throw_away: None,
        })
    }

    /// A register of these cases that is gone with the store.
    ///
    /// # Errors
    ///
    /// Why there is none.
    pub(crate) fn throw_away(cases: &[Draft]) -> Result<Self, String> {
        let plain = |error: &dyn core::fmt::Display| error.to_string();
        let place = tempfile::Builder::new()
            .prefix("millrace-demo-")
            .tempdir()
            .map_err(|error| plain(&error))?;
        let mut store =
            Self::open(&place.path().join("demo.sqlite3")).map_err(|error| plain(&error))?;
        store
            .register
            .import(cases, stamp("demo"))
            .map_err(|error| plain(&error))?;
        store.throw_away = Some(place);
        Ok(store)
    }

    fn author<'a>(&'a self, said: &'a str) -> &'a str {
        if said.trim().is_empty() {
            &self.account
        } else {
            said
        }
    }

    fn opened(&self, case: millrace_register::CaseId) -> Result<Answer, RegisterError> {
        let revision = self.register.load(case)?;
        Ok(Answer::Opened {
            case: CaseId(case.to_string()),
            revision: Revision(revision.entry.number.to_string()),
            draft: Box::new(revision.draft),
        })
    }

    fn found(&self, search: &str, rows: &Range<usize>) -> Result<Answer, RegisterError> {
        let window = Window {
            offset: u32::try_from(rows.start).unwrap_or(u32::MAX),
            limit: u32::try_from(rows.len()).unwrap_or(u32::MAX),
        };
        let (total, entries) = if search.trim().is_empty() {
            (self.register.count()?, self.register.list(window)?)
        } else {
            let total = self.register.count_found(search)?;
            (total, self.register.search(search, window)?)
        };
        Ok(Answer::Listed {
            search: search.to_owned(),
            total: usize::try_from(total).unwrap_or(usize::MAX),
            start: rows.start,
            rows: entries.into_iter().map(row).collect(),
        })
    }
}

fn stamp(by: &str) -> Stamp<'_> {
    Stamp {
        by,
        at: clock::now(),
        program: PROGRAM,
    }
}

/// The case the desk names; only what this store handed out is asked for again.
pub(super) fn known(case: &CaseId) -> Result<millrace_register::CaseId, Answer> {
    case.0.parse().map_err(|_| Answer::Failed {
        message: format!("no case of this register is called {}", case.0),
    })
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "it is turned into its message"
)]
pub(super) fn failed(error: RegisterError) -> Answer {
    Answer::Failed {
        message: error.to_string(),
    }
}

fn row(entry: CaseEntry) -> CaseRow {
    CaseRow {
        case: CaseId(entry.case.to_string()),
        name: entry.name,
        number: entry.number,
        eye: entry.eye,
        date: entry.operation_date,
        state: match entry.state {
            State::Draft => CaseState::Draft,
            State::Measured => CaseState::Measured,
            State::Planned => CaseState::Planned,
            State::Signed => CaseState::Signed,
        },
    }
}

impl RegisterStore {
    /// Stores a draft as the next revision after `seen`: [`Answer::Saved`] once it is durable,
    /// [`Answer::Conflict`] if another revision came first, [`Answer::NotSaved`] otherwise.
    pub(crate) fn save(&mut self, case: &CaseId, change: &Change) -> Answer {
        let id = match known(case) {
            Ok(id) => id,
            Err(answer) => return answer,
        };
        let Ok(seen) = change.seen.0.parse::<u32>() else {
            return Answer::NotSaved {
                case: case.clone(),
                why: format!("no revision is called {}", change.seen.0),
            };
        };
        let author = self.author(&change.author).to_owned();
        match self
            .register
            .save(id, Some(seen), &change.draft, stamp(&author))
        {
            Ok(entry) => Answer::Saved {
                case: case.clone(),
                revision: Revision(entry.number.to_string()),
            },
            Err(SaveError::Conflict { theirs }) => Answer::Conflict {
                case: case.clone(),
                revision: Revision(theirs.entry.number.to_string()),
                theirs: Box::new(theirs.draft),
                author: theirs.entry.saved_by,
            },
            Err(error) => Answer::NotSaved {
                case: case.clone(),
                why: error.to_string(),
            },
        }
    }

    /// Keeps a new case: [`Answer::Opened`].
    pub(crate) fn begin(&mut self, draft: &Draft, author: &str) -> Answer {
        let author = self.author(author).to_owned();
        let saved = self.register.import([draft], stamp(&author));
        let entry = match saved.map(|entries| entries.into_iter().next()) {
            Ok(Some(entry)) => entry,
            Ok(None) => {
                return Answer::Failed {
                    message: "the register kept no case".to_owned(),
                };
            }
            Err(error) => return failed(error),
        };
        self.opened(entry.case).unwrap_or_else(failed)
    }

    /// A stored case: [`Answer::Opened`].
    pub(crate) fn reopen(&self, case: &CaseId) -> Answer {
        match known(case) {
            Ok(id) => self.opened(id).unwrap_or_else(failed),
            Err(answer) => answer,
        }
    }

    /// Rows of the list, by day, then name: [`Answer::Listed`].
    pub(crate) fn list(&self, search: &str, rows: Range<usize>) -> Answer {
        self.found(search, &rows).unwrap_or_else(failed)
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::Side;

    use super::*;

    fn store(directory: &Path) -> RegisterStore {
        RegisterStore::open(&directory.join("register.sqlite3")).unwrap()
    }

    fn change(seen: &Revision, eye: Side) -> Change {
        let mut draft = Draft::default();
        draft.operation.eye = Some(eye);
        Change {
            seen: seen.clone(),
            draft,
            author: "B. Second".to_owned(),
        }
    }

    /// Two running copies on one register: the second sees the first's change and overwrites nothing.
    #[test]
    fn of_two_copies_the_second_overwrites_nothing() {
        let directory = tempfile::tempdir().unwrap();
        let mut first = store(directory.path());
        let mut second = store(directory.path());
        let Answer::Opened { case, revision, .. } = first.begin(&Draft::default(), "A. First")
        else {
            panic!("a case begins");
        };
        let saved = second.save(&case, &change(&revision, Side::Right));
        assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
        let late = first.save(&case, &change(&revision, Side::Left));
        let Answer::Conflict { theirs, author, .. } = late else {
            panic!("a conflict is told");
        };
        assert_eq!(theirs.operation.eye, Some(Side::Right));
        assert_eq!(author, "B. Second");
        let Answer::Opened { draft, .. } = first.reopen(&case) else {
            panic!("it opens");
        };
        assert_eq!(draft.operation.eye, Some(Side::Right));
    }

    #[test]
    fn what_was_kept_is_listed_and_found_after_the_window_was_closed() {
        let directory = tempfile::tempdir().unwrap();
        let mut draft = Draft::default();
        draft.patient.name = Some("Ångström, Élise".to_owned());
        draft.patient.number = Some("40-2291".to_owned());
        store(directory.path()).begin(&draft, "");
        let again = store(directory.path());
        for (search, expected) in [("", 1), ("angstrom", 1), ("40-22", 1), ("nobody", 0)] {
            let Answer::Listed { total, rows, .. } = again.list(search, 0..10) else {
                panic!("a list");
            };
            assert_eq!((total, rows.len()), (expected, expected), "{search}");
        }
    }

    #[test]
    fn what_is_no_register_is_refused_with_a_message() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        std::fs::write(&path, "no register at all, only a text that somebody wrote").unwrap();
        let error = RegisterStore::open(&path).err().unwrap();
        assert!(!error.to_string().is_empty());
        let kept = std::fs::read_to_string(&path).unwrap();
        assert!(kept.starts_with("no register at all"));
    }
}
