//! What is being typed, kept beside the register until the drive has it with its case; and what a window left
//! there that ended otherwise than by being closed.
//!
//! Each window writes a file of its own, `REGISTER.typed-XXXXXX.ron`, and holds a lock on the `.lock` beside it
//! for as long: a lock ends with its process, however that ends. What nobody holds any more is offered once, by
//! who locks it then. What cannot be read is left as it is and told.

use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use millrace_core::calendar::Moment;
use millrace_desk::exchange::{Answer, CaseId, LeftId, LeftText, TypedText};
use millrace_desk::whereabouts::Page;
use millrace_wording::{Words, window as say};
use serde::{Deserialize, Serialize};
use tempfile::NamedTempFile;

use super::register_store::{RegisterStore, known, plain};
use crate::clock;
use crate::failure::Failure;
use crate::output::{Over, write_file};
use crate::system::with_rights_of;

/// Longest file of this kind, bytes: far more than all fields of a case hold.
const LARGEST: u64 = 64 << 10;
const VERSION: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoredFile {
    version: u32,
    texts: Vec<StoredText>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoredText {
    case: String,
    page: String,
    field: u64,
    what: String,
    text: String,
    at: String,
}

/// What this window keeps, and what it found.
#[derive(Default)]
pub(crate) struct LeftBehind {
    own: Option<Own>,
    found: Vec<Found>,
    /// Files that were told to be unreadable, each once.
    told: BTreeSet<PathBuf>,
    /// Whether it was told that nothing can be kept: not again with each letter.
    is_told: bool,
    last_id: u64,
}

struct Own {
    /// Held to be locked; taken away with it.
    _lock: NamedTempFile,
    file: PathBuf,
    texts: Vec<StoredText>,
}

/// A file that no living window holds: held by this one until all of it is settled.
struct Found {
    _lock: File,
    lock_file: PathBuf,
    file: PathBuf,
    texts: Vec<(LeftText, StoredText)>,
}

impl RegisterStore {
    /// Keeps these texts and no others; tells why not, once.
    pub(crate) fn keep_typed(&mut self, texts: Vec<TypedText>) -> Vec<Answer> {
        if self.is_thrown_away() {
            return Vec::new();
        }
        let kept = self.left.keep(self.register.path(), texts, self.words);
        let told = kept.err().filter(|_| !self.left.is_told);
        self.left.is_told |= told.is_some();
        told.map(|message| Answer::Failed { message })
            .into_iter()
            .collect()
    }

    /// What windows left behind, and what of it could not be read.
    pub(crate) fn look_for_left(&mut self) -> Vec<Answer> {
        if self.is_thrown_away() {
            return Vec::new();
        }
        let before = self.left.found.len();
        let mut told = Vec::new();
        for file in files_beside(self.register.path()) {
            if let Err(why) = self.adopt(&file)
                && self.left.told.insert(file.clone())
            {
                let path = file.display().to_string();
                told.push(say::left_not_read(self.words, path, why));
            }
        }
        let mut answers = Vec::new();
        if self.left.found.len() != before {
            let texts = self.left.found.iter().flat_map(|found| &found.texts);
            let texts = texts.map(|(left, _)| left.clone()).collect();
            answers.push(Answer::Left(texts));
        }
        if !told.is_empty() {
            let message = told.join(". ");
            answers.push(Answer::Failed { message });
        }
        answers
    }

    /// Takes a file over that no living window holds.
    fn adopt(&mut self, file: &Path) -> Result<(), String> {
        let lock_file = file.with_extension("lock");
        let lock = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(false)
            .open(&lock_file);
        let lock = match lock {
            Ok(lock) => lock,
            // Of somebody else at this computer: theirs to find.
            Err(error) if error.kind() == io::ErrorKind::PermissionDenied => return Ok(()),
            Err(error) => return Err(error.to_string()),
        };
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Ok(()),
            Err(TryLockError::Error(error)) => return Err(error.to_string()),
        }
        let taken = self.texts_of(file);
        let Ok(Some(texts)) = taken else {
            // Nothing is held of a file that is gone, or left as it is.
            let _ = fs::remove_file(&lock_file);
            return taken.map(drop);
        };
        self.left.found.push(Found {
            _lock: lock,
            lock_file,
            file: file.to_owned(),
            texts,
        });
        Ok(())
    }

    /// The texts of a file, each of a case of this register; nothing if it is gone.
    fn texts_of(&mut self, file: &Path) -> Result<Option<Vec<(LeftText, StoredText)>>, String> {
        let Some(stored) = read(file, self.words)? else {
            return Ok(None);
        };
        let texts = stored.into_iter().map(|text| {
            let left = self.left_text(&text)?;
            Ok((left, text))
        });
        texts.collect::<Result<_, String>>().map(Some)
    }

    /// A text of a case of this register.
    fn left_text(&mut self, text: &StoredText) -> Result<LeftText, String> {
        let words = self.words;
        let case = CaseId(text.case.clone());
        let loaded = self.register.load(known(&case, words)?);
        let patient = loaded.map_err(plain(words))?.draft.patient.name;
        let damaged = || say::left_damaged(words).to_owned();
        let Moment(at) = text.at.parse().map_err(|_| damaged())?;
        let page = Page::with_code(&text.page).ok_or_else(damaged)?;
        self.left.last_id += 1;
        Ok(LeftText {
            id: LeftId(self.left.last_id),
            typed: TypedText {
                case,
                page: page.code().to_owned(),
                field: text.field,
                what: text.what.clone(),
                text: text.text.clone(),
            },
            patient,
            at: clock::on_the_wall(at),
        })
    }

    /// A text is in its field again, or is not wanted; tells why that could not be kept in mind.
    pub(crate) fn settle_left(&mut self, id: LeftId) -> Vec<Answer> {
        let settled = self.left.settle(id, self.words);
        let told = settled.err();
        told.map(|message| Answer::Failed { message })
            .into_iter()
            .collect()
    }
}

