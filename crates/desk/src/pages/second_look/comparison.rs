//! Both looks side by side, once the second one is recorded.

use egui::{RichText, Ui};
use millrace_core::case::second_look::pairs;
use millrace_core::case::{Critical, Looked, Pair};
use millrace_core::rules::Severity;
use millrace_wording::Show as _;
use millrace_wording::desk::second_look as say;

use super::{Asked, CaseView};
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{heading, low_row, muted, notice, severity_color, severity_shape, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// Widths of the name, of each value and of the word at the end.
const NAME: f32 = 122.0;
const VALUE: f32 = 148.0;
const MARK: f32 = 92.0;
/// Under this width the two values stand under each other.
const STACKED: f32 = NAME + 2.0 * VALUE + MARK + 3.0 * measures::NEAR;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, takes_again: &mut bool) -> Asked {
    let words = in_use(ui);
    heading(ui, say::title(words));
    let Some(pairs) = pairs(view.draft) else {
        return Asked::default();
    };
    if let Some(look) = &view.draft.second_look {
        muted(ui, say::by(words, &look.by, look.on));
    }
    ui.add_space(measures::NEAR);
    verdict(ui, &pairs);
    ui.add_space(measures::NEAR);
    table(ui, &pairs);
    small(ui, say::how_compared(words));
    ui.add_space(measures::APART);
    let mut leaves = false;
    ui.horizontal_wrapped(|ui| {
        leaves = ui.button(say::back(words)).clicked();
        if ui.button(say::again(words)).clicked() {
            *takes_again = true;
            ui.request_repaint();
        }
    });
    Asked {
        command: None,
        leaves,
    }
}

fn verdict(ui: &mut Ui, pairs: &[Pair]) {
    let words = in_use(ui);
    let differing: Vec<_> = pairs.iter().filter(|pair| pair.differs()).collect();
    if differing.is_empty() {
        ui.label(RichText::new(say::agree(words)).text_style(strong_style()));
        return;
    }
    notice(ui, Severity::Review, |ui| {
        let text = say::differ(words, words.list(differing.iter().map(|pair| pair.what)));
        ui.label(RichText::new(text).text_style(strong_style()));
        ui.label(say::consider(words));
    });
}

fn table(ui: &mut Ui, pairs: &[Pair]) {
    let is_stacked = ui.available_width() < STACKED;
    if !is_stacked {
        low_row(ui, |ui| {
            wrapped(ui, NAME, |_| ());
            let words = in_use(ui);
            for head in [say::column_case(words), say::title(words)] {
                wrapped(ui, VALUE, |ui| {
                    ui.label(RichText::new(head).text_style(strong_style()))
                });
            }
        });
        hairline(ui);
    }
    // What differs stands on top: that is what the page is opened for.
    let differing = pairs.iter().filter(|pair| pair.differs());
    let same = pairs.iter().filter(|pair| !pair.differs());
    for pair in differing.chain(same) {
        if is_stacked {
            stacked_row(ui, pair);
        } else {
            row(ui, pair);
        }
        hairline(ui);
    }
}

fn row(ui: &mut Ui, pair: &Pair) {
    let [first, second] = [&pair.first, &pair.second].map(|it| value(ui, pair, it.as_ref()));
    let words = in_use(ui);
    let name = sentence(&pair.what.show(words));
    ui.horizontal_top(|ui| {
        wrapped(ui, NAME, |ui| ui.label(name));
        wrapped(ui, VALUE, |ui| ui.label(first));
        wrapped(ui, VALUE, |ui| ui.label(second));
        low_row(ui, |ui| mark(ui, pair));
    });
}

/// A cell as high as its text needs.
fn wrapped<R>(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.vertical(|ui| {
        ui.set_width(width);
        add(ui)
    })
    .inner
}

fn stacked_row(ui: &mut Ui, pair: &Pair) {
    let [first, second] = [&pair.first, &pair.second].map(|it| value(ui, pair, it.as_ref()));
    let words = in_use(ui);
    let name = sentence(&pair.what.show(words));
    low_row(ui, |ui| {
        wrapped(ui, NAME, |ui| ui.label(name));
        mark(ui, pair);
    });
    for (whose, text) in [
        (say::column_case(words), first),
        (say::title(words), second),
    ] {
        low_row(ui, |ui| {
            wrapped(ui, NAME, |ui| muted(ui, format!("    {whose}")));
            ui.label(text);
        });
    }
}

/// A value as text.
fn value(ui: &Ui, pair: &Pair, looked: Option<&Looked>) -> RichText {
    let words = in_use(ui);
    let Some(looked) = looked else {
        let none = if pair.what == Critical::LensThickness {
            say::not_entered(words)
        } else {
            say::none(words)
        };
        return RichText::new(none).color(Palette::current(ui).muted);
    };
    let text = looked.show(words);
    let text = RichText::new(match looked {
        Looked::Eye(_) => sentence(&text),
        _ => text.into_owned(),
    });
    if pair.differs() {
        return text.text_style(strong_style());
    }
    text
}

fn mark(ui: &mut Ui, pair: &Pair) {
    let words = in_use(ui);
    if pair.differs() {
        severity_shape(ui, Severity::Review);
        let color = severity_color(Palette::current(ui), Severity::Review);
        ui.label(
            RichText::new(say::differs(words))
                .text_style(strong_style())
                .color(color),
        );
    } else if pair.second.is_none() && pair.first.is_some() {
        muted(ui, say::not_looked_at(words));
    } else {
        muted(ui, say::same(words));
    }
}

fn hairline(ui: &mut Ui) {
    ui.add(egui::Separator::default().spacing(measures::NEAR));
}
