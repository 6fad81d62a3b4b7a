//! What the prediction rests on, and what measuring again would gain.

use egui::{Rect, Sense, Ui, vec2};
use millrace_core::certainty::Item;
use millrace_core::plan::{Because, Plan, PowerCertainty};
use millrace_wording::Words;
use millrace_wording::number::percent;

use crate::figures::share_chart::{Share, share_chart};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{cell, muted, section, small};
use crate::words::sentence;

/// Width of the names of sources.
const NAMES: f32 = 218.0;
/// Width of a bar that holds everything.
const BAR: f32 = 72.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan) {
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
    let mut lines = Vec::new();
    for item in &closely.budget.items {
        let beside = beside(closely, item);
        lines.push((item.source.to_string(), item.share, beside));
    }
    if 1 < closely.predictions.len() {
        let apart = format!(
            "{:.2} D between them (SD)",
            closely.budget.disagreement.sqrt()
        );
        let share = closely.budget.disagreement_share();
        lines.push(("formulas disagree".to_owned(), share, apart));
    }
    let mut places = Rect::NOTHING;
    let mut shares = Vec::with_capacity(lines.len());
    for (name, share, beside) in lines {
        let words = percent(Words::ENGLISH, share);
        let place = line(ui, &name, &words, &beside);
        places |= place;
        shares.push(Share {
            words: format!("{} {words}", sentence(&name)),
            share,
            middle: place.center().y,
        });
    }
    let id = view.ground.with("error budget");
    share_chart(
        ui,
        id,
        "Chart of what the spread is shared by",
        places,
        &shares,
    );
    small(
        ui,
        "Repeat: measured once more in the same way, and the mean of both taken; no gain: none that \
         two decimals show. Errors taken as independent. Sources and standing of every spread: docs/uncertainty.md and `millrace plan`.",
    );
}

/// One source: name, share, and its spread or what repeating it would gain; returns the place of its bar.
fn line(ui: &mut Ui, name: &str, share: &str, beside: &str) -> Rect {
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(sentence(name)));
        let size = vec2(BAR, measures::CONTROL);
        let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
        cell(ui, 66.0, |ui| ui.label(share));
        muted(ui, beside);
        rect
    })
    .inner
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
