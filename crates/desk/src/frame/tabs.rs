//! The pages of the case, and the way back from a change.

use egui::accesskit::Role;
use egui::{
    Align, Align2, CornerRadius, CursorIcon, FontId, Id, Layout, Rect, Sense, Stroke, StrokeKind,
    Ui, WidgetInfo, pos2, vec2,
};
use millrace_wording::Show as _;
use millrace_wording::desk::frame as say;

use crate::message::Message;
use crate::session::{Change, Session};
use crate::theme::{Palette, bold, measures};
use crate::whereabouts::{Page, Side};
use crate::words::in_use;

/// Where the row of tabs stands: what F6 lands on in the page.
pub fn tab_id(page: Page) -> Id {
    Id::unique(("page tab", page as u8))
}

/// Shows the tabs and, on the right, undo and redo.
pub fn show(
    ui: &mut Ui,
    page: Option<Page>,
    session: &Session,
    narrow: Option<Side>,
) -> Vec<Message> {
    let mut messages = Vec::new();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::TIGHT;
        let shown = page.filter(|_| narrow.is_none_or(|side| side == Side::Page));
        for (tab, _) in Page::ALL {
            if one(ui, tab, shown) {
                messages.push(Message::Show(tab));
            }
        }
        if narrow.is_some() || page.is_none() {
            // There is no room: the line at the foot has them. And in front of the pages, undo is
            // not that of the case.
            return;
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            back_and_forth(ui, session, &mut messages);
        });
    });
    messages
}

/// Undo and redo, from the right.
fn back_and_forth(ui: &mut Ui, session: &Session, messages: &mut Vec<Message>) {
    let words = in_use(ui);
    let about = |change: Option<&Change>| match change {
        Some(change) => change.show(words).into_owned(),
        None => say::nothing(words).to_owned(),
    };
    let (redo, undo) = (session.redoes(), session.undoes());
    let redo_tip = say::redo_what(words, about(redo));
    let undo_tip = say::undo_what(words, about(undo));
    for (word, what, tip, message) in [
        (say::redo(words), redo, redo_tip, Message::Redo),
        (say::undo(words), undo, undo_tip, Message::Undo),
    ] {
        let button = ui.add_enabled(what.is_some(), egui::Button::new(word));
        let button = button.on_hover_text(tip);
        if button.clicked() {
            messages.push(message);
        }
    }
}

fn one(ui: &mut Ui, page: Page, shown: Option<Page>) -> bool {
    let is_shown = shown == Some(page);
    let palette = Palette::current(ui);
    let font = if is_shown {
        FontId::new(measures::BODY, bold())
    } else {
        FontId::proportional(measures::BODY)
    };
    let widest = FontId::new(measures::BODY, bold());
    let text = page.name(in_use(ui));
    let galley = ui
        .painter()
        .layout_no_wrap(text.to_owned(), widest, palette.ink);
    let size = vec2(galley.size().x.ceil() + 2.0 * 12.0, measures::CONTROL + 4.0);
    let (_, rect) = ui.allocate_space(size);
    let response = ui
        .interact(rect, tab_id(page), Sense::click())
        .on_hover_cursor(CursorIcon::PointingHand);
    let ink = if is_shown {
        palette.accent
    } else {
        palette.ink
    };
    if response.hovered() && !is_shown {
        let rounding = CornerRadius::same(measures::ROUNDING);
        ui.painter().rect_filled(rect, rounding, palette.hovered);
    }
    ui.painter()
        .text(rect.center(), Align2::CENTER_CENTER, text, font, ink);
    if is_shown {
        let bar = Rect::from_min_max(
            pos2(rect.left() + 8.0, rect.bottom() - 3.0),
            pos2(rect.right() - 8.0, rect.bottom()),
        );
        ui.painter()
            .rect_filled(bar, CornerRadius::ZERO, palette.accent);
    }
    if response.has_focus() {
        ui.painter().rect_stroke(
            rect,
            CornerRadius::same(measures::ROUNDING),
            Stroke::new(measures::FOCUS, palette.accent),
            StrokeKind::Inside,
        );
    }
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, is_shown, text));
    response.clicked()
}
