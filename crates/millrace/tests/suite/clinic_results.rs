//! The clinic's own results in a lens record: read, used, said, and refused where they cannot be.

use std::fs;

use crate::support::{Run, millrace_in, root};

/// The ordinary demo eye, planned with a lens that has these results.
fn plan_with(results: &str) -> Run {
    let text = fs::read_to_string(root().join("demo-data/cases/ordinary-eye.ron")).expect("reads");
    let place = "            constants_for: optical,\n";
    assert!(text.contains(place), "the record is there");
    let with = format!("            results: [{results}],\n{place}");
    let directory = tempfile::tempdir().expect("a directory");
    fs::write(
        directory.path().join("case.ron"),
        text.replacen(place, &with, 1),
    )
    .expect("written");
    millrace_in(
        directory.path(),
        &["plan", "case.ron", "--full", "--width", "120"],
    )
}

/// By hand: published 0.463 D counts as 100 eyes, 41 eyes of 0.30 D have 40 degrees of freedom:
/// √((100·0.463² + 40·0.30²)/140) = √(25.0369/140) = 0.4229 D.
#[test]
fn own_results_draw_the_scatter_toward_them_and_it_is_said() {
    let run = plan_with("(formula: srk_t, eyes: 41, deviation_d: 0.30, on: \"2026-06-30\")");
    assert_eq!((run.err.as_str(), run.code), ("", 0));
    let words: Vec<_> = run.out.split_whitespace().collect();
    let text = words.join(" ");
    assert!(
        text.contains(
            "SRK/T 0.463 D (used 0.423 D: drawn toward the clinic's own 0.300 D in 41 eyes, 30 Jun 2026)"
        ),
        "{text}"
    );
    assert!(!text.contains("Haigis 0.437 D (used"), "{text}");
}

#[test]
fn results_that_cannot_be_are_refused_with_their_reason() {
    let of = |eyes: &str, deviation: &str| {
        format!("(formula: srk_t, eyes: {eyes}, deviation_d: {deviation}, on: \"2026-06-30\")")
    };
    let good = of("41", "0.30");
    for (results, reason) in [
        (
            format!("{good}, {good}"),
            "more than one result of SRK/T is recorded for the lens",
        ),
        (of("1", "0.30"), "number of eyes of own results 1"),
        (of("41", "0.0"), "standard deviation of own results in D 0"),
        (
            of("41", "-0.3"),
            "standard deviation of own results in D -0.3",
        ),
        (of("41", "NaN"), "NaN"),
    ] {
        let run = plan_with(&results);
        assert_eq!((run.out.as_str(), run.code), ("", 2), "{results}");
        assert!(run.err.contains(reason), "{results}: {}", run.err);
    }
}
