//! The chamber to scale, the nucleus in it, and the room for its pieces.

use egui::{RichText, Ui};
use millrace_core::case::{Approach, Command};
use millrace_core::chamber::{ChamberSection, LENS_DIAMETER, PieceRoom};
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;

use super::pieces_table::{PiecesTable, Purpose};
use super::{ApproachState, CaseView, WIDE, column, nucleus};
use crate::decimals::turned;
use crate::figures::chamber_section::ChamberFigure;
use crate::theme::{measures, strong_style};
use crate::widgets::{notice, said, section, small};

/// Widest table: wider, and the eye loses the row.
const TABLE_WIDTH: f32 = 640.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut ApproachState) -> Vec<Command> {
    section(ui, "Anterior chamber, to scale");
    let width = ui.available_width();
    let mut commands = Vec::new();
    if WIDE <= width {
        ui.horizontal_top(|ui| {
            let left = 0.6 * width;
            column(ui, left, |ui| picture(ui, view, state));
            ui.add_space(measures::NEAR);
            column(ui, width - left - measures::FAR, |ui| {
                commands.extend(nucleus::show(ui, view, &mut state.nucleus));
                ui.add_space(measures::NEAR);
                caption(ui, view, state);
            });
        });
    } else {
        picture(ui, view, state);
        caption(ui, view, state);
        ui.add_space(measures::NEAR);
        commands.extend(nucleus::show(ui, view, &mut state.nucleus));
    }
    commands.extend(pieces(ui, view, state));
    commands
}

/// The row in the picture: under the pointer, else chosen, else looked at.
fn shown_pieces(view: &CaseView<'_>, state: &ApproachState) -> Option<u8> {
    let at_rest = match view.draft.approach.approach {
        Some(Approach::SmallIncision) => state.looked_at,
        _ => view.draft.approach.pieces,
    };
    state.hovered.or(at_rest)
}

fn shown_room<'a>(view: &CaseView<'a>, state: &ApproachState) -> Option<&'a PieceRoom> {
    let pieces = shown_pieces(view, state)?;
    let room = &view.plan.ok()?.room;
    room.iter().find(|row| row.division.pieces() == pieces)
}

fn picture(ui: &mut Ui, view: &CaseView<'_>, state: &ApproachState) {
    let section = match view.plan.map(|plan| plan.section.as_ref()) {
        Ok(Ok(section)) => section,
        Ok(Err(error)) => return no_picture(ui, &format!("The section {error}")),
        Err(_) => return no_picture(ui, "Choose the operated eye on the Biometry page"),
    };
    let limits = view.limits;
    let figure = ChamberFigure {
        section,
        nucleus: view.draft.approach.nucleus,
        room: shown_room(view, state),
        limit: (limits.chamber_depth, limits.chamber_depth_start),
    };
    let height = figure.height_for(ui.available_width());
    figure.show(ui, height);
}

fn no_picture(ui: &mut Ui, why: &str) {
    notice(ui, Severity::Note, |ui| {
        said(ui, format!("No picture. {why}"));
    });
}

/// What the picture shows, in words, and what it could not show.
fn caption(ui: &mut Ui, view: &CaseView<'_>, state: &ApproachState) {
    let Ok(Ok(section)) = view.plan.map(|plan| plan.section.as_ref()) else {
        return;
    };
    let words = turned(ui, &piece_in_words(view, state));
    let text = RichText::new(words).text_style(strong_style());
    // One line whatever it says: a row under the pointer must not move away because of its words.
    ui.label(text);
    small(ui, drawn_from(view, section));
}

fn piece_in_words(view: &CaseView<'_>, state: &ApproachState) -> String {
    let is_whole = view.draft.approach.approach == Some(Approach::SmallIncision);
    let Some(room) = shown_room(view, state) else {
        return if is_whole {
            "SICS delivers the nucleus whole: no piece is drawn".to_owned()
        } else {
            "No number of pieces is chosen: none is drawn".to_owned()
        };
    };
    let pieces = room.division.pieces();
    let is_chosen = view.draft.approach.divided_into() == Some(pieces);
    let standing = if is_chosen {
        "chosen"
    } else {
        "only looked at"
    };
    let left = room.turning_on_axis;
    let left = if left.mm() < 0.0 {
        format!("on end touches, {left}")
    } else {
        format!("on end {left} left over it")
    };
    let longest = room.largest_dimension;
    format!("{pieces} pieces ({standing}): longest {longest}, {left}")
}

