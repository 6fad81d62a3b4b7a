//! On each page of a signed case: that it is signed, and the way to change it all the same.

use egui::Ui;
use millrace_core::rules::Severity;
use millrace_wording::desk::frame as say;

use crate::message::Message;
use crate::signed::{Lock, Signed};
use crate::widgets::notice;
use crate::words::in_use;

/// Shows the band, where there is anything to say.
pub fn show(ui: &mut Ui, signed: Signed, lock: Lock) -> Option<Message> {
    if !signed.is_locked(lock) {
        return None;
    }
    let words = in_use(ui);
    let sheet = match signed {
        Signed::As(sheet) => Some(sheet),
        _ => None,
    };
    let (severity, text) = match (lock, sheet) {
        (Lock::Asked, Some(sheet)) => (Severity::Review, say::change_means(words, sheet)),
        (Lock::Asked, None) => (
            Severity::Review,
            say::change_means_unknown(words).to_owned(),
        ),
        (_, Some(sheet)) => (Severity::Note, say::signed_and_locked(words, sheet)),
        (_, None) => (Severity::Stop, say::unknown_and_locked(words).to_owned()),
    };
    let ways: &[(&str, Lock)] = if lock == Lock::Asked {
        &[
            (say::change_now(words), Lock::Lifted),
            (say::leave_signed(words), Lock::Closed),
        ]
    } else {
        &[(say::change_plan(words), Lock::Asked)]
    };
    let mut chosen = None;
    notice(ui, severity, |ui| {
        ui.label(text);
        ui.horizontal_wrapped(|ui| {
            for (word, next) in ways {
                if ui.button(*word).clicked() {
                    chosen = Some(Message::Hold(*next));
                }
            }
        });
    });
    chosen
}
