//! Where the refraction may end, for every power of a table: one chart with a lane beside each of its
//! lines in sight, what every formula predicts, how far all together may be off, and the target.
//!
//! It is one plot for all lanes, whose axis stands in the head of the table: its frame is what is in
//! sight of the lines, and it draws nothing outside it. A plot for each line would lay out an axis a line.

use egui::accesskit::Role;
use egui::{FontId, Id, Rangef, Rect, Response, Stroke, Ui, UiBuilder, WidgetInfo};
use egui_plot::{AxisHints, BarChart, LineStyle, MarkerShape, PlotUi, VLine, VPlacement};
use millrace_core::certainty::{Distribution, Level};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::Words;
use millrace_wording::desk::figures as say;

use super::refraction_axis::{Beyond, ENDS, RefractionAxis, number};
use super::still_plot::{bar, marks, still_plot};
use crate::theme::{Palette, measures};
use crate::words::in_use;

/// Height of a lane, points.
pub const LANE: f32 = 26.0;
/// Height of the axis over the first lane, points.
pub const AXIS: f32 = 18.0;

/// From the middle of a lane up to the mark of the mean: over the other marks, which it would hide.
const OVER: f64 = 9.5;

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

impl Lane {
    /// The end of the axis that the whole lane lies beyond: the prediction of the formula planned by,
    /// without one the mean of all, without that every other formula.
    pub fn lies_beyond(&self, axis: RefractionAxis) -> Option<Beyond> {
        let mean = self.together.as_ref().map(|together| together.mean);
        if let Some(middle) = self.planned.or(mean) {
            return axis.beyond(middle);
        }
        let (first, rest) = self.others.split_first()?;
        let end = axis.beyond(*first)?;
        let are_all = rest.iter().all(|other| axis.beyond(*other) == Some(end));
        are_all.then_some(end)
    }

    /// The ends of the axis that the widest range crosses, or another formula lies beyond.
    pub fn leaves_by(&self, axis: RefractionAxis) -> Vec<Beyond> {
        let widest = self.together.iter().flat_map(|together| {
            let [_, _, widest] = together.intervals;
            widest
        });
        let others = self.others.iter().copied();
        let found: Vec<_> = widest
            .chain(others)
            .filter_map(|it| axis.beyond(it))
            .collect();
        let ends = [Beyond::Myopic, Beyond::Hyperopic].into_iter();
        ends.filter(|end| found.contains(end)).collect()
    }
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
            match lane.lies_beyond(self.axis) {
                Some(Beyond::Myopic) => parts.push(say::beyond_myopic(words).to_owned()),
                Some(Beyond::Hyperopic) => parts.push(say::beyond_hyperopic(words).to_owned()),
                None => {}
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
            .formatter(move |mark, _| number(words, mark, d_per_point));
        let plot = still_plot(id, rect)
            .show_axes([true, false])
            .custom_x_axes(vec![numbers])
            .x_grid_spacer(move |_| axis.labels(rect.width()));
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
        for mark in self.axis.numbers(d_per_point) {
            let line = VLine::new("scale", mark.value);
            let stroke = Stroke::new(measures::OUTLINE, palette.line);
            plot.vline(line.stroke(stroke).allow_hover(false));
        }
        self.draw_ranges(plot, palette, d_per_point);
        // Over the ranges and under the predictions, through all lanes.
        let target = VLine::new("target", self.target.diopters().d())
            .stroke(Stroke::new(1.5, palette.accent))
            .style(LineStyle::dashed_dense());
        plot.vline(target.allow_hover(false));
        let planned = self.places(|lane| lane.planned);
        for (radius, color) in [(7.0, palette.surface), (5.5, palette.ink)] {
            plot.points(marks(MarkerShape::Diamond, &planned, radius, color));
        }
        let mut means = self.places(|lane| Some(lane.together.as_ref()?.mean));
        for [_, y] in &mut means {
            *y += OVER;
        }
        plot.points(marks(MarkerShape::Down, &means, 3.0, palette.ink));
        self.draw_beyond(plot, palette);
    }

    fn draw_ranges(&self, plot: &mut PlotUi<'_>, palette: &Palette, d_per_point: f64) {
        let quiet = palette.outline.gamma_multiply(0.55);
        let stroke = |refraction_d: f64, points: f64| {
            let half_d = points / 2.0 * d_per_point;
            [refraction_d - half_d, refraction_d + half_d]
        };
        let mut bars = Vec::new();
        for lane in self.lanes {
            let y = -f64::from(lane.middle);
            if let Some(together) = &lane.together {
                // The widest lies under the narrower ones.
                let heights = Level::ALL.map(|level| match level {
                    Level::Half => 10.0,
                    Level::Eighty => 6.0,
                    Level::NinetyFive => 3.0,
                });
                for (range, height) in together.intervals.into_iter().zip(heights).rev() {
                    let range = self.axis.on_axis(range);
                    bars.extend(range.map(|range| bar(y, range, height, quiet)));
                }
            }
            let others = lane.others.iter();
            let others = others.filter(|other| self.axis.beyond(**other).is_none());
            let others = others.map(|other| stroke(other.d(), 1.5));
            bars.extend(others.map(|place| bar(y, place, 14.0, palette.ink)));
        }
        plot.bar_chart(BarChart::new("ranges and formulas", bars).allow_hover(false));
    }

