//! Astigmatism: the terms of the cornea, what each cylinder leaves, and where its marks stand.

use egui::Ui;
use millrace_core::astigmatism::rotation::{added_by_turn, no_better_from};
use millrace_core::astigmatism::{PosteriorBasis, PosteriorChoice, ToricPrediction};
use millrace_core::case::{Command, Slot};
use millrace_core::lens::ToricChoice;
use millrace_core::optics::DoubleAngle;
use millrace_core::plan::{Plan, ToricPlan};
use millrace_wording::desk::lens as say;
use millrace_wording::{Show as _, Words, quantity};

use super::{NAMES, field, toric_steps};
use crate::figures::axis_dial::AxisDial;
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::quantity_kind::MERIDIAN;
use crate::widgets::{FormRows, Segments, cell, muted, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

/// Turns shown, degrees.
const TURNS: [u16; 4] = [3, 5, 10, 30];
/// Side of the dial, and the width of the page from which it stands beside the rest.
const DIAL: f32 = 268.0;
const BESIDE: f32 = 720.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    let words = in_use(ui);
    section(ui, say::astigmatism(words));
    if BESIDE <= ui.available_width() {
        ui.horizontal_top(|ui| {
            let left = ui.available_width() - DIAL - measures::APART;
            ui.vertical(|ui| {
                ui.set_width(left);
                terms(ui, view, plan, commands);
            });
            dial(ui, view, plan);
        });
    } else {
        terms(ui, view, plan, commands);
        dial(ui, view, plan);
    }
    match plan.toric.planned(view.draft.lens.formula) {
        Ok(prediction) => steps(ui, view, plan, prediction, commands),
        Err(refusal) => {
            muted(ui, say::cylinder_not_computed(words, refusal));
        }
    }
}

fn terms(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    let id = view.ground.with("posterior");
    let words = in_use(ui);
    let name = say::posterior_cornea(words);
    let options = [
        (PosteriorChoice::Measured, say::as_measured(words)),
        (PosteriorChoice::LeftOut, say::posterior_left_out(words)),
        (PosteriorChoice::Regression, say::regression(words)),
        (PosteriorChoice::Multiplier, say::multiplier(words)),
    ];
    let chosen = Segments::new(id, name, &options, view.draft.lens.posterior);
    let choice = chosen.row(ui, name, NAMES);
    commands.extend(choice.map(|choice| Command::ChoosePosterior(Some(choice))));
    let toric = &plan.toric;
    let terms = &toric.terms;
    match &terms.front {
        Ok(front) => {
            let size = in_words(words, front.at_standard_index());
            term(ui, say::anterior_cornea(words), &size);
        }
        Err(refusal) => term(ui, say::anterior_cornea(words), &refusal.show(words)),
    }
    match &terms.posterior {
        Ok(back) => match back.basis {
            PosteriorBasis::NotMeasured => {
                term(ui, say::posterior_cornea(words), say::not_measured(words));
            }
            PosteriorBasis::LeftOut => {
                term(ui, say::posterior_cornea(words), say::by_choice(words));
            }
            PosteriorBasis::Measured
            | PosteriorBasis::Regression(_)
            | PosteriorBasis::Multiplier(_) => {
                let adds = in_words(words, back.astigmatism);
                term(ui, say::posterior_adds(words), &adds);
                under(ui, &back.basis.source().show(words));
            }
        },
        Err(refusal) => term(ui, say::posterior_cornea(words), &refusal.show(words)),
    }
    match &terms.incision {
        Ok(cut) => {
            let size = in_words(words, cut.astigmatism);
            let text = say::incision_term(words, size, cut.place, cut.direction);
            term(ui, say::incision_adds(words), &text);
        }
        Err(refusal) => term(ui, say::incision(words), &refusal.show(words)),
    }
    if let Ok(cornea) = &toric.cornea {
        let total = in_words(words, cornea.total());
        term(ui, say::after_operation(words), &total);
    }
    for caution in &toric.cautions {
        small(ui, sentence(&caution.show(words)));
    }
}

fn term(ui: &mut Ui, name: &str, text: &str) {
    ui.horizontal_top(|ui| {
        cell(ui, NAMES, |ui| ui.label(name));
        ui.vertical(|ui| {
            // In line with the name, and wrapped under itself.
            ui.add_space(measures::TIGHT);
            ui.label(text);
        });
    });
}

