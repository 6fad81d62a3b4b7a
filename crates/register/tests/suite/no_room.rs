//! No room and no right to write, as a process of its own meets them.

use millrace_wording::{Show as _, Words};
use std::fs::{self, Permissions};
use std::os::unix::fs::{PermissionsExt as _, chown};
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::support::{aimed_at, check, filled, stamp};
use millrace_register::{CaseId, Fault, Register, RegisterError, SaveError};

/// Set for the child: what it does with which register.
const CHILD_SAVES: &str = "MILLRACE_SAVES_UNTIL_REFUSED";
const CHILD_OPENS: &str = "MILLRACE_OPENS";
/// A user without rights, on every system of the kind.
const NOBODY: u32 = 65_534;
/// More than fit into any of the rooms here.
const MANY: i32 = 20_000;

/// Saves until there is no room, finds everything that was acknowledged, makes room by removing the
/// ballast beside the register, and saves again.
fn save_until_refused(path: &Path) {
    let ballast = path.with_file_name("ballast");
    if !ballast.exists() {
        fs::write(&ballast, vec![1; 200_000]).unwrap();
    }
    let mut register = Register::open(path).unwrap();
    let case = CaseId::random().unwrap();
    let mut newest = None;
    let mut refusal = None;
    for target in 0..MANY {
        match register.save(case, newest, &aimed_at(target), stamp()) {
            Ok(entry) => newest = Some(entry.number),
            Err(error) => {
                refusal = Some(error);
                break;
            }
        }
    }
    let refusal = refusal.expect("there is no room for so many");
    let SaveError::Register(RegisterError { fault, .. }) = &refusal else {
        panic!("{refusal}");
    };
    assert!(matches!(fault, Fault::Full), "{fault:?}");
    println!("refused: {}", refusal.show(Words::ENGLISH));
    let saved = newest.expect("something fits");
    let whole = |register: &Register| {
        for number in 1..=saved {
            let draft = register.load_revision(case, number).unwrap().draft;
            assert_eq!(draft, aimed_at(i32::try_from(number).unwrap() - 1));
        }
    };
    whole(&register);
    assert_eq!(register.load(case).unwrap().entry.number, saved);
    drop(register);
    fs::remove_file(&ballast).unwrap();
    let mut register = Register::open(path).unwrap();
    whole(&register);
    let report = check(&mut register);
    assert_eq!((report.revisions, report.problems), (saved.into(), vec![]));
    println!("kept {saved}");
}

/// Runs the test of this name again, as a child in a shell that first does `prepare`.
fn in_shell(prepare: &str, test: &str, register: &Path) -> Option<String> {
    let script = format!("{prepare}; exec \"$0\" --exact {test} --nocapture");
    let output = Command::new("sh")
        .args(["-c", &script])
        .arg(std::env::current_exe().unwrap())
        .env(CHILD_SAVES, register)
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    if text.contains("cannot prepare") {
        return None;
    }
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{text}\n{errors}");
    let full = "the drive is full or fails to write; nothing was saved; make room and save again: ";
    assert!(
        text.contains(&format!("refused: {full}{}\n", register.display())),
        "{text}"
    );
    assert!(text.contains("kept "), "{text}");
    Some(text)
}

/// Files may not grow: 1 MB stops the journal, 6 MB the register itself, when the journal is moved
/// into it.
#[test]
fn a_limit_on_files_loses_nothing() {
    const THIS: &str = "no_room::a_limit_on_files_loses_nothing";
    if let Some(path) = std::env::var_os(CHILD_SAVES) {
        return save_until_refused(Path::new(&path));
    }
    for blocks in [2_000, 12_000] {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        // The signal would end the process before the write fails; an ignored one stays ignored.
        let prepare = format!("trap '' XFSZ; ulimit -f {blocks}");
        in_shell(&prepare, THIS, &path).expect("every shell has a limit on files");
        // Without the limit it goes on where it was.
        let mut register = Register::open(&path).unwrap();
        register.import([&aimed_at(1)], stamp()).unwrap();
        assert_eq!(check(&mut register).problems, []);
    }
}

