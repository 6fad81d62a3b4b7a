//! Words of the templates, by the names the templates call them.

use std::collections::BTreeMap;

use millrace_wording::text::{banner, certainty, lens, plan};
use millrace_wording::{Words, command_line, desk, measurements, sheet};

/// A label or a sentence by its name. A sentence has the names of its parts in braces; the template
/// puts the parts there, in whatever order the language has them.
pub(crate) type Labels = BTreeMap<&'static str, String>;

macro_rules! labels {
    ($(#[$doc:meta])* $table:ident { $($name:ident $(($($part:ident),+))? = $say:path;)* }) => {
        $(#[$doc])*
        pub(crate) fn $table(words: Words) -> Labels {
            [$((
                stringify!($name),
                String::from($say(words $(, $(concat!("{", stringify!($part), "}")),+)?)),
            )),*]
            .into()
        }
    };
}

labels! {
    /// Of the sheet.
    of_sheet {
        // The fixed part.
        number(number) = banner::number;
        born(day) = banner::born;
        operation(day) = banner::operation_on;
        heading_draft = sheet::heading_draft;
        draft = sheet::draft;
        draft_not_signed = sheet::draft_not_signed;
        sheet(number) = sheet::sheet;
        on_page(sheet, page, pages) = sheet::on_page;
        lens_to_implant = sheet::lens_to_implant;
        no_power_stated = sheet::no_power_stated;
        cylinder(cylinder) = sheet::cylinder;
        marks_at(axis) = sheet::marks_at;
        model(model) = sheet::model;
        sits_in(site) = sheet::sits_in;
        told_below = sheet::told_below;
        special = sheet::special;
        gone_against = sheet::gone_against;
        reason = sheet::reason;
        supersedes(number) = sheet::supersedes;
        signed_by(name, role, moment) = sheet::signed_by;
        fingerprint(fingerprint) = sheet::fingerprint;
        how_to_verify(command) = sheet::how_to_verify;

        // The arrangement.
        approach = plan::approach;
        measured = sheet::column_measured;
        value = measurements::column_value;
        method = measurements::column_method;
        day = measurements::column_day;
        who = measurements::column_who;
        measured_on(day, who) = sheet::measured_on;
        not_measured(names) = measurements::not_measured;
        formula = sheet::column_formula;
        predicted = certainty::predicted;
        proposed = lens::proposed;
        planned_by(formula) = sheet::planned_by;
        refused(reason) = sheet::refused;
        constants = sheet::constants;
        findings = desk::findings::title;
        no_finding = plan::no_finding;
        could_not_be_evaluated = sheet::could_not_be_evaluated;
        patient_says = sheet::patient_says;
        eye_marked = sheet::eye_marked;
        second_person = sheet::second_person;
        lens_matches = sheet::lens_matches;
        changes_made = sheet::changes_made;
        sticker_here = sheet::sticker_here;
    }
}

labels! {
    /// Of the page that lists sheets.
    of_list {
        number(number) = banner::number;
        born(day) = banner::born;
        on_page(sheet, page, pages) = sheet::on_page;
        same_fingerprint = sheet::same_fingerprint;
        sheet = desk::sheet::title;
        patient = command_line::column_patient;
        eye = command_line::column_eye;
        lens = plan::lens;
        power = plan::power;
        without_sheet = sheet::without_sheet;
        why = sheet::column_why;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A label that no template shows would be a promise to a clinic that adapts one.
    #[test]
    fn every_label_is_shown_by_its_template() {
        let sheet = concat!(
            include_str!("../../../assets/sheet/fixed.typ"),
            include_str!("../../../assets/sheet/arrangement.typ"),
        );
        let list = include_str!("../../../assets/sheet/list.typ");
        let words = Words::ENGLISH;
        for (labels, templates) in [(of_sheet(words), sheet), (of_list(words), list)] {
            for (name, text) in labels {
                let is_shown = templates.split("labels.").skip(1).any(|rest| {
                    let end = rest.find(|it: char| it != '_' && !it.is_ascii_lowercase());
                    rest.get(..end.unwrap_or(rest.len())) == Some(name)
                });
                assert!(is_shown, "{name}: {text}");
            }
        }
    }
}
