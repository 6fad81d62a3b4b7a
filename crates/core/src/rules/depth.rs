//! A chamber depth against a limit, judged with the spread of the measurement.

use crate::biometry::DepthStart;
use crate::certainty::{self, ErrorSource, NoSpread, Origin, Spread};
use crate::limits::Limits;
use crate::quantity::{Micrometers, Millimeters, math};

use super::verdict::not_evaluated;
use super::{Certainty, Facts, Finding, Verdict};

/// A finding if the depth of the operated eye, counted from `start`, is under `limit`: clear,
/// borderline, or as measured where no spread is known.
pub(super) fn depth_at_least(facts: &Facts<'_>, start: DepthStart, limit: Micrometers) -> Verdict {
    let judged = depth_from(facts, start).and_then(|depth| {
        let spread = spread_from(facts, start)?;
        let under = under(depth, spread, limit, facts.limits)?;
        Ok((depth, spread, under))
    });
    let (depth, spread, certainty) = match judged {
        Ok((depth, spread, Some(certainty))) => (depth, spread, certainty),
        Ok((_, _, None)) => return Verdict::Satisfied,
        Err(verdict) => return verdict,
    };
    let mut detail = Vec::new();
    if matches!(certainty, Certainty::Borderline { .. }) {
        detail.push("consider repeating the measurement".to_owned());
    }
    detail.push(spread_text(facts, start, spread));
    detail.extend(aqueous_beside(facts, start));
    let finding = Finding::new(
        format!("{depth} {start}"),
        format!("at least {limit} {start}"),
    );
    Finding {
        certainty,
        ..finding.with_detail(detail.join("; "))
    }
    .into()
}

/// Chance that the true depth from the epithelium lies under `limit`, if it is too near to tell.
pub(super) fn borderline_chance(facts: &Facts<'_>, limit: Micrometers) -> Option<f64> {
    let start = DepthStart::Epithelium;
    let depth = depth_from(facts, start).ok()?;
    let spread = spread_from(facts, start).ok()?;
    match under(depth, spread, limit, facts.limits).ok()?? {
        Certainty::Borderline { chance } => Some(chance),
        Certainty::Clear { .. } | Certainty::AsMeasured => None,
    }
}

/// The depth of the operated eye from a surface, or the verdict that says what is missing for it.
pub(super) fn depth_from(facts: &Facts<'_>, start: DepthStart) -> Result<Micrometers, Verdict> {
    let eye = facts.operated.0;
    if eye.chamber_depth.is_none() {
        return Err(not_evaluated("anterior chamber depth"));
    }
    let (depth, missing) = match start {
        DepthStart::Epithelium => (
            eye.depth_from_epithelium(),
            "corneal thickness, without which the depth from the epithelium is not known",
        ),
        DepthStart::Endothelium => (
            eye.aqueous_depth(),
            "corneal thickness, without which the depth from the endothelium is not known",
        ),
    };
    depth.ok_or(not_evaluated(missing))
}

/// The aqueous depth as a text, unless it is the depth that is being shown anyway.
pub(super) fn aqueous_beside(facts: &Facts<'_>, start: DepthStart) -> Option<String> {
    if start == DepthStart::Endothelium {
        return None;
    }
    let aqueous = facts.operated.0.aqueous_depth()?;
    Some(format!("aqueous depth {aqueous}"))
}

/// One standard deviation of that depth; nothing if it is not known for the method.
fn spread_from(facts: &Facts<'_>, start: DepthStart) -> Result<Option<Spread>, Verdict> {
    let unusable = not_evaluated("usable spread of the anterior chamber depth");
    match certainty::depth_from(start, facts.operated.0, facts.limits) {
        Some(Ok(spread)) if 0.0 < spread.deviation => Ok(Some(spread)),
        Some(Err(NoSpread::Method { .. })) | None => Ok(None),
        Some(Err(NoSpread::Negative {
            what: ErrorSource::CornealThickness,
        })) => Err(not_evaluated("usable spread of the corneal thickness")),
        // Below zero, or a table that a clinic set to zero.
        Some(Ok(_) | Err(_)) => Err(unusable),
    }
}

/// How surely a depth is under a limit; nothing if it passes. Without a spread the limit itself
/// passes.
fn under(
    depth: Micrometers,
    spread: Option<Spread>,
    limit: Micrometers,
    limits: &Limits,
) -> Result<Option<Certainty>, Verdict> {
    let Some(spread) = spread else {
        return Ok((depth < limit).then_some(Certainty::AsMeasured));
    };
    let percent = limits.borderline_chance;
    if !(0..50).contains(&percent) {
        return Err(not_evaluated(
            "usable limit for the chance of a borderline depth",
        ));
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

fn spread_text(facts: &Facts<'_>, start: DepthStart, spread: Option<Spread>) -> String {
    let Some(Spread { deviation, origin }) = spread else {
        return "the spread of this measurement is not known, so whether it is borderline cannot be judged".to_owned();
    };
    let deviation = Millimeters::new(deviation);
    let shown = deviation
        .nearest_micrometer()
        .map_or_else(|| deviation.to_string(), |spread| spread.to_string());
    let instead = match origin {
        Origin::InsteadOfZero { .. } => ", the table's, since the measurement gives zero",
        _ => "",
    };
    let what = match &facts.operated.0.chamber_depth {
        Some(depth) if depth.value.start != start => "depth and corneal thickness together",
        _ => "the depth",
    };
    format!("1 SD of {what} {shown}{instead}")
}
