//! The operations of a day.

pub use crate::desk::frame::{approach, eye_missing, name_missing, new_case, number_missing};
pub use crate::desk::list::{changed_since, sheets_of, signed};
pub use crate::desk::sheet::with_cylinder;

messages! {
    none = "No operation has a day yet. Choose a case from the theatre list, or begin one";
    loading = "The list of the day is being read…";
    is_today(day) = "{day}, today";
    operations(count) = "one operation" | "{count} operations";
    signed_count(count) = "{count} signed";
    changed_count(count) = "{count} changed since its sheet" | "{count} changed since their sheets";
    to_sign(count) = "{count} planned, to be signed";
    to_plan(count) = "{count} measured, to be planned";
    to_measure(count) = "{count} not measured";
    day_before(day) = "Day before, {day}";
    day_after(day) = "Day after, {day}";
    go_to_today = "Today or next";

    place = "#";
    place_spoken(number, row) = "{number}, {row}";
    earlier = "Earlier";
    later = "Later";
    move_earlier(name) = "Earlier, {name}";
    move_later(name) = "Later, {name}";
    too_many_to_order(count) = "{count} operations are too many to be put in order";

    patient = "Patient";
    eye = "Eye";
    lens_and_power = "Lens and power";
    state = "State";
    findings = "Open findings";

    lens_missing = "lens not chosen";
    without_power(lens) = "{lens}, no power chosen";
    planned(lens, power) = "{lens} {power}";
    approach_missing = "not decided";
    eye_lacks = "eye is not chosen";
    biometry_lacks = "biometry is missing";
    target_lacks = "target is missing";
    lens_lacks = "lens is not chosen";
    power_lacks = "power is not chosen";
    cylinder_lacks = "cylinder is not chosen";
    approach_lacks = "approach is not decided";
    not_signed = "planned, not signed";
    no_findings = "none open";
    not_evaluated = "not evaluated";
    found(severity, count) = "{severity} {count}";
    patient_spoken(name, number) = "{name}, {number}";
    row(patient, rest) = "{patient}, {rest}";
}
