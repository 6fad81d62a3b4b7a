//! One of a few, side by side: a single stop of the Tab key; the arrow keys choose.

use std::borrow::Cow;

use egui::accesskit::{Role, Toggled};
use egui::{
    Align2, Button, CornerRadius, CursorIcon, EventFilter, FontId, Id, Key, Popup, Rect, Response,
    Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, pos2, vec2,
};
use millrace_wording::desk::widgets as say;

use super::focus_keys::keep_up_and_down;
use super::layout::cell;
use super::value_order::{self, Step};
use super::{lock, sought};
use crate::theme::{Palette, bold, measures};
use crate::words::in_use;

/// A choice among a few options.
pub struct Segments<'a, T> {
    id: Id,
    name: &'a str,
    options: &'a [(T, &'a str)],
    selected: Option<T>,
}

impl<'a, T: Copy + PartialEq> Segments<'a, T> {
    /// A choice called `name`, for screen readers; nothing is chosen if `selected` is none.
    pub const fn new(
        id: Id,
        name: &'a str,
        options: &'a [(T, &'a str)],
        selected: Option<T>,
    ) -> Self {
        Self {
            id,
            name,
            options,
            selected,
        }
    }

    /// Shows it behind its label, which is `width` wide; tells what was newly chosen.
    pub fn row(self, ui: &mut Ui, label: &str, width: f32) -> Option<T> {
        ui.horizontal_wrapped(|ui| {
            cell(ui, width, |ui| ui.label(label));
            self.show(ui)
        })
        .inner
    }

    /// Shows it; tells what was newly chosen.
    pub fn show(self, ui: &mut Ui) -> Option<T> {
        lock::held(ui, |ui| self.side_by_side(ui))
    }

    fn side_by_side(&self, ui: &mut Ui) -> Option<T> {
        let widths: Vec<f32> = self
            .options
            .iter()
            .map(|(_, text)| text_width(ui, text) + 2.0 * 8.0)
            .collect();
        let size = vec2(widths.iter().sum(), measures::CONTROL);
        let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
        let group = ui.interact(rect, self.id, Sense::FOCUSABLE);
        self.announce_group(ui, &group);
        sought::meet(ui, self.id, self.name, rect);
        let mut chosen = self.chosen_by_key(ui, &group);

        let palette = Palette::current(ui);
        let rounding = CornerRadius::same(measures::ROUNDING);
        ui.painter().rect_filled(rect, rounding, palette.raised);
        let mut left = rect.left();
        for (index, (option, width)) in self.options.iter().zip(&widths).enumerate() {
            let part = Rect::from_min_size(pos2(left, rect.top()), vec2(*width, rect.height()));
            left += width;
            if self.part(ui, part, index, option).clicked() {
                group.request_focus();
                chosen = Some(option.0);
            }
            if 0 < index {
                let hairline = Stroke::new(measures::OUTLINE, palette.line);
                ui.painter()
                    .vline(part.left(), part.y_range().shrink(5.0), hairline);
            }
        }
        let outline = if group.has_focus() {
            Stroke::new(measures::FOCUS, palette.accent)
        } else {
            Stroke::new(measures::OUTLINE, palette.outline)
        };
        ui.painter()
            .rect_stroke(rect, rounding, outline, StrokeKind::Inside);
        chosen.filter(|option| self.selected != Some(*option))
    }

    fn part(&self, ui: &Ui, rect: Rect, index: usize, part: &(T, &str)) -> Response {
        let (option, text) = part;
        let is_selected = self.selected == Some(*option);
        let response = ui
            .interact(rect, self.id.with(index), Sense::CLICK)
            .on_hover_cursor(CursorIcon::PointingHand);
        if ui.is_rect_visible(rect) {
            self.paint_part(ui, &response, part);
        }
        let words = in_use(ui);
        response.widget_info(|| {
            let label = say::option(words, self.name, *text);
            WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), is_selected, label)
        });
        ui.accesskit_node_builder(response.id, |node| {
            node.set_toggled(if is_selected {
                Toggled::True
            } else {
                Toggled::False
            });
        });
        response
    }

    fn paint_part(&self, ui: &Ui, response: &Response, (option, text): &(T, &str)) {
        let rect = response.rect;
        let is_selected = self.selected == Some(*option);
        let palette = Palette::current(ui);
        let inner = rect.shrink(2.0);
        if is_selected {
            ui.painter()
                .rect_filled(inner, CornerRadius::same(3), palette.selected);
            // Not by color alone: what is chosen is underlined and bold.
            let bar = Rect::from_min_max(pos2(inner.left(), inner.bottom() - 2.0), inner.max);
            ui.painter()
                .rect_filled(bar, CornerRadius::ZERO, palette.accent);
        } else if response.hovered() && ui.is_enabled() {
            ui.painter()
                .rect_filled(inner, CornerRadius::same(3), palette.hovered);
        }
        let font = if is_selected {
            FontId::new(measures::BODY, bold())
        } else {
            FontId::proportional(measures::BODY)
        };
        let ink = if ui.is_enabled() {
            palette.ink
        } else {
            palette.muted
        };
        ui.painter()
            .text(rect.center(), Align2::CENTER_CENTER, *text, font, ink);
    }

    fn announce_group(&self, ui: &Ui, group: &Response) {
        let chosen = self
            .options
            .iter()
            .find(|(option, _)| self.selected == Some(*option))
            .map_or_else(|| say::nothing_chosen(in_use(ui)), |(_, text)| *text);
        let enabled = ui.is_enabled();
        group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, enabled, self.name));
        ui.accesskit_node_builder(group.id, |node| node.set_value(chosen));
    }

    fn chosen_by_key(&self, ui: &Ui, group: &Response) -> Option<T> {
        if !group.has_focus() || !ui.is_enabled() {
            return None;
        }
        let filter = EventFilter {
            horizontal_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(group.id, filter));
        let (back, forth) = ui.input(|input| {
            let pressed = |key| input.key_pressed(key);
            (pressed(Key::ArrowLeft), pressed(Key::ArrowRight))
        });
        let now = self
            .options
            .iter()
            .position(|(option, _)| self.selected == Some(*option));
        let next = match (back, forth, now) {
            (true, false, Some(index)) => index.checked_sub(1)?,
            (false, true, Some(index)) => index + 1,
            (true, false, None) => self.options.len().checked_sub(1)?,
            (false, true, None) => 0,
            _ => return None,
        };
        self.options.get(next).map(|(option, _)| *option)
    }
}

