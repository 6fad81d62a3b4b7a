//! Both looks side by side, once the second one is recorded.

use egui::{RichText, Ui};
use millrace_core::case::second_look::pairs;
use millrace_core::case::{Critical, Pair};
use millrace_core::rules::Severity;

use super::{Asked, CaseView};
use crate::decimals::turned;
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{heading, low_row, muted, notice, severity_color, severity_shape, small};
use crate::words::{in_use, sentence};

/// Widths of the name, of each value and of the word at the end.
const NAME: f32 = 122.0;
const VALUE: f32 = 148.0;
const MARK: f32 = 92.0;
/// Under this width the two values stand under each other.
const STACKED: f32 = NAME + 2.0 * VALUE + MARK + 3.0 * measures::NEAR;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, takes_again: &mut bool) -> Asked {
    heading(ui, "Second look");
    let Some(pairs) = pairs(view.draft) else {
        return Asked::default();
    };
    if let Some(look) = &view.draft.second_look {
        muted(ui, format!("By {}, {}", look.by, in_use(ui).day(look.on)));
    }
    ui.add_space(measures::NEAR);
    verdict(ui, &pairs);
    ui.add_space(measures::NEAR);
    table(ui, &pairs);
    small(
        ui,
        "Compared as entered, to the last digit; no difference is too small to count. A number of the case changed later is compared anew",
    );
    ui.add_space(measures::APART);
    let mut leaves = false;
    ui.horizontal_wrapped(|ui| {
        leaves = ui.button("Back to the case").clicked();
        if ui.button("Look again…").clicked() {
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
    let differing: Vec<_> = pairs.iter().filter(|pair| pair.differs()).collect();
    if differing.is_empty() {
        ui.label(RichText::new("Both looks agree").text_style(strong_style()));
        return;
    }
    notice(ui, Severity::Review, |ui| {
        let names: Vec<_> = differing.iter().map(|pair| pair.what.name()).collect();
        let text = format!("The two looks differ: {}", names.join(", "));
        ui.label(RichText::new(text).text_style(strong_style()));
        ui.label(
            "Consider comparing both with the printout of the instrument, correcting the number that is wrong, or looking again",
        );
    });
}

fn table(ui: &mut Ui, pairs: &[Pair]) {
    let is_stacked = ui.available_width() < STACKED;
    if !is_stacked {
        low_row(ui, |ui| {
            wrapped(ui, NAME, |_| ());
            for head in ["In the case", "Second look"] {
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
    let [first, second] = [&pair.first, &pair.second].map(|text| value(ui, pair, text.as_ref()));
    ui.horizontal_top(|ui| {
        wrapped(ui, NAME, |ui| ui.label(sentence(pair.what.name())));
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
    let [first, second] = [&pair.first, &pair.second].map(|text| value(ui, pair, text.as_ref()));
    low_row(ui, |ui| {
        wrapped(ui, NAME, |ui| ui.label(sentence(pair.what.name())));
        mark(ui, pair);
    });
    for (whose, text) in [("In the case", first), ("Second look", second)] {
        low_row(ui, |ui| {
            wrapped(ui, NAME, |ui| muted(ui, format!("    {whose}")));
            ui.label(text);
        });
    }
}

/// A value as text; the patient's number is no number with decimals.
fn value(ui: &Ui, pair: &Pair, text: Option<&String>) -> RichText {
    let Some(text) = text else {
        let none = if pair.what == Critical::LensThickness {
            "not entered"
        } else {
            "none"
        };
        return RichText::new(none).color(Palette::current(ui).muted);
    };
    let text = match pair.what {
        Critical::Number => text.clone(),
        Critical::Eye => sentence(text),
        _ => turned(ui, text),
    };
    let text = RichText::new(text);
    if pair.differs() {
        return text.text_style(strong_style());
    }
    text
}

fn mark(ui: &mut Ui, pair: &Pair) {
    if pair.differs() {
        severity_shape(ui, Severity::Review);
        let color = severity_color(Palette::current(ui), Severity::Review);
        ui.label(
            RichText::new("differs")
                .text_style(strong_style())
                .color(color),
        );
    } else if pair.second.is_none() && pair.first.is_some() {
        muted(ui, "not looked at");
    } else {
        muted(ui, "same");
    }
}

fn hairline(ui: &mut Ui) {
    ui.add(egui::Separator::default().spacing(measures::NEAR));
}
