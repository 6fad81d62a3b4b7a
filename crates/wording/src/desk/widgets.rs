//! What fields, choices and shapes say of themselves.

messages! {
    sign_missing(plus, minus) = "the sign is missing: write {plus} or {minus}";
    meant(number, unit) = "{number} {unit}?";
    wrong_unit(text, unit) = "\"{text}\" has another unit; this is in {unit}";
    has_no_unit(text) = "\"{text}\" has a unit, and this has none";
    not_decided(act) = "typed and not recorded: \u{201c}{act}\u{201d} does";
    not_taken(why) = "Not accepted: {why}";
    nothing_chosen = "nothing chosen";
    choose = "choose…";
    option(name, text) = "{name}, {text}";
    facing(eye) = "Facing the patient, the {eye} is marked";
    described(problem, about) = "{problem}. {about}";

    name_hint = "Family name, given names";
    person_hint = "name";
    typed_order = "While it is edited, this text stands in the order it is typed; elsewhere it reads from right to left";
    date_hint = "date";
    date_form = "a day, such as 3 Dec 2026 or 2026-12-03";

    range(least, most) = "{least} to {most}";
    radius_range(least, most) = "radius {least} to {most}";
    a_number = "a number";
    a_count_of_eyes = "a whole number of eyes";
}
