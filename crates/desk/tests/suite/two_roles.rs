//! Both roles from an empty register: what `tests/window/measure.txt` and `consult.txt` do, done here at the desk.
//! The same files are played at the real window by `tests/window/two_roles.py`.
//!
//! A line is `value TEXT`, `key KEY`, `letter LETTER` or `click X Y NAME`, in points from the upper left corner;
//! a NAME that ends with … is the beginning of a name. `MILLRACE_RENEW_KEYS=1` looks up X and Y again.

use crate::keyboard::{press, type_text};
use crate::measuring_room::FIRST;
use crate::support::{Bench, harness, light};
use egui::{Event, Modifiers, PointerButton, Pos2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_core::biometry::Side;
use millrace_core::case::Approach;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::quantity::HundredthDiopters;
use millrace_desk::exchange::Standing;
use millrace_desk::settings::{Settings, UsualLens};

/// What was done so far.
#[derive(Debug, Default, PartialEq)]
struct Counted {
    values: usize,
    /// Keys that are no character of a value, and clicks.
    acts: usize,
}

fn script(name: &str) -> String {
    let directory = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/window");
    format!("{directory}/{name}.txt")
}

/// Where something of this name lies.
fn place_of(window: &Harness<'_, Bench>, name: &str) -> Option<egui::Rect> {
    let is_meant = |said: &str| match name.strip_suffix('…') {
        Some(beginning) => said.starts_with(beginning),
        None => said == name,
    };
    let nodes = window.root().children_recursive();
    let mut meant = nodes.filter(|node| {
        let node = node.accesskit_node();
        let label = node.label().or_else(|| {
            let named = node.labelled_by().next()?;
            named.label().or_else(|| named.value())
        });
        label.is_some_and(|label| is_meant(&label))
    });
    meant.next().map(|node| node.rect())
}

fn click(window: &mut Harness<'_, Bench>, at: Pos2) {
    window.event(Event::PointerMoved(at));
    window.run();
    for pressed in [true, false] {
        window.event(Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        window.run();
    }
}

/// Plays a script, and writes it anew with the places of what is clicked where that was asked for.
fn play(window: &mut Harness<'_, Bench>, name: &str) -> Counted {
    let path = script(name);
    let renews = std::env::var_os("MILLRACE_RENEW_KEYS").is_some();
    let (mut counted, mut renewed) = (Counted::default(), String::new());
    for line in std::fs::read_to_string(&path).unwrap().lines() {
        let (verb, rest) = line.split_once(' ').unwrap_or((line, ""));
        let mut again = line.to_owned();
        counted.acts += usize::from(["key", "letter", "click"].contains(&verb));
        match verb {
            "" | "#" => {}
            "value" => {
                counted.values += 1;
                for character in rest.chars() {
                    type_text(window, &character.to_string());
                }
            }
            "letter" => type_text(window, rest),
            "key" => press(window, rest),
            "click" => {
                let mut parts = rest.splitn(3, ' ');
                let [x, y] = [(); 2].map(|()| parts.next().unwrap().parse().unwrap());
                let name = parts.next().unwrap();
                let rect = place_of(window, name);
                let rect = rect.unwrap_or_else(|| panic!("{name:?} is not there"));
                let center = rect.center().round();
                let at = if renews { center } else { pos2(x, y) };
                let in_sight = egui::Rect::from_min_size(Pos2::ZERO, FIRST.into());
                assert!(
                    rect.intersect(in_sight).contains(at),
                    "{name:?} lies at {rect:?}, not {at:?}"
                );
                again = format!("click {} {} {name}", at.x, at.y);
                click(window, at);
            }
            other => panic!("{other} is no verb"),
        }
        renewed.push_str(&again);
        renewed.push('\n');
    }
    if renews {
        std::fs::write(&path, renewed).unwrap();
    }
    counted
}

/// The surgeon's own desk.
fn surgeon() -> Settings {
    let mut settings = Settings {
        role: "surgeon".to_owned(),
        ..light()
    };
    settings.own.planned_by = Some(Formula::SrkT);
    settings.own.lens = Some(UsualLens {
        name: "Weir one-piece".to_owned(),
        model: "Weir Q".to_owned(),
    });
    settings.own.convention = Some(Convention::FirstMyopic);
    settings
}

#[test]
fn one_measures_and_the_other_signs_with_few_acts() {
    let mut room = harness(Bench::new(Vec::new(), light()), FIRST);
    let measured = play(&mut room, "measure");
    assert_eq!(
        measured,
        Counted {
            values: 31,
            acts: 45
        }
    );
    let draft = room.state().cases[0].2.clone();
    assert!(!draft.eyes.get(Side::Left).is_blank());

    let mut desk = harness(Bench::new(vec![draft], surgeon()), FIRST);
    let decided = play(&mut desk, "consult");
    assert_eq!(
        decided,
        Counted {
            values: 4,
            acts: 13
        }
    );
    let state = desk.state();
    let signed: Vec<_> = state
        .sheets
        .iter()
        .map(|sheet| sheet.standing.clone())
        .collect();
    assert_eq!(signed, [Standing::Current]);
    let planned = state.draft();
    let power = planned.lens.power().map(HundredthDiopters::hundredths);
    assert_eq!(power, Some(2_200));
    let record = planned.lens.record().map(|record| record.model.as_str());
    assert_eq!(record, Some("Weir Q"));
    assert_eq!(planned.lens.formula, Some(Formula::SrkT));
    let targets = [planned.lens.target, planned.lens.consented_target];
    assert_eq!(targets, [Some(HundredthDiopters::new(-30)); 2]);
    assert_eq!(planned.approach.approach, Some(Approach::SmallIncision));
    let reasons: Vec<_> = planned.reasons.iter().map(|it| it.rule.as_str()).collect();
    assert_eq!(reasons, ["PW-03"]);
}
