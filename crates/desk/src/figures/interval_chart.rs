//! Where the refraction may end, for every power of a table: one chart with a lane beside each of its
//! lines, what every formula predicts, how far all together may be off, and the target.

use egui::accesskit::Role;
use egui::{FontId, Id, Rangef, Rect, Response, Stroke, Ui, UiBuilder, WidgetInfo};
use egui_plot::{AxisHints, BarChart, GridMark, Line, LineStyle, MarkerShape, PlotUi, VPlacement};
use millrace_core::certainty::{Distribution, Level};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::desk::figures as say;
use millrace_wording::{Words, quantity};

use super::still_plot::{bar, marks, still_plot};
use crate::theme::{Palette, measures};
use crate::words::in_use;

/// Height of a lane, points.
pub const LANE: f32 = 26.0;
/// Height of the axis over the first lane, points.
pub const AXIS: f32 = 18.0;

/// From the middle of a lane up to the mark of the mean: over the other marks, which it would hide.
const OVER: f64 = 9.5;

/// Room at both ends, so that marks there stay whole.
const ENDS: f32 = 6.0;

/// "+0.5 D" with a real minus; zero has no sign, and whole numbers among whole ones no decimals.
fn number(words: Words, mark: GridMark) -> String {
    let digits = usize::from(mark.step_size < 1.0);
    let sign = match mark.value {
        it if it < 0.0 => "\u{2212}",
        it if it > 0.0 => "+",
        _ => "",
    };
    let number = words.fixed(mark.value.abs(), digits);
    quantity::diopters(words, format!("{sign}{number}"))
}

/// The refraction axis that all lanes share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RefractionAxis {
    from_d: f64,
    to_d: f64,
}

impl RefractionAxis {
    /// Wide enough for every refraction that is to be placed, in whole half diopters; nothing if there
    /// is nothing to place.
    pub fn over(refractions: impl IntoIterator<Item = Diopters>) -> Option<Self> {
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for refraction in refractions {
            least = least.min(refraction.d());
            most = most.max(refraction.d());
        }
        let (from_d, to_d) = ((least * 2.0).floor() / 2.0, (most * 2.0).ceil() / 2.0);
        (from_d < to_d && (to_d - from_d).is_finite()).then_some(Self { from_d, to_d })
    }

    /// Diopters that a point of the screen takes, across so many points.
    fn d_per_point(&self, across: f32) -> f64 {
        let points = f64::from((across - 2.0 * ENDS).max(1.0));
        (self.to_d - self.from_d) / points
    }

    /// Where numbers stand: as close as they can be read, zero among them.
    fn numbers(&self, d_per_point: f64) -> Vec<GridMark> {
        // Wide enough for "−10.0 D".
        let step_size = [0.5, 1.0, 2.0, 5.0]
            .into_iter()
            .find(|step_d| 44.0 * d_per_point <= *step_d)
            .unwrap_or(10.0);
        self.halves()
            .filter(|value| (value / step_size).fract() == 0.0)
            .map(|value| GridMark { value, step_size })
            .collect()
    }

    /// Every half diopter from one end to the other.
    fn halves(&self) -> impl Iterator<Item = f64> {
        let from_d = self.from_d;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few half diopters"
        )]
        let count = ((self.to_d - from_d) * 2.0).round() as u16;
        (0..=count).map(move |step| from_d + f64::from(step) / 2.0)
    }
}

/// What all formulas together say of one power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Together {
    pub mean: Diopters,
    pub deviation: Diopters,
    /// In the order of [`Level::ALL`].
    pub intervals: [[Diopters; 2]; Level::ALL.len()],
}

impl Together {
    /// Each interval is sought in a mixture of distributions, so it is sought once.
    pub fn of(distribution: &Distribution) -> Self {
        Self {
            mean: distribution.mean(),
            deviation: distribution.deviation(),
            intervals: Level::ALL.map(|level| distribution.interval(level)),
        }
    }
}

/// What the chart shows of one power.
#[derive(Clone, Debug)]
pub struct Lane {
    pub power: HundredthDiopters,
    /// Middle of the lane on the screen, points from its upper edge.
    pub middle: f32,
    pub together: Option<Together>,
    /// What the formula planned by predicts.
    pub planned: Option<Diopters>,
    pub others: Vec<Diopters>,
}

/// All lanes on one axis.
#[derive(Clone, Copy, Debug)]
pub struct IntervalChart<'a> {
    pub axis: RefractionAxis,
    pub target: HundredthDiopters,
    pub lanes: &'a [Lane],
}

