//! Risk points and odds ratios.

use millrace_core::biometry::Sign;
use millrace_core::rules::risk::{Band, BorderlineDepth, OddsFactor, OddsRatio, RiskItem};

use crate::Words;
use crate::number::percent;

messages! {
    with_points(item, points) = "{item} {points}";
    does_apply = "applies";
    does_not_apply = "does not apply";
    limit_not_printed = "not applied: the age limit is not printed";
    not_recorded = "not recorded";
    point_given(depth, limit, chance) = "borderline: anterior chamber depth {depth}, its point given as measured, chance that the true depth lies under {limit} {chance}";
    point_not_given(depth, limit, chance) = "borderline: anterior chamber depth {depth}, its point not given as measured, chance that the true depth lies under {limit} {chance}";
}

shown! { RiskItem, words {
    SmallPupil = "small pupil";
    ShallowChamber = "shallow anterior chamber";
    HighAge = "high age";
    HighAmetropia = "high ametropia";
    DenseCataract = "dense, total, white or brunescent cataract";
} else {
    Self::PreviousVitrectomy => Sign::PreviousVitrectomy.show(words),
    Self::CornealScarring => Sign::CornealScarring.show(words),
    Self::CapsulePlaque => Sign::CapsulePlaque.show(words),
    Self::PosteriorPolar => Sign::PosteriorPolar.show(words),
    Self::OtherDifficulty => Sign::OtherDifficulty.show(words),
    Self::Pseudoexfoliation => Sign::Pseudoexfoliation.show(words),
    Self::Phacodonesis => Sign::Phacodonesis.show(words),
}}

shown! { OddsFactor, words {
    Trainee = "less experienced trainee";
    WeakZonules = "pseudoexfoliation or phacodonesis";
    YoungerMale = "younger male";
    DenseCataract = "brunescent, white or mature cataract";
}}

shown! { Band, words {
    None = "0";
    OneToTwo = "1 to 2";
    ThreeToFive = "3 to 5";
    SixOrMore = "6 or more";
}}

/// Items, each with its points.
pub fn risk_items(words: Words, items: &[RiskItem]) -> String {
    words.list(items.iter().map(|it| with_points(words, it, it.points())))
}

/// Whether a printed odds ratio applies.
pub fn applies(words: Words, ratio: OddsRatio) -> &'static str {
    match ratio.applies {
        Some(true) => does_apply(words),
        Some(false) => does_not_apply(words),
        None if ratio.limit_not_printed => limit_not_printed(words),
        None => not_recorded(words),
    }
}

/// A chamber depth too near to the limit of its risk point.
pub fn borderline_depth(words: Words, near: BorderlineDepth) -> String {
    let chance = percent(words, near.chance);
    if near.is_given() {
        point_given(words, near.depth, near.limit, chance)
    } else {
        point_not_given(words, near.depth, near.limit, chance)
    }
}
