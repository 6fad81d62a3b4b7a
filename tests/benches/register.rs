//! How long the register takes with 100,000 cases: open, save, list, search.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "evidence fails loudly, in helpers as in tests; a bench reads the clock"
)]

use std::hint::black_box;
use std::ops::ControlFlow;
use std::path::Path;
use std::time::Instant;

use chrono::{Days, NaiveDate};
use criterion::{Criterion, criterion_group, criterion_main};
use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_register::{CaseId, Cases, Register, Sequence, Stamp, Window};

const CASES: u32 = 100_000;
/// Invented, and as unevenly used as names are: the first of each list by every second patient.
const FAMILY: [&str; 20] = [
    "Ångström",
    "Weir",
    "Sluice",
    "Abernethy",
    "Brandt",
    "Carver",
    "Delacroix",
    "Eklund",
    "Ferreira",
    "Galloway",
    "Halvorsen",
    "Ivarsson",
    "Jordan",
    "Kowalska",
    "Lindqvist",
    "Marchetti",
    "Nakagawa",
    "Okonjo",
    "Petrosyan",
    "Quaye",
];
const GIVEN: [&str; 16] = [
    "Anna", "Élise", "Bjørn", "Chidi", "Dagny", "Emil", "Farid", "Greta", "Hisae", "Ida", "Jürgen",
    "Karin", "Lukas", "Miriam", "Noor", "Odile",
];

fn stamp() -> Stamp<'static> {
    Stamp {
        desk: None,
        by: "A. Okafor",
        at: "2026-11-24T10:15:30Z".parse().unwrap(),
        program: "millrace bench",
    }
}

fn demo() -> Draft {
    let path = format!(
        "{}/../demo-data/cases/ordinary-eye.ron",
        env!("CARGO_MANIFEST_DIR")
    );
    case_file::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The names at an index, halving from one to the next.
fn uneven(names: &[&'static str], index: u32) -> &'static str {
    let place = usize::try_from(index.wrapping_mul(2_654_435_769).leading_zeros()).unwrap();
    names[(place + usize::try_from(index / 64 % 7).unwrap()) % names.len()]
}

fn patient(base: &Draft, index: u32) -> Draft {
    let mut draft = base.clone();
    let (family, given) = (uneven(&FAMILY, index), uneven(&GIVEN, index.reverse_bits()));
    draft.patient.name = Some(format!("{family}-{:05}, {given}", index / 3));
    draft.patient.number = Some(format!("HN {:02}-{:05}", index % 97, index));
    let first = NaiveDate::from_ymd_opt(2018, 1, 1).unwrap();
    draft.operation.date = first.checked_add_days(Days::new(u64::from(index % 4_000)));
    draft
}

fn fill(path: &Path) -> Register {
    let base = demo();
    let mut register = Register::open(path).unwrap();
    let start = Instant::now();
    let mut done = 0;
    while done < CASES {
        let drafts: Vec<_> = (done..done + 5_000)
            .map(|index| patient(&base, index))
            .collect();
        register.import(&drafts, stamp()).unwrap();
        done += 5_000;
    }
    println!(
        "{CASES} cases imported in {:.1} s",
        start.elapsed().as_secs_f64()
    );
    register
}

fn once(directory: &Path, register: &mut Register) {
    let megabytes = std::fs::metadata(register.path()).unwrap().len() / 1_000_000;
    let start = Instant::now();
    let report = register.check(&mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!((report.cases, report.problems), (u64::from(CASES), vec![]));
    println!(
        "check of {megabytes} MB in {:.1} s",
        start.elapsed().as_secs_f64()
    );
    let start = Instant::now();
    let backup = directory.join("backup.sqlite3");
    register
        .backup(&backup, &mut |_| ControlFlow::Continue(()))
        .unwrap();
    println!("backup in {:.1} s", start.elapsed().as_secs_f64());
    std::fs::remove_file(backup).unwrap();
    for typed in SEARCHES {
        let found = register.count_found(typed).unwrap();
        println!("\"{typed}\" finds {found} cases");
    }
}

/// "hn" finds every case: a beginning that all hospital numbers share.
const SEARCHES: [&str; 10] = [
    "ang",
    "hn",
    "h",
    "0",
    "hn a",
    "a",
    "weir an",
    "sluice-00",
    "40-00040",
    "nobody",
];
/// What a list on a screen shows at once.
const SCREEN: u32 = 50;

fn register(criterion: &mut Criterion) {
    // Beside the build, so that it lies on the drive and not in memory.
    let directory = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let path = directory.path().join("register.sqlite3");
    let mut register = fill(&path);
    once(directory.path(), &mut register);
    let name = "register, 100,000 cases: open and first screen";
    criterion.bench_function(name, |bencher| {
        bencher.iter(|| {
            let register = Register::open(black_box(&path)).unwrap();
            register.list(Cases::InUse, screen_at(0)).unwrap()
        });
    });
    listing(criterion, &register);
    searching(criterion, &register);
    saving(criterion, &mut register);
}

const fn screen_at(offset: u32) -> Window {
    Window {
        offset,
        limit: SCREEN,
    }
}

fn listing(criterion: &mut Criterion, register: &Register) {
    for (place, offset) in [
        ("first", 0),
        ("middle", CASES / 2),
        ("last", CASES - SCREEN),
    ] {
        let name = format!("register, 100,000 cases: {place} screen of the list");
        criterion.bench_function(&name, |bencher| {
            bencher.iter(|| register.list(Cases::InUse, screen_at(offset)).unwrap());
        });
    }
    criterion.bench_function("register, 100,000 cases: what changed since", |bencher| {
        let all = register.changed_since(Sequence::START).unwrap();
        let newest = all.last().map(|entry| entry.sequence).unwrap();
        bencher.iter(|| register.changed_since(black_box(newest)).unwrap());
    });
}

fn searching(criterion: &mut Criterion, register: &Register) {
    for typed in SEARCHES {
        let name = format!("register, 100,000 cases: search \"{typed}\"");
        criterion.bench_function(&name, |bencher| {
            bencher.iter(|| register.search(black_box(typed), screen_at(0)).unwrap());
        });
    }
}

fn saving(criterion: &mut Criterion, register: &mut Register) {
    let case = register.search("40-00040", Window::ALL).unwrap()[0].case;
    criterion.bench_function("register, 100,000 cases: load a case", |bencher| {
        bencher.iter(|| register.load(black_box(case)).unwrap());
    });
    let base = demo();
    let name = "register, 100,000 cases: save a new case, durably";
    criterion.bench_function(name, |bencher| {
        let mut index = CASES;
        bencher.iter(|| {
            index += 1;
            let draft = patient(&base, index);
            let new = CaseId::random().unwrap();
            register.save(new, None, &draft, stamp()).unwrap()
        });
    });
    let mut newest = register.load(case).unwrap();
    let name = "register, 100,000 cases: save a revision, durably";
    criterion.bench_function(name, |bencher| {
        bencher.iter(|| {
            let expected = Some(newest.entry.number);
            newest.entry = register
                .save(case, expected, &newest.draft, stamp())
                .unwrap();
        });
    });
}

criterion_group!(benches, register);
criterion_main!(benches);
