//! Why a rule did not look: what is missing, or why it does not concern the case.

use crate::biometry::DepthStart;
use crate::rules::{Because, Eyes, Missing, Which};

/// What is missing, without an article or a full stop.
#[must_use]
pub fn missing(missing: Missing) -> String {
    match missing {
        Missing::Measurement { which, of } => {
            let eye = match of {
                Eyes::This => "of the operated eye",
                Eyes::Both => "of both eyes",
            };
            match which {
                Which::DepthFromEpithelium => {
                    format!("anterior chamber depth {eye} from the epithelium")
                }
                _ => format!("{} {eye}", full_name(which)),
            }
        }
        Missing::ThicknessForDepth { from } => {
            let surface = match from {
                DepthStart::Epithelium => "epithelium",
                DepthStart::Endothelium => "endothelium",
            };
            format!("corneal thickness, without which the depth from the {surface} is not known")
        }
        Missing::UsableSpread { which } => format!("usable spread of the {}", full_name(which)),
        other => fixed(other).to_owned(),
    }
}

#[expect(clippy::too_many_lines, reason = "one arm for each")]
const fn fixed(missing: Missing) -> &'static str {
    match missing {
        Missing::Measurement { .. }
        | Missing::ThicknessForDepth { .. }
        | Missing::UsableSpread { .. } => "",
        Missing::LengthAndKeratometryOfBoth => "axial length and keratometry of both eyes",
        Missing::RegularKeratometry => {
            "keratometry of the operated eye with meridians at right angles"
        }
        Missing::RegularSecondKeratometry => {
            "keratometry by another method with meridians at right angles"
        }
        Missing::KeratometryBefore => "keratometry before the corneal surgery",
        Missing::NumberOfReadings => "number of keratometry readings",
        Missing::RepeatDifference => "difference between repeated keratometry readings",
        Missing::ConvertiblePower => "a corneal power that can be converted",
        Missing::ComparablePowers => "corneal powers that can be compared",
        Missing::LengthMethod => "whether light or sound measured the axial length",
        Missing::MeasurementDays => "days of axial length and keratometry",
        Missing::WhoMeasured => "who measured axial length and keratometry",
        Missing::BirthDateAndDay => "birth date and planned day",
        Missing::PlannedDay => "planned day of the operation",
        Missing::Target => "target refraction",
        Missing::Lens => "chosen lens",
        Missing::LensAndTarget => "chosen lens and target",
        Missing::Power => "chosen power",
        Missing::CylinderAndAxis => "chosen cylinder and axis",
        Missing::Formula => "formula the power is chosen by",
        Missing::Convention => "convention by which a power is proposed",
        Missing::Proposal => "a proposed power, since the convention finds none",
        Missing::SpareLens => "spare lens",
        Missing::AveragePower => "average power in the lens record",
        Missing::LensConstant => {
            "constant of the chosen lens for the formula the power is chosen by"
        }
        Missing::EmmetropicPower { of: Eyes::This } => {
            "power for emmetropia by the formula planned by"
        }
        Missing::EmmetropicPower { of: Eyes::Both } => {
            "power for emmetropia of both eyes by the formula planned by"
        }
        Missing::UsableEmmetropicPower { of: Eyes::This } => "a usable power for emmetropia",
        Missing::UsableEmmetropicPower { of: Eyes::Both } => "usable powers for emmetropia",
        Missing::Answer => "an answer of the formula the power is chosen by",
        Missing::TwoAnswers => "answers of two formulas",
        Missing::UsableAnswers => "usable powers of two formulas",
        Missing::UsablePower => "usable power by the formula planned by",
        Missing::ToricAnswer => "an answer about astigmatism of the formula the power is chosen by",
        Missing::StepChance => "chance that the step leaves less than none",
        Missing::CorneaAfter => "astigmatism of the cornea after the operation",
        Missing::SteepMeridian => "steep meridian of the cornea",
        Missing::ExactCylinder => "cylinder that leaves none",
        Missing::WhatIsLeft => "what the chosen cylinder leaves",
        Missing::LeastCylinder => "a cylinder that leaves a known refraction",
        Missing::LadderPrediction => "prediction of the ladder",
        Missing::SiliconeOil => "whether the operated eye holds silicone oil",
        Missing::CornealSurgery => "whether the operated eye had corneal refractive surgery",
        Missing::IrregularCornea => "whether the cornea is irregular",
        Missing::NucleusGrade => "grade of the nucleus",
        Missing::Guttata => "whether there are guttata",
        Missing::Pseudoexfoliation => "whether there is pseudoexfoliation",
        Missing::WeakZonules => "whether there is pseudoexfoliation or phacodonesis",
        Missing::LensDecentration => "how far the lens center lies from the axis",
        Missing::WhiteCataract => "whether the cataract is white",
        Missing::GraftLikely => "whether an endothelial graft with gas is likely",
        Missing::AlphaBlocker => "whether the patient takes, or took, an alpha-blocker",
        Missing::SurgeonGrade => "experience of the surgeon",
        Missing::Approach => "chosen approach",
        Missing::IncisionWidth => "width of the incision",
        Missing::Capsulorhexis => "diameter of the capsulorhexis",
        Missing::Pieces => "number of pieces",
        Missing::Division => "a way of dividing the nucleus into so many pieces",
        Missing::Room => {
            "room in the chamber, which needs keratometry, corneal thickness, chamber depth and the size of the nucleus"
        }
        Missing::UsableRoom => "usable room in the chamber",
        Missing::RiskItems => {
            "items of the risk points, which nobody recorded and which could lift the sum to the limit"
        }
        Missing::OddsFactors => "surgeon, sex, or signs of weak zonules or of a dense cataract",
        Missing::RefinementConditions => {
            "what the conditions of the refinement by the first eye ask for (see \"Second eye\")"
        }
        Missing::UsableDifferenceLimits => "usable limits for the difference of axial length",
        Missing::UsableAgeLimit => "usable limit for the age of measurements",
        Missing::UsableBorderlineChance => "usable limit for the chance of a borderline depth",
    }
}

