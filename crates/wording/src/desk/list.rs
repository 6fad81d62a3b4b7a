//! The theatre list.

pub use crate::desk::frame::new_case;

messages! {
    title = "Theatre list";
    day = "Day";
    more_acts = "Case, files, sheets…";
    open_file = "Open a file…";
    write_file = "Write to a file…";
    sheets_of(day) = "Sheets of {day}…";
    none_yet = "No case yet";
    none_matches = "No case matches";
    cases(total) = "Cases, {total}";
    check_hint = "Check a sheet: fingerprint";
    check = "Check a sheet, fingerprint";
    search = "Search name or number";
    no_day = "no day";
    of_day(day, count) = "{day} · {count}";
    of_no_day(count) = "No day · {count}";
    of_day_spoken(count, day) = "{day}, one operation" | "{day}, {count} operations";
    of_no_day_spoken(count) = "No day, one case" | "No day, {count} cases";
    number_and_eye(number, eye) = "{number} · {eye}";
    day_and_state(day, state) = "{day} · {state}";
    eye_missing = "Eye not chosen";
    place_and_row(place, row) = "{place}, {row}";
    row(name, number, rest) = "{name}, {number}, {rest}";
    eye_and_day(eye, day) = "{eye} · {day}";
    circumstances(rest, state) = "{rest} · {state}";
    signed(sheet) = "signed, sheet {sheet}";
    changed_since(sheet) = "CHANGED SINCE sheet {sheet}";
}
