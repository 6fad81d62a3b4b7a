//! How often each rule fires. A rule that speaks about nearly every eye is not read when it matters.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::LazyLock;

use millrace_core::biometry::Side;
use millrace_core::limits::Limits;
use millrace_core::rules::{ALL, Facts, Verdict};
use rayon::iter::{IntoParallelRefIterator as _, ParallelIterator as _};

use crate::whole_cases::{Cases, Kind};

const ORDINARY: usize = 10_000;
const HARD: usize = 1_000;

/// Rules that may speak of more than a fifth of the eyes they are asked about, and why.
const OFTEN: [(&str, &str); 3] = [
    (
        "DP-03",
        "a chamber under 3 mm is worked in deeper, with more viscoelastic",
    ),
    (
        "FD-01",
        "which formula to trust is decided where they disagree",
    ),
    ("TO-09", "a toric lens is offered"),
];

/// What was found of each case: the ids, in the order of the registry.
fn findings(kind: Kind, count: usize) -> Vec<Vec<&'static str>> {
    let drafts: Vec<_> = Cases::new(kind, 15).take(count).collect();
    drafts
        .par_iter()
        .map(|draft| {
            let facts = Facts::of(draft, Side::Right, Limits::shipped());
            let found = ALL.iter();
            found
                .filter(|rule| matches!(rule.verdict(&facts), Verdict::Finding(_)))
                .map(|rule| rule.id)
                .collect()
        })
        .collect()
}

static ORDINARY_EYES: LazyLock<Vec<Vec<&'static str>>> =
    LazyLock::new(|| findings(Kind::Ordinary, ORDINARY));
static HARD_EYES: LazyLock<Vec<Vec<&'static str>>> = LazyLock::new(|| findings(Kind::Hard, HARD));

fn counts(cases: &[Vec<&'static str>]) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    for id in cases.iter().flatten() {
        *counts.entry(*id).or_default() += 1;
    }
    counts
}

/// Tenths of a percent, so that a page does not turn on the last eye.
fn share(count: usize, of: usize) -> String {
    let tenths = (count * 1_000 + of / 2) / of;
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// The table of the page of rules.
pub(crate) fn section() -> String {
    let [ordinary, hard] = [&*ORDINARY_EYES, &*HARD_EYES].map(|cases| counts(cases));
    let mut text = format!(
        "## How often each rule fires\n\nOver {ORDINARY} drawn ordinary eyes and {HARD} with a hard nucleus, in percent; rules that fire for none of them are left out.\nThe eyes are those of `tests/evidence/whole_cases.rs`: the printed population of `millrace simulate`, planned by the formula and the power that guidance names, nothing else wrong with them.\nA real clinic sees more: its patients have findings that these have not.\n\n| rule | | ordinary | hard |\n|---|---|---|---|\n"
    );
    for rule in ALL {
        let [ordinary, hard] =
            [&ordinary, &hard].map(|counts| counts.get(rule.id).copied().unwrap_or(0));
        if ordinary + hard == 0 {
            continue;
        }
        let _ = writeln!(
            text,
            "| {} | {} | {} | {} |",
            rule.id,
            rule.title,
            share(ordinary, ORDINARY),
            share(hard, HARD)
        );
    }
    text
}

/// A rule that fires for more than a fifth of the ordinary eyes is noise, unless it changes what
/// somebody would do.
#[test]
fn no_rule_is_noise() {
    let counts = counts(&ORDINARY_EYES);
    let noisy: Vec<_> = counts
        .iter()
        .filter(|(id, count)| ORDINARY / 5 < **count && OFTEN.iter().all(|(often, _)| often != *id))
        .collect();
    assert!(noisy.is_empty(), "{noisy:?} of {ORDINARY}");
}

#[test]
fn an_ordinary_eye_has_at_most_two_findings() {
    let mut findings: Vec<_> = ORDINARY_EYES[..1_000].iter().map(Vec::len).collect();
    findings.sort_unstable();
    assert!(findings[500] <= 2, "{}", findings[500]);
}
