//! What stands beside the register: lens records, limits, and how a person likes the desk. Each in a
//! file of its own, written whole or not at all.

mod last;
mod liked;

use std::io;
use std::path::{Path, PathBuf};

use millrace_core::case_file;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_desk::settings::Settings;
use millrace_wording::{Show, Words, limits, window as say};
use serde::Serialize;

use super::register_store::plain;
use crate::failure::{Failure, read_text};
use crate::output::{Over, write_file};

pub(super) use self::last::Last;
use self::last::Stored;
use self::liked::Liked;

const LENSES: &str = "lenses.ron";
const LIMITS: &str = "limits.ron";
const SETTINGS: &str = "settings.ron";
const LAST: &str = "last.ron";

/// The directory they stand in.
pub(crate) struct Kept {
    directory: PathBuf,
}

impl Kept {
    pub(crate) fn beside(register: &Path) -> Self {
        let directory = register.parent().unwrap_or_else(|| Path::new("."));
        Self {
            directory: directory.to_owned(),
        }
    }

    /// The clinic's lens records; none where none were kept.
    pub(crate) fn lenses(&self, words: Words) -> Result<Vec<LensRecord>, String> {
        match self.read(LENSES, words)? {
            None => Ok(Vec::new()),
            Some(text) => {
                case_file::read_lenses(&text).map_err(|error| self.refused(LENSES, error, words))
            }
        }
    }

    /// Where they stand.
    pub(crate) fn lenses_file(&self) -> PathBuf {
        self.directory.join(LENSES)
    }

    /// The clinic's limits; the shipped ones where none were kept.
    pub(super) fn limits(&self, words: Words) -> Result<Limits, String> {
        match self.read(LIMITS, words)? {
            None => Ok(Limits::shipped().clone()),
            Some(text) => Limits::parse(&text)
                .map_err(|error| self.refused(LIMITS, limits::in_file(words, &error), words)),
        }
    }

    /// How the person likes the desk.
    pub(super) fn settings(&self, words: Words) -> Result<Settings, String> {
        let Some(text) = self.read(SETTINGS, words)? else {
            return Ok(Settings::default());
        };
        let refused = |problem| self.refused(SETTINGS, problem, words);
        let liked: Liked = ron::from_str(&text).map_err(|error| refused(error.to_string()))?;
        liked.into_settings(words).map_err(refused)
    }

    /// What the next window comes back to; nothing where none was closed, or where it cannot be
    /// read: nobody's work depends on it.
    pub(super) fn last(&self) -> Last {
        let text = self.read(LAST, Words::ENGLISH).ok().flatten();
        let stored: Option<Stored> = text.and_then(|text| ron::from_str(&text).ok());
        let last = stored.and_then(Stored::into_last);
        last.unwrap_or_default()
    }

    /// Keeps lens records.
    ///
    /// # Errors
    ///
    /// Why they were not kept; what was kept before stands.
    pub(crate) fn keep_lenses(&self, records: &[LensRecord], words: Words) -> Result<(), String> {
        let text = case_file::write_lenses(records).map_err(plain(words))?;
        self.write(LENSES, &text, words)
    }

    pub(super) fn keep_limits(&self, limits: &Limits, words: Words) -> Result<(), String> {
        self.write(LIMITS, &limits.write(), words)
    }

    /// Keeps how the person likes the desk.
    pub(super) fn keep_settings(&self, settings: &Settings, words: Words) -> Result<(), String> {
        self.write(SETTINGS, &pretty(&Liked::from_settings(settings))?, words)
    }

    /// Keeps what the next window comes back to.
    pub(super) fn keep_last(&self, last: &Last, words: Words) -> Result<(), String> {
        self.write(LAST, &pretty(&Stored::from_last(last))?, words)
    }

    fn refused(&self, name: &str, problem: impl Show, words: Words) -> String {
        let path = self.directory.join(name);
        say::not_read(words, path.display().to_string(), problem)
    }

    fn read(&self, name: &str, words: Words) -> Result<Option<String>, String> {
        match read_text(&self.directory.join(name)) {
            Ok(text) => Ok(Some(text)),
            Err(Failure::Read { error, .. }) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(Failure::Read { error, .. }) => Err(self.refused(name, error.to_string(), words)),
            Err(failure) => Err(self.refused(name, failure, words)),
        }
    }

