//! One eye of one patient, from the first measurement to the finished draft.
//!
//! A [`Draft`] holds everything that was entered; a [`Command`] is one change a person makes; one
//! function, [`update`], applies it. Nothing else changes a draft.

mod command;
mod draft;
mod import;
mod judged_nucleus;
mod lenses;
mod list_number;
mod reason;
pub mod second_look;
mod set_aside;
mod special;
mod state;
mod theatre;
mod update;
mod usual;

pub use crate::choice::{Approach, Critical, SecondEyeChoice, Sex, SurgeonGrade, UltrasoundChoice};
pub use crate::plain_text::{self, TextRefused};
pub use command::{Command, EyeChange};
pub use draft::{ApproachPlan, Draft, LensPlan, Operation, Patient};
pub use import::{Import, NotAHash, Origin, Sha256, Taken};
pub use judged_nucleus::JudgedNucleus;
pub use lenses::{ChosenLens, Lenses, Slot};
pub use list_number::{ListNumber, NotAListNumber};
pub use reason::RecordedReason;
pub use second_look::{Looked, Pair, SecondLook};
pub use set_aside::SetAside;
pub use special::Special;
pub use state::{NoSuchState, State};
pub use theatre::{Anesthesia, TheatreEntry, TheatrePlan, TheatreRefused, Told};
pub use update::{CommandRefused, update};
pub(crate) use update::{check_counts, check_measurements};
pub use usual::UsualPlan;
