//! A test that runs itself as a child and kills it.

use std::io::{BufRead as _, BufReader};
use std::os::unix::process::ExitStatusExt as _;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

const SIGKILL: i32 = 9;

/// As many kills as the environment asks for.
pub(crate) fn asked_for(usual: u32) -> u32 {
    match std::env::var("MILLRACE_KILLS") {
        Ok(text) => text.parse().expect("MILLRACE_KILLS is a number"),
        Err(_) => usual,
    }
}

/// A random life of a child.
pub(crate) fn random_life(longest_ms: u32) -> Duration {
    let mut random = [0; 4];
    getrandom::fill(&mut random).unwrap();
    let life = u32::from_le_bytes(random) % (longest_ms * 1_000);
    Duration::from_micros(life.into())
}

/// Runs a test of this program as a child with a path in its environment, kills it after a while, and
/// returns what it acknowledged in lines that hold `word`: what stands behind it.
pub(crate) fn killed_after(
    test: &str,
    (variable, path): (&str, &Path),
    word: &'static str,
    life: Duration,
) -> Vec<String> {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", test, "--nocapture"])
        .env(variable, path)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let out = child.stdout.take().unwrap();
    let reader = std::thread::spawn(move || {
        // The last line may be cut off; only a whole one acknowledges. The harness may have begun the
        // first.
        let mut acknowledged = Vec::new();
        let mut reader = BufReader::new(out);
        let mut line = String::new();
        while 0 < reader.read_line(&mut line).unwrap() {
            if let Some((_, said)) = line.split_once(word)
                && let Some(said) = said.strip_suffix('\n')
            {
                acknowledged.push(said.to_owned());
            }
            line.clear();
        }
        acknowledged
    });
    std::thread::sleep(life);
    child.kill().unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!(
        output.status.signal(),
        Some(SIGKILL),
        "the child ended by itself: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    reader.join().unwrap()
}
