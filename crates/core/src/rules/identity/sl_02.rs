//! `SL-02`: the second look is by the person who measured.

use crate::biometry::Item;
use crate::evidence::{HOUSE, Standing};
use crate::rules::{
    Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity, Which,
};

pub const RULE: Rule = Rule {
    id: "SL-02",
    title: "Second look is by the person who measured",
    group: Group::Identity,
    severity: Severity::Note,
    bearing: None,
    checks: "Name of the person of the second look against the names recorded beside axial length, keratometry, chamber depth and lens thickness of the operative eye. Capital letters and spaces make no difference. If nobody is named beside axial length or keratometry and no other name is the same, it cannot be told.",
    why: "Two looks by one person are not two looks: who knows a number reads it again where another one stands.",
    options: "Consider asking somebody else for the second look.",
    sources: &[Standing::Assumption.of(HOUSE, "a second look is by a second person")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let Some(look) = &facts.draft.second_look else {
        return Err(Because::NoSecondLook.into());
    };
    let by = |item: Item| item.of(facts.operated.0).and_then(|measured| measured.by);
    let second = plain(&look.by);
    let same: Vec<_> = [
        (Which::AxialLength, Item::AxialLength),
        (Which::Keratometry, Item::Keratometry),
        (Which::ChamberDepth, Item::ChamberDepth),
        (Which::LensThickness, Item::LensThickness),
    ]
    .into_iter()
    .filter(|(_, item)| by(*item).is_some_and(|by| plain(by) == second))
    .map(|(which, _)| which)
    .collect();
    if !same.is_empty() {
        return Finding::new(Fact::MeasuredBySame(same), Limit::AnotherPerson).found();
    }
    if by(Item::AxialLength).is_none() || by(Item::Keratometry).is_none() {
        return Err(Missing::WhoMeasured.into());
    }
    Ok(None)
}

fn plain(name: &str) -> String {
    let words: Vec<_> = name.split_whitespace().collect();
    words.join(" ").to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::second_look_of;
    use crate::rules::{Fact, Limit, Which};

    /// The second look of the tests is by "B. Second".
    fn measured_by(draft: &mut DraftUnderTest, length: Option<&str>, keratometry: Option<&str>) {
        draft.0.second_look = Some(second_look_of(&draft.0));
        let eye = draft.operated();
        eye.axial_length.as_mut().unwrap().by = length.map(str::to_owned);
        eye.keratometry.as_mut().unwrap().by = keratometry.map(str::to_owned);
    }

    #[test]
    fn somebody_else_passes() {
        assert_satisfied(&RULE, |draft| {
            measured_by(draft, Some("A. First"), Some("C. Third"));
        });
        assert_not_applicable(&RULE, |_| {});
    }

    #[test]
    fn the_same_person_is_named_with_what_was_measured() {
        assert_found(
            &RULE,
            |draft| measured_by(draft, Some(" b.  second "), Some("A. First")),
            Fact::MeasuredBySame(vec![Which::AxialLength]),
            Limit::AnotherPerson,
        );
        assert_found(
            &RULE,
            |draft| {
                measured_by(draft, None, Some("B. Second"));
                draft.operated().chamber_depth.as_mut().unwrap().by = Some("B. SECOND".to_owned());
            },
            Fact::MeasuredBySame(vec![Which::Keratometry, Which::ChamberDepth]),
            Limit::AnotherPerson,
        );
    }

    #[test]
    fn without_names_it_cannot_be_told() {
        assert_not_evaluated(&RULE, |draft| measured_by(draft, None, Some("A. First")));
        assert_not_evaluated(&RULE, |draft| measured_by(draft, Some("A. First"), None));
    }
}
