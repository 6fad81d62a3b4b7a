use millrace_core::case::update;
use millrace_core::case_file;
use millrace_core::quantity::HundredthDiopters;

use super::*;

fn clinic() -> Vec<LensRecord> {
    let text = include_str!("../../../../../demo-data/lenses.ron");
    case_file::read_lenses(text).unwrap()
}

fn mine() -> OwnWays {
    let [flattening, scatter] = [25, 40].map(HundredthDiopters::new);
    OwnWays {
        formulas: vec![Formula::Haigis],
        planned_by: Some(Formula::SrkT),
        lens: Some(UsualLens {
            name: "Weir one-piece".to_owned(),
            model: "Weir Q".to_owned(),
        }),
        convention: Some(Convention::FirstMyopic),
        phaco_incision: IncisionEffect::new(flattening, scatter, 60, None).ok(),
        small_incision: None,
    }
}

fn planned(draft: &Draft, usual: UsualPlan) -> Draft {
    update(draft, Command::PlanAsUsual(Box::new(usual))).unwrap()
}

#[test]
fn nothing_is_offered_that_was_not_set_or_already_holds() {
    let (empty, clinic) = (OwnWays::default(), clinic());
    let mut draft = Draft::default();
    assert!(empty.usual_for(&draft, &clinic).is_empty());
    assert_eq!(empty.incision_for(&draft), None);
    assert_eq!(mine().incision_for(&draft), None);
    draft.approach.approach = Some(Approach::SmallIncision);
    assert_eq!(mine().incision_for(&draft), None);
    draft.approach.approach = Some(Approach::Phacoemulsification);
    draft = update(&draft, mine().incision_for(&draft).unwrap()).unwrap();
    draft = planned(&draft, mine().usual_for(&draft, &clinic));
    assert_eq!(draft.lens.convention, Some(Convention::FirstMyopic));
    assert_eq!(draft.lens.formula, Some(Formula::SrkT));
    assert_eq!(draft.lens.record().unwrap().model, "Weir Q");
    assert_eq!(draft.approach.incision_effect, mine().phaco_incision);
    assert!(mine().usual_for(&draft, &clinic).is_empty());
    assert_eq!(mine().incision_for(&draft), None);
}

#[test]
fn what_was_chosen_for_the_eye_is_offered_no_other() {
    let clinic = clinic();
    let other = OwnWays {
        planned_by: Some(Formula::T2),
        lens: Some(UsualLens::of(&clinic[0])),
        convention: Some(Convention::Nearest),
        ..OwnWays::default()
    };
    let draft = planned(
        &Draft::default(),
        mine().usual_for(&Draft::default(), &clinic),
    );
    let offered = other.usual_for(&draft, &clinic);
    assert_eq!((offered.lens, offered.formula), (None, None));
    // The proposed power is a way of looking, and clears nothing.
    assert_eq!(offered.convention, Some(Convention::Nearest));
}

#[test]
fn a_lens_that_two_records_have_the_name_of_is_not_offered() {
    let mut clinic = clinic();
    let draft = Draft::default();
    assert!(mine().usual_for(&draft, &clinic).lens.is_some());
    let twice = clinic.iter().find(|it| it.model == "Weir Q").cloned();
    clinic.extend(twice);
    assert_eq!(mine().usual_for(&draft, &clinic).lens, None);
    clinic.retain(|it| it.model != "Weir Q");
    assert_eq!(mine().usual_for(&draft, &clinic).lens, None);
}

#[test]
fn the_formula_planned_by_is_never_hidden() {
    let mut draft = Draft::default();
    assert!(OwnWays::default().shows(Formula::T2, &draft));
    assert!(mine().shows(Formula::Haigis, &draft));
    assert!(!mine().shows(Formula::T2, &draft));
    draft.lens.formula = Some(Formula::T2);
    assert!(mine().shows(Formula::T2, &draft));
}
