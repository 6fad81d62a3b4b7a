//! The line at the foot: what is stored, what is not taken, and the way to settings and keys.

use egui::{Align, Layout, RichText, Ui};
use millrace_core::rules::Severity;

use crate::message::Message;
use crate::session::{SaveState, Session};
use crate::theme::Palette;
use crate::whereabouts::{Front, Side};
use crate::widgets::waiting::Waiting;
use crate::widgets::{minor_button, severity_color, severity_shape, small};

/// What the line is shown.
#[derive(Clone, Copy)]
pub struct StatusView<'a> {
    /// The open case.
    pub session: Option<&'a Session>,
    /// What stands in its fields and is not taken.
    pub waiting: &'a [Waiting],
    /// Who is at the desk; empty until it was said.
    pub author: &'a str,
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
            stored(ui, &session.save_state(), &mut messages);
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
                    "Your name is not set"
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
    let mut ways = vec![
        ("Settings", Message::Turn(Front::Settings)),
        ("Keys (F1)", Message::ShowShortcuts),
    ];
    if view.session.is_some() {
        ways.push(("Second look…", Message::Turn(Front::SecondLook)));
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
    let names: Vec<_> = view.waiting.iter().map(|it| it.what.as_str()).collect();
    let is_short = view.narrow.is_none() && names.len() <= 2;
    let text = if is_short {
        format!("Not taken: {}", names.join(", "))
    } else {
        format!("{} not taken", names.len())
    };
    let reasons: Vec<_> = view
        .waiting
        .iter()
        .map(|it| format!("{}: {}", it.what, it.why))
        .collect();
    let color = Palette::current(ui).stop;
    ui.label(RichText::new(text).color(color))
        .on_hover_text(reasons.join("\n"));
    if view.waiting.iter().any(|it| it.field.is_some()) {
        let button = minor_button(ui, "Give back");
        let button = button.on_hover_text("The fields show again what is recorded");
        if button.clicked() {
            messages.push(Message::GiveBack);
        }
        button.accessible_name("Give back what is recorded");
    }
}

fn beside_the_page(ui: &mut Ui, session: &Session, shown: Side, messages: &mut Vec<Message>) {
    for (side, name) in [(Side::List, "Theatre list"), (Side::Findings, "Findings")] {
        let words = if shown == side {
            "Back to the page"
        } else {
            name
        };
        if minor_button(ui, words).clicked() {
            messages.push(Message::ShowSide(side));
        }
    }
    counts(ui, session);
    for (word, is_possible, message) in [
        ("Undo", session.undoes().is_some(), Message::Undo),
        ("Redo", session.redoes().is_some(), Message::Redo),
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
        let words = match severity {
            Severity::Review => format!("{severity} findings without a reason: {count}"),
            _ => format!("{severity} findings: {count}"),
        };
        let color = severity_color(Palette::current(ui), severity);
        let label = ui.label(RichText::new(count.to_string()).strong().color(color));
        label.on_hover_text(&words).accessible_name(words);
    }
}

fn stored(ui: &mut Ui, state: &SaveState, messages: &mut Vec<Message>) {
    match state {
        SaveState::Saved => {
            small(ui, "Saved");
        }
        SaveState::Saving | SaveState::Unsaved => {
            small(ui, "Saving…");
        }
        SaveState::Failed(why) => {
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(format!("Not saved: {why}")).color(color));
            if minor_button(ui, "Try again").clicked() {
                messages.push(Message::Save);
            }
        }
        SaveState::Conflict => {
            let words = "Not saved: changed elsewhere; choose on the page how to go on";
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(words).color(color));
        }
    }
}
