//! One of the clinic's lenses.

use egui::Ui;
use millrace_core::case::{Command, Slot};
use millrace_core::lens::{LensRecord, OtherRecord, Place};
use millrace_wording::desk::lens as say;
use millrace_wording::text::lens::model;
use millrace_wording::{Show as _, Words, sentence};

use crate::pages::CaseView;
use crate::theme::measures;
use crate::widgets::{Pick, cell};
use crate::words::in_use;

/// What stands for the lens of the case where the clinic's records have it no more.
const OF_THE_CASE: usize = usize::MAX;
/// What stands for no lens.
const NONE: usize = usize::MAX - 1;

/// Widths of a name and of the list behind it.
#[derive(Clone, Copy)]
pub(super) struct Widths {
    pub(super) name: f32,
    pub(super) list: f32,
}

/// A choice of a lens behind its name, of those that may sit where it is meant to; tells what was newly
/// chosen.
pub(super) fn pick_lens(
    ui: &mut Ui,
    view: &CaseView<'_>,
    slot: Slot,
    widths: Widths,
) -> Option<Command> {
    let words = in_use(ui);
    let chosen = view.draft.lens.lenses.get(slot).map(|lens| &lens.record);
    let name = &sentence(&slot.show(words));
    // Under the heading of the backup lenses their place is enough, and all that has room.
    let label = match slot {
        Slot::Backup(Place::Bag) => say::for_bag(words),
        Slot::Backup(Place::Sulcus) => say::for_sulcus(words),
        Slot::Planned | Slot::Backup(Place::AnteriorChamber) => name,
    };
    let mut options: Vec<(usize, String)> = view
        .lenses
        .iter()
        .enumerate()
        .filter(|(_, record)| record.may_sit_in(slot.place()))
        .map(|(index, record)| (index, title(words, record)))
        .collect();
    let at = chosen.and_then(|record| view.lenses.iter().position(|known| known == record));
    let selected = match (chosen, at) {
        (None, _) => None,
        (Some(_), Some(index)) => Some(index),
        (Some(record), None) => {
            let text = say::as_recorded(words, title(words, record));
            options.insert(0, (OF_THE_CASE, text));
            Some(OF_THE_CASE)
        }
    };
    if chosen.is_some() {
        options.push((NONE, say::none(words).to_owned()));
    }
    let width = widths.name + measures::NEAR + widths.list;
    let picked = cell(ui, width, |ui| {
        cell(ui, widths.name, |ui| ui.label(label));
        let id = view.ground.with(name);
        Pick::new(id, name, &options, selected).show(ui, widths.list)
    })?;
    let (record, others) = match picked {
        OF_THE_CASE => return None,
        NONE => (None, Vec::new()),
        index => {
            let record = view.lenses.get(index)?;
            let others = OtherRecord::of_same_model(record, view.lenses);
            (Some(Box::new(record.clone())), others)
        }
    };
    Some(Command::ChooseLens(slot, record, others))
}

fn title(words: Words, record: &LensRecord) -> String {
    model(words, &record.name, &record.model)
}
