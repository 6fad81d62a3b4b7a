//! The lenses that lie ready, each for its place.

use millrace_core::case::{Draft, Slot};
use millrace_core::iol_power::sulcus::{PERCENT_SOURCE, STEPWISE_SOURCE, VERGENCE_SOURCE};
use millrace_core::lens::Place;
use millrace_core::plan::{Plan, SulcusPowers};
use millrace_wording::Show as _;
use millrace_wording::text::lens as say;
use millrace_wording::text::plan::source;

use super::ladder::{write_cautions, write_constants, write_ladder};
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    page.heading(say::backup_heading(words));
    let mut none = true;
    for (slot, lens) in draft.lens.lenses.iter() {
        let Slot::Backup(place) = slot else { continue };
        if !core::mem::take(&mut none) {
            page.blank();
        }
        let record = &lens.record;
        let model = say::model(words, &record.name, &record.model);
        let Some(backup) = plan.backups.get(&place) else {
            page.paragraph(1, &say::backup_without_target(words, model));
            continue;
        };
        let text = match place {
            Place::Bag => say::for_bag(words, model),
            Place::Sulcus => say::for_sulcus(words, model),
            Place::AnteriorChamber => say::in_anterior_chamber(words, model, record.overall_length),
        };
        page.paragraph(1, &text);
        match &backup.sulcus {
            Some(sulcus) => write_sulcus(page, sulcus),
            None => write_ladder(page, &backup.ladder, None, draft.lens.formula),
        }
        write_constants(page, record);
        write_cautions(page, &backup.ladder);
    }
    if none {
        page.paragraph(1, say::no_backup(words));
    }
}

fn write_sulcus(page: &mut Page, sulcus: &SulcusPowers) {
    let words = page.words();
    if sulcus.powers.is_empty() {
        return page.paragraph(1, say::no_sulcus_power(words));
    }
    page.paragraph(1, say::sulcus_rules(words));
    let header = [
        "",
        say::in_bag(words),
        say::stepwise(words),
        say::five_percent(words),
        say::by_vergence(words),
    ];
    let rows: Vec<_> = sulcus
        .powers
        .iter()
        .map(|power| {
            let stepwise = power
                .stepwise
                .map(|it| it.power(power.bag).show(words).into_owned());
            let less = power.five_percent.map(|it| it.show(words).into_owned());
            let vergence = match &power.vergence {
                Ok(power) => power.show(words),
                Err(refusal) => refusal.show(words),
            };
            vec![
                power.formula.show(words).into_owned(),
                power.bag.show(words).into_owned(),
                or_silent(stepwise, say::not_for_weak_powers(words)),
                or_silent(less, say::not_for_powers_up_to_zero(words)),
                vergence.into_owned(),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), &rows);
    page.paragraph(1, &say::vergence_shift(words, sulcus.shift));
    let cited = page.cite(&[STEPWISE_SOURCE, PERCENT_SOURCE, VERGENCE_SOURCE]);
    page.hanging(" ", 3, &source(words, cited));
}

/// What a rule says of a power that it does not speak of: nothing.
fn or_silent(text: Option<String>, silent: &str) -> String {
    text.unwrap_or_else(|| silent.to_owned())
}
