//! Mean margin against the number of pieces: one line for each working plane with its 80 % band, the
//! endothelium at zero, and the place of this plan.

use egui::accesskit::Role;
use egui::{Color32, FontId, Id, Rect, Response, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};
use egui_plot::{
    AxisHints, GridMark, HLine, Line, LineStyle, MarkerShape, PlotPoint, PlotUi, Polygon, Text,
};
use millrace_core::chamber::{PlaneProximity, WorkingPlane};
use millrace_core::quantity::Millimeters;
use millrace_wording::desk::figures as say;
use millrace_wording::{Show as _, Words};

use super::still_plot::{marks, still_plot};
use crate::theme::{Palette, measures};
use crate::words::in_use;

/// Height of the chart, points.
const HEIGHT: f32 = 220.0;
/// Where the chart begins, in its steps: a little before the first division.
const LEFT: f64 = -0.4;
/// From the end of a line to its name, clear of the mark of what is chosen, in steps.
const CLEAR: f64 = 0.16;
/// Room for the numbers beside the chart, points.
const AXIS: f32 = 40.0;

#[derive(Clone, Copy, Debug)]
pub struct MarginChart<'a> {
    pub planes: &'a [PlaneProximity],
    /// Plane and number of pieces of this plan.
    pub chosen: Option<(WorkingPlane, u8)>,
}

impl MarginChart<'_> {
    /// The same in words.
    pub fn words(&self, words: Words) -> String {
        let mut sentences = Vec::new();
        for plane in self.planes {
            let points = plane.divisions.iter().map(|near| {
                let pieces = near.division.pieces();
                match near.interval() {
                    Some([low, high]) => {
                        say::curve_point_with_range(words, pieces, near.margin, low, high)
                    }
                    None => say::curve_point(words, pieces, near.margin),
                }
            });
            sentences.push(say::curve_of(words, plane.plane, words.clauses(points)));
        }
        sentences.push(say::curve_zero(words).to_owned());
        if let Some((plane, pieces)) = self.chosen {
            sentences.push(say::curve_chosen(words, pieces, plane));
        }
        sentences.join(" ")
    }

    /// Draws it as wide as there is room.
    pub fn show(&self, ui: &mut Ui, id: Id) -> Response {
        let (palette, words) = (Palette::current(ui), in_use(ui));
        let size = vec2(ui.available_width(), HEIGHT);
        let rect = Rect::from_min_size(pos2(ui.cursor().left(), ui.cursor().top()), size);
        let pieces = self.pieces();
        let named = move |mark: GridMark| {
            let at = pieces
                .iter()
                .find(|(place, _)| (mark.value - place).abs() < 0.01);
            at.map_or_else(String::new, |(_, pieces)| pieces.to_string())
        };
        let small = FontId::proportional(measures::SMALL);
        let across = AxisHints::new_x()
            .tick_label_color(palette.muted)
            .tick_label_font(small.clone())
            .label_spacing(egui::Rangef::point(0.0))
            .formatter(move |mark, _| named(mark));
        let up = AxisHints::new_y()
            .tick_label_color(palette.muted)
            .tick_label_font(small)
            .formatter(move |mark, _| words.fixed(mark.value, 0));
        let [low, high] = self.bounds();
        let right = self.right_for(self.widest_name(ui), size.x - AXIS);
        let plot = still_plot(id, rect)
            .show_axes([true, true])
            .custom_x_axes(vec![across])
            .custom_y_axes(vec![up])
            .x_grid_spacer(|_| whole_steps(0, 6))
            .y_grid_spacer(move |_| {
                // A mark outside would be written over what stands above or under the chart.
                let mut marks = whole_steps(-6, 6);
                marks.retain(|mark| low <= mark.value && mark.value <= high);
                marks
            });
        ui.allocate_exact_size(size, egui::Sense::HOVER);
        let mut place = ui.new_child(UiBuilder::new().max_rect(rect));
        let chart = plot.show(&mut place, |plot| {
            plot.set_plot_bounds_x(LEFT..=right);
            plot.set_plot_bounds_y(low..=high);
            self.draw(plot, palette, words);
        });
        let response = chart.response;
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, say::curve(words)));
        ui.accesskit_node_builder(response.id, |node| {
            node.set_description(self.words(words));
        });
        response
    }

    /// Numbers of pieces, each at its place across: one step apart, whatever their number.
    fn pieces(&self) -> Vec<(f64, u8)> {
        let divisions = self
            .planes
            .first()
            .map_or(&[][..], |plane| plane.divisions.as_slice());
        let places = (0_u8..).map(f64::from);
        places
            .zip(divisions.iter().map(|near| near.division.pieces()))
            .collect()
    }

    /// From the lowest end of a band to the highest, with room over both.
    fn bounds(&self) -> [f64; 2] {
        let ends = self.planes.iter().flat_map(|plane| &plane.divisions);
        let ends = ends.flat_map(|near| near.interval().unwrap_or([near.margin; 2]));
        let (low, high) = ends
            .map(Millimeters::mm)
            .fold((0.0_f64, 0.0_f64), |(low, high), end| {
                (low.min(end), high.max(end))
            });
        [low - 0.3, high + 0.3]
    }

    /// Width of the longest name at the end of a line, points.
    fn widest_name(&self, ui: &Ui) -> f32 {
        let words = in_use(ui);
        let widths = self.planes.iter().map(|plane| {
            let font = FontId::proportional(measures::SMALL);
            let name = plane.plane.show(words).into_owned();
            let galley = ui
                .painter()
                .layout_no_wrap(name, font, Palette::current(ui).ink);
            galley.size().x
        });
        widths.fold(0.0, f32::max)
    }

    /// How far the chart reaches to the right, in its steps, so that names of a width find room in it behind the
    /// last division; they take at most half of it.
    fn right_for(&self, name: f32, width: f32) -> f64 {
        let share = f64::from((name + measures::NEAR) / width.max(1.0)).clamp(0.0, 0.5);
        let last = self.pieces().last().map_or(0.0, |(place, _)| *place);
        // (right − last − CLEAR) / (right − LEFT) = share
        ((last + CLEAR - share * LEFT) / (1.0 - share)).max(last + CLEAR)
    }

    fn draw(&self, plot: &mut PlotUi<'_>, palette: &Palette, words: Words) {
        plot.hline(
            HLine::new("endothelium", 0.0)
                .stroke(Stroke::new(1.5, palette.ink))
                .allow_hover(false),
        );
        for plane in self.planes {
            let (color, style) = drawn_as(palette, plane.plane);
            band(plot, plane, color.gamma_multiply(0.18));
            let middle = series(plane, |margin, _| margin);
            let last = middle.last().copied();
            let line = Line::new("margin", middle)
                .stroke(Stroke::new(2.0, color))
                .style(style);
            plot.line(line.allow_hover(false));
            if let Some([x, y]) = last {
                let name = plane.plane.show(words).into_owned();
                let text = egui::RichText::new(name)
                    .color(palette.ink)
                    .size(measures::SMALL);
                let at = PlotPoint::new(x + CLEAR, y);
                plot.text(
                    Text::new("plane", at, text)
                        .anchor(egui::Align2::LEFT_CENTER)
                        .allow_hover(false),
                );
            }
        }
        if let Some(place) = self.chosen_at() {
            for (radius, color) in [(7.5, palette.surface), (6.0, palette.ink)] {
                plot.points(marks(MarkerShape::Diamond, &[place], radius, color));
            }
        }
    }

    fn chosen_at(&self) -> Option<[f64; 2]> {
        let (plane, pieces) = self.chosen?;
        let plane = self.planes.iter().find(|at| at.plane == plane)?;
        let near = plane.of_pieces(pieces)?;
        let places = self.pieces();
        let (across, _) = places.iter().find(|(_, some)| *some == pieces)?;
        Some([*across, near.margin.mm()])
    }
}

