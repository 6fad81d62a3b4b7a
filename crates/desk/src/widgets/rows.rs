//! Rows of which one is chosen: a single stop of the Tab key; up and down choose.

use egui::accesskit::Role;
use egui::{
    CursorIcon, Id, Key, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2,
    vec2,
};

use super::focus_keys::keep_up_and_down;
use super::lock;
use crate::theme::{Palette, measures};

/// A group of rows that is being laid out.
pub struct Rows<'a> {
    id: Id,
    name: &'a str,
    top: Pos2,
    spacing: f32,
    count: usize,
    selected: Option<usize>,
    clicked: Option<usize>,
}

impl<'a> Rows<'a> {
    /// Begins a group called `name`, for screen readers.
    pub fn begin(ui: &mut Ui, id: Id, name: &'a str) -> Self {
        let top = ui.cursor().min;
        let spacing = core::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
        Self {
            id,
            name,
            top,
            spacing,
            count: 0,
            selected: None,
            clicked: None,
        }
    }

    /// The next row: its place to paint on. What it shows stands in `words`.
    pub fn row(&mut self, ui: &mut Ui, height: f32, chosen: Chosen, words: &str) -> Rect {
        let size = vec2(ui.available_width(), height);
        let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
        let response = ui
            .interact(rect, self.id.with(self.count), Sense::CLICK)
            .on_hover_cursor(CursorIcon::PointingHand);
        let palette = Palette::current(ui);
        let is_chosen = chosen == Chosen::Yes;
        if is_chosen {
            self.selected = Some(self.count);
            ui.painter().rect_filled(rect, 2.0, palette.selected);
            // Not by color alone.
            let bar = Rect::from_min_size(rect.min, vec2(4.0, rect.height()));
            ui.painter().rect_filled(bar, 0.0, palette.accent);
        } else if response.hovered() {
            ui.painter().rect_filled(rect, 2.0, palette.hovered);
        }
        let hairline = Stroke::new(measures::OUTLINE, palette.line);
        ui.painter().hline(rect.x_range(), rect.bottom(), hairline);
        if response.clicked() {
            self.clicked = Some(self.count);
        }
        response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, is_chosen, words));
        self.count += 1;
        rect
    }

    /// Ends the group; tells which row was newly chosen.
    pub fn end(self, ui: &mut Ui) -> Option<usize> {
        ui.spacing_mut().item_spacing.y = self.spacing;
        let bottom = pos2(self.top.x + ui.available_width(), ui.cursor().min.y);
        let rect = Rect::from_min_max(self.top, bottom);
        let group = ui.interact(rect, self.id, Sense::FOCUSABLE);
        group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, true, self.name));
        if self.clicked.is_some() {
            group.request_focus();
        }
        if group.has_focus() {
            let stroke = Stroke::new(measures::FOCUS, Palette::current(ui).accent);
            ui.painter()
                .rect_stroke(rect.expand(1.0), 3.0, stroke, StrokeKind::Outside);
        }
        if lock::is_locked(ui) {
            return None;
        }
        let chosen = self.clicked.or_else(|| self.by_key(ui, &group));
        chosen.filter(|index| self.selected != Some(*index))
    }

    fn by_key(&self, ui: &Ui, group: &Response) -> Option<usize> {
        if !group.has_focus() {
            return None;
        }
        keep_up_and_down(ui, group.id);
        let (up, down) = ui.input(|input| {
            let pressed = |key| input.key_pressed(key);
            (pressed(Key::ArrowUp), pressed(Key::ArrowDown))
        });
        let last = self.count.checked_sub(1)?;
        match (up, down, self.selected) {
            (true, false, Some(index)) => index.checked_sub(1),
            (false, true, Some(index)) => Some(index + 1).filter(|next| *next <= last),
            (true, false, None) => Some(last),
            (false, true, None) => Some(0),
            _ => None,
        }
    }
}

/// Whether a row is the chosen one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    Yes,
    No,
}

impl From<bool> for Chosen {
    fn from(is_chosen: bool) -> Self {
        if is_chosen { Self::Yes } else { Self::No }
    }
}