    /// A triangle where a lane lies beyond the axis, a smaller one where only its widest range or another
    /// formula does: what is not drawn is never left out silently.
    fn draw_beyond(&self, plot: &mut PlotUi<'_>, palette: &Palette) {
        for (end, shape) in [
            (Beyond::Myopic, MarkerShape::Left),
            (Beyond::Hyperopic, MarkerShape::Right),
        ] {
            let (mut whole, mut ranges) = (Vec::new(), Vec::new());
            for lane in self.lanes {
                let place = [self.axis.end_d(end), -f64::from(lane.middle)];
                if lane.lies_beyond(self.axis) == Some(end) {
                    whole.push(place);
                } else if lane.leaves_by(self.axis).contains(&end) {
                    ranges.push(place);
                }
            }
            plot.points(marks(shape, &whole, 6.0, palette.ink));
            plot.points(marks(shape, &ranges, 4.0, palette.outline));
        }
    }

    /// What stands on the axis, each at its lane.
    fn places(&self, of: impl Fn(&Lane) -> Option<Diopters>) -> Vec<[f64; 2]> {
        let places = self.lanes.iter().filter_map(|lane| {
            let refraction = of(lane)?;
            let is_on_axis = self.axis.beyond(refraction).is_none();
            is_on_axis.then_some([refraction.d(), -f64::from(lane.middle)])
        });
        places.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(target: i32) -> RefractionAxis {
        RefractionAxis::around(HundredthDiopters::new(target))
    }

    fn lane(planned_d: f64, [low_d, high_d]: [f64; 2]) -> Lane {
        let range = [low_d, high_d].map(Diopters::new);
        Lane {
            power: HundredthDiopters::new(2_000),
            middle: 0.0,
            together: Some(Together {
                mean: Diopters::new(planned_d),
                deviation: Diopters::new(0.4),
                intervals: [range; Level::ALL.len()],
            }),
            planned: Some(Diopters::new(planned_d)),
            others: Vec::new(),
        }
    }

    /// On an axis from −2 to +2 D: what ends on it has no triangle, a range that crosses an end has one
    /// there, and a prediction beyond an end has the large one; nothing of it is drawn inside.
    #[test]
    fn what_lies_beyond_the_axis_is_marked_at_its_end() {
        use Beyond::{Hyperopic, Myopic};
        let axis = axis(0);
        let found = |lane: &Lane| (lane.lies_beyond(axis), lane.leaves_by(axis));
        assert_eq!(found(&lane(2.0, [1.0, 2.0])), (None, vec![]));
        assert_eq!(found(&lane(1.5, [0.7, 2.01])), (None, vec![Hyperopic]));
        assert_eq!(found(&lane(-1.5, [-2.3, -0.7])), (None, vec![Myopic]));
        assert_eq!(
            found(&lane(0.0, [-2.1, 2.1])),
            (None, vec![Myopic, Hyperopic])
        );
        // Another formula alone, and others where nothing else speaks.
        let mut other = lane(0.0, [-0.9, 0.9]);
        other.others = vec![Diopters::new(2.2)];
        assert_eq!(found(&other), (None, vec![Hyperopic]));
        (other.planned, other.together) = (None, None);
        assert_eq!(found(&other), (Some(Hyperopic), vec![Hyperopic]));
        other.others.push(Diopters::new(1.9));
        assert_eq!(found(&other), (None, vec![Hyperopic]));
        let far = lane(5.0, [4.0, 6.0]);
        assert_eq!(found(&far), (Some(Hyperopic), vec![Hyperopic]));
        let range = far.together.unwrap().intervals[0];
        assert_eq!(axis.on_axis(range), None);
        let crossing = [-2.3, -0.7].map(Diopters::new);
        assert_eq!(axis.on_axis(crossing), Some([-2.0, -0.7]));
    }

    /// A screen reader is told too, in words.
    #[test]
    fn a_lane_beyond_the_axis_says_so() {
        let lanes = [lane(-5.0, [-6.0, -4.0]), lane(0.0, [-0.8, 0.8])];
        let chart = IntervalChart {
            axis: axis(0),
            target: HundredthDiopters::new(0),
            lanes: &lanes,
        };
        let words = chart.words(Words::ENGLISH);
        assert_eq!(words.matches("beyond the axis").count(), 1, "{words}");
    }
}
