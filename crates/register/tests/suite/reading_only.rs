//! A register that cannot be written is read.

use std::fs::{self, Permissions};
use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::flips::{answers, small};
use crate::support::{aimed_at, check, stamp};
use millrace_register::{ReadOnly, Register};
use millrace_wording::{Show as _, Words};

/// Set for the child: the register it reads, and where a sound copy lies.
const CHILD: &str = "MILLRACE_READS";
const SOUND: &str = "MILLRACE_READS_AS";
/// A user without rights, on every system of the kind.
const NOBODY: u32 = 65_534;

fn beside(path: &Path, ending: &str) -> PathBuf {
    PathBuf::from(format!("{}{ending}", path.display()))
}

/// Reads everything, as it is in the sound copy, and tells why it cannot save.
fn read_everything(path: &Path) {
    let sound = PathBuf::from(std::env::var_os(SOUND).unwrap());
    let fingerprints: Vec<_> = {
        let register = look_at(&sound);
        (1..=3)
            .map(|number| {
                let number = millrace_core::signing::SheetNumber::new(number).unwrap();
                register.signed(number).unwrap().entry.fingerprint
            })
            .collect()
    };
    let truth = answers(&look_at(&sound), &fingerprints);
    assert!(truth.iter().all(|(_, answer)| answer.is_some()));
    let mut register = Register::open_existing(path).unwrap();
    assert_eq!(answers(&register, &fingerprints), truth);
    assert_eq!(check(&mut register).problems, []);
    let error = register.import([&aimed_at(0)], stamp()).unwrap_err();
    println!(
        "told: {:?} {}",
        register.read_only(),
        error.show(Words::ENGLISH)
    );
}

fn look_at(path: &Path) -> Register {
    Register::open_existing(path).unwrap()
}

/// What a child is told, in a mount table of its own that `prepare` changes; nothing where the system does
/// not let it.
fn told_in_mounts(prepare: &str, test: &str, register: &Path, sound: &Path) -> Option<String> {
    let script = format!("{{ {prepare}; }} || exit 77; exec \"$0\" --exact {test} --nocapture");
    let output = Command::new("unshare")
        .args(["-m", "sh", "-c", &script])
        .arg(std::env::current_exe().unwrap())
        .env(CHILD, register)
        .env(SOUND, sound)
        .output()
        .ok()?;
    told(&output)
}

fn told(output: &std::process::Output) -> Option<String> {
    let text = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    if output.status.code() == Some(77) || errors.contains("unshare failed") {
        return None;
    }
    assert!(output.status.success(), "{text}\n{errors}");
    let (_, told) = text.split_once("told: ").expect("the child says something");
    Some(told.split_once('\n').unwrap().0.to_owned())
}

/// Mounts the directory of a register read-only.
fn read_only(path: &Path) -> String {
    let directory = path.parent().unwrap().display();
    format!("mount --bind '{directory}' '{directory}' && mount -o remount,ro,bind '{directory}'")
}

/// A register, and the same with its last saves in a journal as a killed program leaves them.
fn closed_and_cut_off(directory: &Path) -> [PathBuf; 2] {
    let closed = directory.join("closed/register.sqlite3");
    let cut_off = directory.join("cut-off/register.sqlite3");
    for path in [&closed, &cut_off] {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
    }
    small(&closed);
    // Copied while another program has it open: what the small register holds is all in the journal.
    let elsewhere = directory.join("elsewhere.sqlite3");
    let held = Register::open(&elsewhere).unwrap();
    small(&elsewhere);
    assert_ne!(fs::metadata(beside(&elsewhere, "-wal")).unwrap().len(), 0);
    fs::copy(&elsewhere, &cut_off).unwrap();
    fs::copy(beside(&elsewhere, "-wal"), beside(&cut_off, "-wal")).unwrap();
    drop(held);
    [closed, cut_off]
}

#[test]
fn a_drive_that_cannot_be_written_is_read() {
    const THIS: &str = "reading_only::a_drive_that_cannot_be_written_is_read";
    if let Some(path) = std::env::var_os(CHILD) {
        return read_everything(Path::new(&path));
    }
    let directory = tempfile::tempdir().unwrap();
    let sound = directory.path().join("sound.sqlite3");
    small(&sound);
    let read_only = |path: &Path| {
        let directory = path.parent().unwrap().display();
        format!(
            "mount --bind '{directory}' '{directory}' && mount -o remount,ro,bind '{directory}'"
        )
    };
    for path in closed_and_cut_off(directory.path()) {
        let before = fs::read(&path).unwrap();
        let Some(told) = told_in_mounts(&read_only(&path), THIS, &path, &sound) else {
            println!("skipped: this system lets the test mount nothing read-only");
            return;
        };
        let words = "the register cannot be written; nothing was changed; ";
        assert!(told.starts_with(&format!("Some(Rights) {words}")), "{told}");
        assert_eq!(fs::read(&path).unwrap(), before);
    }
}

