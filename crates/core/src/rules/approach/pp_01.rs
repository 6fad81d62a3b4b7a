//! `PP-01`: posterior polar cataract.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, RAM_2010, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::recorded;
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

/// Diameter of the opacity from which ruptures were many, as printed.
const WIDE: Micrometers = Micrometers::new(4_000);

pub const RULE: Rule = Rule {
    id: "PP-01",
    title: "Posterior polar cataract: the capsule may be open",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether a posterior polar cataract was recorded; a diameter of its opacity is enough. The diameter, if it was recorded, says which of the printed shares is about such eyes: 4.00 mm itself counts as wide.",
    why: "The posterior capsule is thin or open under the opacity. In one series it ruptured in 15.5 %: in 30.4 % with an opacity of 4 mm or more, in 5.7 % with a smaller one.",
    options: "Consider hydrodelineation without hydrodissection, low flow and a low bottle, no turning of the nucleus, viscoelastic before every instrument leaves the eye, and taking the last shell of cortex by viscodissection; consider a vitrector and a lens for the sulcus at hand, an experienced surgeon, and telling the patient of the raised risk.",
    sources: &[
        Standing::Printed.of(
            RAM_2010,
            "abstract: rupture 15.5 %; 30.4 % at ≥ 4 mm of opacity, 5.7 % below",
        ),
        Standing::CommonPractice.of(NO_SOURCE, "precautions in posterior polar cataract"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let opacity = facts.operated.0.state.polar_opacity;
    if opacity.is_none() && !recorded(facts, Sign::PosteriorPolar)? {
        return Ok(None);
    }
    let found = opacity.map_or(Fact::Present, Fact::PolarOpacity);
    Finding::new(found, Limit::Absent)
        .with([Detail::PolarRupture {
            wide: opacity.map(|diameter| WIDE <= diameter),
        }])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_found, assert_not_evaluated, assert_satisfied, micrometers,
    };
    use crate::rules::{Detail, Fact, Limit};

    #[test]
    fn it_is_found_with_the_printed_share_of_such_eyes() {
        for (diameter, wide) in [(3_999, false), (4_000, true)] {
            let diameter = micrometers(diameter);
            let finding = assert_found(
                &RULE,
                |draft| draft.operated().state.polar_opacity = Some(diameter),
                Fact::PolarOpacity(diameter),
                Limit::Absent,
            );
            assert_eq!(finding.details, [Detail::PolarRupture { wide: Some(wide) }]);
        }
        let finding = assert_found(
            &RULE,
            |draft| draft.operated().state.posterior_polar = Some(true),
            Fact::Present,
            Limit::Absent,
        );
        assert_eq!(finding.details, [Detail::PolarRupture { wide: None }]);
    }

    #[test]
    fn absent_passes_and_silence_does_not() {
        assert_satisfied(&RULE, |draft| {
            draft.operated().state.posterior_polar = Some(false);
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
