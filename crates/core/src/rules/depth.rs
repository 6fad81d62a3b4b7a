//! A chamber depth against a limit, judged with the spread of the measurement.

use super::{Certainty, Detail, Facts, Finding, Limit, Look, Missing, Quantity, SpreadOf, Which};
use crate::biometry::DepthStart;
use crate::certainty::{self, ErrorSource, NoSpread, Origin, Spread};
use crate::limits::Limits;
use crate::quantity::{Micrometers, Millimeters, math};

/// A finding if the depth of the operated eye, counted from `from`, is under `limit`: clear,
/// borderline, or as measured where no spread is known.
pub(super) fn depth_at_least(facts: &Facts<'_>, from: DepthStart, limit: Micrometers) -> Look {
    let depth = depth_from(facts, from)?;
    let spread = spread_from(facts, from)?;
    let Some(certainty) = under(depth, spread, limit, facts.limits)? else {
        return Ok(None);
    };
    let is_borderline = matches!(certainty, Certainty::Borderline { .. });
    let spread = spread_detail(facts, from, spread).ok_or(unusable_spread())?;
    let at = |depth| Quantity::Depth { depth, from };
    let finding = Finding::new(at(depth), Limit::AtLeast(at(limit)))
        .with(is_borderline.then_some(Detail::Repeat))
        .with([spread])
        .with(aqueous_beside(facts, from));
    Finding {
        certainty,
        ..finding
    }
    .found()
}

/// Chance that the true depth from the epithelium lies under `limit`, if it is too near to tell.
pub(super) fn borderline_chance(facts: &Facts<'_>, limit: Micrometers) -> Option<f64> {
    let from = DepthStart::Epithelium;
    let depth = depth_from(facts, from).ok()?;
    let spread = spread_from(facts, from).ok()?;
    match under(depth, spread, limit, facts.limits).ok()?? {
        Certainty::Borderline { chance } => Some(chance),
        Certainty::Clear { .. } | Certainty::AsMeasured => None,
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

/// How surely a depth is under a limit; nothing if it passes. Without a spread the limit itself
/// passes.
fn under(
    depth: Micrometers,
    spread: Option<Spread>,
    limit: Micrometers,
    limits: &Limits,
) -> Result<Option<Certainty>, Missing> {
    let Some(spread) = spread else {
        return Ok((depth < limit).then_some(Certainty::AsMeasured));
    };
    let percent = limits.borderline_chance;
    if !(0..50).contains(&percent) {
        return Err(Missing::UsableBorderlineChance);
    }
    let below_mm = (limit - depth).millimeters().mm();
    let chance = math::normal_cdf(below_mm / spread.deviation);
    let [unlikely, likely] = [percent, 100 - percent].map(|percent| f64::from(percent) / 100.0);
    Ok(if chance <= unlikely {
        None
    } else if likely <= chance {
        Some(Certainty::Clear { chance })
    } else {
        Some(Certainty::Borderline { chance })
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
