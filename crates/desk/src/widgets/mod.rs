//! Fields, choices and shapes of our own, and how they stand on a page.

mod caret;
mod choice;
mod decision_field;
mod field;
mod focus_keys;
mod follow_focus;
mod form_rows;
mod half_entered;
pub mod half_typed;
mod ink;
mod judged_field;
mod layout;
mod line_edit;
mod lock;
mod number_field;
pub mod quantity_kind;
pub mod reading;
mod reading_order;
mod rows;
mod shapes;
pub mod sought;
mod text_field;
pub mod value_order;
pub mod waiting;

pub use choice::{Pick, Segments};
pub use decision_field::{Decided, DecisionField};
pub use field::{Field, Named};
pub use focus_keys::{FocusKeys, act_once, keep_arrows, keep_up_and_down};
pub use follow_focus::follow_focus;
pub use form_rows::{Bare, FormRows};
pub use half_entered::{HalfEntered, Parts};
pub use ink::Ink;
pub use judged_field::JudgedField;
pub use layout::{
    aside_button, beside, cell, column, empty_boxes, heading, is_heading, low_row, minor_button,
    muted, notice, problem, ring, section, small, typed,
};
pub use line_edit::give_back;
pub(crate) use line_edit::is_being_typed;
pub use lock::{Fields, field_button, hold};
pub use number_field::{Commit, Fielded, NumberField};
pub use quantity_kind::Kind;
pub use reading_order::{reads_from_right, typed_galley, typed_text};
pub use rows::{Chosen, Many, Rows};
pub use shapes::{
    changed_shape, facing_eyes, open_ring, severity_color, severity_outline, severity_shape,
};
pub use text_field::{date_field, text_field};
