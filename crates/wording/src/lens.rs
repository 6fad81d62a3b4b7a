//! What is known of a lens.

use std::borrow::Cow;

use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{
    BiometryKind, Constant, Haptic, LensSite, Material, Obtained, RecordConstants,
};

use crate::{Show, Words};

messages! {
    capsular_bag = "capsular bag";
    anterior_chamber = "anterior chamber";

    hydrophobic_acrylic = "hydrophobic acrylic";
    hydrophilic_acrylic = "hydrophilic acrylic";
    silicone = "silicone";
    pmma = "PMMA";

    one_piece = "one-piece";
    three_piece = "three-piece";
    plate = "plate";

    optical_biometry = "optical biometry";
    ultrasound = "ultrasound";

    given_by_maker = "given by the maker";
    optimized_on(eyes) = "optimized on {eyes} eyes";
    converted_from_a = "converted from the A constant, not optimized";

    a_constant(value, obtained) = "A {value} ({obtained})";
    pacd(value, obtained) = "pACD {value} mm ({obtained})";
    surgeon_factor(value, obtained) = "surgeon factor {value} mm ({obtained})";
    haigis(a0, a1, a2, obtained) = "Haigis a0 {a0} mm, a1 {a1}, a2 {a2} ({obtained})";

    first_myopic = "first myopic";
    first_hyperopic = "first hyperopic";
    nearest = "nearest";
}

impl Show for LensSite {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Bag => capsular_bag(words),
            Self::AnteriorChamber => anterior_chamber(words),
        }
        .into()
    }
}

impl Show for Material {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::HydrophobicAcrylic => hydrophobic_acrylic(words),
            Self::HydrophilicAcrylic => hydrophilic_acrylic(words),
            Self::Silicone => silicone(words),
            Self::Pmma => pmma(words),
        }
        .into()
    }
}

impl Show for Haptic {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::OnePiece => one_piece(words),
            Self::ThreePiece => three_piece(words),
            Self::Plate => plate(words),
        }
        .into()
    }
}

impl Show for BiometryKind {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Optical => optical_biometry(words),
            Self::Ultrasound => ultrasound(words),
        }
        .into()
    }
}

impl Show for Obtained {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Given => given_by_maker(words).into(),
            Self::Optimized { eyes } => optimized_on(words, eyes).into(),
            Self::ConvertedFromA => converted_from_a(words).into(),
        }
    }
}

impl Show for Convention {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::FirstMyopic => first_myopic(words),
            Self::FirstHyperopic => first_hyperopic(words),
            Self::Nearest => nearest(words),
        }
        .into()
    }
}

impl Show for RecordConstants {
    /// Each with its origin.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let digits = |value: f64| words.number(&value.to_string()).into_owned();
        let parts = [
            one(self.a_constant, |it, by| {
                a_constant(words, digits(it.value()), by)
            }),
            one(self.personalized_acd, |it, by| {
                pacd(words, digits(it.value()), by)
            }),
            one(self.surgeon_factor, |it, by| {
                surgeon_factor(words, digits(it.value()), by)
            }),
            one(self.haigis, |it, by| {
                let [a0, a1, a2] = [it.a0_mm(), it.a1(), it.a2()].map(digits);
                haigis(words, a0, a1, a2, by)
            }),
        ];
        let said: Vec<_> = parts.into_iter().flatten().collect();
        said.join("; ").into()
    }
}

fn one<T>(constant: Option<Constant<T>>, say: impl Fn(T, Obtained) -> String) -> Option<String> {
    constant.map(|constant| say(constant.value, constant.obtained))
}
