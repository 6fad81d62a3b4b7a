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

use crate::REFUSED;
use crate::cli::TabulateArguments;
use crate::failure::Failure;
use crate::output::{Output, Over};

/// Inputs from this size on show a progress bar.
const LARGE_BYTES: u64 = 4 * 1024 * 1024;

pub(crate) fn run(arguments: &TabulateArguments) -> Result<ExitCode, Failure> {
    let path = &arguments.eyes;
    let (input, bytes) = open(path)?;
    if let Some(output) = &arguments.output {
        refuse_same_file(path, output)?;
    }
    let progress = progress_bar(bytes);
    let mut reader = LineReader::new(progress.wrap_read(input));
    let header = reader.header().map_err(Failure::reading(path))?;
    let columns = Columns::from_header(&header).map_err(|problem| Failure::Header {
        path: path.clone(),
        problem,
    })?;

    let mut output = Output::create(arguments.output.as_deref(), Over::Replace)?;
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

fn open(path: &Path) -> Result<(Box<dyn Read + Send>, Option<u64>), Failure> {
    if path == Path::new("-") {
        return Ok((Box::new(io::stdin()), None));
    }
    let file = File::open(path).map_err(Failure::reading(path))?;
    let metadata = file.metadata().map_err(Failure::reading(path))?;
    let bytes = metadata.is_file().then_some(metadata.len());
    Ok((Box::new(file), bytes))
}

/// Replacing the input with its own results would lose the measurements.
fn refuse_same_file(input: &Path, output: &Path) -> Result<(), Failure> {
    let same = if input == Path::new("-") {
        is_standard_input(output)
    } else {
        match (input.canonicalize(), output.canonicalize()) {
            (Ok(input), Ok(output)) => input == output && output.is_file(),
            _ => false,
        }
    };
    if same {
        Err(Failure::SameFile {
            path: output.to_owned(),
        })
    } else {
        Ok(())
    }
}

/// Whether the shell feeds this very file to standard input.
#[cfg(unix)]
fn is_standard_input(output: &Path) -> bool {
    use std::os::fd::AsFd as _;
    use std::os::unix::fs::MetadataExt as _;

    let input = io::stdin().as_fd().try_clone_to_owned().map(File::from);
    match (input.and_then(|file| file.metadata()), output.metadata()) {
        (Ok(input), Ok(output)) => {
            output.is_file() && (input.dev(), input.ino()) == (output.dev(), output.ino())
        }
        _ => false,
    }
}

#[cfg(not(unix))]
fn is_standard_input(_output: &Path) -> bool {
    false
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
