//! A field loses nothing, invents nothing and commits a change once.

use egui::{Event, Id, Key, Modifiers, RawInput};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::AxialLength;
use millrace_core::quantity::Micrometers;
use millrace_desk::theme;
use millrace_desk::widgets::quantity_kind::AXIAL_LENGTH;
use millrace_desk::widgets::{Commit, FocusKeys, Named, NumberField, problem};

#[derive(Default)]
struct Form {
    values: [Option<AxialLength>; 2],
    commits: Vec<(usize, Option<i32>)>,
}

impl Form {
    fn show(&mut self, ui: &mut egui::Ui) {
        let names = ["First", "Second"];
        for (index, (name, value)) in names.into_iter().zip(&mut self.values).enumerate() {
            let label = ui.label(name).id;
            let id = Id::unique(("form", name));
            let fielded =
                NumberField::new(id, Named::By(label, name), &AXIAL_LENGTH, *value).show(ui);
            if let Some(why) = fielded.problem {
                problem(ui, &why);
            }
            if let Some(commit) = fielded.commit {
                *value = commit.value();
                self.commits
                    .push((index, value.map(|value| value.get().um())));
            }
        }
    }

    fn with(um: i32) -> Self {
        let length = AxialLength::new(Micrometers::new(um)).ok();
        Self {
            values: [length, None],
            commits: Vec::new(),
        }
    }
}

fn form(form: Form) -> Harness<'static, Form> {
    let mut harness = Harness::builder()
        .with_size([400.0, 300.0])
        .with_context_setup(theme::install)
        .with_max_steps(12)
        .build_ui_state(|ui, form: &mut Form| form.show(ui), form);
    harness.run();
    harness
}

fn type_into(harness: &mut Harness<'_, Form>, name: &str, text: &str) {
    harness.get_by_label(name).click();
    harness.run();
    harness.get_by_label(name).type_text(text);
    harness.run();
}

#[test]
fn a_change_is_committed_once_whichever_way_the_field_is_left() {
    for key in [Key::Tab, Key::Enter] {
        let mut harness = form(Form::with(22_840));
        type_into(&mut harness, "First", "23,5");
        assert_eq!(harness.state().commits, [], "nothing before the end");
        harness.key_press(key);
        harness.run();
        harness.run();
        assert_eq!(harness.state().commits, [(0, Some(23_500))], "{key:?}");
    }
    let mut harness = form(Form::with(22_840));
    type_into(&mut harness, "First", "23.5");
    harness.get_by_label("Second").click();
    harness.run();
    harness.run();
    assert_eq!(harness.state().commits, [(0, Some(23_500))]);
}

/// Tabbed to, then clicked, then typed into: not "19010" out of "190" and "10".
#[test]
fn the_first_click_selects_and_the_second_places_the_caret() {
    let mut harness = form(Form::with(22_840));
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_label("First").is_focused());
    type_into(&mut harness, "First", "23");
    assert_eq!(harness.get_by_label("First").value().as_deref(), Some("23"));
    type_into(&mut harness, "First", "4");
    let text = harness.get_by_label("First").value().unwrap();
    assert_eq!(text.len(), 3, "{text}");
}

#[test]
fn unchanged_text_never_writes() {
    // 23.456 mm has more digits than a field of two decimals would show.
    let mut harness = form(Form::with(23_456));
    harness.get_by_label("First").click();
    harness.run();
    for _ in 0..4 {
        harness.key_press(Key::Tab);
        harness.run();
    }
    type_into(&mut harness, "First", "23.456");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().commits, []);
}

#[test]
fn escape_gives_the_old_text_back_and_the_next_one_leaves() {
    let mut harness = form(Form::with(22_840));
    type_into(&mut harness, "First", "23.5");
    harness.key_press(Key::Escape);
    harness.run();
    let field = harness.get_by_label("First");
    assert_eq!(field.value().as_deref(), Some("22.84"));
    assert!(field.is_focused());
    harness.key_press(Key::Escape);
    harness.run();
    assert!(!harness.get_by_label("First").is_focused());
    assert_eq!(harness.state().commits, []);
}

#[test]
fn refused_text_stays_in_sight_with_what_is_wrong() {
    let mut harness = form(Form::with(22_840));
    type_into(&mut harness, "First", "2.35");
    harness.key_press(Key::Tab);
    harness.run();
    let field = harness.get_by_label("First");
    assert_eq!(field.value().as_deref(), Some("2.35"));
    harness.get_by_label("Not accepted: axial length 2.35 mm is outside 14.00 mm to 40.00 mm");
    assert_eq!(harness.state().commits, []);
    // Coming back selects it; typing replaces it.
    type_into(&mut harness, "First", "23.5");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().commits, [(0, Some(23_500))]);
    assert!(harness.query_by_label_contains("Not accepted").is_none());
}

#[test]
fn an_emptied_field_clears_the_value_once() {
    let mut harness = form(Form::with(22_840));
    harness.get_by_label("First").click();
    harness.run();
    harness.key_press(Key::Delete);
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    harness.run();
    assert_eq!(harness.state().commits, [(0, None)]);
}

#[test]
fn a_screen_reader_sets_a_value_without_moving_the_focus() {
    let mut harness = form(Form::default());
    harness
        .get_by_label("Second")
        .set_text_value_accesskit("24,1");
    harness.run();
    assert_eq!(harness.state().commits, [(1, Some(24_100))]);
}

/// Recipe trap 2: "24.5", Tab, "25", Tab in one slow frame. The window hands its input through
/// [`FocusKeys`]; each field gets its own digits.
#[test]
fn same_frame_text_and_tab() {
    let context = egui::Context::default();
    theme::install(&context);
    let mut form = Form::default();
    let mut keys = FocusKeys::default();
    let mut pass = |form: &mut Form, events: Vec<Event>| {
        let mut input = RawInput {
            events,
            ..RawInput::default()
        };
        loop {
            let more = keys.isolate(&mut input);
            let mut output = context.run_ui(input, |ui| form.show(ui));
            output.textures_delta.clear();
            if !more {
                return;
            }
            input = RawInput::default();
        }
    };
    let key = |key| Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    let text = |text: &str| Event::Text(text.to_owned());
    pass(&mut form, Vec::new());
    pass(&mut form, vec![key(Key::Tab)]);
    pass(
        &mut form,
        vec![text("24.5"), key(Key::Tab), text("25"), key(Key::Tab)],
    );
    pass(&mut form, Vec::new());
    assert_eq!(form.commits, [(0, Some(24_500)), (1, Some(25_000))]);
}

#[test]
fn a_commit_carries_its_value() {
    assert_eq!(
        Commit::Entered(3).map(|three| three + 1),
        Commit::Entered(4)
    );
    assert_eq!(Commit::<u8>::Cleared.value(), None);
}
