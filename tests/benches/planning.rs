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
use millrace_core::chamber::{
    ChamberSection, DIVISIONS, Nearness, Proximity, Spheroid, Under, Worked,
};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::limits::Limits;
use millrace_core::plan::{Plan, formula_inputs, plan_certainty, toric_plan};
use millrace_core::quantity::{Diopters, Micrometers};

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
    let record = draft.lens.record().expect("a lens");
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
    let inputs = formula_inputs(&draft.eyes.right, &draft.lens, draft.lens.record());
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

/// Seven divisions of a hard nucleus at one plane, and everything the page shows of an eye.
fn proximity(criterion: &mut Criterion) {
    let nucleus = Spheroid {
        across: 4.25,
        along: 2.0,
    };
    let under = Under {
        back_radius: 6.4,
        distance: 2.26,
    };
    criterion.bench_function("margins of seven divisions at one plane", |bencher| {
        bencher.iter(|| {
            let under = black_box(under);
            DIVISIONS.map(|division| Nearness::of(division, nucleus, under))
        });
    });
    let draft = demo("hard-and-shallow");
    let eye = &draft.eyes.get(draft.operation.eye.expect("an eye"));
    let section = ChamberSection::of(eye).expect("a section");
    let worked = Worked {
        nucleus: draft.approach.nucleus.expect("a nucleus"),
        size: None,
        deepening: Micrometers::new(0),
        depth_spread: Some(0.047),
    };
    criterion.bench_function("proximity at every plane with its ranges", |bencher| {
        bencher.iter(|| Proximity::of(black_box(&section), &worked));
    });
}

criterion_group!(benches, ladder, formulas, certainty, proximity);
criterion_main!(benches);
