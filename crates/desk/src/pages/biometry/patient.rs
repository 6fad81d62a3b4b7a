//! Who is operated on, when, and by whom.

use chrono::{Months, NaiveDate};
use egui::{CollapsingHeader, Ui};
use millrace_core::case::{Command, Sex, SurgeonGrade};
use millrace_core::rules::Severity;
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words, sentence};

use super::signs::{Answers, answers};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::sought::is_sought;
use crate::widgets::value_order::{self, Step};
use crate::widgets::{
    Commit, Field, Segments, beside, cell, date_field, problem, ring, severity_shape, text_field,
};
use crate::words::in_use;

/// Width of the names of the fields.
const LABEL: f32 = 144.0;

/// Shows the section; open while something that identifies is missing.
pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, is_open: &mut Option<bool>) -> Vec<Command> {
    let draft = view.draft;
    let patient = &draft.patient;
    let is_complete = patient.name.is_some()
        && patient.number.is_some()
        && patient.birth_date.is_some()
        && draft.operation.date.is_some();
    // A new case begins with the name.
    if is_open.is_none() && draft.is_empty() && draft.set_aside.is_none() {
        let name = view.ground.with(say::name(in_use(ui)));
        ui.memory_mut(|memory| memory.request_focus(name));
    }
    // Once open it stays open until somebody closes it: fields do not vanish under the hands.
    let words = in_use(ui);
    let names = [
        say::name,
        say::number,
        say::birth_date,
        say::alpha_blocker,
        say::surgeon,
    ];
    if is_sought(ui, &names.map(|name| name(words))) {
        *is_open = Some(true);
    }
    let open = *is_open.get_or_insert(!is_complete);
    let mut commands = Vec::new();
    let header = CollapsingHeader::new(say::patient_and_operation(in_use(ui)))
        .id_salt(view.ground.with("patient section"))
        .open(Some(open))
        .show_unindented(ui, |ui| {
            identity(ui, view, &mut commands);
            operation_day(ui, view, &mut commands);
            answers_of(ui, view, &mut commands);
        });
    ring(ui, &header.header_response);
    if header.header_response.clicked() {
        *is_open = Some(!open);
    }
    commands
}

fn identity(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let patient = &view.draft.patient;
    let (mut next, words) = (patient.clone(), in_use(ui));
    let name = patient.name.as_deref();
    if let Some(name) = text(ui, view, say::name(words), "Name", name) {
        next.name = name.value();
    }
    let number = patient.number.as_deref();
    if let Some(number) = text(ui, view, say::number(words), "Hospital number", number) {
        next.number = number.value();
    }
    let mut why = None;
    ui.horizontal(|ui| {
        let name = say::birth_date(words);
        let label = cell(ui, LABEL, |ui| ui.label(name)).id;
        let id = view.ground.with("birth date");
        let born = date_field(ui, Field::by(id, label, name), patient.birth_date);
        why = born.problem;
        if let Some(commit) = born.commit {
            next.birth_date = commit.value();
        }
    });
    if let Some(why) = why {
        problem(ui, &why);
    }
    if next != *patient {
        commands.push(Command::SetPatient(next));
    }
    // Beside the entry, also while no eye is chosen and no rule looks.
    for other in &view.draft.other_cases {
        beside(
            ui,
            |ui| {
                severity_shape(ui, Severity::Review);
            },
            |ui| ui.label(sentence(&other.show(words))),
        );
    }
}

/// What is answered about the patient, and who operates.
fn answers_of(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let patient = &view.draft.patient;
    let (mut next, words) = (patient.clone(), in_use(ui));
    let sexes = [
        (None, say::not_recorded(words)),
        (Some(Sex::Female), say::female(words)),
        (Some(Sex::Male), say::male(words)),
        (Some(Sex::Other), say::other(words)),
    ];
    next.sex = choice(ui, view, say::sex(words), &sexes, patient.sex);
    let (name, taken) = (say::alpha_blocker(words), patient.alpha_blocker);
    next.alpha_blocker = choice(ui, view, name, &answers(words), taken);
    let (name, taken) = (say::anticoagulant(words), patient.anticoagulant);
    next.anticoagulant = choice(ui, view, name, &answers(words), taken);
    let (name, has) = (say::diabetes(words), patient.diabetes);
    next.diabetes = choice(ui, view, name, &answers(words), has);
    if next != *patient {
        commands.push(Command::SetPatient(next));
    }
    surgeon(ui, view, commands);
}

