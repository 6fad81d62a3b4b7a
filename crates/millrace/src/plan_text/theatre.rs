//! What theatre needs beside lens and incision, as the sheet will have it.

use millrace_core::case::{Draft, Slot, Told};
use millrace_wording::desk::lens::cylinder_at;
use millrace_wording::text::plan as say;
use millrace_wording::{Show, Words, sentence};

use super::summary::write_line;
use crate::page::Page;

/// Allergies and medicines alone.
pub(super) fn write_told(page: &mut Page, draft: &Draft) {
    let (words, theatre) = (page.words(), &draft.theatre);
    for (name, told) in [
        (say::allergies(words), &theatre.allergies),
        (say::medicines(words), &theatre.medicines),
    ] {
        write_line(page, name, &told_in_words(told.as_ref(), words));
    }
}

fn told_in_words(told: Option<&Told>, words: Words) -> String {
    match told {
        None => say::not_asked(words).to_owned(),
        Some(Told::NoneKnown) => say::none_known(words).to_owned(),
        Some(Told::These(these)) => words.clauses(these),
    }
}

pub(super) fn write(page: &mut Page, draft: &Draft) {
    let words = page.words();
    page.heading(say::theatre_heading(words));
    let (theatre, lens) = (&draft.theatre, &draft.lens);
    let listed = |list: &[String]| (!list.is_empty()).then(|| words.clauses(list));
    let told = |told: Option<&Told>| told_in_words(told, words);
    let rows = vec![
        (
            say::anesthesia(words),
            theatre.anesthesia.map(|kind| shown(kind, words)),
        ),
        (say::technique(words), listed(&theatre.technique)),
        (say::viscoelastic(words), theatre.viscoelastic.clone()),
        (say::in_room(words), listed(&theatre.in_room)),
        (
            say::allergies(words),
            Some(told(theatre.allergies.as_ref())),
        ),
        (
            say::medicines(words),
            Some(told(theatre.medicines.as_ref())),
        ),
    ];
    for (name, text) in rows {
        let text = text.unwrap_or_else(|| say::not_stated(words).to_owned());
        page.hanging(&format!(" {name:<17}"), 18, &text);
    }
    for (slot, chosen) in lens.lenses.iter().filter(|it| it.0 != Slot::Planned) {
        let power = chosen.power.map_or_else(
            || say::power_not_chosen(words).to_owned(),
            |power| shown(power, words),
        );
        let toric = chosen
            .toric
            .map(|toric| cylinder_at(words, toric.cylinder, toric.axis));
        let text = words.list([Some(power), toric].into_iter().flatten());
        let name = sentence(&slot.show(words));
        page.hanging(&format!(" {name}: "), 15, &text);
    }
}

fn shown(it: impl Show, words: Words) -> String {
    it.show(words).into_owned()
}
