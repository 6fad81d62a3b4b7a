//! How near pieces and whole nucleus come to the endothelium, plane by plane.

use millrace_core::case::Draft;
use millrace_core::chamber::{Passage, PlaneProximity, Proximity};
use millrace_core::plan::Plan;
use millrace_wording::sentence;
use millrace_wording::text::plan as say;
use millrace_wording::text::proximity as near;

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    page.heading(near::heading(words));
    let section = match &plan.section {
        Ok(section) => section,
        Err(error) => {
            page.paragraph(1, &say::no_room(words, error));
            return write_passage(page, plan.passage.as_ref());
        }
    };
    let (Some(nucleus), Some(proximity)) = (draft.approach.nucleus, plan.proximity()) else {
        return page.paragraph(1, say::no_nucleus(words));
    };
    let posterior = if section.back_radius_measured {
        say::back_measured(words)
    } else {
        say::back_assumed(words)
    };
    page.paragraph(
        1,
        &say::section(
            words,
            section.aqueous_depth,
            nucleus.diameter(),
            nucleus.thickness(),
            words.fixed(nucleus.volume_mm3(), 0),
            section.back_radius,
            posterior,
        ),
    );
    page.paragraph(1, &near::rests_on(words, proximity));
    for plane in &proximity.planes {
        write_plane(page, draft, plane);
    }
    if draft.approach.working_plane.is_none() {
        page.blank();
        page.paragraph(1, near::no_plane(words));
    }
    page.blank();
    page.paragraph(1, near::legend(words));
    write_whole(page, draft, proximity);
    write_passage(page, plan.passage.as_ref());
}

fn write_plane(page: &mut Page, draft: &Draft, plane: &PlaneProximity) {
    let words = page.words();
    let is_plane = draft.approach.working_plane == Some(plane.plane);
    let heading = near::plane_heading(words, plane.plane, plane.middle);
    let heading = if is_plane {
        near::plane_chosen(words, heading)
    } else {
        heading
    };
    page.blank();
    page.line(&format!(" {HEADING}{heading}{HEADING:#}"));
    let header = [
        say::column_pieces,
        say::column_divided,
        near::column_margin,
        near::column_range,
        near::column_off_axis,
        near::column_worst,
        near::column_nine_in_ten,
        near::column_touching,
    ];
    let number = |length: millrace_core::quantity::Millimeters| words.fixed(length.mm(), 2);
    let rows: Vec<_> = plane
        .divisions
        .iter()
        .map(|row| {
            let division = row.division;
            let is_chosen = is_plane && draft.approach.divided_into() == Some(division.pieces());
            let mark = if is_chosen { "▶" } else { " " };
            let parts = [division.sectors, division.rings, division.layers];
            vec![
                format!("{mark} {}", division.pieces()),
                parts.map(|part| part.to_string()).join(" × "),
                number(row.margin),
                near::margin_range(words, row),
                row.off_axis
                    .map_or_else(|| say::beyond_cornea(words).to_owned(), number),
                number(row.worst),
                number(row.nine_in_ten),
                near::share(words, row.touch_share),
            ]
        })
        .collect();
    page.table(&header.map(|column| column(words).to_owned()), &rows);
}

fn write_whole(page: &mut Page, draft: &Draft, proximity: &Proximity) {
    let words = page.words();
    page.blank();
    page.line(&format!(
        " {HEADING}{}{HEADING:#}",
        near::whole_heading(words)
    ));
    if let Some(delivery) = draft.approach.delivery {
        page.paragraph(
            1,
            &format!("{}.", sentence(&near::delivered(words, delivery))),
        );
    }
    let whole = near::whole(words, &proximity.whole);
    page.paragraph(1, &format!("{whole}. {}", near::retreat_available(words)));
    page.paragraph(1, near::whole_reading(words));
}

fn write_passage(page: &mut Page, passage: Option<&Passage>) {
    let words = page.words();
    if let Some(passage) = passage {
        page.paragraph(1, &near::passage(words, passage));
    }
}
