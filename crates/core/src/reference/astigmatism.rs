//! The texts on astigmatism and on the second eye: their code is spread over several files, so that
//! they stand here and not beside one of them.

#[doc = include_str!("power_vectors.md")]
pub const POWER_VECTORS: &str = include_str!("power_vectors.md");

#[doc = include_str!("posterior_astigmatism.md")]
pub const POSTERIOR_ASTIGMATISM: &str = include_str!("posterior_astigmatism.md");

#[doc = include_str!("incision.md")]
pub const INCISION: &str = include_str!("incision.md");

#[doc = include_str!("toric_eye.md")]
pub const TORIC_EYE: &str = include_str!("toric_eye.md");

#[doc = include_str!("second_eye.md")]
pub const SECOND_EYE: &str = include_str!("second_eye.md");
