//! What the plan rests on: the operated eye's measurements with method, day and person. The fellow
//! eye's numbers are not printed: one eye at a time.

use millrace_core::case::Draft;
use millrace_core::document::Derived;
use millrace_core::plan::Plan;
use millrace_wording::measurements::{self as say, derived, missing, rows};
use millrace_wording::{Show, Words};

use crate::page::Page;

/// What stands where nothing is known.
const NOTHING: &str = "–";

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan, words: Words) {
    page.heading(&say::heading(words, plan.side));
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
        plain(say::nucleus(words), grade.show(words).into_owned(), "");
    }
    let header = [
        "",
        say::column_value(words),
        say::column_method(words),
        say::column_spread(words),
        say::column_day(words),
        say::column_who(words),
    ];
    page.table_of_words(&header.map(str::to_owned), table, &[1, 2, 4, 5]);
    if let Some(missing) = missing(words, eye) {
        page.hanging(" ", 3, &say::not_measured(words, missing));
    }
}

fn or_nothing(known: Option<impl Show>, words: Words) -> String {
    known.map_or_else(
        || NOTHING.to_owned(),
        |known| known.show(words).into_owned(),
    )
}