/// A drive of 3 MB, where the system lets us make one.
#[test]
fn a_full_drive_loses_nothing() {
    const THIS: &str = "no_room::a_full_drive_loses_nothing";
    if let Some(path) = std::env::var_os(CHILD_SAVES) {
        return save_until_refused(Path::new(&path));
    }
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let mount = format!(
        "mount -t tmpfs -o size=3m tmpfs '{}' || {{ echo cannot prepare; exit 1; }}",
        directory.path().display()
    );
    let script = format!("{mount}; exec \"$0\" --exact {THIS} --nocapture");
    // In a mount table of its own, which ends with it.
    let wrapped = format!(
        "unshare -m sh -c '{}' \"$0\" || {{ echo cannot prepare; exit 1; }}; exit 0",
        script.replace('\'', "'\\''")
    );
    if in_shell(&wrapped, THIS, &path).is_none() {
        println!("skipped: this system lets the test mount no small drive");
    }
}

fn is_root() -> bool {
    let directory = tempfile::tempdir().unwrap();
    let file = directory.path().join("file");
    fs::write(&file, "x").unwrap();
    fs::set_permissions(&file, Permissions::from_mode(0o000)).unwrap();
    fs::read(&file).is_ok()
}

/// What a process without rights is told when it opens a register; nothing if it cannot run.
fn told_to_nobody(path: &Path) -> Option<String> {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command
        .args([
            "--exact",
            "no_room::without_rights_nothing_is_changed",
            "--nocapture",
        ])
        .env(CHILD_OPENS, path)
        .current_dir("/");
    if is_root() {
        command.uid(NOBODY).gid(NOBODY);
    }
    let Ok(output) = command.output() else {
        return None;
    };
    let text = String::from_utf8(output.stdout).unwrap();
    let (_, told) = text.split_once("told: ").expect("the child says something");
    let (told, _) = told.split_once('\n').unwrap();
    Some(told.to_owned())
}

#[test]
fn without_rights_nothing_is_changed() {
    if let Some(path) = std::env::var_os(CHILD_OPENS) {
        let path = PathBuf::from(path);
        match Register::open(&path)
            .and_then(|mut register| register.import([&aimed_at(0)], stamp()))
        {
            Ok(saved) => println!("told: saved {}", saved.len()),
            Err(error) => println!("told: {}", error.show(Words::ENGLISH)),
        }
        return;
    }
    let directory = tempfile::tempdir().unwrap();
    fs::set_permissions(directory.path(), Permissions::from_mode(0o755)).unwrap();
    let path = filled(directory.path());
    let before = fs::read(&path).unwrap();
    let allow = |directory_mode: u32, file_mode: u32| {
        fs::set_permissions(&path, Permissions::from_mode(file_mode)).unwrap();
        fs::set_permissions(directory.path(), Permissions::from_mode(directory_mode)).unwrap();
    };
    let read_only = format!(
        "the register cannot be written; nothing was changed; see to the rights of the file and of \
         its directory, and that the drive is not read-only: {}",
        path.display()
    );
    let no_access = format!(
        "the register cannot be opened (unable to open database file: {0}); see to the rights of \
         the file and of its directory: {0}",
        path.display()
    );

    allow(0o555, 0o444);
    let Some(told) = told_to_nobody(&path) else {
        println!("skipped: a user without rights cannot run this test's program");
        return;
    };
    assert_eq!(told, read_only);
    allow(0o555, 0o000);
    assert_eq!(told_to_nobody(&path).unwrap(), no_access);
    // Where nothing is yet, nothing can be made.
    let absent = path.with_file_name("absent.sqlite3");
    let told = told_to_nobody(&absent).unwrap();
    assert_eq!(
        told,
        read_only.replace("register.sqlite3", "absent.sqlite3")
    );
    // The file is theirs, the directory is not: the journal beside it cannot be made.
    if is_root() {
        chown(&path, Some(NOBODY), Some(NOBODY)).unwrap();
    }
    allow(0o555, 0o600);
    assert_eq!(told_to_nobody(&path).unwrap(), read_only);
    assert_eq!(fs::read(&path).unwrap(), before);
    // With both rights it works, so the refusals were about them.
    allow(0o777, 0o600);
    assert_eq!(told_to_nobody(&path).unwrap(), "saved 1");
}
