//! The cylinders of a toric lens: what each leaves, and how sure that is.

use egui::accesskit::Role;
use egui::{
    Align2, CursorIcon, EventFilter, FontId, Id, Key, Rect, Response, Sense, Stroke, StrokeKind, Ui,
    WidgetInfo, pos2, vec2,
};
use millrace_core::astigmatism::{StepResult, ToricPrediction};
use millrace_core::case::Command;
use millrace_core::lens::ToricChoice;
use millrace_core::plan::{StepCertainty, ToricPlan};
use millrace_core::rules::percent;

use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures};
use crate::widgets::small;

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
    (toric, prediction): (&ToricPlan, &ToricPrediction),
    commands: &mut Vec<Command>,
) {
    let least = prediction.least_left().map(|step| step.cylinder);
    let lines: Vec<Line> = prediction
        .steps
        .iter()
        .map(|step| {
            let sure = toric.steps.iter().find(|it| it.cylinder == step.cylinder);
            line(view, step, sure, least == Some(step.cylinder))
        })
        .collect();
    header(ui);
    let id = view.ground.with("cylinders");
    let top = ui.cursor().min;
    let spacing = core::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
    for (index, line) in lines.iter().enumerate() {
        if row(ui, id.with(index), line).clicked() {
            ui.memory_mut(|memory| memory.request_focus(id));
            commands.extend(line.command.clone());
        }
    }
    ui.spacing_mut().item_spacing.y = spacing;
    let bottom = pos2(top.x + ui.available_width(), ui.cursor().min.y);
    let group = ui.interact(Rect::from_min_max(top, bottom), id, Sense::FOCUSABLE);
    group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, true, "Cylinder of the lens"));
    if group.has_focus() {
        let stroke = Stroke::new(measures::FOCUS, Palette::current(ui).accent);
        ui.painter()
            .rect_stroke(group.rect.expand(1.0), 3.0, stroke, StrokeKind::Outside);
    }
    commands.extend(by_key(ui, &group, &lines));
    small(
        ui,
        "* leaves least at the suggested axis; † overcorrects. Within: chance that the cylinder left is \
         at most 0.50 D; helps: chance that it is smaller than without a cylinder.",
    );
}

fn line(view: &CaseView<'_>, step: &StepResult, sure: Option<&StepCertainty>, is_least: bool) -> Line {
    let chosen = view.draft.lens.toric;
    let star = if is_least { " *" } else { "" };
    let over = if step.overcorrects { " †" } else { "" };
    let name = match (step.cylinder, step.axis) {
        (Some(cylinder), Some(axis)) => format!("{cylinder} at {axis}{star}{over}"),
        (Some(cylinder), None) => format!("{cylinder}{star}{over}"),
        (None, _) => format!("no cylinder{star}"),
    };
    let chance = |found: Option<f64>| found.map_or_else(|| "–".to_owned(), percent);
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
        ui.painter().text(at, Align2::LEFT_CENTER, text, font, ink);
    }
}

fn row(ui: &mut Ui, id: Id, line: &Line) -> Response {
    let size = vec2(ui.available_width(), measures::CONTROL);
    let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
    let response = ui
        .interact(rect, id, Sense::CLICK)
        .on_hover_cursor(CursorIcon::PointingHand);
    let palette = Palette::current(ui);
    let painter = ui.painter();
    if line.is_chosen {
        painter.rect_filled(rect, 2.0, palette.selected);
        let bar = Rect::from_min_size(rect.min, vec2(4.0, rect.height()));
        painter.rect_filled(bar, 0.0, palette.accent);
    } else if response.hovered() {
        painter.rect_filled(rect, 2.0, palette.hovered);
    }
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
        painter.text(at, Align2::LEFT_CENTER, text, font, palette.ink);
    }
    let hairline = Stroke::new(measures::OUTLINE, palette.line);
    painter.hline(rect.x_range(), rect.bottom(), hairline);
    let words = format!(
        "{}, leaves {}, chance within 0.50 D {}, helps {}",
        line.name, line.leaves, line.within, line.helps
    );
    let is_chosen = line.is_chosen;
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, is_chosen, &words));
    response
}

/// Up and down choose the neighbor of the chosen cylinder.
fn by_key(ui: &Ui, group: &Response, lines: &[Line]) -> Option<Command> {
    if !group.has_focus() {
        return None;
    }
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(group.id, filter));
    let (up, down) = ui.input(|input| {
        let pressed = |key| input.key_pressed(key);
        (pressed(Key::ArrowUp), pressed(Key::ArrowDown))
    });
    let now = lines.iter().position(|line| line.is_chosen)?;
    let next = match (up, down) {
        (true, false) => now.checked_sub(1)?,
        (false, true) => now + 1,
        _ => return None,
    };
    lines.get(next)?.command.clone()
}
