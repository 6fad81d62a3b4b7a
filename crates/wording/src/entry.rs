//! What is wrong with something that was typed or stored: a number, a text, a day, a lens, a case.

use std::borrow::Cow;

use millrace_core::biometry::{FlatIsSteep, NucleusGradeError, RefractionError};
use millrace_core::calendar::NotADay;
use millrace_core::case::{CommandRefused, TextRefused, TheatreRefused};
use millrace_core::case_file::{CaseFileError, ContentError};
use millrace_core::chamber::NucleusError;
use millrace_core::iol_power::{PowerRange, PowerRangeError};
use millrace_core::lens::{ToricSteps, ToricStepsError};
use millrace_core::quantity::keratometric::IndexError;
use millrace_core::quantity::{
    DecimalError, MeasureError, NotADirection, NotAMeridian, OutOfRange, ParseMeridianError,
};

use crate::{Show, Words};

messages! {
    // Numbers.
    number_missing = "a number is missing";
    not_a_number(text) = "\"{text}\" is not a number";
    not_whole(text) = "\"{text}\" is not a whole number, written without point or comma";
    too_fine(text, decimals) = "\"{text}\" has more than {decimals} decimals";
    too_long(text) = "\"{text}\" has too many digits";
    of_quantity(quantity, problem) = "{quantity}: {problem}";
    out_of_range(quantity, value, least, most) = "{quantity} {value} is outside {least} to {most}";
    unit_missing(quantity, text, example) = "{quantity} \"{text}\" needs its unit: write {example}";
    index_missing(text, with_index) = "keratometry \"{text}\" is a power without its index, which can be off by {=0.8} D: write \"{with_index}\" with the index of the instrument, or the radius in mm";
    at_the_usual_index(power) = "{power} at {=1.3375}";
    of_index(problem) = "keratometric index: {problem}";
    index_out_of_range(value) = "keratometric index {value} is outside {=1.3000} to {=1.4000}";
    not_a_meridian(degrees) = "meridian {degrees}° is outside 1° to 180°; the horizontal is written 180";
    not_a_direction(degrees) = "direction {degrees}° is outside 1° to 360°; the observer's right is written 360";
    negative_direction(degrees) = "direction {degrees}° is outside 1° to 360°";
    not_a_grade(scale, value, least, most) = "{scale} grade {value} is outside {least} to {most}";
    nucleus_out_of_range(diameter, thickness) = "nucleus of {diameter} × {thickness} is outside 3 to 10 mm × {=1.5} to 7 mm";
    nucleus_not_oblate(diameter, thickness) = "nucleus of {diameter} × {thickness} is thicker than wide";
    axis_missing(cylinder) = "a cylinder of {cylinder} needs its axis";
    axis_alone = "an axis belongs to a cylinder, and there is none";
    count_out_of_range(text) = "{text} is outside 1 to 99";
    no_number_of_eyes(text) = "{text} is not a valid number of eyes";
    power = "power";
    length = "length";

    // Texts and days.
    hidden_character(what, code) = "{what} holds an invisible or a control character (U+{code})";
    text_too_long(what, length, longest) = "{what} has {length} characters; at most {longest} are kept";
    not_a_day(text, form) = "\"{text}\" is {form}";
    no_day_of_calendar(text) = "\"{text}\" is not a valid date";

    // Lenses.
    powers_backwards(from, to) = "powers from {from} to {to} run backwards";
    powers_step(from, to, step) = "powers from {from} to {to} cannot be reached in steps of {step}";
    power_out_of_range(power, least, most) = "power {power} is outside {least} to {most}";
    powers_overlap(at) = "power ranges overlap or are out of order at {at}";
    no_cylinder = "a toric lens needs at least one cylinder";
    cylinders_not_rising(cylinder) = "cylinders of a toric lens must rise: {cylinder} does not";
    cylinder_out_of_range(cylinder, least, most) = "cylinder {cylinder} of a toric lens is outside {least} to {most}";
    result_twice(formula) = "more than one result of {formula} is recorded for the lens";

    // Cases.
    eye_fixed(from, to) = "the case is planned for the {from} and has measurements: a change to the {to} needs a recorded reason";
    other_eye(from) = "the case is not planned for the {from}";
    reason_missing = "a reason is missing";
    author_missing = "the name of the person is missing";
    patient_number_missing = "the hospital number is missing";
    flat_is_steep(flat, steep) = "the flat meridian {flat} has a shorter radius than the steep one {steep}";
    nothing_taken = "an import takes at least one measurement";
    same_eye = "a change of eye leads to the other eye";
    no_such_rule(rule) = "no rule is called {rule}";
    site(slot, site) = "the {slot} is made for the {site}";
    no_such_division(pieces) = "the model divides the nucleus into 4, 6, 8, 12, 16, 24 or 32 pieces, not {pieces}";
    blank(what) = "an entry of the {what} has no words";
    none_named(what) = "{what} are marked as known and none is named; enter them, or that none is known";
    repeated_reason(rule) = "rule {rule} has more than one recorded reason";

    // Files.
    at_line(line, column, problem) = "line {line}, column {column}: {problem}";
    other_format(found, wanted) = "this is a file of format \"{found}\", not \"{wanted}\"";
    newer_version(found, newest) = "the file has version {found}; this program reads version {newest}";
    at_place(place, problem) = "{place}: {problem}";
    file_not_written(problem) = "the file cannot be written: {problem}";
    document_not_written(problem) = "the document cannot be written: {problem}";
}

