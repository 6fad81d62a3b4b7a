//! Reading, computing and writing side by side, in order, with a fixed number of blocks in flight:
//! that number, not the size of the input, sets the memory.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::{self, Read};
use std::path::Path;
use std::thread;

use crossbeam_channel::{Receiver, Sender, bounded};
use indicatif::ProgressBar;

use super::columns::Columns;
use super::lines::{Block, LineReader};
use super::results::{self, HEADER};
use super::row::{self, Scratch};
use crate::failure::Failure;
use crate::output::Output;
use crate::terminal::tell;

/// Blocks in flight per worker.
const PER_WORKER: usize = 3;

/// One block on its way from reader to worker to writer and back.
#[derive(Default)]
struct Job {
    number: u64,
    block: Block,
    results: String,
    messages: String,
    refused: u64,
}

/// Which end of the pipeline failed.
#[derive(Debug)]
pub(crate) enum PipelineError {
    Read(io::Error),
    Write(io::Error),
}

impl PipelineError {
    pub(crate) fn at(self, input: &Path, output: Option<&Path>) -> Failure {
        match (self, output) {
            (Self::Read(error), _) => Failure::Read {
                path: input.to_owned(),
                error,
            },
            (Self::Write(error), None) => Failure::Output(error),
            (Self::Write(error), Some(path)) => Failure::Write {
                path: path.to_owned(),
                error,
            },
        }
    }
}

/// Runs the whole input; returns how many lines were refused.
pub(crate) fn run<R: Read + Send>(
    reader: LineReader<R>,
    columns: &Columns,
    output: &mut Output,
    progress: &ProgressBar,
) -> Result<u64, PipelineError> {
    output
        .write_all(HEADER.as_bytes())
        .map_err(PipelineError::Write)?;
    let workers = thread::available_parallelism().map_or(1, usize::from);
    let in_flight = workers * PER_WORKER;
    let (free_sender, free) = bounded(in_flight);
    let (work_sender, work) = bounded(in_flight);
    let (done_sender, done) = bounded(in_flight);
    for _ in 0..in_flight {
        // The channel has room for them all and its other end is open.
        let _ = free_sender.send(Job::default());
    }
    thread::scope(|scope| {
        let reading = scope.spawn(move || read_blocks(reader, &free, &work_sender));
        for _ in 0..workers {
            let (work, done) = (work.clone(), done_sender.clone());
            scope.spawn(move || compute_blocks(&work, &done, columns));
        }
        drop((work, done_sender));
        let refused = write_blocks(&done, &free_sender, output, progress);
        // Ends the reader if the writer gave up.
        drop((done, free_sender));
        match reading.join() {
            Ok(read) => read.map_err(PipelineError::Read)?,
            Err(panic) => std::panic::resume_unwind(panic),
        }
        refused.map_err(PipelineError::Write)
    })
}

fn read_blocks<R: Read>(
    mut reader: LineReader<R>,
    free: &Receiver<Job>,
    work: &Sender<Job>,
) -> io::Result<()> {
    for number in 0.. {
        // A closed channel means that the writer gave up and has told why.
        let Ok(mut job) = free.recv() else {
            return Ok(());
        };
        job.number = number;
        if !reader.next(&mut job.block)? || work.send(job).is_err() {
            return Ok(());
        }
    }
    Ok(())
}

fn compute_blocks(work: &Receiver<Job>, done: &Sender<Job>, columns: &Columns) {
    let mut scratch = Scratch::default();
    for mut job in work {
        job.results.clear();
        job.messages.clear();
        job.refused = 0;
        compute(&mut job, columns, &mut scratch);
        if done.send(job).is_err() {
            return;
        }
    }
}

fn compute(job: &mut Job, columns: &Columns, scratch: &mut Scratch) {
    let block = &job.block;
    if block.too_long {
        let problem = "the line is longer than any eye can be";
        results::write_refused(&mut job.results, "", block.first_line, problem);
        add_message(&mut job.messages, block.first_line, problem);
        job.refused += 1;
        return;
    }
    let mut rest = block.bytes.as_slice();
    let mut number = block.first_line;
    while !rest.is_empty() {
        let end = memchr::memchr(b'\n', rest).map_or(rest.len(), |newline| newline + 1);
        let (line, after) = rest.split_at(end);
        rest = after;
        let line = line.strip_suffix(b"\n").unwrap_or(line);
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        if !line.trim_ascii().is_empty() {
            compute_line(
                line,
                number,
                columns,
                scratch,
                &mut LineOutput {
                    results: &mut job.results,
                    messages: &mut job.messages,
                    refused: &mut job.refused,
                },
            );
            if rest.is_empty() && block.unterminated {
                add_message(
                    &mut job.messages,
                    number,
                    "the last line has no ending; if the file was cut short, its last cell may be too",
                );
            }
        }
        number += 1;
    }
}

struct LineOutput<'a> {
    results: &'a mut String,
    messages: &'a mut String,
    refused: &'a mut u64,
}

fn compute_line(
    line: &[u8],
    number: u64,
    columns: &Columns,
    scratch: &mut Scratch,
    output: &mut LineOutput<'_>,
) {
    let (eye_id, read) = match row::split(line, scratch) {
        Ok(cells) => (row::eye_id(&cells, columns), row::read(&cells, columns)),
        Err(problems) => ("", Err(problems)),
    };
    match read {
        Ok(eye) => results::write_eye(output.results, eye_id, &eye),
        Err(problems) => {
            results::write_refused(output.results, eye_id, number, problems.text());
            add_message(output.messages, number, problems.text());
            *output.refused += 1;
        }
    }
}

fn add_message(messages: &mut String, line: u64, text: &str) {
    // Writing to a String does not fail.
    let _ = writeln!(messages, "line {line}: {text}");
}

fn write_blocks(
    done: &Receiver<Job>,
    free: &Sender<Job>,
    output: &mut Output,
    progress: &ProgressBar,
) -> io::Result<u64> {
    let mut waiting = BTreeMap::new();
    let mut next = 0;
    let mut refused = 0;
    for job in done {
        waiting.insert(job.number, job);
        while let Some(job) = waiting.remove(&next) {
            output.write_all(job.results.as_bytes())?;
            if !job.messages.is_empty() {
                // Standard error may be gone; the notes in the output say the same.
                progress.suspend(|| tell(job.messages.trim_end()));
            }
            refused += job.refused;
            next += 1;
            // The reader may have ended already.
            let _ = free.send(job);
        }
    }
    Ok(refused)
}
