//! State of the eye: what was found, what was looked for and not found, what nobody recorded.

use millrace_core::biometry::{ContactLensKind, Sign};
use millrace_core::case::Special;

messages! {
    silicone_oil = "silicone oil";
    corneal_surgery = "corneal refractive surgery";
    alpha_blocker = "alpha-blocker now or before";
    anticoagulant = "anticoagulant or antiplatelet drug";
    diabetes = "diabetes";
    contact_lenses = "contact lenses";

    found(signs) = "Found: {signs}.";
    not_found(signs) = "Not found: {signs}.";
    not_recorded(signs) = "Not recorded: {signs}.";
    refraction(refraction) = "Refraction today {refraction}.";
    refraction_with_equivalent(refraction, equivalent) = "Refraction today {refraction}; spherical equivalent {equivalent}.";
}

shown! { Sign, words {
    OnlyEye = "only seeing eye";
    DenseCataract = "dense or total cataract";
    WhiteCataract = "white cataract";
    Intumescent = "white, swollen lens";
    Brunescent = "brunescent cataract";
    PosteriorPolar = "posterior polar cataract";
    CapsulePlaque = "posterior capsule plaque";
    Pseudoexfoliation = "pseudoexfoliation";
    Phacodonesis = "phacodonesis";
    Guttata = "guttata";
    CornealScarring = "corneal scarring";
    IrregularCornea = "irregular cornea";
    Keratoconus = "keratoconus or other ectasia";
    UnstableSurface = "dry or unstable surface";
    KeratoplastyLikely = "corneal graft likely";
    PreviousVitrectomy = "previous vitrectomy";
    IntravitrealInjections = "intravitreal injections";
    MacularDisease = "macular disease";
    Glaucoma = "glaucoma";
    Uveitis = "uveitis now or before";
    Amblyopia = "amblyopia";
    IrisDefect = "iris defect or adhesion";
    NarrowAngle = "narrow chamber angle";
    OtherDifficulty = "other difficulty";
}}

shown! { ContactLensKind, words {
    Soft = "soft contact lenses";
    Hard = "hard contact lenses";
}}

shown! { Special, words {
    PolarOpacity(diameter) = "posterior polar opacity of {diameter}";
    LensDecentration(off) = "lens center {off} off the axis";
} else {
    Self::Sign(sign) => sign.show(words),
    Self::SiliconeOil => silicone_oil(words).into(),
    Self::CornealSurgery(kind) => kind.show(words),
    Self::AlphaBlocker => alpha_blocker(words).into(),
    Self::Anticoagulant => anticoagulant(words).into(),
    Self::Diabetes => diabetes(words).into(),
    Self::ContactLenses(kind) => kind.show(words),
}}
