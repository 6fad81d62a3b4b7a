//! Why a register could not do what was asked. `docs/register.md` explains each.

messages! {
    // Where a fault lies: the path stands last.
    at_path(what, path) = "{what}: {path}";

    no_directory(problem) = "its directory cannot be made ({problem}); choose another place for the register";
    network_drive(kind) = "it would lie on a network drive ({kind}), where two programs that write at once damage it; choose a place on this computer";
    absent = "there is no register here; import a case to start one, or name the place of yours";
    not_a_file = "this is not a file; name a file for the register";
    empty = "the file is empty, so it is not a register; if it was one, restore the latest backup, otherwise remove the file";
    not_a_register = "this file is not a register of Millrace, and was left as it is; choose another place";
    left_over = "the register is gone, but a file with its last changes is still there; put the register back beside it, or move that file away to start anew";
    foreign_journal(journal) = "a file beside the register, {journal}, does not continue it: it is of another register, or of this one at another time; nothing was changed; move that file away and keep it";
    set_back(seen, now) = "the register was set back: it was seen at {seen} and stands at {now}, and what was saved or signed between is not in it; restore a later backup, or accept it as it is (millrace register accept) if you know why";
    other_head(seen, now) = "the register is another, or was written anew: it was seen at {seen} and stands at {now}, and does not hold what it held then; find out why, then restore a backup, or accept it as it is (millrace register accept)";
    missing(seen) = "a register stood here and is gone: it was seen at {seen}; bring it back or restore a backup, or accept that it is gone (millrace register accept) if you know why; none was made in its place";
    seen_head = "the file that keeps what was seen of the register last cannot be read; compare the register with the last sheet on paper, then accept it as it is (millrace register accept)";
    gone = "the register was deleted or moved away, or its journal was, while it was open; nothing was saved where it would be found again; keep what you have, and open a register anew to save it";
    replaced = "another file was put in the place of the register or its journal while it was open; nothing was saved into it; keep what you have, and open the register anew to save it";
    changed_meanwhile = "another program wrote to the register while it was read without the right to write; open it again";
    newer(found, newest) = "the register has schema {found} and this program knows {newest}; it was left as it is; use the newer program";
    read_only = "the register cannot be written; nothing was changed; see to the rights of the file and of its directory, and that the drive is not read-only";
    no_access(problem) = "the register cannot be opened ({problem}); see to the rights of the file and of its directory";
    locked = "another program holds the register; nothing was saved; try again, and close the other program if it stays so";
    full = "the drive is full or fails to write; nothing was saved; make room and save again";
    damaged(problem) = "the register is damaged ({problem}); do not write to it, keep the file, and repair it into a new one or restore the latest backup";
    exists = "this file exists and is not overwritten; name a new file for the backup";
    bad_backup(problem) = "the backup does not read back ({problem}) and was thrown away; check the register";
    beyond_repair(problem) = "the register cannot be repaired from what was saved in it ({problem}); nothing was written; restore the latest backup";
    no_such_case = "no case of the register is called this";
    many_cases(cases) = "more than one case fits; name one of them: {cases}";
    no_such_revision(asked, newest) = "the case has no revision {asked}; its newest is {newest}";
    no_such_sheet(asked, newest) = "the register has no sheet {asked}; its newest is {newest}";
    no_sheet_yet(asked) = "the register has no sheet {asked}; none was signed yet";
    nobody = "nobody is named as the person who saves; nothing was saved";
    no_such_time = "the time is not one of the years 1 to 9999; nothing was saved; set the clock of this computer";
    nothing_saved(problem) = "{problem}; nothing was saved";
    case_not_stored(problem) = "the case cannot be stored ({problem}); nothing was saved";
    not_ordered(problem) = "the order of the day cannot be changed ({problem}); nothing was saved";
    no_random_numbers(problem) = "the system gave no random numbers ({problem}); nothing was saved";
    stopped = "stopped";
    database_reports(problem) = "the database reports: {problem}";

    changed_not_signed(revision, by, at) = "the case was changed meanwhile: revision {revision} by {by} at {at}; nothing was signed";
    changed_not_saved(revision, by, at) = "the case was changed meanwhile: revision {revision} by {by} at {at}; nothing was saved";
    other_cases(others) = "what the case says of other patients is no longer so, nothing was signed: {others}. Open it on the desk, look at its findings, and sign again";
    already_signed(sheet, by, at) = "the case is signed as it stands: sheet {sheet} by {by} at {at}; nothing was signed";
    cannot_be_signed(obstacles) = "the plan cannot be signed; {obstacles}";
}
