//! What theatre needs beside lens and incision.

use egui::{Id, Ui};
use millrace_core::case::{Anesthesia, Command, Reserve, TheatreEntry, Told};
use millrace_core::quantity::HundredthDiopters;

use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{
    Commit, Named, NumberField, Segments, cell, minor_button, muted, pick, problem, section,
    text_field,
};
use crate::words::sentence;

/// Width of the names.
const NAMES: f32 = 168.0;
/// Width of a line of text.
const LINE: f32 = 320.0;

/// Lists that were opened and hold nothing yet.
#[derive(Debug, Default)]
pub(super) struct TheatreState {
    names_allergies: bool,
    names_medicines: bool,
}

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut TheatreState) -> Vec<Command> {
    let mut commands = Vec::new();
    section(ui, "For theatre");
    let theatre = &view.draft.theatre;
    let set = |entry| Command::SetTheatre(entry);
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label("Anesthesia"));
        let options = Anesthesia::ALL.map(|kind| (kind, sentence(&kind.to_string())));
        let id = (view.ground.with("anesthesia"), "Anesthesia");
        let chosen = pick(ui, id, &options, theatre.anesthesia, 220.0);
        commands.extend(chosen.map(|kind| set(TheatreEntry::Anesthesia(Some(kind)))));
        if theatre.anesthesia.is_some() && minor_button(ui, "Clear").clicked() {
            commands.push(set(TheatreEntry::Anesthesia(None)));
        }
    });
    let mut problems = Vec::new();
    ui.horizontal(|ui| {
        let label = cell(ui, NAMES, |ui| ui.label("Viscoelastic")).id;
        let field = (
            view.ground.with("viscoelastic"),
            Named::By(label, "Viscoelastic"),
        );
        let value = (theatre.viscoelastic.as_deref(), "viscoelastic");
        let entered = text_field(ui, field, value, LINE);
        problems.extend(entered.problem);
        let commit = entered.commit.map(Commit::value);
        commands.extend(commit.map(|text| set(TheatreEntry::Viscoelastic(text))));
    });
    let technique = lines(
        ui,
        view,
        ("Technique, step", "Technique, step"),
        &theatre.technique,
        &mut problems,
    );
    commands.extend(technique.map(|steps| set(TheatreEntry::Technique(steps))));
    let in_room = lines(
        ui,
        view,
        ("In the room", "In the room"),
        &theatre.in_room,
        &mut problems,
    );
    commands.extend(in_room.map(|things| set(TheatreEntry::InRoom(things))));
    let allergies = (theatre.allergies.as_ref(), &mut state.names_allergies);
    let told = told(ui, view, "Allergies", allergies, &mut problems);
    commands.extend(told.map(|told| set(TheatreEntry::Allergies(told.value()))));
    let medicines = (theatre.medicines.as_ref(), &mut state.names_medicines);
    let told = self::told(ui, view, "Medicines that matter", medicines, &mut problems);
    commands.extend(told.map(|told| set(TheatreEntry::Medicines(told.value()))));
    reserves(ui, view, &mut commands, &mut problems);
    for why in problems {
        problem(ui, &why);
    }
    commands
}

/// Powers of what lies ready, for the lenses that were chosen on the Lens page.
fn reserves(
    ui: &mut Ui,
    view: &CaseView<'_>,
    commands: &mut Vec<Command>,
    problems: &mut Vec<String>,
) {
    let lens = &view.draft.lens;
    let spare = lens.spare.as_ref();
    let sulcus = spare.filter(|record| record.may_sit_in_sulcus);
    for (name, which, record, power) in [
        ("Spare lens, power", Reserve::Spare, spare, lens.spare_power),
        (
            "In the sulcus, power",
            Reserve::Sulcus,
            sulcus,
            lens.sulcus_power,
        ),
        (
            "Chamber lens, power",
            Reserve::Chamber,
            lens.chamber_lens.as_ref(),
            lens.chamber_power,
        ),
    ] {
        let Some(record) = record else {
            continue;
        };
        let entered = ui.horizontal(|ui| {
            let label = cell(ui, NAMES, |ui| ui.label(name)).id;
            let id = view.ground.with(name);
            let field = NumberField::new(id, Named::By(label, name), &POWER, power);
            let entered = field.show(ui);
            muted(ui, format!("D, {}", record.name));
            entered
        });
        problems.extend(entered.inner.problem);
        let chosen: Option<Option<HundredthDiopters>> = entered.inner.commit.map(Commit::value);
        commands.extend(chosen.map(|power| Command::ChooseReservePower(which, power)));
    }
}

