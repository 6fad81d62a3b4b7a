//! How long planning takes: the whole ladder of one eye, and formula evaluations.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "evidence fails loudly, in helpers as in tests"
)]

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_core::certainty::monte_carlo::{Draws, Question, draw};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::limits::Limits;
use millrace_core::plan::{Plan, formula_inputs, plan_certainty, toric_plan};
use millrace_core::quantity::Diopters;

fn demo(name: &str) -> Draft {
    let path = format!(
        "{}/../demo-data/cases/{name}.ron",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(path).expect("the demo is there");
    case_file::read(&text).expect("the demo reads")
}

fn ladder(criterion: &mut Criterion) {
    let draft = demo("hard-and-shallow");
    let record = draft.lens.record.as_ref().expect("a lens");
    let target = draft.lens.target.expect("a target");
    let inputs = formula_inputs(&draft.eyes.right, &draft.lens, Some(record));
    criterion.bench_function("full ladder of one eye, all formulas", |bencher| {
        bencher.iter(|| {
            let inputs = black_box(&inputs);
            Ladder::compute(
                &Formula::ALL,
                inputs,
                &record.powers,
                target,
                draft.lens.convention,
            )
        });
    });
    criterion.bench_function("whole plan of one eye", |bencher| {
        bencher.iter(|| Plan::of(black_box(&draft), Limits::shipped()));
    });
}

fn formulas(criterion: &mut Criterion) {
    let draft = demo("ordinary-eye");
    let inputs = formula_inputs(&draft.eyes.right, &draft.lens, draft.lens.record.as_ref());
    let mut group = criterion.benchmark_group("formula, eye and power for a target");
    group.throughput(Throughput::Elements(1));
    for formula in Formula::THIN_LENS.into_iter().chain([Formula::ThickLens]) {
        group.bench_function(formula.key(), |bencher| {
            bencher.iter(|| {
                let eye = formula.eye(black_box(&inputs)).expect("an answer");
                eye.value.power_for(Diopters::new(-0.25))
            });
        });
    }
    group.finish();
}

/// What every keystroke computes anew: distributions of the whole ladder with all formulas, the
/// budget, and the toric table with its rotations.
fn certainty(criterion: &mut Criterion) {
    let draft = demo("astigmatic-eye");
    let limits = Limits::shipped();
    let plan = Plan::of(&draft, limits).expect("a plan");
    let ladder = plan.ladder.as_ref().expect("a ladder");
    let eye = &draft.eyes.get(plan.side);
    criterion.bench_function("certainty of the whole ladder, all formulas", |bencher| {
        bencher.iter(|| plan_certainty(ladder, black_box(&plan.inputs), eye, &draft.lens, limits));
    });
    criterion.bench_function("toric table with rotations, all formulas", |bencher| {
        bencher.iter(|| toric_plan(black_box(&draft), eye, plan.side, Some(ladder), limits));
    });
}

/// Draws through all five formulas at once, with everything that is counted of them.
fn monte_carlo(criterion: &mut Criterion) {
    const DRAWS: u32 = 1_000_000;
    let draft = demo("ordinary-eye");
    let plan = Plan::of(&draft, Limits::shipped()).expect("a plan");
    let certainty = plan.certainty.as_ref().expect("a ladder");
    let closely = certainty.closely.as_ref().expect("a power");
    let question = Question {
        inputs: &plan.inputs,
        power: closely.power,
        predictions: &closely.predictions,
    };
    let mut group = criterion.benchmark_group("Monte Carlo");
    group.throughput(Throughput::Elements(u64::from(DRAWS)));
    group.sample_size(20);
    group.bench_function("five formulas, one eye per draw", |bencher| {
        bencher.iter(|| {
            let tallies = draw(
                black_box(question),
                Draws {
                    count: DRAWS,
                    seed: 1,
                },
            );
            let shares = [0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975];
            tallies
                .iter()
                .map(|tally| {
                    (
                        tally.mean(),
                        tally.deviation(),
                        shares.map(|s| tally.quantile(s)),
                    )
                })
                .collect::<Vec<_>>()
        });
    });
    group.finish();
}

criterion_group!(benches, ladder, formulas, certainty, monte_carlo);
criterion_main!(benches);
