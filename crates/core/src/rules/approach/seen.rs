//! `VX-01`, `IV-01`, `CP-01`, `CS-01`, `OE-01`, `WC-02`: a recorded sign that changes the operation.

use crate::evidence::{MUHTASEB_2004, NO_SOURCE, Source, Standing};
use crate::rules::seen::seen;

/// One of the published risk points.
const RISK_POINT: Source = Standing::Printed.of(MUHTASEB_2004, "table 1: one risk point");

seen!(
    VITRECTOMY,
    Approach,
    PreviousVitrectomy,
    "VX-01",
    "The vitreous was removed before",
    "Whether an earlier vitrectomy was recorded.",
    "Without vitreous behind it the lens moves with the pressure of the chamber, zonules and posterior capsule may be damaged, and a dropped nucleus sinks to the retina. The refraction is harder to predict.",
    "Consider a low bottle, a watertight incision, support of the capsule, and a second surgeon within reach for a dropped nucleus; the report of the vitrectomy may be asked for, and what it says of the lens and of oil or gas.",
    &[
        Standing::CommonPractice.of(NO_SOURCE, "precautions after vitrectomy"),
        RISK_POINT,
    ]
);
seen!(
    INJECTIONS,
    Approach,
    IntravitrealInjections,
    "IV-01",
    "Injections into the vitreous before",
    "Whether injections into the vitreous were recorded, at whatever time.",
    "A needle may have touched the lens: an open posterior capsule can show only when fluid lifts the nucleus. What the injections were for also limits what the operation can give.",
    "Consider looking for a track or a localized opacity at the slit lamp, hydrodelineation instead of hydrodissection where there is one, and a vitrector and a lens for the sulcus at hand; the operation may be timed with the injections.",
    &[Standing::CommonPractice.of(NO_SOURCE, "precautions after injections into the vitreous")]
);
seen!(
    PLAQUE,
    Approach,
    CapsulePlaque,
    "CP-01",
    "Plaque on the posterior capsule",
    "Whether a plaque on the posterior capsule was recorded.",
    "A plaque stays when the lens is out: vision is not clear before the capsule is opened, and scraping at it can open it in a torn way. It is one of the published risk points.",
    "Consider leaving it for a laser later, or opening the capsule in a planned way; the patient may be told that a second step may follow.",
    &[
        Standing::CommonPractice.of(NO_SOURCE, "plaque: laser later or a planned opening"),
        RISK_POINT,
    ]
);
seen!(
    SCAR,
    Approach,
    CornealScarring,
    "CS-01",
    "Corneal scars cloud the view",
    "Whether scars that cloud the view of the cornea were recorded.",
    "Capsulorhexis and nucleus are seen badly through a scar, keratometry over one may be wrong, and it limits what the operation can give. It is one of the published risk points.",
    "Consider staining the capsule, light from the side, and a place of the incision away from the scar; a corneal map may show whether keratometry can be used, and a corneal opinion may come first.",
    &[
        Standing::CommonPractice.of(NO_SOURCE, "what helps under a scarred cornea"),
        RISK_POINT,
    ]
);

seen!(
    ONLY_EYE,
    Approach,
    OnlyEye,
    "OE-01",
    "The only eye that sees",
    "Whether this was recorded as the only eye that sees.",
    "A complication costs the patient all sight, and there is no fellow eye to compare the result with. Nothing of the operation is otherwise.",
    "Consider who operates and who stands by, anesthesia without a sharp needle, a target the patient can do without spectacles at first, and telling the patient of the risk in these words; the reason to operate now may be recorded.",
    &[Standing::CommonPractice.of(NO_SOURCE, "precautions in an only eye")]
);
seen!(
    INTUMESCENT,
    Approach,
    Intumescent,
    "WC-02",
    "White, swollen lens: the capsule is tense",
    "Whether a white, swollen (intumescent) lens was recorded.",
    "Pressure in the lens can tear the anterior capsule outward at the first cut, into the zonules and around. There is no red reflex to see by.",
    "Consider staining the capsule, much dense viscoelastic, letting liquid cortex out by a needle first, a small capsulorhexis that is widened later, and lowering the pressure before the operation.",
    &[Standing::CommonPractice.of(NO_SOURCE, "precautions in an intumescent lens")]
);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::Sign;
    use crate::rules::seen::assert_seen;

    #[test]
    fn seen_is_found_absent_passes_and_silence_does_not() {
        for (rule, sign) in [
            (&VITRECTOMY, Sign::PreviousVitrectomy),
            (&INJECTIONS, Sign::IntravitrealInjections),
            (&PLAQUE, Sign::CapsulePlaque),
            (&SCAR, Sign::CornealScarring),
            (&ONLY_EYE, Sign::OnlyEye),
            (&INTUMESCENT, Sign::Intumescent),
        ] {
            assert_seen(rule, sign);
        }
    }
}
