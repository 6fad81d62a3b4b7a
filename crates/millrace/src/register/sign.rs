//! `millrace register sign`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::calendar::Moment;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::Severity;
use millrace_core::signing::{Obstacle, SheetNumber, Signature};
use millrace_press::Press;
use millrace_register::{CaseId, Sheet, SignError, Signing};
use millrace_wording::{Show as _, Words, command_line as say};
use serde::Serialize;

use super::arguments::SignArguments;
use super::{Head, PROGRAM, json, tell_clock, tell_if_forgotten};
use crate::cli::Format;
use crate::failure::{Failure, read_limits};
use crate::seen;
use crate::sheet::check_printable;
use crate::terminal::{print, print_done, tell};
use crate::{REFUSED, clock};

pub(crate) fn run(
    path: &Path,
    arguments: &SignArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let limits = read_limits(arguments.limits.as_deref())?;
    let mut register = seen::open(path, words)?;
    let case = register.find(&arguments.case)?;
    let newest = register.load(case)?;
    let revision = arguments.revision.unwrap_or(newest.entry.number);
    let at = clock::now();
    tell_clock(&register, at, words);
    let signing = Signing {
        limits: &limits,
        signature: Signature {
            name: arguments.name.clone(),
            role: arguments.role.clone(),
            at,
            consented_target: arguments.target,
        },
        program: PROGRAM,
    };
    let tried = check_printable(&newest.draft, &signing, (words, &mut Press::default()));
    tried.map_err(Failure::not_signed)?;
    match register.sign(case, revision, signing) {
        // From here on the sheet is on the drive.
        Ok(sheet) => {
            tell_if_forgotten(seen::remember(&register), words);
            let printed = match arguments.format {
                Format::Text => text(&sheet, words),
                Format::Json => json(&Document::signed(path, &sheet))?,
            };
            print_done(&printed)?;
            Ok(ExitCode::SUCCESS)
        }
        Err(SignError::Obstacles { obstacles }) => {
            match arguments.format {
                Format::Text => tell(refusal(case, revision, &obstacles, words).trim_end()),
                Format::Json => {
                    print(&json(&Document::refused(
                        (path, words),
                        case,
                        revision,
                        &obstacles,
                    ))?)?;
                }
            }
            Ok(ExitCode::from(REFUSED))
        }
        Err(error) => Err(error.into()),
    }
}

/// A target as it is typed: always with its sign, since a lost one would be twice the error; the unit
/// may be left out.
pub(crate) fn target(text: &str) -> Result<HundredthDiopters, String> {
    let text = text.trim();
    let with_unit = if text.ends_with(['D', 'd']) {
        text.to_owned()
    } else {
        format!("{text} D")
    };
    let target: HundredthDiopters = with_unit.parse().map_err(|error| format!("{error}"))?;
    if target.hundredths() != 0 && !text.starts_with(['+', '-', '\u{2212}']) {
        return Err("a target has a sign: write +0.25 or -0.25".to_owned());
    }
    Ok(target)
}

fn text(sheet: &Sheet, words: Words) -> String {
    let entry = &sheet.entry;
    let (number, case, revision) = (entry.number.get(), entry.case, entry.revision);
    let signed = match entry.supersedes {
        Some(earlier) => say::signed_superseding(words, number, earlier.get(), case, revision),
        None => say::signed(words, number, case, revision),
    };
    let fingerprint = sheet.plan.fingerprint().short().to_string();
    format!("{signed}\n{}\n", say::fingerprint(words, fingerprint))
}

fn refusal(case: CaseId, revision: u32, obstacles: &[Obstacle], words: Words) -> String {
    let head = say::not_signed(words, obstacles.len(), case, revision);
    let head = format!("{}\n", say::failed(words, head));
    let lines = obstacles
        .iter()
        .map(|it| format!("  {:<6}  {}\n", it.severity().show(words), it.show(words)));
    [head].into_iter().chain(lines).collect()
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    case: String,
    revision: u32,
    signed: bool,
    sheet: Option<u32>,
    supersedes: Option<u32>,
    signed_at: Option<Moment>,
    signed_by: Option<String>,
    fingerprint: Option<String>,
    short_fingerprint: Option<String>,
    code: Option<String>,
    obstacles: Vec<ObstaclePart>,
}

#[derive(Serialize)]
struct ObstaclePart {
    severity: Severity,
    rule: Option<&'static str>,
    text: String,
}

impl Document {
    fn signed(path: &Path, sheet: &Sheet) -> Self {
        let (entry, fingerprint) = (&sheet.entry, sheet.plan.fingerprint());
        Self {
            head: Head::new("millrace register sign", path),
            case: entry.case.to_string(),
            revision: entry.revision,
            signed: true,
            sheet: Some(entry.number.get()),
            supersedes: entry.supersedes.map(SheetNumber::get),
            signed_at: Some(Moment(entry.signed_at)),
            signed_by: Some(entry.signed_by.clone()),
            fingerprint: Some(fingerprint.to_string()),
            short_fingerprint: Some(fingerprint.short().to_string()),
            code: Some(fingerprint.code()),
            obstacles: Vec::new(),
        }
    }

    fn refused(
        (path, words): (&Path, Words),
        case: CaseId,
        revision: u32,
        obstacles: &[Obstacle],
    ) -> Self {
        let obstacles = obstacles.iter().map(|obstacle| ObstaclePart {
            severity: obstacle.severity(),
            rule: obstacle.rule(),
            text: obstacle.show(words).into_owned(),
        });
        Self {
            head: Head::new("millrace register sign", path),
            case: case.to_string(),
            revision,
            signed: false,
            sheet: None,
            supersedes: None,
            signed_at: None,
            signed_by: None,
            fingerprint: None,
            short_fingerprint: None,
            code: None,
            obstacles: obstacles.collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::target;

    #[test]
    fn a_target_is_typed_with_its_sign() {
        for (typed, hundredths) in [
            ("-0.30", -30),
            ("-0,30 D", -30),
            ("\u{2212}0.30", -30),
            ("+0.25 D", 25),
            ("0", 0),
        ] {
            assert_eq!(target(typed).unwrap().hundredths(), hundredths, "{typed}");
        }
        for (typed, message) in [
            ("0.30", "a target has a sign: write +0.25 or -0.25"),
            ("-0.305", ""),
            ("-300", ""),
            ("", ""),
        ] {
            let error = target(typed).unwrap_err();
            assert!(
                !error.is_empty() && error.contains(message),
                "{typed}: {error}"
            );
        }
    }
}
