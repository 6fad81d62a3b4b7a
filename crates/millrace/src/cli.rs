//! What the command line accepts.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::builder::StyledStr;
use clap::error::ErrorKind;
use clap::{Args, CommandFactory as _, FromArgMatches as _, Parser, Subcommand, ValueEnum};
use millrace_core::calendar::Day;
use millrace_wording::{DecimalSign, Language, Words, command_line as say};

use crate::lens::LensArguments;
use crate::named_case::is_of_register;
use crate::register::RegisterArguments;
use crate::version;

/// Plans a cataract operation for one eye: lens power, approach, and what speaks against them.
///
/// Without a command it opens the desk, a window.
///
/// For use by licensed clinicians. Not a certified medical device. Check every number against an
/// independent calculation; local protocols and the surgeon's judgment prevail.
#[derive(Parser)]
#[command(name = "millrace", version, propagate_version = true)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
    /// Opens the desk on invented cases; nothing is kept.
    #[arg(long)]
    pub(crate) demo: bool,
    /// The register, instead of the one in your directory for data.
    #[arg(long, global = true, value_name = "PATH")]
    pub(crate) register: Option<PathBuf>,
    /// Language of every answer: en, or en-XA, in which every text of the program stands out.
    #[arg(long, global = true, hide = true, default_value = Language::English.code(), value_parser = language)]
    pub(crate) language: Language,
}

fn language(code: &str) -> Result<Language, &'static str> {
    Language::with_code(code).ok_or("no such language")
}

impl Arguments {
    /// How the answers are said.
    pub(crate) const fn words(&self) -> Words {
        Words {
            language: self.language,
            decimals: DecimalSign::Point,
        }
    }

    /// The arguments of this run, or what is wrong with them.
    pub(crate) fn of_this_run() -> Self {
        let words = Words {
            language: asked_language(std::env::args_os()),
            ..Words::ENGLISH
        };
        let command = spoken(Self::command(), words).long_version(version::in_full(words));
        let matches = command.get_matches();
        let arguments = Self::from_arg_matches(&matches).unwrap_or_else(|error| error.exit());
        let wrong = match &arguments.command {
            Some(_) if arguments.demo => say::demo_goes_alone(words),
            None if arguments.demo && arguments.register.is_some() => {
                say::demo_has_no_register(words)
            }
            Some(command) if arguments.register.is_some() && !command.reads_a_register() => {
                say::reads_no_register(words)
            }
            _ => return arguments,
        };
        Self::command()
            .error(ErrorKind::ArgumentConflict, wrong)
            .exit()
    }
}

/// The language that is asked for, before anything else is read: the help is said in it too.
fn asked_language(mut arguments: impl Iterator<Item = OsString>) -> Language {
    let code = arguments.by_ref().find_map(|argument| {
        let code = argument.to_str()?.strip_prefix("--language")?;
        Some(code.strip_prefix('=').map(str::to_owned))
    });
    let code = code.and_then(|code| code.or_else(|| arguments.next()?.into_string().ok()));
    code.and_then(|code| Language::with_code(&code))
        .unwrap_or_default()
}

/// The command line with its help in these words. What the reader of the command line says itself,
/// "Usage" and what is wrong with an option, it says in English.
fn spoken(mut command: clap::Command, words: Words) -> clap::Command {
    if words.language == Language::English {
        return command;
    }
    let said = |text: &StyledStr| words.reference_made(&text.to_string());
    if let Some(about) = command.get_about().map(said) {
        command = command.about(about);
    }
    if let Some(about) = command.get_long_about().map(said) {
        command = command.long_about(about);
    }
    let command = command.mut_args(|mut argument| {
        if let Some(help) = argument.get_help().map(said) {
            argument = argument.help(help);
        }
        if let Some(help) = argument.get_long_help().map(said) {
            argument = argument.long_help(help);
        }
        argument
    });
    command.mut_subcommands(|command| spoken(command, words))
}

