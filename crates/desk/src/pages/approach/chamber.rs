//! The chamber to scale, the nucleus in it, and the room for its pieces.

use egui::{RichText, Ui};
use millrace_core::case::{Approach, Command};
use millrace_core::chamber::{ChamberSection, LENS_DIAMETER, PieceRoom};
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;
use millrace_wording::desk::approach as say;
use millrace_wording::{Show as _, Words};

use super::pieces_table::{PiecesTable, Purpose};
use super::{ApproachState, CaseView, WIDE, column, nucleus};
use crate::figures::chamber_section::ChamberFigure;
use crate::theme::{measures, strong_style};
use crate::widgets::{notice, section, small};
use crate::words::in_use;

/// Widest table: wider, and the eye loses the row.
const TABLE_WIDTH: f32 = 640.0;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut ApproachState) -> Vec<Command> {
    section(ui, say::to_scale(in_use(ui)));
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
    let words = in_use(ui);
    let section = match view.plan.map(|plan| plan.section.as_ref()) {
        Ok(Ok(section)) => section,
        Ok(Err(error)) => return no_picture(ui, &error.show(words)),
        Err(_) => return no_picture(ui, say::choose_eye(words)),
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
        ui.label(say::no_picture(in_use(ui), why));
    });
}

/// What the picture shows, in words, and what it could not show.
fn caption(ui: &mut Ui, view: &CaseView<'_>, state: &ApproachState) {
    let Ok(Ok(section)) = view.plan.map(|plan| plan.section.as_ref()) else {
        return;
    };
    let words = in_use(ui);
    let text = RichText::new(piece_in_words(words, view, state)).text_style(strong_style());
    // One line whatever it says: a row under the pointer must not move away because of its words.
    ui.label(text);
    small(ui, drawn_from(words, view, section));
}

fn piece_in_words(words: Words, view: &CaseView<'_>, state: &ApproachState) -> String {
    let is_whole = view.draft.approach.approach == Some(Approach::SmallIncision);
    let Some(room) = shown_room(view, state) else {
        return if is_whole {
            say::whole_no_piece(words).to_owned()
        } else {
            say::none_chosen_no_piece(words).to_owned()
        };
    };
    let pieces = room.division.pieces();
    let is_chosen = view.draft.approach.divided_into() == Some(pieces);
    let left = room.turning_on_axis;
    let left = if left.mm() < 0.0 {
        say::on_end_touches(words, left)
    } else {
        say::on_end_left(words, left)
    };
    let longest = room.largest_dimension;
    if is_chosen {
        say::piece_chosen(words, pieces, longest, left)
    } else {
        say::piece_looked_at(words, pieces, longest, left)
    }
}

fn drawn_from(words: Words, view: &CaseView<'_>, section: &ChamberSection) -> String {
    let mut parts = vec![if section.back_radius_measured {
        say::back_measured(words, section.back_radius)
    } else {
        say::back_assumed(words, section.back_radius)
    }];
    if let Some(nucleus) = view.draft.approach.nucleus {
        parts.push(say::nucleus_volume(
            words,
            words.fixed(nucleus.volume_mm3(), 0),
        ));
    }
    if section.pupil_diameter.is_none() {
        parts.push(say::no_iris(words).to_owned());
    }
    parts.push(match section.lens_back {
        None => say::no_lens(words).to_owned(),
        Some(_) => say::outline(words, LENS_DIAMETER),
    });
    if section.corneal_diameter.is_none() {
        parts.push(say::as_far_as_angle(words).to_owned());
    }
    parts.join(". ")
}

fn pieces(ui: &mut Ui, view: &CaseView<'_>, state: &mut ApproachState) -> Option<Command> {
    let words = in_use(ui);
    section(ui, say::room_for_pieces(words));
    let plan = &view.draft.approach;
    let is_whole = plan.approach == Some(Approach::SmallIncision);
    let (purpose, marked) = if is_whole {
        (Purpose::Look, state.looked_at)
    } else {
        (Purpose::Choose, plan.pieces)
    };
    ui.label(match (is_whole, plan.pieces) {
        (true, _) => say::delivered_whole(words).to_owned(),
        (false, None) => say::none_chosen(words).to_owned(),
        (false, Some(pieces)) => say::are_chosen(words, pieces),
    });
    let unknown = match view.plan {
        Ok(plan) => unknown_room(words, plan),
        Err(_) => say::choose_eye(words).to_owned(),
    };
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
        let button = ui.small_button(say::clear_pieces(words));
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

fn unknown_room(words: Words, plan: &Plan) -> String {
    match &plan.section {
        Err(error) => error.show(words).into_owned(),
        Ok(_) => say::size_not_stated(words).to_owned(),
    }
}

fn estimate(ui: &mut Ui, view: &CaseView<'_>) {
    let clearance = view.limits.clearance;
    small(ui, say::what_the_estimate_is(in_use(ui), clearance));
}
