//! Numbers with their units: exact where the world is exact, `f64` where something was computed.
//!
//! A measured length is a whole number of micrometers, a labeled power a whole number of
//! hundredths of a diopter, an axis a whole degree, so that a clinical limit never depends on how
//! a binary fraction was rounded. Computed numbers are `f64` inside a unit type.

pub(crate) mod as_diopters;
mod computed;
pub mod decimal;
mod direction;
mod exact;
pub mod keratometric;
pub mod math;
mod meridian;
mod number;
mod stored;
mod text;

pub use computed::{Diopters, Millimeters};
pub use decimal::DecimalError;
pub use direction::{Direction, NotADirection};
pub use exact::{HundredthDiopters, Micrometers, ThousandthDiopters};
pub use keratometric::KeratometricIndex;
pub use meridian::{Meridian, NotAMeridian, ParseMeridianError};
pub use number::Number;
pub(crate) use stored::{Text, TextOfMicrometers, checked_when_read, stored_as_text};
pub use text::{MeasureError, OutOfRange, number_before_unit};
