//! The panel of findings.

pub use crate::desk::biometry::recorded_as;

messages! {
    title = "Findings";
    landing = "Findings panel";
    choose_eye = "Choose the operative eye; every rule looks at it";
    count_of(severity, count) = "{severity} {count}";
    each_with_reason = "all overridden";
    without_reason(count) = "{count} without a reason";
    cannot_be_signed = "cannot be signed";
    count_not_evaluated(count) = "{count} could not be evaluated";
    rule(id, checks) = "Rule {id}. {checks}";
    less = "Less";
    more = "Why…";
    of_rule(what, id) = "{what}, {id}";
    found(severity, title) = "{severity}: {title}";
    go_to_field = "Go to the field";
    open_case(case) = "Open case {case}";
    withdraw = "Withdraw the reason";
    reason(name, day, reason) = "Reason ({name}, {day}) {reason}";
    outdated(name, day, reason) = "No longer counts, the finding has changed since ({name}, {day}) {reason}";
    record = "Record a reason…";
    record_for(id) = "Record a reason for {id}…";
    name_first = "Set your name in the settings first; a reason is signed";
    record_it = "Record the reason";
    record_none = "Record none";
    reason_for(id) = "Reason for {id}";
    not_evaluated(count) = "Could not be evaluated ({count})";
    missing(what, id) = "Missing: {what} ({id})";
    satisfied(count) = "Satisfied ({count})";
    elsewhere(count) = "Do not apply to this case ({count})";
    because(id, title, because) = "{id} {title}: {because}";
}
