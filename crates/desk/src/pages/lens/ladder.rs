//! The ladder: a row per power, a column per formula, and a chart that places them all.

use egui::accesskit::Role;
use egui::{Align2, FontId, Rect, Sense, Ui, WidgetInfo, vec2};
use millrace_core::case::{Command, Slot};
use millrace_core::iol_power::ladder::{Convention, Ladder};
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_wording::desk::lens as say;
use millrace_wording::iol_power::column_name;
use millrace_wording::{Words, quantity};

use super::ladder_row::{Columns, Row, chances};
use crate::figures::interval_chart::{AXIS, IntervalChart, RefractionAxis};
use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Rows, muted, section, small};
use crate::words::in_use;

/// Height of the names over the columns; the axis of the chart stands under them.
const NAMES: f32 = 34.0;
/// From what stands lowest in the head to the line under it.
const UNDER: f32 = 2.0;

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    plan: &Plan,
    ladder: &Ladder,
    commands: &mut Vec<Command>,
) {
    let words = in_use(ui);
    section(ui, say::power(words));
    if ladder.rungs.is_empty() {
        muted(ui, say::no_power_near(words));
        return;
    }
    let (answering, left_out): (Vec<_>, Vec<_>) = ladder
        .columns
        .iter()
        .enumerate()
        .filter(|(_, column)| column.answer.is_ok())
        .partition(|(_, column)| view.own.shows(column.formula, view.draft));
    let rows: Vec<Row<'_>> = (0..ladder.rungs.len())
        .filter_map(|index| Row::of(view.draft, plan, ladder, index))
        .collect();
    let columns = Columns {
        planned: view.draft.lens.formula,
        answering,
        width: ui.available_width(),
    };
    let head = header(ui, &columns);
    let mut lanes = Vec::with_capacity(rows.len());
    let mut group = Rows::begin(ui, view.ground.with("ladder"), say::ladder(words));
    for row in &rows {
        lanes.push(row.show(ui, &mut group, &columns));
    }
    let chosen = group.end(ui).and_then(|index| rows.get(index));
    commands.extend(chosen.map(|row| Command::ChoosePower(Slot::Planned, Some(row.power))));
    if let (Some(axis), Some(across)) = (axis(ladder, &rows), columns.chart(head)) {
        let chart = IntervalChart {
            axis,
            target: ladder.target,
            lanes: &lanes,
        };
        // Its numbers in line with the names of the chances.
        let down = head.bottom() - AXIS - UNDER..=ui.min_rect().bottom();
        let id = view.ground.with("interval chart");
        chart.show(ui, id, Rect::from_x_y_ranges(across, down));
    }
    let proposes = proposes(words, view.draft.lens.convention);
    small(
        ui,
        say::legend(words, ladder.target, proposes, BANDS_SOURCE),
    );
    if !left_out.is_empty() {
        let names = words.list(left_out.iter().map(|(_, column)| column.formula));
        small(ui, say::left_out(words, names));
    }
}

/// What a star means.
fn proposes(words: Words, convention: Option<Convention>) -> &'static str {
    match convention {
        None => say::proposes_none(words),
        Some(Convention::FirstMyopic) => say::proposes_first_myopic(words),
        Some(Convention::Nearest) => say::proposes_nearest(words),
        Some(Convention::FirstHyperopic) => say::proposes_first_hyperopic(words),
    }
}

/// Wide enough for all that is placed on it.
fn axis(ladder: &Ladder, rows: &[Row<'_>]) -> Option<RefractionAxis> {
    let predicted = ladder.rungs.iter().flat_map(|rung| rung.predicted.iter());
    let together = rows.iter().filter_map(|row| row.together.as_ref());
    let ranges = together.flat_map(|it| it.intervals.into_iter().flatten());
    RefractionAxis::over(
        predicted
            .flatten()
            .copied()
            .chain(ranges)
            .chain([ladder.target.diopters()]),
    )
}

fn header(ui: &mut Ui, columns: &Columns<'_>) -> Rect {
    let size = vec2(columns.width, NAMES + AXIS);
    let (rect, response) = ui.allocate_exact_size(size, Sense::HOVER);
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let font = || FontId::proportional(measures::SMALL);
    let bottom = rect.top() + NAMES - UNDER;
    let painter = ui.painter();
    painter.text(
        egui::pos2(rect.left() + 8.0, bottom),
        Align2::LEFT_BOTTOM,
        say::power(words),
        font(),
        palette.muted,
    );
    for (index, (_, column)) in columns.answering.iter().enumerate() {
        let place = columns.formula(rect, index);
        let name = column_name(words, column.formula).into_owned();
        let (font, ink) = if columns.planned == Some(column.formula) {
            (FontId::new(measures::SMALL, bold()), palette.ink)
        } else {
            (font(), palette.muted)
        };
        let galley = painter.layout(name, font, ink, place.width() - 4.0);
        let at = egui::pos2(place.right() - 4.0, bottom);
        let at = Align2::RIGHT_BOTTOM.anchor_size(at, galley.size());
        painter.galley(at.min, galley, ink);
    }
    for (right, name) in chances(rect).into_iter().zip(chance_names(words)) {
        let at = egui::pos2(right, rect.bottom() - UNDER);
        painter.text(at, Align2::RIGHT_BOTTOM, name, font(), palette.muted);
    }
    ui.painter().hline(
        rect.x_range(),
        rect.bottom(),
        egui::Stroke::new(measures::OUTLINE, palette.line),
    );
    let formulas = columns.answering.iter().map(|(_, column)| column.formula);
    let [within, over] = chance_names(words);
    let name = say::columns(words, words.list(formulas), within, over);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
    rect
}

/// "within ±0.50 D", "over +0.50 D".
fn chance_names(words: Words) -> [String; 2] {
    let [_, band, _] = SHOWN_BANDS;
    [
        say::within(words, quantity::unsigned(words, band)),
        say::over(words, HYPEROPIC),
    ]
}