#[derive(Subcommand)]
pub(crate) enum Command {
    /// Prints the plan for a case: on one screen, or in full.
    ///
    /// The screen has patient and eye, lens, power and prediction, how sure it is, the approach, allergies
    /// and what is special, the findings that are open, and what could not be evaluated. Exit status: 0 a plan was made; 1 a plan was made and a Stop finding stands; 2 the input
    /// was refused.
    Plan(PlanArguments),
    /// Computes any number of eyes from a CSV file, one row per eye and formula.
    ///
    /// Input columns, by header, in any order, blank where not measured: `eye_id`,
    /// `axial_length_mm`, `k1_mm`, `k2_mm` (radii) or `k1_d`, `k2_d`, `k_index`, `acd_mm`,
    /// `lens_thickness_mm`, `cct_um`, `target_d`, `a_constant`, `pacd_mm`, `surgeon_factor_mm`,
    /// `a0_mm`, `a1`, `a2`, `lens_power_d`.
    ///
    /// Corneas are taken as untouched by surgery, eyes as free of silicone oil, and axial lengths as of
    /// the kind the constants are for.
    ///
    /// A bad cell refuses its row, is named on standard error and in the note, and the rest goes
    /// on. Exit status: 0 every row was read; 2 a row or the file was refused.
    Tabulate(TabulateArguments),
    /// Draws invented eyes, plans each, and tells how often the stated intervals hold the truth.
    ///
    /// The same seed gives the same bytes on every machine and with any number of threads.
    Simulate(SimulateArguments),
    /// Keeps cases and every saved change of them in one file.
    ///
    /// Exit status: 0 done; 1 a check found damage; 2 refused, and nothing was changed; 3 done and kept, and
    /// the answer could not be written.
    Register(RegisterArguments),
    /// Brings the lens records beside the register in from a file, and out to one.
    ///
    /// Close the desk first: it holds the records it opened with. Exit status: 0 done; 2 refused, and
    /// nothing was changed; 3 done and kept, and the answer could not be written.
    Lens(LensArguments),
    /// Writes a plan sheet as a PDF: of a signed plan by its number, or a print of a draft.
    ///
    /// The print of a draft says DRAFT across every page and shows no lens power. A sheet that a later one
    /// superseded, or whose case was changed since, says so across every page. Exit status: 0 written;
    /// 1 written, and it is not the sheet to work by, or a case of the day has none; 2 refused.
    Sheet(SheetArguments),
    /// Tells whether a sheet is the current one, by its fingerprint or the content of its QR code.
    ///
    /// It answers current, superseded by sheet N, changed since, or unknown. Exit status: 0 current;
    /// 1 any other answer; 2 the fingerprint was misread or the register could not be.
    Verify(VerifyArguments),
    /// Prints the formula reference: equation, source, standing, validity.
    Formulas(ReferenceArguments),
    /// Prints the rule reference: what each checks, why, its limits and sources.
    Rules(ReferenceArguments),
    /// Writes the manual pages into a directory.
    Manual {
        /// Existing directory to write to.
        directory: PathBuf,
    },
    /// Prints the completion script for a shell.
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
}

impl Command {
    /// Whether it has to do with a register at all: one that is named and not read would be taken for
    /// one that was.
    fn reads_a_register(&self) -> bool {
        match self {
            Self::Register(_) | Self::Verify(_) | Self::Lens(_) => true,
            Self::Plan(plan) => {
                plan.recompute.is_some() || plan.case.as_deref().is_some_and(is_of_register)
            }
            Self::Sheet(sheet) => {
                let draft = sheet.draft.as_deref();
                sheet.number.is_some() || sheet.day.is_some() || draft.is_some_and(is_of_register)
            }
            Self::Tabulate(_)
            | Self::Simulate(_)
            | Self::Formulas(_)
            | Self::Rules(_)
            | Self::Manual { .. }
            | Self::Completions { .. } => false,
        }
    }
}

