//! Why a rule did not look: what is missing, without an article, or why it does not concern the case.

use millrace_core::rules::{Because, Eyes, Missing, Which};

messages! {
    depth_from_epithelium(of_eye) = "anterior chamber depth {of_eye} from the epithelium";
    measurement(which, of_eye) = "{which} {of_eye}";
    emmetropic_power = "power for emmetropia by the formula planned by";
    emmetropic_powers = "power for emmetropia of both eyes by the formula planned by";
    usable_emmetropic_power = "a usable power for emmetropia";
    usable_emmetropic_powers = "usable powers for emmetropia";
}

shown! { Missing, words {
    ThicknessForDepth { from } = "corneal thickness, without which the depth {from} is not known";
    UsableSpread { which } = "usable spread of the {which}";
    LengthAndKeratometryOfBoth = "axial length and keratometry of both eyes";
    RegularKeratometry = "keratometry of the operated eye with meridians at right angles";
    RegularSecondKeratometry = "keratometry by another method with meridians at right angles";
    KeratometryBefore = "keratometry before the corneal surgery";
    NumberOfReadings = "number of keratometry readings";
    RepeatDifference = "difference between repeated keratometry readings";
    ConvertiblePower = "a corneal power that can be converted";
    ComparablePowers = "corneal powers that can be compared";
    LengthMethod = "whether light or sound measured the axial length";
    MeasurementDays = "days of axial length and keratometry";
    WhoMeasured = "who measured axial length and keratometry";
    BirthDateAndDay = "birth date and planned day";
    PlannedDay = "planned day of the operation";
    Target = "target refraction";
    Lens = "chosen lens";
    LensAndTarget = "chosen lens and target";
    Power = "chosen power";
    CylinderAndAxis = "chosen cylinder and axis";
    Formula = "formula the power is chosen by";
    Convention = "convention by which a power is proposed";
    Proposal = "a proposed power, since the convention finds none";
    BackupLens = "backup lens";
    AveragePower = "average power in the lens record";
    LensConstant = "constant of the chosen lens for the formula the power is chosen by";
    Answer = "an answer of the formula the power is chosen by";
    TwoAnswers = "answers of two formulas";
    UsableAnswers = "usable powers of two formulas";
    UsablePower = "usable power by the formula planned by";
    ToricAnswer = "an answer about astigmatism of the formula the power is chosen by";
    StepChance = "chance that the step leaves less than none";
    CorneaAfter = "astigmatism of the cornea after the operation";
    SteepMeridian = "steep meridian of the cornea";
    ExactCylinder = "cylinder that leaves none";
    WhatIsLeft = "what the chosen cylinder leaves";
    LeastCylinder = "a cylinder that leaves a known refraction";
    LadderPrediction = "prediction of the ladder";
    SiliconeOil = "whether the operated eye holds silicone oil";
    CornealSurgery = "whether the operated eye had corneal refractive surgery";
    IrregularCornea = "whether the cornea is irregular";
    NucleusGrade = "grade of the nucleus";
    Guttata = "whether there are guttata";
    Pseudoexfoliation = "whether there is pseudoexfoliation";
    WeakZonules = "whether there is pseudoexfoliation or phacodonesis";
    LensDecentration = "how far the lens center lies from the axis";
    WhiteCataract = "whether the cataract is white";
    GraftLikely = "whether an endothelial graft with gas is likely";
    AlphaBlocker = "whether the patient takes, or took, an alpha-blocker";
    SurgeonGrade = "experience of the surgeon";
    Approach = "chosen approach";
    IncisionWidth = "width of the incision";
    Capsulorhexis = "diameter of the capsulorhexis";
    Pieces = "number of pieces";
    Division = "a way of dividing the nucleus into so many pieces";
    Room = "room in the chamber, which needs keratometry, corneal thickness, chamber depth and the size of the nucleus";
    UsableRoom = "usable room in the chamber";
    RiskItems = "items of the risk points, which nobody recorded and which could lift the sum to the limit";
    OddsFactors = "surgeon, sex, or signs of weak zonules or of a dense cataract";
    RefinementConditions = "what the conditions of the refinement by the first eye ask for (see \"Second eye\")";
    UsableDifferenceLimits = "usable limits for the difference of axial length";
    UsableAgeLimit = "usable limit for the age of measurements";
    UsableBorderlineChance = "usable limit for the chance of a borderline depth";
} else {
    Self::Measurement { which: Which::DepthFromEpithelium, of } => depth_from_epithelium(words, of).into(),
    Self::Measurement { which, of } => measurement(words, which, of).into(),
    Self::EmmetropicPower { of: Eyes::This } => emmetropic_power(words).into(),
    Self::EmmetropicPower { of: Eyes::Both } => emmetropic_powers(words).into(),
    Self::UsableEmmetropicPower { of: Eyes::This } => usable_emmetropic_power(words).into(),
    Self::UsableEmmetropicPower { of: Eyes::Both } => usable_emmetropic_powers(words).into(),
}}

