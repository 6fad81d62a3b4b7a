//! What stands in the window when the desk cannot be opened.

use egui::{Theme, Ui};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_cpu_render::CpuRenderer;
use millrace_desk::stop::{self, Stop, Way, Ways};
use millrace_desk::{theme, words};
use millrace_wording::check::untouched;
use millrace_wording::{Words, sentence};

use crate::support::{SMALLEST, texts};

/// What is shown, and what was chosen.
struct Shown {
    stop: Stop,
    words: Words,
    chosen: Option<Way>,
}

fn shown(ways: Ways, words: Words, look: Theme) -> Harness<'static, Shown> {
    let why = "the register was set back: it was seen at 1204-37-9f3a-11c2-77de-0b45 and stands at \
               1198-36-5b20-e8d1-04aa-913c, and what was saved or signed between is not in it; \
               restore a later backup, or accept it as it is if you know why";
    let shown = Shown {
        stop: Stop {
            why: why.to_owned(),
            place: "/home/clinic/.local/share/millrace/register.sqlite3".to_owned(),
            ways,
        },
        words,
        chosen: None,
    };
    let mut harness = Harness::builder()
        .with_size(SMALLEST)
        .with_theme(look)
        .with_render_cursor(false)
        .with_context_setup(theme::install)
        .renderer(CpuRenderer::default())
        .build_ui_state(
            |ui: &mut Ui, shown: &mut Shown| {
                words::speak(ui.ctx(), shown.words);
                let rect = ui.content_rect();
                let mut whole = ui.new_child(egui::UiBuilder::new().max_rect(rect));
                if let Some(way) = stop::show(&mut whole, &shown.stop) {
                    shown.chosen = Some(way);
                }
            },
            shown,
        );
    harness.run();
    harness
}

#[test]
fn both_heads_are_named_and_nothing_is_accepted_but_by_its_button() {
    for (ways, label, way) in [
        (Ways::Accept, "Work with it as it is", Way::Accept),
        (Ways::Accept, "Close", Way::Close),
        (Ways::Again, "Try again", Way::Again),
    ] {
        let mut harness = shown(ways, Words::ENGLISH, Theme::Light);
        harness.get_by_label_contains("1204-37-9f3a-11c2-77de-0b45");
        assert_eq!(harness.state().chosen, None);
        // Enter alone chooses nothing: no button has the focus.
        harness.key_press(egui::Key::Enter);
        harness.run();
        assert_eq!(harness.state().chosen, None);
        harness.get_by_label(label).click();
        harness.run();
        assert_eq!(harness.state().chosen, Some(way));
    }
    let harness = shown(Ways::Again, Words::ENGLISH, Theme::Light);
    assert!(harness.query_by_label("Work with it as it is").is_none());
}

#[test]
fn it_is_said_in_the_language_of_the_desk() {
    for ways in [Ways::Accept, Ways::Again] {
        let harness = shown(ways, Words::PSEUDO, Theme::Light);
        let typed = [
            sentence(&harness.state().stop.why),
            harness.state().stop.place.clone(),
        ];
        for text in texts(&harness) {
            let found = untouched(&text, typed.iter().map(String::as_str));
            assert!(found.is_empty(), "{text}: {found:?}");
        }
    }
}

#[test]
fn it_looks_as_accepted_in_light() {
    shown(Ways::Accept, Words::ENGLISH, Theme::Light).snapshot("stop_light");
}

#[test]
fn it_looks_as_accepted_in_dark() {
    shown(Ways::Accept, Words::ENGLISH, Theme::Dark).snapshot("stop_dark");
}
