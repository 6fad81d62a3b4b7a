//! The chamber to scale, the nucleus in it, and how near its pieces come.

use egui::{RichText, Ui};
use millrace_core::case::{Approach, Command};
use millrace_core::chamber::{
    ChamberSection, DivisionProximity, LENS_DIAMETER, PlaneProximity, Proximity, WorkingPlane,
};
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;
use millrace_wording::desk::approach as say;
use millrace_wording::text::proximity as estimate;
use millrace_wording::{Show as _, Words};

use super::pieces_table::{PiecesTable, Purpose};
use super::texts::unparted;
use super::{ApproachState, CaseView, WIDE, nucleus, passage, working};
use crate::figures::chamber_section::{ChamberFigure, Shown};
use crate::figures::margin_chart::MarginChart;
use crate::theme::{measures, strong_style};
use crate::widgets::{column, notice, section, small};
use crate::words::in_use;

/// Widest table: wider, and the eye loses the row.
const TABLE_WIDTH: f32 = 780.0;

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
                caption(ui, view, state, CAPTION_BESIDE);
            });
        });
    } else {
        picture(ui, view, state);
        caption(ui, view, state, CAPTION);
        ui.add_space(measures::NEAR);
        commands.extend(nucleus::show(ui, view, &mut state.nucleus));
    }
    commands.extend(working::show(ui, view));
    commands.extend(pieces(ui, view, state));
    commands.extend(passage::show(ui, view));
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

/// The plane whose numbers are shown: the chosen one, else that of the pupil.
fn shown_plane(view: &CaseView<'_>) -> WorkingPlane {
    let chosen = view.draft.approach.working_plane;
    chosen.unwrap_or(WorkingPlane::Pupil)
}

fn proximity<'a>(view: &CaseView<'a>) -> Option<&'a Proximity> {
    view.plan.ok()?.proximity()
}

fn shown_piece<'a>(
    view: &CaseView<'a>,
    state: &ApproachState,
) -> Option<(&'a PlaneProximity, &'a DivisionProximity)> {
    let at = proximity(view)?.at(shown_plane(view))?;
    Some((at, at.of_pieces(shown_pieces(view, state)?)?))
}

/// A piece where one is chosen or looked at; else the whole nucleus of small-incision surgery.
fn shown<'a>(view: &CaseView<'a>, state: &ApproachState) -> Option<Shown<'a>> {
    if let Some((at, near)) = shown_piece(view, state) {
        return Some(Shown::Piece {
            plane: at.plane,
            middle: at.middle,
            near,
        });
    }
    let proximity = proximity(view)?;
    let is_whole = view.draft.approach.approach == Some(Approach::SmallIncision);
    is_whole.then_some(Shown::Whole {
        proximity: &proximity.whole,
        deepening: proximity.deepening,
    })
}

fn picture(ui: &mut Ui, view: &CaseView<'_>, state: &ApproachState) {
    let words = in_use(ui);
    let section = match view.plan.map(|plan| plan.section.as_ref()) {
        Ok(Ok(section)) => section,
        Ok(Err(error)) => return no_picture(ui, &error.show(words)),
        Err(_) => return no_picture(ui, say::choose_eye(words)),
    };
    let figure = figure(view, state, section);
    let height = figure.height_for(ui.available_width());
    figure.show(ui, height);
}

fn figure<'a>(
    view: &CaseView<'a>,
    state: &ApproachState,
    section: &'a ChamberSection,
) -> ChamberFigure<'a> {
    ChamberFigure {
        section,
        nucleus: view.draft.approach.nucleus,
        shown: shown(view, state),
        limit: (view.limits.chamber_depth, view.limits.chamber_depth_start),
    }
}

fn no_picture(ui: &mut Ui, why: &str) {
    notice(ui, Severity::Note, |ui| {
        ui.label(say::no_picture(in_use(ui), why));
    });
}

/// What the picture shows, in words, and what it could not show.
/// Room for the longest caption: one that grew under the pointer would move the row it speaks of.
const CAPTION: f32 = 132.0;
/// The same beside the picture, in a narrower column.
const CAPTION_BESIDE: f32 = 168.0;

