//! A program that saves in a loop is killed at random moments; whatever it had acknowledged is there.
//!
//! 60 kills by default, `MILLRACE_KILLS=1000` for as many as wanted. A killed process leaves the
//! memory of the system behind, so this shows that no half of a save is ever seen; that a save has
//! reached the drive follows from `every_commit_waits_for_the_drive`.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::Path;
use std::time::Duration;

use crate::support::{aimed_at, check, killing, stamp};
use millrace_core::case::Draft;
use millrace_register::{CaseId, Register};

/// Set for the child: the register it saves to.
const CHILD: &str = "MILLRACE_SAVE_LOOP";
const THIS_TEST: &str = "kill::nothing_acknowledged_is_lost_to_a_kill";
/// Registers are begun anew after as many kills, so that their making is cut off too.
const KILLS_PER_REGISTER: u32 = 12;
const LONGEST_LIFE_MS: u32 = 120;

/// What a save of a case holds: every save another target, and now and then another name.
fn draft(count: u32) -> Draft {
    let mut draft = aimed_at(-i32::try_from(count % 1_000).unwrap());
    draft.patient.name = Some(format!("Weir, Anna {}", count / 7));
    draft
}

/// Saves until it is killed: new cases and further revisions in turn, each acknowledged in one line
/// when it is durable.
fn save_loop(path: &Path) -> ! {
    let mut register = Register::open(path).unwrap();
    let mut out = std::io::stdout().lock();
    let mut own: Vec<(CaseId, u32)> = Vec::new();
    for count in 0_u32.. {
        let saved = if count % 5 == 0 || own.is_empty() {
            let saved = register.save(CaseId::random().unwrap(), None, &draft(count), stamp());
            let saved = saved.unwrap();
            own.push((saved.case, 1));
            saved
        } else {
            let index = usize::try_from(count).unwrap() % own.len();
            let (case, newest) = own[index];
            let saved = register
                .save(case, Some(newest), &draft(count), stamp())
                .unwrap();
            own[index].1 = saved.number;
            saved
        };
        writeln!(out, "saved {} {} {count}", saved.case, saved.number).unwrap();
        out.flush().unwrap();
    }
    unreachable!("the loop ends with the process")
}

/// What a child that was killed had acknowledged: case, revision, count.
fn killed_after(path: &Path, life: Duration) -> Vec<(CaseId, u32, u32)> {
    let lines = killing::killed_after(THIS_TEST, (CHILD, path), "saved ", life);
    let parts = lines.iter().map(|line| {
        let parts: Vec<_> = line.split(' ').collect();
        let number = |index: usize| parts[index].parse().unwrap();
        (parts[0].parse().unwrap(), number(1), number(2))
    });
    parts.collect()
}

#[test]
fn nothing_acknowledged_is_lost_to_a_kill() {
    if let Some(path) = std::env::var_os(CHILD) {
        save_loop(Path::new(&path));
    }
    let kills = killing::asked_for(60);
    let (mut saves, mut before_the_first, mut unacknowledged) = (0, 0, 0);
    let mut done = 0;
    while done < kills {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("register.sqlite3");
        let mut acknowledged: BTreeMap<(CaseId, u32), u32> = BTreeMap::new();
        for _ in 0..KILLS_PER_REGISTER.min(kills - done) {
            let new = killed_after(&path, killing::random_life(LONGEST_LIFE_MS));
            done += 1;
            before_the_first += u32::from(new.is_empty());
            acknowledged.extend(
                new.iter()
                    .map(|(case, number, count)| ((*case, *number), *count)),
            );

            let mut register = Register::open(&path).unwrap();
            for ((case, number), count) in &acknowledged {
                let revision = register.load_revision(*case, *number).unwrap();
                // What the register adds of its own is no part of what was to be saved.
                let saved = Draft {
                    other_cases: Vec::new(),
                    ..revision.draft
                };
                assert_eq!(saved, draft(*count), "kill {done}, {case} {number}");
            }
            let report = check(&mut register);
            assert_eq!(report.problems, [], "kill {done}");
            let kept = usize::try_from(report.revisions).unwrap();
            assert!(acknowledged.len() <= kept, "kill {done}");
        }
        let kept = check(&mut Register::open(&path).unwrap()).revisions;
        saves += acknowledged.len();
        unacknowledged += usize::try_from(kept).unwrap() - acknowledged.len();
    }
    println!(
        "{kills} kills: {saves} saves acknowledged, none lost; {unacknowledged} more were durable \
         before they could be acknowledged; {before_the_first} kills came before a first save"
    );
    assert!(saves != 0, "some save must come before its kill");
}
