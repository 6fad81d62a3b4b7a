//! `millrace lens import`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::case_file::{self, LensChange, LensChangeKind, lens_import};
use millrace_core::lens::LensRecord;
use millrace_wording::{Words, command_line as say};

use super::ImportArguments;
use crate::every_file::read_every;
use crate::failure::{Failure, read_text};
use crate::system::private_directory;
use crate::terminal::{print_done, tell};
use crate::window::Kept;

pub(super) fn run(
    register: &Path,
    arguments: &ImportArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let new = read_every(&arguments.files, words, read)?;
    let kept = Kept::beside(register);
    let records = kept.lenses(words).map_err(Failure::LensRecords)?;
    // All together may be too many.
    let import = lens_import(&records, new).map_err(|error| Failure::LensFile {
        path: kept.lenses_file(),
        error: Box::new(error),
    })?;
    let is_other = |it: &&LensChange| matches!(it.kind, LensChangeKind::Other(_));
    let others: Vec<_> = import.changes.iter().filter(is_other).collect();
    if !others.is_empty() && !arguments.replace {
        for other in &others {
            tell(say::lens_is_another(words, &other.name));
        }
        let count = others.len();
        return Err(Failure::LensesThere { count });
    }
    keep(&kept, &import.records, words)?;
    let lines = import.changes.iter().map(|change| {
        let line = match change.kind {
            LensChangeKind::New => say::lens_added(words, &change.name),
            LensChangeKind::Other(_) => say::lens_replaced(words, &change.name),
            LensChangeKind::Same => say::lens_as_it_was(words, &change.name),
        };
        format!("{line}\n")
    });
    print_done(&lines.collect::<String>())?;
    Ok(ExitCode::SUCCESS)
}

/// One name for two records would leave open which is meant.
pub(crate) fn read(file: &Path, before: &[LensRecord]) -> Result<Vec<LensRecord>, Failure> {
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

fn keep(kept: &Kept, records: &[LensRecord], words: Words) -> Result<(), Failure> {
    let file = kept.lenses_file();
    if let Some(directory) = file.parent().filter(|it| !it.as_os_str().is_empty()) {
        private_directory()
            .create(directory)
            .map_err(Failure::writing(directory))?;
    }
    kept.keep_lenses(records, words)
        .map_err(Failure::LensRecords)
}
