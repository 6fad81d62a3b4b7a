//! A program that saves and signs in a loop is killed at random moments; every sheet it had acknowledged
//! is there as it was signed, and no half of one.
//!
//! 24 kills by default, `MILLRACE_KILLS=1000` for as many as wanted.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::Path;

use crate::support::{check, killing, signable_aimed_at, signing, stamp};
use millrace_core::case::State;
use millrace_core::signing::{PrintedFingerprint, SheetNumber};
use millrace_register::{CaseId, Cases, Register, SheetStanding, Window};

/// Set for the child: the register it signs in.
const CHILD: &str = "MILLRACE_SIGN_LOOP";
const THIS_TEST: &str = "kill_signing::no_acknowledged_sheet_is_lost_to_a_kill";
const KILLS_PER_REGISTER: u32 = 6;
const LONGEST_LIFE_MS: u32 = 400;

/// Targets that the hard, shallow eye may be signed with: one proposal serves them.
const TARGETS: [i32; 2] = [-30, -25];

/// One case that is changed and signed again and again, each sheet acknowledged in one line when it is
/// durable.
fn sign_loop(path: &Path) -> ! {
    let mut register = Register::open(path).unwrap();
    let mut out = std::io::stdout().lock();
    let case = CaseId::random().unwrap();
    let mut seen = None;
    for target in TARGETS.into_iter().cycle() {
        let draft = signable_aimed_at(target);
        let saved = register.save(case, seen, &draft, stamp()).unwrap();
        seen = Some(saved.number);
        let sheet = register.sign(case, saved.number, signing(target)).unwrap();
        let code = sheet.plan.fingerprint().code();
        writeln!(out, "signed {} {target} {code}", sheet.entry.number).unwrap();
        out.flush().unwrap();
    }
    unreachable!("the loop ends with the process")
}

#[test]
fn no_acknowledged_sheet_is_lost_to_a_kill() {
    if let Some(path) = std::env::var_os(CHILD) {
        sign_loop(Path::new(&path));
    }
    let kills = killing::asked_for(24);
    let (mut done, mut sheets, mut unacknowledged) = (0, 0, 0);
    while done < kills {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        let mut acknowledged: BTreeMap<u32, (i32, PrintedFingerprint)> = BTreeMap::new();
        for _ in 0..KILLS_PER_REGISTER.min(kills - done) {
            let life = killing::random_life(LONGEST_LIFE_MS);
            for line in killing::killed_after(THIS_TEST, (CHILD, &path), "signed ", life) {
                let parts: Vec<_> = line.split(' ').collect();
                let sheet = (parts[1].parse().unwrap(), parts[2].parse().unwrap());
                // No number was given twice, whoever died holding it.
                let before = acknowledged.insert(parts[0].parse().unwrap(), sheet);
                assert_eq!(before, None, "kill {done}");
            }
            done += 1;
            let mut register = Register::open(&path).unwrap();
            for (number, (target, printed)) in &acknowledged {
                let sheet = register.signed(SheetNumber::new(*number).unwrap()).unwrap();
                assert_eq!(
                    *sheet.plan.draft(),
                    signable_aimed_at(*target),
                    "kill {done}"
                );
                assert!(printed.fits(&sheet.plan.fingerprint()), "kill {done}");
            }
            // The newest sheet of each case is current, or the case was saved once more after it.
            for entry in register.list(Cases::InUse, Window::ALL).unwrap() {
                let Some(sheet) = register.sheets_of(entry.case).unwrap().pop() else {
                    continue;
                };
                let printed = PrintedFingerprint::Full(sheet.fingerprint);
                let is_current = matches!(
                    register.verify(&printed).unwrap(),
                    SheetStanding::Current(current) if current == sheet
                );
                assert_eq!(is_current, entry.state == State::Signed, "kill {done}");
                assert_eq!(is_current, sheet.revision == entry.revision, "kill {done}");
            }
            let report = check(&mut register);
            assert_eq!(report.problems, [], "kill {done}");
            assert!(acknowledged.len() <= usize::try_from(report.sheets).unwrap());
        }
        let kept = check(&mut Register::open(&path).unwrap()).sheets;
        sheets += acknowledged.len();
        unacknowledged += usize::try_from(kept).unwrap() - acknowledged.len();
    }
    println!(
        "{kills} kills: {sheets} sheets acknowledged, none lost; {unacknowledged} more were durable \
         before they could be acknowledged"
    );
    assert!(sheets != 0, "some sheet must be signed before its kill");
}
