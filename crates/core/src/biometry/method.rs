//! How something was measured.

/// A way of measuring an eye.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// Optical biometry (partial coherence or swept source).
    Optical,
    ImmersionUltrasound,
    ContactUltrasound,
    /// Keratometer, manual or automated.
    Keratometer,
    Topographer,
    Tomographer,
    SpecularMicroscope,
    Pachymeter,
    /// Slit lamp, caliper or ruler.
    Manual,
}

/// What a method means for an axial length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthMethod {
    Optical,
    /// Sound through a water bath.
    Immersion,
    /// Sound with the probe on the cornea.
    Contact,
}

impl Method {
    pub const ALL: [Self; 9] = [
        Self::Optical,
        Self::ImmersionUltrasound,
        Self::ContactUltrasound,
        Self::Keratometer,
        Self::Topographer,
        Self::Tomographer,
        Self::SpecularMicroscope,
        Self::Pachymeter,
        Self::Manual,
    ];

    /// What it means for an axial length, or nothing if it measures none.
    pub const fn for_axial_length(self) -> Option<LengthMethod> {
        match self {
            Self::Optical => Some(LengthMethod::Optical),
            Self::ImmersionUltrasound => Some(LengthMethod::Immersion),
            Self::ContactUltrasound => Some(LengthMethod::Contact),
            _ => None,
        }
    }
}
