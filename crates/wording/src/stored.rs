//! What is wrong with something stored, and what a check of a register found.

messages! {
    // What is wrong with what was stored.
    revision_missing(number, case) = "revision {number} of case {case} is missing";
    revision_changed(number, case) = "revision {number} of case {case} is not what was saved";
    revision_unreadable(number, case, problem) = "revision {number} of case {case}: {problem}";
    not_our_text(text, problem) = "\"{text}\": {problem}";
    not_a_case = "a case is named by 26 letters and digits, without i, l, o and u";
    not_a_day = "not a day of the calendar, such as 2026-12-03";
    not_a_moment = "not a moment of the years 1 to 9999 in UTC, such as 2026-12-03T16:40:00Z";
    no_number_left = "no number is left";
    two_sheets = "two sheets have one short fingerprint";
    of_sheet(number, problem) = "sheet {number}: {problem}";
    sheet_changed(number) = "sheet {number} is not what was signed";
    sheet_missing(number) = "sheet {number} is missing";
    sheet_zero = "a sheet has the number 0";
    reads_back_otherwise = "a case that reads back as another";
    copy_stopped = "the copy stopped";
    listed_and_saved(listed, saved) = "{listed} cases are listed and {saved} saved";
    other_number = "its number is not the one it was signed with";
    other_signature = "person or time are not those of the signature";
    other_revision = "it is not the revision that was signed";
    signed_revision_missing = "the revision it signs is missing";
    not_in_its_place = "it is not what was signed, or not in its place";
    supersedes_another = "it does not supersede the sheet of its case before it";
    list_differs(case) = "the list does not show what was saved of case {case}";
    list_index = "the list does not agree with its indexes";
    search_index = "search does not agree with the list";
    revision_index = "the revisions do not agree with their index";
    not_a_head = "a head is written saves-sheets-hash, such as 1204-37-9f3a-11c2-77de-0b45";
    head_length(found) = "the hash of a head has 16 digits, or all 64, and this has {found}";
    sheet_index = "the sheets do not agree with their indexes";

    // What a check found.
    file_broken(problem) = "the file is broken: {problem}";
    other_schema(object) = "not as this program makes it: {object}";
    search_differs(problem) = "search does not agree with the list: {problem}";
    save_missing(sequence) = "save {sequence} is missing";
    revision_out_of_order(case, revision) = "case {case}: revision {revision} does not follow the one before";
    revision_not_as_saved(case, revision) = "case {case}: revision {revision} is not what was saved";
    revision_not_readable(case, revision, problem) = "case {case}: revision {revision} cannot be read: {problem}";
    list_behind(case) = "case {case}: the list does not show its newest revision";

    // Where a clock was set back.
    saved_before(case, revision, at, before) = "case {case}: revision {revision} has the time {at}, and was saved after one of {before}";
    signed_before(number, at, before) = "sheet {number} has the time {at}, and was signed after something of {before}";
}
