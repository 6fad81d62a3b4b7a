//! Who, and which eye: two identifiers and the eye in words, before anything else.

use millrace_core::case::{Draft, Sex};
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;

use super::count;
use crate::day::date;
use crate::page::{HEADING, Page, REVIEW, STOP};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    write_identity(page, draft, plan);
    page.blank();
    summary(page, plan);
    for change in &plan.changed_limits {
        page.hanging(
            "▲ ",
            2,
            &format!(
                "This clinic's limit {} is {}; the shipped one is {}",
                change.name, change.in_use, change.shipped
            ),
        );
    }
}

/// Both identifiers and the eye in words: at the head of the plan and again at its foot.
pub(super) fn write_identity(page: &mut Page, draft: &Draft, plan: &Plan) {
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    let number = patient
        .number
        .as_deref()
        .map(|number| format!("No. {number}"));
    let mut who = vec![
        name.unwrap_or_else(|| "NAME MISSING".to_owned()),
        number.unwrap_or_else(|| "NUMBER MISSING".to_owned()),
    ];
    who.push(match (patient.birth_date, plan.age) {
        (Some(born), Some(age)) => format!("born {} ({age} years)", date(born)),
        (Some(born), None) => format!("born {}", date(born)),
        (None, _) => "birth date missing".to_owned(),
    });
    who.extend(patient.sex.map(|sex| {
        match sex {
            Sex::Female => "female",
            Sex::Male => "male",
            Sex::Other => "sex: other",
        }
        .to_owned()
    }));
    page.hanging("", 2, &format!("{HEADING}{}{HEADING:#}", who.join("   ")));
    let when = draft.operation.date.map_or_else(
        || "operation day not set".to_owned(),
        |day| format!("operation {}", date(day)),
    );
    let eye = plan.side.capitals();
    page.line(&format!(
        "{HEADING}{eye}{HEADING:#}   {when}   draft, not signed"
    ));
}

fn summary(page: &mut Page, plan: &Plan) {
    let of = |severity| plan.findings(severity).count();
    let (stop, review, note) = (of(Severity::Stop), of(Severity::Review), of(Severity::Note));
    let open = plan
        .findings(Severity::Review)
        .filter(|finding| finding.is_open())
        .count();
    let red = if stop == 0 { HEADING } else { STOP };
    let yellow = if open == 0 { HEADING } else { REVIEW };
    page.hanging("", 2, &format!(
        "{red}■ Stop {stop}{red:#}   {yellow}▲ Review {review}{yellow:#} ({open} without a reason)   \
         ● Note {note}   ○ {} could not be evaluated",
        count(plan.not_evaluated().count(), "rule", "rules")
    ));
    if 0 < stop {
        page.line(&format!(
            "{STOP}This plan cannot be signed while a Stop finding stands.{STOP:#}"
        ));
    }
    for severity in [Severity::Stop, Severity::Review] {
        for found in plan.findings(severity) {
            let reason = if found.is_open() {
                ""
            } else {
                "  (reason recorded)"
            };
            let first = format!("  {severity:<6}  {:<6} ", found.rule.id);
            page.hanging(&first, 17, &format!("{}{reason}", found.rule.title));
        }
    }
}

/// "Okonjo, Adaeze" → "OKONJO, Adaeze".
fn capital_family_name(name: &str) -> String {
    match name.split_once(',') {
        Some((family, given)) => format!("{},{given}", family.to_uppercase()),
        None => name.to_owned(),
    }
}
