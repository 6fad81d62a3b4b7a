//! Where a register of a test lies.

use std::path::PathBuf;
use std::process::Command;

use serde_json::Value;

use crate::support::{Run, root};

/// A directory for data of its own for every run, so that no test reaches the register of whoever
/// runs it.
pub(crate) struct Place(pub(crate) tempfile::TempDir);

impl Place {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// The register where nobody names one.
    pub(crate) fn usual(&self) -> PathBuf {
        self.path("data/millrace/register.sqlite3")
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Run {
        self.run_as(Some("okafor"), arguments)
    }

    pub(crate) fn run_as(&self, user: Option<&str>, arguments: &[&str]) -> Run {
        self.millrace(user, &[&["register"], arguments].concat())
    }

    /// Any command, by a person of this name or by nobody.
    pub(crate) fn millrace(&self, user: Option<&str>, arguments: &[&str]) -> Run {
        told(&mut self.command(user, arguments))
    }

    /// The desk, where no display is.
    #[cfg(target_os = "linux")]
    pub(crate) fn desk_without_display(&self) -> Run {
        let mut command = self.command(Some("okafor"), &[]);
        for name in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
            command.env_remove(name);
        }
        told(&mut command)
    }

    /// Any command whose answer goes where no room is.
    #[cfg(target_os = "linux")]
    pub(crate) fn with_no_room(&self, arguments: &[&str]) -> Run {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full");
        told(
            self.command(Some("okafor"), arguments)
                .stdout(full.unwrap()),
        )
    }

    fn command(&self, user: Option<&str>, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_millrace"));
        command
            .args(arguments)
            .current_dir(self.0.path())
            .env("HOME", self.0.path())
            .env("XDG_DATA_HOME", self.path("data"))
            .env_remove("XDG_STATE_HOME")
            .env_remove("CLICOLOR_FORCE");
        for name in ["USER", "LOGNAME", "USERNAME"] {
            command.env_remove(name);
        }
        if let Some(user) = user {
            command.env("USER", user);
        }
        command
    }

    pub(crate) fn json(&self, arguments: &[&str]) -> Value {
        let run = self.run(arguments);
        assert_eq!((run.code, &*run.err), (0, ""), "{arguments:?}");
        serde_json::from_str(&run.out).unwrap()
    }

    /// Imports demo cases and returns their names in the register.
    pub(crate) fn import(&self, names: &[&str]) -> Vec<String> {
        let files: Vec<_> = names.iter().map(|name| demo(name)).collect();
        let mut arguments = vec!["import", "--format", "json"];
        arguments.extend(files.iter().map(|file| file.to_str().unwrap()));
        let document = self.json(&arguments);
        let cases = document["cases"].as_array().unwrap();
        cases
            .iter()
            .map(|case| case["case"].as_str().unwrap().to_owned())
            .collect()
    }
}

fn told(command: &mut Command) -> Run {
    let output = command.output().expect("the program starts");
    Run {
        code: output.status.code().expect("no signal"),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

pub(crate) fn demo(name: &str) -> PathBuf {
    root()
        .join(format!("demo-data/cases/{name}.ron"))
        .canonicalize()
        .unwrap()
}
