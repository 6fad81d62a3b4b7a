//! `millrace lens import`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::case_file;
use millrace_core::lens::LensRecord;
use millrace_wording::{Words, command_line as say};

use super::ImportArguments;
use crate::every_file::read_every;
use crate::failure::{Failure, read_text};
use crate::system::private_directory;
use crate::terminal::{print_done, tell};
use crate::window::Kept;

/// What became of a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Became {
    Added,
    Replaced,
    AsItWas,
}

pub(super) fn run(
    register: &Path,
    arguments: &ImportArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let new = read_every(&arguments.files, words, read)?;
    let kept = Kept::beside(register);
    let mut records = kept.lenses(words).map_err(Failure::LensRecords)?;
    let became = merge(&mut records, new);
    let others = became.iter().filter(|it| it.1 == Became::Replaced).count();
    if 0 < others && !arguments.replace {
        for (name, _) in became.iter().filter(|it| it.1 == Became::Replaced) {
            tell(say::lens_is_another(words, name));
        }
        return Err(Failure::LensesThere { count: others });
    }
    keep(&kept, &records, words)?;
    let lines = became.iter().map(|(name, became)| {
        let line = match became {
            Became::Added => say::lens_added(words, name),
            Became::Replaced => say::lens_replaced(words, name),
            Became::AsItWas => say::lens_as_it_was(words, name),
        };
        format!("{line}\n")
    });
    print_done(&lines.collect::<String>())?;
    Ok(ExitCode::SUCCESS)
}

/// One name for two records would leave open which is meant.
fn read(file: &Path, before: &[LensRecord]) -> Result<Vec<LensRecord>, Failure> {
    let records = case_file::read_lenses(&read_text(file)?).map_err(|error| Failure::LensFile {
        path: file.to_owned(),
        error: Box::new(error),
    })?;
    for (index, record) in records.iter().enumerate() {
        let earlier = before.iter().chain(records.iter().take(index));
        if earlier.into_iter().any(|it| it.name == record.name) {
            return Err(Failure::LensTwice {
                path: file.to_owned(),
                name: record.name.clone(),
            });
        }
    }
    Ok(records)
}

/// Puts each new record in the place of the one of its name, or behind all.
fn merge(records: &mut Vec<LensRecord>, new: Vec<LensRecord>) -> Vec<(String, Became)> {
    let mut became = Vec::with_capacity(new.len());
    for record in new {
        let name = record.name.clone();
        let there = records.iter_mut().find(|known| known.name == name);
        let what = match there {
            None => {
                records.push(record);
                Became::Added
            }
            Some(known) if *known == record => Became::AsItWas,
            Some(known) => {
                *known = record;
                Became::Replaced
            }
        };
        became.push((name, what));
    }
    became
}

/// Only what reads back is kept: a list may be too long together.
fn keep(kept: &Kept, records: &[LensRecord], words: Words) -> Result<(), Failure> {
    let file = kept.lenses_file();
    let refused = |error| Failure::LensFile {
        path: file.clone(),
        error: Box::new(error),
    };
    let text = case_file::write_lenses(records).map_err(refused)?;
    case_file::read_lenses(&text).map_err(refused)?;
    if let Some(directory) = file.parent().filter(|it| !it.as_os_str().is_empty()) {
        private_directory()
            .create(directory)
            .map_err(Failure::writing(directory))?;
    }
    kept.keep_lenses(records, words)
        .map_err(Failure::LensRecords)
}
