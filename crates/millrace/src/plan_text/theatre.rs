//! What theatre needs beside lens and incision, as the sheet will have it.

use millrace_core::case::{Draft, Told};
use millrace_wording::text::plan as say;
use millrace_wording::{Show, Words};

use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft) {
    let words = page.words();
    page.heading(say::theatre_heading(words));
    let (theatre, lens) = (&draft.theatre, &draft.lens);
    let listed = |list: &[String]| (!list.is_empty()).then(|| words.clauses(list));
    let told = |told: Option<&Told>| match told {
        None => say::not_asked(words).to_owned(),
        Some(Told::NoneKnown) => say::none_known(words).to_owned(),
        Some(Told::These(these)) => words.clauses(these),
    };
    let mut rows = vec![
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
    let spare = lens.spare.as_ref();
    let sulcus = spare.filter(|record| record.may_sit_in_sulcus);
    for (name, record, power) in [
        (say::spare_bag(words), spare, lens.spare_power),
        (say::spare_sulcus(words), sulcus, lens.sulcus_power),
        (
            say::chamber_lens(words),
            lens.chamber_lens.as_ref(),
            lens.chamber_power,
        ),
    ] {
        if record.is_some() {
            let not_chosen = || say::power_not_chosen(words).to_owned();
            rows.push((
                name,
                Some(power.map_or_else(not_chosen, |it| shown(it, words))),
            ));
        }
    }
    for (name, text) in rows {
        let text = text.unwrap_or_else(|| say::not_stated(words).to_owned());
        page.hanging(&format!(" {name:<17}"), 18, &text);
    }
}

fn shown(it: impl Show, words: Words) -> String {
    it.show(words).into_owned()
}
