//! Risk points and odds ratios.

use super::{list, percent};
use crate::rules::risk::{BorderlineDepth, OddsFactor, OddsRatio, RiskItem};

/// What gives points.
#[must_use]
pub const fn risk_item(item: RiskItem) -> &'static str {
    match item {
        RiskItem::PreviousVitrectomy => "previous vitrectomy",
        RiskItem::CornealScarring => "corneal scarring",
        RiskItem::SmallPupil => "small pupil",
        RiskItem::ShallowChamber => "shallow anterior chamber",
        RiskItem::HighAge => "high age",
        RiskItem::HighAmetropia => "high ametropia",
        RiskItem::CapsulePlaque => "posterior capsule plaque",
        RiskItem::PosteriorPolar => "posterior polar cataract",
        RiskItem::OtherDifficulty => "other difficulty",
        RiskItem::DenseCataract => "dense, total, white or brunescent cataract",
        RiskItem::Pseudoexfoliation => "pseudoexfoliation",
        RiskItem::Phacodonesis => "phacodonesis",
    }
}

/// Items, each with its points.
#[must_use]
pub fn risk_items(items: &[RiskItem]) -> String {
    list(
        items,
        |it| format!("{} {}", risk_item(*it), it.points()),
        ", ",
    )
}

/// Items without their points.
#[must_use]
pub fn risk_item_names(items: &[RiskItem]) -> String {
    list(items, |it| risk_item(*it).to_owned(), ", ")
}

/// Whether a printed odds ratio applies.
#[must_use]
pub const fn applies(ratio: OddsRatio) -> &'static str {
    match ratio.applies {
        Some(true) => "applies",
        Some(false) => "does not apply",
        None if ratio.limit_not_printed => "not applied: the age limit is not printed",
        None => "not recorded",
    }
}

/// What raises the odds of a rupture.
#[must_use]
pub const fn odds_factor(factor: OddsFactor) -> &'static str {
    match factor {
        OddsFactor::Trainee => "trainee of less experience",
        OddsFactor::WeakZonules => "pseudoexfoliation or phacodonesis",
        OddsFactor::YoungerMale => "younger male",
        OddsFactor::DenseCataract => "brunescent, white or mature cataract",
    }
}

/// A chamber depth too near to the limit of its risk point, without a full stop.
#[must_use]
pub fn borderline_depth(near: BorderlineDepth) -> String {
    let given = if near.is_given() {
        "given"
    } else {
        "not given"
    };
    format!(
        "borderline: anterior chamber depth {}, its point {given} as measured, chance that the \
         true depth lies under {} {}",
        near.depth,
        near.limit,
        percent(near.chance)
    )
}
