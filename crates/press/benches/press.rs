//! How long sheets take through the press, beside the same sheets set in this process: one after others, as
//! a file and as a picture, and a theatre list of 200.

#![allow(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]

use core::cell::{Cell, RefCell};
use std::hint::black_box;
use std::process::{Command, ExitCode};

use criterion::{BatchSize, Criterion};
use millrace_core::signing::SignedPlan;
use millrace_press::{Bounds, Press, Subject};
use millrace_sheet::{Paper, Setting, Sheet, Template, pdfs};
use millrace_wording::Words;

#[allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "it belongs to the tests of the sheet, and this takes what it needs of it"
)]
#[path = "../../sheet/tests/suite/support/mod.rs"]
mod support;

/// Set for the process that is a press.
const CHILD: &str = "MILLRACE_PRESS_OF_THE_BENCH";

/// This bench again, as a press.
fn press() -> Press {
    let program = || {
        let mut command = Command::new(std::env::current_exe()?);
        command.env(CHILD, "1");
        Ok(command)
    };
    Press::of(program, Bounds::USUAL)
}

/// Demo cases with much to print, again and again under other names, as the bench of the sheet has them.
fn plans(count: usize) -> Vec<SignedPlan> {
    let drafts: Vec<_> = support::cases()
        .into_iter()
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

const fn setting(template: &Template) -> Setting<'_> {
    Setting {
        paper: Paper::A4,
        template,
        words: Words::ENGLISH,
    }
}

/// Sheets of others that come between two that are timed: more than the layout engine remembers.
struct Others<'a> {
    plans: &'a [SignedPlan],
    setting: Setting<'a>,
}

impl Others<'_> {
    fn some<'a>(&'a self, next: &'a Cell<usize>) -> impl Iterator<Item = &'a SignedPlan> {
        let count = 2 * rayon::current_num_threads();
        let from = next.replace(next.get() + count) % self.plans.len();
        self.plans.iter().cycle().skip(from).take(count)
    }

    /// Times the same work in this process and through the press.
    fn beside(
        &self,
        (criterion, name): (&mut Criterion, &str),
        here: impl Fn() -> usize,
        there: impl Fn(&mut Press) -> usize,
    ) {
        let mut group = criterion.benchmark_group(name);
        let next = Cell::new(0);
        let others = || {
            for plan in self.some(&next) {
                Sheet::signed(plan, self.setting).unwrap();
            }
        };
        group.bench_function("in this process", |bencher| {
            bencher.iter_batched(others, |()| here(), BatchSize::PerIteration);
        });
        let press = RefCell::new(press());
        let others = || {
            for plan in self.some(&next) {
                press.borrow_mut().check(plan, self.setting).unwrap();
            }
        };
        group.bench_function("through the press", |bencher| {
            let make = |()| there(&mut press.borrow_mut());
            bencher.iter_batched(others, make, BatchSize::PerIteration);
        });
        group.finish();
    }
}

/// A hard toric sheet, each after sheets of others.
fn one(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = setting(&template);
    let plan = support::signed(&support::hard::toric_and_hard()).unwrap();
    let others = Others {
        plans: &plans(64),
        setting,
    };
    let sheet = || Sheet::signed(black_box(&plan), setting).unwrap();
    let subject = Subject::Signed(&plan);
    others.beside(
        (criterion, "one sheet, as a PDF"),
        || sheet().pdf().unwrap().len(),
        |press| press.pdf(black_box(&subject), setting).unwrap().len(),
    );
    others.beside(
        (criterion, "pictures of its pages, 2 pixels per point"),
        || sheet().pages(2.0).len(),
        |press| {
            let pages = press.pages(black_box(&subject), setting, 2.0);
            pages.unwrap().len()
        },
    );
}

fn list(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = setting(&template);
    let plans = plans(200);
    let mut group = criterion.benchmark_group("theatre list of 200 as PDF");
    group.sample_size(10);
    group.bench_function("in this process", |bencher| {
        bencher.iter(|| {
            let made = pdfs(&plans, setting, |_| ());
            made.into_iter()
                .map(|pdf| pdf.unwrap().len())
                .sum::<usize>()
        });
    });
    group.bench_function("through the press", |bencher| {
        let mut press = press();
        bencher.iter(|| {
            let made = press.pdfs(&plans, setting, |_| ());
            made.into_iter()
                .map(|pdf| pdf.unwrap().len())
                .sum::<usize>()
        });
    });
    group.finish();
}

/// The first sheet of a program that was just started: what `millrace sheet` waits for.
fn cold(criterion: &mut Criterion) {
    let template = Template::shipped();
    let setting = setting(&template);
    let plan = support::signed(&support::hard::toric_and_hard()).unwrap();
    criterion.bench_function("one sheet by a press that has to be started", |bencher| {
        bencher.iter(|| {
            let pdf = press().pdf(&Subject::Signed(black_box(&plan)), setting);
            pdf.unwrap().len()
        });
    });
}

fn main() -> ExitCode {
    if std::env::var_os(CHILD).is_some() {
        return millrace_press::serve();
    }
    let mut criterion = Criterion::default().configure_from_args();
    one(&mut criterion);
    list(&mut criterion);
    cold(&mut criterion);
    criterion.final_summary();
    ExitCode::SUCCESS
}
