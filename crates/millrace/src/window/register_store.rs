//! Cases in the register.

use std::path::{Path, PathBuf};

use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, CaseRow, Conflict, Revision, SaveRequest, Who};
use millrace_press::Press;
use millrace_register::{CaseEntry, Register, RegisterError, RevisionEntry, SaveError, Stamp};

use tempfile::TempDir;

use millrace_wording::{Show, Words, window as say};

use super::left_behind::LeftBehind;
use super::watch::Watch;
use crate::register::{PROGRAM, account};
use crate::seen::Outside;
use crate::{clock, computer};

/// The register, and who saves when nobody said who sits here.
pub(crate) struct RegisterStore {
    pub(super) register: Register,
    pub(super) directory: PathBuf,
    pub(super) account: String,
    /// In which it tells what cannot be done: those of the desk.
    pub(super) words: Words,
    /// Tries whether a plan can be printed before it is signed.
    pub(super) press: Press,
    /// The directory of the demo's register: held to be gone with the store.
    throw_away: Option<TempDir>,
    /// Where what cannot be saved is kept, and how far the register has come; nowhere for the demo.
    pub(super) outside: Outside,
    /// What the desk shows of the register, to notice what others store.
    pub(super) watch: Watch,
    /// What is being typed, and what windows left behind of that.
    pub(super) left: LeftBehind,
}

impl RegisterStore {
    /// Opens the register, or begins one; refuses one that does not hold what it held when this computer saw
    /// it last.
    pub(crate) fn open(path: &Path) -> Result<Self, RegisterError> {
        Self::known_to(path, Outside::of_this_computer())
    }

    fn known_to(path: &Path, outside: Outside) -> Result<Self, RegisterError> {
        outside.refuse_missing(path)?;
        let store = Self::at(path, outside)?;
        store.outside.compare(&store.register)?;
        Ok(store)
    }

    pub(super) fn at(path: &Path, outside: Outside) -> Result<Self, RegisterError> {
        Ok(Self {
            register: Register::open(path)?,
            // A revision always names somebody; the person may do so in the settings.
            account: account().unwrap_or_else(|| "not named".to_owned()),
            directory: path.parent().map(Path::to_owned).unwrap_or_default(),
            words: Words::ENGLISH,
            press: Press::default(),
            throw_away: None,
            outside,
            watch: Watch::default(),
            left: LeftBehind::default(),
        })
    }

    /// A register of these cases that is gone with the store.
    pub(crate) fn throw_away(cases: &[Draft], words: Words) -> Result<Self, String> {
        let place = tempfile::Builder::new()
            .prefix("millrace-demo-")
            .tempdir()
            .map_err(|error| error.to_string())?;
        let mut store = Self::at(&place.path().join("demo.sqlite3"), Outside::default())
            .map_err(plain(words))?;
        let imported = store.register.import(cases, stamp("demo", None));
        imported.map_err(plain(words))?;
        store.throw_away = Some(place);
        Ok(store)
    }

    /// Whether it is gone with the window, and so is what is typed.
    pub(super) const fn is_thrown_away(&self) -> bool {
        self.throw_away.is_some()
    }

    fn opened(&mut self, case: millrace_register::CaseId) -> Result<Answer, String> {
        let revision = self.register.load(case).map_err(plain(self.words))?;
        let others = self.register.other_cases(&revision.draft.patient, case);
        let other_cases = others.map_err(plain(self.words))?;
        self.watch.shows(case, revision.entry.number);
        Ok(Answer::Opened {
            case: CaseId(case.to_string()),
            revision: Revision(revision.entry.number.to_string()),
            draft: Box::new(revision.draft),
            // A case is read also where a sheet of it is damaged; then nobody knows what was signed.
            sheets: self.rows(case).ok(),
            other_cases,
        })
    }
}

/// Why it could not be done, in words.
pub(super) fn plain<E: Show>(words: Words) -> impl Fn(E) -> String {
    move |error| error.show(words).into_owned()
}

fn stamp<'a>(by: &'a str, desk: Option<&'a str>) -> Stamp<'a> {
    Stamp {
        by,
        desk,
        at: clock::now(),
        program: PROGRAM,
    }
}

