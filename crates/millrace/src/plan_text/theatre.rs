//! What theatre needs beside lens and incision, as the sheet will have it.

use millrace_core::case::{Draft, Told};

use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft) {
    page.heading("For theatre");
    let (theatre, lens) = (&draft.theatre, &draft.lens);
    let listed = |list: &[String]| (!list.is_empty()).then(|| list.join("; "));
    let told = |told: Option<&Told>| match told {
        None => "not asked".to_owned(),
        Some(Told::NoneKnown) => "none known".to_owned(),
        Some(Told::These(these)) => these.join("; "),
    };
    let not_stated = || "not stated".to_owned();
    let mut rows = vec![
        (
            "Anesthesia",
            theatre.anesthesia.map(|kind| kind.to_string()),
        ),
        ("Technique", listed(&theatre.technique)),
        ("Viscoelastic", theatre.viscoelastic.clone()),
        ("In the room", listed(&theatre.in_room)),
        ("Allergies", Some(told(theatre.allergies.as_ref()))),
        ("Medicines", Some(told(theatre.medicines.as_ref()))),
    ];
    let spare = lens.spare.as_ref();
    let sulcus = spare.filter(|record| record.may_sit_in_sulcus);
    for (name, record, power) in [
        ("Spare, bag", spare, lens.spare_power),
        ("Spare, sulcus", sulcus, lens.sulcus_power),
        (
            "Chamber lens",
            lens.chamber_lens.as_ref(),
            lens.chamber_power,
        ),
    ] {
        if record.is_some() {
            let power = power.map_or_else(|| "power not chosen".to_owned(), |it| it.to_string());
            rows.push((name, Some(power)));
        }
    }
    for (name, text) in rows {
        let text = text.unwrap_or_else(not_stated);
        page.hanging(&format!(" {name:<14}"), 15, &text);
    }
}
