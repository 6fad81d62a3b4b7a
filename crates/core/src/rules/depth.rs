//! A chamber depth against a limit, judged with the spread of the measurement.

use super::{
    Certainty, Detail, Facts, Finding, Limit, Look, Missing, Place, Quantity, SpreadOf, Which,
};
use crate::biometry::DepthStart;
use crate::certainty::{self, ErrorSource, NoSpread, Origin, Spread};
use crate::limits::Limits;
use crate::quantity::{Micrometers, Millimeters, math};

/// The depth of the operated eye against a limit: one interval, and where the limit lies to it.
struct Placed {
    place: Place,
    /// Of a depth that is not over the limit.
    certainty: Certainty,
    /// What there is to say of it, in the same words on whichever side of the limit it lies.
    finding: Finding,
}

/// A finding if the depth of the operated eye, counted from `from`, is under `limit`: clear,
/// borderline, or as measured where no spread is known.
pub(super) fn depth_at_least(facts: &Facts<'_>, from: DepthStart, limit: Micrometers) -> Look {
    let Placed {
        place,
        certainty,
        finding,
    } = placed(facts, from, limit)?;
    match place {
        Place::Over => Ok(None),
        Place::Under | Place::Undecided => Finding {
            certainty,
            ..finding
        }
        .found(),
    }
}

/// The same as a finding if the depth is over the limit, by the same interval.
pub(super) fn depth_over(facts: &Facts<'_>, from: DepthStart, limit: Micrometers) -> Look {
    let Placed { place, finding, .. } = placed(facts, from, limit)?;
    Ok((place == Place::Over).then_some(finding))
}

fn placed(facts: &Facts<'_>, from: DepthStart, limit: Micrometers) -> Result<Placed, Missing> {
    let depth = depth_from(facts, from)?;
    let spread = spread_from(facts, from)?;
    let (place, certainty) = place_of(depth, spread, limit, facts.limits)?;
    let said = spread_detail(facts, from, spread).ok_or(unusable_spread())?;
    let at = |depth| Quantity::Depth { depth, from };
    let finding = Finding::new(at(depth), Limit::AtLeast(at(limit)))
        .with((place == Place::Undecided).then_some(Detail::Repeat))
        .with([said])
        .with(spread.and_then(|spread| interval(depth, spread, place, facts.limits)))
        .with(aqueous_beside(facts, from));
    Ok(Placed {
        place,
        certainty,
        finding,
    })
}

/// The interval that the limit of the chance leaves, to the nearest micrometer.
fn interval(depth: Micrometers, spread: Spread, place: Place, limits: &Limits) -> Option<Detail> {
    let percent = limits.borderline_chance;
    let reach = math::normal_quantile(1.0 - f64::from(percent) / 100.0)?;
    let reach = Millimeters::new(reach * spread.deviation).nearest_micrometer()?;
    Some(Detail::Interval {
        percent: 100 - 2 * percent,
        low: depth - reach,
        high: depth + reach,
        place,
    })
}

/// Chance that the true depth from the epithelium lies under `limit`, if it is too near to tell.
pub(super) fn borderline_chance(facts: &Facts<'_>, limit: Micrometers) -> Option<f64> {
    let from = DepthStart::Epithelium;
    let depth = depth_from(facts, from).ok()?;
    let spread = spread_from(facts, from).ok()?;
    match place_of(depth, spread, limit, facts.limits).ok()? {
        (Place::Undecided, Certainty::Borderline { chance }) => Some(chance),
        _ => None,
    }
}

/// The depth of the operated eye from a surface, or what is missing for it.
pub(super) fn depth_from(facts: &Facts<'_>, from: DepthStart) -> Result<Micrometers, Missing> {
    facts.chamber_depth()?;
    let eye = facts.operated.0;
    let depth = match from {
        DepthStart::Epithelium => eye.depth_from_epithelium(),
        DepthStart::Endothelium => eye.aqueous_depth(),
    };
    depth.ok_or(Missing::ThicknessForDepth { from })
}

/// The aqueous depth, unless it is the depth that is being shown anyway.
pub(super) fn aqueous_beside(facts: &Facts<'_>, from: DepthStart) -> Option<Detail> {
    if from == DepthStart::Endothelium {
        return None;
    }
    facts.operated.0.aqueous_depth().map(Detail::AqueousDepth)
}

const fn unusable_spread() -> Missing {
    let which = Which::ChamberDepth;
    Missing::UsableSpread { which }
}

/// One standard deviation of that depth; nothing if it is not known for the method.
fn spread_from(facts: &Facts<'_>, from: DepthStart) -> Result<Option<Spread>, Missing> {
    match certainty::depth_from(from, facts.operated.0, facts.limits) {
        Some(Ok(spread)) if spread.deviation > 0.0 => Ok(Some(spread)),
        Some(Err(NoSpread::Method { .. })) | None => Ok(None),
        Some(Err(NoSpread::Negative {
            what: ErrorSource::CornealThickness,
        })) => Err(Missing::UsableSpread {
            which: Which::CornealThickness,
        }),
        // Below zero, or a table that a clinic set to zero.
        Some(Ok(_) | Err(_)) => Err(unusable_spread()),
    }
}

/// Where a depth stands, and how surely where it is not over the limit. Without a spread the limit
/// itself passes.
fn place_of(
    depth: Micrometers,
    spread: Option<Spread>,
    limit: Micrometers,
    limits: &Limits,
) -> Result<(Place, Certainty), Missing> {
    let Some(spread) = spread else {
        let is_under = depth < limit;
        let place = if is_under { Place::Under } else { Place::Over };
        return Ok((place, Certainty::AsMeasured));
    };
    let percent = limits.borderline_chance;
    if !(0..50).contains(&percent) {
        return Err(Missing::UsableBorderlineChance);
    }
    let below_mm = (limit - depth).millimeters().mm();
    let chance = math::normal_cdf(below_mm / spread.deviation);
    let [unlikely, likely] = [percent, 100 - percent].map(|percent| f64::from(percent) / 100.0);
    Ok(if chance <= unlikely {
        (Place::Over, Certainty::AsMeasured)
    } else if likely <= chance {
        (Place::Under, Certainty::Clear { chance })
    } else {
        (Place::Undecided, Certainty::Borderline { chance })
    })
}

/// What is known of the spread; nothing if it is no length.
fn spread_detail(facts: &Facts<'_>, from: DepthStart, spread: Option<Spread>) -> Option<Detail> {
    let Some(Spread { deviation, origin }) = spread else {
        return Some(Detail::SpreadUnknown);
    };
    let of = match &facts.operated.0.chamber_depth {
        Some(depth) if depth.value.start != from => SpreadOf::DepthAndThickness,
        _ => SpreadOf::Depth,
    };
    Some(Detail::Spread {
        of,
        deviation: Millimeters::new(deviation).nearest_micrometer()?,
        instead_of_zero: matches!(origin, Origin::InsteadOfZero { .. }),
    })
}