shown! { Eyes, words {
    This = "of the operated eye";
    Both = "of both eyes";
}}

shown! { Which, words {
    AxialLength = "axial length";
    Keratometry = "keratometry";
    ChamberDepth = "anterior chamber depth";
    DepthFromEpithelium = "anterior chamber depth from the epithelium";
    LensThickness = "lens thickness";
    CornealThickness = "corneal thickness";
    CornealDiameter = "corneal diameter";
    Pupil = "diameter of the dilated pupil";
    Endothelium = "endothelial cell density";
}}

shown! { Because, words {
    NoSecondLook = "no second look is recorded";
    StricterSetOff = "the stricter screening set is switched off";
    LongEye = "the longer eye is long; AL-02 has its limit";
    FromEpithelium = "the depth was given from the epithelium";
    UnusualAfterSurgery = "the cornea had refractive surgery: an unusual value is expected";
    NoCornealSurgery = "no corneal refractive surgery";
    OtherSurgeryUnknown = "which way other corneal surgery changes K is not known";
    FormulaForOperatedCorneas = "the formula planned by is for operated corneas";
    GuidanceForUntouchedCorneas = "guidance by length is not for operated corneas";
    GivenAsRadii = "keratometry was given as radii";
    EqualRadii = "both radii are equal, so there is nothing to compare";
    NoSiliconeOil = "no silicone oil";
    UncorrectedForOil = "the length is uncorrected, which SO-01 stops";
    OpticalLength = "the axial length was measured optically";
    UltrasoundLength = "the axial length was measured by ultrasound";
    UltrasoundConstants = "the lens constants are for ultrasound";
    UseNotChosen = "no choice was made yet, which US-01 asks for";
    NucleusNotHard = "the nucleus does not count as hard";
    NoPrintedTolerance = "only LOCS III prints a tolerance";
    DeliveredWhole = "the nucleus is delivered whole";
    SmallIncisionChosen = "small-incision surgery was chosen";
    NoGuttata = "there are no guttata";
    NoPseudoexfoliation = "there is no pseudoexfoliation";
    IndependentSurgeon = "the surgeon is independent";
    NotInBag = "the chosen lens does not sit in the capsular bag";
    NoConstantTaken = "the thick-lens eye takes no lens constant";
    ConvertedConstant = "the constant is converted; see CT-01";
    NotHydrophilic = "the chosen lens is not of hydrophilic acrylic";
    NoAnteriorChamberIol = "no anterior chamber IOL was chosen";
    Toric = "the chosen lens is toric";
    NotToric = "the chosen lens is not toric";
    LabelIsEquivalent = "the label of the chosen lens names its spherical equivalent";
    NoEarlierOperation = "no earlier operation on the fellow eye is recorded";
    RefinementNotChosen = "nobody chose a refinement by the first eye";
    RefinementDeclined = "the refinement by the first eye was declined";
    RefinementConditionNotMet = "a condition of the refinement by the first eye is not met";
}}
