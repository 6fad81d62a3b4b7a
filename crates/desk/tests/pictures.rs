//! Pictures of every page, compared with what was looked at and accepted.

mod support;

use support::{Bench, HARD_AND_SHALLOW, SMALLEST, demo, harness, light};

#[test]
fn biometry_in_light() {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, SMALLEST);
    harness.run();
    harness.snapshot("biometry_light");
}
