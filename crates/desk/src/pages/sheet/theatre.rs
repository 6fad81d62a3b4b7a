//! What theatre needs beside lens and incision.

use egui::{Key, Ui};
use millrace_core::case::{Anesthesia, Command, TheatreEntry, Told};
use millrace_wording::Show as _;
use millrace_wording::desk::sheet as say;

use super::backups::{self, HalfToric};
use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{
    Commit, Field, FormRows, Pick, Segments, cell, field_button, muted, section, text_field,
};
use crate::words::in_use;
use millrace_wording::sentence;

/// Width of the names.
pub(super) const NAMES: f32 = 176.0;
/// Width of a line of text.
const LINE: f32 = 320.0;
/// Room beside a line for what can be done with it.
const ACTS: f32 = 132.0;

/// Lists that were opened and hold nothing yet.
#[derive(Debug, Default)]
pub(super) struct TheatreState {
    names_allergies: bool,
    names_medicines: bool,
    half_toric: HalfToric,
}

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut TheatreState) -> Vec<Command> {
    let mut commands = Vec::new();
    let words = in_use(ui);
    section(ui, say::theatre_heading(words));
    let theatre = &view.draft.theatre;
    let mut form = FormRows::new(view.ground, NAMES);
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(say::anesthesia(words)));
        let options = Anesthesia::ALL.map(|kind| (kind, sentence(&kind.show(words))));
        let id = view.ground.with("anesthesia");
        let mut chosen = theatre.anesthesia;
        let pick = Pick::new(id, say::anesthesia(words), &options, chosen);
        chosen = pick.show(ui, 220.0).or(chosen);
        if theatre.anesthesia.is_some() && field_button(ui, say::clear(words)).clicked() {
            chosen = None;
        }
        if chosen != theatre.anesthesia {
            commands.push(set(TheatreEntry::Anesthesia(chosen)));
        }
    });
    ui.horizontal(|ui| {
        let field = form.name(ui, NAMES, say::viscoelastic(words));
        let value = theatre.viscoelastic.as_deref();
        let entered = text_field(ui, field, value, "viscoelastic", LINE);
        form.problems.extend(entered.problem);
        let commit = entered.commit.map(Commit::value);
        commands.extend(commit.map(|text| set(TheatreEntry::Viscoelastic(text))));
    });
    let steps = List::labeled("technique", say::technique(words));
    let technique = steps.show(ui, &mut form, &theatre.technique);
    commands.extend(technique.map(|steps| set(TheatreEntry::Technique(steps))));
    let things = List::labeled("things to have in the room", say::in_room(words));
    let in_room = things.show(ui, &mut form, &theatre.in_room);
    commands.extend(in_room.map(|things| set(TheatreEntry::InRoom(things))));
    let allergies = Asking {
        what: "allergies",
        name: say::allergies(words),
        told: theatre.allergies.as_ref(),
        names: &mut state.names_allergies,
    };
    let told = allergies.show(ui, &mut form);
    commands.extend(told.map(|told| set(TheatreEntry::Allergies(told.value()))));
    let medicines = Asking {
        what: "medications",
        name: say::medicines(words),
        told: theatre.medicines.as_ref(),
        names: &mut state.names_medicines,
    };
    let told = medicines.show(ui, &mut form);
    commands.extend(told.map(|told| set(TheatreEntry::Medicines(told.value()))));
    commands.extend(backups::show(ui, view, &mut form, &mut state.half_toric));
    form.say(ui);
    commands
}

const fn set(entry: TheatreEntry) -> Command {
    Command::SetTheatre(entry)
}

/// Whether it was asked, and what was told.
struct Asking<'a> {
    /// What the list is called where a text of it is refused.
    what: &'static str,
    name: &'static str,
    told: Option<&'a Told>,
    /// Whether a list was opened that holds nothing yet.
    names: &'a mut bool,
}

impl Asking<'_> {
    fn show(self, ui: &mut Ui, form: &mut FormRows) -> Option<Commit<Told>> {
        let words = in_use(ui);
        let options = [
            (0, say::not_asked(words)),
            (1, say::none_known(words)),
            (2, say::these(words)),
        ];
        let Self {
            what,
            name,
            told,
            names,
        } = self;
        let mut next = None;
        let now = match told {
            Some(Told::These(_)) => 2,
            _ if *names => 2,
            Some(Told::NoneKnown) => 1,
            None => 0,
        };
        let id = form.ground.with((name, "told"));
        let asked = Segments::new(id, name, &options, Some(now));
        if let Some(chosen) = asked.row(ui, name, NAMES) {
            *names = chosen == 2;
            next = match chosen {
                0 => Some(Commit::Cleared),
                1 => Some(Commit::Entered(Told::NoneKnown)),
                // Recorded once the first is named.
                _ => None,
            };
        }
        if now == 2 {
            let these = match told {
                Some(Told::These(these)) => these.as_slice(),
                _ => &[],
            };
            let list = List {
                what,
                name,
                label: "",
            };
            if let Some(these) = list.show(ui, form, these) {
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
}

/// A list of lines in their order, with an empty one to add to it, under its name or a label that stands
/// before the first.
#[derive(Clone, Copy)]
struct List<'a> {
    what: &'static str,
    name: &'static str,
    label: &'a str,
}

impl List<'_> {
    const fn labeled(what: &'static str, name: &'static str) -> Self {
        Self {
            what,
            name,
            label: name,
        }
    }

    /// Tells the list as it is to be.
    fn show(self, ui: &mut Ui, form: &mut FormRows, now: &[String]) -> Option<Vec<String>> {
        let Self { what, name, label } = self;
        let (mut next, words) = (None, in_use(ui));
        let entered_by_key = ui.input(|input| input.key_pressed(Key::Enter));
        let mut adds_on = false;
        for index in 0..=now.len() {
            let line = now.get(index).map(String::as_str);
            let room = ui.available_width() - NAMES - measures::NEAR - ACTS;
            ui.horizontal(|ui| {
                let number = index + 1;
                let label = if index == 0 { label } else { "" };
                cell(ui, NAMES, |ui| ui.label(label));
                let named = say::line(words, name, number);
                let field = Field::called(form.ground.with((name, index)), &named);
                let entered = text_field(ui, field, line, what, room.clamp(LINE / 2.0, LINE));
                form.problems.extend(entered.problem);
                if let Some(commit) = entered.commit {
                    next = changed(now, index, commit.value());
                    adds_on = entered_by_key;
                }
                if line.is_none() {
                    muted(ui, say::enter_adds(words));
                    return;
                }
                let up = ui
                    .add_enabled_ui(0 < index, |ui| field_button(ui, say::up(words)))
                    .inner;
                up.clone().accessible_name(say::line_up(words, &named));
                if up.clicked() {
                    let mut moved = now.to_vec();
                    moved.swap(index - 1, index);
                    next = Some(moved);
                }
                let out = field_button(ui, say::take_out(words));
                out.clone()
                    .accessible_name(say::line_take_out(words, &named));
                if out.clicked() {
                    next = changed(now, index, None);
                }
            });
        }
        if let Some(next) = next.as_ref().filter(|_| adds_on) {
            // The next thing that is typed is another one, not the same once more.
            let empty = form.ground.with((name, next.len()));
            ui.memory_mut(|memory| memory.request_focus(empty));
        }
        ui.add_space(measures::TIGHT);
        next
    }
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
