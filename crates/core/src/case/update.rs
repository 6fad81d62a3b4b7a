//! The one place where a draft changes.

use chrono::NaiveDate;

use super::plain_text::{self, TextRefused};
use super::second_look::check_second_look;
use super::set_aside::set_aside;
use super::{
    ApproachPlan, ChosenLens, Command, Draft, EyeChange, JudgedNucleus, ListNumber, RecordedReason,
    SecondLook, Slot, TheatreRefused,
};
use crate::biometry::{EarlierOperation, EyeRecord, EyeState, FlatIsSteep, Item, Side, Sign};
use crate::chamber::Nucleus;
use crate::finding::{OtherCase, is_rule_id};
use crate::lens::LensSite;
use crate::quantity::Micrometers;

/// Why a command was not carried out; the draft is as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CommandRefused {
    /// The operated eye was changed in passing.
    #[error(
        "the case is planned for the {from} and has measurements: \
         a change to the {to} needs a recorded reason"
    )]
    EyeFixed {
        /// The eye of the case.
        from: Side,
        /// The eye asked for.
        to: Side,
    },
    /// A change of eye that does not start from the eye of the case.
    #[error("the case is not planned for the {from}")]
    OtherEye {
        /// The eye the change claims to leave.
        from: Side,
    },
    /// A change of eye, or a reason, without a word of explanation.
    #[error("a reason is missing")]
    ReasonMissing,
    /// A reason or change without a person.
    #[error("the name of the person is missing")]
    AuthorMissing,
    /// A second look without the number it was taken of.
    #[error("the hospital number is missing")]
    NumberMissing,
    /// The steep meridian is the flatter one.
    #[error(transparent)]
    FlatIsSteep(#[from] FlatIsSteep),
    /// An import of nothing.
    #[error("an import takes at least one measurement")]
    NothingTaken,
    /// A change from an eye to itself.
    #[error("a change of eye leads to the other eye")]
    SameEye,
    /// A reason for a rule that does not exist.
    #[error("no rule is called {rule}")]
    NoSuchRule {
        /// The id given.
        rule: String,
    },
    /// A lens where it is not made to sit.
    #[error("the {slot} is made for the {site} and may not sit elsewhere")]
    Site {
        /// What it was chosen as.
        slot: Slot,
        /// Where it is made to sit.
        site: LensSite,
    },
    /// Two lenses for one place.
    #[error("there is more than one {slot}")]
    TwoLenses {
        /// What both were chosen as.
        slot: Slot,
    },
    /// A power or a cylinder without a lens.
    #[error("no {slot} is chosen")]
    NoLens {
        /// What none was chosen as.
        slot: Slot,
    },
    /// An entry for theatre that says nothing.
    #[error(transparent)]
    Theatre(#[from] TheatreRefused),
    /// A text with hidden characters.
    #[error(transparent)]
    Hidden(#[from] TextRefused),
    /// A number of pieces the model does not have.
    #[error("the model divides the nucleus into 4, 6, 8, 12, 16, 24 or 32 pieces, not {pieces}")]
    NoSuchDivision {
        /// The number asked for.
        pieces: u8,
    },
    /// More or less than irrigation can add.
    #[error("deepening {deepening} is outside 0.00 to 2.00 mm")]
    Deepening { deepening: Micrometers },
    #[error("the tunnel's lips cannot be {lips} long")]
    TunnelLips { lips: Micrometers },
    #[error("a place in the order of the day needs a day")]
    NumberWithoutDay,
    #[error("the case is set aside; it can be brought back")]
    IsSetAside,
    #[error("the case is not set aside")]
    NotSetAside,
}

/// Applies one command; on refusal the draft is untouched.
///
/// # Errors
///
/// [`CommandRefused`], saying what the person can do instead.
pub fn update(draft: &Draft, command: Command) -> Result<Draft, CommandRefused> {
    if draft.set_aside.is_some() && command != Command::BringBack {
        return Err(CommandRefused::IsSetAside);
    }
    let mut next = draft.clone();
    apply(&mut next, command)?;
    Ok(next)
}

/// On refusal the draft may be anything.
fn apply(next: &mut Draft, command: Command) -> Result<(), CommandRefused> {
    match command {
        Command::SetPatient(patient) => {
            patient.check_text()?;
            next.patient = patient;
        }
        Command::SetOperationDate(date) => set_day(next, date),
        Command::SetListNumber(number) => set_list_number(next, number)?,
        Command::SetSurgeon(grade) => next.operation.surgeon = grade,
        Command::ChooseEye(side) => choose_eye(next, side)?,
        Command::ChangeEye(change) => change_eye(next, change)?,
        Command::Measure(side, measurement) => {
            let eye = next.eyes.get_mut(side);
            measurement.set(eye);
            check_measurements(eye)?;
        }
        Command::SetState(side, state) => set_state(next, side, *state),
        Command::SetEarlierOperation(side, earlier) => set_earlier(next, side, earlier)?,
        Command::SetTarget(target) => next.lens.target = target,
        Command::SetConsentedTarget(target) => next.lens.consented_target = target,
        Command::ChooseLens(slot, record, others) => {
            next.lens.lenses.choose(slot, record.map(|record| *record));
            next.lens.lenses.set_others(slot, others);
            next.lens.lenses.check()?;
        }
        Command::ChooseFormula(formula) => next.lens.formula = formula,
        Command::ChooseConvention(convention) => next.lens.convention = convention,
        Command::PlanAsUsual(usual) => {
            usual.changes().try_for_each(|change| apply(next, change))?;
        }
        Command::ChoosePower(slot, power) => of_lens(next, slot, |lens| lens.power = power)?,
        Command::ChooseSecondEye(choice) => next.lens.second_eye = choice,
        Command::ChooseToric(slot, choice) => of_lens(next, slot, |lens| lens.toric = choice)?,
        Command::ChoosePosterior(choice) => next.lens.posterior = choice,
        Command::ChooseUltrasound(choice) => next.lens.ultrasound = choice,
        Command::UseSumOfSegments(chosen) => next.lens.sum_of_segments = chosen,
        Command::ChooseApproach(approach) => {
            // Figures of one approach's incision say nothing of the other's.
            if next.approach.approach.is_some() && next.approach.approach != approach {
                next.approach.incision_effect = None;
            }
            next.approach.approach = approach;
        }
        Command::SetIncision { width, direction } => {
            next.approach.incision_width = width;
            next.approach.incision_direction = direction;
        }
        Command::SetIncisionEffect(effect) => next.approach.incision_effect = effect,
        Command::SetNucleus(nucleus) => set_nucleus(next, nucleus),
        Command::JudgeNucleus(judged) => judge_nucleus(next, judged)?,
        Command::SetNucleusSize(size) => next.approach.nucleus_size = size,
        Command::SetPieces(pieces) => of_approach(next, |plan| plan.pieces = pieces)?,
        Command::ChoosePlane(plane) => next.approach.working_plane = plane,
        Command::SetDeepening(by) => of_approach(next, |plan| plan.deepening = by)?,
        Command::ChooseDelivery(delivery) => next.approach.delivery = delivery,
        Command::SetTunnelLips(lips) => of_approach(next, |plan| plan.tunnel_lips = lips)?,
        Command::SetCapsulorhexis(diameter) => next.approach.capsulorhexis = diameter,
        Command::SetTheatre(entry) => next.theatre.set(entry)?,
        Command::RecordReason(reason) => record_reason(next, reason)?,
        Command::WithdrawReason { rule, backup } => {
            next.reasons.retain(|reason| !reason.is_for(&rule, backup));
        }
        Command::RecordSecondLook(look) => record_second_look(next, *look)?,
        Command::SetOtherCases(others) => set_other_cases(next, others)?,
        Command::SetAside(said) => set_aside(next, said)?,
        Command::BringBack => bring_back(next)?,
    }
    Ok(())
}

/// A decision on the refinement by another one is cleared.
fn set_earlier(
    draft: &mut Draft,
    side: Side,
    earlier: Option<EarlierOperation>,
) -> Result<(), CommandRefused> {
    let eye = draft.eyes.get_mut(side);
    if eye.earlier_operation != earlier {
        draft.lens.second_eye = None;
    }
    eye.earlier_operation = earlier;
    check_measurements(eye)
}

/// The place in the order of one day is none of another.
fn set_day(draft: &mut Draft, date: Option<NaiveDate>) {
    if draft.operation.date != date {
        draft.operation.list_number = None;
    }
    draft.operation.date = date;
}

fn set_list_number(draft: &mut Draft, number: Option<ListNumber>) -> Result<(), CommandRefused> {
    draft.operation.list_number = number;
    draft.operation.check()
}

/// Whether a size was measured does not outlive the size.
const fn set_nucleus(draft: &mut Draft, nucleus: Option<Nucleus>) {
    if nucleus.is_none() {
        draft.approach.nucleus_size = None;
    }
    draft.approach.nucleus = nucleus;
}

fn judge_nucleus(draft: &mut Draft, judged: Option<JudgedNucleus>) -> Result<(), CommandRefused> {
    judged.as_ref().map_or(Ok(()), JudgedNucleus::check)?;
    draft.approach.nucleus_judged = judged;
    Ok(())
}

fn set_state(draft: &mut Draft, side: Side, state: EyeState) {
    let eye = draft.eyes.get_mut(side);
    let of_nucleus = |state: &EyeState| {
        let seen = [Sign::Brunescent, Sign::WhiteCataract, Sign::DenseCataract];
        (state.nucleus, seen.map(|sign| sign.of(state)))
    };
    // What somebody judged was judged of the entries as they were.
    if draft.operation.eye == Some(side) && of_nucleus(&eye.state) != of_nucleus(&state) {
        draft.approach.nucleus_judged = None;
    }
    eye.state = state;
}

fn of_lens(
    draft: &mut Draft,
    slot: Slot,
    change: impl FnOnce(&mut ChosenLens),
) -> Result<(), CommandRefused> {
    let lens = draft.lens.lenses.get_mut(slot);
    change(lens.ok_or(CommandRefused::NoLens { slot })?);
    Ok(())
}

fn of_approach(
    draft: &mut Draft,
    change: impl FnOnce(&mut ApproachPlan),
) -> Result<(), CommandRefused> {
    change(&mut draft.approach);
    draft.approach.check()
}

fn choose_eye(draft: &mut Draft, side: Side) -> Result<(), CommandRefused> {
    if let Some(from) = draft.operation.eye
        && from != side
        && !(draft.eyes.right.is_blank() && draft.eyes.left.is_blank())
    {
        return Err(CommandRefused::EyeFixed { from, to: side });
    }
    draft.operation.eye = Some(side);
    Ok(())
}

fn change_eye(draft: &mut Draft, change: EyeChange) -> Result<(), CommandRefused> {
    if draft.operation.eye != Some(change.from) {
        return Err(CommandRefused::OtherEye { from: change.from });
    }
    check_eye_change(&change)?;
    draft.operation.eye = Some(change.to);
    // Nothing that was chosen or agreed for one eye may pass to the other.
    draft.lens.lenses.clear_powers();
    draft.lens.posterior = None;
    draft.lens.target = None;
    draft.lens.consented_target = None;
    draft.lens.ultrasound = None;
    draft.lens.second_eye = None;
    draft.theatre = draft.theatre.for_the_other_eye();
    draft.approach = ApproachPlan::default();
    draft.reasons.clear();
    draft.eye_changes.push(change);
    check_counts(draft)
}

/// No list grows for ever.
pub(crate) fn check_counts(draft: &Draft) -> Result<(), CommandRefused> {
    for (what, count) in [
        ("reasons", draft.reasons.len()),
        ("changes of the eye", draft.eye_changes.len()),
        ("imports", draft.imports.len()),
        ("other cases", draft.other_cases.len()),
    ] {
        plain_text::check_count(what, count)?;
    }
    Ok(())
}

/// A change of eye says why, by whom, and leads to the other eye.
pub(super) fn check_eye_change(change: &EyeChange) -> Result<(), CommandRefused> {
    if change.from == change.to {
        return Err(CommandRefused::SameEye);
    }
    check_said(&change.reason, &change.by)
}

fn record_reason(draft: &mut Draft, reason: RecordedReason) -> Result<(), CommandRefused> {
    check_reason(&reason)?;
    draft
        .reasons
        .retain(|earlier| !earlier.is_for(&reason.rule, reason.backup));
    draft.reasons.push(reason);
    Ok(())
}

fn record_second_look(draft: &mut Draft, look: SecondLook) -> Result<(), CommandRefused> {
    check_second_look(&look)?;
    draft.second_look = Some(look);
    Ok(())
}

fn set_other_cases(draft: &mut Draft, others: Vec<OtherCase>) -> Result<(), CommandRefused> {
    others.iter().try_for_each(OtherCase::check)?;
    draft.other_cases = others;
    check_counts(draft)
}

fn bring_back(draft: &mut Draft) -> Result<(), CommandRefused> {
    let said = draft.set_aside.take();
    said.map(drop).ok_or(CommandRefused::NotSetAside)
}

/// A reason has words, a person and a rule.
pub(super) fn check_reason(reason: &RecordedReason) -> Result<(), CommandRefused> {
    if !is_rule_id(&reason.rule) {
        return Err(CommandRefused::NoSuchRule {
            rule: reason.rule.clone(),
        });
    }
    check_said(&reason.reason, &reason.by)
}

/// A reason has words and a person.
pub(super) fn check_said(reason: &str, name: &str) -> Result<(), CommandRefused> {
    if reason.trim().is_empty() {
        return Err(CommandRefused::ReasonMissing);
    }
    if name.trim().is_empty() {
        return Err(CommandRefused::AuthorMissing);
    }
    plain_text::check("reason", reason)?;
    plain_text::check("name of the person", name)?;
    Ok(())
}

/// Persons and lenses have names that can be printed, and a flat meridian is the flatter one.
pub(crate) fn check_measurements(eye: &EyeRecord) -> Result<(), CommandRefused> {
    for person in Item::ALL.iter().filter_map(|item| item.of(eye)?.by) {
        plain_text::check("name of the person", person)?;
    }
    let earlier = eye.earlier_operation.as_ref();
    if let Some(model) = earlier.and_then(|earlier| earlier.lens_model.as_ref()) {
        plain_text::check("lens model", model)?;
    }
    for keratometry in [&eye.keratometry, &eye.second_keratometry] {
        keratometry.as_ref().map_or(Ok(()), |it| it.value.check())?;
    }
    Ok(())
}

#[cfg(test)]
mod tests;