/// Not even the scratch file beside the register has room.
#[test]
fn a_full_drive_is_read() {
    const THIS: &str = "reading_only::a_full_drive_is_read";
    if let Some(path) = std::env::var_os(CHILD) {
        return read_everything(Path::new(&path));
    }
    let directory = tempfile::tempdir().unwrap();
    let sound = directory.path().join("sound.sqlite3");
    small(&sound);
    let drive = directory.path().join("drive");
    fs::create_dir(&drive).unwrap();
    for path in closed_and_cut_off(directory.path()) {
        let fill = format!(
            "mount -t tmpfs -o size=4m tmpfs '{drive}' && cp '{from}'/* '{drive}'/ && \
             {{ dd if=/dev/zero of='{drive}/ballast' bs=4096 2>/dev/null || true; }}",
            drive = drive.display(),
            from = path.parent().unwrap().display(),
        );
        let full = drive.join("register.sqlite3");
        let Some(told) = told_in_mounts(&fill, THIS, &full, &sound) else {
            println!("skipped: this system lets the test mount no small drive");
            return;
        };
        let words = "the drive is full or fails to write; nothing was saved; ";
        assert!(told.starts_with(&format!("Some(Full) {words}")), "{told}");
    }
}

#[test]
fn without_rights_it_is_read_and_nothing_is_changed() {
    const THIS: &str = "reading_only::without_rights_it_is_read_and_nothing_is_changed";
    if let Some(path) = std::env::var_os(CHILD) {
        return read_everything(Path::new(&path));
    }
    let directory = tempfile::tempdir().unwrap();
    let open = |path: &Path, mode| fs::set_permissions(path, Permissions::from_mode(mode)).unwrap();
    let sound = directory.path().join("sound/sound.sqlite3");
    fs::create_dir(sound.parent().unwrap()).unwrap();
    small(&sound);
    open(directory.path(), 0o755);
    open(sound.parent().unwrap(), 0o777);
    open(&sound, 0o666);
    for path in closed_and_cut_off(directory.path()) {
        let before = fs::read(&path).unwrap();
        for entry in fs::read_dir(path.parent().unwrap()).unwrap() {
            open(&entry.unwrap().path(), 0o444);
        }
        open(path.parent().unwrap(), 0o555);
        let mut command = Command::new(std::env::current_exe().unwrap());
        command
            .args(["--exact", THIS, "--nocapture"])
            .env(CHILD, &path)
            .env(SOUND, &sound)
            .uid(NOBODY)
            .gid(NOBODY)
            .current_dir("/");
        let Ok(output) = command.output() else {
            println!("skipped: a user without rights cannot run this test's program");
            return;
        };
        let told = told(&output).unwrap();
        assert!(
            told.starts_with("Some(Rights) the register cannot be written; "),
            "{told}"
        );
        assert_eq!(fs::read(&path).unwrap(), before);
    }
}

/// A register of an older schema is read, brought up in memory only.
#[test]
fn an_older_register_is_read_and_left_as_it_is() {
    const THIS: &str = "reading_only::an_older_register_is_read_and_left_as_it_is";
    if let Some(path) = std::env::var_os(CHILD) {
        let mut register = Register::open_existing(Path::new(&path)).unwrap();
        let cases = register
            .list(
                millrace_register::Cases::InUse,
                millrace_register::Window::ALL,
            )
            .unwrap()
            .len();
        assert_eq!(check(&mut register).problems, []);
        println!("told: {:?} {cases}", register.read_only());
        return;
    }
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let fixture = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/schema-1.sqlite3");
    fs::copy(fixture, &path).unwrap();
    let before = fs::read(&path).unwrap();
    let Some(told) = told_in_mounts(&read_only(&path), THIS, &path, &path) else {
        println!("skipped: this system lets the test mount nothing read-only");
        return;
    };
    assert_eq!(told, "Some(Rights) 2");
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(fs::read_dir(directory.path()).unwrap().count(), 1);
}

#[test]
fn what_can_be_written_is_not_only_read() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    small(&path);
    let mut register = Register::open(&path).unwrap();
    assert_eq!(register.read_only(), None::<ReadOnly>);
    register.import([&aimed_at(0)], stamp()).unwrap();
}
