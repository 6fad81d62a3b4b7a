//! Contact lenses, and the last day they were worn.

use egui::Ui;
use millrace_core::biometry::{ContactLensKind, ContactLenses, EyeState};
use millrace_wording::Words;
use millrace_wording::desk::biometry as say;

use super::EyePage;
use crate::widgets::{Commit, Field, date_field};

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    NotWorn,
    Worn(ContactLensKind),
}

fn kinds(words: Words) -> [(Option<Kind>, &'static str); 4] {
    [
        (None, say::not_recorded(words)),
        (Some(Kind::NotWorn), say::not_worn(words)),
        (Some(Kind::Worn(ContactLensKind::Soft)), say::soft(words)),
        (Some(Kind::Worn(ContactLensKind::Hard)), say::hard(words)),
    ]
}

const fn kind_of(recorded: Option<ContactLenses>) -> Option<Kind> {
    match recorded {
        None => None,
        Some(ContactLenses::NotWorn) => Some(Kind::NotWorn),
        Some(ContactLenses::Worn { kind, .. }) => Some(Kind::Worn(kind)),
    }
}

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let (words, kinds) = (page.words, kinds(page.words));
    let now = kind_of(next.contact_lenses);
    let other = kind_of(page.other.state.contact_lenses);
    let other = kinds
        .iter()
        .find(|(kind, _)| kind.is_some() && *kind == other)
        .map(|(_, word)| *word);
    let line = page.line(say::contact_lenses(words), other);
    let chosen = line.choice(ui, &kinds, now);
    if chosen != now {
        next.contact_lenses = chosen.map(|kind| match kind {
            Kind::NotWorn => ContactLenses::NotWorn,
            Kind::Worn(kind) => ContactLenses::Worn {
                kind,
                last_worn: None,
            },
        });
        return;
    }
    let Some(ContactLenses::Worn { kind, last_worn }) = next.contact_lenses else {
        return;
    };
    let label = format!("    {}", say::last_worn(words));
    let entered = page.line(&label, None).show(ui, |ui| {
        let name = page.name(say::last_worn(words));
        let field = Field::called(page.id("contact lenses last worn"), &name);
        date_field(ui, field, last_worn)
    });
    if let Some(why) = entered.problem {
        page.wrong(ui, &why);
    }
    let last_worn = entered.commit.map_or(last_worn, Commit::value);
    next.contact_lenses = Some(ContactLenses::Worn { kind, last_worn });
}
