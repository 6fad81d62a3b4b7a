//! Risk of a complicated operation: published points, and odds ratios that nobody multiplies.

use egui::{Grid, RichText, Ui};
use millrace_core::plan::Plan;
use millrace_core::rules::risk::BASE_RATE_PERCENT;
use millrace_wording::desk::approach as say;
use millrace_wording::{Show as _, rules};

use super::{CaseView, open_point};
use crate::theme::{measures, strong_style};
use crate::widgets::{muted, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) {
    let Ok(plan) = view.plan else { return };
    section(ui, say::risk_heading(in_use(ui)));
    points(ui, plan);
    ui.add_space(measures::APART);
    ratios(ui, plan);
}

fn points(ui: &mut Ui, plan: &Plan) {
    let risk = &plan.risk;
    let (total, at_most) = (risk.total(), risk.at_most());
    let words = in_use(ui);
    let text = if risk.unknown.is_empty() {
        say::points(words, total)
    } else {
        say::points_between(words, total, at_most)
    };
    ui.label(RichText::new(text).text_style(strong_style()));
    let given = if risk.given.is_empty() {
        say::none_given(words).to_owned()
    } else {
        rules::risk_items(words, &risk.given)
    };
    ui.label(say::given(words, given));
    if !risk.unknown.is_empty() {
        let items = words.list(&risk.unknown);
        open_point(ui, &say::unknown(words, items));
    }
    if let Some(depth) = risk.borderline_depth {
        ui.label(sentence(&rules::borderline_depth(words, depth)));
    }
    small(ui, say::bands(words));
    sources(ui, plan, "RK-01");
}

fn sources(ui: &mut Ui, plan: &Plan, id: &str) {
    let rule = plan.rules.iter().find(|evaluated| evaluated.rule.id == id);
    for source in rule.map_or(&[][..], |evaluated| evaluated.rule.sources) {
        small(ui, source.show(in_use(ui)));
    }
}

fn ratios(ui: &mut Ui, plan: &Plan) {
    let words = in_use(ui);
    let text = say::odds_ratios(words, words.number(&BASE_RATE_PERCENT.to_string()));
    ui.label(RichText::new(text).text_style(strong_style()));
    Grid::new("odds ratios")
        .num_columns(3)
        .min_row_height(20.0)
        .spacing([measures::APART, measures::TIGHT])
        .show(ui, |ui| {
            for ratio in &plan.odds_ratios {
                ui.label(words.fixed(ratio.factor.ratio(), 2));
                let applies = ratio.applies == Some(true);
                let factor = RichText::new(sentence(&ratio.factor.show(words)));
                let whether = RichText::new(rules::applies(words, *ratio));
                if applies {
                    ui.label(factor.text_style(strong_style()));
                    ui.label(whether.text_style(strong_style()));
                } else {
                    ui.label(factor);
                    muted(ui, rules::applies(words, *ratio));
                }
                ui.end_row();
            }
        });
    small(ui, say::not_multiplied(words));
    sources(ui, plan, "RK-02");
}
