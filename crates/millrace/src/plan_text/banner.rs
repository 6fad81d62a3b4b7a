//! Who, and which eye: two identifiers and the eye in words, before anything else.

use jiff::civil::Date;
use millrace_core::case::{Draft, Sex};
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;

use super::count;
use crate::page::{HEADING, Page, REVIEW, STOP};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let patient = &draft.patient;
    let mut who = vec![
        patient
            .name
            .clone()
            .map_or("NAME MISSING".to_owned(), |name| capital_family_name(&name)),
        patient
            .number
            .as_deref()
            .map_or("NUMBER MISSING".to_owned(), |no| format!("No. {no}")),
    ];
    who.push(match (patient.birth_date, plan.age) {
        (Some(born), Some(age)) => format!("born {} ({age})", date(born)),
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

    let when = draft
        .operation
        .date
        .map_or("operation day not set".to_owned(), |day| {
            format!("operation {}", date(day))
        });
    page.line(&format!(
        "{HEADING}{}{HEADING:#}   {when}   draft, not signed",
        plan.side.capitals()
    ));
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
}

/// "Okonjo, Adaeze" → "OKONJO, Adaeze".
fn capital_family_name(name: &str) -> String {
    match name.split_once(',') {
        Some((family, given)) => format!("{},{given}", family.to_uppercase()),
        None => name.to_owned(),
    }
}

/// "3 Dec 2026": no two countries read digits alone the same way.
pub(super) fn date(date: Date) -> String {
    const MONTHS: [&str; 12] = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    let month = usize::try_from(date.month() - 1)
        .ok()
        .and_then(|index| MONTHS.get(index));
    format!(
        "{} {} {}",
        date.day(),
        month.copied().unwrap_or_default(),
        date.year()
    )
}
