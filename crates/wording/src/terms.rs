//! Closed sets of the trade, each with its words.

use std::borrow::Cow;

use millrace_core::astigmatism::Orientation;
use millrace_core::biometry::{DepthStart, Method, Side};
use millrace_core::case::{Anesthesia, Approach, State};
use millrace_core::evidence::{Source, Standing};
use millrace_core::signing::SheetNumber;

use millrace_core::rules::Severity;

use crate::{Show, Words};

messages! {
    right_eye = "right eye";
    left_eye = "left eye";
    right_eye_head = "Right eye";
    left_eye_head = "Left eye";
    right_eye_capitals = "RIGHT EYE";
    left_eye_capitals = "LEFT EYE";

    from_epithelium = "from the epithelium";
    from_endothelium = "from the endothelium";

    optical = "optical";
    immersion_ultrasound = "immersion ultrasound";
    contact_ultrasound = "contact ultrasound";
    keratometer = "keratometer";
    topographer = "topographer";
    tomographer = "tomographer";
    specular_microscope = "specular microscope";
    pachymeter = "pachymeter";
    manual = "manual";

    phacoemulsification = "phacoemulsification";
    small_incision = "manual small-incision surgery (SICS)";

    topical = "topical";
    topical_intracameral = "topical and intracameral";
    sub_tenon = "sub-Tenon";
    peribulbar = "peribulbar";
    retrobulbar = "retrobulbar";
    general = "general";

    stop = "Stop";
    review = "Review";
    note = "Note";

    draft = "draft";
    measured = "measured";
    planned = "planned";
    signed = "signed";

    with_the_rule = "with the rule";
    against_the_rule = "against the rule";
    oblique = "oblique";

    printed = "printed";
    secondary = "secondary";
    derived = "derived";
    from_memory = "from memory";
    common_practice = "common practice";
    assumption = "assumption";

    source_with_place(work, place, standing) = "{work}, {place} [{standing}]";
    source(work, standing) = "{work} [{standing}]";
}

/// "Right eye", at the head of a line.
#[must_use]
pub fn eye_head(words: Words, side: Side) -> &'static str {
    match side {
        Side::Right => right_eye_head(words),
        Side::Left => left_eye_head(words),
    }
}

/// "RIGHT EYE", where it must not be missed.
#[must_use]
pub fn eye_capitals(words: Words, side: Side) -> &'static str {
    match side {
        Side::Right => right_eye_capitals(words),
        Side::Left => left_eye_capitals(words),
    }
}

/// A closed set whose every member has one text.
macro_rules! shown_as {
    ($($type:ident { $($variant:ident => $message:ident),* $(,)? })*) => {
        $(impl Show for $type {
            fn show(&self, words: Words) -> Cow<'_, str> {
                match self {
                    $(Self::$variant => $message(words),)*
                }
                .into()
            }
        })*
    };
}

shown_as! {
    Side { Right => right_eye, Left => left_eye }
    DepthStart { Epithelium => from_epithelium, Endothelium => from_endothelium }
    Method {
        Optical => optical,
        ImmersionUltrasound => immersion_ultrasound,
        ContactUltrasound => contact_ultrasound,
        Keratometer => keratometer,
        Topographer => topographer,
        Tomographer => tomographer,
        SpecularMicroscope => specular_microscope,
        Pachymeter => pachymeter,
        Manual => manual,
    }
    Approach { Phacoemulsification => phacoemulsification, SmallIncision => small_incision }
    Anesthesia {
        Topical => topical,
        TopicalIntracameral => topical_intracameral,
        SubTenon => sub_tenon,
        Peribulbar => peribulbar,
        Retrobulbar => retrobulbar,
        General => general,
    }
    Severity { Stop => stop, Review => review, Note => note }
    State { Draft => draft, Measured => measured, Planned => planned, Signed => signed }
    Orientation {
        WithTheRule => with_the_rule,
        AgainstTheRule => against_the_rule,
        Oblique => oblique,
    }
    Standing {
        Printed => printed,
        Secondary => secondary,
        Derived => derived,
        Memory => from_memory,
        CommonPractice => common_practice,
        Assumption => assumption,
    }
}

impl Show for SheetNumber {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

impl Show for Source {
    /// Citation, place and standing.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let work = words.reference(self.work.citation);
        match words.reference(self.locator) {
            "" => source(words, work, self.standing),
            place => source_with_place(words, work, place, self.standing),
        }
        .into()
    }
}
