//! What lies ready: the spare in bag and sulcus, and the lens for the anterior chamber.

use millrace_core::case::Draft;
use millrace_core::iol_power::sulcus::{PERCENT_SOURCE, STEPWISE_SOURCE, VERGENCE_SOURCE};
use millrace_core::lens::LensRecord;
use millrace_core::plan::{Plan, SparePlan};
use millrace_wording::text::lens as say;
use millrace_wording::text::plan::source;
use millrace_wording::{Show as _, Words};

use super::ladder::{write_cautions, write_constants, write_ladder};
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    let model = |record: &LensRecord| say::model(words, &record.name, &record.model);
    page.heading(say::spare_heading(words));
    match (&draft.lens.spare, &plan.spare) {
        (None, _) => page.paragraph(1, say::no_spare(words)),
        (Some(record), None) => {
            page.paragraph(1, &say::spare_without_target(words, model(record)));
        }
        (Some(record), Some(spare)) => {
            page.paragraph(1, &say::spare_in_bag(words, model(record)));
            write_ladder(page, &spare.bag, None, draft.lens.formula);
            write_constants(page, record);
            write_cautions(page, &spare.bag);
            page.blank();
            write_sulcus(page, spare, record);
        }
    }
    if let (Some(record), Some(ladder)) = (&draft.lens.chamber_lens, &plan.chamber_lens) {
        page.blank();
        let text = say::in_anterior_chamber(words, model(record), record.overall_length);
        page.paragraph(1, &text);
        write_ladder(page, ladder, None, draft.lens.formula);
        write_constants(page, record);
        write_cautions(page, ladder);
    }
}

fn write_sulcus(page: &mut Page, spare: &SparePlan, record: &LensRecord) {
    let words = page.words();
    if !record.may_sit_in_sulcus {
        return page.paragraph(1, say::not_for_sulcus(words));
    }
    if spare.sulcus.is_empty() {
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
    let rows: Vec<_> = spare
        .sulcus
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
                or_silent(stepwise, words),
                or_silent(less, words),
                vergence.into_owned(),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), &rows);
    page.paragraph(1, &say::vergence_shift(words, spare.sulcus_shift));
    for it in [STEPWISE_SOURCE, PERCENT_SOURCE, VERGENCE_SOURCE] {
        page.hanging(" ", 3, &source(words, it));
    }
}

/// What a rule that speaks of positive powers says of another: nothing.
fn or_silent(text: Option<String>, words: Words) -> String {
    text.unwrap_or_else(|| say::not_for_powers_up_to_zero(words).to_owned())
}