impl Show for DecimalError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Empty => return number_missing(words).into(),
            Self::NotANumber { text } => not_a_number(words, text),
            Self::NotWhole { text } => not_whole(words, text),
            Self::TooFine { text, decimals } => too_fine(words, text, decimals),
            Self::TooLong { text } => too_long(words, text),
        }
        .into()
    }
}

impl Show for OutOfRange {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let quantity = words.reference(self.quantity);
        let [value, least, most] = numbers(self, words);
        out_of_range(words, quantity, value, least, most).into()
    }
}

impl Show for MeasureError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number { quantity, error } => {
                of_quantity(words, words.reference(quantity), error)
            }
            Self::Unit {
                quantity,
                text,
                example,
            } => unit_missing(
                words,
                words.reference(quantity),
                text,
                words.reference(example),
            ),
            Self::Range(error) => return error.show(words),
            Self::Index(error) => return error.show(words),
            Self::IndexMissing { text } => {
                index_missing(words, text, at_the_usual_index(words, text))
            }
        }
        .into()
    }
}

impl Show for IndexError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number(error) => of_index(words, error),
            Self::OutOfRange { value } => index_out_of_range(words, words.number(value)),
        }
        .into()
    }
}

impl Show for NotAMeridian {
    fn show(&self, words: Words) -> Cow<'_, str> {
        not_a_meridian(words, typed(self.degrees)).into()
    }
}

impl Show for ParseMeridianError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number(error) => error.show(words),
            Self::Range(error) => error.show(words),
        }
    }
}

impl Show for NotADirection {
    fn show(&self, words: Words) -> Cow<'_, str> {
        not_a_direction(words, self.degrees).into()
    }
}

impl Show for NucleusGradeError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let Self {
            scale,
            value,
            min,
            max,
        } = self;
        let number = |number| words.number(number);
        not_a_grade(words, *scale, number(value), number(min), number(max)).into()
    }
}

impl Show for NucleusError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::OutOfRange {
                diameter,
                thickness,
            } => nucleus_out_of_range(words, diameter, thickness),
            Self::NotOblate {
                diameter,
                thickness,
            } => nucleus_not_oblate(words, diameter, thickness),
        }
        .into()
    }
}

impl Show for TextRefused {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Hidden { what, code } => {
                hidden_character(words, words.reference(what), format!("{code:04X}"))
            }
            Self::TooLong {
                what,
                length,
                longest,
            } => text_too_long(words, words.reference(what), *length, *longest),
        }
        .into()
    }
}

impl Show for RefractionError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Range(error) => return error.show(words),
            Self::AxisMissing(cylinder) => axis_missing(words, cylinder),
            Self::AxisAlone => return axis_alone(words).into(),
            Self::Measure(error) => return error.show(words),
            Self::Axis(error) => return error.show(words),
            Self::Meridian(error) => return error.show(words),
        }
        .into()
    }
}