fn caption(ui: &mut Ui, view: &CaseView<'_>, state: &ApproachState, height: f32) {
    let Ok(Ok(section)) = view.plan.map(|plan| plan.section.as_ref()) else {
        return;
    };
    let words = in_use(ui);
    let text = unparted(&piece_in_words(words, view, state));
    let text = RichText::new(text).text_style(strong_style());
    ui.scope(|ui| {
        ui.set_min_height(height);
        ui.label(text);
        if let Some((_, near)) = shown_piece(view, state) {
            small(ui, unparted(&estimate::directions(words, near)));
        }
        let drawn = figure(view, state, section);
        small(ui, unparted(&drawn_from(words, &drawn)));
    });
}

fn piece_in_words(words: Words, view: &CaseView<'_>, state: &ApproachState) -> String {
    let is_whole = view.draft.approach.approach == Some(Approach::SmallIncision);
    let Some((at, near)) = shown_piece(view, state) else {
        let whole = proximity(view).map(|proximity| &proximity.whole);
        return match (is_whole, whole) {
            (false, _) => say::none_chosen_no_piece(words).to_owned(),
            (true, Some(whole)) if whole.lift_on_pupil.is_none() => {
                say::whole_unknown_pupil(words).to_owned()
            }
            (true, _) => say::whole_no_piece(words).to_owned(),
        };
    };
    let count = near.division.pieces();
    let is_chosen = view.draft.approach.divided_into() == Some(count);
    let (pieces, margin) = (
        estimate::pieces(words, count),
        estimate::margin(words, near),
    );
    if is_chosen {
        say::piece_chosen(words, pieces, at.plane, margin)
    } else {
        say::piece_looked_at(words, pieces, at.plane, margin)
    }
}

fn drawn_from(words: Words, drawn: &ChamberFigure<'_>) -> String {
    let section = drawn.section;
    let mut parts = vec![if section.back_radius_measured {
        say::back_measured(words, section.back_radius)
    } else {
        say::back_assumed(words, section.back_radius)
    }];
    if let Some(nucleus) = drawn.nucleus {
        parts.push(say::nucleus_volume(
            words,
            words.fixed(nucleus.volume_mm3(), 0),
        ));
    }
    if drawn.has_cuts() {
        parts.push(say::cuts_drawn(words).to_owned());
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
        (false, Some(pieces)) => say::are_chosen(words, estimate::pieces(words, pieces)),
    });
    let plane = shown_plane(view);
    small(
        ui,
        match plan.working_plane {
            Some(plane) => say::table_at(words, plane),
            None => say::table_at_no_plane(words, plane),
        },
    );
    let unknown = match view.plan {
        Ok(plan) => unknown_margin(words, plan),
        Err(_) => say::choose_eye(words).to_owned(),
    };
    let end = ui
        .scope(|ui| {
            ui.set_max_width(TABLE_WIDTH.min(ui.available_width()));
            PiecesTable {
                id: view.ground.with("pieces"),
                near: proximity(view).and_then(|proximity| proximity.at(plane)),
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
    curve(ui, view);
    basis(ui, view);
    if clears {
        return Some(Command::SetPieces(None));
    }
    if purpose == Purpose::Look {
        state.looked_at = end.marked.or(state.looked_at);
        return None;
    }
    end.marked.map(|pieces| Command::SetPieces(Some(pieces)))
}

fn unknown_margin(words: Words, plan: &Plan) -> String {
    match (&plan.section, plan.proximity()) {
        (Err(error), _) => error.show(words).into_owned(),
        (Ok(_), None) => say::size_not_stated(words).to_owned(),
        (Ok(_), Some(_)) => say::no_such_plane(words).to_owned(),
    }
}

/// Pieces against margin, a line for each plane.
fn curve(ui: &mut Ui, view: &CaseView<'_>) {
    let Some(proximity) = proximity(view) else {
        return;
    };
    let plan = &view.draft.approach;
    ui.add_space(measures::NEAR);
    let width = TABLE_WIDTH.min(ui.available_width());
    ui.scope(|ui| {
        ui.set_max_width(width);
        MarginChart {
            planes: &proximity.planes,
            chosen: plan.working_plane.zip(plan.divided_into()),
        }
        .show(ui, view.ground.with("margin chart"));
    });
}

fn basis(ui: &mut Ui, view: &CaseView<'_>) {
    let words = in_use(ui);
    if let Some(proximity) = proximity(view) {
        small(ui, unparted(&estimate::rests_on(words, proximity)));
    }
    small(ui, unparted(estimate::legend(words)));
}