/// Never by color alone: each plane has a line of its own kind and its name at the end.
fn drawn_as(palette: &Palette, plane: WorkingPlane) -> (Color32, LineStyle) {
    match plane {
        WorkingPlane::Bag => (palette.note, LineStyle::Solid),
        WorkingPlane::Pupil => (palette.accent, LineStyle::dashed_loose()),
        WorkingPlane::Chamber => (palette.stop, LineStyle::dotted_dense()),
    }
}

fn series(plane: &PlaneProximity, of: impl Fn(f64, [f64; 2]) -> f64) -> Vec<[f64; 2]> {
    let places = (0_u8..).map(f64::from);
    places
        .zip(&plane.divisions)
        .map(|(across, near)| {
            let ends = near.interval().unwrap_or([near.margin; 2]);
            [across, of(near.margin.mm(), ends.map(Millimeters::mm))]
        })
        .collect()
}

/// A strip of quadrilaterals: the band as a whole is not convex.
fn band(plot: &mut PlotUi<'_>, plane: &PlaneProximity, fill: Color32) {
    let low = series(plane, |_, [low, _]| low);
    let high = series(plane, |_, [_, high]| high);
    for (low, high) in low.windows(2).zip(high.windows(2)) {
        if let ([a, b], [c, d]) = (low, high) {
            plot.polygon(
                Polygon::new("band", vec![*a, *b, *d, *c])
                    .fill_color(fill)
                    .stroke(Stroke::NONE)
                    .allow_hover(false),
            );
        }
    }
}

fn whole_steps(from: i16, to: i16) -> Vec<GridMark> {
    (from..=to)
        .map(|step| GridMark {
            value: f64::from(step),
            step_size: 1.0,
        })
        .collect()
}
