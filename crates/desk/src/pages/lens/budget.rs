//! What the prediction rests on, and what measuring again would gain.

use egui::{Rect, Sense, Stroke, StrokeKind, Ui, vec2};
use millrace_core::certainty::Item;
use millrace_core::plan::{Because, Plan, PowerCertainty};
use millrace_core::rules::percent;

use crate::theme::{Palette, measures};
use crate::widgets::{cell, muted, section, small};

/// Width of the names of sources.
const NAMES: f32 = 218.0;
/// Width of a bar that holds everything.
const BAR: f32 = 72.0;

pub(super) fn show(ui: &mut Ui, plan: &Plan) {
    let closely = plan.certainty.as_ref().and_then(|it| it.closely.as_ref());
    let Some(closely) = closely else { return };
    section(ui, "What this rests on");
    let because = match closely.because {
        Because::Chosen => "chosen",
        Because::Proposed => "proposed; none is chosen",
    };
    let whole = closely.budget.distribution.deviation();
    muted(
        ui,
        format!(
            "Power {} ({because}): spread of the refraction {:.2} D (SD), shared by",
            closely.power,
            whole.d()
        ),
    );
    for item in &closely.budget.items {
        let beside = beside(closely, item);
        row(ui, &item.source.to_string(), item.share, &beside);
    }
    if 1 < closely.predictions.len() {
        let apart = format!(
            "{:.2} D between them (SD)",
            closely.budget.disagreement.sqrt()
        );
        let share = closely.budget.disagreement_share();
        row(ui, "formulas disagree", share, &apart);
    }
    small(
        ui,
        "Repeat: measured once more in the same way, and the mean of both taken; no gain: none that \
         two decimals show. Errors taken as independent. Sources and standing of every spread: docs/uncertainty.md and `millrace plan`.",
    );
}

/// One source: name, bar, share, and its spread or what repeating it would gain.
fn row(ui: &mut Ui, name: &str, share: f64, beside: &str) {
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(crate::words::sentence(name)));
        let (rect, _) = ui.allocate_exact_size(vec2(BAR, 12.0), Sense::HOVER);
        let palette = Palette::current(ui);
        #[expect(clippy::cast_possible_truncation, reason = "a length on the screen")]
        let filled = (share as f32).clamp(0.0, 1.0) * BAR;
        let bar = Rect::from_min_size(rect.min, vec2(filled, rect.height()));
        ui.painter().rect_filled(bar, 2.0, palette.accent);
        let outline = Stroke::new(measures::OUTLINE, palette.outline);
        ui.painter()
            .rect_stroke(rect, 2.0, outline, StrokeKind::Inside);
        cell(ui, 66.0, |ui| ui.label(percent(share)));
        muted(ui, beside);
    });
}

/// "repeat: 0.50 → 0.49 D", or the spread of what cannot be repeated.
fn beside(closely: &PowerCertainty, item: &Item) -> String {
    if let Some([before, after]) = closely.gain(item) {
        return format!("repeat: {:.2} → {:.2} D", before.d(), after.d());
    }
    let unit = if item.source.is_length() { "mm" } else { "D" };
    let spread = match closely
        .spread(item.source)
        .map(|ends| ends.map(|it| format!("{it:.2}")))
    {
        None => return String::new(),
        Some([low, high]) if low == high => format!("{low} {unit} (SD)"),
        Some([low, high]) => format!("{low} to {high} {unit} (SD)"),
    };
    if item.repeated.is_some() {
        format!("{spread}, no gain")
    } else {
        spread
    }
}
