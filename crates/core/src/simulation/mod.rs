//! Invented eyes planned like real ones: does the stated range hold what it promises?

mod coverage;
mod population;

pub use coverage::{
    BAND_EDGES, Counts, FormulaReport, MOST_EYES, Report, SIMULATED_LENS, Simulation,
    SimulationError, constants, simulate,
};
pub use population::{CORRELATIONS, MARGINS, Margin, Population, PopulationError, TrueEye};
