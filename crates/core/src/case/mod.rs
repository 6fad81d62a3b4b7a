//! One eye of one patient, from the first measurement to the finished draft.
//!
//! A [`Draft`] holds everything that was entered; a [`Command`] is one change a person makes; one
//! function, [`update`], applies it. Nothing else changes a draft.

mod command;
mod draft;
pub mod plain_text;
mod reason;
pub mod second_look;
mod state;
mod theatre;
mod update;

pub use crate::choice::{Approach, Critical, SecondEyeChoice, Sex, SurgeonGrade, UltrasoundChoice};
pub use command::{Command, EyeChange, Measurement};
pub use draft::{ApproachPlan, Draft, LensPlan, Operation, Patient, Reserve};
pub use plain_text::HiddenCharacter;
pub use reason::RecordedReason;
pub use second_look::{Looked, Pair, SecondLook};
pub use state::{NoSuchState, State};
pub use theatre::{Anesthesia, TheatreEntry, TheatrePlan, TheatreRefused, Told};
pub(crate) use update::check_sites;
pub use update::{CommandRefused, update};
