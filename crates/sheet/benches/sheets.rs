//! How long sheets take: one after others, as a file and as a picture, and a theatre list of 200.

#![allow(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]

use std::hint::black_box;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Paper, Setting, Sheet, Template, pdfs};
use millrace_wording::Words;

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

/// Demo cases of different patients with much to print, again and again under other names. A plan
/// comes again only after so many others that the layout engine has forgotten it.
fn plans(count: usize) -> Vec<SignedPlan> {
    let drafts: Vec<_> = support::cases()
        .into_iter()
        // The hard case is made of these two.
        .filter(|(name, _)| name != "astigmatic-eye" && name != "hard-and-shallow")
        .map(|(_, draft)| support::hard::full_theatre(draft))
        .filter(|draft| support::signed(draft).is_ok())
        .collect();
    (0..count)
        .zip(drafts.into_iter().cycle())
        .map(|(index, mut draft)| {
            draft.patient.name = Some(format!("Thorvald-Ames, Ingrid {index}"));
            draft.patient.number = Some(format!("31-{index:04}"));
            support::signed(&draft).unwrap()
        })
        .collect()
}

/// A hard toric sheet, each after sheets of others: more than the layout engine remembers.
fn one(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let plan = support::signed(&support::hard::toric_and_hard()).unwrap();
    let sheet = || Sheet::signed(black_box(&plan), setting).unwrap();
    let others = plans(64);
    let mut others = others.iter().cycle();
    let mut after_others = || {
        for other in others.by_ref().take(2 * rayon::current_num_threads()) {
            Sheet::signed(other, setting).unwrap();
        }
    };
    let mut time = |name: &str, make: &dyn Fn() -> usize| {
        criterion.bench_function(name, |bencher| {
            bencher.iter_batched(&mut after_others, |()| make(), BatchSize::PerIteration);
        });
    };
    time("one sheet, laid out", &|| sheet().page_count());
    time("one sheet, as a PDF", &|| sheet().pdf().unwrap().len());
    let own = Template::with_arrangement(Template::shipped_arrangement().to_owned());
    let by_a_clinic = Setting {
        template: &own,
        ..setting
    };
    time("one sheet, laid out by a clinic's arrangement", &|| {
        Sheet::signed(black_box(&plan), by_a_clinic)
            .unwrap()
            .page_count()
    });
    time(
        "one sheet, first page as a picture, 2 pixels per point",
        &|| sheet().page(0, 2.0).unwrap().rgba.len(),
    );
}

fn list(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
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
