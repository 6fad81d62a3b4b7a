//! The cylinders of a toric lens: what each leaves, and how sure that is.

use egui::{Align2, FontId, Sense, Ui, pos2, vec2};
use millrace_core::astigmatism::{StepResult, ToricPrediction};
use millrace_core::case::{Command, Slot};
use millrace_core::lens::ToricChoice;
use millrace_core::plan::{StepCertainty, ToricPlan};
use millrace_wording::desk::lens as say;
use millrace_wording::number::percent;
use millrace_wording::{Show as _, Words};

use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Rows, small};
use crate::words::in_use;

/// Where the columns of a row begin.
const LEAVES: f32 = 168.0;
const WITHIN: f32 = 362.0;
const HELPS: f32 = 452.0;

/// One cylinder in words, and what choosing it means.
struct Line {
    name: String,
    /// What the marks behind the name mean.
    marks: Vec<(&'static str, &'static str)>,
    leaves: String,
    within: String,
    helps: String,
    is_chosen: bool,
    command: Option<Command>,
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    toric: &ToricPlan,
    prediction: &ToricPrediction,
    commands: &mut Vec<Command>,
) {
    let words = in_use(ui);
    let lines: Vec<Line> = prediction
        .steps
        .iter()
        .map(|step| {
            let sure = toric.steps.iter().find(|it| it.cylinder == step.cylinder);
            line(words, view, prediction, step, sure)
        })
        .collect();
    header(ui);
    let id = view.ground.with("cylinders");
    let mut group = Rows::begin(ui, id, say::cylinder(words));
    for line in &lines {
        row(ui, &mut group, line);
    }
    let chosen = group.end(ui).and_then(|index| lines.get(index));
    commands.extend(chosen.and_then(|line| line.command.clone()));
    small(ui, say::what_the_marks_are(words));
}

fn line(
    words: Words,
    view: &CaseView<'_>,
    prediction: &ToricPrediction,
    step: &StepResult,
    sure: Option<&StepCertainty>,
) -> Line {
    let chosen = view.draft.lens.toric();
    let name = match (step.cylinder, step.axis) {
        (Some(cylinder), Some(axis)) => say::cylinder_at(words, cylinder, axis),
        (Some(cylinder), None) => cylinder.show(words).into_owned(),
        (None, _) => say::no_cylinder(words).to_owned(),
    };
    let chance = |found: Option<f64>| found.map_or_else(|| "–".to_owned(), |it| percent(words, it));
    Line {
        name,
        marks: marks(words, prediction, step),
        leaves: match &step.outcome {
            Ok(left) => left.spectacles().show(words).into_owned(),
            Err(refusal) => say::step_not_computed(words, refusal),
        },
        within: chance(sure.and_then(|sure| sure.chances.get(1).copied())),
        helps: chance(sure.and_then(|sure| sure.chance_of_less)),
        is_chosen: chosen.map(|choice| choice.cylinder) == step.cylinder,
        command: match (step.cylinder, step.axis) {
            (None, _) => Some(Command::ChooseToric(Slot::Planned, None)),
            (Some(cylinder), Some(axis)) => Some(Command::ChooseToric(
                Slot::Planned,
                Some(ToricChoice { cylinder, axis }),
            )),
            (Some(_), None) => None,
        },
    }
}

/// Which proposals a cylinder is, and whether it overcorrects: the mark and the same in words.
fn marks(
    words: Words,
    prediction: &ToricPrediction,
    step: &StepResult,
) -> Vec<(&'static str, &'static str)> {
    let is = |proposed: Option<&StepResult>| {
        proposed.is_some_and(|proposed| proposed.cylinder == step.cylinder)
    };
    let without_overcorrecting = prediction.least_left_without_overcorrecting();
    [
        (is(prediction.least_left()), ("*", say::leaves_least(words))),
        (
            is(without_overcorrecting),
            ("‡", say::leaves_least_and_not_over(words)),
        ),
        (step.overcorrects, ("†", say::overcorrects(words))),
    ]
    .into_iter()
    .filter_map(|(is_so, mark)| is_so.then_some(mark))
    .collect()
}

fn header(ui: &mut Ui) {
    let size = vec2(ui.available_width(), 20.0);
    let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
    let (ink, words) = (Palette::current(ui).muted, in_use(ui));
    for (x, text) in [
        (12.0, say::column_cylinder(words)),
        (LEAVES, say::column_leaves(words)),
        (WITHIN, say::column_within(words)),
        (HELPS, say::column_helps(words)),
    ] {
        let font = FontId::proportional(measures::SMALL);
        let at = pos2(rect.left() + x, rect.center().y);
        ui.painter().text(at, Align2::LEFT_CENTER, text, font, ink);
    }
}

fn row(ui: &mut Ui, group: &mut Rows<'_>, line: &Line) {
    let words = in_use(ui);
    let (mut marked, mut told) = (line.name.clone(), line.name.clone());
    for (mark, meaning) in &line.marks {
        marked = format!("{marked} {mark}");
        told = words.list([told.as_str(), meaning]);
    }
    let name = say::step(words, &told, &line.leaves, &line.within, &line.helps);
    let rect = group.row(ui, measures::CONTROL, line.is_chosen.into(), &name);
    let heavy = || FontId::new(measures::BODY, bold());
    let plain = || FontId::proportional(measures::BODY);
    let name_font = if line.is_chosen { heavy() } else { plain() };
    for (x, text, font) in [
        (12.0, &marked, name_font),
        (LEAVES, &line.leaves, plain()),
        (WITHIN, &line.within, plain()),
        (HELPS, &line.helps, plain()),
    ] {
        let at = pos2(rect.left() + x, rect.center().y);
        let ink = Palette::current(ui).ink;
        ui.painter().text(at, Align2::LEFT_CENTER, text, font, ink);
    }
}
