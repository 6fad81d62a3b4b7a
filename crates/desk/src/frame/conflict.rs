//! Two people, one case: nothing was overwritten, and somebody chooses.

use egui::Ui;
use millrace_core::case::Draft;
use millrace_core::rules::Severity;

use super::Action;
use crate::widgets::notice;

/// What was stored elsewhere while this draft changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The newest revision.
    pub revision: crate::exchange::Revision,
    /// What it holds.
    pub theirs: Box<Draft>,
    /// Who stored it.
    pub author: String,
}

/// Shows both sides' differences and the two ways on.
pub fn show(ui: &mut Ui, conflict: &Conflict, mine: &Draft) -> Vec<Action> {
    let mut actions = Vec::new();
    notice(ui, Severity::Review, |ui| {
        let author = &conflict.author;
        ui.label(format!(
            "This case was changed elsewhere by {author}; nothing was overwritten, and your changes are not stored yet"
        ));
        let parts = differences(mine, &conflict.theirs);
        let where_text = if parts.is_empty() {
            "Both read the same".to_owned()
        } else {
            format!("They differ in {}", parts.join(", "))
        };
        ui.label(where_text);
        ui.horizontal_wrapped(|ui| {
            if ui.button("Store mine as the newest").clicked() {
                actions.push(Action::KeepMine);
            }
            if ui.button(format!("Go on from {author}'s")).clicked() {
                actions.push(Action::TakeTheirs);
            }
        });
    });
    actions
}

/// Which parts of two drafts differ.
#[must_use]
pub fn differences(mine: &Draft, theirs: &Draft) -> Vec<&'static str> {
    [
        ("patient", mine.patient != theirs.patient),
        ("operation", mine.operation != theirs.operation),
        ("right eye", mine.eyes.right != theirs.eyes.right),
        ("left eye", mine.eyes.left != theirs.eyes.left),
        ("lens", mine.lens != theirs.lens),
        ("approach", mine.approach != theirs.approach),
        ("theatre", mine.theatre != theirs.theatre),
        ("reasons", mine.reasons != theirs.reasons),
        ("changes of eye", mine.eye_changes != theirs.eye_changes),
        ("second look", mine.second_look != theirs.second_look),
    ]
    .into_iter()
    .filter_map(|(part, differs)| differs.then_some(part))
    .collect()
}
