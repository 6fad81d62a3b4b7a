//! Who is operated on, when, and by whom.

use egui::{CollapsingHeader, Ui};
use millrace_core::case::{Command, Sex, SurgeonGrade};

use super::signs::Answers;
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{Commit, Field, Segments, cell, date_field, problem, text_field};

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
    // Once open it stays open until somebody closes it: fields do not vanish under the hands.
    let open = *is_open.get_or_insert(!is_complete);
    let mut commands = Vec::new();
    let header = CollapsingHeader::new("Patient and operation")
        .id_salt(view.ground.with("patient section"))
        .open(Some(open))
        .show_unindented(ui, |ui| {
            identity(ui, view, &mut commands);
            operation(ui, view, &mut commands);
        });
    if header.header_response.clicked() {
        *is_open = Some(!open);
    }
    commands
}

fn identity(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let patient = &view.draft.patient;
    let mut next = patient.clone();
    if let Some(name) = words(ui, view, "Name", patient.name.as_deref()) {
        next.name = name.value();
    }
    if let Some(number) = words(ui, view, "Hospital number", patient.number.as_deref()) {
        next.number = number.value();
    }
    let mut why = None;
    ui.horizontal(|ui| {
        let label = cell(ui, LABEL, |ui| ui.label("Birth date")).id;
        let id = view.ground.with("birth date");
        let born = date_field(ui, Field::by(id, label, "Birth date"), patient.birth_date);
        why = born.problem;
        if let Some(commit) = born.commit {
            next.birth_date = commit.value();
        }
    });
    if let Some(why) = why {
        problem(ui, &why);
    }
    let sexes = [
        (None, "not recorded"),
        (Some(Sex::Female), "female"),
        (Some(Sex::Male), "male"),
        (Some(Sex::Other), "other"),
    ];
    choice(ui, view, ("Sex", &sexes, patient.sex), |sex| next.sex = sex);
    let answers = [
        (None, "not recorded"),
        (Some(false), "no"),
        (Some(true), "yes"),
    ];
    let name = "Alpha-blocker, ever";
    choice(ui, view, (name, &answers, patient.alpha_blocker), |taken| {
        next.alpha_blocker = taken;
    });
    if next != *patient {
        commands.push(Command::SetPatient(next));
    }
}

fn operation(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let operation = &view.draft.operation;
    let mut why = None;
    ui.horizontal(|ui| {
        let label = cell(ui, LABEL, |ui| ui.label("Operation day")).id;
        let id = view.ground.with("operation day");
        let day = date_field(ui, Field::by(id, label, "Operation day"), operation.date);
        why = day.problem;
        if let Some(commit) = day.commit {
            commands.push(Command::SetOperationDate(commit.value()));
        }
    });
    if let Some(why) = why {
        problem(ui, &why);
    }
    let grades = [
        (None, "not said"),
        (Some(SurgeonGrade::Independent), "independent"),
        (
            Some(SurgeonGrade::ExperiencedTrainee),
            "experienced trainee",
        ),
        (Some(SurgeonGrade::Trainee), "trainee"),
    ];
    choice(ui, view, ("Surgeon", &grades, operation.surgeon), |grade| {
        commands.push(Command::SetSurgeon(grade));
    });
}

fn words(
    ui: &mut Ui,
    view: &CaseView<'_>,
    name: &'static str,
    value: Option<&str>,
) -> Option<Commit<String>> {
    let entered = ui
        .horizontal(|ui| {
            let label = cell(ui, LABEL, |ui| ui.label(name)).id;
            let width = (ui.available_width() - measures::NEAR).min(320.0);
            let field = Field::by(view.ground.with(name), label, name);
            text_field(ui, field, value, name, width)
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
    (name, options, value): (&str, &Answers<'_, T>, Option<T>),
    chosen: impl FnOnce(Option<T>),
) {
    ui.horizontal_wrapped(|ui| {
        cell(ui, LABEL, |ui| ui.label(name));
        let id = view.ground.with(name);
        if let Some(now) = Segments::new(id, name, options, Some(value)).show(ui) {
            chosen(now);
        }
    });
}