    /// Wholly or not at all.
    fn write(&self, name: &str, text: &str, words: Words) -> Result<(), String> {
        let path = self.directory.join(name);
        write_file(&path, Over::Replace, &[], text.as_bytes()).map_err(|failure| {
            let problem = match failure {
                Failure::Write { error, .. } => error.to_string(),
                other => other.show(words).into_owned(),
            };
            say::not_kept(words, path.display().to_string(), problem)
        })
    }
}

fn pretty(value: &impl Serialize) -> Result<String, String> {
    ron::ser::to_string_pretty(value, ron::ser::PrettyConfig::default())
        .map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use std::fs;

    use millrace_core::astigmatism::IncisionEffect;
    use millrace_core::iol_power::Formula;
    use millrace_core::iol_power::ladder::Convention;
    use millrace_core::quantity::HundredthDiopters;
    use millrace_desk::exchange::CaseId;
    use millrace_desk::settings::{OwnWays, PaperSize, TextSize, ThemeChoice, UsualLens};
    use millrace_desk::whereabouts::{Page, Whereabouts};
    use millrace_wording::{DecimalSign, Words};

    use super::*;

    #[test]
    fn what_is_kept_comes_back() {
        let directory = tempfile::tempdir().unwrap();
        let kept = Kept::beside(&directory.path().join("register.sqlite3"));
        assert_eq!(kept.settings(Words::ENGLISH).unwrap(), Settings::default());
        assert!(kept.lenses(Words::ENGLISH).unwrap().is_empty());
        assert_eq!(&kept.limits(Words::ENGLISH).unwrap(), Limits::shipped());
        let settings = Settings {
            author: "A. Okafor".to_owned(),
            desk: "consulting room".to_owned(),
            role: "surgeon".to_owned(),
            theme: ThemeChoice::Dark,
            text_size: TextSize::new(150).unwrap(),
            words: Words {
                decimals: DecimalSign::Comma,
                ..Words::PSEUDO
            },
            paper: PaperSize::Letter,
            own: OwnWays {
                formulas: vec![Formula::Haigis, Formula::T2],
                planned_by: Some(Formula::T2),
                lens: Some(UsualLens {
                    name: "Weir one-piece".to_owned(),
                    model: "Weir Q".to_owned(),
                }),
                convention: Some(Convention::Nearest),
                phaco_incision: IncisionEffect::new(
                    HundredthDiopters::new(25),
                    HundredthDiopters::new(40),
                    60,
                    "2026-10-01".parse().ok(),
                )
                .ok(),
                small_incision: None,
            },
        };
        assert!(settings.own.phaco_incision.is_some());
        kept.keep_settings(&settings, Words::ENGLISH).unwrap();
        let limits = Limits::shipped().with("chamber_depth", "2.60 mm").unwrap();
        kept.keep_limits(&limits, Words::ENGLISH).unwrap();
        let lenses = super::super::demo::lenses().unwrap();
        kept.keep_lenses(&lenses, Words::ENGLISH).unwrap();
        assert_eq!(kept.settings(Words::ENGLISH).unwrap(), settings);
        assert_eq!(kept.limits(Words::ENGLISH).unwrap(), limits);
        assert_eq!(kept.lenses(Words::ENGLISH).unwrap(), lenses);
    }

    #[test]
    fn a_window_comes_back_to_page_and_case() {
        let directory = tempfile::tempdir().unwrap();
        let kept = Kept::beside(&directory.path().join("register.sqlite3"));
        assert_eq!(kept.last(), Last::default());
        let last = Last {
            whereabouts: Whereabouts {
                page: Page::Approach,
                case: Some(CaseId("7".to_owned())),
            },
            size: Some([1300.0, 900.0]),
        };
        kept.keep_last(&last, Words::ENGLISH).unwrap();
        assert_eq!(kept.last(), last);
        fs::write(directory.path().join(LAST), "(page: \"Nowhere\"").unwrap();
        assert_eq!(kept.last(), Last::default());
    }

    #[test]
    fn a_damaged_file_is_named_and_left_as_it_is() {
        let directory = tempfile::tempdir().unwrap();
        let kept = Kept::beside(&directory.path().join("register.sqlite3"));
        for name in [LENSES, LIMITS, SETTINGS] {
            fs::write(directory.path().join(name), "(half").unwrap();
        }
        for refused in [
            kept.lenses(Words::ENGLISH).err(),
            kept.limits(Words::ENGLISH).err(),
            kept.settings(Words::ENGLISH).err(),
        ] {
            assert!(refused.unwrap().contains("was not read"));
        }
        let left = fs::read_to_string(directory.path().join(LENSES)).unwrap();
        assert_eq!(left, "(half");
    }
}
