//! Lens power from biometry: every published formula builds one [`ThinLensEye`]; one calculation
//! turns it into a power or a refraction.
//!
//! One file per publication. The text beside each (`srk_t.md` beside `srk_t.rs`) is its reference:
//! rustdoc, `docs/formulas.md` and `millrace formulas` all show that one text.

pub mod after_corneal_surgery;
mod caution;
mod constants;
pub mod conversions;
mod corneal_radii;
mod eye_model;
mod formula;
pub mod haigis;
pub mod hoffer_q;
pub mod holladay_1;
mod inputs;
pub mod ladder;
pub mod mean_eye;
mod meridional_power;
mod powers;
mod refusal;
pub mod srk_t;
pub mod sulcus;
pub mod t2;
pub mod thick_lens;
pub mod thin_lens_eye;

pub use caution::{Caution, Cautions, Estimate};
pub use constants::{
    AConstant, ConstantError, FormulaConstants, HaigisConstants, PersonalizedAcd, SurgeonFactor,
};
pub use corneal_radii::CornealRadii;
pub use eye_model::EyeModel;
pub use formula::Formula;
pub use inputs::{CornealHistory, FormulaInputs};
pub use powers::{PowerRange, PowerRangeError, Powers};
pub use refusal::{MadeFor, Needed, NeededConstant, Refusal};
pub use thin_lens_eye::{AQUEOUS_INDEX, ThinLensEye};
