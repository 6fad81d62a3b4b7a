//! What lies outside of the register: what could not be saved, and how far the register has come.

use std::path::PathBuf;

use millrace_core::case_file;
use millrace_desk::exchange::{Answer, CaseId, SaveRequest};
use millrace_register::{Clock, ReadOnly};
use millrace_wording::{command_line, window as say};

use super::register_store::RegisterStore;
use crate::clock;
use crate::output::{Over, write_file};
use crate::system::private_directory;

impl RegisterStore {
    /// Writes what could not be saved to a case file of its own, which can be opened as one; where that fails
    /// too, what was typed stays in the window alone.
    pub(super) fn keep_aside(&self, save: &SaveRequest) -> Option<PathBuf> {
        let folder = self.outside.aside()?;
        let text = case_file::write(&save.draft).ok()?;
        private_directory().create(&folder).ok()?;
        // Each try takes the place of the one before.
        let path = folder.join(format!("{}.ron", save.case.0));
        write_file(&path, Over::Replace, &[], text.as_bytes()).ok()?;
        Some(path)
    }

    /// Keeps a draft that is not saved before somebody chooses; tells where it is not kept.
    pub(super) fn only_aside(&self, save: &SaveRequest) -> Vec<Answer> {
        let is_kept = self.is_thrown_away() || self.keep_aside(save).is_some();
        let message = say::not_kept_aside(self.words).to_owned();
        let told = (!is_kept).then_some(Answer::Failed { message });
        told.into_iter().collect()
    }

    /// Tells of what was kept aside of a case that is opened, and is in no revision.
    pub(super) fn told_of_aside(&self, case: &CaseId) -> Option<Answer> {
        let path = self.outside.aside()?.join(format!("{}.ron", case.0));
        path.is_file().then(|| Answer::Failed {
            message: say::is_kept_aside(self.words, path.display().to_string()),
        })
    }

    /// Takes away what was kept aside of a case that is saved now.
    pub(super) fn nothing_aside(&self, case: &CaseId) {
        if let Some(folder) = self.outside.aside() {
            // Mostly nothing is there.
            let _ = std::fs::remove_file(folder.join(format!("{}.ron", case.0)));
        }
    }

    /// What a person is to know of the register from the start.
    pub(super) fn at_opening(&self) -> Vec<String> {
        let words = self.words;
        let read_only = self.register.read_only().map(|why| match why {
            ReadOnly::Rights => say::only_read(words).to_owned(),
            ReadOnly::Full => say::only_read_full(words).to_owned(),
        });
        let now = clock::now();
        let behind = match self.register.clock(now) {
            Ok(Clock::Behind { last }) => Some(command_line::clock_behind(words, now, last)),
            // What is wrong with the register is told by what comes next.
            Ok(Clock::Plausible) | Err(_) => None,
        };
        let forgotten = self.remembered();
        [read_only, behind, forgotten]
            .into_iter()
            .flatten()
            .collect()
    }

    /// Remembers outside of the register how far it has come; tells why not.
    pub(super) fn remembered(&self) -> Option<String> {
        let problem = self.outside.remember(&self.register).err()?;
        Some(say::head_not_remembered(self.words, problem))
    }
}
