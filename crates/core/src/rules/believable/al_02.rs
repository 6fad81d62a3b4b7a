//! `AL-02`: axial lengths of the two eyes differ more than their length explains.

use crate::evidence::{HOUSE, JCRS_MOORFIELDS, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AL-02",
    title: "Axial lengths of the two eyes differ",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Difference of axial length between the eyes against a limit that grows with the longer eye: 0.50 mm up to 22.0 mm, 4.00 mm from 28.0 mm on, a straight line between. The limit itself passes.",
    why: "A large difference between the eyes may be a faulty measurement, two records exchanged, or anatomy; in long eyes it is common.",
    options: "Consider checking that both records belong to this patient and these eyes, and repeating both measurements. If they stand, the reason may be recorded.",
    sources: &[
        Standing::Printed.of(
            JCRS_MOORFIELDS,
            "95th centile 0.5 mm (longer eye ≤ 22.0 mm) and 4.0 mm (≥ 28 mm)",
        ),
        Standing::Assumption.of(HOUSE, "straight line between"),
    ],
    limits: &[
        "axial_difference_short",
        "axial_difference_short_end",
        "axial_difference_long",
        "axial_difference_long_end",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let [operated, fellow] = facts.both_lengths()?;
    let limit = limit(operated.max(fellow), facts).ok_or(Missing::UsableDifferenceLimits)?;
    Ok(at_most(Quantity::Length, operated.abs_diff(fellow), limit))
}

/// The limit for the longer eye, to the whole micrometer below; nothing if a clinic's ends are so
/// far apart that it is no length.
fn limit(longer: Micrometers, facts: &Facts<'_>) -> Option<Micrometers> {
    let limits = facts.limits;
    let (short, long) = (limits.axial_difference_short, limits.axial_difference_long);
    let (from, to) = (
        limits.axial_difference_short_end,
        limits.axial_difference_long_end,
    );
    if longer <= from {
        return Some(short);
    }
    if to <= longer {
        return Some(long);
    }
    let rise = i64::from((long - short).um()) * i64::from((longer - from).um());
    let rise = i32::try_from(rise / i64::from((to - from).um())).ok()?;
    Some(short + Micrometers::new(rise))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    /// By hand: longer eye 25.00 mm is half way from 22 to 28, so the limit is 2.25 mm.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for (operated, fellow) in [
            ("22.00 mm", "21.50 mm"),
            ("28.00 mm", "24.00 mm"),
            ("25.00 mm", "22.75 mm"),
            ("22.75 mm", "25.00 mm"),
        ] {
            assert_satisfied(&RULE, |draft| draft.set_axial_lengths(operated, fellow));
        }
        for (operated, fellow, measured, limit) in [
            ("22.00 mm", "21.499 mm", "0.501 mm", "at most 0.50 mm"),
            ("28.00 mm", "23.999 mm", "4.001 mm", "at most 4.00 mm"),
            ("25.00 mm", "22.749 mm", "2.251 mm", "at most 2.25 mm"),
            ("22.749 mm", "25.00 mm", "2.251 mm", "at most 2.25 mm"),
        ] {
            assert_finding(
                &RULE,
                |draft| draft.set_axial_lengths(operated, fellow),
                [measured, limit],
            );
        }
    }

    #[test]
    fn both_eyes_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.fellow().axial_length = None);
    }
}
