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

impl ToricCaution {
    /// What it is, in a sentence without a full stop.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::IrregularityNotRecorded => {
                "whether the cornea is irregular was not recorded: computed as regular"
            }
            Self::CornealSurgeryNotRecorded => {
                "whether the cornea had refractive surgery was not recorded: computed as untouched"
            }
            Self::MeridiansNotExact => {
                "measured meridians are not exactly at right angles: the steep one is taken midway"
            }
            Self::PosteriorLeftOut => {
                "posterior cornea not measured and left out: with the rule less astigmatism is to be \
                 expected, against the rule more"
            }
            Self::PosteriorLeftOutByChoice => "posterior cornea left out by choice",
            Self::PosteriorEstimated => "posterior cornea estimated from the front, not measured",
            Self::IncisionPublished => {
                "incision: published mean of 2.8 mm temporal incisions [printed], applied as \
                 flattening of its own meridian [assumption]; the surgeon's own figures are not \
                 recorded"
            }
            Self::IncisionElsewhere => "incision not temporal, where the effect was published",
        }
    }
}
