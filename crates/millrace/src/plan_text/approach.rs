//! Both sides of the approach, with their evidence, and the room for the pieces.

use millrace_core::case::{Approach, Draft};
use millrace_core::plan::{Evaluated, Plan, TRIALS};
use millrace_core::quantity::Millimeters;
use millrace_core::rules::{Bearing, Verdict, wording};

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading("Approach: phacoemulsification or manual small-incision surgery (SICS)");
    let chosen = draft.approach.approach.map_or_else(
        || "none yet".to_owned(),
        |approach: Approach| approach.to_string(),
    );
    let incision = match (
        draft.approach.incision_width,
        draft.approach.incision_direction,
    ) {
        (None, None) => String::new(),
        (width, direction) => {
            let width = width.map_or_else(|| "width not set".to_owned(), |w| w.to_string());
            let place = direction.map_or_else(
                || "place not set".to_owned(),
                |direction| format!("{} at {direction}", plan.side.place(direction)),
            );
            format!(", incision {width}, {place} (ISO 8429, facing the patient)")
        }
    };
    page.hanging(
        " ",
        3,
        &format!("{HEADING}Chosen: {chosen}{HEADING:#}{incision}"),
    );
    page.blank();
    for (title, side) in [
        (
            "Speaks for phacoemulsification",
            Some(Bearing::Phacoemulsification),
        ),
        (
            "Speaks for manual small-incision surgery",
            Some(Bearing::SmallIncision),
        ),
        ("Shows no difference", None),
    ] {
        page.line(&format!(" {HEADING}{title}{HEADING:#}"));
        write_side(page, plan, side);
    }
    write_pieces(page, draft, plan);
}

fn write_side(page: &mut Page, plan: &Plan, side: Option<Bearing>) {
    let findings = plan
        .rules
        .iter()
        .filter(|rule| side.is_some() && rule.rule.bearing == side);
    for evaluated in findings {
        if let Some(text) = argument(evaluated) {
            page.hanging("   this eye   ", 14, &text);
        }
    }
    for trial in TRIALS.iter().filter(|trial| trial.favors == side) {
        let label = if plan.concerns(trial) {
            "   published  "
        } else {
            "   other eyes "
        };
        page.hanging(
            label,
            14,
            &format!(
                "{} [{}]",
                wording::trial(trial.trial),
                trial.source.standing
            ),
        );
    }
}

fn argument(evaluated: &Evaluated) -> Option<String> {
    let Verdict::Finding(finding) = &evaluated.verdict else {
        return None;
    };
    let rule = evaluated.rule;
    let standing = rule.sources.first()?.standing;
    Some(format!(
        "{}: {} [{standing}, {}]",
        rule.title,
        wording::finding_and_certainty(finding),
        rule.id
    ))
}

fn write_pieces(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading("Room for the pieces (an estimate)");
    let section = match &plan.section {
        Ok(section) => section,
        Err(error) => {
            page.paragraph(1, &format!("Cannot be estimated: {error}."));
            return;
        }
    };
    let Some(nucleus) = draft.approach.nucleus else {
        page.paragraph(
            1,
            "Cannot be estimated: the size of the nucleus was not stated.",
        );
        return;
    };
    let posterior = if section.back_radius_measured {
        "measured"
    } else {
        "assumed, 0.81 of the front"
    };
    page.paragraph(
        1,
        &format!(
            "Aqueous depth {}; nucleus {} × {}, as stated ({:.0} mm³); back of the cornea {} ({posterior}).",
            section.aqueous_depth,
            nucleus.diameter(),
            nucleus.thickness(),
            nucleus.volume_mm3(),
            section.back_radius,
        ),
    );
    let header = [
        "Pieces",
        "divided as",
        "longest, mm",
        "turning, mm",
        "2 mm off axis, mm",
        "standing, mm",
    ];
    let rows: Vec<_> = plan
        .room
        .iter()
        .map(|row| {
            let division = row.division;
            let mark = if draft.approach.divided_into() == Some(division.pieces()) {
                "▶"
            } else {
                " "
            };
            vec![
                format!("{mark} {}", division.pieces()),
                format!(
                    "{} × {} × {}",
                    division.sectors, division.rings, division.layers
                ),
                format!("{:.2}", row.largest_dimension.mm()),
                room(row.turning_on_axis),
                row.turning_off_axis
                    .map_or_else(|| "beyond the cornea".to_owned(), room),
                room(row.standing_on_axis),
            ]
        })
        .collect();
    page.table(&header.map(str::to_owned), &rows);
    page.blank();
    page.paragraph(1, "Divided as sectors × rings × layers. Room between endothelium and the longest piece on end: turning about its middle in the pupil plane, or standing wholly in front of it. No published distance against cell loss was found. Model and assumptions: docs/chamber-model.md.");
}

fn room(room: Millimeters) -> String {
    let text = room.to_string();
    let number = text.trim_end_matches(" mm");
    if room.mm() < 0.0 {
        format!("touches {number}")
    } else {
        number.to_owned()
    }
}
