//! The page that theatre gets.

pub use crate::desk::frame::{choose, write};
pub use crate::text::plan::{
    allergies, anesthesia, in_room, none_known, not_asked, theatre_heading, viscoelastic,
};

messages! {
    title = "Sheet";

    // Which sheet is looked at.
    plans(eye, power, cylinder, lens) = "{eye}, {power}{cylinder}, {lens}";
    eye_missing = "eye not chosen";
    power_missing = "no power chosen";
    lens_missing = "no lens chosen";
    with_cylinder(cylinder, axis) = ", cylinder {cylinder} at {axis}";
    look_at_draft = "Look at the draft";
    paper = "Paper";
    letter = "Letter";
    view = "View…";
    print = "Print…";
    save_as = "Save as…";
    is_the_draft = "The draft: not signed, and printed without a lens power";
    is_current(number) = "Sheet {number}, the one to work by";
    is_changed_since(number) = "Sheet {number}, the case was changed since: do not work by it";
    is_superseded(number, by) = "Sheet {number}, superseded by sheet {by}: do not work by it";
    path_hint = "path of the PDF";
    path = "Path of the PDF";

    // What theatre needs.
    clear = "Clear";
    technique = "Technique, step";
    medicines = "Relevant medications";
    these = "as listed";
    power_of(lens) = "{lens}, power";
    cylinder_of(lens) = "{lens}, cylinder";
    axis_of(lens) = "{lens}, axis";
    of_lens(lens) = "D, {lens}";
    cylinder = "cylinder";
    axis = "axis";
    both_or_none = "cylinder and axis are recorded together";
    line(name, number) = "{name} {number}";
    enter_adds = "Enter adds it";
    up = "Up";
    line_up(line) = "{line}, up";
    take_out = "Remove";
    line_take_out(line) = "{line}, remove";

    // The signature.
    signature = "Signature";
    signed_as_it_stands(number) = "The case is signed as it stands, as sheet {number}; once it is changed it can be signed anew";
    nothing_against = "Nothing of the plan stands against its signature";
    before_signing = "Before it can be signed";
    obstacle(what) = "•  {what}";
    is_not_taken(what, why) = "{what} is not accepted: {why}";
    signed_by = "Signed by";
    no_author = "your name is not set: settings, Your name";
    role = "Role";
    target_again = "Consented target, again";
    target_tip = "Read from the consent and not from the screen";
    sign = "Sign this plan";
    not_stored = "The last change is not saved yet";
    what_signing_does = "Signing freezes the plan under a number; a later change needs a new signature, which supersedes it. A typed name is no proof of a person: local rules on signatures prevail.";

    // Sheets signed so far.
    signed_sheets = "Signed sheets";
    row_current(number, by, at) = "Sheet {number}, {by}, {at}: current";
    row_changed_since(number, by, at) = "Sheet {number}, {by}, {at}: the case was changed since";
    row_superseded(number, by, at, later) = "Sheet {number}, {by}, {at}: superseded by sheet {later}";
    look = "Look at it";
    of_sheet(number, what) = "Sheet {number}, {what}";

    // As it prints.
    as_it_prints = "Print preview";
    being_set_anew = "What changed is not on these pages yet: they are being set anew";
    being_set = "The pages are being set…";
    page_of(page, pages) = "Print preview, page {page} of {pages}";
}
