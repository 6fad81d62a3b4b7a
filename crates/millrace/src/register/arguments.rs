//! What `millrace register` accepts.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use millrace_core::quantity::HundredthDiopters;

use crate::cli::Format;

#[derive(Args)]
pub(crate) struct RegisterArguments {
    #[command(subcommand)]
    pub(crate) command: RegisterCommand,
}

#[derive(Subcommand)]
pub(crate) enum RegisterCommand {
    /// Lists cases by planned day and name, those without a day last.
    List(ListArguments),
    /// Saves case files as new cases, all of them or none.
    ///
    /// Prints case and revision once they are on the drive. A file that is refused is named, and then
    /// none is saved. With --case and --revision one file is saved as the next revision of a case.
    Import(ImportArguments),
    /// Writes a case as a case file.
    Export(ExportArguments),
    /// Lists every saved change of a case.
    History(HistoryArguments),
    /// Signs a case as it stands: freezes it with everything computed from it as a numbered sheet.
    ///
    /// The consented target is entered again and must be the target of the plan. Every finding that
    /// forbids signing and every Review finding without a reason is named, and then nothing is signed.
    Sign(SignArguments),
    /// Reads the whole register: structure, hashes, every case and signed plan, list and search.
    ///
    /// Exit status: 0 everything is as it was saved; 1 something is not, or the register was set back or is
    /// another than the head says; 2 it could not be checked.
    Check(CheckArguments),
    /// Copies the register to a new file while it is in use.
    Backup {
        /// File to write; one that exists is not overwritten.
        file: PathBuf,
    },
    /// Puts a copy of a backup in the place of the register.
    ///
    /// What stands there is moved away, together with its journal, under names that are told. Refused while
    /// a program has the register open, or if the backup is not sound.
    Restore {
        /// The backup; it stays as it is.
        backup: PathBuf,
    },
    /// Takes the register as it is, though it does not hold what it held when this computer saw it last.
    ///
    /// After a restore, or whenever you know why: every other command refuses such a register. Tells where
    /// it stands now, and where it stood then.
    Accept,
    /// Writes a new register from what was saved and signed in this one, with list, search and indexes
    /// made anew.
    ///
    /// For a register whose check finds only these damaged. This one is left as it is; if a revision or
    /// a sheet itself is damaged, it is named and nothing is written.
    Repair {
        /// File to write; one that exists is not overwritten.
        file: PathBuf,
    },
}

#[derive(Args)]
pub(crate) struct ListArguments {
    /// Only cases with words in name or number that begin so.
    #[arg(long, value_name = "TEXT")]
    pub(crate) search: Option<String>,
    /// Those that are set aside, instead of those that are planned; a search finds both.
    #[arg(long, conflicts_with = "search")]
    pub(crate) set_aside: bool,
    /// How the list is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Columns of text to print in, instead of the width of the terminal.
    #[arg(long, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(72..=400))]
    pub(crate) width: Option<u16>,
}

#[derive(Args)]
pub(crate) struct ImportArguments {
    /// Case files (RON).
    #[arg(required = true, value_name = "FILE")]
    pub(crate) files: Vec<PathBuf>,
    /// Who imports them, instead of the name of your account.
    #[arg(long, value_name = "NAME")]
    pub(crate) who: Option<String>,
    /// The case the file is a further revision of: the beginning of its name, or the hospital number.
    #[arg(long, requires = "revision")]
    pub(crate) case: Option<String>,
    /// The revision the file was made from; if the case has a later one, nothing is saved.
    #[arg(long, value_name = "NUMBER", requires = "case")]
    pub(crate) revision: Option<u32>,
    /// How the outcome is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Args)]
pub(crate) struct ExportArguments {
    /// The beginning of the case's name, or the hospital number.
    pub(crate) case: String,
    /// An earlier revision instead of the newest.
    #[arg(long, value_name = "NUMBER")]
    pub(crate) revision: Option<u32>,
    /// File to write instead of standard output.
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
    /// Replaces the file if it exists.
    #[arg(long, requires = "output")]
    pub(crate) force: bool,
}

#[derive(Args)]
pub(crate) struct HistoryArguments {
    /// The beginning of the case's name, or the hospital number.
    pub(crate) case: String,
    /// How the history is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Columns of text to print in, instead of the width of the terminal.
    #[arg(long, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(72..=400))]
    pub(crate) width: Option<u16>,
}

#[derive(Args)]
pub(crate) struct SignArguments {
    /// The beginning of the case's name, or the hospital number.
    pub(crate) case: String,
    /// Who signs.
    #[arg(long = "as", value_name = "NAME")]
    pub(crate) name: String,
    /// As what, as in "consultant surgeon".
    #[arg(long)]
    pub(crate) role: String,
    /// The target the patient consented to, read from the consent once more, with its sign.
    #[arg(
        long,
        value_name = "DIOPTERS",
        allow_hyphen_values = true,
        value_parser = super::sign::target
    )]
    pub(crate) target: HundredthDiopters,
    /// The revision that was read; if the case has a later one, nothing is signed.
    #[arg(long, value_name = "NUMBER")]
    pub(crate) revision: Option<u32>,
    /// Limits of your own; the sheet names those that differ from the shipped ones.
    #[arg(long, value_name = "FILE")]
    pub(crate) limits: Option<PathBuf>,
    /// How the outcome is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Args)]
pub(crate) struct CheckArguments {
    /// A head that was written down, as an earlier check told it: whether the register still holds
    /// everything it held then.
    #[arg(long, value_name = "HEAD")]
    pub(crate) head: Option<String>,
    /// How the outcome is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}
