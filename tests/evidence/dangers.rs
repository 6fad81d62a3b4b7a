//! Every known danger is found and written into the document, alone and beside another, in eyes drawn at
//! random.

use millrace_core::case::Draft;
use millrace_core::document::PlanDocument;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;
use rand_distr::{Distribution as _, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};
use serde_json::Value;

#[path = "../dangers/mod.rs"]
mod table;

use crate::whole_cases::{Cases, Kind};
use table::{ALL, Danger, close, ordinary};

fn plan(draft: &Draft) -> Plan {
    Plan::of(draft, Limits::shipped()).unwrap()
}

#[test]
fn every_danger_is_found_and_stands_in_the_document() {
    let untouched = plan(&ordinary());
    let failures: Vec<_> = ALL
        .iter()
        .filter_map(|danger| Some((danger.name, seen(&untouched, danger).err()?)))
        .collect();
    assert_eq!(failures, [], "{}", failures.len());
}

/// That nothing is found before, the finding afterwards, and its entry in the document.
fn seen(untouched: &Plan, danger: &Danger) -> Result<(), &'static str> {
    if danger.found(untouched).is_some() {
        return Err("was found before it was entered");
    }
    let plan = danger.plan();
    let (found, _) = danger.found(&plan).ok_or("is silent")?;
    if found.rule.severity != danger.severity {
        return Err("has another severity");
    }
    let document = serde_json::to_value(PlanDocument::of(&plan, "test")).unwrap();
    let rules = document["results"]["rules"].as_array().unwrap();
    let place = serde_json::to_value(danger.backup).unwrap();
    let mut entries = rules.iter().filter(|it| {
        let backup = it.get("backup").unwrap_or(&Value::Null);
        it["id"] == danger.rule && *backup == place
    });
    let entry = entries.next().ok_or("is not in the document")?;
    if !entry["verdict"]["finding"].is_object() {
        return Err("is no finding in the document");
    }
    Ok(())
}

/// Names are what the report of a failure and the note of a release are read by.
#[test]
fn no_danger_stands_twice() {
    let names: std::collections::BTreeSet<_> = ALL.iter().map(|it| close(it.name)).collect();
    assert_eq!(names.len(), ALL.len());
}

/// Where the danger entered first takes the ground from the one entered last: what was entered, the rule
/// that then has nothing to say, and why.
const SILENCED: [(&str, &str, &str); 4] = [
    (
        "silicone oil, length uncorrected",
        "PW-06",
        "nothing is predicted from such a length",
    ),
    (
        "A constant 117.8 for 118.7",
        "CT-05",
        "converted constants are not compared, and CT-03 stops",
    ),
    (
        "refinement by a first eye that ended far off",
        "AN-01",
        "that eye's refraction after its operation counts",
    ),
    (
        "capsulorhexis too small for the whole nucleus",
        "AP-01",
        "small-incision surgery is chosen",
    ),
];

/// A thousand drawn ordinary eyes, each with two dangers that ask for a reason or forbid signing. Without
/// them, nothing is open in most.
#[test]
fn no_eye_with_two_dangers_is_signed_without_a_stop_or_a_reason() {
    let grave: Vec<_> = ALL
        .iter()
        .filter(|it| it.severity != Severity::Note)
        .collect();
    let mut random = Xoshiro256PlusPlus::seed_from_u64(20_261_127);
    let which = Uniform::new(0, grave.len()).unwrap();
    let drawn: Vec<_> = Cases::new(Kind::Ordinary, 27)
        .filter(|draft| draft.lens.power().is_some())
        .take(1_000)
        .map(|mut draft| {
            let (one, other) = loop {
                let pair = (which.sample(&mut random), which.sample(&mut random));
                if pair.0 != pair.1 {
                    break pair;
                }
            };
            let pair = [grave[one], grave[other]];
            for danger in pair {
                (danger.enter)(&mut draft);
            }
            (pair, draft)
        })
        .collect();
    let failures: Vec<String> = drawn
        .into_par_iter()
        .filter_map(|(pair, draft)| {
            let plan = plan(&draft);
            let open = [Severity::Stop, Severity::Review]
                .into_iter()
                .flat_map(|severity| plan.findings(severity))
                .filter(|it| it.is_open())
                .count();
            // What was entered first may be overwritten, or a graver rule speak in its place.
            let [first, last] = pair;
            let is_silenced = SILENCED
                .iter()
                .any(|(name, rule, _)| (*name, *rule) == (first.name, last.rule));
            let silent = last.found(&plan).is_none() && !is_silenced;
            (open == 0 || silent).then(|| {
                let told = if silent { "silent" } else { "found" };
                format!("{open} open; {}, then {}: {told}", first.name, last.name)
            })
        })
        .collect();
    assert_eq!(failures, [""; 0], "{}", failures.len());
}
