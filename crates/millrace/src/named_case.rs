//! A case as the command line names it: a file, or a case of the register.

use std::path::{MAIN_SEPARATOR, Path};

use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_register::Fault;
use millrace_wording::command_line as say;

use crate::failure::{Failure, read_text};
use crate::terminal::tell;
use crate::{Around, seen};

/// Whether it is looked for in the register: it is no file, and is not written as one.
pub(crate) fn is_of_register(named: &Path) -> bool {
    name(named).is_some()
}

/// The name or number of a case; nothing for a file.
fn name(named: &Path) -> Option<&str> {
    let text = named.to_str()?;
    let is_ron = named
        .extension()
        .is_some_and(|it| it.eq_ignore_ascii_case("ron"));
    let is_path = text.contains(['/', MAIN_SEPARATOR]) || is_ron;
    (!is_path && named.symlink_metadata().is_err()).then_some(text)
}

/// What the file holds, or the newest revision of the case.
///
/// # Errors
///
/// [`Failure::Case`], [`Failure::NoFileNoCase`], or why the register cannot be read.
pub(crate) fn read(named: &Path, around: &Around) -> Result<Draft, Failure> {
    let Some(case) = name(named) else {
        return read_file(named);
    };
    of_register(case, around).map_err(|failure| match failure {
        Failure::Register(error) if matches!(error.fault, Fault::Absent | Fault::NoSuchCase) => {
            Failure::NoFileNoCase {
                case: case.to_owned(),
                error,
            }
        }
        other => other,
    })
}

pub(crate) fn read_file(file: &Path) -> Result<Draft, Failure> {
    case_file::read(&read_text(file)?).map_err(|error| Failure::Case {
        path: file.to_owned(),
        error: Box::new(error),
    })
}

fn of_register(name: &str, around: &Around) -> Result<Draft, Failure> {
    let register = seen::open(&around.place.path()?, around.words)?;
    let case = register.find(name)?;
    let newest = register.load(case)?;
    // What is printed of a draft is never the sheet.
    if let Some(sheet) = register.sheets_of(case)?.pop()
        && sheet.revision == newest.entry.number
    {
        tell(say::signed_as_it_stands(around.words, sheet.number.get()));
    }
    Ok(newest.draft)
}