impl LeftBehind {
    fn keep(&mut self, register: &Path, texts: Vec<TypedText>, words: Words) -> Result<(), String> {
        if texts.is_empty() {
            if let Some(own) = self.own.take() {
                let gone = fs::remove_file(&own.file);
                return gone.map_err(|error| not_kept(&own.file, &error, words));
            }
            return Ok(());
        }
        let own = match &mut self.own {
            Some(own) => own,
            none => none.insert(Own::beside(register, words)?),
        };
        let now = Moment(clock::now()).text().unwrap_or_default();
        let texts = texts.into_iter().map(|typed| own.stored(typed, &now));
        let texts: Vec<_> = texts.collect();
        write(&own.file, &texts, words)?;
        own.texts = texts;
        Ok(())
    }

    fn settle(&mut self, id: LeftId, words: Words) -> Result<(), String> {
        let holds = |found: &Found| found.texts.iter().any(|(left, _)| left.id == id);
        let Some(index) = self.found.iter().position(holds) else {
            return Ok(());
        };
        let Some(found) = self.found.get_mut(index) else {
            return Ok(());
        };
        found.texts.retain(|(left, _)| left.id != id);
        if !found.texts.is_empty() {
            let rest: Vec<_> = found.texts.iter().map(|(_, text)| text.clone()).collect();
            return write(&found.file, &rest, words);
        }
        let found = self.found.swap_remove(index);
        let gone = fs::remove_file(&found.file);
        // Without its file it means nothing.
        let _ = fs::remove_file(&found.lock_file);
        gone.map_err(|error| not_kept(&found.file, &error, words))
    }
}