fn operation_day(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let operation = &view.draft.operation;
    let (mut why, words) = (None, in_use(ui));
    ui.horizontal(|ui| {
        let name = say::operation_day(words);
        let label = cell(ui, LABEL, |ui| ui.label(name)).id;
        let id = view.ground.with("operation day");
        let day = date_field(ui, Field::by(id, label, name), operation.date);
        why = day.problem;
        if let Some(commit) = day.commit {
            commands.push(Command::SetOperationDate(commit.value()));
        }
    });
    if let Some(why) = why {
        problem(ui, &why);
    }
    if let Some(told) = operation.date.and_then(|day| of_day(day, view.today)) {
        let shape = |ui: &mut Ui| {
            severity_shape(ui, Severity::Review);
        };
        beside(ui, shape, |ui| ui.label(told(words)));
    }
}

fn surgeon(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let (operation, words) = (&view.draft.operation, in_use(ui));
    let grades = [
        (None, say::not_said(words)),
        (Some(SurgeonGrade::Independent), say::independent(words)),
        (
            Some(SurgeonGrade::ExperiencedTrainee),
            say::experienced_trainee(words),
        ),
        (Some(SurgeonGrade::Trainee), say::trainee(words)),
    ];
    let grade = choice(ui, view, say::surgeon(words), &grades, operation.surgeon);
    if grade != operation.surgeon {
        commands.push(Command::SetSurgeon(grade));
    }
}

/// A planned day this much ahead is asked about, months (house value).
const FAR_AHEAD: Months = Months::new(24);

/// What is odd about a planned day on the day it is looked at: a mistyped year is another patient's list.
fn of_day(day: NaiveDate, today: NaiveDate) -> Option<fn(Words) -> &'static str> {
    if day < today {
        Some(say::day_has_passed)
    } else if today
        .checked_add_months(FAR_AHEAD)
        .is_some_and(|far| far < day)
    {
        Some(say::day_is_far)
    } else {
        None
    }
}

/// A field for words: what it is called, and what it is called where they are refused.
fn text(
    ui: &mut Ui,
    view: &CaseView<'_>,
    name: &'static str,
    what: &'static str,
    value: Option<&str>,
) -> Option<Commit<String>> {
    let entered = ui
        .horizontal(|ui| {
            let label = cell(ui, LABEL, |ui| ui.label(name)).id;
            let width = (ui.available_width() - measures::NEAR).min(320.0);
            let field = Field::by(view.ground.with(name), label, name);
            text_field(ui, field, value, what, width)
        })
        .inner;
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    entered.commit
}

fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    view: &CaseView<'_>,
    name: &str,
    options: &Answers<'_, T>,
    value: Option<T>,
) -> Option<T> {
    ui.horizontal_wrapped(|ui| {
        cell(ui, LABEL, |ui| ui.label(name));
        let id = view.ground.with(name);
        let chosen = Segments::new(id, name, options, Some(value)).show(ui);
        value_order::pass(ui, id, id, Step::Choice);
        chosen.unwrap_or(value)
    })
    .inner
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_that_is_past_or_years_ahead_is_asked_about() {
        let day = |year, month, day| NaiveDate::from_ymd_opt(year, month, day).unwrap();
        let today = day(2026, 11, 27);
        let told = |planned| of_day(planned, today).map(|told| told(Words::ENGLISH));
        for planned in [today, day(2026, 12, 3), day(2028, 11, 27)] {
            assert_eq!(told(planned), None, "{planned}");
        }
        for planned in [day(1999, 12, 3), day(2026, 11, 26)] {
            assert_eq!(told(planned), Some("This day has passed"), "{planned}");
        }
        for planned in [day(2028, 11, 28), day(2099, 12, 3)] {
            let far = "This day is more than two years ahead";
            assert_eq!(told(planned), Some(far), "{planned}");
        }
    }
}
