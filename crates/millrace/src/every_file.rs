//! What a command is given several files of: all of them, or none.

use std::path::{Path, PathBuf};

use millrace_wording::{Words, command_line as say};

use crate::failure::Failure;
use crate::terminal::tell;

/// What every file holds, in their order; `read` is given what those before it held.
///
/// # Errors
///
/// The refusal of the only file; of several, each refusal is told and they are counted.
pub(crate) fn read_every<T>(
    files: &[PathBuf],
    words: Words,
    read: impl Fn(&Path, &[T]) -> Result<Vec<T>, Failure>,
) -> Result<Vec<T>, Failure> {
    let mut held = Vec::with_capacity(files.len());
    let mut refusals = Vec::new();
    for file in files {
        match read(file, &held) {
            Ok(more) => held.extend(more),
            Err(failure) => refusals.push(failure),
        }
    }
    if files.len() == 1
        && let Some(only) = refusals.pop()
    {
        return Err(only);
    }
    for failure in &refusals {
        tell(say::failed(words, failure));
    }
    if refusals.is_empty() {
        return Ok(held);
    }
    Err(Failure::Import {
        refused: refusals.len(),
        files: files.len(),
    })
}
