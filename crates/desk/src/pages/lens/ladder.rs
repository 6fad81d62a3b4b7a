//! The ladder: a row per power, a column per formula, and a chart that places them all.

use egui::accesskit::Role;
use egui::{Align2, FontId, Rect, Sense, Ui, WidgetInfo, vec2};
use millrace_core::case::Command;
use millrace_core::certainty::Level;
use millrace_core::iol_power::ladder::{Convention, Ladder};
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, SHOWN_BANDS};

use super::column_name;
use super::ladder_row::{Columns, Row, chances};
use crate::decimals::turned;
use crate::figures::interval_chart::{AXIS, IntervalChart, RefractionAxis};
use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Rows, muted, section, small};

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
    section(ui, "Power");
    if ladder.rungs.is_empty() {
        muted(ui, "The lens is made in no power near this eye's.");
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
    let mut group = Rows::begin(ui, view.ground.with("ladder"), "Power of the lens");
    for row in &rows {
        lanes.push(row.show(ui, &mut group, &columns));
    }
    let chosen = group.end(ui).and_then(|index| rows.get(index));
    commands.extend(chosen.map(|row| Command::ChoosePower(Some(row.power))));
    if let (Some(axis), Some(across)) = (axis(plan, ladder), columns.chart(head)) {
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
    let legend = format!(
        "Bold and diamond: formula planned by; strokes: the others; triangle: mean of all formulas together; \
         bars: 50, 80 and 95 % of eyes like this one under this model; dashed: target {}; *: {}. {BANDS_SOURCE}",
        ladder.target,
        proposes(view.draft.lens.convention)
    );
    small(ui, legend);
    if !left_out.is_empty() {
        let names: Vec<_> = left_out
            .iter()
            .map(|(_, column)| column.formula.name())
            .collect();
        let words = format!(
            "Left out of these columns by your own ways, counted in the bars and chances: {}",
            names.join(", ")
        );
        small(ui, words);
    }
}

/// What a star means.
const fn proposes(convention: Option<Convention>) -> &'static str {
    match convention {
        None => "no convention is chosen, so no power is proposed",
        Some(Convention::FirstMyopic) => {
            "proposed, the weakest power predicted at the target or on its myopic side"
        }
        Some(Convention::Nearest) => "proposed, the power predicted nearest to the target",
        Some(Convention::FirstHyperopic) => {
            "proposed, the strongest power predicted at the target or on its hyperopic side"
        }
    }
}

/// Wide enough for all that is placed on it.
fn axis(plan: &Plan, ladder: &Ladder) -> Option<RefractionAxis> {
    let predicted = ladder.rungs.iter().flat_map(|rung| rung.predicted.iter());
    let together = plan.certainty.iter().flat_map(|it| it.ladder.pooled.iter());
    let ranges = together
        .flatten()
        .flat_map(|it| it.interval(Level::NinetyFive));
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
    let palette = Palette::current(ui);
    let font = || FontId::proportional(measures::SMALL);
    let bottom = rect.top() + NAMES - UNDER;
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
        let (font, ink) = if columns.planned == Some(column.formula) {
            (FontId::new(measures::SMALL, bold()), palette.ink)
        } else {
            (font(), palette.muted)
        };
        let galley = painter.layout(name.to_owned(), font, ink, place.width() - 4.0);
        let at = egui::pos2(place.right() - 4.0, bottom);
        let at = Align2::RIGHT_BOTTOM.anchor_size(at, galley.size());
        painter.galley(at.min, galley, ink);
    }
    for (right, name) in chances(rect).into_iter().zip(chance_names()) {
        let at = egui::pos2(right, rect.bottom() - UNDER);
        let name = turned(ui, &name);
        painter.text(at, Align2::RIGHT_BOTTOM, name, font(), palette.muted);
    }
    ui.painter().hline(
        rect.x_range(),
        rect.bottom(),
        egui::Stroke::new(measures::OUTLINE, palette.line),
    );
    let names = columns
        .answering
        .iter()
        .map(|(_, column)| column.formula.name());
    let names: Vec<_> = names.collect();
    let [within, over] = chance_names();
    let words = format!(
        "Columns: power, {}; chance to end {within} of the target, chance to end {over}",
        names.join(", ")
    );
    let words = turned(ui, &words);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
    rect
}

/// "within ±0.50 D", "over +0.50 D".
fn chance_names() -> [String; 2] {
    let [_, band, _] = SHOWN_BANDS;
    [
        format!("within ±{:.2} D", band.diopters().d()),
        format!("over {HYPEROPIC}"),
    ]
}
