//! What a change of a case is called, for undo and redo.

pub use crate::desk::biometry::of_eye;
pub use crate::desk::lens::sum_of_segments;

use std::borrow::Cow;

use millrace_core::case::{Command, TheatreEntry};

use crate::{Show, Words, rules};

messages! {
    changed_to(eye) = "change to the {eye}";
    reason_for(rule) = "reason for {rule}";
    withdrawn(rule) = "withdrawn reason for {rule}";
    taken_over = "taking over what was saved elsewhere";

    state = "state of the eye";
    earlier_operation = "earlier operation";
    operated_eye = "operative eye";
    patient = "patient";
    operation_day = "operation day";
    list_number = "place in the order of the day";
    surgeon = "surgeon's experience";
    target = "target refraction";
    consented_target = "consented target";
    formula = "formula";
    convention = "convention";
    usual_plan = "what is planned with as usual";
    power_of(lens) = "power, {lens}";
    second_eye = "refinement by the first eye";
    toric_of(lens) = "cylinder and axis, {lens}";
    posterior = "posterior cornea";
    ultrasound = "use of the ultrasound length";
    approach = "approach";
    incision = "incision";
    incision_effect = "surgically induced astigmatism (SIA)";
    nucleus = "size of the nucleus";
    nucleus_judged = "judgment of the nucleus";
    nucleus_size = "how the size of the nucleus is known";
    pieces = "number of pieces";
    working_plane = "working plane";
    deepening = "deepening by irrigation";
    delivery = "parts of the nucleus";
    tunnel_lips = "length of the tunnel's lips";
    capsulorhexis = "capsulorhexis";
    second_look = "second look";
    other = "change";
    set_aside = "setting aside";
    brought_back = "bringing back";
    other_cases = "what is known of other cases";

    anesthesia = "anesthesia";
    viscoelastic = "viscoelastic";
    technique = "technique";
    in_room = "things to have in the room";
    allergies = "allergies";
    medicines = "medications";
}

impl Show for Command {
    /// "axial length, right eye".
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Measure(side, measurement) => of_eye(words, measurement.item(), side),
            Self::SetState(side, _) => of_eye(words, state(words), side),
            Self::SetEarlierOperation(side, _) => of_eye(words, earlier_operation(words), side),
            Self::ChooseEye(side) => of_eye(words, operated_eye(words), side),
            Self::ChangeEye(change) => changed_to(words, change.to),
            Self::RecordReason(reason) => {
                reason_for(words, rules::id(words, &reason.rule, reason.backup))
            }
            Self::WithdrawReason { rule, backup } => {
                withdrawn(words, rules::id(words, rule, *backup))
            }
            Self::ChooseLens(slot, ..) => return slot.show(words),
            Self::ChoosePower(slot, _) => power_of(words, slot),
            Self::ChooseToric(slot, _) => toric_of(words, slot),
            other => return plain(other)(words).into(),
        }
        .into()
    }
}

fn plain(command: &Command) -> fn(Words) -> &'static str {
    match command {
        Command::SetPatient(_) => patient,
        Command::SetOperationDate(_) => operation_day,
        Command::SetListNumber(_) => list_number,
        Command::SetSurgeon(_) => surgeon,
        Command::SetTarget(_) => target,
        Command::SetConsentedTarget(_) => consented_target,
        Command::ChooseFormula(_) => formula,
        Command::ChooseConvention(_) => convention,
        Command::PlanAsUsual(_) => usual_plan,
        Command::ChooseSecondEye(_) => second_eye,
        Command::ChoosePosterior(_) => posterior,
        Command::ChooseUltrasound(_) => ultrasound,
        Command::UseSumOfSegments(_) => sum_of_segments,
        Command::ChooseApproach(_) => approach,
        Command::SetIncision { .. } => incision,
        Command::SetIncisionEffect(_) => incision_effect,
        Command::SetNucleus(_) => nucleus,
        Command::JudgeNucleus(_) => nucleus_judged,
        Command::SetNucleusSize(_) => nucleus_size,
        Command::SetPieces(_) => pieces,
        Command::ChoosePlane(_) => working_plane,
        Command::SetDeepening(_) => deepening,
        Command::ChooseDelivery(_) => delivery,
        Command::SetTunnelLips(_) => tunnel_lips,
        Command::SetCapsulorhexis(_) => capsulorhexis,
        Command::RecordSecondLook(_) => second_look,
        Command::SetAside(_) => set_aside,
        Command::BringBack => brought_back,
        Command::SetOtherCases(_) => other_cases,
        Command::SetTheatre(entry) => match entry {
            TheatreEntry::Anesthesia(_) => anesthesia,
            TheatreEntry::Viscoelastic(_) => viscoelastic,
            TheatreEntry::Technique(_) => technique,
            TheatreEntry::InRoom(_) => in_room,
            TheatreEntry::Allergies(_) => allergies,
            TheatreEntry::Medicines(_) => medicines,
        },
        _ => other,
    }
}
