//! `millrace register import`.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use millrace_core::calendar::Moment;
use millrace_core::case::{Draft, State};
use millrace_register::{Register, RevisionEntry, Stamp};
use millrace_wording::{Words, command_line as say};
use serde::Serialize;

use super::arguments::ImportArguments;
use super::{Head, PROGRAM, json, tell_clock, tell_if_forgotten};
use crate::cli::Format;
use crate::every_file::read_every;
use crate::failure::Failure;
use crate::named_case::read_file;
use crate::seen;
use crate::terminal::{print_done, tell};
use crate::{clock, computer};

pub(crate) fn run(
    path: &Path,
    arguments: &ImportArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let who = match &arguments.who {
        Some(who) => who.clone(),
        None => account().ok_or(Failure::Nobody)?,
    };
    let drafts = read_every(&arguments.files, words, |file, _| {
        Ok(vec![read_file(file)?])
    })?;
    let desk = computer::desk();
    let stamp = Stamp {
        by: &who,
        desk: desk.as_deref(),
        at: clock::now(),
        program: PROGRAM,
    };
    let saved = save(path, arguments, &drafts, stamp, words)?;
    // From here on everything is on the drive.
    let printed = match arguments.format {
        Format::Text => text(&arguments.files, &drafts, &saved, words),
        Format::Json => document(path, &arguments.files, &drafts, &saved)?,
    };
    print_done(&printed)?;
    Ok(ExitCode::SUCCESS)
}

fn save(
    path: &Path,
    arguments: &ImportArguments,
    drafts: &[Draft],
    stamp: Stamp<'_>,
    words: Words,
) -> Result<Vec<RevisionEntry>, Failure> {
    let (Some(case), Some(revision)) = (&arguments.case, arguments.revision) else {
        let (register, saved) = match seen::open_if_there(path, words)? {
            // It is there with them, or not at all.
            None => Register::begin_with(path, drafts, stamp)?,
            Some(mut register) => {
                tell_clock(&register, stamp.at, words);
                let saved = register.import(drafts, stamp)?;
                (register, saved)
            }
        };
        tell_if_forgotten(seen::remember(&register), words);
        tell_doubts(&register, (&arguments.files, drafts), &saved, words);
        return Ok(saved);
    };
    let [draft] = drafts else {
        let files = drafts.len();
        return Err(Failure::OneFile { files });
    };
    let mut register = seen::open(path, words)?;
    tell_clock(&register, stamp.at, words);
    let case = register.find(case)?;
    let saved = register.save(case, Some(revision), draft, stamp)?;
    tell_if_forgotten(seen::remember(&register), words);
    let saved = vec![saved];
    tell_doubts(&register, (&arguments.files, drafts), &saved, words);
    Ok(saved)
}

/// Tells which patients do not go together with others of the register, those of the same import among them.
/// They are saved all the same: which of the two is right is not for the program to say.
fn tell_doubts(
    register: &Register,
    (files, drafts): (&[PathBuf], &[Draft]),
    saved: &[RevisionEntry],
    words: Words,
) {
    for ((file, draft), entry) in files.iter().zip(drafts).zip(saved) {
        match register.patient_doubts(&draft.patient, Some(entry.case)) {
            Ok(doubts) => {
                for doubt in doubts {
                    tell(say::patient_doubt(words, doubt, file.display().to_string()));
                }
            }
            Err(problem) => tell(say::patients_not_compared(words, problem)),
        }
    }
}

/// The name of the account that runs the program.
pub(crate) fn account() -> Option<String> {
    ["USER", "LOGNAME", "USERNAME"]
        .into_iter()
        .filter_map(|name| std::env::var(name).ok())
        .find(|name| !name.trim().is_empty())
}

fn text(files: &[PathBuf], drafts: &[Draft], saved: &[RevisionEntry], words: Words) -> String {
    let lines = files.iter().zip(drafts).zip(saved);
    let line = |((file, draft), entry): ((&PathBuf, &Draft), &RevisionEntry)| {
        let (state, file) = (State::of(draft), file.display().to_string());
        let line = say::saved(words, entry.case, entry.number, state, file);
        format!("{line}\n")
    };
    lines.map(line).collect()
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    cases: Vec<Imported>,
}

#[derive(Serialize)]
struct Imported {
    file: String,
    case: String,
    revision: u32,
    state: &'static str,
    saved_at: Moment,
    saved_by: String,
    hash: String,
}

fn document(
    path: &Path,
    files: &[PathBuf],
    drafts: &[Draft],
    saved: &[RevisionEntry],
) -> Result<String, Failure> {
    let lines = files.iter().zip(drafts).zip(saved);
    let cases = lines.map(|((file, draft), entry)| Imported {
        file: file.display().to_string(),
        case: entry.case.to_string(),
        revision: entry.number,
        state: State::of(draft).word(),
        saved_at: Moment(entry.saved_at),
        saved_by: entry.saved_by.clone(),
        hash: entry.hash.to_string(),
    });
    json(&Document {
        head: Head::new("millrace register import", path),
        cases: cases.collect(),
    })
}
