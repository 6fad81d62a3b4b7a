//! The plan sheet and the page that lists the sheets of a day: what the text and the desk do not say
//! as well.

messages! {
    // Whose sheet, and whether it is signed.
    title(number) = "Plan sheet {number}";
    title_draft = "Plan sheet, draft";
    heading_draft = "Plan sheet: DRAFT, not signed";
    draft = "DRAFT";
    draft_not_signed = "DRAFT, not signed";
    not_signed_across = "NOT SIGNED";
    draft_band = "DRAFT, NOT SIGNED";
    draft_note = "A lens power stands only on a signed sheet";
    power_in_text = "[no power on a draft]";
    sheet(number) = "Sheet {number}";
    on_page(sheet, page, pages) = "{sheet}, page {page} of {pages}";
    title_superseded(number, by) = "Plan sheet {number}, superseded by sheet {by}";
    title_changed(number) = "Plan sheet {number}, changed since it was signed";
    superseded_across = "SUPERSEDED";
    superseded_across_by(number) = "BY {number}";
    superseded_band(number) = "SUPERSEDED BY SHEET {number}";
    superseded_note = "Do not work by this sheet";
    changed_across = "CHANGED";
    changed_across_since = "SINCE";
    changed_band = "CHANGED SINCE IT WAS SIGNED";
    changed_note(at) = "Saved again {at}: ask before use";
    day_and_age(day, age) = "{day} ({age} years)";
    sex_not_stated = "sex not stated";

    // The lens.
    lens_to_implant = "LENS TO IMPLANT";
    no_power_stated = "A lens power stands only on a signed sheet";
    cylinder(cylinder) = "cylinder {cylinder}";
    marks_at(axis) = "marks at {axis}";
    cylinder_and_marks(cylinder, axis) = "cylinder {cylinder}, marks at {axis}";
    model(model) = "model {model}";
    sits_in(site) = "sits in the {site}";
    make(material, haptic, diameter) = "{material}, {haptic}, optic {diameter}";
    predicted_refraction = "Predicted refraction";
    predicted_by(refraction, formula) = "{refraction} by {formula}";
    leaves = "Leaves";
    refined_by_first_eye = "Refined by first eye";
    refined_chosen(refraction) = "{refraction}, refined chosen";
    unrefined_chosen(refraction) = "{refraction}, unrefined chosen";
    undecided(refraction) = "{refraction}, undecided";

    // What lies ready.
    predicted(refraction) = "predicted {refraction}";
    proposed(power) = "proposed {power}";
    power_not_stated = "power not stated";
    power_withheld = "no power on a draft";
    by_rule(rule, power) = "{rule}: {power}";

    // What was told, beside the lens.
    not_asked = "not asked";
    anticoagulant = "Anticoagulant, antiplatelet";
    takes_it = "YES";
    takes_none = "none taken";
    told_below = "Allergies and medications: in the box below";

    // What is out of the ordinary.
    special = "SPECIAL";
    guarded_prognosis(signs) = "guarded prognosis: {signs}";

    // Approach.
    not_stated(names) = "Not stated: {names}.";
    incision(width, place) = "{width}, {place}";
    incision_without_place(width) = "width {width}, place not stated";
    hard_nucleus = "Nucleus counts as";
    judged_nucleus(judgment, by, day, reason) = "{judgment} ({by}, {day}): {reason}";
    grade_not_stated = "grade not stated";
    nucleus_size(diameter, thickness) = "{diameter} × {thickness}, as stated";
    estimate_at_rest = "Estimate at rest";

    // Figures.
    facing_the_patient = "ISO 8429 view, facing the patient";
    surgeons_view = "Surgeon's view";
    surgeons_view_from(seat) = "Surgeon's view, seat {seat}";
    forehead_is_nearest(caption) = "{caption}. Forehead is nearest.";
    temple_is_nearest(caption) = "{caption}. Temple is nearest.";
    incision_word = "incision";
    incision_bar(direction) = "Bar: incision at {direction}";
    incision_not_stated = "Incision not stated";
    with_marks(caption, axis) = "{caption}; line: marks of the lens at {axis}";
    view(title, eye, incision) = "{title}, {eye}. Incision: {incision}.";
    view_marks(view, axis) = "{view} Marks of the lens at {axis}.";
    outline_only_helps = "Outline of lens and iris only help the eye";
    depth = "depth";
    aqueous = "aqueous";
    lens = "lens";

    // Measurements and formulas.
    column_measured = "measured";
    measured_on(day, who) = "Measured on {day} by {who}";
    formulas_with(power) = "Formulas, refraction with {power}";
    formulas_without_power = "Formulas, no power chosen";
    formulas_on_draft = "Formulas, without lens powers";
    no_formula_asked = "No formula was asked: lens or target not stated.";
    planned_by_not_stated = "Formula: not stated";
    column_formula = "formula";
    planned_by(formula) = "{formula} (chosen)";
    refused(reason) = "no result: {reason}";
    constants = "Constants";
    constants_for(biometry, constants) = "for {biometry}: {constants}";

    // Findings.
    gone_against = "OVERRIDDEN FINDINGS, WITH REASONS";
    reason = "Reason";
    is_missing(missing, rules) = "{missing} is missing ({rules})";
    could_not_be_evaluated = "Could not be evaluated; silence is not a pass:";

    // In theatre.
    patient_says = "Patient says name and eye";
    eye_marked = "Eye marked";
    second_person = "Second person:";
    lens_matches = "Lens opened matches this sheet: make, model, power";
    changes_made = "Changes made:";
    sticker_here = "Sticker of the implanted lens here";

    // The second look.
    second_look = "Second look at the critical numbers";
    second_look_agrees(by, day) = "{by}, {day}: agreed";
    second_look_differs(by, day, what) = "{by}, {day}: NOT AGREED in {what}";
    second_look_not_compared(by, day) = "{by}, {day}: not compared";
    no_second_look = "no second look was taken";

    // The signature.
    supersedes(number) = "supersedes sheet {number}";
    signed_by(name, role, moment) = "Signed by {name}, {role}, {moment}";
    fingerprint(fingerprint) = "Fingerprint {fingerprint}";
    code_of(fingerprint) = "QR code of the fingerprint {fingerprint}";
    how_to_verify(command) = "{command} tells whether this sheet is current.";

    // The sheets of a day.
    list_title(day) = "Theatre list, {day}";
    same_fingerprint = "Each sheet in the hand must have the fingerprint of its row.";
    without_sheet = "No sheet to work by";
    column_why = "Why";

    // Why no sheet is made.
    no_glyph(what, character, code) = "{what} holds {character} (U+{code}), which no typeface of this program has: write it in another script, or fill in the sheet by hand";
    too_long(what, length, limit) = "{what} has {length} characters; the sheet takes up to {limit} (our own value), so that it stays legible";
    another_eye = "the plan is not of this draft: they name different eyes";
    block_missing(block) = "the template of the sheet leaves out, hides or covers {block}: no sheet is made";
    arrangement_refused(fault, place) = "the clinic's arrangement is refused: {fault}, {place}: no sheet is made";
    spot(page, across, down) = "on page {page}, {across} mm from the left and {down} mm from the top";
    spot_of_text(page, across, down, text) = "on page {page}, {across} mm from the left and {down} mm from the top, \"{text}\"";
    off_the_page(page, text) = "on page {page} of the sheet \"{text}\" leaves the page: no sheet is made";
    not_laid_out(problem) = "the template of the sheet cannot be laid out: {problem}";
    below_standard(problem) = "the sheet does not meet PDF/A-2a and PDF/UA-1: {problem}";
    no_code = "the fingerprint does not fit into a QR code";

    block_identity = "name, number and birth date";
    block_eye = "the eye";
    block_lens = "the lens";
    block_power = "the lens power";
    block_cylinder = "cylinder and marks";
    block_target = "prediction and target";
    block_ready = "what lies ready";
    block_told = "allergies and medications";
    block_special = "what is special";
    block_second_look = "the line of the second look";
    block_overrides = "the reasons for going against findings";
    block_foot = "the foot";
    block_standing = "that it is no longer the sheet to work by";

    fault_changed = "the fixed part is not what it is without it";
    fault_leaves = "it prints outside of its own room";
    fault_cut = "it cuts off something";
    fault_over = "something lies over letters";
    fault_number = "it prints a number that the plan has not handed to it, or not so often";
    fault_like_number = "it prints letters that read as a number";
    fault_read_as_one = "it prints numbers so near each other that they read as one";
    fault_apart = "it prints a number with decimals, or an angle, away from the words it belongs to";
    fault_other_eye = "it names the eye that is not operated";
    fault_large = "it prints letters of more than 12 points";
    fault_small = "it prints letters of less than 5 points";
    fault_pale = "it prints letters that are not dark, or outlined";
    fault_turned = "it turns, mirrors or stretches something";
    fault_glyph = "it prints a shape that is not that of the letter, or moves letters into each other";
    fault_drawing = "it holds a picture, a link, or a drawing other than figures of the plan, level lines and boxes";
    fault_figure = "it changes a figure of the plan, leaves out a part of it, or puts something into it";
    fault_unseen = "what is read aloud, listed or attached holds a number that the plan has not handed to it, or a file";

    patient_name = "the patient name";
    patient_number = "the patient number";
    lens_name = "the name of the lens";
    lens_model = "the model of the lens";
    ready_lens_name = "the name of a lens that lies ready";
    signer_name = "the name of who signed";
    signer_role = "the role of who signed";
    a_reason = "a reason";
    reason_author = "the name of who gave a reason";
    second_looker = "the name of who took the second look";
    measurer = "the name of who measured";
    any_text = "a text of the sheet";
}
