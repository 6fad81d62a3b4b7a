//! The ladder: a row per power, a column per formula, a strip that places them all.

use egui::accesskit::Role;
use egui::{Align2, FontId, Rect, Sense, Ui, WidgetInfo, vec2};
use millrace_core::case::Command;
use millrace_core::certainty::Level;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Convention, Ladder};
use millrace_core::plan::{BANDS_SOURCE, HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::HundredthDiopters;

use super::column_name;
use super::ladder_row::{Columns, Row, chances, strip_range};
use crate::figures::strip::RefractionAxis;
use crate::pages::CaseView;
use crate::settings::Decimals;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Rows, muted, section, small};

/// Height of the names over the columns, and of what stands over strips and chances.
const NAMES: f32 = 34.0;
const UNDER_NAMES: f32 = 18.0;

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
    let (answering, left_out): (Vec<_>, Vec<_>) = answering
        .into_iter()
        .partition(|(_, column)| view.own.shows(column.formula, view.draft));
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
    commands.extend(list(ui, view, &columns, &rows));
    let legend = format!(
        "Bold and diamond: formula planned by; strokes: the others; bars: 50 and 80 % of eyes like this \
         one under this model, all formulas together; dashed: target {}; *: {}. {BANDS_SOURCE}",
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
    let (rect, response) = ui.allocate_exact_size(vec2(width, NAMES + UNDER_NAMES), Sense::HOVER);
    let palette = Palette::current(ui);
    let font = || FontId::proportional(measures::SMALL);
    let bottom = rect.top() + NAMES - 2.0;
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
    over_strips(ui, columns, rect);
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
    let words = Decimals::current(ui).write(&words);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
}

/// "within ±0.50 D", "over +0.50 D".
fn chance_names() -> [String; 2] {
    let [_, band, _] = SHOWN_BANDS;
    [
        format!("within ±{:.2} D", band.diopters().d()),
        format!("over {HYPEROPIC}"),
    ]
}

/// The refraction axis over the strips, and the names of the two chances over theirs.
fn over_strips(ui: &Ui, columns: &Columns<'_>, rect: Rect) {
    let palette = Palette::current(ui);
    let decimals = Decimals::current(ui);
    let bottom = rect.bottom() - 2.0;
    let write = |x: f32, anchor: Align2, text: &str| {
        let font = FontId::proportional(measures::SMALL);
        let at = egui::pos2(x, bottom);
        ui.painter()
            .text(at, anchor, decimals.write(text), font, palette.muted);
    };
    for (right, name) in chances(rect).into_iter().zip(chance_names()) {
        write(right, Align2::RIGHT_BOTTOM, &name);
    }
    if let (Some(axis), Some(across)) = (columns.axis, strip_range(rect)) {
        for (x, text) in axis.numbers(across) {
            write(x, Align2::CENTER_BOTTOM, &text);
        }
    }
}

/// The rows, and what their last column says.
fn list(
    ui: &mut Ui,
    view: &CaseView<'_>,
    columns: &Columns<'_>,
    rows: &[Row<'_>],
) -> Option<Command> {
    let id = view.ground.with("ladder");
    let mut group = Rows::begin(ui, id, "Power of the lens");
    for row in rows {
        row.show(ui, &mut group, columns);
    }
    let chosen = group.end(ui);
    let power = rows.get(chosen?)?.power;
    Some(Command::ChoosePower(Some(power)))
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
