//! Plans by limits at the ends of their ranges: none makes a number that is none, or takes away a result.

use millrace_core::case_file;
use millrace_core::document::PlanDocument;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;

const CASES: &[&str] = &[
    include_str!("../../../../demo-data/cases/hard-and-shallow.ron"),
    include_str!("../../../../demo-data/cases/astigmatic-eye.ron"),
    include_str!("../../../../demo-data/cases/after-myopic-surgery.ron"),
    include_str!("../../../../demo-data/cases/second-eye.ron"),
];

/// The results of a case, written so that a number that is none stands in it as one.
fn planned(case: &str, limits: &Limits) -> String {
    let draft = case_file::read(case).unwrap();
    let plan = Plan::of(&draft, limits).unwrap();
    ron::to_string(&PlanDocument::of(&plan, "evidence").results).unwrap()
}

/// How many results there are, refused ones with their reason among them; panics at a number that is none.
fn results(written: &str, by: &str) -> usize {
    for none in ["NaN", ":inf", ":-inf", "(inf", "(-inf", "[inf", ",inf"] {
        assert!(!written.contains(none), "{by}: {none}");
    }
    written.matches("answer(").count() + written.matches("refusal(").count()
}

#[test]
fn a_number_that_is_none_is_seen() {
    let text = ron::to_string(&[f64::NAN]).unwrap();
    assert!(
        std::panic::catch_unwind(|| results(&text, "")).is_err(),
        "{text}"
    );
    let text = ron::to_string(&[f64::INFINITY, f64::NEG_INFINITY]).unwrap();
    assert!(
        std::panic::catch_unwind(|| results(&text, "")).is_err(),
        "{text}"
    );
    let written = planned(CASES[0], Limits::shipped());
    assert!(results(&written, "shipped") > 10);
}

/// A limit of 0 once made a number that is none, or nothing, without a word.
#[test]
fn no_limit_at_an_end_of_its_range_takes_a_result_away() {
    let shipped = Limits::shipped();
    let mut planned_by = 0;
    for case in CASES {
        let expected = results(&planned(case, shipped), "shipped");
        for entry in shipped.catalog() {
            let name = entry.about.name;
            for end in entry.about.range.into_iter().flatten() {
                // An end that would lie over the limit it belongs to is refused by its name.
                let Ok(limits) = shipped.with(name, &format!("{end} {}", entry.about.unit)) else {
                    continue;
                };
                let by = format!("{name} {end}");
                assert_eq!(results(&planned(case, &limits), &by), expected, "{by}");
                planned_by += 1;
            }
        }
    }
    assert!(planned_by > 700, "{planned_by}");
}
