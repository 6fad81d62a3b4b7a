//! Who, and which eye: two identifiers and the eye in words, before anything else.

use millrace_core::case::{Draft, Sex};
use millrace_core::plan::{Evaluated, Plan};
use millrace_core::rules::Severity;
use millrace_wording::text::banner as say;
use millrace_wording::{Show as _, rules, terms};

use crate::page::{HEADING, Page, REVIEW, STOP};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    write_identity(page, draft, plan);
    page.blank();
    write_counts(page, plan);
    for severity in [Severity::Stop, Severity::Review] {
        for found in plan.findings(severity) {
            write_found(page, found);
        }
    }
    write_changed_limits(page, plan);
}

/// Each limit of the clinic's own, whatever else is printed.
pub(super) fn write_changed_limits(page: &mut Page, plan: &Plan) {
    for change in plan.limits.changed() {
        page.hanging(
            "▲ ",
            2,
            &say::changed_limit(page.words(), change.name, &change.in_use, &change.shipped),
        );
    }
}

/// Both identifiers and the eye in words: at the head of the plan and again at its foot.
pub(super) fn write_identity(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    let number = patient
        .number
        .as_deref()
        .map(|number| say::number(words, number));
    let mut who = vec![
        name.unwrap_or_else(|| say::name_missing(words).to_owned()),
        number.unwrap_or_else(|| say::number_missing(words).to_owned()),
    ];
    who.push(match (patient.birth_date, plan.age) {
        (Some(born), Some(age)) => say::born_aged(words, born, age),
        (Some(born), None) => say::born(words, born),
        (None, _) => say::birth_date_missing(words).to_owned(),
    });
    who.extend(patient.sex.map(|sex| {
        match sex {
            Sex::Female => say::female(words),
            Sex::Male => say::male(words),
            Sex::Other => say::other_sex(words),
        }
        .to_owned()
    }));
    page.hanging("", 2, &format!("{HEADING}{}{HEADING:#}", who.join("   ")));
    let when = draft.operation.date.map_or_else(
        || say::no_operation_day(words).to_owned(),
        |day| say::operation_on(words, day),
    );
    let eye = terms::eye_capitals(words, plan.side);
    let not_signed = say::not_signed(words);
    page.line(&format!(
        "{HEADING}{eye}{HEADING:#}   {when}   {not_signed}"
    ));
}

/// What the program is for, and what it is not.
pub(super) fn write_caution(page: &mut Page) {
    page.hanging("", 0, say::caution(page.words()));
}

/// How many findings of each severity there are, and whether one forbids signing.
pub(super) fn write_counts(page: &mut Page, plan: &Plan) {
    let words = page.words();
    let of = |severity| plan.findings(severity).count();
    let (stop, review, note) = (of(Severity::Stop), of(Severity::Review), of(Severity::Note));
    let open = plan
        .findings(Severity::Review)
        .filter(|finding| finding.is_open())
        .count();
    let red = if stop == 0 { HEADING } else { STOP };
    let yellow = if open == 0 { HEADING } else { REVIEW };
    let counts = format!(
        "{red}■ {}{red:#}   {yellow}▲ {}{yellow:#} {}   ● {}   ○ {}",
        say::stops(words, stop),
        say::reviews(words, review),
        say::without_a_reason(words, open),
        say::notes(words, note),
        say::not_evaluated(words, plan.not_evaluated().count())
    );
    page.hanging("", 2, &counts);
    if 0 < stop {
        let forbidden = say::cannot_be_signed(words);
        page.line(&format!("{STOP}{forbidden}{STOP:#}"));
    }
}

/// One finding in a line.
pub(super) fn write_found(page: &mut Page, found: &Evaluated) {
    let words = page.words();
    let reason = if found.is_open() {
        String::new()
    } else {
        format!("  {}", say::reason_recorded(words))
    };
    let severity = found.rule.severity.show(words);
    let first = format!("  {severity:<6}  {:<6} ", found.rule.id);
    let title = rules::title(words, found.rule.title, found.backup);
    page.hanging(&first, 17, &format!("{title}{reason}"));
}

/// "Okonjo, Adaeze" → "OKONJO, Adaeze".
fn capital_family_name(name: &str) -> String {
    match name.split_once(',') {
        Some((family, given)) => format!("{},{given}", family.to_uppercase()),
        None => name.to_owned(),
    }
}