/// Width of a text in bold, so that choosing it moves nothing.
fn text_width(ui: &Ui, text: &str) -> f32 {
    let ink = Palette::current(ui).ink;
    let galley =
        ui.painter()
            .layout_no_wrap(text.to_owned(), FontId::new(measures::BODY, bold()), ink);
    galley.size().x.ceil()
}

/// The text, or as many of its words as fit: two lenses of one make must not look alike for want of
/// room that there is.
fn fitting<'a>(ui: &Ui, text: &'a str, room: f32) -> Cow<'a, str> {
    if text_width(ui, text) <= room {
        return text.into();
    }
    let ends = text.rmatch_indices(' ').map(|(at, _)| at);
    let mut shorter = ends.filter_map(|end| text.get(..end)).map(|words| {
        let words = words.trim_end_matches(',');
        format!("{words}…")
    });
    let fits = shorter.find(|words| text_width(ui, words) <= room);
    // Not even one word: the widget cuts it at its edge.
    fits.map_or(text.into(), Into::into)
}

/// One of many, in a list that opens: for methods, scales, grades. Up and down choose without
/// opening it, and so does the first letter of an option.
pub struct Pick<'a, T> {
    id: Id,
    name: &'a str,
    options: &'a [(T, String)],
    selected: Option<T>,
}

impl<'a, T: Copy + PartialEq> Pick<'a, T> {
    /// A choice called `name`, for screen readers; nothing is chosen if `selected` is none.
    pub const fn new(
        id: Id,
        name: &'a str,
        options: &'a [(T, String)],
        selected: Option<T>,
    ) -> Self {
        Self {
            id,
            name,
            options,
            selected,
        }
    }

    /// Shows it; tells what was newly chosen.
    pub fn show(self, ui: &mut Ui, width: f32) -> Option<T> {
        lock::held(ui, |ui| self.in_a_list(ui, width))
    }

    fn in_a_list(&self, ui: &mut Ui, width: f32) -> Option<T> {
        let chosen_text = self
            .options
            .iter()
            .find(|(option, _)| self.selected == Some(*option))
            .map_or_else(|| say::choose(in_use(ui)), |(_, text)| text.as_str());
        let shown = fitting(ui, chosen_text, width - 46.0);
        let mut chosen = None;
        let response = egui::ComboBox::from_id_salt(self.id)
            .width(width)
            .truncate()
            .selected_text(shown)
            .show_ui(ui, |ui| {
                ui.spacing_mut().interact_size = Vec2::splat(measures::CONTROL);
                for (option, text) in self.options {
                    let is_selected = self.selected == Some(*option);
                    // No stop of the Tab key: from the list it leads on, and closes it.
                    let option_button =
                        Button::selectable(is_selected, text.as_str()).sense(Sense::CLICK);
                    if ui.add(option_button).clicked() && !is_selected {
                        chosen = Some(*option);
                    }
                }
            })
            .response;
        if response.lost_focus() {
            // A list left open would take the next click, wherever that was meant to go.
            Popup::close_id(ui, response.id.with("popup"));
        }
        let by_key = response
            .has_focus()
            .then(|| self.chosen_by_key(ui, response.id))
            .flatten();
        sought::meet(ui, response.id, self.name, response.rect);
        value_order::pass(ui, response.id, self.id, Step::List);
        response.accessible_name(self.name);
        chosen.or(by_key)
    }

    fn chosen_by_key(&self, ui: &Ui, id: Id) -> Option<T> {
        keep_up_and_down(ui, id);
        let options = self.options;
        let now = options
            .iter()
            .position(|(option, _)| self.selected == Some(*option));
        let (up, down, typed) = ui.input(|input| {
            let typed = input.events.iter().find_map(|event| match event {
                egui::Event::Text(text) => text.chars().next(),
                _ => None,
            });
            (
                input.key_pressed(Key::ArrowUp),
                input.key_pressed(Key::ArrowDown),
                typed,
            )
        });
        let next = if let Some(letter) = typed {
            // The next one after the one that is chosen, round about.
            let after = now.map_or(0, |now| now + 1);
            (after..options.len()).chain(0..after).find(|index| {
                let option = options.get(*index);
                option.is_some_and(|(_, text)| begins_with(text, letter))
            })?
        } else {
            match (up, down, now) {
                (true, false, Some(now)) => now.checked_sub(1)?,
                (true, false, None) => options.len().checked_sub(1)?,
                (false, true, now) => now.map_or(0, |now| now + 1),
                _ => return None,
            }
        };
        options
            .get(next)
            .map(|(option, _)| *option)
            .filter(|option| self.selected != Some(*option))
    }
}

fn begins_with(text: &str, letter: char) -> bool {
    let first = text.chars().next();
    first.is_some_and(|first| first.to_lowercase().eq(letter.to_lowercase()))
}
