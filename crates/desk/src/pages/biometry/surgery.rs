//! Corneal refractive surgery before: whether, of which kind, and what is known from before it.

use egui::Ui;
use millrace_core::biometry::{CornealReading, CornealSurgery, CornealSurgeryKind, EyeState};
use millrace_core::quantity::{HundredthDiopters, MeasureError};
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words};

use super::EyePage;
use crate::widgets::quantity_kind::{UNSIGNED_POWER, in_words};
use crate::widgets::{Commit, Named, NumberField, muted, small};

/// Readings from before, while only one of the two is there.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SurgeryEntry {
    before: [Option<CornealReading>; 2],
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Absent,
    Done(CornealSurgeryKind),
}

fn kinds(words: Words) -> [(Option<Kind>, &'static str); 5] {
    let done = |kind| Some(Kind::Done(kind));
    [
        (None, say::not_recorded(words)),
        (Some(Kind::Absent), say::no(words)),
        (
            done(CornealSurgeryKind::MyopicLaser),
            say::myopic_laser(words),
        ),
        (
            done(CornealSurgeryKind::HyperopicLaser),
            say::hyperopic_laser(words),
        ),
        (done(CornealSurgeryKind::Other), say::other(words)),
    ]
}

const fn kind_of(surgery: Option<CornealSurgery>) -> Option<Kind> {
    match surgery {
        None => None,
        Some(CornealSurgery::Absent) => Some(Kind::Absent),
        Some(CornealSurgery::Done { kind, .. }) => Some(Kind::Done(kind)),
    }
}

fn word(words: Words, kind: Option<Kind>) -> Option<&'static str> {
    kinds(words)
        .into_iter()
        .find(|(option, _)| kind.is_some() && *option == kind)
        .map(|(_, word)| word)
}

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState, entry: &mut SurgeryEntry) {
    let now = kind_of(next.corneal_surgery);
    let words = page.words;
    let other = word(words, kind_of(page.other.state.corneal_surgery));
    let chosen = page
        .line(say::refractive_surgery(words), other)
        .show(ui, |ui| {
            let options = kinds(words).map(|(kind, word)| (kind, word.to_owned()));
            let id = page.id("corneal surgery");
            let name = page.name(say::corneal_surgery(words));
            crate::widgets::Pick::new(id, &name, &options, Some(now)).show(ui, 180.0)
        });
    if let Some(chosen) = chosen {
        *entry = SurgeryEntry::default();
        next.corneal_surgery = chosen.map(|kind| match kind {
            Kind::Absent => CornealSurgery::Absent,
            Kind::Done(kind) => CornealSurgery::Done {
                kind,
                before: None,
                correction: None,
            },
        });
        return;
    }
    if let Some(CornealSurgery::Done {
        kind,
        before,
        correction,
    }) = next.corneal_surgery
    {
        let before = readings_before(ui, page, before, entry);
        let correction = removed(ui, page, correction);
        next.corneal_surgery = Some(CornealSurgery::Done {
            kind,
            before,
            correction,
        });
    }
}

/// Both readings from before the surgery, as text with unit: their instrument is long gone, so each
/// says its own unit and index.
fn readings_before(
    ui: &mut Ui,
    page: &EyePage<'_>,
    recorded: Option<[CornealReading; 2]>,
    entry: &mut SurgeryEntry,
) -> Option<[CornealReading; 2]> {
    let mut values = recorded.map_or(entry.before, |[first, second]| [Some(first), Some(second)]);
    let mut problems = Vec::new();
    let words = page.words;
    let label = format!("    {}", say::k_before(words));
    page.line(&label, None).show(ui, |ui| {
        for (index, value) in values.iter_mut().enumerate() {
            let name = page.name(&say::reading_before(words, index + 1));
            let id = page.id(("reading before", index));
            let field = NumberField::new(id, Named::As(&name), &READING, *value);
            let entered = field.width(124.0).show(ui);
            problems.extend(entered.problem);
            if let Some(commit) = entered.commit {
                *value = commit.value();
            }
        }
    });
    for why in problems {
        page.wrong(ui, &why);
    }
    if values.iter().any(Option::is_some) && values.iter().any(Option::is_none) {
        small(ui, say::recorded_once_both(words));
    }
    match values {
        [Some(first), Some(second)] => {
            *entry = SurgeryEntry::default();
            Some([first, second])
        }
        partial => {
            entry.before = partial;
            None
        }
    }
}

/// A reading with its unit in the text.
const READING: crate::widgets::Kind<CornealReading> = crate::widgets::Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::readings(words).to_owned(),
    read: |text, words| text.parse().map_err(in_words::<MeasureError>(words)),
    write: |reading, words| reading.show(words).into_owned(),
};

fn removed(
    ui: &mut Ui,
    page: &EyePage<'_>,
    correction: Option<HundredthDiopters>,
) -> Option<HundredthDiopters> {
    let words = page.words;
    let label = format!("    {}", say::myopia_removed(words));
    let entered = page.line(&label, None).show(ui, |ui| {
        let name = page.name(say::myopia_removed_at(words));
        let id = page.id("correction");
        let field = NumberField::new(id, Named::As(&name), &UNSIGNED_POWER, correction);
        let entered = field.show(ui);
        muted(ui, say::at_the_cornea(words));
        entered
    });
    if let Some(why) = entered.problem {
        page.wrong(ui, &why);
    }
    entered.commit.map_or(correction, Commit::value)
}
