//! How large the parts of a whole are: one chart with a bar beside each line of a list.

use egui::accesskit::Role;
use egui::{Id, Rect, Response, Stroke, Ui, UiBuilder, WidgetInfo};
use egui_plot::BarChart;

use super::still_plot::{bar, still_plot};
use crate::theme::{Palette, measures};

/// Height of a bar, points.
const BAR: f64 = 12.0;

#[derive(Clone, Debug)]
pub struct Share {
    /// What it is, and how much in words.
    pub words: String,
    /// How much, of one.
    pub share: f64,
    /// Middle of its line on the screen, points from its upper edge.
    pub middle: f32,
}

/// Draws the bars into `rect`, which is as wide as the whole; `name` is for screen readers.
pub fn share_chart(ui: &mut Ui, id: Id, name: &str, rect: Rect, shares: &[Share]) -> Response {
    let palette = Palette::current(ui);
    let mut bars = Vec::new();
    for share in shares {
        let y = -f64::from(share.middle);
        bars.push(bar(y, [0.0, share.share], BAR, palette.accent));
        let outline = Stroke::new(measures::OUTLINE, palette.outline);
        let whole = bar(y, [0.0, 1.0], BAR, egui::Color32::TRANSPARENT);
        bars.push(whole.stroke(outline));
    }
    let mut place = ui.new_child(UiBuilder::new().max_rect(rect));
    let chart = still_plot(id, rect).show(&mut place, |plot| {
        let point = 1.0 / f64::from(rect.width());
        plot.set_plot_bounds_x(-point..=1.0 + point);
        plot.set_plot_bounds_y(-f64::from(rect.bottom())..=-f64::from(rect.top()));
        plot.bar_chart(BarChart::new("shares", bars).allow_hover(false));
    });
    let response = chart.response;
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
    ui.accesskit_node_builder(response.id, |node| {
        let words: Vec<_> = shares.iter().map(|share| share.words.as_str()).collect();
        node.set_description(words.join(", "));
    });
    response
}
