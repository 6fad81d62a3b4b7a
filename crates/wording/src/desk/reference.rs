//! The texts of reference in front of a page.

pub use crate::desk::keys::close;

messages! {
    about_formula(formula) = "About {formula}…";
    about_certainty = "How sure: the whole model…";
    item(text) = "•  {text}";
}
