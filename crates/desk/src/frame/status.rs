//! The line at the foot: what is stored, what is not taken, and the way to settings and keys.

use egui::{Align, Layout, RichText, Ui};
use millrace_core::rules::Severity;
use millrace_wording::desk::{findings, frame as say, list};

use crate::exchange::Keeps;
use crate::message::Message;
use crate::session::{SaveState, Session};
use crate::theme::Palette;
use crate::whereabouts::{Front, Side};
use crate::widgets::waiting::Waiting;
use crate::widgets::{minor_button, severity_color, severity_shape, small};
use crate::words::in_use;

/// What the line is shown.
#[derive(Clone, Copy)]
pub struct StatusView<'a> {
    pub session: Option<&'a Session>,
    /// What stands in its fields and is not taken.
    pub waiting: &'a [Waiting],
    /// Whether something is being typed that is not in the case yet.
    pub is_typing: bool,
    /// Who is at the desk; empty until it was said.
    pub author: &'a str,
    pub keeps: Keeps,
    /// What is shown, where there is no room beside the page.
    pub narrow: Option<Side>,
}

/// Shows the line. Where there is no room beside the page, it also leads to list, findings and undo, and
/// goes on in another line where it has to.
pub fn show(ui: &mut Ui, view: &StatusView<'_>) -> Vec<Message> {
    let mut messages = Vec::new();
    let line = |ui: &mut Ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        if let Some(session) = view.session {
            stored(ui, view, session, &mut messages);
            not_taken(ui, view, &mut messages);
            if let Some(shown) = view.narrow {
                beside_the_page(ui, session, shown, &mut messages);
            }
        }
        if view.narrow.is_some() {
            return leads(ui, view, &mut messages);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            leads(ui, view, &mut messages);
            let name = view.author;
            small(
                ui,
                if name.is_empty() {
                    say::no_author(in_use(ui))
                } else {
                    name
                },
            );
        });
    };
    if view.narrow.is_some() {
        ui.horizontal_wrapped(line);
    } else {
        ui.horizontal(line);
    }
    messages
}

/// The ways to what stands in front of the pages, the last one outermost.
fn leads(ui: &mut Ui, view: &StatusView<'_>, messages: &mut Vec<Message>) {
    let words = in_use(ui);
    let mut ways = vec![
        (say::settings(words), Message::Turn(Front::Settings)),
        (say::keys(words), Message::ShowShortcuts),
    ];
    if view.session.is_some() {
        ways.push((say::second_look(words), Message::Turn(Front::SecondLook)));
    }
    if view.narrow.is_some() {
        ways.reverse();
    }
    for (word, message) in ways {
        if minor_button(ui, word).clicked() {
            messages.push(message);
        }
    }
}

/// Entries that only their fields know of: what is stored does not hold them.
fn not_taken(ui: &mut Ui, view: &StatusView<'_>, messages: &mut Vec<Message>) {
    if view.waiting.is_empty() {
        return;
    }
    let words = in_use(ui);
    let names: Vec<_> = view.waiting.iter().map(|it| it.what.as_str()).collect();
    let is_short = view.narrow.is_none() && names.len() <= 2;
    let text = if is_short {
        say::not_taken(words, names.join(", "))
    } else {
        say::count_not_taken(words, names.len())
    };
    let reasons: Vec<_> = view
        .waiting
        .iter()
        .map(|it| say::what_and_why(words, &it.what, &it.why))
        .collect();
    let color = Palette::current(ui).stop;
    ui.label(RichText::new(text).color(color))
        .on_hover_text(reasons.join("\n"));
    if view.waiting.iter().any(|it| it.field.is_some()) {
        let button = minor_button(ui, say::give_back(words));
        let button = button.on_hover_text(say::give_back_tip(words));
        if button.clicked() {
            messages.push(Message::GiveBack);
        }
        button.accessible_name(say::give_back_what(words));
    }
}

fn beside_the_page(ui: &mut Ui, session: &Session, shown: Side, messages: &mut Vec<Message>) {
    let words = in_use(ui);
    for (side, name) in [
        (Side::List, list::title(words)),
        (Side::Findings, findings::title(words)),
    ] {
        let text = if shown == side {
            say::back_to_page(words)
        } else {
            name
        };
        if minor_button(ui, text).clicked() {
            messages.push(Message::ShowSide(side));
        }
    }
    counts(ui, session);
    for (word, is_possible, message) in [
        (say::undo(words), session.undoes().is_some(), Message::Undo),
        (say::redo(words), session.redoes().is_some(), Message::Redo),
    ] {
        let button = ui.add_enabled_ui(is_possible, |ui| minor_button(ui, word));
        if button.inner.clicked() {
            messages.push(message);
        }
    }
}

/// How many findings wait behind the button, where their panel is out of sight.
fn counts(ui: &mut Ui, session: &Session) {
    let Ok(plan) = session.plan() else {
        return;
    };
    let words = in_use(ui);
    for severity in [Severity::Stop, Severity::Review] {
        let found = plan.findings(severity);
        let count = match severity {
            Severity::Review => found.filter(|finding| finding.is_open()).count(),
            _ => found.count(),
        };
        if count == 0 {
            continue;
        }
        severity_shape(ui, severity);
        let text = match severity {
            Severity::Review => say::open_findings(words, severity, count),
            _ => say::findings_of(words, severity, count),
        };
        let color = severity_color(Palette::current(ui), severity);
        let label = ui.label(RichText::new(count.to_string()).strong().color(color));
        label.on_hover_text(&text).accessible_name(text);
    }
}

/// What of the case is on the drive. What is being typed is not; what is not accepted is not either, and is
/// told beside it.
fn stored(ui: &mut Ui, view: &StatusView<'_>, session: &Session, messages: &mut Vec<Message>) {
    let words = in_use(ui);
    match session.save_state() {
        SaveState::Saved if view.keeps == Keeps::Nothing => {
            small(ui, say::not_kept(words));
        }
        SaveState::Saved if view.is_typing => {
            small(ui, say::saving(words));
        }
        SaveState::Saved => {
            let is_whole = view.waiting.is_empty();
            let at = session.saved_at();
            small(
                ui,
                match (at, is_whole) {
                    (Some(at), true) => say::saved_at(words, at),
                    (None, true) => say::saved(words).to_owned(),
                    (Some(at), false) => say::rest_saved_at(words, at),
                    (None, false) => say::rest_saved(words).to_owned(),
                },
            );
        }
        SaveState::Saving | SaveState::Unsaved => {
            small(ui, say::saving(words));
        }
        SaveState::Failed(why) => {
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(say::not_saved(words, why)).color(color));
            if minor_button(ui, say::try_again(words)).clicked() {
                messages.push(Message::Save);
            }
        }
        SaveState::Conflict => {
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(say::not_saved_conflict(words)).color(color));
        }
    }
}
