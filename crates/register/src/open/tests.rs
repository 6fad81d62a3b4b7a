//! Durability, and the way from one schema to the next, with a second schema that exists only here.

use core::ops::ControlFlow;
use millrace_wording::{Show as _, Words};

use super::*;
use crate::place::beside;
use crate::stamp::Stamp;
use millrace_core::case::Draft;

const FIRST: &[&str] = &[include_str!("../schema/0001.sql")];
const SECOND: &[&str] = &[
    include_str!("../schema/0001.sql"),
    concat!(
        include_str!("../schema/0003.sql"),
        "ALTER TABLE current ADD COLUMN ward TEXT"
    ),
];
/// Its first statement works, its second does not.
const BROKEN: &[&str] = &[
    include_str!("../schema/0001.sql"),
    "ALTER TABLE current ADD COLUMN ward TEXT; INSERT INTO no_such_table VALUES (1)",
];

fn stamp() -> Stamp<'static> {
    Stamp {
        by: "A. Okafor",
        at: "2026-11-24T10:15:30Z".parse().unwrap(),
        program: "millrace test",
    }
}

/// A register of schema 1, as it was released: two cases and three revisions.
fn first(directory: &Path) -> PathBuf {
    let path = directory.join("register.sqlite3");
    let fixture = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/fixtures/schema-1.sqlite3"
    );
    fs::copy(fixture, &path).unwrap();
    path
}

fn user_version(path: &Path) -> i64 {
    let connection = Connection::open(path).unwrap();
    connection
        .pragma_query_value(None, "user_version", |row| row.get(0))
        .unwrap()
}

fn names(directory: &Path) -> Vec<String> {
    let name = |entry: io::Result<fs::DirEntry>| entry.unwrap().file_name().into_string().unwrap();
    let mut names: Vec<_> = fs::read_dir(directory).unwrap().map(name).collect();
    names.sort();
    names
}

/// Without this a save would be acknowledged before the drive has it. The setting is the
/// connection's own; 2 is FULL.
#[test]
fn every_commit_waits_for_the_drive() {
    let directory = tempfile::tempdir().unwrap();
    let register = Register::open(&first(directory.path())).unwrap();
    let setting = |name: &str| -> String {
        register
            .connection
            .pragma_query_value(None, name, |row| {
                Ok(row
                    .get_ref(0)?
                    .as_str()
                    .map_or_else(|_| row.get::<_, i64>(0).unwrap().to_string(), str::to_owned))
            })
            .unwrap()
    };
    assert_eq!(setting("synchronous"), "2");
    assert_eq!(setting("journal_mode"), "wal");
    assert_eq!(setting("foreign_keys"), "1");
}

#[test]
fn an_older_register_is_backed_up_and_brought_up() {
    let directory = tempfile::tempdir().unwrap();
    let path = first(directory.path());
    let register = Register::open_with(&path, IfAbsent::Refuse, SECOND).unwrap();
    assert_eq!(register.count().unwrap(), 2);
    register
        .connection
        .prepare("SELECT ward FROM current")
        .unwrap();
    drop(register);
    assert_eq!(
        names(directory.path()),
        ["register.sqlite3", "register.sqlite3.schema-1.backup"]
    );
    assert_eq!(user_version(&path), 2);

    // The older program refuses it now, and leaves it to the byte as it is.
    let bytes = fs::read(&path).unwrap();
    let error = Register::open_with(&path, IfAbsent::Refuse, FIRST).unwrap_err();
    assert!(matches!(
        error.fault,
        Fault::Newer {
            found: 2,
            newest: 1
        }
    ));
    assert_eq!(
        error.show(Words::ENGLISH),
        format!(
            "the register has schema 2 and this program knows 1; it was left as it is; \
             use the newer program: {}",
            path.display()
        )
    );
    assert_eq!(fs::read(&path).unwrap(), bytes);
    assert_eq!(names(directory.path()).len(), 2);

    // The backup is the register as it was.
    let backup = beside(&path, ".schema-1.backup");
    let mut backup = Register::open(&backup).unwrap();
    assert_eq!(backup.count().unwrap(), 2);
    let report = backup.check(&mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!((report.revisions, report.problems), (3, vec![]));
}

#[test]
fn a_migration_that_fails_changes_nothing_and_no_backup_is_overwritten() {
    let directory = tempfile::tempdir().unwrap();
    let path = first(directory.path());
    for backups in 1..=3 {
        let error = Register::open_with(&path, IfAbsent::Refuse, BROKEN).unwrap_err();
        assert!(
            error.show(Words::ENGLISH).contains("no_such_table"),
            "{error}"
        );
        assert_eq!(user_version(&path), 1);
        assert_eq!(names(directory.path()).len(), 1 + backups);
    }
    let mut register = Register::open(&path).unwrap();
    assert_eq!(register.count().unwrap(), 2);
    let report = register.check(&mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!(report.problems, []);
}

/// A copy that was open while a newer program brought the register up writes nothing any more.
#[test]
fn an_open_copy_notices_that_the_register_was_brought_up() {
    let directory = tempfile::tempdir().unwrap();
    let path = first(directory.path());
    let mut older = Register::open_with(&path, IfAbsent::Refuse, FIRST).unwrap();
    drop(Register::open_with(&path, IfAbsent::Refuse, SECOND).unwrap());
    let error = older.import([&Draft::default()], stamp()).unwrap_err();
    assert!(matches!(
        error.fault,
        Fault::Newer {
            found: 2,
            newest: 1
        }
    ));
    let newer = Register::open_with(&path, IfAbsent::Refuse, SECOND).unwrap();
    assert_eq!(newer.count().unwrap(), 2);
}

/// What a newer program that was cut off had not yet put into the file stays where it is.
#[test]
fn a_newer_register_that_was_cut_off_is_left_with_its_journal() {
    let directory = tempfile::tempdir().unwrap();
    let path = first(directory.path());
    let mut newer = Register::open_with(&path, IfAbsent::Refuse, SECOND).unwrap();
    newer.import([&Draft::default()], stamp()).unwrap();
    // Copied while it is open: the last save stands in the journal only.
    let cut_off = directory.path().join("cut-off.sqlite3");
    fs::copy(&path, &cut_off).unwrap();
    fs::copy(beside(&path, "-wal"), beside(&cut_off, "-wal")).unwrap();
    let bytes = [&cut_off, &beside(&cut_off, "-wal")].map(|file| fs::read(file).unwrap());
    assert!(!bytes[1].is_empty());
    let error = Register::open_with(&cut_off, IfAbsent::Refuse, FIRST).unwrap_err();
    assert!(
        matches!(error.fault, Fault::Newer { found: 2, .. }),
        "{error}"
    );
    let after = [&cut_off, &beside(&cut_off, "-wal")].map(|file| fs::read(file).unwrap());
    assert!(bytes == after, "file and journal are as they were");
    let newer = Register::open_with(&cut_off, IfAbsent::Refuse, SECOND).unwrap();
    assert_eq!(newer.count().unwrap(), 3);
}

/// Many threads that find no register make one, all the same.
#[test]
fn whoever_comes_first_makes_it() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("new/register.sqlite3");
    std::thread::scope(|scope| {
        for _ in 0..8 {
            scope.spawn(|| {
                let mut register = Register::open(&path).unwrap();
                register.import([&Draft::default()], stamp()).unwrap();
            });
        }
    });
    let mut register = Register::open_existing(&path).unwrap();
    let report = register.check(&mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!((report.cases, report.problems), (8, vec![]));
    drop(register);
    assert_eq!(names(&directory.path().join("new")), ["register.sqlite3"]);
}
