//! One of the clinic's lenses.

use egui::Ui;
use millrace_core::lens::{LensRecord, LensSite};
use millrace_wording::Words;
use millrace_wording::desk::lens as say;
use millrace_wording::text::lens::model;

use super::NAMES;
use crate::pages::CaseView;
use crate::widgets::{Commit, Pick, cell};
use crate::words::in_use;

/// What stands for the lens of the case where the clinic's records have it no more.
const OF_THE_CASE: usize = usize::MAX;
/// What stands for no lens.
const NONE: usize = usize::MAX - 1;

/// A row to choose a lens for `site` in; tells what was newly chosen.
pub(super) fn pick_lens(
    ui: &mut Ui,
    view: &CaseView<'_>,
    name: &str,
    site: LensSite,
    chosen: Option<&LensRecord>,
) -> Option<Commit<Box<LensRecord>>> {
    let words = in_use(ui);
    let mut options: Vec<(usize, String)> = view
        .lenses
        .iter()
        .enumerate()
        .filter(|(_, record)| record.site == site)
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
    let picked = ui
        .horizontal(|ui| {
            cell(ui, NAMES, |ui| ui.label(name));
            let id = view.ground.with(name);
            Pick::new(id, name, &options, selected).show(ui, 340.0)
        })
        .inner?;
    match picked {
        OF_THE_CASE => None,
        NONE => Some(Commit::Cleared),
        index => view
            .lenses
            .get(index)
            .map(|record| Commit::Entered(Box::new(record.clone()))),
    }
}

fn title(words: Words, record: &LensRecord) -> String {
    model(words, &record.name, &record.model)
}
