//! A register that was set back or written anew is noticed by what was seen of it before, on paper or in a
//! file elsewhere.

use std::fs;
use std::path::Path;

use crate::flips::small;
use crate::support::{aimed_at, check, signable, signing, stamp};
use millrace_register::{CaseId, Fault, HeadStanding, PrintedHead, Register, SeenHeads};
use millrace_wording::{Show as _, Words};

fn printed(register: &Register) -> PrintedHead {
    register.head().unwrap().to_string().parse().unwrap()
}

fn save(path: &Path) -> Register {
    let mut register = Register::open(path).unwrap();
    register.import([&aimed_at(0)], stamp()).unwrap();
    register
}

#[test]
fn a_head_on_paper_is_compared() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let empty = printed(&Register::open(&path).unwrap());
    small(&path);
    let old = fs::read(&path).unwrap();
    let mut register = Register::open(&path).unwrap();
    let head = register.head().unwrap();
    assert_eq!((head.saves, head.sheets), (6, 3));
    let paper = printed(&register);
    assert_eq!(register.standing_to(&paper).unwrap(), HeadStanding::Same);
    assert!(matches!(
        register.standing_to(&empty).unwrap(),
        HeadStanding::Grown { .. }
    ));

    // A signature alone makes another head.
    let fourth = CaseId::from_bytes([0x99; 16]);
    register.save(fourth, None, &signable(), stamp()).unwrap();
    let saved = printed(&register);
    register.sign(fourth, 1, signing(-30)).unwrap();
    let now = register.head().unwrap();
    assert_eq!((now.saves, now.sheets), (7, 4));
    for earlier in [&paper, &saved] {
        let grown = HeadStanding::Grown { now };
        assert_eq!(register.standing_to(earlier).unwrap(), grown);
    }
    let later = printed(&register);
    drop(register);

    // Set back, as a restore does; then it goes another way and holds as much.
    fs::write(&path, &old).unwrap();
    let mut register = Register::open(&path).unwrap();
    assert_eq!(register.standing_to(&paper).unwrap(), HeadStanding::Same);
    for lost in [&saved, &later] {
        let standing = register.standing_to(lost).unwrap();
        assert_eq!(standing, HeadStanding::SetBack { now: head });
    }
    register.save(fourth, None, &signable(), stamp()).unwrap();
    let sheet = register.sign(fourth, 1, signing(-30)).unwrap();
    assert_eq!(sheet.entry.number.get(), 4);
    // The very same was saved and signed at the very same time: nobody can tell, and nothing differs.
    assert_eq!(register.standing_to(&later).unwrap(), HeadStanding::Same);
    drop(register);
    fs::write(&path, &old).unwrap();
    let mut register = Register::open(&path).unwrap();
    for _ in 0..2 {
        register.import([&aimed_at(-25)], stamp()).unwrap();
    }
    assert!(matches!(
        register.standing_to(&saved).unwrap(),
        HeadStanding::Other { .. }
    ));
    assert!(matches!(
        register.standing_to(&later).unwrap(),
        HeadStanding::SetBack { .. }
    ));
    assert!(matches!(
        register.standing_to(&paper).unwrap(),
        HeadStanding::Grown { .. }
    ));
    assert_eq!(check(&mut register).problems, []);
}

/// Somebody writes a register anew with another past: each hash in it is right, the check passes, and the
/// head is another.
#[test]
fn a_chain_written_anew_passes_the_check_and_has_another_head() {
    let [mine, forged] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let path = mine.path().join("register.sqlite3");
    let seen = SeenHeads::in_folder(&mine.path().join("seen"));
    let cases = [1, 2, 3].map(|byte| CaseId::from_bytes([byte; 16]));
    let fill = |path: &Path, first: i32| {
        let mut register = Register::open(path).unwrap();
        for (case, target) in cases.into_iter().zip([first, -25, -50]) {
            register
                .save(case, None, &aimed_at(target), stamp())
                .unwrap();
        }
        register
    };
    let register = fill(&path, 0);
    let paper = printed(&register);
    seen.meet(&register).unwrap();
    drop(register);
    let elsewhere = forged.path().join("register.sqlite3");
    drop(fill(&elsewhere, -75));
    fs::copy(&elsewhere, &path).unwrap();
    let mut register = Register::open(&path).unwrap();
    assert_eq!(check(&mut register).problems, []);
    assert!(matches!(
        register.standing_to(&paper).unwrap(),
        HeadStanding::Other { .. }
    ));
    let error = seen.meet(&register).unwrap_err();
    assert!(matches!(error.fault, Fault::OtherHead { .. }), "{error}");
}

