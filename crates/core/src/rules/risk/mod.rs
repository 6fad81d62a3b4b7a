//! How likely are complications?

pub mod ag_01;
pub mod gp_01;
pub mod muhtaseb_points;
pub mod odds_ratios;
pub mod rk_01;
pub mod rk_02;

pub use crate::finding::{Band, BorderlineDepth, OddsFactor, RiskItem};
pub use muhtaseb_points::{RiskPoints, risk_points};
pub use odds_ratios::{BASE_RATE_PERCENT, OddsRatio, odds_ratios};
