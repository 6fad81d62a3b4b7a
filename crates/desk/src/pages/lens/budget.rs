//! What the prediction rests on, and what measuring again would gain.

use egui::{Rect, Sense, Ui, vec2};
use millrace_core::certainty::Item;
use millrace_core::plan::{Because, Plan, PowerCertainty, REPEAT_BAND};
use millrace_wording::desk::lens as say;
use millrace_wording::desk::reference;
use millrace_wording::number::percent;
use millrace_wording::text::certainty as of_text;
use millrace_wording::{Show as _, Words, quantity};

use crate::figures::share_chart::{Share, share_chart};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::reading::{Topic, reads};
use crate::widgets::{cell, muted, open_ring, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// Width of the names of sources.
const NAMES: f32 = 218.0;
/// Width of a bar that holds everything.
const BAR: f32 = 72.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan) {
    let closely = plan.certainty.as_ref().and_then(|it| it.closely.as_ref());
    let words = in_use(ui);
    let Some(closely) = closely else { return };
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
    if let Some(record) = view.draft.lens.record() {
        let topic = Topic::Uncertainty(record.constants.values());
        reads(ui, reference::about_certainty(words), topic);
    }
}

/// How sure it is in one line, under the lens power table: the share of each source and what is worth
/// measuring again, or why nothing is stated.
pub(super) fn in_one_line(ui: &mut Ui, plan: &Plan) {
    let words = in_use(ui);
    let Some(certainty) = &plan.certainty else {
        return;
    };
    let withheld = &certainty.ladder.withheld;
    if !withheld.is_empty() {
        ui.horizontal_top(|ui| {
            open_ring(ui);
            ui.label(say::withheld(words, words.clauses(withheld)));
        });
    }
    let Some(closely) = &certainty.closely else {
        return;
    };
    let mut shares: Vec<_> = closely
        .budget
        .items
        .iter()
        .map(|item| say::share(words, item.source, percent(words, item.share)))
        .collect();
    if 1 < closely.predictions.len() {
        let share = percent(words, closely.budget.disagreement_share());
        shares.push(say::share(words, say::formulas_disagree(words), share));
    }
    let mut text = say::how_sure(words, closely.power, words.list(shares));
    if let Some(worth) = worth(words, closely) {
        text = say::and_worth(words, text, worth);
    }
    // No number is parted from its unit where the line ends.
    let text = text.replace(" %", "\u{a0}%").replace(" D", "\u{a0}D");
    ui.label(text);
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

/// "repeat: 72.1 % → 72.4 %", or the spread of what cannot be repeated.
fn beside(words: Words, closely: &PowerCertainty, item: &Item) -> String {
    let with_unit = |number: String| {
        if item.source.is_length() {
            quantity::millimeters(words, number)
        } else {
            quantity::diopters(words, number)
        }
    };
    let ends = closely.spread(item.source);
    let spread = match ends.map(|ends| ends.map(|it| words.fixed(it, 2))) {
        None => String::new(),
        Some([low, high]) if low == high => say::scatter(words, with_unit(low)),
        Some([low, high]) => say::spread_between(words, low, with_unit(high)),
    };
    let Some(repeat) = closely.repeat(item.source) else {
        return spread;
    };
    let [before, after] = [repeat.chance, repeat.repeated].map(|it| tenths(words, it));
    say::repeat(words, before, after)
}

/// A tenth of a percent shows what a repeat gains.
fn tenths(words: Words, chance: f64) -> String {
    format!("{} %", words.fixed(chance * 100.0, 1))
}

/// What is worth repeating, in one sentence, or that nothing is.
fn worth(words: Words, closely: &PowerCertainty) -> Option<String> {
    let most = closely.repeats.first()?;
    let [before, after] = [most.chance, most.repeated].map(|it| tenths(words, it));
    let gains = of_text::gain(words, before, after);
    let band = quantity::unsigned(words, REPEAT_BAND);
    Some(if most.is_worth_it() {
        of_text::worth_repeating(words, most.source, band, gains)
    } else {
        of_text::nothing_worth_repeating(words, band, most.source, gains)
    })
}
