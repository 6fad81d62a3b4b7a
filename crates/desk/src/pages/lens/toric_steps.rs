//! The cylinders of a toric lens: what each leaves, and how sure that is.

use egui::{Align2, FontId, Sense, Ui, pos2, vec2};
use millrace_core::astigmatism::{StepResult, ToricPrediction};
use millrace_core::case::Command;
use millrace_core::lens::ToricChoice;
use millrace_core::plan::{StepCertainty, ToricPlan};
use millrace_wording::Words;
use millrace_wording::number::percent;

use crate::decimals::turned;
use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Rows, small};

/// Where the columns of a row begin.
const LEAVES: f32 = 168.0;
const WITHIN: f32 = 362.0;
const HELPS: f32 = 452.0;

/// One cylinder in words, and what choosing it means.
struct Line {
    name: String,
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
    let lines: Vec<Line> = prediction
        .steps
        .iter()
        .map(|step| {
            let sure = toric.steps.iter().find(|it| it.cylinder == step.cylinder);
            line(view, prediction, step, sure)
        })
        .collect();
    header(ui);
    let id = view.ground.with("cylinders");
    let mut group = Rows::begin(ui, id, "Cylinder of the lens");
    for line in &lines {
        row(ui, &mut group, line);
    }
    let chosen = group.end(ui).and_then(|index| lines.get(index));
    commands.extend(chosen.and_then(|line| line.command.clone()));
    small(
        ui,
        "* leaves least at the suggested axis; † overcorrects. Within: chance that the cylinder left is \
         at most 0.50 D; helps: chance that it is smaller than without a cylinder.",
    );
}

fn line(
    view: &CaseView<'_>,
    prediction: &ToricPrediction,
    step: &StepResult,
    sure: Option<&StepCertainty>,
) -> Line {
    let least = prediction.least_left();
    let is_least = least.is_some_and(|least| least.cylinder == step.cylinder);
    let chosen = view.draft.lens.toric;
    let star = if is_least { " *" } else { "" };
    let over = if step.overcorrects { " †" } else { "" };
    let name = match (step.cylinder, step.axis) {
        (Some(cylinder), Some(axis)) => format!("{cylinder} at {axis}{star}{over}"),
        (Some(cylinder), None) => format!("{cylinder}{star}{over}"),
        (None, _) => format!("no cylinder{star}"),
    };
    let chance =
        |found: Option<f64>| found.map_or_else(|| "–".to_owned(), |it| percent(Words::ENGLISH, it));
    Line {
        name,
        leaves: match &step.outcome {
            Ok(left) => left.spectacles().to_string(),
            Err(refusal) => format!("not computed: {refusal}"),
        },
        within: chance(sure.and_then(|sure| sure.chances.get(1).copied())),
        helps: chance(sure.and_then(|sure| sure.chance_of_less)),
        is_chosen: chosen.map(|choice| choice.cylinder) == step.cylinder,
        command: match (step.cylinder, step.axis) {
            (None, _) => Some(Command::ChooseToric(None)),
            (Some(cylinder), Some(axis)) => {
                Some(Command::ChooseToric(Some(ToricChoice { cylinder, axis })))
            }
            (Some(_), None) => None,
        },
    }
}

fn header(ui: &mut Ui) {
    let size = vec2(ui.available_width(), 20.0);
    let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
    let ink = Palette::current(ui).muted;
    for (x, text) in [
        (12.0, "Cylinder"),
        (LEAVES, "leaves"),
        (WITHIN, "within 0.50 D"),
        (HELPS, "helps"),
    ] {
        let font = FontId::proportional(measures::SMALL);
        let at = pos2(rect.left() + x, rect.center().y);
        ui.painter()
            .text(at, Align2::LEFT_CENTER, turned(ui, text), font, ink);
    }
}

fn row(ui: &mut Ui, group: &mut Rows<'_>, line: &Line) {
    let words = format!(
        "{}, leaves {}, chance within 0.50 D {}, helps {}",
        line.name, line.leaves, line.within, line.helps
    );
    let rect = group.row(ui, measures::CONTROL, line.is_chosen.into(), &words);
    let heavy = || FontId::new(measures::BODY, bold());
    let plain = || FontId::proportional(measures::BODY);
    let name_font = if line.is_chosen { heavy() } else { plain() };
    for (x, text, font) in [
        (12.0, &line.name, name_font),
        (LEAVES, &line.leaves, plain()),
        (WITHIN, &line.within, plain()),
        (HELPS, &line.helps, plain()),
    ] {
        let at = pos2(rect.left() + x, rect.center().y);
        let ink = Palette::current(ui).ink;
        let text = turned(ui, text);
        ui.painter().text(at, Align2::LEFT_CENTER, text, font, ink);
    }
}
