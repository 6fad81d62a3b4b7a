//! `FD-02`: the formulas are far apart.

use super::fd_01;
use crate::evidence::{HOUSE, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

/// Largest spread of exact powers that needs no reason (assumption).
pub(super) const LIMIT: HundredthDiopters = HundredthDiopters::new(200);

pub const RULE: Rule = Rule {
    id: "FD-02",
    title: "The formulas are far apart",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The spread of FD-01, highest less lowest exact power of all formulas with a fitted constant that answered, against 2.00 D. The limit itself passes.",
    why: "So far apart, at least one formula is wrong for this eye by more than most eyes ever miss their target: an unusual eye, a measurement that was mistyped, or a constant that does not suit its formula. The limit is our own value.",
    options: "Consider the constants of the columns that stand apart, measurements that other rules doubt, and why the chosen formula suits this eye better than the others; that may be the reason recorded.",
    sources: &[Standing::Assumption.of(HOUSE, "spread of 2.00 D")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (spread, extremes) = fd_01::spread(facts)?;
    Ok(at_most(Quantity::Magnitude, spread, LIMIT).map(|finding| finding.with([extremes])))
}

#[cfg(test)]
mod tests {
    use super::{RULE, fd_01};
    use crate::iol_power::HaigisConstants;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    fn haigis_a0(a0_mm: f64) -> impl Fn(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            let constants = &mut draft.chosen().record.constants;
            let value = HaigisConstants::new(a0_mm, 0.4, 0.1).unwrap();
            constants.haigis.as_mut().unwrap().value = value;
        }
    }

    /// Exact powers in closed form (the same lines as those of `FD-01`): Hoffer Q 21.01122 D; Haigis
    /// 23.01150 D with a0 2.332, 23.02041 D with 2.336.
    #[test]
    fn at_the_limit_one_step_beyond_and_without_answers() {
        assert_satisfied(&RULE, haigis_a0(2.332));
        let texts = ["2.01 D", "at most 2.00 D"];
        assert_finding(&RULE, haigis_a0(2.336), texts);
        // One of the two speaks of one spread.
        assert_not_applicable(&fd_01::RULE, haigis_a0(2.336));
        assert_finding(&fd_01::RULE, haigis_a0(2.332), ["2.00 D", "at most 1.00 D"]);
        assert_not_evaluated(&RULE, |_| {});
    }
}
