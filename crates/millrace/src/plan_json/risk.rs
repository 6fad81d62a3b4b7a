//! Published risk points and odds ratios.

use millrace_core::rules::risk::{BorderlineDepth, OddsRatio, RiskPoints};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct RiskPart {
    total: u32,
    /// If everything that was not recorded were present.
    at_most: u32,
    given: Vec<(&'static str, u32)>,
    not_recorded: Vec<&'static str>,
    borderline_depth: Option<DepthPart>,
}

/// A chamber depth too near to its limit to tell; its point stays as measured.
#[derive(Serialize)]
struct DepthPart {
    depth_mm: f64,
    limit_mm: f64,
    point_given: bool,
    chance_under_limit: f64,
}

#[derive(Serialize)]
pub(super) struct OddsPart {
    factor: &'static str,
    ratio: f64,
    applies: Option<bool>,
    note: Option<&'static str>,
}

impl RiskPart {
    pub(super) fn of(risk: &RiskPoints) -> Self {
        Self {
            total: risk.total(),
            at_most: risk.at_most(),
            given: risk.given.clone(),
            not_recorded: risk.unknown.clone(),
            borderline_depth: risk.borderline_depth.map(DepthPart::of),
        }
    }
}

impl DepthPart {
    fn of(near: BorderlineDepth) -> Self {
        Self {
            depth_mm: near.depth.millimeters().mm(),
            limit_mm: near.limit.millimeters().mm(),
            point_given: near.is_given(),
            chance_under_limit: near.chance,
        }
    }
}

impl OddsPart {
    pub(super) fn of(ratio: &OddsRatio) -> Self {
        Self {
            factor: ratio.factor,
            ratio: ratio.ratio,
            applies: ratio.applies,
            note: ratio.note,
        }
    }
}
