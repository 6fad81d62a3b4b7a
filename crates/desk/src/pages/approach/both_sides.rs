//! What speaks for either approach: this eye's findings first, then what was published.

use egui::{RichText, Ui};
use millrace_core::plan::{Argument, Evaluated, Plan, TRIALS};
use millrace_core::rules::{Bearing, Finding, Verdict};
use millrace_wording::{Show as _, Words, rules as say};

use super::{CaseView, column, half_width, open_point};
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{muted, said, section, small};
use crate::words::sentence;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) {
    let Ok(plan) = view.plan else { return };
    section(ui, "What speaks for either");
    let phaco = ("For phacoemulsification", Bearing::Phacoemulsification);
    let small_incision = ("For small incision (SICS)", Bearing::SmallIncision);
    if let Some(width) = half_width(ui) {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = measures::FAR;
            for (name, side) in [phaco, small_incision] {
                column(ui, width, |ui| {
                    ui.spacing_mut().item_spacing.x = measures::NEAR;
                    one_side(ui, plan, name, side);
                });
            }
        });
    } else {
        one_side(ui, plan, phaco.0, phaco.1);
        ui.add_space(measures::APART);
        one_side(ui, plan, small_incision.0, small_incision.1);
    }
    ui.add_space(measures::APART);
    title(ui, "Shows no difference");
    let trials: Vec<_> = TRIALS
        .iter()
        .filter(|trial| trial.favors.is_none())
        .collect();
    let Some(width) = half_width(ui) else {
        return list(ui, plan, &trials);
    };
    let (left, right) = trials.split_at(trials.len().div_ceil(2));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = measures::FAR;
        for trials in [left, right] {
            column(ui, width, |ui| {
                ui.spacing_mut().item_spacing.x = measures::NEAR;
                list(ui, plan, trials);
            });
        }
    });
}

fn list(ui: &mut Ui, plan: &Plan, trials: &[&Argument]) {
    for trial in trials {
        published(ui, plan, trial);
    }
}

fn title(ui: &mut Ui, text: &str) {
    let response = ui.label(RichText::new(text).text_style(strong_style()));
    ui.accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::Heading);
    });
    ui.separator();
}

fn one_side(ui: &mut Ui, plan: &Plan, name: &str, side: Bearing) {
    title(ui, name);
    let rules = || {
        plan.rules
            .iter()
            .filter(|evaluated| evaluated.rule.bearing == Some(side))
    };
    let mut has_any = false;
    for evaluated in rules() {
        if let Verdict::Finding(finding) = &evaluated.verdict {
            has_any = true;
            of_this_eye(ui, evaluated, finding);
        }
    }
    if !has_any {
        muted(ui, "No finding of this eye");
        ui.add_space(measures::TIGHT);
    }
    for evaluated in rules() {
        if let Verdict::NotEvaluated(missing) = evaluated.verdict {
            let missing = missing.show(Words::ENGLISH);
            let text = format!(
                "{}: could not be evaluated, missing {missing} ({})",
                evaluated.rule.title, evaluated.rule.id
            );
            open_point(ui, &text);
            ui.add_space(measures::TIGHT);
        }
    }
    let trials = || TRIALS.iter().filter(|trial| trial.favors == Some(side));
    // Those about eyes like this one first.
    for trial in trials().filter(|trial| plan.concerns(trial)) {
        published(ui, plan, trial);
    }
    for trial in trials().filter(|trial| !plan.concerns(trial)) {
        published(ui, plan, trial);
    }
}

fn of_this_eye(ui: &mut Ui, evaluated: &Evaluated, finding: &Finding) {
    let rule = evaluated.rule;
    tag(ui, "This eye");
    ui.label(RichText::new(rule.title).text_style(strong_style()));
    said(ui, sentence(&finding.show(Words::ENGLISH)));
    if let Some(certainty) = say::certainty(Words::ENGLISH, finding.certainty) {
        said(ui, sentence(&certainty));
    }
    if let Some(details) = say::details(Words::ENGLISH, finding) {
        muted(ui, sentence(&details));
    }
    if let Some(first) = rule.sources.first() {
        small(ui, format!("{first}, {}", rule.id));
    }
    ui.add_space(measures::NEAR);
}

fn published(ui: &mut Ui, plan: &Plan, trial: &Argument) {
    let is_about_this_eye = plan.concerns(trial);
    tag(
        ui,
        if is_about_this_eye {
            "Published"
        } else {
            "Published, of other eyes"
        },
    );
    if is_about_this_eye {
        said(ui, trial.trial.show(Words::ENGLISH));
    } else {
        muted(ui, trial.trial.show(Words::ENGLISH));
    }
    small(ui, trial.source.to_string());
    ui.add_space(measures::NEAR);
}

/// What kind of evidence comes next, small above it.
fn tag(ui: &mut Ui, text: &str) {
    let color = Palette::current(ui).accent;
    ui.label(RichText::new(text).small().color(color));
}
