//! What the prediction rests on, and what measuring again would gain.

use egui::{Rect, Sense, Ui, vec2};
use millrace_core::certainty::Item;
use millrace_core::plan::{Because, Plan, PowerCertainty};
use millrace_wording::desk::lens as say;
use millrace_wording::number::percent;
use millrace_wording::{Show as _, Words, quantity};

use crate::figures::share_chart::{Share, share_chart};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{cell, muted, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// Width of the names of sources.
const NAMES: f32 = 218.0;
/// Width of a bar that holds everything.
const BAR: f32 = 72.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan) {
    let closely = plan.certainty.as_ref().and_then(|it| it.closely.as_ref());
    let Some(closely) = closely else { return };
    let words = in_use(ui);
    section(ui, say::what_makes_it_unsure(words));
    let whole = closely.budget.distribution.deviation();
    let whole = quantity::computed_unsigned(words, whole);
    muted(
        ui,
        match closely.because {
            Because::Chosen => say::spread_of_chosen(words, closely.power, whole),
            Because::Proposed => say::spread_of_proposed(words, closely.power, whole),
        },
    );
    let mut lines = Vec::new();
    for item in &closely.budget.items {
        let beside = beside(words, closely, item);
        let name = item.source.show(words).into_owned();
        lines.push((name, item.share, beside));
    }
    if 1 < closely.predictions.len() {
        let apart = words.fixed(closely.budget.disagreement.sqrt(), 2);
        let apart = say::between_them(words, quantity::diopters(words, apart));
        let share = closely.budget.disagreement_share();
        lines.push((say::formulas_disagree(words).to_owned(), share, apart));
    }
    let mut places = Rect::NOTHING;
    let mut shares = Vec::with_capacity(lines.len());
    for (name, share, beside) in lines {
        let percent = percent(words, share);
        let place = line(ui, &name, &percent, &beside);
        places |= place;
        shares.push(Share {
            words: say::share(words, sentence(&name), percent),
            share,
            middle: place.center().y,
        });
    }
    let id = view.ground.with("error budget");
    share_chart(ui, id, say::shares(words), places, &shares);
    small(ui, say::what_repeating_is(words));
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
fn beside(words: Words, closely: &PowerCertainty, item: &Item) -> String {
    if let Some([before, after]) = closely.gain(item) {
        let after = quantity::computed_unsigned(words, after);
        return say::repeat(words, words.fixed(before.d(), 2), after);
    }
    let with_unit = |number: String| {
        if item.source.is_length() {
            quantity::millimeters(words, number)
        } else {
            quantity::diopters(words, number)
        }
    };
    let ends = closely.spread(item.source);
    let spread = match ends.map(|ends| ends.map(|it| words.fixed(it, 2))) {
        None => return String::new(),
        Some([low, high]) if low == high => say::scatter(words, with_unit(low)),
        Some([low, high]) => say::spread_between(words, low, with_unit(high)),
    };
    if item.repeated.is_some() {
        say::no_gain(words, spread)
    } else {
        spread
    }
}
