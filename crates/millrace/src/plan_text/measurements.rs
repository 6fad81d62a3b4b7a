//! What the plan rests on: the operated eye's measurements with method, day and person. The fellow
//! eye's numbers are not printed: one eye at a time.

use millrace_core::case::Draft;
use millrace_core::document::Derived;
use millrace_core::plan::Plan;
use millrace_wording::measurements::{derived, missing, rows};
use millrace_wording::{Show, Words};

use crate::page::Page;

/// What stands where nothing is known.
const NOTHING: &str = "–";

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan, words: Words) {
    page.heading(&format!("Measurements of the {}", plan.side));
    let eye = draft.eyes.get(plan.side);
    let mut table = Vec::new();
    for row in rows(words, eye) {
        let recorded = row.recorded;
        table.push(vec![
            row.name,
            row.value,
            recorded.method.show(words).into_owned(),
            or_nothing(recorded.spread, words),
            or_nothing(recorded.on, words),
            or_nothing(recorded.by, words),
        ]);
    }
    let mut plain = |name: &str, value: String, from: &str| {
        let row = [name, &value, from, "", "", ""];
        table.push(row.map(str::to_owned).to_vec());
    };
    for row in derived(words, eye, &Derived::of(eye)) {
        plain(row.name, row.value, row.from);
    }
    if let Some(grade) = eye.state.nucleus {
        plain("Nucleus", grade.to_string(), "");
    }
    let header = ["", "value", "method", "SD", "day", "who"].map(str::to_owned);
    page.table_of_words(&header, table, &[1, 2, 4, 5]);
    if let Some(missing) = missing(words, eye) {
        page.hanging(" ", 3, &format!("Not measured: {missing}."));
    }
}

fn or_nothing(known: Option<impl Show>, words: Words) -> String {
    known.map_or_else(
        || NOTHING.to_owned(),
        |known| known.show(words).into_owned(),
    )
}
