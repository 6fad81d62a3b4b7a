//! What speaks for either approach: this eye's findings first, then what was published.

use egui::text::LayoutJob;
use egui::{RichText, TextFormat, TextStyle, Ui};
use millrace_core::plan::{Argument, Evaluated, Plan, TRIALS};
use millrace_core::rules::{Bearing, Certainty, Finding, Verdict};
use millrace_wording::desk::approach as say;
use millrace_wording::{Show as _, rules};

use super::texts::unparted;
use super::{CaseView, half_width, open_point};
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{column, is_heading, muted, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) {
    let Ok(plan) = view.plan else { return };
    let words = in_use(ui);
    section(ui, say::for_either(words));
    let phaco = (
        say::for_phacoemulsification(words),
        Bearing::Phacoemulsification,
    );
    let small_incision = (say::for_small_incision(words), Bearing::SmallIncision);
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
    title(ui, say::no_difference(words));
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
    is_heading(ui, &response, text);
    ui.separator();
}

fn one_side(ui: &mut Ui, plan: &Plan, name: &str, side: Bearing) {
    let words = in_use(ui);
    title(ui, name);
    let of_side = || {
        plan.rules
            .iter()
            .filter(|evaluated| evaluated.rule.bearing == Some(side))
    };
    let of_eye = plan.rules.iter().filter(|rule| rule.bears_on(side));
    let found: Vec<_> = of_eye
        .filter_map(|evaluated| match &evaluated.verdict {
            Verdict::Finding(finding) => Some((evaluated, finding)),
            _ => None,
        })
        .collect();
    if found.is_empty() {
        muted(ui, say::no_finding(words));
        ui.add_space(measures::TIGHT);
    } else {
        tag(ui, say::this_eye(words));
    }
    for (evaluated, finding) in found {
        of_this_eye(ui, evaluated, finding);
    }
    for evaluated in of_side() {
        if let Verdict::NotEvaluated(missing) = evaluated.verdict {
            let title = words.reference(evaluated.rule.title);
            let text = say::not_evaluated(words, title, missing, evaluated.rule.id);
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

/// One line: what was found, and what was measured against the limit. How sure that is stands under it only
/// where the finding could be otherwise; the rest stands behind the finding's own *Why*.
fn of_this_eye(ui: &mut Ui, evaluated: &Evaluated, finding: &Finding) {
    let (rule, words) = (evaluated.rule, in_use(ui));
    let ink = Palette::current(ui).ink;
    let mut line = LayoutJob::default();
    for (text, style) in [
        (words.reference(rule.title), strong_style()),
        ("  ", TextStyle::Body),
        (&unparted(&sentence(&finding.show(words))), TextStyle::Body),
    ] {
        let font = style.resolve(ui.style());
        line.append(text, 0.0, TextFormat::simple(font, ink));
    }
    ui.label(line);
    if matches!(finding.certainty, Certainty::Borderline { .. })
        && let Some(certainty) = rules::certainty(words, finding.certainty)
    {
        ui.label(unparted(&sentence(&certainty)));
    }
    if let Some(first) = rule.sources.first() {
        small(ui, say::source_of_rule(words, first, rule.id));
    }
    ui.add_space(measures::NEAR);
}

fn published(ui: &mut Ui, plan: &Plan, trial: &Argument) {
    let words = in_use(ui);
    let is_about_this_eye = plan.concerns(trial);
    tag(
        ui,
        if is_about_this_eye {
            say::published(words)
        } else {
            say::of_other_eyes(words)
        },
    );
    if is_about_this_eye {
        ui.label(unparted(&trial.trial.show(words)));
    } else {
        muted(ui, unparted(&trial.trial.show(words)));
    }
    small(ui, unparted(&trial.source.show(words)));
    ui.add_space(measures::NEAR);
}

/// What kind of evidence comes next, small above it.
fn tag(ui: &mut Ui, text: &str) {
    let color = Palette::current(ui).accent;
    ui.label(RichText::new(text).small().color(color));
}
