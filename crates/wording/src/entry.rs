//! What is wrong with something that was typed or stored: a number, a text, a day, a lens, a case.

use std::borrow::Cow;

use millrace_core::biometry::{FlatIsSteep, NucleusGradeError, RefractionError};
use millrace_core::calendar::NotADay;
use millrace_core::case::{ApproachPlan, CommandRefused, TextRefused, TheatreRefused};
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
    not_a_number(text) = "\"{text}\" is not a number";
    out_of_range(quantity, value, least, most) = "{quantity} {value} is outside {least} to {most}";
    index_missing(text, with_index) = "keratometry \"{text}\" is a power without its index, which can be off by {=0.8} D: write \"{with_index}\" with the index of the instrument, or the radius in mm";
    at_the_usual_index(power) = "{power} at {=1.3375}";
    not_a_meridian(degrees) = "meridian {degrees}° is outside 1° to 180°; the horizontal is written 180";
    not_a_direction(degrees) = "direction {degrees}° is outside 1° to 360°; the observer's right is written 360";
    negative_direction(degrees) = "direction {degrees}° is outside 1° to 360°";
    not_a_grade(scale, value, least, most) = "{scale} grade {value} is outside {least} to {most}";
    count_out_of_range(text) = "{text} is outside 1 to 99";
    no_number_of_eyes(text) = "{text} is not a valid number of eyes";
    power = "power";
    length = "length";

    // Texts and days.
    hidden_character(what, code) = "{what} holds an invisible or a control character (U+{code})";
    script_not_carried(what, script, code) = "{what} has {script} letters (U+{code}), for which this program has no typeface: no sheet could be printed; write it in another script, such as that of the passport";
    letter_not_carried(what, code) = "{what} has the character U+{code}, which no typeface of this program has: no sheet could be printed; write it another way";
    no_typed_day(text) = "\"{text}\" is not a valid date; write it with a year of four digits, such as 3 Dec 2026 or 2026-12-03";
    two_days(text, day_first, month_first) = "\"{text}\" can be {day_first} or {month_first}; which?";
    no_day_of_calendar(text) = "\"{text}\" is not a valid date";

    // Lenses.
    power_out_of_range(power, least, most) = "power {power} is outside {least} to {most}";
    cylinder_out_of_range(cylinder, least, most) = "cylinder {cylinder} of a toric lens is outside {least} to {most}";

    // Cases.
    eye_fixed(from, to) = "the case is planned for the {from} and has measurements: a change to the {to} needs a recorded reason";
    other_eye(from) = "the case is not planned for the {from}";
    reason_missing = "a reason is missing";
    number_without_day = "a place in the order of the day needs a day";
    is_set_aside = "the case is set aside; nothing of it changes until it is brought back";
    not_set_aside = "the case is not set aside";
    author_missing = "the name of the person is missing";
    patient_number_missing = "the hospital number is missing";
    flat_is_steep(flat, steep) = "the flat meridian {flat} has a shorter radius than the steep one {steep}";
    nothing_taken = "an import takes at least one measurement";
    same_eye = "a change of eye leads to the other eye";
    no_such_rule(rule) = "no rule is called {rule}";
    site(slot, site) = "the {slot} is made for the {site} and may not sit elsewhere";
    two_lenses(slot) = "there is more than one {slot}";
    no_lens(slot) = "no {slot} is chosen";
    no_such_division(pieces) = "the model divides the nucleus into 4, 6, 8, 12, 16, 24 or 32 pieces, not {pieces}";
    deepening_out_of_range(deepening, least, most) = "deepening {deepening} is outside {least} to {most}";
    no_such_lips(lips) = "the tunnel's lips cannot be {lips} long";
    repeated_reason(rule) = "rule {rule} has more than one recorded reason";

    // Files.
    at_line(line, column, problem) = "line {line}, column {column}: {problem}";
    other_format(found, wanted) = "this is a file of format \"{found}\", not \"{wanted}\"";
    newer_version(found, newest) = "the file has version {found}; this program reads version {newest}";
    at_place(place, problem) = "{place}: {problem}";
    file_not_written(problem) = "the file cannot be written: {problem}";
    document_not_written(problem) = "the document cannot be written: {problem}";
}

shown! { DecimalError, words {
    Empty = "a number is missing";
    NotWhole { text } = "\"{text}\" is not a whole number, written without point or comma";
    TooFine { text, decimals } = "\"{text}\" has more than {decimals} decimals";
    TooLong { text } = "\"{text}\" has too many digits";
} else {
    Self::NotANumber { text } => not_a_number(words, text).into(),
}}

impl Show for OutOfRange {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let quantity = words.reference(self.quantity);
        let [value, least, most] = numbers(self, words);
        out_of_range(words, quantity, value, least, most).into()
    }
}

