//! What the command line says beside plans and reference texts.

pub use crate::entry::document_not_written;
pub use crate::text::plan::not_stated;

messages! {
    // Failures: the path stands last.
    failed(what) = "millrace: {what}";
    cannot_read(problem, path) = "cannot read: {problem}: {path}";
    not_text(path) = "not a text file (UTF-8): {path}";
    cannot_write(problem, path) = "cannot write: {problem}: {path}";
    no_output(problem) = "cannot write the output: {problem}";
    case_refused(problem, path) = "case refused: {problem}: {path}";
    refused_at(problem, path) = "{problem}: {path}";
    no_window(problem) = "no window can be opened: {problem}; the commands work without one, see millrace --help";
    simulation_refused(problem) = "simulation refused: {problem}";
    no_such_formula(name, known) = "no formula is called \"{name}\"; there are: {known}";
    no_such_rule(name, known) = "no rule is called \"{name}\"; there are: {known}";
    header_refused(problem, path) = "header refused: {problem}: {path}";
    same_file(path) = "the output would overwrite the input: {path}";
    over_register(path) = "a register, a backup of one, or a file that belongs to one would be lost; write elsewhere: {path}";
    done_not_shown(problem) = "it is done and kept; only the answer could not be written: {problem}";
    broken(problem, place) = "this program is at fault, and what it was doing is not done: {problem} ({place}). Every earlier save is in the register.";
    broken_place_unknown = "place unknown";
    too_large(most, path) = "more than {most} bytes, which no such file has: {path}";
    file_exists(path) = "the file exists; --force replaces it: {path}";
    no_sheet_written(problem) = "no sheet is written: {problem}";
    nothing_imported(refused, files) = "nothing was imported: {refused} of {files} files refused";
    one_file(files) = "a further revision of a case is imported from one file, not {files}";
    nobody = "the system does not tell who you are: name yourself with --who";
    no_file_no_case(case, problem) = "\"{case}\" is no file, and as a case of the register: {problem}";
    signed_as_it_stands(sheet) = "millrace: the case is signed as it stands: sheet {sheet} is what to work by; what is printed here is computed anew and not signed";
    no_case_named = "no case file was named";
    sheets_from_1 = "sheets are numbered from 1";
    nobody_on(day) = "no case of the register is planned for {day}";
    not_computed_again(number, problem) = "sheet {number} cannot be computed again: {problem}";
    demo_goes_alone = "--demo opens the desk and goes with no command";
    demo_has_no_register = "--demo opens no register and goes without --register";
    reads_no_register = "this reads no register and goes without --register";
    no_place = "this system has no place for a register: name one with --register";

    // What is running: which source it was built from, and what it reads and writes.
    version(program, commit, written, oldest, plan, schema) = "{program}\ncommit: {commit}\ncase file: version {written}, reads from version {oldest}\nplan document: version {plan}\nregister: schema {schema}";
    commit_unknown = "unknown, built from an archive of the source";
    commit_changed(commit) = "{commit}, and changes that are in no commit";

    // Register.
    saved(case, revision, state, file) = "saved {case} revision {revision} ({state}): {file}";
    patient_doubt(doubt, file) = "millrace: Review: {doubt}: {file}";
    patients_not_compared(problem) = "millrace: it is saved, but was not compared with the other patients of the register: {problem}";
    copied(file) = "copied and read back: {file}";
    restored(file) = "restored and read back: {file}";
    moved_away(file) = "moved away: {file}";
    repaired(cases, revisions, sheets, file) = "{cases} cases, {revisions} revisions, {sheets} sheets written anew: {file}";
    as_saved = "Everything is as it was saved.";
    damaged = "The register is damaged. Do not write to it, keep the file, and repair it into a new one or restore the latest backup.";
    read_through(cases, revisions, sheets, path) = "{cases} cases, {revisions} revisions, {sheets} sheets read: {path}";
    clock_behind(now, last) = "The clock of this computer says {now}, and the register holds something of {last}: one of the two is wrong. What is saved now comes after it all the same.";
    clock_ran_back = "A clock was set back; the order is that of the numbers:";
    times_mislead = "A clock was set back between: the later one has the earlier time.";
    head_now(head) = "Head {head}";
    head_not_remembered(problem) = "millrace: how far the register has come could not be remembered on this computer: {problem}";
    head_accepted(now) = "Accepted as it is: {now}";
    register_forgotten = "Accepted that it is gone: the next import begins a new register here.";
    head_before(before) = "Seen before: {before}";
    head_same(then) = "Nothing was saved or signed since {then}.";
    head_grown(then) = "Everything of {then} is in it, and more was saved or signed since.";
    head_set_back(then) = "The register was set back: it does not hold as much as it held at {then}.";
    head_other(then) = "This is another register, or it was written anew: it does not hold what it held at {then}.";
    case_head(case) = "Case {case}";
    no_case(path) = "No case: {path}";
    column_revision = "Revision";
    column_saved = "Saved";
    column_by = "By";
    column_desk = "Desk";
    column_with = "With";
    column_hash = "Hash";
    column_planned_for = "Planned for";
    column_patient = "Patient";
    column_number = "Number";
    column_eye = "Eye";
    column_state = "State";
    column_short_revision = "Rev.";
    column_case = "Case";
    state_with_sheet(state, sheet) = "{state}, sheet {sheet}";
    state_changed_since(state, sheet) = "{state}, changed since sheet {sheet}";
    progress_revisions = "revisions";
    progress_pages = "pages";
    progress_sheets = "sheets";

    // Lens records.
    lenses_refused(problem, path) = "lens records refused: {problem}: {path}";
    lens_twice(name, path) = "lens records refused: \"{name}\" is named more than once: {path}";
    lens_is_another(name) = "millrace: another lens record is called \"{name}\"";
    lenses_there(count) = "nothing was imported: one record is another than the one of its name; --replace replaces it" | "nothing was imported: {count} records are others than those of their names; --replace replaces them";
    no_lens_records(path) = "no lens record is kept: {path}";
    lens_added(name) = "added {name}";
    lens_replaced(name) = "replaced {name}";
    lens_as_it_was(name) = "the same already: {name}";

    // Signing.
    signed(sheet, case, revision) = "signed sheet {sheet}: case {case} revision {revision}";
    signed_superseding(sheet, earlier, case, revision) = "signed sheet {sheet}, which supersedes sheet {earlier}: case {case} revision {revision}";
    fingerprint(fingerprint) = "fingerprint {fingerprint}";
    not_signed(count, case, revision) = "case {case} revision {revision} is not signed; one thing stands against it" | "case {case} revision {revision} is not signed; {count} things stand against it";

    // Verifying.
    current(sheet) = "current: {sheet}";
    superseded(by, at, sheet) = "superseded by sheet {by} on {at}: do not work by this one\n{sheet}";
    changed_since(revision, by, at, sheet) = "changed since: the case was saved again as revision {revision} by {by} on {at} and is not signed since; ask before you work by this sheet\n{sheet}";
    unknown_sheet = "unknown: this register never signed such a sheet; it may be of another register, or a draft";
    sheet_of_case(number, case, revision, by, at) = "sheet {number} of case {case} revision {revision}, signed by {by} on {at}";

    // Computing again.
    computed_again(sheet, by, at, signed_with, program) = "Sheet {sheet}, signed by {by} on {at} with {signed_with}, computed again by its own limits with {program}.";
    no_result_differs = "No result differs.";
    results_differ(count) = "One result differs; the sheet stays as it was signed." | "{count} results differ; the sheet stays as it was signed.";
    column_result = "Result";
    column_as_signed = "As signed";
    column_now = "Now";

    // Sheets of a day.
    sheets_written(count, list) = "{count} sheet written; the list: {list}" | "{count} sheets written; the list: {list}";
    without_sheet(name, number, why) = "No sheet: {name}, No. {number}: {why}";
    changed_since_signed(number) = "changed since sheet {number} was signed";
    not_signed_yet = "not signed";
    sheet_not_set(number, problem) = "sheet {number} cannot be set: {problem}";
}
