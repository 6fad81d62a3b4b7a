//! What stands around every page: banner, tabs, foot, notices, files.

use crate::Words;
pub use crate::text::plan::{approach, lens};

messages! {
    other_cases_now(others) = "Since this case was saved last: {others}. Choose Change the plan…, or bring it back, to have it among the findings";
    // Pages.
    biometry = "Biometry";
    sheet = "Sheet";
    outcome = "Outcome";

    // Banner.
    name_missing = "Name missing";
    number_missing = "Number missing";
    number(number) = "No.\u{a0}{number}";
    birth_date_missing = "Birth date missing";
    born(day) = "Born {day}";
    born_with_age(day, age) = "Born {day} ({age} years)";
    operation_day_missing = "Operation day not set";
    operation_on(day) = "Operation {day}";
    eye_missing = "EYE NOT CHOSEN";
    signed(sheet) = "SIGNED, sheet {sheet}";
    changed_since(sheet) = "CHANGED SINCE sheet {sheet}";
    sheets_unknown = "ITS SHEETS COULD NOT BE READ";
    allergies(list) = "ALLERGIES {list}";
    facing = "As seen facing the patient";
    hidden_during_second_look(born) = "{born}  ·  number and eye are hidden during the second look";

    // A signed case.
    signed_and_locked(sheet) = "Signed, sheet {sheet}. Its fields are locked";
    unknown_and_locked = "Whether this case is signed could not be read. Its fields are locked";
    is_locked = "Not changed: this case is signed. To change it, choose \"Change the plan…\" on its page";
    change_plan = "Change the plan…";
    change_means(sheet) = "With the first change, sheet {sheet} is no longer the one to work by: it is marked as changed since, and a new sheet has to be signed. A printed sheet {sheet} has to be taken out of the notes";
    change_means_unknown = "A sheet that was signed for this case is no longer the one to work by after the first change";
    change_now = "Change the plan";
    leave_signed = "Leave it as it is signed";

    // Tabs.
    undo = "Undo";
    redo = "Redo";
    undo_what(what) = "Undo {what} (Ctrl+Z)";
    redo_what(what) = "Redo {what} (Ctrl+Shift+Z)";
    nothing = "nothing";

    // The invented cases.
    demo = "DEMO: invented cases, nothing is kept";
    own_register = "Open my own register";
    not_kept = "Not kept: demo";
    demo_goes = "Nothing of this demo is kept. To keep a case, choose \"Write to a file…\" first; or go on once more to let it go";

    // Foot.
    no_author = "Your name is not set";
    settings = "Settings";
    keys = "Keys (F1)";
    second_look = "Second look…";
    saved = "Saved";
    saved_at(time) = "Saved {time}";
    rest_saved = "The rest is saved";
    rest_saved_at(time) = "The rest is saved, {time}";
    saving = "Saving…";
    not_saved(why) = "Not saved: {why}";
    try_again = "Try again";
    not_saved_conflict = "Not saved: changed elsewhere; choose on the page how to go on";
    not_taken(names) = "Not accepted, not saved: {names}";
    count_not_taken(count) = "{count} not accepted, not saved";
    what_and_why(what, why) = "{what}: {why}";
    give_back = "Restore";
    give_back_what = "Restore what is recorded";
    give_back_tip = "The fields show again what is recorded";
    back_to_page = "Back to the page";
    open_findings(severity, count) = "{severity} findings without a reason: {count}";
    findings_of(severity, count) = "{severity} findings: {count}";

    // Instead of a desk.
    not_opened = "The register was not opened";
    register_at(path) = "Register: {path}";
    close = "Close";
    accept_register = "Work with it as it is";

    // Notices.
    dismiss = "Dismiss";
    not_done(why) = "Not done: {why}";
    earlier_case_not_saved(why) = "A case that was open before is not saved: {why}";
    signed_as(number) = "Signed as sheet {number}; its pages are on the Sheet page";
    stays_open_unsaved = "The last changes of this case could not be saved, so it stays open. Try again, or write it to a file first";
    stays_open_conflict = "This case was changed elsewhere, so it stays open: choose on the page which of the two goes on";
    leaves_out(names) = "Not accepted, and so not saved: {names}. Correct it, or go on once more to leave it out";

    // What was being typed when a window ended otherwise than by being closed.
    left_here(what, text, at) = "{what}: \"{text}\" was being typed ({at}) and was not saved";
    left_elsewhere(patient, what, at) = "In the case of {patient} something was being typed ({at}) and was not saved: {what}";
    more_left(count) = "{count} texts more were being typed in other cases and were not saved";
    somebody_unnamed = "a patient without a name";
    put_in = "Put it in the field";
    put_in_named(what) = "Put it in the field: {what}";
    leave_out_named(what) = "Dismiss what was typed: {what}";
    open_that_case = "Open the case";
    open_case_of(patient) = "Open the case of {patient}";
    no_field_for(text) = "\"{text}\" was not put in: its field is not on the page now. It is offered again when the page shows the field";

    // Somebody else stored something.
    newer_is_stored(author, at) = "{author} stored this case anew ({at}) while you work on it. It is shown when nothing is being typed here; what you change now is not saved over it";
    changed_by(author, at, what) = "Changed by {author}, {at}: {what}";
    stored_again(author, at) = "Stored anew by {author}, {at}, without a change";
    entry_changed(entry, before, after) = "{entry} {before} → {after}";

    // Two people, one case.
    changed_elsewhere(author) = "This case was changed elsewhere by {author}; nothing was overwritten, and your changes are not saved yet";
    same = "Both read the same";
    cannot_compare(problem) = "The two cannot be compared: {problem}";
    choose_each = "Choose who is right in each line; nothing is saved before that";
    you = "you";
    person_here(author) = "{author}, here";
    person_at_desk(person, desk) = "{person} ({desk})";
    person_at_this_desk(person, desk) = "{person}, here ({desk})";
    person_and_value(who, value) = "{who}: {value}";
    of_value(name, side) = "{name} – {side}";
    taken_as_changed(entry, value, who) = "{entry}: {value}, changed by {who} alone and taken";
    eye_and_plan = "Operative eye, with all that is planned for it";
    save_these = "Save these";
    all_mine = "Mine in each line";
    all_theirs(author) = "In each line that of {author}";
    not_together(problem) = "The two make no case together: {problem}";
    keep_mine = "Save mine as the newest";
    take_theirs(author) = "Go on from that of {author}";
    column_entry = "Entry";
    column_yours = "Yours";
    and_more(count) = "and {count} more";

    // Files.
    open_title = "Open a case file; it becomes a new case";
    open = "Open";
    write_title = "Write this case to a file; one that exists is left as it is";
    write = "Write";
    read_lenses_title = "Open a file of lens records; nothing changes before you have seen what would";
    write_lenses_title = "Write all lens records to a file; one that exists is left as it is";
    day_title(day) = "Write every current sheet of {day} into a folder, with a page that lists them and names who has none";
    path_of_file = "Path of the file";
    path_of_folder = "Path of the folder";
    choose = "Choose…";
    not_now = "Cancel";

    // No case is open.
    nothing_yet = "Nothing is planned here yet.";
    what_a_case_is = "A case is one operation on one eye of one patient; it is saved on this computer as you type.";
    what_the_demo_is = "The demo shows invented patients and changes nothing of yours.";
    new_case = "New case";
    open_case_file = "Open a case file…";
    open_demo = "Look at the demo";
}

/// An entry of a case, "Lens, target": its file's names are its texts of reference.
pub fn entry(words: Words, parts: &[String]) -> String {
    let parts = parts.iter().map(|part| part.replace('_', " "));
    words.list(parts.map(|part| words.reference_made(&part)))
}
