//! The way of the Enter key through a page of fields: from value to value.
//!
//! Tab stops at everything that can be reached. Enter ends a value and goes on to the next one that is to be
//! entered, past what is only chosen on demand. Fields say where they stand on the way while they are shown;
//! without a page that [`begin`]s a way, Enter stays where it is.

use egui::{Context, Id, Key, Modifiers, Response, Ui, UiBuilder};

use super::layout::minor_button;
use super::lock;

/// What Enter does at a place of the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// It is entered here: Enter comes here, and goes on from here.
    Value,
    /// The text that stands here is not taken: Enter stays, unless what is missing is asked right behind it.
    Refused,
    /// A list, which Enter would open: it goes on instead.
    List,
    /// Passed over; from here Enter goes to whatever is next.
    Choice,
    /// Enter comes here and does it.
    Act,
    /// Enter comes here, and goes on without doing it: many answers at once are not given by the key that
    /// somebody presses after each value.
    Deed,
}

#[derive(Clone, Copy, Debug)]
struct Place {
    /// What has the focus there.
    id: Id,
    /// What it is called by its page.
    of: Id,
    step: Step,
}

/// The way, as far as this pass went, and the whole of the pass before.
#[derive(Clone, Debug, Default)]
struct Way {
    is_open: bool,
    now: Vec<Place>,
    before: Vec<Place>,
    /// What had the focus when the pass began.
    at: Option<Id>,
    /// Where Enter was pressed and did nothing there.
    left: Option<Id>,
}

/// Begins the way of a page.
pub fn begin(ui: &Ui) {
    let focused = ui.memory(egui::Memory::focused);
    let passes = with(ui, |way| {
        way.is_open = true;
        way.before = core::mem::take(&mut way.now);
        (way.at, way.left) = (focused, None);
        let at = way.before.iter().find(|place| Some(place.id) == focused);
        at.is_some_and(|place| matches!(place.step, Step::List | Step::Deed))
    });
    let goes_on = passes && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
    if goes_on {
        with(ui, |way| way.left = focused);
    }
}

/// A place of the way: `id` has the focus there, `of` is what its page calls it.
pub fn pass(ctx: &Context, id: Id, of: Id, step: Step) {
    with(ctx, |way| {
        if way.is_open {
            way.now.push(Place { id, of, step });
        }
    });
}

/// A choice on the way: where it has to be made, it is a value.
pub fn pass_choice<T>(ctx: &Context, id: Id, made: Option<&T>) {
    let step = if made.is_some() {
        Step::Choice
    } else {
        Step::Value
    };
    pass(ctx, id, id, step);
}

/// A button on the way; what is locked, it leaves as it is. It is the same one whatever stands above it: rows that
/// come and go under the focus must not take the focus with them.
pub fn act(ui: &mut Ui, id: Id, text: &str, step: Step) -> Response {
    let builder = UiBuilder::new().scope_id(id.with("act"));
    let held = |ui: &mut Ui| lock::held(ui, |ui| minor_button(ui, text));
    let button = ui.scope_builder(builder, held).inner;
    pass(ui, button.id, button.id, step);
    button
}

/// Whether the list that its page calls `of` has the focus.
pub fn is_in_list(ui: &Ui, of: Id) -> bool {
    let focused = ui.memory(egui::Memory::focused);
    with(ui, |way| {
        let mut places = way.before.iter().chain(&way.now);
        places.any(|place| place.of == of && Some(place.id) == focused)
    })
}

/// Ends the way: after Enter the focus goes on.
pub fn end(ui: &Ui) {
    let entered = ui.input(|input| input.key_pressed(Key::Enter) && input.modifiers.is_none());
    let focused = ui.memory(egui::Memory::focused);
    let next = with(ui, |way| {
        way.is_open = false;
        // An act may have sent the focus somewhere: there Enter was not pressed.
        let stayed = focused.filter(|_| entered && focused == way.at);
        let from = way.left.take().or(stayed)?;
        next_after(&way.now, from)
    });
    if let Some(next) = next {
        ui.memory_mut(|memory| memory.request_focus(next));
        ui.request_repaint();
    }
}

fn next_after(way: &[Place], from: Id) -> Option<Id> {
    let at = way.iter().position(|place| place.id == from)?;
    let (place, rest) = (way.get(at)?, way.get(at + 1..)?);
    let found = match place.step {
        Step::Act => None,
        Step::Refused => rest.first().filter(|next| next.step == Step::List),
        Step::Choice => rest.first(),
        Step::Value | Step::List | Step::Deed => rest.iter().find(|next| next.step != Step::Choice),
    };
    found.map(|place| place.id)
}

fn with<T>(ctx: &Context, look: impl FnOnce(&mut Way) -> T) -> T {
    let id = Id::unique("the way of the Enter key");
    ctx.data_mut(|data| look(data.get_temp_mut_or_default::<Way>(id)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(steps: &[Step]) -> Vec<Place> {
        let places = steps.iter().enumerate().map(|(index, step)| Place {
            id: Id::unique(index),
            of: Id::unique(index),
            step: *step,
        });
        places.collect()
    }

    fn next(steps: &[Step], from: usize) -> Option<usize> {
        let found = next_after(&way(steps), Id::unique(from));
        (0..steps.len()).find(|index| found == Some(Id::unique(*index)))
    }

    #[test]
    fn enter_passes_over_what_is_only_chosen_on_demand() {
        use Step::{Act, Choice, Deed, List, Refused, Value};
        let steps = [Value, Choice, Choice, Act, Choice, Choice, Value, List];
        assert_eq!(next(&steps, 0), Some(3));
        assert_eq!(next(&steps, 3), None, "the act is done instead");
        assert_eq!(next(&steps, 4), Some(5), "a choice leads to the next one");
        assert_eq!(next(&steps, 6), Some(7));
        assert_eq!(next(&steps, 7), None, "the way ends");
        assert_eq!(
            next(&[Refused, Value], 0),
            None,
            "what is wrong stays in hand"
        );
        assert_eq!(next(&[Refused, List, Value], 0), Some(1));
        assert_eq!(next(&[Value, Deed, Choice, Value], 0), Some(1));
        assert_eq!(next(&[Value, Deed, Choice, Value], 1), Some(3));
    }
}
