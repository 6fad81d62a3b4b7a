//! Risk of a complicated operation: published points, and odds ratios that nobody multiplies.

use egui::{Grid, RichText, Ui};
use millrace_core::plan::Plan;
use millrace_core::rules::risk::BASE_RATE_PERCENT;
use millrace_wording::{Show as _, Words, rules as say};

use super::{CaseView, open_point};
use crate::decimals::turned;
use crate::theme::{measures, strong_style};
use crate::widgets::{muted, said, section, small};
use crate::words::sentence;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>) {
    let Ok(plan) = view.plan else { return };
    section(ui, "Risk of a complicated operation");
    points(ui, plan);
    ui.add_space(measures::APART);
    ratios(ui, plan);
}

fn points(ui: &mut Ui, plan: &Plan) {
    let risk = &plan.risk;
    let (total, at_most) = (risk.total(), risk.at_most());
    let text = if risk.unknown.is_empty() {
        format!("Risk points {total}")
    } else {
        format!("Risk points {total} to {at_most}, as not all is recorded")
    };
    ui.label(RichText::new(text).text_style(strong_style()));
    let given = if risk.given.is_empty() {
        "none".to_owned()
    } else {
        say::risk_items(Words::ENGLISH, &risk.given)
    };
    said(ui, format!("Given: {given}"));
    if !risk.unknown.is_empty() {
        let items = Words::ENGLISH.list(&risk.unknown);
        open_point(ui, &format!("Not recorded: {items}"));
    }
    if let Some(depth) = risk.borderline_depth {
        said(ui, sentence(&say::borderline_depth(Words::ENGLISH, depth)));
    }
    small(ui, "Bands 0, 1 to 2, 3 to 5, 6 and more");
    sources(ui, plan, "RK-01");
}

fn sources(ui: &mut Ui, plan: &Plan, id: &str) {
    let rule = plan.rules.iter().find(|evaluated| evaluated.rule.id == id);
    for source in rule.map_or(&[][..], |evaluated| evaluated.rule.sources) {
        small(ui, source.to_string());
    }
}

fn ratios(ui: &mut Ui, plan: &Plan) {
    let text =
        format!("Odds ratios of posterior capsule rupture (rate over all {BASE_RATE_PERCENT} %)");
    let text = turned(ui, &text);
    ui.label(RichText::new(text).text_style(strong_style()));
    Grid::new("odds ratios")
        .num_columns(3)
        .min_row_height(20.0)
        .spacing([measures::APART, measures::TIGHT])
        .show(ui, |ui| {
            for ratio in &plan.odds_ratios {
                said(ui, format!("{:.2}", ratio.factor.ratio()));
                let applies = ratio.applies == Some(true);
                let factor = RichText::new(sentence(&ratio.factor.show(Words::ENGLISH)));
                let words = RichText::new(say::applies(Words::ENGLISH, *ratio));
                if applies {
                    ui.label(factor.text_style(strong_style()));
                    ui.label(words.text_style(strong_style()));
                } else {
                    ui.label(factor);
                    muted(ui, say::applies(Words::ENGLISH, *ratio));
                }
                ui.end_row();
            }
        });
    small(
        ui,
        "Not multiplied, and no absolute percentage: no intercept is printed",
    );
    sources(ui, plan, "RK-02");
}
