//! The clinic's lens records: added, copied, changed, removed. A case keeps its own copy of the
//! record it was planned with, so that nothing here changes a case.

mod constants;
mod form;
mod import;
mod powers;
mod record_form;
mod results;

use egui::{Id, RichText, Ui};
use millrace_core::lens::{LensRecord, LensSite};
use millrace_wording::desk::lens_records as say;
use millrace_wording::desk::widgets::range;
use millrace_wording::{Show as _, Words};

use crate::exchange::{Request, Surroundings};
use crate::message::{FileUse, Message};
use crate::theme::{measures, strong_style};
use crate::widgets::{minor_button, muted, section, small};
use crate::words::in_use;
use form::LensForm;
use record_form::End;

/// What is half entered, and what can be taken back.
#[derive(Debug, Default)]
pub(super) struct LensesState {
    edited: Option<Edited>,
    /// Records from a file that nobody has taken yet.
    pub(in crate::pages::settings) brought: Option<Vec<LensRecord>>,
    before: Vec<Vec<LensRecord>>,
    /// Counts the forms opened: the fields of one are not those of another.
    opened: u64,
    /// Ctrl+Z was pressed.
    pub(in crate::pages::settings) asks_to_undo: bool,
}

/// The record in the form.
#[derive(Debug)]
struct Edited {
    /// Where it stands in the list; nowhere yet if it is new.
    index: Option<usize>,
    form: LensForm,
}

/// What is asked of the list.
enum Wish {
    Add,
    Copy(usize),
    Change(usize),
    Remove(usize),
    Undo,
    /// A file is to be read or written.
    File(FileUse),
}

/// Shows the list, what was brought from a file, or the record being edited; returns what the person wants.
pub(super) fn show(ui: &mut Ui, around: &Surroundings, state: &mut LensesState) -> Option<Message> {
    ui.add_space(measures::NEAR);
    let undo = core::mem::take(&mut state.asks_to_undo);
    let records = &around.lenses;
    let kept = if state.edited.is_some() {
        edited(ui, records, state)
    } else if let Some(brought) = state.brought.take() {
        match import::show(ui, records, brought) {
            import::End::Open(brought) => {
                state.brought = Some(brought);
                None
            }
            import::End::Left => None,
            import::End::Taken(next) => keep(state, records, next),
        }
    } else {
        muted(ui, say::offered(in_use(ui)));
        let wish = list(ui, state, records).or(undo.then_some(Wish::Undo))?;
        if let Wish::File(file_use) = wish {
            return Some(Message::AskForFile(file_use));
        }
        follow(state, records, &wish)
    };
    kept.map(|records| Message::Ask(Request::KeepLenses(records)))
}

/// Shows the record being edited; returns other records when they are to be kept.
fn edited(ui: &mut Ui, records: &[LensRecord], state: &mut LensesState) -> Option<Vec<LensRecord>> {
    let edited = state.edited.as_mut()?;
    let ground = Id::unique(("lens record", state.opened));
    let index = edited.index;
    match record_form::show(ui, ground, records, edited)? {
        End::Left => {
            state.edited = None;
            None
        }
        End::Kept(record) => {
            state.edited = None;
            let mut next = records.to_vec();
            match index.and_then(|index| next.get_mut(index)) {
                Some(place) => *place = *record,
                None => next.push(*record),
            }
            keep(state, records, next)
        }
    }
}

fn follow(state: &mut LensesState, records: &[LensRecord], wish: &Wish) -> Option<Vec<LensRecord>> {
    let edit = |index: Option<usize>, form: LensForm| Some(Edited { index, form });
    match *wish {
        Wish::Undo => return state.before.pop(),
        // Asked for where it is wished.
        Wish::File(_) => return None,
        Wish::Remove(index) => {
            let mut next = records.to_vec();
            if index < next.len() {
                next.remove(index);
            }
            return keep(state, records, next);
        }
        Wish::Add => state.edited = edit(None, LensForm::default()),
        Wish::Change(index) => {
            let record = records.get(index)?;
            state.edited = edit(Some(index), LensForm::of(record));
        }
        Wish::Copy(index) => {
            let mut form = LensForm::of(records.get(index)?);
            form.name = None;
            state.edited = edit(None, form);
        }
    }
    state.opened += 1;
    None
}

fn keep(
    state: &mut LensesState,
    before: &[LensRecord],
    next: Vec<LensRecord>,
) -> Option<Vec<LensRecord>> {
    if next == before {
        return None;
    }
    state.before.push(before.to_vec());
    Some(next)
}

fn list(ui: &mut Ui, state: &LensesState, records: &[LensRecord]) -> Option<Wish> {
    let (mut wish, words) = (None, in_use(ui));
    ui.horizontal_wrapped(|ui| {
        if ui.button(say::add(words)).clicked() {
            wish = Some(Wish::Add);
        }
        let undo = ui.add_enabled(
            !state.before.is_empty(),
            egui::Button::new(say::undo(words)),
        );
        let undo = undo.on_hover_text(say::undo_tip(words));
        if undo.clicked() {
            wish = Some(Wish::Undo);
        }
        if ui.button(say::bring(words)).clicked() {
            wish = Some(Wish::File(FileUse::ReadLenses));
        }
        let write = egui::Button::new(say::write(words));
        if ui.add_enabled(!records.is_empty(), write).clicked() {
            wish = Some(Wish::File(FileUse::WriteLenses));
        }
    });
    if records.is_empty() {
        ui.add_space(measures::APART);
        muted(ui, say::none_yet(words));
    }
    for (site, title) in [
        (LensSite::Bag, say::for_bag(words)),
        (LensSite::AnteriorChamber, say::for_chamber(words)),
    ] {
        let of_site = records
            .iter()
            .enumerate()
            .filter(|(_, record)| record.site == site);
        if of_site.clone().next().is_some() {
            section(ui, title);
        }
        for (index, record) in of_site {
            wish = row(ui, index, record).or(wish);
        }
    }
    wish
}

fn row(ui: &mut Ui, index: usize, record: &LensRecord) -> Option<Wish> {
    let (mut wish, words) = (None, in_use(ui));
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(&record.name).text_style(strong_style()));
        muted(ui, &record.model);
        for (word, asked) in [
            (say::change(words), Wish::Change(index)),
            (say::copy(words), Wish::Copy(index)),
            (say::remove(words), Wish::Remove(index)),
        ] {
            let button = minor_button(ui, word);
            if button.clicked() {
                wish = Some(asked);
            }
            button.accessible_name(say::of_record(words, word, &record.name));
        }
    });
    small(ui, summary(words, record));
    small(ui, record.constants.show(words));
    ui.separator();
    wish
}

/// "+5.00 to +30.00 D · hydrophobic acrylic, one-piece · toric, 6 cylinders · own results: SRK/T".
fn summary(words: Words, record: &LensRecord) -> String {
    let ends = (record.powers.iter().next(), record.powers.iter().last());
    let powers = match ends {
        (Some(first), Some(last)) => range(words, first, last),
        _ => say::no_powers(words).to_owned(),
    };
    let material = say::material_and_haptic(words, record.material, record.haptic);
    let mut parts = vec![powers, material];
    if let Some(toric) = &record.toric {
        parts.push(say::toric_with(words, toric.cylinders().len()));
    }
    if record.may_sit_in_sulcus {
        parts.push(say::may_sit_in_sulcus(words).to_owned());
    }
    parts.push(say::constants_for(words, record.constants_for));
    if !record.results.is_empty() {
        let names = record.results.iter().map(|result| result.formula);
        parts.push(say::own_results_with(words, words.list(names)));
    }
    parts.join("  ·  ")
}
