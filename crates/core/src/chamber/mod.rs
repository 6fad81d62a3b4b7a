//! How near pieces and whole nucleus come to the endothelium: the section of the chamber, the nucleus,
//! the pieces it is divided into and where they are worked on.
//!
//! An estimate of geometry at rest, labeled so. The model, its assumptions and its formulae stand on
//! one page, `docs/chamber-model.md`.

mod division;
pub mod drawing;
mod margin_range;
mod nearness;
mod nucleus;
mod piece;
mod place;
mod proximity;
mod section;
mod turning;
mod whole;

pub use division::{DIVISIONS, Division};
pub use margin_range::{EIGHTY_PERCENT, InputSpread, Slopes};
pub use nearness::Nearness;
pub use nucleus::{Nucleus, NucleusError, NucleusSize, SOURCE as NUCLEUS_SOURCE};
pub use piece::{Piece, Spheroid};
pub use place::{Space, WorkingPlane};
pub use proximity::{
    DivisionProximity, OFF_AXIS, Passage, PlaneProximity, Proximity, UNMEASURED_LENS,
    WholeProximity, Worked,
};
pub use section::{ChamberSection, LENS_DIAMETER, POSTERIOR_SOURCE, SectionError};
pub use turning::Under;
pub use whole::Delivery;
