//! `KC-01`, `DS-01`: a recorded sign that makes measurements doubtful.

use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::seen::seen;

seen!(
    KERATOCONUS,
    Believable,
    Keratoconus,
    "KC-01",
    "Keratoconus or another ectasia",
    "Whether keratoconus or another ectasia of the cornea was recorded.",
    "The steep, thin cornea has another ratio of back to front than formulas take, readings of one meridian differ, and the eye can go on changing: formulas made on ordinary eyes leave such eyes hyperopic, the more the steeper they are. How far is not printed for these formulas, so nothing is added here.",
    "Consider a corneal map and its stability over months, contact lenses left out long enough, a target more myopic than usual, no toric lens unless the cornea is regular in the middle and stable, and telling the patient that the refraction cannot be predicted as in other eyes.",
    &[Standing::CommonPractice.of(
        NO_SOURCE,
        "ectasia: hyperopic surprise, stability, myopic target",
    )]
);
seen!(
    SURFACE,
    Believable,
    UnstableSurface,
    "DS-01",
    "Dry or unstable surface",
    "Whether a dry or unstable surface of the eye was recorded.",
    "Keratometry reads the tear film: where it breaks, K and its axis change between readings, and with them power and axis of the lens.",
    "Consider treating the surface first and repeating keratometry, by another method too; a spread of repeated readings tells whether it has settled.",
    &[Standing::CommonPractice.of(NO_SOURCE, "the surface is treated before biometry",)]
);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::Sign;
    use crate::rules::seen::assert_seen;

    #[test]
    fn seen_is_found_absent_passes_and_silence_does_not() {
        assert_seen(&KERATOCONUS, Sign::Keratoconus);
        assert_seen(&SURFACE, Sign::UnstableSurface);
    }
}
