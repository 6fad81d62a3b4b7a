//! What stands beside the register: lens records, limits, and how a person likes the desk. Each in a
//! file of its own, written whole or not at all.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::{fs, io};

use millrace_core::case_file;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_desk::settings::{Decimals, Settings, TextSize, ThemeChoice};
use serde::{Deserialize, Serialize};

const LENSES: &str = "lenses.ron";
const LIMITS: &str = "limits.ron";
const SETTINGS: &str = "settings.ron";

/// The directory they stand in.
pub(super) struct Kept {
    directory: PathBuf,
}

/// How a person likes the desk. A surgeon's own ways of planning are not stored yet.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Liked {
    author: String,
    theme: Theme,
    text_percent: u16,
    decimals: Sign,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Theme {
    System,
    Light,
    Dark,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Sign {
    Point,
    Comma,
}

impl Kept {
    /// Beside this register.
    pub(super) fn beside(register: &Path) -> Self {
        let directory = register.parent().unwrap_or_else(|| Path::new("."));
        Self {
            directory: directory.to_owned(),
        }
    }

    /// The clinic's lens records; none where none were kept.
    ///
    /// # Errors
    ///
    /// What is wrong with the file, which stays as it is.
    pub(super) fn lenses(&self) -> Result<Vec<LensRecord>, String> {
        match self.read(LENSES)? {
            None => Ok(Vec::new()),
            Some(text) => {
                case_file::read_lenses(&text).map_err(|error| self.refused(LENSES, error))
            }
        }
    }

    /// The clinic's limits; the shipped ones where none were kept.
    ///
    /// # Errors
    ///
    /// As [`Self::lenses`].
    pub(super) fn limits(&self) -> Result<Limits, String> {
        match self.read(LIMITS)? {
            None => Ok(Limits::shipped().clone()),
            Some(text) => Limits::parse(&text).map_err(|error| self.refused(LIMITS, error)),
        }
    }

    /// How the person likes the desk.
    ///
    /// # Errors
    ///
    /// As [`Self::lenses`].
    pub(super) fn settings(&self) -> Result<Settings, String> {
        let Some(text) = self.read(SETTINGS)? else {
            return Ok(Settings::default());
        };
        let liked: Liked = ron::from_str(&text).map_err(|error| self.refused(SETTINGS, error))?;
        let text_size = TextSize::new(liked.text_percent).ok_or_else(|| {
            let problem = format!("text of {} % is outside 80 to 200 %", liked.text_percent);
            self.refused(SETTINGS, problem)
        })?;
        Ok(Settings {
            author: liked.author,
            theme: match liked.theme {
                Theme::System => ThemeChoice::System,
                Theme::Light => ThemeChoice::Light,
                Theme::Dark => ThemeChoice::Dark,
            },
            text_size,
            decimals: match liked.decimals {
                Sign::Point => Decimals::Point,
                Sign::Comma => Decimals::Comma,
            },
            ..Settings::default()
        })
    }

    /// Keeps lens records.
    ///
    /// # Errors
    ///
    /// Why they were not kept; what was kept before stands.
    pub(super) fn keep_lenses(&self, records: &[LensRecord]) -> Result<(), String> {
        let text = case_file::write_lenses(records).map_err(|error| error.to_string())?;
        self.write(LENSES, &text)
    }

    /// Keeps limits.
    ///
    /// # Errors
    ///
    /// As [`Self::keep_lenses`].
    pub(super) fn keep_limits(&self, limits: &Limits) -> Result<(), String> {
        self.write(LIMITS, &limits.write())
    }

    /// Keeps how the person likes the desk.
    ///
    /// # Errors
    ///
    /// As [`Self::keep_lenses`].
    pub(super) fn keep_settings(&self, settings: &Settings) -> Result<(), String> {
        let liked = Liked {
            author: settings.author.clone(),
            theme: match settings.theme {
                ThemeChoice::System => Theme::System,
                ThemeChoice::Light => Theme::Light,
                ThemeChoice::Dark => Theme::Dark,
            },
            text_percent: settings.text_size.percent(),
            decimals: match settings.decimals {
                Decimals::Point => Sign::Point,
                Decimals::Comma => Sign::Comma,
            },
        };
        let text = ron::ser::to_string_pretty(&liked, ron::ser::PrettyConfig::default())
            .map_err(|error| error.to_string())?;
        self.write(SETTINGS, &text)
    }

    fn refused(&self, name: &str, problem: impl core::fmt::Display) -> String {
        format!(
            "{} was not read: {problem}",
            self.directory.join(name).display()
        )
    }

    fn read(&self, name: &str) -> Result<Option<String>, String> {
        match fs::read_to_string(self.directory.join(name)) {
            Ok(text) => Ok(Some(text)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(self.refused(name, error)),
        }
    }

    /// Into a file beside it first, so that an interruption leaves the old one whole.
    fn write(&self, name: &str, text: &str) -> Result<(), String> {
        let path = self.directory.join(name);
        let write = || {
            let mut file = tempfile::NamedTempFile::new_in(&self.directory)?;
            file.write_all(text.as_bytes())?;
            file.as_file().sync_all()?;
            file.persist(&path).map_err(|error| error.error)?;
            Ok::<_, io::Error>(())
        };
        write().map_err(|error| format!("{} was not kept: {error}", path.display()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_comes_back() {
        let directory = tempfile::tempdir().unwrap();
        let kept = Kept::beside(&directory.path().join("register.sqlite3"));
        assert_eq!(kept.settings().unwrap(), Settings::default());
        assert!(kept.lenses().unwrap().is_empty());
        assert_eq!(&kept.limits().unwrap(), Limits::shipped());
        let settings = Settings {
            author: "A. Okafor".to_owned(),
            theme: ThemeChoice::Dark,
            text_size: TextSize::new(150).unwrap(),
            decimals: Decimals::Comma,
            ..Settings::default()
        };
        kept.keep_settings(&settings).unwrap();
        let limits = Limits::shipped().with("chamber_depth", "2.60 mm").unwrap();
        kept.keep_limits(&limits).unwrap();
        let lenses = super::super::demo::lenses().unwrap();
        kept.keep_lenses(&lenses).unwrap();
        assert_eq!(kept.settings().unwrap(), settings);
        assert_eq!(kept.limits().unwrap(), limits);
        assert_eq!(kept.lenses().unwrap(), lenses);
    }

    #[test]
    fn a_damaged_file_is_named_and_left_as_it_is() {
        let directory = tempfile::tempdir().unwrap();
        let kept = Kept::beside(&directory.path().join("register.sqlite3"));
        for name in [LENSES, LIMITS, SETTINGS] {
            fs::write(directory.path().join(name), "(half").unwrap();
        }
        for refused in [
            kept.lenses().err(),
            kept.limits().err(),
            kept.settings().err(),
        ] {
            assert!(refused.unwrap().contains("was not read"));
        }
        let left = fs::read_to_string(directory.path().join(LENSES)).unwrap();
        assert_eq!(left, "(half");
    }
}