impl IntervalChart<'_> {
    /// The same in words.
    pub fn words(&self, words: Words) -> String {
        let mut sentences = vec![say::target(words, self.target)];
        for lane in self.lanes {
            let Some(together) = &lane.together else {
                continue;
            };
            let mut parts = vec![say::mean(words, lane.power, together.mean)];
            for (level, [low, high]) in Level::ALL.into_iter().zip(together.intervals) {
                parts.push(say::interval(words, level.percent(), low, high));
            }
            sentences.push(format!("{}.", parts.join(", ")));
        }
        sentences.join(" ")
    }

    /// Draws it into `rect`, whose upper edge the axis takes.
    pub fn show(&self, ui: &mut Ui, id: Id, rect: Rect) -> Response {
        let palette = Palette::current(ui);
        let words = in_use(ui);
        let axis = self.axis;
        let d_per_point = axis.d_per_point(rect.width());
        let ends_d = f64::from(ENDS) * d_per_point;
        let numbers = AxisHints::new_x()
            .placement(VPlacement::Top)
            .min_thickness(AXIS)
            .label_spacing(Rangef::point(0.0))
            .tick_label_color(palette.muted)
            .tick_label_font(FontId::proportional(measures::SMALL))
            .formatter(move |mark, _| number(words, mark));
        let plot = still_plot(id, rect)
            .show_axes([true, false])
            .custom_x_axes(vec![numbers])
            .x_grid_spacer(move |_| axis.numbers(d_per_point));
        let area = rect.with_min_y(rect.top() + AXIS);
        let mut place = ui.new_child(UiBuilder::new().max_rect(rect));
        let chart = plot.show(&mut place, |plot| {
            plot.set_plot_bounds_x(axis.from_d - ends_d..=axis.to_d + ends_d);
            plot.set_plot_bounds_y(-f64::from(area.bottom())..=-f64::from(area.top()));
            self.draw(plot, palette, d_per_point);
        });
        let response = chart.response;
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, say::chart(words)));
        ui.accesskit_node_builder(response.id, |node| {
            node.set_description(self.words(words));
        });
        response
    }

    fn draw(&self, plot: &mut PlotUi<'_>, palette: &Palette, d_per_point: f64) {
        let quiet = palette.outline.gamma_multiply(0.55);
        let stroke = |refraction_d: f64, points: f64| {
            let half_d = points / 2.0 * d_per_point;
            [refraction_d - half_d, refraction_d + half_d]
        };
        let mut bars = Vec::new();
        let (mut planned, mut means) = (Vec::new(), Vec::new());
        for lane in self.lanes {
            let y = -f64::from(lane.middle);
            let whole = [self.axis.from_d, self.axis.to_d];
            bars.push(bar(y, whole, 1.0, palette.outline));
            for half_d in self.axis.halves() {
                let height = if half_d.fract() == 0.0 { 10.0 } else { 6.0 };
                bars.push(bar(y, stroke(half_d, 1.0), height, palette.outline));
            }
            if let Some(together) = &lane.together {
                // The widest lies under the narrower ones.
                let heights = Level::ALL.map(|level| match level {
                    Level::Half => 10.0,
                    Level::Eighty => 6.0,
                    Level::NinetyFive => 3.0,
                });
                for (range, height) in together.intervals.into_iter().zip(heights).rev() {
                    bars.push(bar(y, range.map(Diopters::d), height, quiet));
                }
                means.push([together.mean.d(), y + OVER]);
            }
            let others = lane.others.iter().map(|other| stroke(other.d(), 1.5));
            bars.extend(others.map(|place| bar(y, place, 14.0, palette.ink)));
            planned.extend(lane.planned.map(|planned| [planned.d(), y]));
        }
        plot.bar_chart(BarChart::new("scales, ranges and formulas", bars).allow_hover(false));
        for lane in self.lanes {
            let (x, y) = (self.target.diopters().d(), -f64::from(lane.middle));
            let reach = f64::from(LANE) / 2.0;
            let line = Line::new("target", vec![[x, y + reach], [x, y - reach]])
                .stroke(Stroke::new(1.5, palette.accent))
                .style(LineStyle::dashed_dense());
            plot.line(line.allow_hover(false));
        }
        for (radius, color) in [(7.5, palette.surface), (6.0, palette.ink)] {
            plot.points(marks(MarkerShape::Diamond, &planned, radius, color));
        }
        plot.points(marks(MarkerShape::Down, &means, 3.5, palette.ink));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(refractions: &[f64]) -> Option<RefractionAxis> {
        RefractionAxis::over(refractions.iter().map(|d| Diopters::new(*d)))
    }

    #[test]
    fn the_axis_ends_at_whole_half_diopters() {
        let axis = axis(&[-1.14, 0.23, -0.30]).unwrap();
        assert_eq!((axis.from_d, axis.to_d), (-1.5, 0.5));
        let halves: Vec<f64> = axis.halves().collect();
        assert_eq!(halves, [-1.5, -1.0, -0.5, 0.0, 0.5]);
    }

    /// By hand: two diopters on 200 points, and 12 at the ends.
    #[test]
    fn a_point_takes_its_share_of_the_axis() {
        let axis = axis(&[-1.14, 0.23]).unwrap();
        assert!((axis.d_per_point(212.0) - 0.01).abs() < 1e-9);
    }

    /// By hand: where a diopter takes 100 points, whole and half ones have room; where it takes 50,
    /// whole ones only.
    #[test]
    fn numbers_stand_as_close_as_they_can_be_read() {
        let axis = axis(&[-1.14, 0.23]).unwrap();
        let numbers = |d_per_point| -> Vec<String> {
            let marks = axis.numbers(d_per_point).into_iter();
            marks.map(|mark| number(Words::ENGLISH, mark)).collect()
        };
        let expected = [
            "\u{2212}1.5 D",
            "\u{2212}1.0 D",
            "\u{2212}0.5 D",
            "0.0 D",
            "+0.5 D",
        ];
        assert_eq!(numbers(0.01), expected);
        assert_eq!(numbers(0.02), ["\u{2212}1 D", "0 D"]);
    }

    #[test]
    fn nothing_to_place_has_no_axis() {
        assert_eq!(axis(&[]), None);
        assert_eq!(axis(&[f64::NAN]), None);
        assert_eq!(axis(&[0.5]), None);
        assert_eq!(axis(&[f64::INFINITY, 0.0]), None);
    }
}