/// Where a term comes from, under it.
fn under(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.add_space(NAMES + measures::NEAR);
        ui.vertical(|ui| small(ui, text));
    });
}

/// "2.06 D @ 83°"; no meridian for a size that rounds to nothing.
fn in_words(words: Words, vector: DoubleAngle) -> String {
    let number = words.fixed(vector.cylinder().d(), 2);
    let is_nothing = number == words.fixed(0.0, 2);
    let size = quantity::diopters(words, number);
    match vector.steep_meridian() {
        Some(steep) if !is_nothing => say::at_meridian(words, size, steep),
        _ => size,
    }
}

fn dial(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan) {
    let planned = plan.toric.planned(view.draft.lens.formula).ok();
    let cornea = plan.toric.cornea.as_ref().ok();
    let figure = AxisDial {
        side: plan.side,
        steep: cornea.and_then(|cornea| cornea.total().steep_meridian()),
        suggested: planned
            .filter(|_| is_toric(view))
            .and_then(|planned| planned.suggested_axis),
        chosen: view.draft.lens.toric().map(|choice| choice.axis),
        incision: view.draft.approach.incision_direction,
    };
    ui.vertical(|ui| {
        ui.set_width(DIAL);
        figure.show(ui, DIAL);
        figure.legend(ui);
    });
}

fn is_toric(view: &CaseView<'_>) -> bool {
    let record = view.draft.lens.record();
    record.is_some_and(|record| record.toric.is_some())
}

fn steps(
    ui: &mut Ui,
    view: &CaseView<'_>,
    plan: &Plan,
    prediction: &ToricPrediction,
    commands: &mut Vec<Command>,
) {
    if !is_toric(view) && view.draft.lens.toric().is_none() {
        if let Some(step) = plan.toric.steps.first() {
            let left = step.residual.spectacles();
            ui.label(say::without_cylinder(in_use(ui), left));
        }
        return;
    }
    toric_steps::show(ui, view, &plan.toric, prediction, commands);
    if let Some(choice) = view.draft.lens.toric() {
        let mut axis = Some(choice.axis);
        let mut form = FormRows::new(view.ground, NAMES);
        ui.horizontal(|ui| {
            let words = in_use(ui);
            field(ui, &mut form, say::marks_at(words), &MERIDIAN, &mut axis);
            if let Some(suggested) = prediction.suggested_axis {
                muted(ui, say::suggested(words, suggested));
            }
        });
        form.say(ui);
        if axis != Some(choice.axis) {
            // Without an axis there is no cylinder to place.
            let toric = axis.map(|axis| ToricChoice { axis, ..choice });
            commands.push(Command::ChooseToric(Slot::Planned, toric));
        }
    }
    turns(ui, &plan.toric, prediction);
}

/// What a turn of the lens costs.
fn turns(ui: &mut Ui, toric: &ToricPlan, prediction: &ToricPrediction) {
    let Some(chosen) = &prediction.chosen else {
        return;
    };
    let words = in_use(ui);
    let at_cornea = prediction.at_corneal_plane(chosen.choice.cylinder.diopters());
    let shown: Vec<_> = toric
        .rotations
        .iter()
        .filter(|turn| TURNS.contains(&turn.degrees))
        .map(|turn| {
            let one = words.fixed(turn.counter_clockwise.cylinder().d(), 2);
            let other = quantity::computed_unsigned(words, turn.clockwise.cylinder());
            let adds = added_by_turn(at_cornea, turn.degrees);
            let adds = quantity::computed_unsigned(words, adds);
            let degrees = quantity::degrees(words, turn.degrees);
            say::turn(words, degrees, one, other, adds)
        })
        .collect();
    if shown.is_empty() {
        return;
    }
    let helps = match no_better_from(prediction.net.cylinder(), at_cornea) {
        Some(degrees) => {
            let degrees = quantity::degrees(words, words.fixed(degrees, 0));
            say::no_better_from(words, degrees)
        }
        None => say::at_no_axis(words).to_owned(),
    };
    ui.label(say::if_it_turns(words, shown.join("; ")));
    muted(ui, sentence(&helps));
}
