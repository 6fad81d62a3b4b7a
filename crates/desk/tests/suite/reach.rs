//! Every command and every measurement has a page that reaches it: what a person does there, by the
//! names a screen reader says, changes the draft exactly as the command does.

use crate::reach_measurements::{HIGH, Window, measure, measured, one_eye, pick};
use crate::support::{Bench, HARD_AND_SHALLOW, click, date, demo, enter, fill, harness, light};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use millrace_core::astigmatism::{IncisionEffect, PosteriorChoice};
use millrace_core::biometry::{EarlierOperation, Item, Side};
use millrace_core::case::{
    Approach, Command, Draft, EyeChange, JudgedNucleus, ListNumber, Patient, RecordedReason,
    SecondEyeChoice, SecondLook, SetAside, Slot, SurgeonGrade, TheatreEntry, UltrasoundChoice,
    UsualPlan, update,
};
use millrace_core::chamber::{Delivery, Nucleus, NucleusSize, WorkingPlane};
use millrace_core::finding::{Doubt, OtherCase};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::{Place, PowerLabel, ToricChoice, ToricSteps};
use millrace_core::quantity::{Direction, HundredthDiopters, Meridian, Micrometers};
use millrace_core::rules::{Limit, Quantity};
use millrace_desk::exchange::{CaseId, Revision};
use millrace_desk::settings::{Settings, UsualLens};
use millrace_desk::whereabouts::Page;

const ASTIGMATIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
const CONTACT: &str = include_str!("../../../../demo-data/cases/contact-ultrasound-only.ron");
const SECOND_EYE: &str = include_str!("../../../../demo-data/cases/second-eye.ron");

/// How a person makes a command come out.
struct Way {
    name: &'static str,
    page: Page,
    /// The case before.
    start: fn() -> Draft,
    act: fn(&mut Window),
    /// What comes out.
    command: fn(&Draft) -> Command,
}

/// The ways, and the name of the way of a command: a new command does not compile without one.
macro_rules! ways {
    ($($name:ident $pattern:tt => $page:ident, $start:expr, $act:expr, $command:expr;)*) => {
        const WAYS: &[Way] = &[$(Way {
            name: stringify!($name),
            page: Page::$page,
            start: $start,
            act: $act,
            command: $command,
        }),*];

        fn name_of(command: &Command) -> &'static str {
            use Command as C;
            match command {
                $(C::$name $pattern => stringify!($name),)*
            }
        }
    };
}

fn hard() -> Draft {
    demo(HARD_AND_SHALLOW)
}

const BAG: Slot = Slot::Backup(Place::Bag);
const SULCUS: Slot = Slot::Backup(Place::Sulcus);
const IN_CHAMBER: Slot = Slot::Backup(Place::AnteriorChamber);

/// Choosing the lens that the hard eye has there.
fn chosen(slot: Slot) -> Command {
    let lens = hard().lens.lenses.get(slot).map(|lens| lens.record.clone());
    Command::ChooseLens(slot, lens.map(Box::new), Vec::new())
}

fn power(hundredths: i32) -> HundredthDiopters {
    HundredthDiopters::new(hundredths)
}

fn press(window: &mut Window, name: &str, keys: &[Key]) {
    window.get_by_label(name).focus();
    window.run();
    for key in keys {
        window.key_press(*key);
        window.run();
    }
}

