//! Published risk points and odds ratios.

use millrace_core::rules::risk::{BorderlineDepth, OddsFactor, OddsRatio, RiskItem, RiskPoints};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct RiskPart {
    total: i32,
    /// If everything that was not recorded were present.
    at_most: i32,
    given: Vec<(RiskItem, i32)>,
    not_recorded: Vec<RiskItem>,
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
    factor: OddsFactor,
    ratio: f64,
    applies: Option<bool>,
    limit_not_printed: bool,
}

impl RiskPart {
    pub(super) fn of(risk: &RiskPoints) -> Self {
        Self {
            total: risk.total(),
            at_most: risk.at_most(),
            given: risk
                .given
                .iter()
                .map(|item| (*item, item.points()))
                .collect(),
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
    pub(super) fn of(ratio: OddsRatio) -> Self {
        Self {
            factor: ratio.factor,
            ratio: ratio.factor.ratio(),
            applies: ratio.applies,
            limit_not_printed: ratio.limit_not_printed,
        }
    }
}
