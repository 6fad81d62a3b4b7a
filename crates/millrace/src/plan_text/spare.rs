//! What lies ready: the spare in bag and sulcus, and the lens for the anterior chamber.

use millrace_core::case::Draft;
use millrace_core::iol_power::sulcus::{PERCENT_SOURCE, STEPWISE_SOURCE, VERGENCE_SOURCE};
use millrace_core::lens::LensRecord;
use millrace_core::plan::{Plan, SparePlan};

use super::ladder::{write_cautions, write_constants, write_ladder};
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading("Spare lens");
    match (&draft.lens.spare, &plan.spare) {
        (None, _) => page.paragraph(1, "No spare lens chosen."),
        (Some(record), None) => {
            page.paragraph(
                1,
                &format!("{}, model {}: no target chosen.", record.name, record.model),
            );
        }
        (Some(record), Some(spare)) => {
            page.paragraph(
                1,
                &format!("{}, model {}, in the bag:", record.name, record.model),
            );
            write_ladder(page, &spare.bag, None, draft.lens.formula);
            write_constants(page, record);
            write_cautions(page, &spare.bag);
            page.blank();
            write_sulcus(page, spare, record);
        }
    }
    if let (Some(record), Some(ladder)) = (&draft.lens.chamber_lens, &plan.chamber_lens) {
        page.blank();
        page.paragraph(
            1,
            &format!(
                "{}, model {}, overall length {}, in the anterior chamber with its own constants:",
                record.name, record.model, record.overall_length
            ),
        );
        write_ladder(page, ladder, None, draft.lens.formula);
        write_constants(page, record);
        write_cautions(page, ladder);
    }
}

fn write_sulcus(page: &mut Page, spare: &SparePlan, record: &LensRecord) {
    if !record.may_sit_in_sulcus {
        page.paragraph(
            1,
            "The maker does not allow this lens in the ciliary sulcus.",
        );
        return;
    }
    if spare.sulcus.is_empty() {
        page.paragraph(
            1,
            "No power for the ciliary sulcus without a power for the bag.",
        );
        return;
    }
    page.paragraph(1, "In the ciliary sulcus: two published rules beside the vergence result. They disagree; none is chosen for you.");
    let header = [
        "",
        "in the bag",
        "stepwise rule",
        "minus 5 %",
        "by vergence",
    ];
    let rows: Vec<_> = spare
        .sulcus
        .iter()
        .map(|power| {
            vec![
                power.formula.name().to_owned(),
                power.bag.to_string(),
                or_silent(
                    power
                        .stepwise
                        .map(|change| change.power(power.bag).to_string()),
                ),
                or_silent(power.five_percent.map(|power| power.to_string())),
                power
                    .vergence
                    .map_or_else(|refused| refused.to_string(), |power| power.to_string()),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), &rows);
    page.paragraph(
        1,
        &format!(
            "By vergence with the lens {} forward of the bag [assumption].",
            spare.sulcus_shift
        ),
    );
    for source in [STEPWISE_SOURCE, PERCENT_SOURCE, VERGENCE_SOURCE] {
        page.hanging(" ", 3, &format!("Source: {source}"));
    }
}

/// What a rule that speaks of positive powers says of another: nothing.
fn or_silent(text: Option<String>) -> String {
    text.unwrap_or_else(|| "not for ≤ 0 D".to_owned())
}
