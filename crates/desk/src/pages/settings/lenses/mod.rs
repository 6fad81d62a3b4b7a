//! The clinic's lens records: added, copied, changed, removed. A case keeps its own copy of the
//! record it was planned with, so that nothing here changes a case.

mod constants;
mod form;
mod powers;
mod record_form;
mod results;

use egui::{Id, RichText, Ui};
use millrace_core::lens::{LensRecord, LensSite};

use crate::exchange::Surroundings;
use crate::theme::{measures, strong_style};
use crate::widgets::{minor_button, muted, section, small};
use form::LensForm;
use record_form::End;

/// What is half entered, and what can be taken back.
#[derive(Debug, Default)]
pub(super) struct LensesState {
    edited: Option<Edited>,
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
}

/// Shows the list, or the record being edited; returns other records when they are to be kept.
pub(super) fn show(
    ui: &mut Ui,
    around: &Surroundings,
    state: &mut LensesState,
) -> Option<Vec<LensRecord>> {
    ui.add_space(measures::NEAR);
    let records = &around.lenses;
    let undo = core::mem::take(&mut state.asks_to_undo);
    if let Some(edited) = &mut state.edited {
        let ground = Id::unique(("lens record", state.opened));
        let index = edited.index;
        return match record_form::show(ui, ground, records, edited) {
            None => None,
            Some(End::Left) => {
                state.edited = None;
                None
            }
            Some(End::Kept(record)) => {
                state.edited = None;
                let mut next = records.clone();
                match index.and_then(|index| next.get_mut(index)) {
                    Some(place) => *place = *record,
                    None => next.push(*record),
                }
                keep(state, records, next)
            }
        };
    }
    muted(
        ui,
        "Offered for every case; a case keeps its own copy, so that a change here changes no case",
    );
    let wish = list(ui, state, records).or(undo.then_some(Wish::Undo))?;
    follow(state, records, &wish)
}

fn follow(state: &mut LensesState, records: &[LensRecord], wish: &Wish) -> Option<Vec<LensRecord>> {
    let edit = |index: Option<usize>, form: LensForm| Some(Edited { index, form });
    match *wish {
        Wish::Undo => return state.before.pop(),
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
    let mut wish = None;
    ui.horizontal_wrapped(|ui| {
        if ui.button("Add a record…").clicked() {
            wish = Some(Wish::Add);
        }
        let undo = ui.add_enabled(!state.before.is_empty(), egui::Button::new("Undo"));
        let undo = undo.on_hover_text("Take the last change of the records back (Ctrl+Z)");
        if undo.clicked() {
            wish = Some(Wish::Undo);
        }
    });
    if records.is_empty() {
        ui.add_space(measures::APART);
        muted(ui, "No lens record yet");
    }
    for (site, title) in [
        (LensSite::Bag, "For the capsular bag"),
        (LensSite::AnteriorChamber, "For the anterior chamber"),
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
    let mut wish = None;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(&record.name).text_style(strong_style()));
        muted(ui, &record.model);
        for (word, asked) in [
            ("Change…", Wish::Change(index)),
            ("Copy…", Wish::Copy(index)),
            ("Remove", Wish::Remove(index)),
        ] {
            let button = minor_button(ui, word);
            if button.clicked() {
                wish = Some(asked);
            }
            button.accessible_name(format!("{word} {}", record.name));
        }
    });
    small(ui, summary(record));
    small(ui, record.constants.to_string());
    ui.separator();
    wish
}

/// "+5.00 to +30.00 D · hydrophobic acrylic, one-piece · toric, 6 cylinders · own results: SRK/T".
fn summary(record: &LensRecord) -> String {
    let ends = (record.powers.iter().next(), record.powers.iter().last());
    let powers = match ends {
        (Some(first), Some(last)) => format!("{first} to {last}"),
        _ => "no powers".to_owned(),
    };
    let mut parts = vec![powers, format!("{}, {}", record.material, record.haptic)];
    if let Some(toric) = &record.toric {
        parts.push(format!("toric, {} cylinders", toric.cylinders().len()));
    }
    if record.may_sit_in_sulcus {
        parts.push("may sit in the sulcus".to_owned());
    }
    parts.push(format!("constants for {}", record.constants_for));
    if !record.results.is_empty() {
        let names: Vec<_> = record
            .results
            .iter()
            .map(|result| result.formula.name())
            .collect();
        parts.push(format!("own results with {}", names.join(", ")));
    }
    parts.join("  ·  ")
}
