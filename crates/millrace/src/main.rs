//! Workbench for planning a cataract operation: the command line, and the window around the desk.
//!
//! Reads files, writes to the terminal, runs the desk, and leaves every decision to
//! `millrace-core`.

mod cli;
mod clock;
mod computer;
mod day_sheets;
mod every_file;
mod failure;
mod fault;
mod lens;
mod named_case;
mod output;
mod page;
mod plan;
mod plan_text;
mod recompute;
mod reference;
mod register;
mod seen;
mod sheet;
mod simulate;
mod standing;
mod style;
mod system;
mod tabulate;
mod terminal;
mod verify;
mod version;
mod window;

use std::process::ExitCode;

use clap::CommandFactory as _;
use cli::{Arguments, Command};
use failure::Failure;
use millrace_wording::{Words, command_line as say};
use output::Output;
use terminal::tell;

/// The work was done and something stands in it that must not: a Stop finding, damage.
const STOPPED: u8 = 1;
const REFUSED: u8 = 2;
/// What was asked is done and kept, and the answer could not be written.
const NOT_SHOWN: u8 = 3;
/// The program itself is at fault.
const BROKEN: u8 = 4;

/// What every command is told: which register, and in which words it answers.
pub(crate) struct Around {
    pub(crate) place: register::Place,
    pub(crate) words: Words,
}

fn main() -> ExitCode {
    if millrace_press::is_asked_for(std::env::args_os()) {
        return millrace_press::serve();
    }
    let arguments = Arguments::of_this_run();
    let words = arguments.words();
    fault::tell_by(words);
    fault::caught(|| match run(arguments, words) {
        Ok(code) => code,
        // The reader went away, as `head` does: nothing is wrong and nobody is listening.
        Err(failure) if failure.is_closed_pipe() => ExitCode::SUCCESS,
        Err(failure) => {
            tell(say::failed(words, &failure));
            ExitCode::from(failure.status())
        }
    })
    .unwrap_or(ExitCode::from(BROKEN))
}

fn run(arguments: Arguments, words: Words) -> Result<ExitCode, Failure> {
    let place = register::Place(arguments.register);
    let around = Around { place, words };
    let Some(command) = arguments.command else {
        let opening = if arguments.demo {
            window::Opening::Demo
        } else {
            window::Opening::Register(around.place.path()?)
        };
        return window::run(opening, words);
    };
    match command {
        Command::Plan(arguments) => plan::run(&arguments, &around),
        Command::Tabulate(arguments) => tabulate::run(&arguments),
        Command::Simulate(arguments) => simulate::run(&arguments, words),
        Command::Register(arguments) => register::run(&arguments, &around),
        Command::Sheet(arguments) => sheet::run(&arguments, &around),
        Command::Lens(arguments) => lens::run(&arguments, &around),
        Command::Verify(arguments) => verify::run(&arguments, &around),
        Command::Formulas(arguments) => reference::formulas(&arguments),
        Command::Rules(arguments) => reference::rules(&arguments),
        Command::Manual { directory } => {
            clap_mangen::generate_to(Arguments::command(), &directory)
                .map_err(Failure::writing(&directory))?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Completions { shell } => {
            let mut text = Vec::new();
            clap_complete::generate(shell, &mut Arguments::command(), "millrace", &mut text);
            // A script for a shell, byte for byte.
            let mut output = Output::standard();
            output.write_all(&text).map_err(Failure::Output)?;
            output.finish()?;
            Ok(ExitCode::SUCCESS)
        }
    }
}
