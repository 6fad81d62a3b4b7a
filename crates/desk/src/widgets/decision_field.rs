//! A field for the words of a decision: what is typed there decides nothing until it is done by name.
//!
//! An ordinary field takes its text when somebody leaves it. A reason that changes the eye of a case, or lets a
//! finding pass, is taken by its button alone; leaving the field leaves the words where they are, and they are
//! told at the foot like any text that is not taken.

use egui::{Align2, Button, Key, Modifiers, Ui};
use millrace_core::case::plain_text;
use millrace_wording::Show as _;
use millrace_wording::desk::widgets as say;

use super::field::Field;
use super::line_edit::{self, Ends, Line};
use super::{problem, waiting};
use crate::words::in_use;

/// The field, and what its two buttons say.
pub struct DecisionField<'a> {
    pub field: Field<'a>,
    /// What its text is called where it is refused.
    pub what: &'static str,
    pub width: f32,
    /// Decides.
    pub act: &'a str,
    /// Leaves everything as it is.
    pub keep: &'a str,
}

/// What became of it in this pass.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Decided {
    Nothing,
    /// By its button, with these words.
    By(String),
    /// Given up: the words are gone.
    Kept,
}

impl DecisionField<'_> {
    pub fn show(&self, ui: &mut Ui) -> Decided {
        let words = in_use(ui);
        let judge = |text: &str| {
            plain_text::check(self.what, text).map_err(|error| error.show(words).into_owned())
        };
        let line = Line {
            field: self.field,
            shown: String::new(),
            align: Align2::LEFT_CENTER,
            width: self.width,
            about: &String::new,
            hint: "",
            ends: Ends::ByAct,
        };
        let end = line_edit::show(ui, &line, &judge);
        if let Some(why) = &end.problem {
            problem(ui, why);
        }
        let stands = line_edit::stands(ui, self.field.id);
        let is_ready = end.problem.is_none() && stands.is_some();
        let mut decided = Decided::Nothing;
        ui.horizontal_wrapped(|ui| {
            if ui.add_enabled(is_ready, Button::new(self.act)).clicked()
                && let Some(text) = &stands
            {
                decided = Decided::By(text.clone());
            }
            if ui.button(self.keep).clicked() || self.is_given_up(ui) {
                decided = Decided::Kept;
            }
        });
        if decided != Decided::Nothing {
            line_edit::give_back(ui, self.field.id);
        } else if stands.is_some() && end.problem.is_none() && !line_edit::is_in(ui, self.field.id)
        {
            let why = say::not_decided(words, self.act);
            waiting::keep(ui, self.field.id, self.field.named.words(), Some(&why));
        }
        decided
    }

    /// Whether the Escape key left the empty field: a text that stands there is given back first.
    fn is_given_up(&self, ui: &Ui) -> bool {
        let here = self.field.id.with("had the focus");
        let is_in = line_edit::is_in(ui, self.field.id);
        let was_in = ui.data(|data| data.get_temp(here)) == Some(true);
        ui.data_mut(|data| data.insert_temp(here, is_in));
        let is_empty = line_edit::stands(ui, self.field.id).is_none();
        let escapes = was_in && !is_in && is_empty;
        escapes && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape))
    }
}