ways! {
    SetPatient (_) => Biometry, Draft::default, |window| fill(window, "Name", "Vane, Ida"), |_| {
        Command::SetPatient(Patient {
            name: Some("Vane, Ida".to_owned()),
            ..Patient::default()
        })
    };
    SetOperationDate (_) => Biometry, Draft::default,
        |window| fill(window, "Operation day", "2026-12-03"),
        |_| Command::SetOperationDate(Some(date(2026, 12, 3)));
    SetListNumber (_) => Biometry, hard, |window| {
        let mut other = hard();
        other.patient.name = Some("Vane, Ida".to_owned());
        let stored = (CaseId("other".to_owned()), Revision("1".to_owned()), other);
        window.state_mut().cases.push(stored);
        click(window, "Day");
        click(window, "Later, Okonjo, Adaeze");
    }, |_| Command::SetListNumber(ListNumber::try_from(2).ok());
    SetSurgeon (_) => Biometry, Draft::default, |window| click(window, "Surgeon, trainee"),
        |_| Command::SetSurgeon(Some(SurgeonGrade::Trainee));
    ChooseEye (_) => Biometry, Draft::default,
        |window| click(window, "Operative eye, Right eye"),
        |_| Command::ChooseEye(Side::Right);
    ChangeEye (_) => Biometry, hard, |window| {
        click(window, "Change the operative eye…");
        fill(window, "Reason for the change", "Listed wrongly");
        click(window, "Change to the left eye");
    }, |_| Command::ChangeEye(EyeChange {
        from: Side::Right,
        to: Side::Left,
        reason: "Listed wrongly".to_owned(),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 24),
    });
    Measure (..) => Biometry, one_eye, |window| measure(window, Item::LensThickness),
        |_| Command::Measure(Side::Right, measured(Item::LensThickness));
    SetState (..) => Biometry, hard, |window| click(window, "Guttata, yes"), |draft| {
        let mut state = draft.eyes.right.state.clone();
        state.guttata = Some(true);
        Command::SetState(Side::Right, Box::new(state))
    };
    SetEarlierOperation (..) => Biometry, hard, |window| {
        enter(window, "Implanted power", "+21.5");
        fill(window, "Predicted refraction, sphere", "-0.27");
        fill(window, "Predicted refraction, cylinder", "0");
        fill(window, "Achieved refraction, sphere", "-0.50");
        fill(window, "Achieved refraction, cylinder", "-0.75");
        fill(window, "Achieved refraction, axis", "90");
        click(window, "Complicated, no");
    }, |_| Command::SetEarlierOperation(Side::Right, Some(EarlierOperation {
        lens_power: power(2_150),
        predicted: "-0.27 D".parse().unwrap(),
        achieved: "-0.50 D / -0.75 D x 90".parse().unwrap(),
        formula: None,
        lens_model: None,
        complicated: Some(false),
    }));
    SetTarget (_) => Lens, hard, |window| fill(window, "Target", "-0.75"),
        |_| Command::SetTarget(Some(power(-75)));
    SetConsentedTarget (_) => Lens, hard, |window| fill(window, "Consented target", "-0.75"),
        |_| Command::SetConsentedTarget(Some(power(-75)));
    ChooseLens (Slot::Planned, ..) => Lens, without_lenses,
        |window| pick(window, "Planned lens", "Weir one-piece, model Weir Q"),
        |_| chosen(Slot::Planned);
    ChooseLens (BAG, ..) => Lens, without_lenses,
        |window| pick(window, "Backup lens for the bag", "Sluice three-piece, model Sluice B"),
        |_| chosen(BAG);
    ChooseLens (SULCUS, ..) => Lens, without_lenses,
        |window| pick(window, "Backup lens for the sulcus", "Sluice three-piece, model Sluice B"),
        |_| chosen(SULCUS);
    ChooseLens (IN_CHAMBER, ..) => Lens, without_lenses,
        |window| pick(window, "Anterior chamber IOL", "Penstock AC, model Penstock A"),
        |_| chosen(IN_CHAMBER);
    ChooseFormula (_) => Lens, without_lenses, |window| pick(window, "Formula", "T2"),
        |_| Command::ChooseFormula(Some(Formula::T2));
    ChooseConvention (_) => Lens, hard, |window| click(window, "Proposed power, nearest"),
        |_| Command::ChooseConvention(Some(Convention::Nearest));
    PlanAsUsual (_) => Lens, without_lenses,
        |window| click(window, "Use mine: Weir one-piece, model Weir Q, SRK/T, first myopic"),
        |_| Command::PlanAsUsual(Box::new(UsualPlan {
            lens: hard().lens.record().map(|record| (record.clone(), Vec::new())),
            formula: Some(Formula::SrkT),
            convention: Some(Convention::FirstMyopic),
        }));
    ChoosePower (Slot::Planned, _) => Lens, hard,
        |window| press(window, "Lens power table", &[Key::ArrowDown]),
        |_| Command::ChoosePower(Slot::Planned, Some(power(2_300)));
    ChooseSecondEye (_) => Lens, || demo(SECOND_EYE),
        |window| click(window, "Prediction of the second eye, refined"),
        |_| Command::ChooseSecondEye(Some(SecondEyeChoice::Refined));
    ChooseToric (Slot::Planned, _) => Lens, || demo(ASTIGMATIC),
        |window| press(window, "Cylinder of the lens", &[Key::ArrowDown]), |draft| {
        let axis = draft.lens.toric().unwrap().axis;
        Command::ChooseToric(Slot::Planned, Some(ToricChoice { cylinder: power(320), axis }))
    };
    ChoosePosterior (_) => Lens, hard, |window| click(window, "Posterior cornea, left out"),
        |_| Command::ChoosePosterior(Some(PosteriorChoice::LeftOut));
    ChooseUltrasound (_) => Lens, || demo(CONTACT), |window| {
        let added = "with the mean difference of contact ultrasound added";
        pick(window, "Ultrasound length", added);
    }, |_| Command::ChooseUltrasound(Some(UltrasoundChoice::AddPublishedDifference));
    UseSumOfSegments (_) => Lens, hard,
        |window| click(window, "Length of the thick-lens eye, sum of segments"),
        |_| Command::UseSumOfSegments(true);
    ChoosePower (BAG, _) => Sheet, hard,
        |window| fill(window, "Backup lens for the bag, power", "+21.5"),
        |_| Command::ChoosePower(BAG, Some(power(2_150)));
    ChoosePower (SULCUS, _) => Sheet, hard,
        |window| fill(window, "Backup lens for the sulcus, power", "+20.5"),
        |_| Command::ChoosePower(SULCUS, Some(power(2_050)));
    ChoosePower (IN_CHAMBER, _) => Sheet, hard,
        |window| fill(window, "Anterior chamber IOL, power", "+19"),
        |_| Command::ChoosePower(IN_CHAMBER, Some(power(1_900)));
    ChooseToric (Slot::Backup(_), _) => Sheet, with_toric_backup, |window| {
        pick(window, "Backup lens for the bag, cylinder", "+1.50 D");
        fill(window, "Backup lens for the bag, axis", "88");
    }, |_| {
        let axis = Meridian::new(88).unwrap();
        Command::ChooseToric(BAG, Some(ToricChoice { cylinder: power(150), axis }))
    };
    ChooseApproach (_) => Approach, hard, |window| click(window, "Approach, Not decided"),
        |_| Command::ChooseApproach(None);
    SetIncision {..} => Approach, hard, |window| fill(window, "Direction", "95"),
        |draft| Command::SetIncision {
            width: draft.approach.incision_width,
            direction: Direction::new(95).ok(),
        };
    SetIncisionEffect (_) => Approach, hard, |window| {
        click(window, "Your own surgically induced astigmatism (SIA)");
        fill(window, "Flattening", "0.25");
        fill(window, "Scatter (SD)", "0.35");
        fill(window, "Number of eyes", "60");
    }, |_| Command::SetIncisionEffect(IncisionEffect::new(power(25), power(35), 60, None).ok());
    SetNucleus (_) => Approach, hard, |window| fill(window, "Nucleus diameter", "8.4"), |draft| {
        let thickness = draft.approach.nucleus.unwrap().thickness();
        Command::SetNucleus(Nucleus::new(Micrometers::new(8_400), thickness).ok())
    };
    JudgeNucleus (_) => Approach, hard, |window| {
        click(window, "Judge it not hard…");
        fill(window, "Reason for the judgment", "Soft in the fellow eye");
        click(window, "Record the judgment");
    }, |_| Command::JudgeNucleus(Some(JudgedNucleus {
        hard: false,
        reason: "Soft in the fellow eye".to_owned(),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 24),
    }));
    SetPieces (_) => Approach, in_pieces,
        |window| press(window, "Number of pieces", &[Key::ArrowDown]),
        |_| Command::SetPieces(Some(6));
    SetNucleusSize (_) => Approach, hard, |window| click(window, "Size is, Measured"),
        |_| Command::SetNucleusSize(Some(NucleusSize::Measured));
    ChoosePlane (_) => Approach, hard, |window| click(window, "Working plane, In the bag"),
        |_| Command::ChoosePlane(Some(WorkingPlane::Bag));
    SetDeepening (_) => Approach, hard, |window| fill(window, "Deepening", "0.33"),
        |_| Command::SetDeepening(Some(Micrometers::new(330)));
    ChooseDelivery (_) => Approach, hard, |window| click(window, "Delivered, In 2 parts"),
        |_| Command::ChooseDelivery(Some(Delivery::Halves));
    SetTunnelLips (_) => Approach, hard, |window| fill(window, "Length of lips", "8"),
        |_| Command::SetTunnelLips(Some(Micrometers::new(8_000)));
    SetCapsulorhexis (_) => Approach, hard, |window| fill(window, "Capsulorhexis", "5.5"),
        |_| Command::SetCapsulorhexis(Some(Micrometers::new(5_500)));
    SetTheatre (_) => Sheet, hard, |window| fill(window, "Viscoelastic", "cohesive"),
        |_| Command::SetTheatre(TheatreEntry::Viscoelastic(Some("cohesive".to_owned())));
    RecordReason (_) => Biometry, without_reasons, |window| {
        click(window, "Record a reason for RK-01…");
        fill(window, "Reason for RK-01", "Tension ring in the room");
        click(window, "Record the reason");
    }, |_| Command::RecordReason(RecordedReason {
        rule: "RK-01".to_owned(),
        backup: None,
        measured: Quantity::Points(3).into(),
        limit: Limit::Under(Quantity::Points(3)),
        reason: "Tension ring in the room".to_owned(),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 24),
    });
    WithdrawReason {..} => Biometry, hard,
        |window| click(window, "Withdraw the reason, RK-01"),
        |_| Command::WithdrawReason { rule: "RK-01".to_owned(), backup: None };
    RecordSecondLook (_) => Biometry, hard, second_look, |draft| {
        let eye = &draft.eyes.right;
        let k = &eye.keratometry.as_ref().unwrap().value;
        Command::RecordSecondLook(Box::new(SecondLook {
            by: "B. Second".to_owned(),
            on: date(2026, 11, 24),
            number: "40-2291".to_owned(),
            eye: Side::Right,
            axial_length: eye.axial_length.as_ref().unwrap().value,
            flat: k.flat,
            steep: k.steep,
            chamber_depth: None,
            lens_thickness: None,
            target: None,
        }))
    };
    SetOtherCases (_) => Biometry, hard,
        |window| {
            window.state_mut().others = others();
            window.state_mut().open(0);
            window.run();
        },
        |_| Command::SetOtherCases(others());
    SetAside (_) => Biometry, hard,
        |window| {
            click(window, "Case, files, sheets…");
            click(window, "Set aside…");
            fill(window, "Reason for setting aside", "Moved to another clinic");
            click(window, "Set this case aside");
        },
        |_| Command::SetAside(aside());
    BringBack {..} => Biometry, || Draft { set_aside: Some(aside()), ..hard() },
        |window| click(window, "Bring back"),
        |_| Command::BringBack;
}

