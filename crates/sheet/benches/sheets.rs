//! How long sheets take: one after others, as a file and as a picture, and a theatre list of 200.

#![allow(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Paper, Setting, Sheet, Template, pdfs};

#[allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "it belongs to the tests, and this takes what it needs of it"
)]
#[path = "../tests/suite/support/mod.rs"]
mod support;

/// Plans of different patients: nothing of one sheet serves the next.
fn plans(count: usize) -> Vec<SignedPlan> {
    let draft = support::hard::toric_and_hard();
    (0..count)
        .map(|index| {
            let mut draft = draft.clone();
            draft.patient.name = Some(format!("Thorvald-Ames, Ingrid {index}"));
            draft.patient.number = Some(format!("31-{index:04}"));
            support::signed(&draft).unwrap()
        })
        .collect()
}

fn one(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
    };
    let plans = plans(64);
    let mut next = plans.iter().cycle();
    let mut sheet = || Sheet::signed(black_box(next.next().unwrap()), setting).unwrap();
    criterion.bench_function("one sheet, laid out", |bencher| bencher.iter(&mut sheet));
    criterion.bench_function("one sheet, as a PDF", |bencher| {
        bencher.iter(|| sheet().pdf().unwrap());
    });
    criterion.bench_function(
        "one sheet, first page as a picture, 2 pixels per point",
        |bencher| {
            bencher.iter(|| sheet().page(0, 2.0).unwrap());
        },
    );
}

fn list(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
    };
    let plans = plans(200);
    let mut group = criterion.benchmark_group("theatre list");
    group.sample_size(10);
    group.bench_function("200 sheets as PDF", |bencher| {
        bencher.iter(|| {
            let mut bytes = 0;
            for pdf in pdfs(&plans, setting, |_| ()) {
                bytes += pdf.unwrap().len();
            }
            bytes
        });
    });
    group.finish();
}

criterion_group!(benches, one, list);
criterion_main!(benches);
