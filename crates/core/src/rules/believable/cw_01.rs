//! `CW-01`: contact lenses were worn shortly before keratometry.

use crate::biometry::{ContactLensKind, ContactLenses};
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::check::at_least;
use crate::rules::{Because, Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "CW-01",
    title: "Contact lenses were worn shortly before keratometry",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Days from the last one with contact lenses to keratometry of the operative eye, against 7 days for soft and 28 days for hard ones. The limits themselves pass.",
    why: "A contact lens molds the cornea, a hard one for weeks: K and astigmatism measured too early are those of the molded cornea, not of the eye.",
    options: "Consider repeating keratometry after the lenses were left out long enough, and once more until readings agree.",
    sources: &[Standing::CommonPractice.of(
        NO_SOURCE,
        "soft lenses out for one week, hard ones for four",
    )],
    limits: &["contact_lens_soft", "contact_lens_hard"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let eye = facts.operated.0;
    let (kind, last_worn) = match eye.state.contact_lenses {
        None => return Err(Missing::ContactLenses.into()),
        Some(ContactLenses::NotWorn) => return Err(Because::NoContactLenses.into()),
        Some(ContactLenses::Worn { kind, last_worn }) => (kind, last_worn),
    };
    let limit = match kind {
        ContactLensKind::Soft => facts.limits.contact_lens_soft,
        ContactLensKind::Hard => facts.limits.contact_lens_hard,
    };
    let last_worn = last_worn.ok_or(Missing::LastWorn)?;
    let keratometry = eye.keratometry.as_ref();
    let keratometry = keratometry.ok_or(Missing::of_this_eye(Which::Keratometry))?;
    let on = keratometry.on.ok_or(Missing::KeratometryDay)?;
    let days = (on - last_worn).num_days();
    let days = i32::try_from(days).map_err(|_| Missing::LastWorn)?;
    Ok(at_least(Quantity::Days, days, limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{ContactLensKind, ContactLenses};
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, date,
    };

    /// Keratometry is of 20 Nov 2026.
    fn worn(kind: ContactLensKind, month: u32, day: u32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.operated().state.contact_lenses = Some(ContactLenses::Worn {
                kind,
                last_worn: Some(date(2026, month, day)),
            });
        }
    }

    #[test]
    fn at_the_limits_and_one_day_short() {
        use ContactLensKind::{Hard, Soft};
        assert_satisfied(&RULE, worn(Soft, 11, 13));
        assert_finding(&RULE, worn(Soft, 11, 14), ["6 days", "at least 7 days"]);
        assert_satisfied(&RULE, worn(Hard, 10, 23));
        assert_finding(&RULE, worn(Hard, 10, 24), ["27 days", "at least 28 days"]);
        // Still worn when keratometry was taken.
        assert_finding(&RULE, worn(Soft, 11, 21), ["-1 days", "at least 7 days"]);
    }

    #[test]
    fn what_is_needed_and_what_it_is_not_for() {
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.contact_lenses = Some(ContactLenses::Worn {
                kind: ContactLensKind::Soft,
                last_worn: None,
            });
        });
        assert_not_evaluated(&RULE, |draft| {
            worn(ContactLensKind::Soft, 11, 1)(draft);
            draft.operated().keratometry = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            worn(ContactLensKind::Soft, 11, 1)(draft);
            draft.operated().keratometry.as_mut().unwrap().on = None;
        });
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.contact_lenses = Some(ContactLenses::NotWorn);
        });
    }
}
