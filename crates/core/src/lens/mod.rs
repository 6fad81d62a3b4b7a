//! Lens records: what is known of a lens that can be ordered, and how each number was come by.

mod clinic_result;
mod other_record;
mod record;
mod toric;

pub use clinic_result::ClinicResult;
pub use other_record::OtherRecord;
pub use record::{
    BiometryKind, Constant, Haptic, LensRecord, LensSite, Material, Obtained, Place,
    RecordConstants, RecordRefused,
};
pub use toric::{PowerLabel, ToricChoice, ToricSteps, ToricStepsError};
