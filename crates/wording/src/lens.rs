//! What a lens record says.

use std::borrow::Cow;

use millrace_core::case::Slot;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{
    BiometryKind, Haptic, LensSite, Material, Obtained, Place, PowerLabel, RecordConstants,
    RecordRefused,
};

use crate::{Show, Words};

messages! {
    a_constant(value, obtained) = "A {value} ({obtained})";
    personalized_acd(value, obtained) = "pACD {value} mm ({obtained})";
    surgeon_factor(value, obtained) = "surgeon factor {value} mm ({obtained})";
    backup_for_bag = "backup lens for the bag";
    backup_for_sulcus = "backup lens for the sulcus";
    anterior_chamber_iol = "anterior chamber IOL";
    result_twice(formula) = "more than one result of {formula} is recorded for the lens";
    haigis(a0, a1, a2, obtained) = "Haigis a0 {a0} mm, a1 {a1}, a2 {a2} ({obtained})";
}

shown! { Obtained, words {
    Given = "given by the maker";
    Optimized { eyes } = "optimized on {eyes} eyes";
    ConvertedFromA = "converted from the A constant, not optimized";
}}

shown! { Slot, words {
    Planned = "planned lens";
} else {
    Self::Backup(Place::Bag) => backup_for_bag(words).into(),
    Self::Backup(Place::Sulcus) => backup_for_sulcus(words).into(),
    Self::Backup(Place::AnteriorChamber) => anterior_chamber_iol(words).into(),
}}

shown! { LensSite, words {
    Bag = "capsular bag";
    AnteriorChamber = "anterior chamber";
}}

impl Show for RecordRefused {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Text(refused) => refused.show(words),
            Self::Range(range) => range.show(words),
            Self::ResultTwice(formula) => result_twice(words, formula).into(),
        }
    }
}

shown! { Material, words {
    HydrophobicAcrylic = "hydrophobic acrylic";
    HydrophilicAcrylic = "hydrophilic acrylic";
    Silicone = "silicone";
    Pmma = "PMMA";
}}

shown! { Haptic, words {
    OnePiece = "one-piece";
    ThreePiece = "three-piece";
    Plate = "plate";
}}

shown! { BiometryKind, words {
    Optical = "optical biometry";
    Ultrasound = "ultrasound";
}}

shown! { PowerLabel, words {
    SphericalEquivalent = "spherical equivalent";
    WeakestMeridian = "power of the weakest meridian";
}}

shown! { Convention, words {
    FirstMyopic = "first myopic";
    FirstHyperopic = "first hyperopic";
    Nearest = "nearest";
}}

impl Show for RecordConstants {
    /// Each with its origin.
    fn show(&self, words: Words) -> Cow<'_, str> {
        let number = |value: f64| words.number(&value.to_string()).into_owned();
        let a = self
            .a_constant
            .map(|it| a_constant(words, number(it.value.value()), it.obtained));
        let acd = self
            .personalized_acd
            .map(|it| personalized_acd(words, number(it.value.value()), it.obtained));
        let factor = self
            .surgeon_factor
            .map(|it| surgeon_factor(words, number(it.value.value()), it.obtained));
        let haigis = self.haigis.map(|it| {
            let [a0, a1, a2] = [it.value.a0_mm(), it.value.a1(), it.value.a2()].map(number);
            haigis(words, a0, a1, a2, it.obtained)
        });
        words
            .clauses([a, acd, factor, haigis].into_iter().flatten())
            .into()
    }
}
