//! Rows of which one is chosen: a single stop of the Tab key; up and down choose, and Home, End and the
//! Page keys where only some of many rows are laid out.

use egui::accesskit::Role;
use egui::{
    CursorIcon, Id, Key, Pos2, Rangef, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo,
    pos2, vec2,
};

use super::focus_keys::keep_up_and_down;
use super::{lock, sought};
use crate::theme::{Palette, measures};

/// A group of rows that is being laid out.
pub struct Rows<'a> {
    id: Id,
    name: &'a str,
    top: Pos2,
    spacing: f32,
    /// Rows so far, those left out before the first among them.
    count: usize,
    many: Option<Many>,
    selected: Option<usize>,
    clicked: Option<usize>,
}

/// Rows of which only those in sight are laid out.
#[derive(Clone, Copy, Debug)]
pub struct Many {
    /// The first that is laid out.
    pub first: usize,
    pub total: usize,
    /// The chosen one, in sight or not.
    pub chosen: Option<usize>,
    /// Where the keys begin while none is chosen.
    pub begins: usize,
    /// Rows that a Page key goes by.
    pub page: usize,
    /// Where rows are in sight, from top to bottom.
    pub view: Rangef,
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
            many: None,
            selected: None,
            clicked: None,
        }
    }

    /// Begins a group of many rows with the first that is laid out.
    pub fn begin_within(ui: &mut Ui, id: Id, name: &'a str, many: Many) -> Self {
        Self {
            count: many.first,
            selected: many.chosen,
            many: Some(many),
            ..Self::begin(ui, id, name)
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
        if let Some(many) = self.many {
            let place = self.count;
            ui.accesskit_node_builder(response.id, |node| {
                node.set_size_of_set(many.total);
                node.set_position_in_set(place + 1);
            });
        }
        self.count += 1;
        rect
    }

    /// Ends the group; tells which row was newly chosen.
    pub fn end(self, ui: &mut Ui) -> Option<usize> {
        ui.spacing_mut().item_spacing.y = self.spacing;
        let bottom = pos2(self.top.x + ui.available_width(), ui.cursor().min.y);
        let mut rect = Rect::from_min_max(self.top, bottom);
        if let Some(many) = self.many {
            // Rows that are cut off at an edge do not widen it.
            rect.min.y = many.view.min;
            rect.max.y = many.view.max;
        }
        let group = ui.interact(rect, self.id, Sense::FOCUSABLE);
        group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, true, self.name));
        sought::meet(ui, self.id, self.name, rect);
        if self.clicked.is_some() {
            group.request_focus();
        }
        if group.has_focus() {
            let stroke = Stroke::new(measures::FOCUS, Palette::current(ui).accent);
            let (rect, kind) = match self.many {
                None => (rect.expand(1.0), StrokeKind::Outside),
                // What lies outside is not painted.
                Some(_) => (rect, StrokeKind::Inside),
            };
            ui.painter().rect_stroke(rect, 3.0, stroke, kind);
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
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if let Some(many) = &self.many {
            return many.by_key(pressed);
        }
        let last = self.count.checked_sub(1)?;
        let [up, down] = [Key::ArrowUp, Key::ArrowDown].map(pressed);
        match (up, down, self.selected) {
            (true, false, Some(index)) => index.checked_sub(1),
            (false, true, Some(index)) => Some(index + 1).filter(|next| *next <= last),
            (true, false, None) => Some(last),
            (false, true, None) => Some(0),
            _ => None,
        }
    }
}

impl Many {
    /// The row that a key chooses.
    fn by_key(&self, pressed: impl Fn(Key) -> bool) -> Option<usize> {
        let last = self.total.checked_sub(1)?;
        if pressed(Key::Home) {
            return Some(0);
        }
        if pressed(Key::End) {
            return Some(last);
        }
        let moves = [
            (Key::ArrowUp, Some(1), None),
            (Key::ArrowDown, None, Some(1)),
            (Key::PageUp, Some(self.page), None),
            (Key::PageDown, None, Some(self.page)),
        ];
        let mut moves = moves.into_iter();
        let (_, back, on) = moves.find(|(key, _, _)| pressed(*key))?;
        let from = match self.chosen {
            None => self.begins,
            Some(from) => from.saturating_sub(back.unwrap_or(0)) + on.unwrap_or(0),
        };
        Some(from.min(last))
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
