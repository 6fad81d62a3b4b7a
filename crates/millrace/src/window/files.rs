//! Files of the person's choice, read and written.

use std::borrow::Cow;
use std::path::{Path, PathBuf};

use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_core::lens::LensRecord;
use millrace_desk::exchange::Place;
use millrace_wording::{Words, window as say};

use super::register_store::plain;
use crate::failure::{Failure, read_text};
use crate::lens;
use crate::output::{Over, write_file};

/// Where it is, once it is chosen.
pub(super) fn path(place: &Place, words: Words) -> Result<Cow<'_, Path>, String> {
    match place {
        Place::Dialog => Err(say::no_file_chosen(words).to_owned()),
        Place::Typed(path) => at_home(path, words),
        Place::Chosen(path) => Ok(path.into()),
    }
}

/// A path as it was typed; one that begins with `~/` begins in the person's own directory.
fn at_home(typed: &str, words: Words) -> Result<Cow<'_, Path>, String> {
    let within = match typed.strip_prefix('~') {
        Some(rest) if rest.is_empty() || rest.starts_with(std::path::is_separator) => rest,
        _ => return Ok(Path::new(typed).into()),
    };
    let base = directories::BaseDirs::new().ok_or_else(|| say::no_home(words).to_owned())?;
    let within = within.trim_start_matches(std::path::is_separator);
    Ok(base.home_dir().join(within).into())
}

pub(super) fn read_case(place: &Place, words: Words) -> Result<Draft, String> {
    let path = path(place, words)?;
    let text = read_text(&path).map_err(plain(words))?;
    case_file::read(&text).map_err(|error| {
        let (path, error) = (path.into_owned(), Box::new(error));
        plain(words)(Failure::Case { path, error })
    })
}

/// Lens records to be looked at: all of the file or none.
pub(super) fn read_lenses(place: &Place, words: Words) -> Result<Vec<LensRecord>, String> {
    let path = path(place, words)?;
    lens::import::read(&path, &[]).map_err(plain(words))
}

pub(super) fn write_lenses(
    records: &[LensRecord],
    place: &Place,
    words: Words,
) -> Result<PathBuf, String> {
    let text = case_file::write_lenses(records).map_err(plain(words))?;
    write(place, text.as_bytes(), words)
}

/// Writes a new file where the path was typed, or over the one that the dialog asked about; never over a
/// register.
pub(super) fn write(place: &Place, bytes: &[u8], words: Words) -> Result<PathBuf, String> {
    let over = match place {
        Place::Chosen(_) => Over::Replace,
        Place::Dialog | Place::Typed(_) => Over::Refuse,
    };
    let path = path(place, words)?.into_owned();
    write_file(&path, over, &[], bytes).map_err(plain(words))?;
    Ok(path)
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    #[test]
    fn a_tilde_is_the_persons_own_directory_and_only_at_the_beginning() {
        let home = directories::BaseDirs::new().unwrap().home_dir().to_owned();
        let read = |typed: &str| {
            let place = Place::Typed(typed.to_owned());
            path(&place, Words::ENGLISH).unwrap().into_owned()
        };
        assert_eq!(read("~/40-2291-right.ron"), home.join("40-2291-right.ron"));
        assert_eq!(read("~"), home);
        for other in ["/tmp/~/a.ron", "~somebody/a.ron", "a~.ron"] {
            assert_eq!(read(other), Path::new(other), "{other}");
        }
    }

    #[test]
    fn a_file_whose_path_was_typed_is_left_as_it_is() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("notes.pdf");
        fs::write(&path, "notes").unwrap();
        let typed = Place::Typed(path.display().to_string());
        let refused = write(&typed, b"pages", Words::ENGLISH).unwrap_err();
        assert!(refused.contains("notes.pdf"), "{refused}");
        assert_eq!(fs::read(&path).unwrap(), b"notes");
        assert_eq!(
            write(&Place::Chosen(path.clone()), b"pages", Words::ENGLISH),
            Ok(path.clone())
        );
        assert_eq!(fs::read(&path).unwrap(), b"pages");
        let register = directory.path().join("register.sqlite3");
        drop(millrace_register::Register::open(&register).unwrap());
        let kept = fs::read(&register).unwrap();
        let refused = write(&Place::Chosen(register.clone()), b"pages", Words::ENGLISH);
        assert!(refused.unwrap_err().contains("would be lost"));
        assert_eq!(fs::read(&register).unwrap(), kept);
        assert!(write(&Place::Dialog, b"pages", Words::ENGLISH).is_err());
    }

    /// What is written is read again as it was; a file that is refused says where.
    #[test]
    fn lens_records_are_written_and_read_whole_or_refused_with_the_place() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("records.ron");
        let place = Place::Typed(path.display().to_string());
        let records = super::super::demo::lenses().unwrap();
        assert_eq!(
            write_lenses(&records, &place, Words::ENGLISH),
            Ok(path.clone())
        );
        assert_eq!(read_lenses(&place, Words::ENGLISH).unwrap(), records);
        // A file that is there is left as it is.
        assert!(write_lenses(&records, &place, Words::ENGLISH).is_err());

        let text = fs::read_to_string(&path).unwrap();
        let refused = |text: &str| {
            fs::write(&path, text).unwrap();
            read_lenses(&place, Words::ENGLISH).unwrap_err()
        };
        // The model of the first record stands in the seventh line.
        let wrong = text.replacen("model:", "modal:", 1);
        let why = refused(&wrong);
        assert!(
            why.contains("line 7") && why.contains("records.ron"),
            "{why}"
        );
        let twice = refused(&text.replacen(&records[1].name, &records[0].name, 1));
        assert!(twice.contains(&records[0].name), "{twice}");
        assert!(read_lenses(&Place::Dialog, Words::ENGLISH).is_err());
    }
}
