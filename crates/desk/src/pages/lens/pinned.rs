//! What is planned, in one line that stands over the page and does not scroll with it.

use egui::{Label, RichText, TextStyle, TextWrapMode, Ui, WidgetText};
use millrace_core::plan::{HYPEROPIC, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;
use millrace_core::rules::Severity;
use millrace_wording::desk::lens as say;
use millrace_wording::number::percent;
use millrace_wording::{Words, quantity, sentence};

use crate::pages::CaseView;
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{is_heading, muted, severity_shape};
use crate::words::in_use;

/// Power, prediction, target and consent, and the chances: never out of sight on this page.
pub fn pinned(ui: &mut Ui, view: &CaseView<'_>) {
    let (lens, words) = (&view.draft.lens, in_use(ui));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        let head = match lens.power() {
            Some(power) => chosen(words, view, power),
            None => say::no_power(words).to_owned(),
        };
        let response = ui.label(RichText::new(&head).text_style(strong_style()));
        is_heading(ui, &response, &head);
        targets(ui, lens.target, lens.consented_target);
        if let (Some(power), Ok(plan)) = (lens.power(), view.plan) {
            let line = view.powers.chosen(plan);
            let chances = line.and_then(|line| line.said.chances);
            let text = match chances {
                Some([within, over]) => {
                    let [_, band, _] = SHOWN_BANDS;
                    let band = quantity::unsigned(words, band);
                    let [within, over] = [within, over].map(|chance| percent(words, chance));
                    let say = if is_predicted(view, power) {
                        say::chances
                    } else {
                        say::chances_of_others
                    };
                    say(words, band, within, HYPEROPIC, over)
                }
                None => say::chances_withheld(words).to_owned(),
            };
            whole(ui, &sentence(&text));
        }
    });
}

/// A text that is not broken where it has room in a line of its own.
fn whole(ui: &mut Ui, text: &str) {
    let style = TextStyle::Body;
    let galley = WidgetText::from(text).into_galley(ui, Some(TextWrapMode::Extend), 0.0, style);
    let has_room = galley.size().x <= ui.max_rect().width();
    let label = Label::new(text);
    ui.add(if has_room { label.extend() } else { label });
}

fn chosen(words: Words, view: &CaseView<'_>, power: HundredthDiopters) -> String {
    let Some(formula) = view.draft.lens.formula else {
        return say::chosen(words, power);
    };
    let ladder = view.plan.ok().and_then(|plan| plan.ladder.as_ref().ok());
    match ladder.and_then(|ladder| ladder.predicted(formula, power)) {
        Some(refraction) => say::chosen_predicted(words, power, refraction, formula),
        None => say::chosen_not_predicted(words, power, formula),
    }
}

/// Whether the formula planned by has a result; where none is chosen, the chances are of no formula alone.
fn is_predicted(view: &CaseView<'_>, power: HundredthDiopters) -> bool {
    let ladder = view.plan.ok().and_then(|plan| plan.ladder.as_ref().ok());
    view.draft.lens.formula.is_none_or(|formula| {
        ladder.is_some_and(|ladder| ladder.predicted(formula, power).is_some())
    })
}

/// Target and consent: they must agree, and where they do not the line says so.
fn targets(ui: &mut Ui, target: Option<HundredthDiopters>, consented: Option<HundredthDiopters>) {
    let words = in_use(ui);
    match (target, consented) {
        (Some(target), Some(consented)) if target == consented => {
            ui.label(say::target_consented(words, target));
        }
        (Some(target), Some(consented)) => {
            severity_shape(ui, Severity::Stop);
            let text = RichText::new(say::target_differs(words, target, consented));
            let color = Palette::current(ui).stop;
            ui.label(text.text_style(strong_style()).color(color));
        }
        (Some(target), None) => {
            ui.label(say::target_not_consented(words, target));
        }
        (None, Some(consented)) => {
            ui.label(say::consented_without_target(words, consented));
        }
        (None, None) => {
            muted(ui, say::no_target(words));
        }
    }
}
