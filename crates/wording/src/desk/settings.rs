//! The settings, without the form of a lens record.

pub use crate::desk::approach::flattening;
pub use crate::desk::frame::undo;
pub use crate::desk::lens::proposes_power;

messages! {
    title = "Settings";
    part = "Part of the settings";
    at_the_desk = "At the desk";
    own_ways = "My preferences";
    limits = "Limits";
    lens_records = "Lens records";

    // At the desk.
    person = "Person";
    your_name = "Your name";
    what_the_name_is_for = "Written beside reasons, changes of eye and saved revisions";
    your_role = "Your role";
    what_the_role_is_for = "Stands in the field of the role when you sign; empty, it is entered each time";
    this_desk = "This desk";
    desk_name = "Name of this desk";
    what_the_desk_is_for = "Stored beside your name with each saved revision, so that two desks can be told apart";
    named_as_computer(computer) = "Empty, it is called as the computer: {computer}";
    look = "Look";
    theme = "Theme";
    as_system = "As the system";
    light = "Light";
    dark = "Dark";
    text_size = "Text size";
    percent(size) = "{size} %";
    reading = "Reading";
    decimal_sign = "Decimal sign";
    point(example) = "Point, {example}";
    comma(example) = "Comma, {example}";
    how_numbers_are_written = "How numbers are written on the desk. Every field reads both; files and sheets keep the point";

    // My preferences.
    offered = "Offered on the pages of a case as \u{201c}use mine\u{201d}; no case takes any of it by itself";
    formulas = "Formulas in the lens power table";
    every_formula = "None is ticked: every formula is shown";
    planned_formula = "The chosen formula of a case is always shown";
    no_convention = "No preference";
    plans_by = "Formula I plan by";
    usual_lens = "Lens I usually plan";
    lens_not_there(lens) = "{lens}, not among the lens records";
    incisions = "My surgically induced astigmatism (SIA)";
    what_flattening_is = "Flattening is the centroid along the incision's own meridian, scatter the SD of each double-angle component, from the surgeon's own results";
    scatter = "Scatter";
    eyes = "Eyes";
    day = "Day";
    of_incision(what, incision) = "{what}, {incision}";
    kept_once_whole = "Not saved yet: enter flattening, scatter and number of eyes";
    flattening_missing = "flattening";
    scatter_missing = "scatter";
    eyes_missing = "number of eyes";

    // Use mine.
    use_mine(what) = "Use mine: {what}";
    all_of_these(first, others) = "{first}, {others}";
    incision(flattening, scatter, eyes) = "flattening {flattening}, scatter {scatter}, {eyes} eyes";

    // Limits.
    what_limits_count_for = "They count for every case planned from now on; a plan names each one that differs from the shipped";
    no_limit_matches = "No limit matches";
    search_hint = "Search limits, rules, standings";
    search = "Search limits";
    none_differs = "None differs from the shipped";
    only_differing(count) = "Only the {count} that differs" | "Only the {count} that differ";
    undo_limit = "Undo the last change of a limit (Ctrl+Z)";
    about_limit(unit, shipped) = "{unit}, shipped {shipped}";
    shipped(value, standing) = "shipped {value}  ·  {standing}";
    differs(shipped) = "Differs from the shipped {shipped}";
    give_back = "Reset to the shipped value";
    give_back_of(limit) = "Reset to the shipped value, {limit}";
    cannot_give_back(why) = "It cannot be reset now: {why}";
}
