//! Which files are a register, or belong to one: nothing else may be written in their place.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use crate::schema::APPLICATION_ID;

/// What the database keeps beside a register, or looks for there.
const COMPANIONS: &[&str] = &["-wal", "-shm", "-journal"];
/// Every file of the database begins so. Source: its file format, section 1.3 (from memory).
const MAGIC: &[u8] = b"SQLite format 3\0";
/// Where the number of the application stands in the first page, bytes; the same source.
const APPLICATION_AT: usize = 68;

/// Whether a path is a register, a backup of one, or the place of a file that the database keeps beside a
/// register, whether or not there is one. What the file holds tells, not what it is called.
///
/// # Errors
///
/// [`io::Error`] if there is a file that cannot be looked into.
pub fn belongs_to_a_register(path: &Path) -> io::Result<bool> {
    // A link leads to what would be written to.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    if is_register(&path)? {
        return Ok(true);
    }
    owner(&path).map_or(Ok(false), |owner| is_register(&owner))
}

/// The file that one of this name would belong to.
fn owner(path: &Path) -> Option<PathBuf> {
    let name = path.file_name()?.to_str()?;
    let owner = COMPANIONS
        .iter()
        .find_map(|ending| name.strip_suffix(ending))?;
    Some(path.with_file_name(owner))
}

fn is_register(path: &Path) -> io::Result<bool> {
    // A pipe would wait for somebody to write to it.
    if !path.is_file() {
        return Ok(false);
    }
    let mut first = Vec::new();
    let end = APPLICATION_AT + size_of_val(&APPLICATION_ID);
    File::open(path)?.take(end as u64).read_to_end(&mut first)?;
    let application = first.get(APPLICATION_AT..end);
    Ok(first.starts_with(MAGIC) && application == Some(&APPLICATION_ID.to_be_bytes()[..]))
}

#[cfg(test)]
mod tests {
    use core::ops::ControlFlow;
    use std::fs;

    use super::*;
    use crate::Register;

    #[test]
    fn a_register_is_known_by_what_it_holds_and_its_companions_by_their_names() {
        let directory = tempfile::tempdir().unwrap();
        let at = |name: &str| directory.path().join(name);
        let register = Register::open(&at("cases")).unwrap();
        register
            .backup(&at("of-monday.pdf"), &mut |_| ControlFlow::Continue(()))
            .unwrap();
        fs::write(at("notes"), "SQLite format 3\0 is how they begin").unwrap();
        fs::write(at("short"), MAGIC).unwrap();
        for (name, belongs) in [
            ("cases", true),
            ("cases-wal", true),
            ("cases-shm", true),
            // It is not there yet, and would be taken for the register's.
            ("cases-journal", true),
            ("of-monday.pdf", true),
            ("of-monday.pdf-wal", true),
            ("notes", false),
            ("notes-wal", false),
            ("short", false),
            ("nothing", false),
            (".", false),
        ] {
            assert_eq!(belongs_to_a_register(&at(name)).unwrap(), belongs, "{name}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_a_register_is_one() {
        let directory = tempfile::tempdir().unwrap();
        let (file, link) = (
            directory.path().join("cases"),
            directory.path().join("link"),
        );
        drop(Register::open(&file).unwrap());
        std::os::unix::fs::symlink(&file, &link).unwrap();
        assert!(belongs_to_a_register(&link).unwrap());
        let hard = directory.path().join("sheet.pdf");
        fs::hard_link(&file, &hard).unwrap();
        assert!(belongs_to_a_register(&hard).unwrap());
    }
}