#[test]
fn a_register_that_was_set_back_is_refused_until_somebody_accepts_it() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let folder = directory.path().join("state/heads");
    let seen = SeenHeads::in_folder(&folder);
    small(&path);
    let old = fs::read(&path).unwrap();
    let register = Register::open(&path).unwrap();
    assert_eq!(seen.compare(&register).unwrap(), register.head().unwrap());
    assert_eq!(seen.of(&path).unwrap(), None);
    let first = seen.meet(&register).unwrap();
    assert_eq!(seen.of(&path).unwrap(), Some(first.whole()));
    assert_eq!(seen.meet(&register).unwrap(), first);
    drop(register);
    // It grows, also by programs that keep nothing.
    drop(save(&path));
    let register = save(&path);
    let later = seen.meet(&register).unwrap();
    assert_eq!((later.saves, later.sheets), (8, 3));
    drop(register);

    fs::write(&path, &old).unwrap();
    let register = Register::open(&path).unwrap();
    for _ in 0..2 {
        let error = seen.meet(&register).unwrap_err();
        let Fault::SetBack { seen, now } = &error.fault else {
            panic!("{error}");
        };
        assert_eq!((&**seen, *now), (&later.whole(), first));
        let told = error.show(Words::ENGLISH);
        for head in [later, first] {
            assert!(told.contains(&head.to_string()), "{told}");
        }
    }
    assert_eq!(seen.of(&path).unwrap(), Some(later.whole()));
    let (before, now) = seen.accept(&register).unwrap();
    assert_eq!((before, now), (Some(later.whole()), first));
    assert_eq!(seen.meet(&register).unwrap(), first);
    // One file, whole.
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1);
}

#[test]
fn heads_are_kept_per_place_and_a_broken_one_is_not_guessed() {
    let directory = tempfile::tempdir().unwrap();
    let folder = directory.path().join("seen");
    let seen = SeenHeads::in_folder(&folder);
    let paths = ["one.sqlite3", "two.sqlite3"].map(|name| directory.path().join(name));
    let [first, second] = [save(&paths[0]), save(&paths[1])];
    seen.meet(&first).unwrap();
    seen.meet(&second).unwrap();
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 2);
    for entry in fs::read_dir(&folder).unwrap() {
        let file = entry.unwrap().path();
        let text = fs::read_to_string(&file).unwrap();
        for broken in [
            &text[..text.len() - 9],
            "",
            "millrace seen head 2\n\"\"\n1-0-0123-4567-89ab-cdef\n",
        ] {
            fs::write(&file, broken).unwrap();
            let told = [&first, &second].map(|register| seen.meet(register));
            let refused = told.iter().filter(|told| {
                matches!(told, Err(error) if matches!(error.fault, Fault::SeenHead) && error.path == file)
            });
            assert_eq!(refused.count(), 1, "{told:?}");
        }
        fs::write(&file, text).unwrap();
    }
    let file = fs::read_dir(&folder)
        .unwrap()
        .next()
        .unwrap()
        .unwrap()
        .path();
    fs::write(&file, "x").unwrap();
    for register in [&first, &second] {
        seen.accept(register).unwrap();
        seen.meet(register).unwrap();
    }
}

/// Only what came since is read again; it is the head of somebody who reads all of it.
#[test]
fn a_head_that_is_read_on_is_the_whole_one() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    let mut first = Register::open(&path).unwrap();
    let mut second = Register::open(&path).unwrap();
    let mut heads = vec![first.head().unwrap()];
    for round in 0..6_u8 {
        let case = CaseId::from_bytes([round + 1; 16]);
        let writer = [&mut first, &mut second]
            .into_iter()
            .nth(usize::from(round % 2))
            .unwrap();
        writer.save(case, None, &signable(), stamp()).unwrap();
        if round % 3 == 0 {
            writer.sign(case, 1, signing(-30)).unwrap();
        }
        let whole = Register::open(&path).unwrap().head().unwrap();
        assert_eq!(first.head().unwrap(), whole);
        assert!(!heads.contains(&whole));
        heads.push(whole);
    }
    assert_eq!(second.head().unwrap(), first.head().unwrap());
    let now = first.head().unwrap();
    assert_eq!((now.saves, now.sheets), (6, 2));
    for then in &heads[..6] {
        let then = then.to_string().parse().unwrap();
        assert_eq!(
            first.standing_to(&then).unwrap(),
            HeadStanding::Grown { now }
        );
    }
}
