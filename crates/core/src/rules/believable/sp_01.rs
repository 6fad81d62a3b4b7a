//! `SP-01`: the eye's own readings scatter far more than the method does.

use crate::biometry::EyeRecord;
use crate::certainty::{ErrorSource, Spreads};
use crate::evidence::{HOUSE, Standing};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity, Which};

/// How many times the spread of the method a measurement's own may be (assumption).
const TIMES: i32 = 3;

/// What has a spread of its own to compare.
const COMPARED: [(ErrorSource, Which); 5] = [
    (ErrorSource::AxialLength, Which::AxialLength),
    (ErrorSource::CornealPower, Which::Keratometry),
    (ErrorSource::ChamberDepth, Which::ChamberDepth),
    (ErrorSource::LensThickness, Which::LensThickness),
    (ErrorSource::CornealThickness, Which::CornealThickness),
];

pub const RULE: Rule = Rule {
    id: "SP-01",
    title: "Readings of this eye scatter far more than usual",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "The spread (1 SD) that came with axial length, mean K, chamber depth, lens thickness or corneal thickness of the operative eye, against three times the table's for its method; three times itself passes. Not for measurements without a spread of their own, nor by a method without one in the table.",
    why: "Readings that scatter so far are of a moving eye, a bad surface, a dense lens, or of more than one eye: their mean is not what the formulas expect, however often it was read.",
    options: "Consider repeating the measurement, treating the surface first, or another method.",
    sources: &[Standing::Assumption.of(HOUSE, "three times the spread of the method")],
    limits: &[
        "spread_length_optical",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_mean_k",
        "spread_chamber_depth",
        "spread_lens_thickness",
        "spread_corneal_thickness",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let eye = facts.operated.0;
    let own = Spreads::of(eye, facts.limits);
    let of_method = Spreads::of(&without_own(eye), facts.limits);
    let compared = COMPARED.into_iter().filter_map(|(source, which)| {
        let [own, table] = [&own, &of_method].map(|spreads| spreads.get(source));
        let (own, table) = (own.ok()?.deviation, table.ok()?.deviation);
        #[expect(
            clippy::float_cmp,
            reason = "a spread that is the table's is the same number"
        )]
        (own != table).then_some((which, f64::from(TIMES) * table < own))
    });
    let compared: Vec<_> = compared.collect();
    if compared.is_empty() {
        return Err(Because::NoOwnSpread.into());
    }
    let wide: Vec<_> = compared
        .into_iter()
        .filter(|(_, is_wide)| *is_wide)
        .map(|(which, _)| which)
        .collect();
    if wide.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::WideSpreads(wide), Limit::TimesTheMethods(TIMES)).found()
}

/// The same measurements as if none had brought a spread.
fn without_own(eye: &EyeRecord) -> EyeRecord {
    let mut eye = eye.clone();
    if let Some(measured) = &mut eye.axial_length {
        measured.spread = None;
    }
    if let Some(measured) = &mut eye.keratometry {
        measured.spread = None;
    }
    if let Some(measured) = &mut eye.chamber_depth {
        measured.spread = None;
    }
    if let Some(measured) = &mut eye.lens_thickness {
        measured.spread = None;
    }
    if let Some(measured) = &mut eye.corneal_thickness {
        measured.spread = None;
    }
    eye
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_satisfied, diopters,
        micrometers,
    };
    use crate::rules::{Fact, Limit, Which};

    fn depth(spread_um: i32) -> impl Fn(&mut DraftUnderTest) {
        move |draft| {
            let depth = draft.operated().chamber_depth.as_mut().unwrap();
            depth.spread = Some(micrometers(spread_um));
        }
    }

    /// The shipped table has 47 µm for an optical depth; three times are 141 µm.
    #[test]
    fn at_three_times_and_one_step_beyond() {
        let found = |which: &[Which]| Fact::WideSpreads(which.to_vec());
        let limit = || Limit::TimesTheMethods(3);
        for um in [10, 60, 141] {
            assert_satisfied(&RULE, depth(um));
        }
        assert_found(&RULE, depth(142), found(&[Which::ChamberDepth]), limit());
        let both = |draft: &mut DraftUnderTest| {
            depth(142)(draft);
            let k = draft.operated().keratometry.as_mut().unwrap();
            k.spread = Some(diopters(300));
        };
        let wide = [Which::Keratometry, Which::ChamberDepth];
        assert_found(&RULE, both, found(&wide), limit());
    }

    #[test]
    fn what_came_without_a_spread_is_not_compared() {
        assert_not_applicable(&RULE, |_| {});
        // Zero is no spread: the table's stands in.
        assert_not_applicable(&RULE, depth(0));
    }
}