/// What is wrong with a day that was typed.
pub fn day(words: Words, text: &str, error: NotADay) -> String {
    match error {
        NotADay::Form => not_a_day(words, text, crate::stored::not_a_day(words)),
        NotADay::Calendar => no_day_of_calendar(words, text.trim()),
    }
}

impl Show for PowerRangeError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Backwards { from, to } => powers_backwards(words, from, to),
            Self::Step { from, to, step } => powers_step(words, from, to, step),
            Self::OutOfRange { power } => {
                power_out_of_range(words, power, PowerRange::WEAKEST, PowerRange::STRONGEST)
            }
            Self::Overlap { at } => powers_overlap(words, at),
        }
        .into()
    }
}

impl Show for ToricStepsError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::None => return no_cylinder(words).into(),
            Self::NotRising { cylinder } => cylinders_not_rising(words, cylinder),
            Self::OutOfRange { cylinder } => {
                cylinder_out_of_range(words, cylinder, ToricSteps::SMALLEST, ToricSteps::LARGEST)
            }
        }
        .into()
    }
}

impl Show for TheatreRefused {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Blank { what } => blank(words, words.reference(what)),
            Self::NoneNamed { what } => none_named(words, words.reference(what)),
            Self::Hidden(error) => return error.show(words),
        }
        .into()
    }
}

impl Show for FlatIsSteep {
    fn show(&self, words: Words) -> Cow<'_, str> {
        flat_is_steep(words, self.flat, self.steep).into()
    }
}

impl Show for CommandRefused {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::EyeFixed { from, to } => eye_fixed(words, from, to),
            Self::OtherEye { from } => other_eye(words, from),
            Self::ReasonMissing => return reason_missing(words).into(),
            Self::AuthorMissing => return author_missing(words).into(),
            Self::NumberMissing => return patient_number_missing(words).into(),
            Self::FlatIsSteep(error) => return error.show(words),
            Self::NothingTaken => return nothing_taken(words).into(),
            Self::SameEye => return same_eye(words).into(),
            Self::NoSuchRule { rule } => no_such_rule(words, rule),
            Self::Site { slot, site: of } => site(words, words.reference(slot), of),
            Self::Theatre(error) => return error.show(words),
            Self::Hidden(error) => return error.show(words),
            Self::NoSuchDivision { pieces } => no_such_division(words, pieces),
        }
        .into()
    }
}

impl Show for ContentError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Range(error) => error.show(words),
            Self::Measure(error) => error.show(words),
            Self::Meridian(error) => error.show(words),
            Self::Powers(error) => error.show(words),
            Self::Toric(error) => error.show(words),
            Self::Hidden(error) => error.show(words),
            Self::Command(error) => error.show(words),
            Self::RepeatedReason { rule } => repeated_reason(words, rule).into(),
            Self::ResultTwice { formula } => result_twice(words, *formula).into(),
        }
    }
}

impl Show for CaseFileError {
    /// The place in a file is named as the file names it; what a reader of files says is its own.
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Syntax(error) => {
                let at = error.span.start;
                at_line(words, at.line, at.col, error.code.to_string())
            }
            Self::Json {
                line,
                column,
                problem,
            } => at_line(words, line, column, problem),
            Self::Format { found, wanted } => other_format(words, found, *wanted),
            Self::Version { found, newest } => newer_version(words, found, newest),
            Self::Content { place, error } => at_place(words, *place, error),
            Self::Write(error) => file_not_written(words, error.to_string()),
            Self::WriteJson { problem } => document_not_written(words, problem),
        }
        .into()
    }
}

/// A whole number as somebody typed it: with the minus of the keyboard.
fn typed(number: i32) -> String {
    number.to_string()
}

/// The numbers of something out of range, each with its unit: what it is, least and most.
pub(crate) fn numbers(range: &OutOfRange, words: Words) -> [Cow<'_, str>; 3] {
    [&range.value, &range.min, &range.max].map(|number| words.number(number))
}
