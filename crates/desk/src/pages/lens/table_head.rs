//! The head of the lens power table: a name over each group; the axis of the chart stands in its lower
//! half.

use egui::accesskit::Role;
use egui::text::LayoutJob;
use egui::{Align, FontId, Id, Rangef, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use millrace_core::iol_power::ladder::Column;
use millrace_core::plan::{HYPEROPIC, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::desk::lens as say;
use millrace_wording::iol_power::column_name;
use millrace_wording::{Words, quantity};

use super::table_groups::Groups;
use super::table_row::INSET;
use crate::figures::interval_chart::AXIS;
use crate::theme::{Palette, bold, measures};
use crate::words::in_use;

/// A name over a group, as it is written and as it is told.
struct Head {
    range: Rangef,
    written: String,
    told: String,
    is_heavy: bool,
}

/// Where the axis begins in a head.
pub(super) fn axis_top(head: Rect) -> f32 {
    head.bottom() - AXIS
}

/// Shows it; `target` comes with its place from side to side.
pub(super) fn show(
    ui: &mut Ui,
    ground: Id,
    groups: &Groups<'_>,
    planned: Option<(usize, &Column)>,
    target: (HundredthDiopters, f32),
) -> Rect {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let heads = heads(words, groups, planned);
    let written: Vec<_> = heads
        .iter()
        .map(|head| {
            let (font, ink) = if head.is_heavy {
                (FontId::new(measures::SMALL, bold()), palette.ink)
            } else {
                (FontId::proportional(measures::SMALL), palette.muted)
            };
            let width = head.range.span() - INSET - 1.0;
            let mut job = LayoutJob::simple(head.written.clone(), font, ink, width);
            // A name that is broken stands to the right as its numbers do.
            job.halign = Align::RIGHT;
            (ui.painter().layout_job(job), ink)
        })
        .collect();
    let heights = written.iter().map(|(galley, _)| galley.size().y);
    let height = heights.fold(2.0 * AXIS, f32::max) + measures::TIGHT;
    let size = vec2(ui.available_width(), height);
    let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
    for (index, (head, (galley, ink))) in heads.iter().zip(written).enumerate() {
        let place = Rect::from_x_y_ranges(head.range, rect.y_range());
        let top = rect.bottom() - 3.0 - galley.size().y;
        ui.painter()
            .galley(pos2(place.right() - INSET, top), galley, ink);
        told(ui, ground.with(("head", index)), place, &head.told);
    }
    let (target, across) = target;
    let text = say::target_here(words, target);
    let font = FontId::proportional(measures::SMALL);
    let galley = ui
        .painter()
        .layout_no_wrap(text.clone(), font, palette.accent);
    let half = galley.size().x / 2.0;
    let plot = groups.plot();
    let middle = across.clamp(plot.min + half, (plot.max - half).max(plot.min + half));
    let at = pos2(middle - half, axis_top(rect) - galley.size().y);
    ui.painter().galley(at, galley, palette.accent);
    let place = Rect::from_x_y_ranges(groups.chart, rect.y_range());
    let told_of_chart = say::head_chart(words, target);
    told(ui, ground.with("head of the chart"), place, &told_of_chart);
    let stroke = Stroke::new(measures::OUTLINE, palette.outline);
    ui.painter().hline(rect.x_range(), rect.bottom(), stroke);
    rect
}

fn told(ui: &Ui, id: Id, place: Rect, name: &str) {
    let response = ui.interact(place, id, Sense::HOVER);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
}

fn heads(words: Words, groups: &Groups<'_>, planned: Option<(usize, &Column)>) -> Vec<Head> {
    let [_, band, _] = SHOWN_BANDS;
    let band = quantity::unsigned(words, band);
    let head = |range, written: String, told: String| Head {
        range,
        written,
        told,
        is_heavy: false,
    };
    let power = say::power(words).to_owned();
    let planned = if let Some((_, column)) = planned {
        let written = column_name(words, column.formula).into_owned();
        let told = say::head_planned(words, column.formula);
        Head {
            is_heavy: true,
            ..head(groups.planned, written, told)
        }
    } else {
        let none = say::no_formula_chosen(words).to_owned();
        head(groups.planned, none.clone(), none)
    };
    let mut heads = vec![
        head(groups.power, power.clone(), power),
        planned,
        head(
            groups.within,
            say::within(words, band.clone()),
            say::head_within(words, band),
        ),
        head(
            groups.over,
            say::over(words, HYPEROPIC),
            say::head_over(words, HYPEROPIC),
        ),
    ];
    heads.extend(groups.others.iter().map(|(range, _, column)| {
        let written = column_name(words, column.formula).into_owned();
        head(*range, written, say::head_other(words, column.formula))
    }));
    heads
}
