//! What the sheet is printed on.

/// A paper size, portrait.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
pub enum Paper {
    /// ISO A4, 210 mm × 297 mm.
    A4,
    /// US Letter, 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Every size.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// What the layout engine calls it.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "us-letter",
        }
    }
}