fn others() -> Vec<OtherCase> {
    vec![OtherCase {
        case: "01k7".to_owned(),
        doubt: Doubt::NumberOfAnother,
    }]
}

fn aside() -> SetAside {
    SetAside {
        reason: Some("Moved to another clinic".to_owned()),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 24),
    }
}

/// Settings of a surgeon who said what is usually planned with.
fn with_own_ways() -> Settings {
    let mut settings = light();
    settings.own.planned_by = Some(Formula::SrkT);
    settings.own.lens = hard().lens.record().map(UsualLens::of);
    settings.own.convention = Some(Convention::FirstMyopic);
    settings
}

fn without_lenses() -> Draft {
    let mut draft = hard();
    draft.lens = millrace_core::case::LensPlan::default();
    draft
}

fn with_toric_backup() -> Draft {
    let mut draft = hard();
    let lens = draft.lens.lenses.get_mut(BAG).unwrap();
    let cylinders = [150, 225].map(power).to_vec();
    lens.record.toric = ToricSteps::new(cylinders, PowerLabel::SphericalEquivalent).ok();
    draft
}

fn without_reasons() -> Draft {
    let mut draft = hard();
    draft.reasons.clear();
    draft
}

fn in_pieces() -> Draft {
    let mut draft = hard();
    draft.approach.approach = Some(Approach::Phacoemulsification);
    draft.approach.pieces = Some(4);
    draft
}

