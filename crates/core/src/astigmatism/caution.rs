//! What is dubious about a toric answer.

/// Something the user must know of beside a toric answer.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum ToricCaution {
    /// Nobody recorded whether the cornea is irregular.
    IrregularityNotRecorded,
    /// Nobody recorded whether the cornea had refractive surgery.
    CornealSurgeryNotRecorded,
    /// The measured meridians are not exactly at right angles.
    MeridiansNotExact,
    /// The posterior cornea was not measured, and nothing was chosen in its place.
    PosteriorLeftOut,
    /// The posterior cornea was left out by choice.
    PosteriorLeftOutByChoice,
    /// The posterior cornea was estimated from the front.
    PosteriorEstimated,
    /// The incision's effect is a published mean.
    IncisionPublished,
    /// The incision's effect was published for a temporal incision; this one lies elsewhere.
    IncisionElsewhere,
}
