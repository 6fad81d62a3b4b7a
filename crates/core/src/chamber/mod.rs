//! Room in the anterior chamber: its section, the nucleus, and the pieces it is divided into.
//!
//! An estimate, labeled so. The model, its assumptions and its formulae stand on one page,
//! `docs/chamber-model.md`.

mod division;
pub mod drawing;
mod nucleus;
mod room;
mod section;

pub use division::{DIVISIONS, Division};
pub use nucleus::{Nucleus, NucleusError, SOURCE as NUCLEUS_SOURCE};
pub use room::{OFF_AXIS, PieceRoom, room_for};
pub use section::{ChamberSection, LENS_DIAMETER, POSTERIOR_SOURCE, SectionError};
