//! Who measures, when and with what: said once, written beside each number entered from then on.

use egui::Ui;
use jiff::civil::Date;
use millrace_core::biometry::Method;

use crate::pages::CaseView;
use crate::widgets::{Commit, Named, date_field, muted, pick, problem, small, text_field};
use crate::words::sentence;

/// The circumstances of what is entered now. Nothing is assumed.
#[derive(Debug, Default)]
pub(super) struct Sitting {
    pub(super) on: Option<Date>,
    pub(super) by: Option<String>,
    pub(super) method: Option<Method>,
}

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, sitting: &mut Sitting) {
    let mut problems = Vec::new();
    ui.horizontal_wrapped(|ui| {
        muted(ui, "Entries from now on are measured on");
        let id = view.ground.with("sitting day");
        let day = date_field(ui, (id, Named::As("Day of measurement")), sitting.on);
        problems.extend(day.problem);
        if let Some(commit) = day.commit {
            sitting.on = commit.value();
        }
        muted(ui, "by");
        let id = view.ground.with("sitting person");
        let by = text_field(
            ui,
            (id, Named::As("Person who measures")),
            (sitting.by.as_deref(), "name of the person"),
            120.0,
        );
        problems.extend(by.problem);
        match by.commit {
            Some(Commit::Entered(name)) => sitting.by = Some(name),
            Some(Commit::Cleared) => sitting.by = None,
            None => {}
        }
        muted(ui, "with");
        let methods = Method::ALL.map(|method| (method, sentence(&method.to_string())));
        let id = view.ground.with("sitting method");
        let chosen = pick(
            ui,
            (id, "Method of measurement"),
            &methods,
            sitting.method,
            150.0,
        );
        if chosen.is_some() {
            sitting.method = chosen;
        }
        if sitting.on.is_none() && !view.author.is_empty() {
            let words = format!("Today, {}", view.author);
            if ui.small_button(words).clicked() {
                sitting.on = Some(view.today);
                sitting.by = Some(view.author.to_owned());
            }
        }
    });
    for why in problems {
        problem(ui, &why);
    }
    if sitting.on.is_none() {
        small(ui, "Without a day, no rule can tell how old a number is");
    }
}