impl Own {
    /// A name that no other window has, locked before anything stands under it.
    fn beside(register: &Path, words: Words) -> Result<Self, String> {
        let refused = |error: io::Error| not_kept(register, &error, words);
        let mut builder = tempfile::Builder::new();
        let prefix = prefix(register);
        builder.prefix(&prefix).suffix(".lock");
        with_rights_of(None, &mut builder);
        let lock = builder.tempfile_in(directory(register)).map_err(refused)?;
        lock.as_file().lock().map_err(refused)?;
        Ok(Self {
            file: lock.path().with_extension("ron"),
            _lock: lock,
            texts: Vec::new(),
        })
    }

    /// With the time since when it stands there as it does.
    fn stored(&self, typed: TypedText, now: &str) -> StoredText {
        let same = |it: &&StoredText| {
            it.case == typed.case.0 && it.field == typed.field && it.text == typed.text
        };
        let at = self.texts.iter().find(same).map(|it| it.at.clone());
        StoredText {
            case: typed.case.0,
            page: typed.page,
            field: typed.field,
            what: typed.what,
            text: typed.text,
            at: at.unwrap_or_else(|| now.to_owned()),
        }
    }
}

fn directory(register: &Path) -> &Path {
    match register.parent() {
        Some(parent) if parent != Path::new("") => parent,
        _ => Path::new("."),
    }
}

/// What the names of these files begin with.
fn prefix(register: &Path) -> String {
    let name = register.file_name().unwrap_or_default().to_string_lossy();
    format!("{name}.typed-")
}

pub(super) fn files_beside(register: &Path) -> Vec<PathBuf> {
    let prefix = prefix(register);
    let Ok(entries) = fs::read_dir(directory(register)) else {
        return Vec::new();
    };
    let is_one = |path: &PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with(&prefix) && path.extension().is_some_and(|it| it == "ron")
    };
    let paths = entries.filter_map(|entry| entry.ok().map(|entry| entry.path()));
    let mut found: Vec<_> = paths.filter(is_one).collect();
    found.sort();
    found
}

/// The texts of a file; nothing if it is gone by now, or somebody else's at this computer.
fn read(file: &Path, words: Words) -> Result<Option<Vec<StoredText>>, String> {
    let told = |error: io::Error| match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::PermissionDenied => Ok(None),
        _ => Err(error.to_string()),
    };
    match fs::symlink_metadata(file) {
        // A pipe would wait for somebody to write to it.
        Ok(kind) if !kind.is_file() => return Err(say::left_damaged(words).to_owned()),
        Ok(_) => {}
        Err(error) => return told(error),
    }
    let opened = match File::open(file) {
        Ok(opened) => opened,
        Err(error) => return told(error),
    };
    let mut text = Vec::new();
    if let Err(error) = opened.take(LARGEST + 1).read_to_end(&mut text) {
        return told(error);
    }
    let is_too_large = LARGEST < text.len() as u64;
    let stored = (!is_too_large)
        .then(|| ron::de::from_bytes::<StoredFile>(&text).ok())
        .flatten();
    let stored = stored.filter(|stored| stored.version == VERSION);
    let stored = stored.ok_or_else(|| say::left_damaged(words).to_owned())?;
    Ok(Some(stored.texts))
}

fn write(file: &Path, texts: &[StoredText], words: Words) -> Result<(), String> {
    let stored = StoredFile {
        version: VERSION,
        texts: texts.to_vec(),
    };
    let text = ron::ser::to_string_pretty(&stored, ron::ser::PrettyConfig::default())
        .map_err(|error| error.to_string())?;
    if LARGEST < text.len() as u64 {
        return Err(say::too_much_typed(words).to_owned());
    }
    write_file(file, Over::Replace, &[], text.as_bytes()).map_err(|failure| match failure {
        Failure::Write { error, .. } => not_kept(file, &error, words),
        other => plain(words)(other),
    })
}

fn not_kept(path: &Path, error: &io::Error, words: Words) -> String {
    say::typed_not_kept(words, path.display().to_string(), error.to_string())
}

#[cfg(all(test, unix))]
#[expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "evidence fails loudly, in helpers as in tests"
)]
mod tests;
