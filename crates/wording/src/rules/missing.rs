//! Why a rule did not look: what is missing, without an article, or why it does not concern the case.

use millrace_core::biometry::Item;
use millrace_core::rules::{Because, Eyes, Missing, Which};

use crate::measurements::name;

messages! {
    depth_from_epithelium(of_eye) = "anterior chamber depth {of_eye} from the epithelium";
    measurement(which, of_eye) = "{which} {of_eye}";
    emmetropic_power = "power for emmetropia by the chosen formula";
    emmetropic_powers = "power for emmetropia of one or both eyes by the chosen formula";
    usable_emmetropic_power = "a usable power for emmetropia";
    usable_emmetropic_powers = "a usable power for emmetropia of one or both eyes";
}

shown! { Missing, words {
    ThicknessForDepth { from } = "corneal thickness to convert the depth {from}";
    UsableSpread { which } = "a usable spread of the {which}";
    LengthAndKeratometryOfBoth = "axial length or keratometry of one or both eyes";
    RegularKeratometry = "keratometry of the operative eye with meridians at right angles";
    RegularSecondKeratometry = "keratometry by another method with meridians at right angles";
    KeratometryBefore = "keratometry before the corneal surgery";
    NumberOfReadings = "number of keratometry readings";
    RepeatDifference = "difference between repeated keratometry readings";
    ConvertiblePower = "a corneal power that can be converted";
    ComparablePowers = "a corneal power that can be compared";
    LengthMethod = "method of the axial length (optical or ultrasound)";
    MeasurementDays = "day of axial length or keratometry";
    WhoMeasured = "name of the person who measured axial length or keratometry";
    BirthDateAndDay = "birth date or operation day";
    PlannedDay = "operation day";
    Target = "target refraction";
    Lens = "chosen lens";
    LensAndTarget = "chosen lens or target";
    Power = "chosen power";
    CylinderAndAxis = "chosen cylinder or axis";
    Formula = "chosen formula";
    Convention = "convention by which a power is proposed";
    Proposal = "a proposed power, since the convention finds none";
    BackupLens = "backup lens";
    AveragePower = "average power in the lens record";
    AConstant = "A constant that the others are said to be converted from";
    LensConstant = "constant of the chosen lens for the chosen formula";
    Answer = "a result of the chosen formula";
    TwoAnswers = "a result of two formulas";
    UsableAnswers = "a usable power by each of two formulas";
    UsablePower = "a usable power by the chosen formula";
    ToricAnswer = "an astigmatism result of the chosen formula";
    StepChance = "chance that this cylinder leaves less than none";
    CorneaAfter = "astigmatism of the cornea after the operation";
    SteepMeridian = "steep meridian of the cornea";
    ExactCylinder = "cylinder that leaves none";
    WhatIsLeft = "what the chosen cylinder leaves";
    LeastCylinder = "a cylinder that leaves a known refraction";
    LadderPrediction = "prediction of the lens power table";
    FellowRefraction = "refraction of the fellow eye";
    RefractionOfBoth = "refraction of one or both eyes";
    SiliconeOil = "silicone oil (yes or no)";
    CornealSurgery = "corneal refractive surgery (yes or no)";
    IrregularCornea = "irregular cornea (yes or no)";
    NucleusGrade = "grade of the nucleus";
    Guttata = "guttata (yes or no)";
    Pseudoexfoliation = "pseudoexfoliation (yes or no)";
    WeakZonules = "pseudoexfoliation or phacodonesis (yes or no)";
    LensDecentration = "lens decentration";
    WhiteCataract = "white cataract (yes or no)";
    GraftLikely = "corneal graft likely (yes or no)";
    Sign(sign) = "{sign} (yes or no)";
    Anticoagulant = "anticoagulants or antiplatelet drugs (yes or no)";
    Anesthesia = "kind of anesthesia";
    ContactLenses = "contact lenses (worn or not)";
    LastWorn = "last day with contact lenses";
    KeratometryDay = "day of keratometry";
    AlphaBlocker = "alpha-blocker now or before (yes or no)";
    SurgeonGrade = "experience of the surgeon";
    Approach = "chosen approach";
    IncisionWidth = "width of the incision";
    Capsulorhexis = "diameter of the capsulorhexis";
    Pieces = "number of pieces";
    WorkingPlane = "plane in which the pieces are worked on";
    PlaneUnderCornea = "a working plane in front of the middle of the corneal sphere";
    NucleusSize = "size of the nucleus";
    Delivery = "in how many parts the nucleus is delivered";
    TunnelLips = "width of the incision or length of the tunnel's lips";
    Division = "a way of dividing the nucleus into so many pieces";
    Room = "keratometry, corneal thickness, anterior chamber depth or the size of the nucleus";
    UsableRoom = "a usable room in the chamber";
    RiskItems = "an item of the risk points that could lift the sum to the limit";
    OddsFactors = "surgeon, sex, or a sign of weak zonules or of a dense cataract";
    RefinementConditions = "an entry that the refinement by the first eye asks for (see \"Second eye\")";
    UsableDifferenceLimits = "a usable limit for the difference of axial length";
    UsableAgeLimit = "a usable limit for the age of measurements";
    UsableBorderlineChance = "a usable limit for the chance of a borderline depth";
} else {
    Self::Measurement { which: Which::DepthFromEpithelium, of } => depth_from_epithelium(words, of).into(),
    Self::Measurement { which, of } => measurement(words, which, of).into(),
    Self::EmmetropicPower { of: Eyes::This } => emmetropic_power(words).into(),
    Self::EmmetropicPower { of: Eyes::Both } => emmetropic_powers(words).into(),
    Self::UsableEmmetropicPower { of: Eyes::This } => usable_emmetropic_power(words).into(),
    Self::UsableEmmetropicPower { of: Eyes::Both } => usable_emmetropic_powers(words).into(),
}}

