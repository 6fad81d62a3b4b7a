//! Keys that move the focus or a choice, each in a pass of its own.
//!
//! egui moves the focus at the start of a pass, before widgets read their text. When a pass was
//! slow and "4.5", Tab, "7" arrive together, all of it would land in one field; and of two arrow
//! keys that arrive together a choice would hear one. The window hands its raw input through
//! [`FocusKeys::isolate`], so that nothing pressed is lost or ends in the wrong place.

use std::collections::VecDeque;

use egui::{Event, EventFilter, FocusDirection, Id, Key, RawInput, Ui};

/// Events that wait for the next pass.
#[derive(Default)]
pub struct FocusKeys {
    waiting: VecDeque<Event>,
}

impl FocusKeys {
    /// Keeps in `input` what one pass can take, and the rest for later. `true` asks for another pass
    /// at once.
    pub fn isolate(&mut self, input: &mut RawInput) -> bool {
        self.waiting.extend(input.events.drain(..));
        while let Some(event) = self.waiting.pop_front() {
            if !stands_alone(&event) {
                input.events.push(event);
                continue;
            }
            if input.events.is_empty() {
                input.events.push(event);
            } else {
                self.waiting.push_front(event);
            }
            break;
        }
        !self.waiting.is_empty()
    }
}

fn stands_alone(event: &Event) -> bool {
    match event {
        Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => {
            let moves_focus = matches!(
                key,
                Key::Tab | Key::Enter | Key::Escape | Key::F1 | Key::F2 | Key::F3 | Key::F6
            );
            let chooses = matches!(
                key,
                Key::ArrowLeft
                    | Key::ArrowRight
                    | Key::ArrowUp
                    | Key::ArrowDown
                    | Key::Home
                    | Key::End
                    | Key::PageUp
                    | Key::PageDown
            );
            moves_focus || chooses || modifiers.command || modifiers.ctrl
        }
        Event::PointerButton { .. } => true,
        _ => false,
    }
}

/// Up and down choose within what has the focus instead of moving it.
pub fn keep_up_and_down(ui: &Ui, id: Id) {
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
}

/// Keeps the arrow keys in the control that has the focus, at the beginning of a pass: in egui they walk over the
/// page, and the second one would choose in a control that nobody went to.
pub fn keep_arrows(ui: &Ui) {
    let arrows = [
        Key::ArrowUp,
        Key::ArrowDown,
        Key::ArrowLeft,
        Key::ArrowRight,
    ];
    let is_pressed = ui.input(|input| arrows.into_iter().any(|key| input.key_pressed(key)));
    let tabs = ui.input(|input| input.key_pressed(Key::Tab));
    if is_pressed && !tabs {
        ui.memory_mut(|memory| memory.move_focus(FocusDirection::None));
    }
}

/// A key that is held down does once what it does, at the beginning of a pass: Enter and Space act, and the control
/// that they lead to is not to hear them again.
pub fn act_once(ui: &Ui) {
    let is_repeated = |event: &Event| {
        let Event::Key { key, repeat, .. } = event else {
            return false;
        };
        *repeat && matches!(key, Key::Enter | Key::Space)
    };
    ui.input_mut(|input| input.events.retain(|event| !is_repeated(event)));
}

#[cfg(test)]
mod tests {
    use egui::{Modifiers, PointerButton, Pos2};

    use super::*;

    fn key(key: Key) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::NONE,
        }
    }

    fn text(text: &str) -> Event {
        Event::Text(text.to_owned())
    }

    fn passes(events: Vec<Event>) -> Vec<Vec<Event>> {
        let mut keys = FocusKeys::default();
        let mut input = RawInput {
            events,
            ..RawInput::default()
        };
        let mut passes = Vec::new();
        loop {
            let more = keys.isolate(&mut input);
            passes.push(core::mem::take(&mut input.events));
            if !more {
                return passes;
            }
        }
    }

    #[test]
    fn each_focus_key_gets_its_own_pass_and_the_order_stays() {
        assert_eq!(
            passes(vec![text("4.5"), key(Key::Tab), text("7"), key(Key::Tab)]),
            [
                vec![text("4.5")],
                vec![key(Key::Tab)],
                vec![text("7")],
                vec![key(Key::Tab)]
            ]
        );
        assert_eq!(passes(vec![text("a"), text("b")]).len(), 1);
        assert_eq!(
            passes(vec![key(Key::ArrowRight), key(Key::ArrowRight)]),
            [vec![key(Key::ArrowRight)], vec![key(Key::ArrowRight)]]
        );
        assert_eq!(passes(Vec::new()), [Vec::<Event>::new()]);
    }

    #[test]
    fn a_click_parts_what_was_typed_before_and_after_it() {
        let click = |pressed| Event::PointerButton {
            pos: Pos2::ZERO,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        let found = passes(vec![text("1"), click(true), click(false), text("2")]);
        assert_eq!(
            found,
            [
                vec![text("1")],
                vec![click(true)],
                vec![click(false)],
                vec![text("2")]
            ]
        );
    }
}