/// Whether it was asked, and what was told.
fn told(
    ui: &mut Ui,
    view: &CaseView<'_>,
    name: &'static str,
    (told, names): (Option<&Told>, &mut bool),
    problems: &mut Vec<String>,
) -> Option<Commit<Told>> {
    const OPTIONS: [(u8, &str); 3] = [(0, "not asked"), (1, "none known"), (2, "these")];
    let mut next = None;
    let now = match told {
        Some(Told::These(_)) => 2,
        _ if *names => 2,
        Some(Told::NoneKnown) => 1,
        None => 0,
    };
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(name));
        let id = view.ground.with((name, "told"));
        if let Some(chosen) = Segments::new(id, name, &OPTIONS, Some(now)).show(ui) {
            *names = chosen == 2;
            next = match chosen {
                0 => Some(Commit::Cleared),
                1 => Some(Commit::Entered(Told::NoneKnown)),
                // Recorded once the first is named.
                _ => None,
            };
        }
    });
    if now == 2 {
        let none = Vec::new();
        let these = match told {
            Some(Told::These(these)) => these,
            _ => &none,
        };
        if let Some(these) = lines(ui, view, (name, ""), these, problems) {
            *names = these.is_empty();
            next = Some(if these.is_empty() {
                Commit::Cleared
            } else {
                Commit::Entered(Told::These(these))
            });
        }
    }
    next
}

/// A list of lines in their order, with an empty one to add to it, under its name or a label that stands
/// before the first. Tells the list as it is to be.
fn lines(
    ui: &mut Ui,
    view: &CaseView<'_>,
    (name, label): (&'static str, &str),
    now: &[String],
    problems: &mut Vec<String>,
) -> Option<Vec<String>> {
    let mut next = None;
    for index in 0..=now.len() {
        let line = now.get(index).map(String::as_str);
        ui.horizontal(|ui| {
            let number = index + 1;
            let words = if index == 0 { label } else { "" };
            cell(ui, NAMES, |ui| ui.label(words));
            let named = format!("{name} {number}");
            let id: Id = view.ground.with((name, index));
            let entered = text_field(ui, (id, Named::As(&named)), (line, name), LINE);
            problems.extend(entered.problem);
            if let Some(commit) = entered.commit {
                next = changed(now, index, commit.value());
            }
            if line.is_none() {
                muted(ui, "Enter adds it");
                return;
            }
            let up = ui
                .add_enabled_ui(0 < index, |ui| minor_button(ui, "Up"))
                .inner;
            up.clone().accessible_name(format!("{named}, up"));
            if up.clicked() {
                let mut moved = now.to_vec();
                moved.swap(index - 1, index);
                next = Some(moved);
            }
            let out = minor_button(ui, "Take out");
            out.clone().accessible_name(format!("{named}, take out"));
            if out.clicked() {
                next = changed(now, index, None);
            }
        });
    }
    ui.add_space(measures::TIGHT);
    next
}

/// The list with another line at `index`, or without it.
fn changed(now: &[String], index: usize, line: Option<String>) -> Option<Vec<String>> {
    let mut next = now.to_vec();
    match (next.get_mut(index), line) {
        (Some(place), Some(line)) => *place = line,
        (Some(_), None) => {
            next.remove(index);
        }
        (None, Some(line)) => next.push(line),
        (None, None) => return None,
    }
    Some(next)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_changed_taken_out_or_added() {
        let now = ["a".to_owned(), "b".to_owned()];
        let list = |lines: &[&str]| {
            Some(
                lines
                    .iter()
                    .map(|&line| line.to_owned())
                    .collect::<Vec<_>>(),
            )
        };
        assert_eq!(changed(&now, 0, Some("c".to_owned())), list(&["c", "b"]));
        assert_eq!(changed(&now, 1, None), list(&["a"]));
        assert_eq!(
            changed(&now, 2, Some("c".to_owned())),
            list(&["a", "b", "c"])
        );
        assert_eq!(changed(&now, 2, None), None);
    }
}
