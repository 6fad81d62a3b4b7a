//! `millrace register`: the cases of a clinic in one file.

mod accept;
mod arguments;
mod backup;
mod check;
mod export;
mod history;
mod import;
mod list;
mod repair;
mod restore;
mod sign;

use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

pub(crate) use arguments::RegisterArguments;
use arguments::RegisterCommand;
use chrono::{DateTime, Utc};
use directories::BaseDirs;
pub(crate) use import::account;
use indicatif::{ProgressBar, ProgressStyle};
use millrace_register::{Clock, Register, RegisterError};
use millrace_wording::{Words, command_line as say};
use serde::Serialize;

use crate::Around;
use crate::failure::Failure;
use crate::terminal::tell;

/// Program and version, as every revision and document names them.
pub(crate) const PROGRAM: &str = concat!("millrace ", env!("CARGO_PKG_VERSION"));

pub(crate) fn run(arguments: &RegisterArguments, around: &Around) -> Result<ExitCode, Failure> {
    let path = around.place.path()?;
    let words = around.words;
    match &arguments.command {
        RegisterCommand::List(list) => list::run(&path, list, words),
        RegisterCommand::Import(import) => import::run(&path, import, words),
        RegisterCommand::Export(export) => export::run(&path, export, words),
        RegisterCommand::History(history) => history::run(&path, history, words),
        RegisterCommand::Sign(sign) => sign::run(&path, sign, words),
        RegisterCommand::Check(check) => check::run(&path, check, words),
        RegisterCommand::Backup { file } => backup::run(&path, file, words),
        RegisterCommand::Restore { backup } => restore::run(&path, backup, words),
        RegisterCommand::Accept => accept::run(&path, words),
        RegisterCommand::Repair { file } => repair::run(&path, file, words),
    }
}

/// Where the register is: where somebody named it, or in the person's own directory for data, on this
/// computer.
pub(crate) struct Place(pub(crate) Option<PathBuf>);

impl Place {
    pub(crate) fn path(&self) -> Result<PathBuf, Failure> {
        if let Some(named) = &self.0 {
            return Ok(named.clone());
        }
        let directories = BaseDirs::new().ok_or(Failure::NoPlace)?;
        Ok(directories
            .data_local_dir()
            .join("millrace/register.sqlite3"))
    }
}

/// What every document begins with.
#[derive(Serialize)]
pub(crate) struct Head {
    format: &'static str,
    version: u32,
    program: &'static str,
    register: String,
}

impl Head {
    pub(crate) fn new(format: &'static str, register: &Path) -> Self {
        Self {
            format,
            version: 1,
            program: PROGRAM,
            register: register.display().to_string(),
        }
    }
}

pub(crate) fn json(document: &impl Serialize) -> Result<String, Failure> {
    let text = serde_json::to_string_pretty(document);
    let mut text = text.map_err(Failure::Json)?;
    text.push('\n');
    Ok(text)
}

/// Tells a person whose clock is behind what was saved or signed last. The times stay as they are, and the
/// order is that of the register.
fn tell_clock(register: &Register, now: DateTime<Utc>, words: Words) {
    // What is wrong with the register is told by what comes next.
    if let Ok(Clock::Behind { last }) = register.clock(now) {
        tell(say::clock_behind(words, now, last));
    }
}

/// Tells that how far the register has come was not remembered on this computer; what was saved is saved.
pub(crate) fn tell_if_forgotten(remembered: Result<(), RegisterError>, words: Words) {
    if let Err(problem) = remembered {
        tell(say::head_not_remembered(words, problem));
    }
}

/// A bar on a terminal, nothing elsewhere.
pub(crate) fn progress_bar(what: &'static str) -> ProgressBar {
    if !io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(0).with_message(what);
    match ProgressStyle::with_template("{wide_bar} {percent} %  {pos} of {len} {msg}") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}
