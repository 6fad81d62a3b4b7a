//! Pages generated from core alone: current, or the test fails and says how to renew them.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use millrace_core::evidence::Standing;
use millrace_core::iol_power::Formula;
use millrace_core::reference::{self, FORMULAS, FormulaText};

use crate::check_values::{self, Origin};
use crate::support::{assert_current, read, table};
use crate::{oracle, thick_lens, toric};

/// How many checks of each origin stand behind an entry.
fn counts(entry: &FormulaText) -> BTreeMap<Origin, usize> {
    let mut counts: BTreeMap<Origin, usize> = BTreeMap::new();
    for check in check_values::all() {
        if check.subject == entry.key {
            *counts.entry(check.origin).or_default() += 1;
        }
    }
    let second = match Formula::THIN_LENS
        .into_iter()
        .find(|formula| formula.key() == entry.key)
    {
        Some(formula) => oracle::answered(formula),
        None if entry.key == "thick_lens" => table(thick_lens::EYES).records().count(),
        None if entry.key == "toric_eye" => table(toric::EYES).records().count(),
        None => 0,
    };
    *counts.entry(Origin::IndependentImplementation).or_default() += second;
    counts
}

fn checks(entry: &FormulaText) -> String {
    let counts = counts(entry);
    let count = |origin| counts.get(&origin).copied().unwrap_or(0);
    format!(
        "published example {} · example in a summary {} · published table {} · second implementation {} · by hand {}",
        count(Origin::PublishedExample),
        count(Origin::SecondaryExample),
        count(Origin::PublishedTable),
        count(Origin::IndependentImplementation),
        count(Origin::HandArithmetic),
    )
}

/// What stands behind the equations, in one sentence that nobody can embellish.
fn evidence_sentence() -> String {
    let all: Vec<_> = FORMULAS.iter().map(counts).collect();
    let sum = |origin| -> usize {
        let counts = all.iter().map(|counts| counts.get(&origin).copied());
        counts.map(Option::unwrap_or_default).sum()
    };
    let memory = FORMULAS
        .iter()
        .filter(|entry| entry.standing == Standing::Memory)
        .count();
    format!(
        "Of the {} equations, **{memory} are written from memory of their papers**; their checks are **{} worked examples printed by the authors or, of plain optics, in a textbook**, {} published table values, {} examples from summaries, {} values worked by hand, and {} eyes computed by a second implementation that agrees to 10⁻⁹: the same reading of the same equation, not proof that the equation is right ([support table](docs/formulas.md#support)).\n",
        FORMULAS.len(),
        sum(Origin::PublishedExample),
        sum(Origin::PublishedTable),
        sum(Origin::SecondaryExample),
        sum(Origin::HandArithmetic),
        sum(Origin::IndependentImplementation),
    )
}

fn support_table() -> String {
    let mut text = String::from(
        "| formula | standing | checks by origin | validity | known differences |\n|---|---|---|---|---|\n",
    );
    for entry in &FORMULAS {
        let _ = writeln!(
            text,
            "| {} | {} | {} | {} | {} |",
            entry.title,
            entry.standing,
            checks(entry),
            entry.validity,
            entry.known_differences
        );
    }
    text
}

#[test]
fn the_formula_reference_is_current() {
    let mut page = String::from(
        "# Formulas\n\nGenerated from the reference text beside each formula's code; `millrace formulas` prints the same.\n\n## Support\n\n",
    );
    page.push_str(&support_table());
    page.push_str("\nStanding of a number:\n\n");
    page.push_str(&reference::standings());
    for entry in &FORMULAS {
        let _ = write!(page, "\n{}", entry.section());
    }
    assert_current("docs/formulas.md", &page);
}

/// The README says what stands behind the equations, with the counts of the support table.
#[test]
fn the_readme_says_what_stands_behind_the_equations() {
    const START: &str = "<!-- evidence: generated -->\n";
    const END: &str = "<!-- end of evidence -->\n";
    let readme = read("README.md");
    let (before, rest) = readme
        .split_once(START)
        .expect("the README marks the start of the sentence");
    let (_, after) = rest
        .split_once(END)
        .expect("the README marks the end of the sentence");
    let generated = format!("{before}{START}{}{END}{after}", evidence_sentence());
    assert_current("README.md", &generated);
}
