//! The ladder: a row per power, a column per formula, a strip that places them all.

use egui::accesskit::Role;
use egui::{Align2, EventFilter, FontId, Key, Rect, Response, Sense, Ui, WidgetInfo, vec2};
use millrace_core::case::Command;
use millrace_core::certainty::Level;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;

use super::column_name;
use super::ladder_row::{CHANCES, Columns, Row};
use crate::figures::strip::RefractionAxis;
use crate::pages::CaseView;
use crate::theme::{Palette, measures};
use crate::widgets::{muted, section, small};

/// Height of the names over the columns.
const HEADER: f32 = 34.0;

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    plan: &Plan,
    ladder: &Ladder,
    commands: &mut Vec<Command>,
) {
    section(ui, "Power");
    if ladder.rungs.is_empty() {
        muted(ui, "The lens is made in no power near this eye's.");
        return;
    }
    let answering: Vec<(usize, &Column)> = ladder
        .columns
        .iter()
        .enumerate()
        .filter(|(_, column)| column.answer.is_ok())
        .collect();
    let rows: Vec<Row<'_>> = (0..ladder.rungs.len())
        .filter_map(|index| Row::of(view.draft, plan, ladder, index))
        .collect();
    let columns = Columns {
        planned: view.draft.lens.formula,
        answering: &answering,
        target: ladder.target,
        axis: axis(plan, ladder),
    };
    header(ui, &columns);
    let powers: Vec<HundredthDiopters> = rows.iter().map(|row| row.power).collect();
    let group = list(ui, view, &columns, &rows, commands);
    commands.extend(by_key(ui, &group, &powers, view.draft.lens.power));
    let legend = format!(
        "◆ formula planned by; | the others; bars hold 50 and 80 % of eyes like this one under this \
         model, all formulas together; dashed: target {}. {BANDS_SOURCE}.",
        ladder.target
    );
    small(ui, legend);
}

/// Wide enough for all that is placed on it.
fn axis(plan: &Plan, ladder: &Ladder) -> Option<RefractionAxis> {
    let predicted = ladder.rungs.iter().flat_map(|rung| rung.predicted.iter());
    let together = plan.certainty.iter().flat_map(|it| it.ladder.pooled.iter());
    let ranges = together.flatten().flat_map(|it| it.interval(Level::Eighty));
    RefractionAxis::over(
        predicted
            .flatten()
            .copied()
            .chain(ranges)
            .chain([ladder.target.diopters()]),
    )
}

fn header(ui: &mut Ui, columns: &Columns<'_>) {
    let width = ui.available_width();
    let (rect, response) = ui.allocate_exact_size(vec2(width, HEADER), Sense::HOVER);
    let palette = Palette::current(ui);
    let font = || FontId::proportional(measures::SMALL);
    let bottom = rect.bottom() - 2.0;
    let painter = ui.painter();
    painter.text(
        egui::pos2(rect.left() + 8.0, bottom),
        Align2::LEFT_BOTTOM,
        "Power",
        font(),
        palette.muted,
    );
    for (index, (_, column)) in columns.answering.iter().enumerate() {
        let place = columns.formula(rect, index);
        let name = column_name(column.formula);
        let mark = if columns.planned == Some(column.formula) {
            "◆ "
        } else {
            ""
        };
        let ink = if mark.is_empty() { palette.muted } else { palette.ink };
        let galley = painter.layout(format!("{mark}{name}"), font(), ink, place.width() - 4.0);
        let at = egui::pos2(place.right() - 4.0, bottom);
        let at = Align2::RIGHT_BOTTOM.anchor_size(at, galley.size());
        painter.galley(at.min, galley, ink);
    }
    painter.hline(
        rect.x_range(),
        rect.bottom(),
        egui::Stroke::new(measures::OUTLINE, palette.line),
    );
    let names = columns
        .answering
        .iter()
        .map(|(_, column)| column.formula.name());
    let names: Vec<_> = names.collect();
    let words = format!("Columns: power, {}", names.join(", "));
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
}

/// The rows; one stop of the Tab key for all of them.
fn list(
    ui: &mut Ui,
    view: &CaseView<'_>,
    columns: &Columns<'_>,
    rows: &[Row<'_>],
    commands: &mut Vec<Command>,
) -> Response {
    let id = view.ground.with("ladder");
    let top = ui.cursor().min;
    let spacing = core::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
    for (index, row) in rows.iter().enumerate() {
        if row.show(ui, id.with(index), columns).clicked() {
            ui.memory_mut(|memory| memory.request_focus(id));
            commands.push(Command::ChoosePower(Some(row.power)));
        }
    }
    ui.spacing_mut().item_spacing.y = spacing;
    let bottom = egui::pos2(top.x + ui.available_width(), ui.cursor().min.y);
    let rect = Rect::from_min_max(top, bottom);
    let group = ui.interact(rect, id, Sense::FOCUSABLE);
    group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, true, "Power of the lens"));
    if group.has_focus() {
        let stroke = egui::Stroke::new(measures::FOCUS, Palette::current(ui).accent);
        ui.painter()
            .rect_stroke(rect.expand(1.0), 3.0, stroke, egui::StrokeKind::Outside);
    }
    let shown = SHOWN_BANDS.get(1).map_or(0.0, |band| band.diopters().d());
    ui.horizontal(|ui| {
        let room = ui.available_width() - CHANCES;
        ui.add_space(room.max(0.0));
        small(ui, format!("within ±{shown:.2} D / over {HYPEROPIC}"));
    });
    group
}

/// Up and down choose the neighbor of the chosen power, or the first of them.
fn by_key(
    ui: &Ui,
    group: &Response,
    powers: &[HundredthDiopters],
    chosen: Option<HundredthDiopters>,
) -> Option<Command> {
    if !group.has_focus() {
        return None;
    }
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(group.id, filter));
    let (up, down) = ui.input(|input| {
        (
            input.key_pressed(Key::ArrowUp),
            input.key_pressed(Key::ArrowDown),
        )
    });
    let now = powers.iter().position(|power| Some(*power) == chosen);
    let next = match (up, down, now) {
        (true, false, Some(index)) => index.checked_sub(1)?,
        (false, true, Some(index)) => index + 1,
        (true, false, None) => powers.len().checked_sub(1)?,
        (false, true, None) => 0,
        _ => return None,
    };
    let power = powers.get(next)?;
    Some(Command::ChoosePower(Some(*power)))
}

/// The formulas that propose a power.
pub(super) fn proposing(ladder: &Ladder, power: HundredthDiopters) -> Vec<Formula> {
    let proposes = |column: &&Column| {
        let answer = column.answer.as_ref();
        answer.is_ok_and(|answer| answer.proposed == Some(power))
    };
    let columns = ladder.columns.iter().filter(proposes);
    columns.map(|column| column.formula).collect()
}
