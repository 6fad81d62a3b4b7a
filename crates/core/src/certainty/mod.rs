//! How sure a prediction is, and what it rests on.
//!
//! Every measurement, the label of the lens, the place where it comes to rest and the refraction
//! measured afterwards have a spread. One model ([`Errors`]) carries an error of each through the
//! whole formula, by exact derivatives ([`Linear`]). Tests draw eyes beside it, which leaves nothing
//! out.
//!
//! `docs/uncertainty.md` states the model and its assumptions.

mod budget;
mod depth;
mod distribution;
mod dual;
mod error_source;
mod ladder_certainty;
mod linear;
mod pool;
mod population;
mod scatter;
mod spread;
mod table;
mod tendency;
#[cfg(test)]
mod testing;
mod withheld;

pub use budget::{Budget, Item};
pub use depth::{chamber_depth, depth_from};
pub use distribution::{Distribution, Level, Normal};
pub use dual::Dual;
pub use error_source::{ErrorSource, Errors, SOURCES};
pub use ladder_certainty::{Basis, ColumnCertainty, LadderCertainty, Prediction};
pub use linear::Linear;
pub use pool::Pool;
pub use population::average_eye;
pub use scatter::{Calibration, NoDistribution, Scatter, calibrate, scatter};
pub use spread::{NoSpread, Origin, Spread, Spreads, labeled_power};
pub use table::{AVERAGE, Entry, TABLE};
pub use tendency::{FLAT, LONG, SHORT, STEEP, Tendency, UnusualEye, Way};
pub use withheld::Withheld;
