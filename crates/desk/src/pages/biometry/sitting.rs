//! Who measures, when and with what: said once, written beside each number entered from then on.

use chrono::NaiveDate;
use egui::Ui;
use millrace_core::biometry::Method;
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::EyePage;
use crate::theme::measures;
use crate::widgets::{
    Field, Pick, cell, date_field, low_row, minor_button, muted, problem, small, text_field,
};
use millrace_wording::sentence;

/// The circumstances of what is entered now. Nothing is assumed.
#[derive(Debug, Default)]
pub(super) struct Sitting {
    pub(super) on: Option<NaiveDate>,
    pub(super) by: Option<String>,
    pub(super) method: Option<Method>,
}

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, sitting: &mut Sitting) {
    let view = page.view;
    let place = page.columns;
    let (mut problems, words) = (Vec::new(), page.words);
    ui.horizontal(|ui| {
        ui.add_space(place.indent());
        cell(ui, place.label, |ui| muted(ui, say::measured_on_by(words)));
        let id = view.ground.with("sitting day");
        let day = date_field(
            ui,
            Field::called(id, say::day_of_measurement(words)),
            sitting.on,
        );
        problems.extend(day.problem);
        if let Some(commit) = day.commit {
            sitting.on = commit.value();
        }
        let id = view.ground.with("sitting person");
        let field = Field::called(id, say::person(words));
        let value = sitting.by.as_deref();
        let width = place.own() - place.label - 104.0 - 2.0 * measures::NEAR;
        let by = text_field(ui, field, value, "name of the person", width);
        problems.extend(by.problem);
        if let Some(commit) = by.commit {
            sitting.by = commit.value();
        }
    });
    ui.horizontal(|ui| {
        ui.add_space(place.indent());
        cell(ui, place.label, |ui| muted(ui, say::measured_with(words)));
        let methods = Method::ALL.map(|method| (method, sentence(&method.show(words))));
        let id = view.ground.with("sitting method");
        let pick = Pick::new(
            id,
            say::method_of_measurement(words),
            &methods,
            sitting.method,
        );
        let chosen = pick.show(ui, 160.0);
        if chosen.is_some() {
            sitting.method = chosen;
        }
        if sitting.on.is_none() && !view.author.is_empty() {
            let today = say::today(words, view.author);
            if minor_button(ui, &today).clicked() {
                sitting.on = Some(view.today);
                sitting.by = Some(view.author.to_owned());
            }
        }
    });
    for why in problems {
        problem(ui, &why);
    }
    low_row(ui, |ui| {
        ui.add_space(place.indent() + place.label + measures::NEAR);
        small(ui, say::written_beside(words));
    });
    ui.add_space(measures::NEAR);
}
