//! `VX-01`, `IV-01`, `CP-01`, `CS-01`: a recorded sign that changes the operation.

use crate::biometry::Sign;
use crate::evidence::{MUHTASEB_2004, NO_SOURCE, Source, Standing};
use crate::rules::check::recorded;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

/// One of the published risk points.
const RISK_POINT: Source = Standing::Printed.of(MUHTASEB_2004, "table 1: one risk point");

/// A rule of the family: what was seen asks for thought before the operation.
macro_rules! seen {
    ($rule:ident, $sign:ident, $id:literal, $title:literal, $checks:literal, $why:literal, $options:literal, $sources:expr) => {
        #[doc = concat!("`", $id, "`.")]
        pub const $rule: Rule = Rule {
            id: $id,
            title: $title,
            group: Group::Approach,
            severity: Severity::Review,
            bearing: None,
            checks: $checks,
            why: $why,
            options: $options,
            sources: $sources,
            limits: &[],
            evaluate: |facts| found(facts, Sign::$sign),
        };
    };
}

seen!(
    VITRECTOMY,
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

fn found(facts: &Facts<'_>, sign: Sign) -> Look {
    if !recorded(facts, sign)? {
        return Ok(None);
    }
    Finding::new(Fact::Present, Limit::Absent).found()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Missing;
    use crate::rules::Verdict;
    use crate::rules::testing::{assert_found, assert_satisfied, verdict};

    #[test]
    fn seen_is_found_absent_passes_and_silence_does_not() {
        for (rule, sign) in [
            (&VITRECTOMY, Sign::PreviousVitrectomy),
            (&INJECTIONS, Sign::IntravitrealInjections),
            (&PLAQUE, Sign::CapsulePlaque),
            (&SCAR, Sign::CornealScarring),
        ] {
            let with = |seen| {
                move |draft: &mut crate::rules::testing::DraftUnderTest| {
                    sign.set(&mut draft.operated().state, seen);
                }
            };
            assert_found(rule, with(Some(true)), Fact::Present, Limit::Absent);
            assert_satisfied(rule, with(Some(false)));
            let missing = Verdict::NotEvaluated(Missing::Sign(sign));
            assert_eq!(verdict(rule, |_| {}), missing, "{}", rule.id);
        }
    }
}
