//! How far a case has come, in one word, for lists.

use core::str::FromStr;

use super::Draft;
use crate::biometry::{CornealSurgery, EyeRecord, SiliconeOil};
use crate::iol_power::Formula;

/// How far a case has come.
///
/// It tells what is there, not whether it is right: findings, Stop findings too, change no word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum State {
    /// Something is missing before a lens power can be computed.
    Draft,
    /// The operated eye is named, and what the formulas need of it was measured.
    Measured,
    /// Measured; and target, lens, its power and the approach are chosen, for a toric lens cylinder
    /// and axis too.
    Planned,
    /// The newest revision was signed. No draft tells this of itself: whoever keeps the sheets does.
    Signed,
    /// No longer planned, whatever is there.
    SetAside,
}

impl State {
    /// All, from the first to the last.
    pub const ALL: [Self; 5] = [
        Self::Draft,
        Self::Measured,
        Self::Planned,
        Self::Signed,
        Self::SetAside,
    ];

    /// The state of a draft, from what it holds.
    ///
    /// *Measured* is what the chosen formula needs of the operated eye. While none is chosen it is
    /// keratometry, axial length and chamber depth from the epithelium, which together serve each of
    /// the five formulas for untouched corneas. An axial length that cannot stand (through silicone
    /// oil and not corrected, or by a method that measures none) counts as not measured.
    pub fn of(draft: &Draft) -> Self {
        if draft.set_aside.is_some() {
            return Self::SetAside;
        }
        let Some(side) = draft.operation.eye else {
            return Self::Draft;
        };
        if !is_measured(draft.eyes.get(side), draft.lens.formula) {
            return Self::Draft;
        }
        if is_chosen(draft) {
            return Self::Planned;
        }
        Self::Measured
    }

    pub const fn word(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Measured => "measured",
            Self::Planned => "planned",
            Self::Signed => "signed",
            Self::SetAside => "set_aside",
        }
    }
}

/// A word that names no state.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no state of a case is called \"{word}\"")]
pub struct NoSuchState {
    pub word: String,
}

impl FromStr for State {
    type Err = NoSuchState;

    fn from_str(word: &str) -> Result<Self, NoSuchState> {
        let found = Self::ALL.into_iter().find(|state| state.word() == word);
        found.ok_or_else(|| NoSuchState {
            word: word.to_owned(),
        })
    }
}

/// Whether the eye has what a formula needs of it, or, without one, what the usual five need.
fn is_measured(eye: &EyeRecord, formula: Option<Formula>) -> bool {
    let has_length = eye.axial_length.as_ref().is_some_and(|measured| {
        measured.method.for_axial_length().is_some()
            && eye.state.silicone_oil != Some(SiliconeOil::LengthUncorrected)
    });
    let has_depth = eye.depth_from_epithelium().is_some();
    let surgery = eye.state.corneal_surgery;
    let has_power_before = surgery.and_then(CornealSurgery::power_before).is_some();
    let has_correction = matches!(
        surgery,
        Some(CornealSurgery::Done {
            correction: Some(_),
            ..
        })
    );
    // An operated cornea is no longer described by its front alone.
    let is_operated = matches!(surgery, Some(CornealSurgery::Done { .. }));
    let has_back = !is_operated || eye.posterior_radius.is_some();
    has_length
        && eye.keratometry.is_some()
        && match formula {
            Some(Formula::SrkT | Formula::T2 | Formula::Holladay1 | Formula::HofferQ) => true,
            None | Some(Formula::Haigis | Formula::HaigisModifiedRadius) => has_depth,
            Some(Formula::ThickLens) => has_depth && eye.lens_thickness.is_some() && has_back,
            Some(Formula::DoubleKNoHistory) => has_power_before,
            Some(Formula::DoubleKKnownCorrection) => has_power_before && has_correction,
        }
}

