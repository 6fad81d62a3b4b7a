//! Who, which eye, and how the plan stands.

messages! {
    name_missing = "NAME MISSING";
    number_missing = "NUMBER MISSING";
    number(number) = "No. {number}";
    born_aged(day, age) = "born {day} ({age} years)";
    born(day) = "born {day}";
    birth_date_missing = "birth date missing";
    female = "female";
    male = "male";
    other_sex = "sex: other";
    no_operation_day = "operation day not set";
    operation_on(day) = "operation {day}";
    not_signed = "draft, not signed";

    stops(count) = "Stop {count}";
    reviews(count) = "Review {count}";
    without_a_reason(count) = "({count} without a reason)";
    notes(count) = "Note {count}";
    not_evaluated(count) = "{count} rule could not be evaluated" | "{count} rules could not be evaluated";
    cannot_be_signed = "This plan cannot be signed while a Stop finding stands.";
    reason_recorded = "(reason recorded)";
    caution = "For use by licensed clinicians. Not a certified medical device. Check every number against an independent calculation. Local protocols and the surgeon's judgment prevail.";
    changed_limit(name, in_use, shipped) = "This clinic's limit {name} is {in_use}; the shipped one is {shipped}";
}
