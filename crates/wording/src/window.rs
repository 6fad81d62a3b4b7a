//! What the window around the desk tells of files, printers and what stands beside the register.

messages! {
    no_home = "your own directory, which ~ stands for, is not known; write the whole path";
    case_files = "Case files";
    open_case = "Open a case file";
    write_case = "Write the case to a file";
    lens_files = "Files of lens records";
    open_lenses = "Open a file of lens records";
    write_lenses = "Write the lens records to a file";
    lenses_written(path) = "The lens records were written to {path}";
    write_sheet = "Write the sheet to a file";
    folder_of_day = "A folder for the sheets of the day";
    no_file_chosen = "no file was chosen";

    case_written(path) = "The case was written to {path}";
    sheet_written(path) = "The sheet was written to {path}";
    sheets_set(done, of) = "{done} of {of} sheets are set";
    viewer_asked(path) = "The viewer was asked for {path}";
    no_viewer(problem, path) = "No viewer opened: {problem}. The file is {path}";
    print_job = "Millrace sheet";
    sent_to_printer(told) = "Sent to the printer: {told}";
    not_printed(problem, path) = "Not printed: {problem}. The file is {path}";
    no_fingerprint(problem) = "That is no fingerprint of a sheet: {problem}";

    no_such_case(case) = "no case of this register is called {case}";
    day_changed(name, by) = "{name} was changed meanwhile by {by}, so the order of the day stays as it was; look at the list and move again";
    no_such_revision(revision) = "no revision is called {revision}";
    kept_aside(why, path) = "{why}. What you typed is kept in {path}; it can be opened as a case file";
    is_kept_aside(path) = "A state of this case that was not saved is kept in {path}; it can be opened as a case file";
    not_kept_aside = "What you change is not saved and could not be kept aside: choose now which of the two goes on";
    only_read = "The register can be read and not written to: it lies on a drive that is read-only, or you may not write there. Nothing you change is saved";
    only_read_full = "The register can be read and not written to: the drive is full or fails. Nothing you change is saved";
    head_not_remembered(problem) = "How far the register has come could not be remembered on this computer: {problem}";
    fault(problem) = "This program is at fault: {problem}. What was saved before is in the register";
    no_case_kept = "the register kept no case";
    no_display = "no display was found (neither DISPLAY nor WAYLAND_DISPLAY leads to one)";

    left_not_read(path, problem) = "{path} may hold what was being typed and not saved; it was not read and is left as it is: {problem}";
    left_damaged = "it is damaged, or of another version of this program";
    typed_not_kept(path, problem) = "What is being typed is not kept beside the register until it is saved: {path}: {problem}";
    too_much_typed = "What is being typed is not kept beside the register until it is saved: it is too long";

    not_read(path, problem) = "{path} was not read: {problem}";
    not_kept(path, problem) = "{path} was not kept: {problem}";
    no_such_text_size(percent) = "text of {percent} % is outside 80 to 200 %";
    no_such_language(code) = "no language is called \"{code}\"";
}