fn drawn_from(view: &CaseView<'_>, section: &ChamberSection) -> String {
    let posterior = if section.back_radius_measured {
        "measured"
    } else {
        "assumed, 0.81 of the front"
    };
    let mut parts = vec![format!(
        "Back of the cornea {} ({posterior})",
        section.back_radius
    )];
    if let Some(nucleus) = view.draft.approach.nucleus {
        parts.push(format!("Nucleus {:.0} mm³", nucleus.volume_mm3()));
    }
    if section.pupil_diameter.is_none() {
        parts.push("Pupil not recorded: no iris drawn".to_owned());
    }
    parts.push(match section.lens_back {
        None => "Lens thickness not recorded: neither lens nor nucleus drawn".to_owned(),
        Some(_) => {
            format!("Outline of the lens {LENS_DIAMETER} wide [printed], for the drawing only")
        }
    });
    if section.corneal_diameter.is_none() {
        parts.push("Corneal diameter not recorded: drawn as far as the angle".to_owned());
    }
    parts.join(". ")
}

fn pieces(ui: &mut Ui, view: &CaseView<'_>, state: &mut ApproachState) -> Option<Command> {
    section(ui, "Room for the pieces, an estimate");
    let plan = &view.draft.approach;
    let is_whole = plan.approach == Some(Approach::SmallIncision);
    let (purpose, marked) = if is_whole {
        (Purpose::Look, state.looked_at)
    } else {
        (Purpose::Choose, plan.pieces)
    };
    ui.label(match (is_whole, plan.pieces) {
        (true, _) => {
            "Delivered whole in SICS, so no division is chosen; rows can be looked at".to_owned()
        }
        (false, None) => "No number of pieces is chosen".to_owned(),
        (false, Some(pieces)) => format!("{pieces} pieces are chosen"),
    });
    let unknown = view
        .plan
        .map_or("choose the operated eye".to_owned(), unknown_room);
    let end = ui
        .scope(|ui| {
            ui.set_max_width(TABLE_WIDTH.min(ui.available_width()));
            PiecesTable {
                id: view.ground.with("pieces"),
                room: view.plan.map_or(&[], |plan| plan.room.as_slice()),
                unknown: &unknown,
                purpose,
                marked,
            }
            .show(ui)
        })
        .inner;
    if state.hovered != end.hovered {
        state.hovered = end.hovered;
        ui.request_repaint();
    }
    ui.add_space(measures::TIGHT);
    let clears = !is_whole && plan.pieces.is_some() && {
        let button = ui.small_button("Clear the number of pieces");
        button.clicked()
    };
    estimate(ui, view);
    if clears {
        return Some(Command::SetPieces(None));
    }
    if purpose == Purpose::Look {
        state.looked_at = end.marked.or(state.looked_at);
        return None;
    }
    end.marked.map(|pieces| Command::SetPieces(Some(pieces)))
}

fn unknown_room(plan: &Plan) -> String {
    match &plan.section {
        Err(error) => format!("the section {error}"),
        Ok(_) => "the size of the nucleus was not stated".to_owned(),
    }
}

fn estimate(ui: &mut Ui, view: &CaseView<'_>) {
    small(
        ui,
        format!(
            "Divided as sectors × rings × layers. Room between the endothelium and the longest piece on \
             end: turning about its middle in the pupil plane, or standing wholly in front of it. An \
             estimate from this eye's numbers: no published distance against cell loss was found, and the \
             clearance of {} asked by CL-01 is a house value [assumption]. Real pieces are neither equal \
             nor so clean",
            view.limits.clearance
        ),
    );
}
