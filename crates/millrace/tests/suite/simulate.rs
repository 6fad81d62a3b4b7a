//! `millrace simulate`: the stated intervals hold what they promise, whatever the number of threads.

use std::process::Command;

use crate::support::{millrace_in, root};
use serde_json::Value;

fn simulated(eyes: &str, seed: &str) -> Value {
    let arguments = [
        "simulate", "--eyes", eyes, "--seed", seed, "--format", "json",
    ];
    let run = millrace_in(&root(), &arguments);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    serde_json::from_str(&run.out).expect("valid JSON")
}

/// The share of `level` in `part`, and the number of its eyes.
fn assert_covers(part: &Value, eyes: f64, allowed: f64, what: &str) {
    for (level, nominal) in [("50", 0.50), ("80", 0.80), ("95", 0.95)] {
        let share = part["coverage"][level].as_f64().expect("a share");
        // Four standard errors of sampling beside what is allowed.
        let sampling: f64 = 4.0 * (nominal * (1.0 - nominal) / eyes).sqrt();
        let off = (share - nominal).abs();
        assert!(off <= allowed + sampling, "{what}, {level} %: {share}");
    }
}

/// The promise itself: within 1 percentage point over all eyes and 2 in each band of axial length,
/// beside the sampling error of this many eyes.
#[test]
fn the_intervals_hold_what_they_promise() {
    let report = simulated("20000", "20261125");
    let eyes = report["eyes"].as_f64().expect("a number");
    assert_covers(&report, eyes, 0.01, "all eyes");
    let bands = report["bands"].as_array().expect("bands");
    assert_eq!(bands.len(), 4);
    let mut counted = 0.0;
    for band in bands {
        let eyes = band["eyes"].as_f64().expect("a number");
        assert_covers(band, eyes, 0.02, &band["axial_length_mm"].to_string());
        counted += eyes;
    }
    let without = report["without_answer"].as_f64().expect("a number");
    assert!((counted + without - eyes).abs() < 0.5);
    for formula in report["formulas"].as_array().expect("formulas") {
        let eyes = formula["eyes"].as_f64().expect("a number");
        let own = serde_json::json!({ "coverage": formula["own_coverage"] });
        assert_covers(&own, eyes, 0.01, &formula["formula"].to_string());
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_any_number_of_threads() {
    let run = |threads: &str, seed: &str| {
        let output = Command::new(env!("CARGO_BIN_EXE_millrace"))
            .args([
                "simulate", "--eyes", "5000", "--seed", seed, "--format", "json",
            ])
            .env("RAYON_NUM_THREADS", threads)
            .output()
            .expect("the program starts");
        assert!(output.status.success());
        output.stdout
    };
    let alone = run("1", "7");
    assert_eq!(alone, run("1", "7"));
    for threads in ["2", "3", "16"] {
        assert_eq!(alone, run(threads, "7"), "{threads}");
    }
    assert_ne!(alone, run("1", "8"));
}

#[test]
fn no_eyes_are_refused_and_the_text_says_what_was_done() {
    let none = millrace_in(&root(), &["simulate", "--eyes", "0", "--seed", "1"]);
    assert_eq!(none.code, 2);
    assert_eq!(
        none.err,
        "millrace: simulation refused: 0 eyes are outside 1 to 100000000\n"
    );
    let text = millrace_in(
        &root(),
        &["simulate", "--eyes", "500", "--seed", "1", "--width", "100"],
    );
    for expected in [
        "Simulated eyes: 500, seed 1",
        "all eyes",
        "SRK/T, pooled range",
        "invented",
    ] {
        assert!(text.out.contains(expected), "{expected}");
    }
}