fn is_chosen(draft: &Draft) -> bool {
    let lens = &draft.lens;
    let planned = lens.lenses.planned().is_some_and(|planned| {
        planned.power.is_some() && (planned.record.toric.is_none() || planned.toric.is_some())
    });
    lens.target.is_some() && planned && draft.approach.approach.is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::{CornealSurgeryKind, Method, Side};
    use crate::case::{Approach, ChosenLens, Lenses, Slot};
    use crate::iol_power::{FormulaInputs, Refusal};
    use crate::lens::{BiometryKind, PowerLabel, ToricChoice, ToricSteps};
    use crate::plan::formula_inputs;
    use crate::quantity::{HundredthDiopters, Meridian};
    use crate::rules::testing::{measured, ordinary_draft};

    #[test]
    fn an_empty_case_is_a_draft_and_so_is_one_without_an_eye() {
        assert_eq!(State::of(&Draft::default()), State::Draft);
        let mut draft = ordinary_draft().0;
        assert_eq!(draft.operation.eye, Some(Side::Right));
        assert_eq!(State::of(&draft), State::Measured);
        draft.operation.eye = None;
        assert_eq!(State::of(&draft), State::Draft);
        // The other eye's measurements are no use.
        draft.operation.eye = Some(Side::Left);
        draft.eyes.left = EyeRecord::default();
        assert_eq!(State::of(&draft), State::Draft);
    }

    type Change = fn(&mut Draft);

    fn lens(draft: &mut Draft) -> &mut ChosenLens {
        draft.lens.lenses.get_mut(Slot::Planned).unwrap()
    }

    #[test]
    fn each_choice_is_needed_to_be_planned() {
        let mut draft = ordinary_draft();
        draft.choose_lens(BiometryKind::Optical);
        draft.chosen().power = Some(HundredthDiopters::new(2_150));
        let mut planned = draft.0;
        planned.lens.target = Some(HundredthDiopters::new(-30));
        planned.approach.approach = Some(Approach::Phacoemulsification);
        assert_eq!(State::of(&planned), State::Planned);
        let changes: [(Change, State); 6] = [
            (|draft| draft.lens.target = None, State::Measured),
            (
                |draft| draft.lens.lenses = Lenses::default(),
                State::Measured,
            ),
            (|draft| draft.lens.lenses.clear_powers(), State::Measured),
            (|draft| draft.approach.approach = None, State::Measured),
            (|draft| draft.eyes.right.keratometry = None, State::Draft),
            (|draft| draft.operation.eye = None, State::Draft),
        ];
        // A lens with cylinders is chosen when its cylinder and axis are.
        let mut toric = planned.clone();
        let cylinders = vec![HundredthDiopters::new(150)];
        let steps = ToricSteps::new(cylinders, PowerLabel::SphericalEquivalent).unwrap();
        lens(&mut toric).record.toric = Some(steps);
        assert_eq!(State::of(&toric), State::Measured);
        lens(&mut toric).toric = Some(ToricChoice {
            cylinder: HundredthDiopters::new(150),
            axis: Meridian::new(90).unwrap(),
        });
        assert_eq!(State::of(&toric), State::Planned);
        for (index, (change, expected)) in changes.into_iter().enumerate() {
            let mut draft = planned.clone();
            change(&mut draft);
            assert_eq!(State::of(&draft), expected, "{index}");
        }
    }

    /// What counts as measured is what the formulas themselves ask for: the state differs from
    /// `Draft` exactly where the formula does not name a measurement it lacks.
    #[test]
    fn the_formulas_agree_on_what_is_missing() {
        let surgery = |before: bool, correction: bool| CornealSurgery::Done {
            kind: CornealSurgeryKind::MyopicLaser,
            before: before.then(|| ["44.00 D at 1.3375"; 2].map(|text| text.parse().unwrap())),
            correction: correction.then(|| HundredthDiopters::new(500)),
        };
        let mut seen = [0, 0];
        for formula in Formula::ALL {
            for absent in 0..64_u32 {
                let lacks = |bit: u32| absent & (1 << bit) != 0;
                let mut draft = ordinary_draft();
                draft.choose_lens(BiometryKind::Optical);
                let mut draft = draft.0;
                let eye = &mut draft.eyes.right;
                eye.state.corneal_surgery = Some(match formula {
                    _ if formula.is_for_operated_corneas() => surgery(!lacks(4), !lacks(5)),
                    Formula::ThickLens if lacks(4) => surgery(true, true),
                    _ => CornealSurgery::Absent,
                });
                if !lacks(5) {
                    let radius = "6.40 mm".parse().unwrap();
                    eye.posterior_radius = Some(measured(radius, Method::Tomographer));
                }
                eye.state.silicone_oil = Some(SiliconeOil::Absent);
                for (bit, remove) in [
                    (|eye: &mut EyeRecord| eye.axial_length = None) as fn(&mut EyeRecord),
                    |eye| eye.keratometry = None,
                    |eye| eye.chamber_depth = None,
                    |eye| eye.lens_thickness = None,
                ]
                .into_iter()
                .enumerate()
                {
                    if lacks(u32::try_from(bit).unwrap()) {
                        remove(eye);
                    }
                }
                draft.lens.formula = Some(formula);
                let inputs: FormulaInputs =
                    formula_inputs(&draft.eyes.right, &draft.lens, draft.lens.record());
                let lacking = matches!(formula.eye(&inputs), Err(Refusal::NotMeasured { .. }));
                let is_draft = State::of(&draft) == State::Draft;
                assert_eq!(is_draft, lacking, "{formula:?} {absent:06b}");
                seen[usize::from(lacking)] += 1;
            }
        }
        assert!(50 < seen[0] && 50 < seen[1], "{seen:?}");
    }

    #[test]
    fn a_length_that_cannot_stand_was_not_measured() {
        let mut draft = ordinary_draft();
        draft.operated().state.silicone_oil = Some(SiliconeOil::LengthUncorrected);
        assert_eq!(State::of(&draft.0), State::Draft);
        draft.operated().state.silicone_oil = Some(SiliconeOil::LengthCorrected);
        assert_eq!(State::of(&draft.0), State::Measured);
        draft.set_length_by("23.50 mm", Method::Keratometer);
        assert_eq!(State::of(&draft.0), State::Draft);
        draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        assert_eq!(State::of(&draft.0), State::Measured);
    }

    #[test]
    fn words_read_back() {
        for state in State::ALL {
            assert_eq!(state.word().parse(), Ok(state));
        }
        let error = "operated".parse::<State>().unwrap_err();
        assert_eq!(
            error.to_string(),
            "no state of a case is called \"operated\""
        );
    }
}
