//! What `millrace tabulate` does to files: the output appears whole or not at all, and the input
//! stays.

use std::fs;
use std::path::Path;

use crate::support::millrace_in;

const HEADER: &str = "eye_id,axial_length_mm,k1_mm,k2_mm,a_constant,target_d,lens_power_d";
const GOOD: &str = "23.5,7.7,7.7,118.7,0,20.5";

#[test]
fn an_output_file_appears_whole_and_never_over_its_input() {
    let directory = tempfile::tempdir().expect("a directory");
    let write =
        |name: &str, text: &str| fs::write(directory.path().join(name), text).expect("written");
    let read = |name: &str| fs::read_to_string(directory.path().join(name)).expect("there");
    write("eyes.csv", &format!("{HEADER}\ne,{GOOD}\n"));
    let run = millrace_in(directory.path(), &["tabulate", "eyes.csv", "-o", "out.csv"]);
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    assert_eq!(read("out.csv").lines().count(), 6);

    let over = millrace_in(
        directory.path(),
        &["tabulate", "eyes.csv", "-o", "./eyes.csv"],
    );
    assert_eq!(over.code, 2);
    assert_eq!(
        over.err,
        "millrace: the output would overwrite the input: ./eyes.csv\n"
    );
    assert!(read("eyes.csv").starts_with(HEADER));

    // A refused header leaves an earlier result as it was.
    write("wrong.csv", "nonsense\n");
    let refused = millrace_in(
        directory.path(),
        &["tabulate", "wrong.csv", "-o", "out.csv"],
    );
    assert_eq!(refused.code, 2);
    assert_eq!(read("out.csv").lines().count(), 6);
    let left: Vec<_> = fs::read_dir(directory.path()).expect("reads").collect();
    assert_eq!(left.len(), 3, "no temporary file stays");

    let nowhere = millrace_in(
        directory.path(),
        &["tabulate", "eyes.csv", "-o", "no/such/out.csv"],
    );
    assert_eq!(nowhere.code, 2);
    assert!(
        nowhere.err.starts_with("millrace: cannot write: "),
        "{}",
        nowhere.err
    );
    if Path::new("/dev/null").exists() {
        let device = millrace_in(
            directory.path(),
            &["tabulate", "eyes.csv", "-o", "/dev/null"],
        );
        assert_eq!(device.code, 0, "{}", device.err);
        assert!(
            !Path::new("/dev/null").is_file(),
            "a device is written, not replaced"
        );
    }
}

/// A run that is killed half way leaves an earlier result as it was.
#[cfg(unix)]
#[test]
fn a_killed_run_leaves_the_earlier_result() {
    use std::io::Write as _;
    use std::process::{Command, Stdio};

    let directory = tempfile::tempdir().expect("a directory");
    let out = directory.path().join("out.csv");
    fs::write(&out, "earlier").expect("written");
    let mut run = Command::new(env!("CARGO_BIN_EXE_millrace"))
        .args(["tabulate", "-", "-o", "out.csv"])
        .current_dir(directory.path())
        .stdin(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // Its input stays open, so it is in the middle of its work whenever the signal comes.
    let input = run.stdin.as_mut().expect("a pipe");
    writeln!(input, "{HEADER}").expect("the program reads");
    for number in 0..5_000 {
        writeln!(input, "eye-{number},{GOOD}").expect("the program reads");
    }
    run.kill().expect("it runs");
    run.wait().expect("it ends");
    assert_eq!(fs::read_to_string(&out).expect("still there"), "earlier");
}

#[cfg(unix)]
#[test]
fn standard_input_is_not_overwritten() {
    use std::process::{Command, Stdio};

    let directory = tempfile::tempdir().expect("a directory");
    let path = directory.path().join("eyes.csv");
    fs::write(&path, format!("{HEADER}\ne,{GOOD}\n")).expect("written");
    let output = Command::new(env!("CARGO_BIN_EXE_millrace"))
        .args(["tabulate", "-", "-o", "eyes.csv"])
        .current_dir(directory.path())
        .stdin(Stdio::from(fs::File::open(&path).expect("there")))
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(2));
    assert!(
        fs::read_to_string(&path)
            .expect("there")
            .starts_with(HEADER)
    );
}

#[cfg(unix)]
#[test]
fn an_output_link_stays_a_link() {
    let directory = tempfile::tempdir().expect("a directory");
    let at = |name: &str| directory.path().join(name);
    fs::write(at("eyes.csv"), format!("{HEADER}\ne,{GOOD}\n")).expect("written");
    fs::write(at("target.csv"), "earlier").expect("written");
    std::os::unix::fs::symlink("target.csv", at("link.csv")).expect("linked");
    let run = millrace_in(
        directory.path(),
        &["tabulate", "eyes.csv", "-o", "link.csv"],
    );
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(at("link.csv").is_symlink());
    assert_eq!(
        fs::read_to_string(at("target.csv"))
            .expect("there")
            .lines()
            .count(),
        6
    );
}
