//! The second look: its form, and both looks side by side.

pub use crate::desk::biometry::{
    endothelium, epithelium, flat_meridian_head, flat_reading_head, in_unit_head, index,
    index_head, number, operated_eye, steep_meridian_head, steep_reading_head,
};

use std::borrow::Cow;

use millrace_core::case::Looked;

use crate::{Show, Words};

messages! {
    title = "Second look";

    // The form.
    what_to_do = "Enter the numbers from the papers. What was entered before is hidden until you compare";
    who = "Who, and whose eye";
    your_name = "Your name";
    numbers = "Numbers";
    depth_from = "Anterior chamber depth from the";
    target_head = "Target";
    may_stay_empty = "Anterior chamber depth and target may stay empty if the papers give none; a lens thickness may be left alone";
    still_missing(what) = "Still missing: {what}";
    compare = "Record and compare";
    leave = "Leave without comparing";

    name_missing = "your name";
    unit_missing = "mm or D of the keratometry";
    index_missing = "keratometric index";
    surface_missing = "surface the anterior chamber depth is measured from";

    // Both looks.
    by(name, day) = "By {name}, {day}";
    how_compared = "Compared as entered, to the last digit; no difference is too small to count. A number of the case changed later is compared anew";
    back = "Back to the case";
    again = "Look again…";
    agree = "Both looks agree";
    differ(what) = "The two looks differ: {what}";
    consider = "Consider comparing both with the printout of the instrument, correcting the number that is wrong, or looking again";
    column_case = "In the case";
    not_entered = "not entered";
    none = "none";
    differs = "differs";
    not_looked_at = "not looked at";
    same = "same";
}

impl Show for Looked {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number(number) => number.show(words),
            Self::Eye(eye) => eye.show(words),
            Self::Meridian(meridian) => meridian.show(words),
            Self::Quantity(quantity) => quantity.show(words),
        }
    }
}
