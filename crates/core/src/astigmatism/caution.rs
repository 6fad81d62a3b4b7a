//! What is dubious about a toric answer.

/// Something the user must know of beside a toric answer.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum ToricCaution {
    IrregularityNotRecorded,
    CornealSurgeryNotRecorded,
    /// The measured meridians are not exactly at right angles.
    MeridiansNotExact,
    /// The posterior cornea was not measured, and nothing was chosen in its place.
    PosteriorLeftOut,
    PosteriorLeftOutByChoice,
    PosteriorEstimated,
    /// The incision's effect is a published mean.
    IncisionPublished,
    /// The incision's effect was published for a temporal incision; this one lies elsewhere.
    IncisionElsewhere,
    /// The scatter observed of the incision's effect is no more than two keratometries make, so that
    /// none is counted beside the eye's own keratometry.
    IncisionScatterInKeratometry,
}
