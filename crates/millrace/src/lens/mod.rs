//! `millrace lens`: the clinic's lens records, beside the register, from and to a file.

pub(crate) mod import;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Args, Subcommand};
use millrace_core::case_file;

use crate::Around;
use crate::failure::Failure;
use crate::output::{Over, write_file};
use crate::terminal::print;
use crate::window::Kept;

#[derive(Args)]
pub(crate) struct LensArguments {
    #[command(subcommand)]
    command: LensCommand,
}

#[derive(Subcommand)]
enum LensCommand {
    /// Adds the lens records of files to those beside the register, all of them or none.
    ///
    /// A record is known by its name in the clinic. One that is there already and is the same stays; one that
    /// is another is named, and then nothing is imported, unless it is to be replaced. A file that is
    /// refused is told with line, column and field.
    Import(ImportArguments),
    /// Writes the lens records beside the register as a file.
    Export(ExportArguments),
}

#[derive(Args)]
struct ImportArguments {
    /// Files of lens records (RON).
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
    /// Replaces records of the same name.
    #[arg(long)]
    replace: bool,
}

#[derive(Args)]
struct ExportArguments {
    /// File to write instead of standard output.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replaces the file if it exists.
    #[arg(long, requires = "output")]
    force: bool,
}

pub(crate) fn run(arguments: &LensArguments, around: &Around) -> Result<ExitCode, Failure> {
    let register = around.place.path()?;
    match &arguments.command {
        LensCommand::Import(arguments) => import::run(&register, arguments, around.words),
        LensCommand::Export(arguments) => export(&register, arguments, around),
    }
}

fn export(
    register: &Path,
    arguments: &ExportArguments,
    around: &Around,
) -> Result<ExitCode, Failure> {
    let kept = Kept::beside(register);
    let records = kept.lenses(around.words).map_err(Failure::LensRecords)?;
    if records.is_empty() {
        return Err(Failure::NoLensRecords {
            path: kept.lenses_file(),
        });
    }
    let text = case_file::write_lenses(&records).map_err(|error| Failure::LensFile {
        path: kept.lenses_file(),
        error: Box::new(error),
    })?;
    match &arguments.output {
        None => print(&text)?,
        Some(file) => {
            let over = Over::from(arguments.force);
            write_file(file, over, &[&kept.lenses_file()], text.as_bytes())?;
        }
    }
    Ok(ExitCode::SUCCESS)
}
