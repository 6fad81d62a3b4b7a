//! What is seen of an eye or is not: each sign with its name and its field of [`EyeState`], once.

use serde::{Deserialize, Serialize};

use super::EyeState;

macro_rules! signs {
    ($($(#[doc = $doc:literal])* $name:ident $field:ident;)*) => {
        /// A yes-or-no finding of one eye.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Sign {
            $($(#[doc = $doc])* $name,)*
        }

        impl Sign {
            /// All, in the order they are asked for.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// Whether it was seen; `None` while nobody recorded that.
            pub const fn of(self, state: &EyeState) -> Option<bool> {
                match self {
                    $(Self::$name => state.$field,)*
                }
            }

            /// Records that it was seen, that it was not, or nothing.
            pub const fn set(self, state: &mut EyeState, seen: Option<bool>) {
                match self {
                    $(Self::$name => state.$field = seen,)*
                }
            }
        }
    };
}

impl Sign {
    /// Those that limit what the eye will see, whatever the lens.
    pub const GUARDING: [Self; 4] = [
        Self::MacularDisease,
        Self::Glaucoma,
        Self::Uveitis,
        Self::Amblyopia,
    ];
    /// Those that only an anterior chamber IOL asks for.
    pub const OF_ANTERIOR_CHAMBER_IOL: [Self; 2] = [Self::IrisDefect, Self::NarrowAngle];
}

signs! {
    /// The other eye is blind or lost.
    OnlyEye only_eye;
    /// Dense or total cataract: no view of the fundus.
    DenseCataract dense_cataract;
    WhiteCataract white_cataract;
    /// White and swollen.
    Intumescent intumescent;
    /// Brown to black.
    Brunescent brunescent;
    PosteriorPolar posterior_polar;
    /// On the posterior capsule.
    CapsulePlaque capsule_plaque;
    Pseudoexfoliation pseudoexfoliation;
    /// The lens trembles.
    Phacodonesis phacodonesis;
    /// Corneal guttata or Fuchs dystrophy.
    Guttata guttata;
    CornealScarring corneal_scarring;
    IrregularCornea irregular_cornea;
    /// Or another ectasia.
    Keratoconus keratoconus;
    /// Dry eye, or a tear film that breaks.
    UnstableSurface unstable_surface;
    /// An endothelial graft with gas is to be expected later.
    KeratoplastyLikely keratoplasty_likely;
    PreviousVitrectomy previous_vitrectomy;
    IntravitrealInjections intravitreal_injections;
    MacularDisease macular_disease;
    Glaucoma glaucoma;
    /// Now or before.
    Uveitis uveitis;
    Amblyopia amblyopia;
    /// A defect of the iris, or its adhesion to cornea or angle: it would not carry an anterior chamber
    /// IOL.
    IrisDefect iris_defect;
    /// Narrow or closed.
    NarrowAngle narrow_angle;
    OtherDifficulty other_difficulty;
}

#[cfg(test)]
mod tests {
    use super::{EyeState, Sign};

    #[test]
    fn each_sign_is_a_field_of_its_own() {
        for &sign in Sign::ALL {
            let mut state = EyeState::default();
            sign.set(&mut state, Some(true));
            let seen: Vec<_> = Sign::ALL
                .iter()
                .filter(|other| other.of(&state).is_some())
                .collect();
            assert_eq!(seen, [&sign]);
        }
    }
}
