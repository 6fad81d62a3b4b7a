//! The sheet of keys.

pub use crate::desk::frame::new_case;

messages! {
    title = "Keys";
    close = "Close";

    pages_keys = "Ctrl+1 to Ctrl+5";
    pages = "Biometry, Lens, Approach, Sheet, Outcome";
    second_look_keys = "Ctrl+L";
    second_look = "Second look at the critical numbers";
    day_keys = "Ctrl+D";
    day = "Operations of the day, or back to the page";
    settings_keys = "Ctrl+comma";
    settings = "Settings, or back to the page";
    fields_keys = "Tab, Shift+Tab";
    fields = "Next and previous field";
    take_keys = "Enter";
    take = "Accept what was typed; in the measuring room, on to the next value";
    fellow_keys = "F2";
    fellow = "In the measuring room, the same value of the fellow eye, and back";
    details_keys = "F3";
    details = "Method, spread, day and person of the value in hand";
    give_back_keys = "Escape";
    give_back = "Restore what stood there before";
    side_by_side_keys = "← →";
    side_by_side = "Choose among options side by side";
    in_list_keys = "↑ ↓, a letter";
    in_list = "Choose in a list that opens, without opening it";
    panels_keys = "F6";
    panels = "Next panel: list, page, findings";
    search_keys = "Ctrl+F";
    search = "Search the theatre list; ↓ to what was found";
    move_keys = "↑ ↓, Enter";
    move_in_list = "Move in the theatre list, open";
    new_keys = "Ctrl+N";
    files_keys = "Ctrl+O, Ctrl+E";
    files = "Open a case file, write the case to one";
    save_keys = "Ctrl+S";
    save = "Save now; it is saved after each change anyway";
    undo_keys = "Ctrl+Z, Ctrl+Shift+Z";
    undo = "Undo and redo whole changes";
    text_keys = "Ctrl+plus, Ctrl+minus";
    text = "Larger and smaller text";
    quit_keys = "Ctrl+Q";
    quit = "Quit";
    this_keys = "F1";
    this = "This sheet";
}

/// A text of this file.
type Text = fn(crate::Words) -> &'static str;

/// The keys, and what they do, in the order of the sheet.
pub const SHEET: [(Text, Text); 21] = [
    (pages_keys, pages),
    (second_look_keys, second_look),
    (day_keys, day),
    (settings_keys, settings),
    (fields_keys, fields),
    (take_keys, take),
    (fellow_keys, fellow),
    (details_keys, details),
    (give_back_keys, give_back),
    (side_by_side_keys, side_by_side),
    (in_list_keys, in_list),
    (panels_keys, panels),
    (search_keys, search),
    (move_keys, move_in_list),
    (new_keys, new_case),
    (files_keys, files),
    (save_keys, save),
    (undo_keys, undo),
    (text_keys, text),
    (quit_keys, quit),
    (this_keys, this),
];