/// Who stores it, as the desk says; the account of the computer while nobody is named there.
pub(super) fn stamp_of<'a>(said: &'a Who, account: &'a str) -> Stamp<'a> {
    let is_named = !said.person.trim().is_empty();
    let person = if is_named { &said.person } else { account };
    stamp(person, said.desk.as_deref())
}

/// Who stored a revision, and where.
pub(super) fn who(entry: RevisionEntry) -> Who {
    Who {
        person: entry.saved_by,
        desk: entry.desk,
    }
}

/// The case the desk names; only what this store handed out is asked for again.
pub(super) fn known(case: &CaseId, words: Words) -> Result<millrace_register::CaseId, String> {
    let unknown = |_| say::no_such_case(words, &case.0);
    case.0.parse().map_err(unknown)
}

pub(super) fn row(entry: CaseEntry) -> CaseRow {
    CaseRow {
        case: CaseId(entry.case.to_string()),
        name: entry.name,
        number: entry.number,
        eye: entry.eye,
        date: entry.operation_date,
        list_number: entry.list_number,
        state: entry.state,
        sheet: entry.sheet,
    }
}

impl RegisterStore {
    /// Stores a draft: [`Answer::Saved`] once it is durable, [`Answer::Conflict`] if another revision
    /// came first, [`Answer::NotSaved`] otherwise.
    pub(crate) fn save(&mut self, save: &SaveRequest) -> Answer {
        let case = save.case.clone();
        self.saved(save).unwrap_or_else(|why| {
            let why = match self.keep_aside(save) {
                Some(path) => say::kept_aside(self.words, why, path.display().to_string()),
                None => why,
            };
            Answer::NotSaved { case, why }
        })
    }

    fn saved(&mut self, save: &SaveRequest) -> Result<Answer, String> {
        let id = known(&save.case, self.words)?;
        let seen = seen(&save.seen, self.words)?;
        let account = self.account.clone();
        let stamp = stamp_of(&save.by, &account);
        let saved = self.register.save(id, Some(seen), &save.draft, stamp);
        let case = save.case.clone();
        match saved {
            Ok(entry) => {
                self.nothing_aside(&case);
                let stored = self.register.load_revision(id, entry.number);
                let stored = stored.map_err(plain(self.words))?;
                self.watch.shows(id, entry.number);
                Ok(Answer::Saved {
                    case,
                    revision: Revision(entry.number.to_string()),
                    at: clock::on_the_wall(entry.saved_at).time(),
                    other_cases: stored.draft.other_cases,
                })
            }
            Err(SaveError::Conflict { theirs }) => {
                // Until somebody chooses it stands in the window alone.
                self.keep_aside(save);
                self.watch.shows(id, theirs.entry.number);
                Ok(Answer::Conflict {
                    case,
                    conflict: Conflict {
                        revision: Revision(theirs.entry.number.to_string()),
                        base: self
                            .register
                            .load_revision(id, seen)
                            .ok()
                            .map(|base| Box::new(base.draft)),
                        theirs: Box::new(theirs.draft),
                        by: who(theirs.entry),
                    },
                })
            }
            Err(error) => Err(plain(self.words)(error)),
        }
    }

    /// Keeps a new case: [`Answer::Opened`].
    pub(crate) fn begin(&mut self, draft: &Draft) -> Result<Answer, String> {
        let (account, desk) = (self.account.clone(), computer::desk());
        let stamp = stamp(&account, desk.as_deref());
        let saved = self.register.import([draft], stamp);
        let entry = saved.map_err(plain(self.words))?.into_iter().next();
        let entry = entry.ok_or_else(|| say::no_case_kept(self.words))?;
        self.opened(entry.case)
    }

    /// A stored case: [`Answer::Opened`].
    pub(crate) fn reopen(&mut self, case: &CaseId) -> Result<Answer, String> {
        self.opened(known(case, self.words)?)
    }
}

/// The number of a revision that this store handed out.
pub(super) fn seen(revision: &Revision, words: Words) -> Result<u32, String> {
    let unknown = |_| say::no_such_revision(words, &revision.0);
    revision.0.parse().map_err(unknown)
}

#[cfg(test)]
mod tests;
