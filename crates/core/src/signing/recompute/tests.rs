use super::*;
use crate::document::Outcome;
use crate::quantity::Diopters;
use crate::signing::tests::{signable, signed};

#[test]
fn today_computes_what_was_signed_and_a_difference_is_named() {
    let mut plan = signed();
    assert_eq!(recompute(&plan).unwrap(), []);
    // By hand: predicted by SRK/T one hundredth off, and a rule that no longer exists.
    let results = &mut plan.content.plan.results;
    let Outcome::Answer(ladder) = &mut results.ladder else {
        panic!("a ladder");
    };
    let Outcome::Answer(answer) = &mut ladder.formulas[0].outcome else {
        panic!("an answer");
    };
    let predicted = answer.predicted_d.replace(Diopters::new(0.25)).unwrap();
    let mut gone = results.rules[0].clone();
    gone.id = "ZZ-01".to_owned();
    results.rules.insert(0, gone);
    let found = recompute(&plan).unwrap();
    let place = |index: usize| &*found[index].place;
    assert_eq!(place(0), "ladder.formulas.srk_t.predicted_d");
    assert_eq!(found[0].signed.as_deref(), Some("0.25"));
    assert_eq!(found[0].now, Some(predicted.d().to_string()));
    assert!(1 < found.len());
    for difference in &found[1..] {
        assert!(
            difference.place.starts_with("rules.ZZ-01."),
            "{difference:?}"
        );
        assert_eq!(difference.now, None);
    }
}

/// Both ends of a pair moved past the shipped ones: they can be set in one order only.
#[test]
fn a_plan_is_computed_again_by_its_own_limits() {
    let limits = Limits::shipped()
        .with("target_most_hyperopic", "+3.00 D")
        .and_then(|limits| limits.with("target_most_myopic", "+2.00 D"))
        .and_then(|limits| limits.with("chamber_depth", "2.50 mm"))
        .unwrap();
    let draft = signable();
    let plan = Plan::of(&draft, &limits).unwrap();
    let by_shipped = Plan::of(&draft, Limits::shipped()).unwrap();
    let [document, shipped] =
        [&plan, &by_shipped].map(|plan| PlanDocument::of(plan, "millrace test"));
    assert_ne!(document.results, shipped.results);
    let mut signed = signed();
    signed.content.plan.limits = {
        let mut with = signed.content.plan.limits.clone();
        for (limit, (_, in_use)) in with.iter_mut().zip(limits.entries()) {
            limit.in_use = in_use;
        }
        // The other way round than they can be set.
        with.reverse();
        with
    };
    signed.content.plan.results = document.results;
    assert_eq!(recompute(&signed).unwrap(), []);
    signed.content.plan.limits.pop();
    let error = recompute(&signed).unwrap_err();
    assert!(
        matches!(&error, CannotRecompute::OtherLimits { names } if names == "axial_length_shortest"),
        "{error}"
    );
}
