//! Names of every script: two patients never look alike, and each name is read in its order.

use crate::support::{Bench, HARD_AND_SHALLOW, SMALLEST, click, demo, harness, light, texts};
use egui::accesskit::Role;
use egui::{Id, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::Draft;
use millrace_desk::theme;
use millrace_desk::widgets::{Commit, Field, problem, text_field};

/// One of each script that a sheet can be printed in, invented. The first is read from right to left.
const NAMES: [&str; 22] = [
    "الخطيب، مريم عبد الرحمن",
    "שרה בן־דוד (Sara) 12",
    "Al-Khatib, Maryam (مريم الخطيب)",
    "राजेश्वरी श्रीवास्तव",
    "রহিমা খাতুন",
    "முத்துலட்சுமி",
    "歐陽曉明 (欧阳晓明)",
    "山﨑さくら ヤマザキ",
    "김민수, 남궁옥분",
    "สมชาย ใจดี",
    "Անահիտ Սարգսյան",
    "ნინო ბერიძე",
    "አበበ ቢቂላ",
    "សុខា ចាន់",
    "ສົມພອນ ວົງສາ",
    "အောင်မြင့် စိုးဝင်း",
    "ශ්\u{200d}රීමතී පෙරේරා",
    "గోపాల్ రెడ్డి",
    "ಕಮಲ ಹೆಗ್ಡೆ, മീര നായർ",
    "ગીતા પટેલ, ਗੁਰਪ੍ਰੀਤ ਕੌਰ",
    "ଗୀତା ମହାନ୍ତି",
    "Nguyễn Thị Hương, Ελένη, Мария",
];

fn named(name: &str) -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.patient.name = Some(name.to_owned());
    draft
}

fn desk_of(names: &[&str], size: [f32; 2]) -> Harness<'static, Bench> {
    let mut bench = Bench::new(names.iter().map(|name| named(name)).collect(), light());
    bench.open(0);
    let mut harness = harness(bench, size);
    click(&mut harness, "Patient and operation");
    harness
}

/// The picture was looked at, name by name. A letter without a typeface would end the test: the harness
/// refuses to draw a box.
#[test]
fn names_of_every_script_in_list_banner_and_field() {
    let mut harness = desk_of(&NAMES, [1100.0, 2380.0]);
    harness.snapshot("scripts");
    // A screen reader is told each as it was typed.
    let told = texts(&harness).join("\n");
    for name in NAMES {
        assert!(told.contains(name), "{name}");
    }
}

#[test]
fn a_field_that_is_edited_from_left_to_right_says_so() {
    let note = "While it is edited, this text stands in the order it is typed; elsewhere it reads from \
                right to left";
    let mut harness = desk_of(&NAMES, SMALLEST);
    assert!(harness.query_by_label(note).is_none(), "at rest");
    let field = |harness: &Harness<'_, Bench>| {
        let field = harness.get_by_role_and_label(Role::TextInput, "Name");
        field.accesskit_node().value().unwrap()
    };
    harness
        .get_by_role_and_label(Role::TextInput, "Name")
        .click();
    harness.run();
    harness.get_by_label(note);
    // What is typed at the end is taken away again letter by letter, wherever it is drawn.
    harness.key_press(Key::End);
    harness.run();
    harness
        .get_by_role_and_label(Role::TextInput, "Name")
        .type_text("سى");
    harness.run();
    assert_eq!(field(&harness), format!("{}سى", NAMES[0]));
    for _ in 0..3 {
        harness.key_press(Key::Backspace);
        harness.run();
    }
    assert_eq!(field(&harness), "الخطيب، مريم عبد الرحم");
    harness.key_press_modifiers(Modifiers::NONE, Key::Tab);
    harness.run();
    assert!(harness.query_by_label(note).is_none(), "left again");
    let name = harness.state().draft().patient.name.clone();
    assert_eq!(name.as_deref(), Some("الخطيب، مريم عبد الرحم"));
}

/// What is typed stays in the field with what is wrong with it, and is never taken.
#[test]
fn a_script_without_a_typeface_is_refused_in_the_field_by_its_name() {
    let show = |ui: &mut egui::Ui, taken: &mut Vec<String>| {
        let field = Field::called(Id::unique("name"), "Name");
        let entered = text_field(ui, field, None, "patient name", 300.0);
        if let Some(why) = entered.problem {
            problem(ui, &why);
        }
        taken.extend(entered.commit.and_then(Commit::value));
    };
    let mut harness = Harness::builder()
        .with_size([600.0, 300.0])
        .with_context_setup(theme::install)
        // While it is typed it is boxes, the one time they are seen.
        .allow_missing_glyphs()
        .build_ui_state(show, Vec::new());
    let mut enter = |text: &str| {
        harness.get_by_label("Name").click();
        harness.run();
        harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        harness.run();
        harness.get_by_label("Name").type_text(text);
        harness.run();
        harness.key_press(Key::Enter);
        harness.run();
        let nodes = harness.root().children_recursive();
        let texts: Vec<_> = nodes
            .filter_map(|node| node.accesskit_node().value())
            .collect();
        (harness.state().clone(), texts.join("\n"))
    };
    let (taken, said) = enter("བསྟན་འཛིན");
    assert_eq!(taken, Vec::<String>::new());
    let why = "patient name has Tibetan letters (U+0F56), for which this program has no typeface";
    assert!(said.contains(why), "{said}");
    let (taken, said) = enter("김민수");
    assert_eq!(taken, ["김민수"]);
    assert!(!said.contains("typeface"), "{said}");
}
