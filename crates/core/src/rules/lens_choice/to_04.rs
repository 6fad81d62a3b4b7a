//! `TO-04`: astigmatism drifts against the rule with age.

use super::toric_steps;
use crate::astigmatism::Orientation;
use crate::evidence::{RECALLED, Source, Standing};
use crate::rules::check::Unsigned;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-04",
    title: "Corneal astigmatism drifts against the rule with age",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "For a toric lens: whether the front of the cornea is steep within 30° of the vertical (with the rule), or whether the chosen cylinder is expected to leave the eye steep within 30° of the horizontal (against the rule), by 0.01 D or more.",
    why: "Over the years the cornea gains astigmatism against the rule. What a toric lens corrects with the rule today may be too much later, and what is left against the rule grows. Millrace has no number for it that it could cite, and allows for none.",
    options: "A little may be left with the rule, if the surgeon so wishes.",
    sources: &[Source {
        work: RECALLED,
        locator: "drift against the rule with age, no number",
        standing: Standing::Memory,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    if let Err(verdict) = toric_steps(facts) {
        return verdict;
    }
    let Ok(terms) = &facts.toric.cornea else {
        return not_evaluated("astigmatism of the cornea after the operation");
    };
    let described = |text: &str, astigmatism: crate::optics::DoubleAngle| {
        let steep = astigmatism.steep_meridian()?;
        let cylinder = astigmatism.cylinder().d();
        Some(format!("{text}, {cylinder:.2} D steep at {steep}"))
    };
    let is = |astigmatism: crate::optics::DoubleAngle, orientation| {
        let size = Unsigned::nearest(astigmatism.cylinder());
        size.is_some_and(|size| 0 < size.0.hundredths())
            && astigmatism.steep_degrees().map(Orientation::of) == Some(orientation)
    };
    let front = terms.front.at_standard_index();
    let left = facts.toric.chosen.as_ref().map(|step| step.residual.left());
    let mut found = Vec::new();
    if is(front, Orientation::WithTheRule) {
        found.extend(described("front with the rule", front));
    }
    if let Some(left) = left
        && is(left, Orientation::AgainstTheRule)
    {
        found.extend(described("left against the rule", left));
    }
    if found.is_empty() {
        return Verdict::Satisfied;
    }
    Finding::new(found.join("; "), "no drift is allowed for")
        .against(Against::State)
        .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::Meridian;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    fn steep_at(degrees: u16, change: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        toric(move |draft| {
            let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
            keratometry.steep.meridian = Meridian::new(degrees).unwrap();
            keratometry.flat.meridian = Meridian::new(degrees).unwrap().perpendicular();
            change(draft);
        })
    }

    #[test]
    fn with_the_rule_up_to_thirty_degrees_from_the_vertical() {
        let limit = "no drift is allowed for";
        for (degrees, shown) in [(60, "60°"), (120, "120°")] {
            let text = format!("front with the rule, 2.00 D steep at {shown}");
            assert_finding(&RULE, steep_at(degrees, |_| {}), [&text, limit]);
        }
        assert_satisfied(&RULE, steep_at(59, |_| {}));
        assert_satisfied(&RULE, steep_at(121, |_| {}));
    }

    /// `tests/oracle/toric_plan.py 42.75 44.75 180 21`: 3.00 D at 180 leaves −0.048 D × 90, so the eye
    /// is left steep at 180; 3.75 D leaves −0.458 D × 180.
    #[test]
    fn left_against_the_rule() {
        assert_finding(
            &RULE,
            steep_at(180, |draft| draft.choose_toric(300, 180)),
            [
                "left against the rule, 0.05 D steep at 180°",
                "no drift is allowed for",
            ],
        );
        assert_satisfied(&RULE, steep_at(180, |draft| draft.choose_toric(375, 180)));
    }

    #[test]
    fn a_toric_lens_and_a_cornea_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, toric(|draft| draft.operated().keratometry = None));
    }
}
