//! What a sheet is set with: its paper, the clinic's own arrangement where it has one, and its words.

use std::path::Path;

use millrace_sheet::{Paper, Setting, Template};
use millrace_wording::{DecimalSign, Words};

use crate::failure::{Failure, read_text};

/// The file beside the register that holds a clinic's own arrangement.
pub(crate) const ARRANGEMENT: &str = "sheet.typ";

/// Paper, arrangement and words.
#[derive(Clone, Debug)]
pub(crate) struct Style {
    paper: Paper,
    template: Template,
    pub(crate) words: Words,
}

impl Style {
    pub(crate) fn shipped(paper: Paper, words: Words) -> Self {
        Self {
            paper,
            template: Template::shipped(),
            words,
        }
    }

    /// By the arrangement in this file.
    pub(crate) fn of_file(file: &Path, paper: Paper, words: Words) -> Result<Self, Failure> {
        Ok(Self {
            paper,
            template: Template::with_arrangement(read_text(file)?),
            words,
        })
    }

    /// By the clinic's arrangement beside its register, or the shipped one where none stands there.
    ///
    /// # Errors
    ///
    /// As [`Self::of_file`]: one that stands there and cannot be read is not passed over.
    pub(crate) fn beside(directory: &Path, paper: Paper, words: Words) -> Result<Self, Failure> {
        let file = directory.join(ARRANGEMENT);
        match file.symlink_metadata() {
            Ok(_) => Self::of_file(&file, paper, words),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                Ok(Self::shipped(paper, words))
            }
            Err(error) => Err(Failure::Read { path: file, error }),
        }
    }

    /// A sheet has the point on every desk: one signed plan is printed with one set of numbers.
    pub(crate) const fn setting(&self) -> Setting<'_> {
        Setting {
            paper: self.paper,
            template: &self.template,
            words: Words {
                language: self.words.language,
                decimals: DecimalSign::Point,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_keeps_the_point_whatever_the_desk_writes() {
        let words = Words {
            decimals: DecimalSign::Comma,
            ..Words::PSEUDO
        };
        let style = Style::shipped(Paper::A4, words);
        assert_eq!(style.setting().words, Words::PSEUDO);
    }

    /// That it is used: `a_clinics_own_arrangement_is_used_or_the_sheet_refused`.
    #[test]
    fn what_stands_beside_the_register_and_cannot_be_read_is_not_passed_over() {
        let directory = tempfile::tempdir().unwrap();
        assert!(Style::beside(directory.path(), Paper::A4, Words::ENGLISH).is_ok());
        let file = directory.path().join(ARRANGEMENT);
        std::fs::write(&file, [0xff, 0xfe, 0x00]).unwrap();
        assert!(matches!(
            Style::beside(directory.path(), Paper::A4, Words::ENGLISH),
            Err(Failure::NotText { .. })
        ));
        std::fs::remove_file(&file).unwrap();
        std::fs::create_dir(&file).unwrap();
        assert!(matches!(
            Style::beside(directory.path(), Paper::A4, Words::ENGLISH),
            Err(Failure::Read { .. })
        ));
    }
}
