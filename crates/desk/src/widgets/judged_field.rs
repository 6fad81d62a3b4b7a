//! A field whose text is judged elsewhere: the number of a limit, of a lens constant.

use egui::{Align2, Ui};

use super::field::Field;
use super::line_edit::{self, Ends, Line};
use super::number_field::Fielded;

/// A field whose text is judged elsewhere.
#[derive(Clone, Copy)]
pub struct JudgedField<'a> {
    pub field: Field<'a>,
    pub text: &'a str,
    /// What a screen reader adds to the name.
    pub about: &'a str,
    pub width: f32,
}

impl JudgedField<'_> {
    /// Shows the text, right-aligned as numbers are; takes what `judge` does not refuse.
    pub fn show(self, ui: &mut Ui, judge: &dyn Fn(&str) -> Result<(), String>) -> Fielded<String> {
        let line = Line {
            field: self.field,
            shown: self.text.to_owned(),
            align: Align2::RIGHT_CENTER,
            width: self.width,
            about: &|| self.about.to_owned(),
            hint: "",
            ends: Ends::OnLeaving,
        };
        Fielded::of_text(line_edit::show(ui, &line, judge))
    }
}
