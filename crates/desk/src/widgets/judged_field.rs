//! A field whose text is judged elsewhere: the number of a limit, of a lens constant.

use egui::{Align2, Id, Ui};

use super::line_edit::{self, Line, Named};
use super::number_field::{Commit, Fielded};
use crate::settings::Decimals;

/// A field that shows `text`, right-aligned as numbers are, and takes what `judge` does not refuse.
pub fn judged_field(
    ui: &mut Ui,
    (id, named): (Id, Named<'_>),
    (text, about): (&str, &str),
    width: f32,
    judge: &dyn Fn(&str) -> Result<(), String>,
) -> Fielded<String> {
    let decimals = Decimals::current(ui);
    let line = Line {
        id,
        named,
        shown: decimals.write(text),
        align: Align2::RIGHT_CENTER,
        width,
        about: decimals.write(about),
        hint: "",
    };
    let end = line_edit::show(ui, &line, judge);
    Fielded {
        commit: end.finished.map(|text| {
            if text.is_empty() {
                Commit::Cleared
            } else {
                Commit::Entered(text)
            }
        }),
        problem: end.problem,
    }
}