fn second_look(window: &mut Window) {
    window.key_press_modifiers(Modifiers::COMMAND, Key::L);
    window.run();
    enter(window, "Your name", "B. Second");
    enter(window, "Hospital number", "40-2291");
    click(window, "Operative eye, Right eye");
    enter(window, "Axial length", "22.84");
    click(window, "Keratometry in, D");
    enter(window, "Keratometric index", "1.3375");
    enter(window, "Flat reading", "44.25");
    enter(window, "Flat meridian", "10");
    enter(window, "Steep reading", "45.00");
    enter(window, "Steep meridian", "100");
    click(window, "Record and compare");
}

/// Starts at the page of the way and does it; tells the case before and after.
fn gone(page: Page, before: &Draft, act: fn(&mut Window)) -> Draft {
    let mut bench = Bench::new(vec![before.clone()], with_own_ways());
    bench.open(0);
    bench.desk.show_page(page);
    let mut window = harness(bench, HIGH);
    window.run();
    act(&mut window);
    window.state().draft().clone()
}

#[test]
fn every_command_has_a_page_that_reaches_it() {
    for way in WAYS {
        let before = (way.start)();
        let command = (way.command)(&before);
        assert_eq!(name_of(&command), way.name);
        let expected = update(&before, command).unwrap();
        assert_ne!(expected, before, "{} changes nothing", way.name);
        let after = gone(way.page, &before, way.act);
        assert_eq!(after, expected, "{}", way.name);
    }
}