/// A measurement by the name that is used beside others.
#[must_use]
pub const fn which(which: Which) -> &'static str {
    match which {
        Which::ChamberDepth => "chamber depth",
        other => full_name(other),
    }
}

const fn full_name(which: Which) -> &'static str {
    match which {
        Which::AxialLength => "axial length",
        Which::Keratometry => "keratometry",
        Which::ChamberDepth | Which::DepthFromEpithelium => "anterior chamber depth",
        Which::LensThickness => "lens thickness",
        Which::CornealThickness => "corneal thickness",
        Which::CornealDiameter => "corneal diameter",
        Which::Pupil => "diameter of the dilated pupil",
        Which::Endothelium => "endothelial cell density",
    }
}

/// Why a rule does not concern the case, without a full stop.
#[must_use]
pub const fn because(because: Because) -> &'static str {
    match because {
        Because::NoSecondLook => "no second look is recorded",
        Because::StricterSetOff => "the stricter screening set is switched off",
        Because::LongEye => "the longer eye is long; AL-02 has its limit",
        Because::FromEpithelium => "the depth was given from the epithelium",
        Because::UnusualAfterSurgery => {
            "the cornea had refractive surgery: an unusual value is expected"
        }
        Because::NoCornealSurgery => "no corneal refractive surgery",
        Because::OtherSurgeryUnknown => "which way other corneal surgery changes K is not known",
        Because::FormulaForOperatedCorneas => "the formula planned by is for operated corneas",
        Because::GuidanceForUntouchedCorneas => "guidance by length is not for operated corneas",
        Because::GivenAsRadii => "keratometry was given as radii",
        Because::EqualRadii => "both radii are equal, so there is nothing to compare",
        Because::NoSiliconeOil => "no silicone oil",
        Because::UncorrectedForOil => "the length is uncorrected, which SO-01 stops",
        Because::OpticalLength => "the axial length was measured optically",
        Because::UltrasoundLength => "the axial length was measured by ultrasound",
        Because::UltrasoundConstants => "the lens constants are for ultrasound",
        Because::UseNotChosen => "no choice was made yet, which US-01 asks for",
        Because::NucleusNotHard => "the nucleus does not count as hard",
        Because::NoPrintedTolerance => "only LOCS III prints a tolerance",
        Because::DeliveredWhole => "the nucleus is delivered whole",
        Because::SmallIncisionChosen => "small-incision surgery was chosen",
        Because::NoGuttata => "there are no guttata",
        Because::NoPseudoexfoliation => "there is no pseudoexfoliation",
        Because::IndependentSurgeon => "the surgeon is independent",
        Because::NotInBag => "the chosen lens does not sit in the capsular bag",
        Because::NoConstantTaken => "the thick-lens eye takes no lens constant",
        Because::ConvertedConstant => "the constant is converted; see CT-01",
        Because::NotHydrophilic => "the chosen lens is not of hydrophilic acrylic",
        Because::NoChamberLens => "no lens for the anterior chamber was chosen",
        Because::Toric => "the chosen lens is toric",
        Because::NotToric => "the chosen lens is not toric",
        Because::LabelIsEquivalent => "the label of the chosen lens names its spherical equivalent",
        Because::NoEarlierOperation => "no earlier operation on the fellow eye is recorded",
        Because::RefinementNotChosen => "nobody chose a refinement by the first eye",
        Because::RefinementDeclined => "the refinement by the first eye was declined",
        Because::RefinementConditionNotMet => {
            "a condition of the refinement by the first eye is not met"
        }
    }
}