shown! { Eyes, words {
    This = "of the operative eye";
    Both = "of one or both eyes";
}}

shown! { Which, words {
    DepthFromEpithelium = "anterior chamber depth from the epithelium";
} else {
    Self::AxialLength => name(words, Item::AxialLength).into(),
    Self::Keratometry => name(words, Item::Keratometry).into(),
    Self::ChamberDepth => name(words, Item::ChamberDepth).into(),
    Self::LensThickness => name(words, Item::LensThickness).into(),
    Self::CornealThickness => name(words, Item::CornealThickness).into(),
    Self::CornealDiameter => name(words, Item::CornealDiameter).into(),
    Self::Pupil => name(words, Item::Pupil).into(),
    Self::Endothelium => name(words, Item::Endothelium).into(),
}}

shown! { Because, words {
    NoSecondLook = "no second look is recorded";
    StricterSetOff = "the stricter screening set is switched off";
    LongEye = "the longer eye is long; AL-02 has its limit";
    FromEpithelium = "the depth was given from the epithelium";
    UnusualAfterSurgery = "the cornea had refractive surgery: an unusual value is expected";
    NoCornealSurgery = "no corneal refractive surgery";
    OtherSurgeryUnknown = "which way other corneal surgery changes K is not known";
    FormulaForOperatedCorneas = "the chosen formula is for corneas after refractive surgery";
    GuidanceForUntouchedCorneas = "guidance by length is not for corneas after refractive surgery";
    GivenAsRadii = "keratometry was given as radii";
    EqualRadii = "both radii are equal, so there is nothing to compare";
    NoSiliconeOil = "no silicone oil";
    UncorrectedForOil = "the length is uncorrected, which SO-01 stops";
    OpticalLength = "the axial length was measured optically";
    UltrasoundLength = "the axial length was measured by ultrasound";
    UltrasoundConstants = "the lens constants are for ultrasound";
    UseNotChosen = "no choice was made yet, which US-01 asks for";
    NucleusJudged = "somebody judged the nucleus, with a reason";
    NucleusNotHard = "the nucleus does not count as hard";
    NoPrintedTolerance = "only LOCS III prints a tolerance";
    DeliveredWhole = "the nucleus is delivered whole";
    PhacoemulsificationChosen = "phacoemulsification was chosen";
    DeliveredInParts = "the nucleus is delivered in parts";
    LimitOff = "the limit is switched off";
    BeyondTearing = "the capsulorhexis would tear, which CL-05 says";
    NotContactUltrasound = "the chamber depth was not measured by contact ultrasound";
    SmallIncisionChosen = "small-incision surgery was chosen";
    NoOwnSpread = "no measurement brought a spread of its own";
    NoContactLenses = "no contact lenses are worn";
    NoGuttata = "there are no guttata";
    NoPseudoexfoliation = "there is no pseudoexfoliation";
    Pseudoexfoliation = "there is pseudoexfoliation, for which PX-01 to PX-04 speak";
    IndependentSurgeon = "the surgeon is independent";
    NotInBag = "the chosen lens does not sit in the capsular bag";
    WiderLimitExceeded = "another rule, with a wider limit, speaks of it";
    EarlierOperation = "one of the eyes had its cataract operation";
    OrdinaryLength = "at this length the formulas agree";
    NoConstantTaken = "the thick-lens eye takes no lens constant";
    NoPowerOfBackup = "no power of it is chosen";
    NoResult = "no formula gives a result, which PW-04 stops";
    FartherOff = "it is so far off that PW-06 speaks of it";
    NothingConverted = "no constant of the lens is called converted";
    OneConstant = "fewer than two constants of the lens are given or optimized";
    FartherApart = "they are so far apart that CT-06 stops them";
    NoOtherRecord = "no other record of a chosen model is known";
    NoSulcusLens = "no lens is meant for the sulcus";
    ConvertedConstant = "the constant is converted; see CT-01";
    NotHydrophilic = "the chosen lens is not of hydrophilic acrylic";
    NoAnteriorChamberIol = "no anterior chamber IOL was chosen";
    Toric = "the chosen lens is toric";
    NotToric = "the chosen lens is not toric";
    LabelIsWeakest = "the label of the chosen lens names its weakest meridian; see TO-11";
    MeanOfPowers = "the chosen formula takes the mean of the corneal powers in both places";
    LabelIsEquivalent = "the label of the chosen lens names its spherical equivalent";
    NoEarlierOperation = "no earlier operation on the fellow eye is recorded";
    RefinementNotChosen = "no refinement by the first eye was chosen";
    RefinementDeclined = "the refinement by the first eye was declined";
    RefinementConditionNotMet = "a condition of the refinement by the first eye is not met";
}}
