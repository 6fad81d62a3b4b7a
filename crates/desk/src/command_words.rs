//! What a command does, in words, for undo and redo.

use millrace_core::case::{Command, Measurement, Reserve, TheatreEntry};

/// "axial length, right eye".
#[must_use]
pub(crate) fn describe(command: &Command) -> String {
    match command {
        Command::Measure(side, measurement) => format!("{}, {side}", measurement_name(measurement)),
        Command::SetState(side, _) => format!("state of the eye, {side}"),
        Command::SetEarlierOperation(side, _) => format!("earlier operation, {side}"),
        Command::ChooseEye(side) => format!("operated eye, {side}"),
        Command::ChangeEye(change) => format!("change to the {}", change.to),
        Command::RecordReason(reason) => format!("reason for {}", reason.rule),
        Command::WithdrawReason { rule } => format!("withdrawn reason for {rule}"),
        Command::ChooseReservePower(which, _) => reserve_name(*which).to_owned(),
        Command::SetTheatre(entry) => theatre_name(entry).to_owned(),
        other => plain(other).to_owned(),
    }
}

const fn plain(command: &Command) -> &'static str {
    match command {
        Command::SetPatient(_) => "patient",
        Command::SetOperationDate(_) => "operation day",
        Command::SetSurgeon(_) => "surgeon's experience",
        Command::SetTarget(_) => "target refraction",
        Command::SetConsentedTarget(_) => "consented target",
        Command::ChooseLens(_) => "lens",
        Command::ChooseFormula(_) => "formula",
        Command::ChooseConvention(_) => "convention",
        Command::ChoosePower(_) => "lens power",
        Command::ChooseSecondEye(_) => "refinement by the first eye",
        Command::ChooseToric(_) => "cylinder and axis",
        Command::ChoosePosterior(_) => "back of the cornea",
        Command::ChooseUltrasound(_) => "use of the ultrasound length",
        Command::UseSumOfSegments(_) => "sum of segments",
        Command::ChooseSpare(_) => "spare lens",
        Command::ChooseChamberLens(_) => "chamber lens",
        Command::ChooseApproach(_) => "approach",
        Command::SetIncision { .. } => "incision",
        Command::SetIncisionEffect(_) => "effect of the incision",
        Command::SetNucleus(_) => "size of the nucleus",
        Command::SetPieces(_) => "number of pieces",
        Command::SetCapsulorhexis(_) => "capsulorhexis",
        Command::RecordSecondLook(_) => "second look",
        _ => "change",
    }
}

const fn reserve_name(which: Reserve) -> &'static str {
    match which {
        Reserve::Spare => "power of the spare lens",
        Reserve::Sulcus => "power for the sulcus",
        Reserve::Chamber => "power of the chamber lens",
    }
}

const fn theatre_name(entry: &TheatreEntry) -> &'static str {
    match entry {
        TheatreEntry::Anesthesia(_) => "anesthesia",
        TheatreEntry::Viscoelastic(_) => "viscoelastic",
        TheatreEntry::Technique(_) => "technique",
        TheatreEntry::InRoom(_) => "things to have in the room",
        TheatreEntry::Allergies(_) => "allergies",
        TheatreEntry::Medicines(_) => "medicines",
    }
}

const fn measurement_name(measurement: &Measurement) -> &'static str {
    match measurement {
        Measurement::AxialLength(_) => "axial length",
        Measurement::Keratometry(_) => "keratometry",
        Measurement::SecondKeratometry(_) => "second keratometry",
        Measurement::ChamberDepth(_) => "chamber depth",
        Measurement::LensThickness(_) => "lens thickness",
        Measurement::CornealThickness(_) => "corneal thickness",
        Measurement::CornealDiameter(_) => "corneal diameter",
        Measurement::Pupil(_) => "pupil",
        Measurement::PosteriorRadius(_) => "posterior radius",
        Measurement::PosteriorAstigmatism(_) => "posterior astigmatism",
        Measurement::Endothelium(_) => "endothelial density",
    }
}
