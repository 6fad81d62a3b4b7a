//! Where the caret of a line stands, and what is selected.

use egui::text::{CCursor, CCursorRange};
use egui::{Id, TextEdit, Ui};

/// The toolkit counts glyphs, of which a word that it turned around has more than letters: behind the last
/// one, a Backspace would take away nothing.
pub(super) fn keep_caret_inside(ui: &Ui, id: Id, text: &str) {
    let mut state = TextEdit::load_state(ui, id).unwrap_or_default();
    let Some(range) = state.cursor.char_range() else {
        return;
    };
    let end = text.chars().count();
    let inside = |cursor: CCursor| CCursor::new(cursor.index.0.min(end));
    let kept = CCursorRange::two(inside(range.secondary), inside(range.primary));
    if kept != range {
        state.cursor.set_char_range(Some(kept));
        TextEdit::store_state(ui, id, state);
    }
}

/// Selects the whole text of a field.
pub(super) fn select_all(ui: &Ui, id: Id, text: &str) {
    let mut state = TextEdit::load_state(ui, id).unwrap_or_default();
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
    state.cursor.set_char_range(Some(all));
    TextEdit::store_state(ui, id, state);
}
