//! Demo cases, people and times for the tests of the register.

#[cfg(unix)]
pub(crate) mod killing;

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use chrono::NaiveDate;
use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::{SheetNumber, Signature};
use millrace_register::{CheckReport, Fault, Register, Signing, Stamp};

/// The top of the tree.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A demo case.
pub(crate) fn demo(name: &str) -> Draft {
    let path = root().join(format!("demo-data/cases/{name}.ron"));
    case_file::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}

static ORDINARY: LazyLock<Draft> = LazyLock::new(|| demo("ordinary-eye"));

/// All demo cases, by name.
pub(crate) fn demos() -> Vec<Draft> {
    let mut paths: Vec<_> = std::fs::read_dir(root().join("demo-data/cases"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let read = |path: &PathBuf| case_file::read(&std::fs::read_to_string(path).unwrap()).unwrap();
    paths.iter().map(read).collect()
}

/// The ordinary eye with a target that tells one draft from another.
pub(crate) fn aimed_at(hundredths: i32) -> Draft {
    let mut draft = ORDINARY.clone();
    draft.lens.target = Some(HundredthDiopters::new(hundredths));
    draft
}

/// The ordinary eye of somebody else.
pub(crate) fn patient(name: Option<&str>, number: &str, date: Option<&str>) -> Draft {
    let mut draft = ORDINARY.clone();
    draft.patient.name = name.map(str::to_owned);
    draft.patient.number = Some(number.to_owned());
    draft.operation.date = date.map(|date| date.parse().unwrap());
    draft
}

pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

/// One person at one moment.
pub(crate) fn stamp() -> Stamp<'static> {
    by("A. Okafor")
}

pub(crate) fn by(by: &'static str) -> Stamp<'static> {
    Stamp {
        by,
        desk: None,
        at: "2026-11-24T10:15:30.5Z".parse().unwrap(),
        program: "millrace test",
    }
}

/// The hard, shallow eye, which may be signed as it is; its target is what it was consented to.
pub(crate) fn signable() -> Draft {
    demo("hard-and-shallow")
}

/// The same with another target, consented to, and the convention and reason that let it pass.
pub(crate) fn signable_aimed_at(hundredths: i32) -> Draft {
    let mut draft = signable();
    let target = Some(HundredthDiopters::new(hundredths));
    draft.lens.target = target;
    draft.lens.consented_target = target;
    draft
}

/// The surgeon's signature under that target.
pub(crate) fn signing(hundredths: i32) -> Signing<'static> {
    Signing {
        limits: Limits::shipped(),
        signature: Signature {
            name: "A. Okafor".to_owned(),
            role: "surgeon".to_owned(),
            at: "2026-11-25T08:00:00.25Z".parse().unwrap(),
            consented_target: HundredthDiopters::new(hundredths),
        },
        program: "millrace test",
    }
}

pub(crate) fn check(register: &mut Register) -> CheckReport {
    register.check(&mut |_| ControlFlow::Continue(())).unwrap()
}

/// Everything a register says: each list entry with each of its revisions.
pub(crate) fn content(
    register: &Register,
) -> Result<Vec<String>, millrace_register::RegisterError> {
    let mut content = Vec::new();
    for entry in register.list(
        millrace_register::Cases::InUse,
        millrace_register::Window::ALL,
    )? {
        for revision in register.history(entry.case)? {
            let revision = register.load_revision(entry.case, revision.number)?;
            content.push(format!("{revision:?}"));
        }
        content.push(format!("{entry:?}"));
    }
    Ok(content)
}

/// A closed register with the demo cases, one of them saved three times.
pub(crate) fn filled(directory: &Path) -> PathBuf {
    let path = directory.join("register.sqlite3");
    let mut register = Register::open(&path).unwrap();
    let saved = register.import(&demos(), stamp()).unwrap();
    for revision in 1..3 {
        let draft = aimed_at(-25 * i32::try_from(revision).unwrap());
        register
            .save(saved[0].case, Some(revision), &draft, stamp())
            .unwrap();
    }
    path
}

/// No sheet was ever signed.
pub(crate) fn assert_none_signed(register: &Register) {
    let error = register.signed(SheetNumber::FIRST).unwrap_err();
    assert!(
        matches!(error.fault, Fault::NoSuchSheet { newest: None, .. }),
        "{error}"
    );
}
