//! Astigmatism: the terms of the cornea, what each cylinder leaves, and where its marks stand.

use egui::Ui;
use millrace_core::astigmatism::rotation::{added_by_turn, no_better_from};
use millrace_core::astigmatism::{PosteriorBasis, PosteriorChoice, ToricPrediction};
use millrace_core::case::Command;
use millrace_core::lens::ToricChoice;
use millrace_core::optics::DoubleAngle;
use millrace_core::plan::{Plan, ToricPlan};
use millrace_wording::{Show as _, Words};

use super::{NAMES, field, toric_steps};
use crate::figures::axis_dial::AxisDial;
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::quantity_kind::MERIDIAN;
use crate::widgets::{FormRows, Segments, cell, muted, said, section, small};
use crate::words;

const POSTERIOR: [(PosteriorChoice, &str); 4] = [
    (PosteriorChoice::Measured, "as measured"),
    (PosteriorChoice::LeftOut, "left out"),
    (PosteriorChoice::Regression, "regression"),
    (PosteriorChoice::Multiplier, "multiplier"),
];
/// Turns shown, degrees.
const TURNS: [u16; 4] = [3, 5, 10, 30];
/// Side of the dial, and the width of the page from which it stands beside the rest.
const DIAL: f32 = 268.0;
const BESIDE: f32 = 720.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    section(ui, "Astigmatism");
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
            muted(
                ui,
                format!("What a cylinder leaves is not computed: {refusal}"),
            );
        }
    }
}

fn terms(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    let id = view.ground.with("posterior");
    let name = "Back of the cornea";
    let chosen = Segments::new(id, name, &POSTERIOR, view.draft.lens.posterior);
    let choice = chosen.row(ui, name, NAMES);
    commands.extend(choice.map(|choice| Command::ChoosePosterior(Some(choice))));
    let toric = &plan.toric;
    let terms = &toric.terms;
    match &terms.front {
        Ok(front) => term(ui, "Front", &in_words(front.at_standard_index())),
        Err(refusal) => term(ui, "Front", &refusal.to_string()),
    }
    match &terms.posterior {
        Ok(back) => match back.basis {
            PosteriorBasis::NotMeasured => term(ui, "Back", "left out, not measured"),
            PosteriorBasis::LeftOut => term(ui, "Back", "left out by choice"),
            PosteriorBasis::Measured
            | PosteriorBasis::Regression(_)
            | PosteriorBasis::Multiplier(_) => {
                term(ui, "Back adds", &in_words(back.astigmatism));
                under(ui, &back.basis.source().to_string());
            }
        },
        Err(refusal) => term(ui, "Back", &refusal.to_string()),
    }
    match &terms.incision {
        Ok(cut) => {
            let text = format!(
                "{}; {} at {}",
                in_words(cut.astigmatism),
                cut.place.show(Words::ENGLISH),
                cut.direction
            );
            term(ui, "Incision adds", &text);
        }
        Err(refusal) => term(ui, "Incision", &refusal.to_string()),
    }
    if let Ok(cornea) = &toric.cornea {
        term(ui, "After the operation", &in_words(cornea.total()));
    }
    for caution in &toric.cautions {
        small(ui, words::sentence(&caution.to_string()));
    }
}

fn term(ui: &mut Ui, name: &str, text: &str) {
    ui.horizontal_top(|ui| {
        cell(ui, NAMES, |ui| ui.label(name));
        ui.vertical(|ui| {
            // In line with the name, and wrapped under itself.
            ui.add_space(measures::TIGHT);
            said(ui, text);
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
fn in_words(vector: DoubleAngle) -> String {
    let size = format!("{:.2} D", vector.cylinder().d());
    match vector.steep_meridian() {
        Some(steep) if size != "0.00 D" => format!("{size} @ {steep}"),
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
        chosen: view.draft.lens.toric.map(|choice| choice.axis),
        incision: view.draft.approach.incision_direction,
    };
    ui.vertical(|ui| {
        ui.set_width(DIAL);
        figure.show(ui, DIAL);
        figure.legend(ui);
    });
}

fn is_toric(view: &CaseView<'_>) -> bool {
    let record = view.draft.lens.record.as_ref();
    record.is_some_and(|record| record.toric.is_some())
}

fn steps(
    ui: &mut Ui,
    view: &CaseView<'_>,
    plan: &Plan,
    prediction: &ToricPrediction,
    commands: &mut Vec<Command>,
) {
    if !is_toric(view) && view.draft.lens.toric.is_none() {
        if let Some(step) = plan.toric.steps.first() {
            let left = step.residual.spectacles();
            said(
                ui,
                format!("The chosen power without a cylinder leaves {left}"),
            );
        }
        return;
    }
    toric_steps::show(ui, view, &plan.toric, prediction, commands);
    if let Some(choice) = view.draft.lens.toric {
        let mut axis = Some(choice.axis);
        let mut form = FormRows::new(view.ground, NAMES);
        ui.horizontal(|ui| {
            field(ui, &mut form, "Marks at", &MERIDIAN, &mut axis);
            if let Some(suggested) = prediction.suggested_axis {
                muted(ui, format!("suggested {suggested}"));
            }
        });
        form.say(ui);
        if axis != Some(choice.axis) {
            // Without an axis there is no cylinder to place.
            let toric = axis.map(|axis| ToricChoice { axis, ..choice });
            commands.push(Command::ChooseToric(toric));
        }
    }
    turns(ui, &plan.toric, prediction);
}

/// What a turn of the lens costs.
fn turns(ui: &mut Ui, toric: &ToricPlan, prediction: &ToricPrediction) {
    let Some(chosen) = &prediction.chosen else {
        return;
    };
    let at_cornea = prediction.at_corneal_plane(chosen.choice.cylinder.diopters());
    let shown: Vec<_> = toric
        .rotations
        .iter()
        .filter(|turn| TURNS.contains(&turn.degrees))
        .map(|turn| {
            let left = [&turn.counter_clockwise, &turn.clockwise].map(|it| it.cylinder().d());
            format!(
                "by {}°: leaves {:.2} or {:.2} D, adds {:.2} D",
                turn.degrees,
                left[0],
                left[1],
                added_by_turn(at_cornea, turn.degrees).d()
            )
        })
        .collect();
    if shown.is_empty() {
        return;
    }
    let helps = match no_better_from(prediction.net.cylinder(), at_cornea) {
        Some(degrees) => {
            format!("from {degrees:.0}° off the suggested axis no better than without a cylinder")
        }
        None => "at no axis better than without a cylinder".to_owned(),
    };
    said(ui, format!("If the lens turns {}", shown.join("; ")));
    muted(ui, words::sentence(&helps));
}
