//! Cases in the register.

use std::path::{Path, PathBuf};

use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, CaseRow, Conflict, Revision, SaveRequest};
use millrace_press::Press;
use millrace_register::{CaseEntry, Register, RegisterError, SaveError, Stamp};

use tempfile::TempDir;

use millrace_wording::{Show, Words, window as say};

use crate::clock;
use crate::register::{PROGRAM, account};
use crate::seen::Outside;

/// The register, and who saves when nobody said who sits here.
pub(crate) struct RegisterStore {
    pub(super) register: Register,
    pub(super) directory: PathBuf,
    account: String,
    /// In which it tells what cannot be done: those of the desk.
    pub(super) words: Words,
    /// Tries whether a plan can be printed before it is signed.
    pub(super) press: Press,
    /// The directory of the demo's register: held to be gone with the store.
    throw_away: Option<TempDir>,
    /// Where what cannot be saved is kept, and how far the register has come; nowhere for the demo.
    pub(super) outside: Outside,
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

    fn at(path: &Path, outside: Outside) -> Result<Self, RegisterError> {
        Ok(Self {
            register: Register::open(path)?,
            // A revision always names somebody; the person may do so in the settings.
            account: account().unwrap_or_else(|| "not named".to_owned()),
            directory: path.parent().map(Path::to_owned).unwrap_or_default(),
            words: Words::ENGLISH,
            press: Press::default(),
            throw_away: None,
            outside,
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
        let imported = store.register.import(cases, stamp("demo"));
        imported.map_err(plain(words))?;
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

    fn opened(&self, case: millrace_register::CaseId) -> Result<Answer, String> {
        let revision = self.register.load(case).map_err(plain(self.words))?;
        let others = self.register.other_cases(&revision.draft.patient, case);
        let other_cases = others.map_err(plain(self.words))?;
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

fn stamp(by: &str) -> Stamp<'_> {
    Stamp {
        by,
        at: clock::now(),
        program: PROGRAM,
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
        let author = self.author(&save.author).to_owned();
        let saved = self
            .register
            .save(id, Some(seen), &save.draft, stamp(&author));
        let case = save.case.clone();
        match saved {
            Ok(entry) => {
                self.nothing_aside(&case);
                let stored = self.register.load_revision(id, entry.number);
                let stored = stored.map_err(plain(self.words))?;
                Ok(Answer::Saved {
                    case,
                    revision: Revision(entry.number.to_string()),
                    other_cases: stored.draft.other_cases,
                })
            }
            Err(SaveError::Conflict { theirs }) => Ok(Answer::Conflict {
                case,
                conflict: Conflict {
                    revision: Revision(theirs.entry.number.to_string()),
                    theirs: Box::new(theirs.draft),
                    author: theirs.entry.saved_by,
                },
            }),
            Err(error) => Err(plain(self.words)(error)),
        }
    }

    /// Keeps a new case: [`Answer::Opened`].
    pub(crate) fn begin(&mut self, draft: &Draft, author: &str) -> Result<Answer, String> {
        let author = self.author(author).to_owned();
        let saved = self.register.import([draft], stamp(&author));
        let entry = saved.map_err(plain(self.words))?.into_iter().next();
        let entry = entry.ok_or_else(|| say::no_case_kept(self.words))?;
        self.opened(entry.case)
    }

    /// A stored case: [`Answer::Opened`].
    pub(crate) fn reopen(&self, case: &CaseId) -> Result<Answer, String> {
        self.opened(known(case, self.words)?)
    }
}

/// The number of a revision that this store handed out.
pub(super) fn seen(revision: &Revision, words: Words) -> Result<u32, String> {
    let unknown = |_| say::no_such_revision(words, &revision.0);
    revision.0.parse().map_err(unknown)
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::Side;
    use millrace_core::case_file;
    use millrace_desk::exchange::{Listed, Listing};

    use super::*;

    fn store(directory: &Path) -> RegisterStore {
        let place = directory.join("register.sqlite3");
        RegisterStore::at(&place, Outside::default()).unwrap()
    }

    fn change(case: &CaseId, seen: &Revision, eye: Side) -> SaveRequest {
        let mut draft = Draft::default();
        draft.operation.eye = Some(eye);
        SaveRequest {
            case: case.clone(),
            seen: seen.clone(),
            draft: Box::new(draft),
            author: "B. Second".to_owned(),
        }
    }

    /// Two running copies on one register: the second sees the first's change and overwrites nothing.
    #[test]
    fn of_two_copies_the_second_overwrites_nothing() {
        let directory = tempfile::tempdir().unwrap();
        let mut first = store(directory.path());
        let mut second = store(directory.path());
        let begun = first.begin(&Draft::default(), "A. First").unwrap();
        let Answer::Opened { case, revision, .. } = begun else {
            panic!("a case begins");
        };
        let saved = second.save(&change(&case, &revision, Side::Right));
        assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
        let late = first.save(&change(&case, &revision, Side::Left));
        let Answer::Conflict { conflict, .. } = late else {
            panic!("a conflict is told");
        };
        assert_eq!(conflict.theirs.operation.eye, Some(Side::Right));
        assert_eq!(conflict.author, "B. Second");
        let Ok(Answer::Opened { draft, .. }) = first.reopen(&case) else {
            panic!("it opens");
        };
        assert_eq!(draft.operation.eye, Some(Side::Right));
    }

    /// The register is deleted while it is open: what was typed is not lost with it, and once it is saved
    /// nothing is left aside.
    #[cfg(unix)]
    #[test]
    fn what_cannot_be_saved_is_kept_aside_until_it_is() {
        let directory = tempfile::tempdir().unwrap();
        let mut store = store(directory.path());
        store.outside = Outside::at(directory.path().join("outside"));
        let Answer::Opened { case, revision, .. } = store.begin(&Draft::default(), "").unwrap()
        else {
            panic!("a case begins");
        };
        let register = directory.path().join("register.sqlite3");
        let away = directory.path().join("away");
        std::fs::rename(&register, &away).unwrap();
        let save = change(&case, &revision, Side::Left);
        let Answer::NotSaved { why, .. } = store.save(&save) else {
            panic!("it is saved nowhere");
        };
        let aside = directory.path().join("outside/not-saved");
        let kept = aside.join(format!("{}.ron", case.0));
        assert!(why.contains(&kept.display().to_string()), "{why}");
        let text = std::fs::read_to_string(&kept).unwrap();
        assert_eq!(case_file::read(&text).unwrap(), *save.draft);
        std::fs::rename(&away, &register).unwrap();
        let saved = store.save(&save);
        assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
        assert!(!kept.exists());
    }

    /// It is told once, when the desk opens, not at the first save that fails.
    #[cfg(unix)]
    #[test]
    fn a_register_that_is_only_read_says_so_from_the_start() {
        use std::os::unix::fs::PermissionsExt as _;

        let directory = tempfile::tempdir().unwrap();
        let mut first = store(directory.path());
        first.begin(&Draft::default(), "").unwrap();
        assert_eq!(first.at_opening(), Vec::<String>::new());
        drop(first);
        let place = directory.path().join("register.sqlite3");
        let allow = |mode| {
            let mode = std::fs::Permissions::from_mode(mode);
            std::fs::set_permissions(&place, mode).unwrap();
        };
        allow(0o400);
        // Whoever may do everything is kept from nothing.
        if std::fs::OpenOptions::new()
            .append(true)
            .open(&place)
            .is_err()
        {
            let told = store(directory.path()).at_opening();
            assert!(told[0].contains("read and not written to"), "{told:?}");
        }
        allow(0o600);
    }

    #[test]
    fn what_was_kept_is_listed_and_found_after_the_window_was_closed() {
        let directory = tempfile::tempdir().unwrap();
        let mut draft = Draft::default();
        draft.patient.name = Some("Ångström, Élise".to_owned());
        draft.patient.number = Some("40-2291".to_owned());
        store(directory.path()).begin(&draft, "").unwrap();
        let again = store(directory.path());
        for (search, expected) in [("", 1), ("angstrom", 1), ("40-22", 1), ("nobody", 0)] {
            let listed = again.list(search, Listing::Planned, &(0..10));
            let Ok(Answer::Listed(Listed { total, rows, .. })) = listed else {
                panic!("a list");
            };
            assert_eq!((total, rows.len()), (expected, expected), "{search}");
        }
    }

    #[test]
    fn what_cannot_be_done_is_said_in_the_words_of_the_desk() {
        let directory = tempfile::tempdir().unwrap();
        let mut store = store(directory.path());
        store.words = Words::PSEUDO;
        let unknown = CaseId("0".to_owned());
        let never_signed = store.verify("0000-0000-0000-0000");
        let refused = [
            store.reopen(&unknown),
            store.verify("1"),
            never_signed,
            store
                .day("2026-12-03".parse().unwrap())
                .map(|_| Answer::ListChanged),
        ];
        for refused in refused {
            let text = refused.unwrap_err();
            assert_eq!(millrace_wording::check::untouched(&text, []), [""; 0]);
        }
    }

    #[test]
    fn where_a_register_was_seen_the_desk_begins_none() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("clinic/register.sqlite3");
        let outside = Outside::at(directory.path().join("state"));
        let mut store = RegisterStore::known_to(&path, outside.clone()).unwrap();
        store.begin(&Draft::default(), "A. First").unwrap();
        outside.remember(&store.register).unwrap();
        drop(store);
        std::fs::remove_file(&path).unwrap();
        let error = RegisterStore::known_to(&path, outside).err().unwrap();
        assert!(error.fault.is_another_head(), "{error}");
        assert!(!path.exists());
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
