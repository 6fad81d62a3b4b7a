//! How likely are complications?

pub mod muhtaseb_points;
pub mod odds_ratios;
pub mod rk_01;
pub mod rk_02;

pub use muhtaseb_points::{Band, BorderlineDepth, RiskItem, RiskPoints, risk_points};
pub use odds_ratios::{BASE_RATE_PERCENT, OddsFactor, OddsRatio, odds_ratios};
