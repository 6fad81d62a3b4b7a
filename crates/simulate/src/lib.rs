//! Invented eyes planned like real ones: does the stated range hold what it promises?

mod counts;
mod coverage;
mod population;
mod published;

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;

pub use counts::{BAND_EDGES, Counts, FormulaReport, Report};
pub use coverage::{MOST_EYES, SIMULATED_LENS, Simulation, SimulationError, constants, simulate};
pub use population::{CORRELATIONS, MARGINS, Margin, Population, PopulationError, TrueEye};
pub use published::ERRORS;

/// The generator of one block: seed and block mixed by the constants of `SplitMix64`.
fn generator(seed: u64, block: u32) -> Xoshiro256PlusPlus {
    let mixed = u64::from(block)
        .wrapping_add(1)
        .wrapping_mul(0x9e37_79b9_7f4a_7c15);
    Xoshiro256PlusPlus::seed_from_u64(seed ^ mixed)
}
