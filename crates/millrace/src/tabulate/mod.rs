//! `millrace tabulate`: any number of eyes, streamed, in constant memory.

mod columns;
mod lines;
mod pipeline;
mod results;
mod row;

use std::fs::File;
use std::io::{self, IsTerminal as _, Read};
use std::path::Path;
use std::process::ExitCode;

use columns::Columns;
pub(crate) use columns::HeaderError;
use indicatif::{ProgressBar, ProgressStyle};
use lines::LineReader;
use same_file::Handle;

use crate::REFUSED;
use crate::cli::TabulateArguments;
use crate::failure::Failure;
use crate::output::{Output, Over};

/// Inputs from this size on show a progress bar.
const LARGE_BYTES: u64 = 4 * 1024 * 1024;

pub(crate) fn run(arguments: &TabulateArguments) -> Result<ExitCode, Failure> {
    let path = &arguments.eyes;
    let (input, bytes) = open(path)?;
    // Before a line of it is read.
    let mut output = match &arguments.output {
        None => Output::standard(),
        Some(output) if is_fed(path) && output.is_file() && is_standard_input(output) => {
            let path = output.clone();
            return Err(Failure::SameFile { path });
        }
        Some(output) => Output::file(output, Over::Replace, &[path])?,
    };
    let progress = progress_bar(bytes);
    let mut reader = LineReader::new(progress.wrap_read(input));
    let header = reader.header().map_err(Failure::reading(path))?;
    let columns = Columns::from_header(&header).map_err(|problem| Failure::Header {
        path: path.clone(),
        problem,
    })?;

    let refused = pipeline::run(reader, &columns, &mut output, &progress)
        .map_err(|error| error.at(path, arguments.output.as_deref()))?;
    progress.finish_and_clear();
    output.finish()?;
    Ok(if refused == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(REFUSED)
    })
}

/// Whether the eyes come by standard input.
fn is_fed(path: &Path) -> bool {
    path == Path::new("-")
}

fn open(path: &Path) -> Result<(Box<dyn Read + Send>, Option<u64>), Failure> {
    if is_fed(path) {
        return Ok((Box::new(io::stdin()), None));
    }
    let file = File::open(path).map_err(Failure::reading(path))?;
    let metadata = file.metadata().map_err(Failure::reading(path))?;
    let bytes = metadata.is_file().then_some(metadata.len());
    Ok((Box::new(file), bytes))
}

/// Whether the shell feeds this very file to standard input.
fn is_standard_input(output: &Path) -> bool {
    let input = Handle::stdin();
    let output = Handle::from_path(output);
    matches!((input, output), (Ok(input), Ok(output)) if input == output)
}

fn progress_bar(bytes: Option<u64>) -> ProgressBar {
    match bytes {
        Some(bytes) if LARGE_BYTES <= bytes && io::stderr().is_terminal() => {
            let style = ProgressStyle::with_template(
                "{wide_bar} {percent} %  {bytes} of {total_bytes}  {eta} left",
            );
            let bar = ProgressBar::new(bytes);
            match style {
                Ok(style) => bar.with_style(style),
                Err(_) => bar,
            }
        }
        _ => ProgressBar::hidden(),
    }
}