shown! { MeasureError, words {
    Number { quantity: words.reference(quantity), error } = "{quantity}: {error}";
    Unit { quantity: words.reference(quantity), text, example: words.reference(example) } = "{quantity} \"{text}\" needs its unit: write {example}";
} else {
    Self::Range(error) => error.show(words),
    Self::Index(error) => error.show(words),
    Self::IndexMissing { text } => index_missing(words, text, at_the_usual_index(words, text)).into(),
}}

shown! { IndexError, words {
    Number(problem) = "keratometric index: {problem}";
    OutOfRange { value: words.number(value) } = "keratometric index {value} is outside {=1.3000} to {=1.4000}";
}}

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

shown! { NucleusError, words {
    OutOfRange { diameter, thickness } = "nucleus of {diameter} × {thickness} is outside 3 to 10 mm × {=1.5} to 7 mm";
    NotOblate { diameter, thickness } = "nucleus of {diameter} × {thickness} is thicker than wide";
}}

shown! { TextRefused, words {
    TooLong { what: words.reference(what), length, longest } = "{what} has {length} characters; at most {longest} are kept";
    TooMany { what: words.reference(what), count, most } = "{what}: there are {count}; at most {most} are kept";
} else {
    Self::Hidden { what, code } => hidden_character(words, words.reference(what), format!("{code:04X}")).into(),
    Self::ScriptNotCarried { what, script, code } => {
        let script = script.replace('_', " ");
        script_not_carried(words, words.reference(what), script, format!("{code:04X}")).into()
    }
    Self::LetterNotCarried { what, code } => {
        letter_not_carried(words, words.reference(what), format!("{code:04X}")).into()
    }
}}

shown! { RefractionError, words {
    AxisMissing(cylinder) = "a cylinder of {cylinder} needs its axis";
    AxisAlone = "an axis belongs to a cylinder, and there is none";
} else {
    Self::Range(error) => error.show(words),
    Self::Measure(error) => error.show(words),
    Self::Axis(error) => error.show(words),
    Self::Meridian(error) => error.show(words),
}}

/// What is wrong with a day that was typed.
pub fn day(words: Words, text: &str, error: NotADay) -> String {
    match error {
        NotADay::Form => no_typed_day(words, text.trim()),
        NotADay::Calendar => no_day_of_calendar(words, text.trim()),
    }
}

shown! { PowerRangeError, words {
    Backwards { from, to } = "powers from {from} to {to} run backwards";
    Step { from, to, step } = "powers from {from} to {to} cannot be reached in steps of {step}";
    Overlap { at } = "power ranges overlap or are out of order at {at}";
} else {
    Self::OutOfRange { power } => power_out_of_range(words, power, PowerRange::WEAKEST, PowerRange::STRONGEST).into(),
}}

shown! { ToricStepsError, words {
    None = "a toric lens needs at least one cylinder";
    NotRising { cylinder } = "cylinders of a toric lens must rise: {cylinder} does not";
} else {
    Self::OutOfRange { cylinder } => cylinder_out_of_range(words, cylinder, ToricSteps::SMALLEST, ToricSteps::LARGEST).into(),
}}

shown! { TheatreRefused, words {
    Blank { what: words.reference(what) } = "an entry of the {what} has no words";
    NoneNamed { what: words.reference(what) } = "{what} are marked as known and none is named; enter them, or that none is known";
} else {
    Self::Hidden(error) => error.show(words),
}}

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
            Self::NumberWithoutDay => return number_without_day(words).into(),
            Self::IsSetAside => return is_set_aside(words).into(),
            Self::NotSetAside => return not_set_aside(words).into(),
            Self::FlatIsSteep(error) => return error.show(words),
            Self::NothingTaken => return nothing_taken(words).into(),
            Self::SameEye => return same_eye(words).into(),
            Self::NoSuchRule { rule } => no_such_rule(words, rule),
            Self::Site { slot, site: of } => site(words, slot, of),
            Self::TwoLenses { slot } => two_lenses(words, slot),
            Self::NoLens { slot } => no_lens(words, slot),
            Self::Theatre(error) => return error.show(words),
            Self::Hidden(error) => return error.show(words),
            Self::NoSuchDivision { pieces } => no_such_division(words, pieces),
            Self::Deepening { deepening } => {
                let [least, most] = ApproachPlan::DEEPENING;
                deepening_out_of_range(words, deepening, least, most)
            }
            Self::TunnelLips { lips } => no_such_lips(words, lips),
        }
        .into()
    }
}

impl Show for ContentError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Command(error) => error.show(words),
            Self::RepeatedReason { rule } => repeated_reason(words, rule).into(),
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