#[derive(Args)]
pub(crate) struct PlanArguments {
    /// Case file (RON), or a case of the register: the beginning of its name, or the hospital number.
    #[arg(required_unless_present = "recompute")]
    pub(crate) case: Option<PathBuf>,
    /// Prints everything that was computed, with its sources at the end.
    #[arg(long, conflicts_with = "recompute")]
    pub(crate) full: bool,
    /// Computes a signed plan again and shows every result that would differ today.
    ///
    /// Exit status: 0 none differs; 1 some do; 2 refused.
    #[arg(long, value_name = "SHEET", conflicts_with_all = ["case", "limits"])]
    pub(crate) recompute: Option<u32>,
    /// How the plan is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Limits of your own; the plan names those that differ from the shipped ones.
    #[arg(long, value_name = "FILE")]
    pub(crate) limits: Option<PathBuf>,
    /// Columns of text to print in, instead of the width of the terminal.
    #[arg(long, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(72..=400))]
    pub(crate) width: Option<u16>,
}

#[derive(Args)]
pub(crate) struct TabulateArguments {
    /// Eyes (CSV with a header row), or - for standard input.
    pub(crate) eyes: PathBuf,
    /// File to write instead of standard output; it appears only when it is complete.
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Args)]
pub(crate) struct SimulateArguments {
    /// Number of eyes.
    #[arg(long)]
    pub(crate) eyes: u32,
    /// What the draws follow from.
    #[arg(long)]
    pub(crate) seed: u64,
    /// How the result is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Limits of your own, with the spreads.
    #[arg(long, value_name = "FILE")]
    pub(crate) limits: Option<PathBuf>,
    /// Columns of text to print in, instead of the width of the terminal.
    #[arg(long, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(72..=400))]
    pub(crate) width: Option<u16>,
}

#[derive(Args)]
pub(crate) struct SheetArguments {
    /// Number of the signed sheet.
    #[arg(
        long,
        value_name = "N",
        required_unless_present_any = ["draft", "day", "arrangement_to_adapt"],
        conflicts_with_all = ["draft", "day"]
    )]
    pub(crate) number: Option<u32>,
    /// Every sheet to work by on this day, each in a file of its own, and a page that lists them.
    ///
    /// The page also names the cases of the day that have no sheet to work by, and why.
    #[arg(long, value_name = "YYYY-MM-DD", conflicts_with = "draft")]
    pub(crate) day: Option<Day>,
    /// Case to print as a draft: a file, or a case of the register by the beginning of its name or its
    /// hospital number.
    #[arg(long, value_name = "CASE")]
    pub(crate) draft: Option<PathBuf>,
    /// Limits the draft is planned by, instead of the shipped ones.
    #[arg(long, value_name = "FILE", requires = "draft")]
    pub(crate) limits: Option<PathBuf>,
    /// What it is printed on.
    #[arg(long, value_enum, default_value_t = PaperArgument::A4)]
    pub(crate) paper: PaperArgument,
    /// Arrangement of the sheet of your own, instead of the one beside the register or the shipped one.
    #[arg(long, value_name = "FILE.typ")]
    pub(crate) arrangement: Option<PathBuf>,
    /// Writes the shipped arrangement, to adapt; beside the register as sheet.typ it is used for every sheet.
    #[arg(long, conflicts_with_all = ["number", "day", "draft", "arrangement"])]
    pub(crate) arrangement_to_adapt: bool,
    /// File to write; for a day a directory, which is made if need be.
    #[arg(short, long, value_name = "FILE.pdf")]
    pub(crate) output: PathBuf,
    /// Replaces files that exist.
    #[arg(long)]
    pub(crate) force: bool,
}

/// What a sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperArgument {
    /// 210 mm × 297 mm.
    A4,
    /// 8.5 in × 11 in.
    Letter,
}

#[derive(Args)]
pub(crate) struct VerifyArguments {
    /// Fingerprint from the foot of the sheet, with or without hyphens and spaces, or the content of
    /// its QR code.
    #[arg(required = true, value_name = "FINGERPRINT")]
    pub(crate) fingerprint: Vec<String>,
    /// How the answer is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Args)]
pub(crate) struct ReferenceArguments {
    /// Only the one with this name or id.
    pub(crate) name: Option<String>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// For reading at a desk.
    Text,
    /// For other programs; every number with its unit in the name.
    Json,
}
