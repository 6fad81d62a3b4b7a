//! Texts that stand in a field of a case and are not on the drive with it: being typed, not taken, or taken a
//! moment ago.
//!
//! A program that is killed takes them along, so the desk hands them out to be kept beside the register. One
//! that was left behind is put into its field again by an act, as if it were typed: nothing takes it but what
//! takes any text of that field.

use core::time::Duration;
use std::collections::BTreeMap;

use egui::{Context, Id, Ui};
use millrace_core::biometry::Side;
use millrace_wording::desk::biometry as say;

use super::field::Field;
use crate::words::in_use;

/// How long somebody may go on typing before it is handed out: with the time to write it less than a second.
pub const WITHIN: Duration = Duration::from_millis(400);

/// Of which case and page the fields are that are shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ground {
    /// The name of the case.
    pub case: String,
    /// The code of the page.
    pub page: &'static str,
}

/// One text that the drive does not have with its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HalfTyped {
    pub ground: Ground,
    /// The field, by the value of its id: the same in every run of a program.
    pub field: u64,
    /// What the field is called.
    pub what: String,
    pub text: String,
    /// Whether the field gave it on; then its case is still to be stored.
    pub is_taken: bool,
}

#[derive(Clone, Debug, Default)]
struct All {
    ground: Option<Ground>,
    /// The eye of fields whose own names do not say it.
    eye: Option<Side>,
    texts: BTreeMap<u64, HalfTyped>,
    /// To be put into this field, when it is shown.
    put: Option<(u64, String)>,
}

/// What became of the text of a field in one pass.
#[derive(Clone, Copy, Debug)]
pub(super) enum Became<'a> {
    /// It stands there and is not taken.
    Stands(&'a str),
    Taken(&'a str),
    /// The field shows what is recorded.
    Nothing,
}

impl<'a> Became<'a> {
    /// From what stands there and is not taken, and from what was taken.
    pub(super) fn of(stands: Option<&'a str>, taken: Option<&'a str>) -> Self {
        match (stands, taken) {
            (Some(text), _) => Self::Stands(text),
            (None, Some(text)) => Self::Taken(text),
            (None, None) => Self::Nothing,
        }
    }
}

/// The fields shown from now on belong to this case and page; to none whose texts are kept if there is none.
pub fn belong_to(ctx: &Context, ground: Option<Ground>) {
    with(ctx, |all| all.ground = ground);
}

/// Fields whose texts are not handed out: what a signature asks for is typed by who signs.
pub fn apart<R>(ui: &mut Ui, add: impl FnOnce(&mut Ui) -> R) -> R {
    let ground = with(ui, |all| all.ground.take());
    let shown = add(ui);
    belong_to(ui, ground);
    shown
}

/// The fields shown from now on are of this eye and do not say so themselves.
pub fn of_eye(ctx: &Context, eye: Option<Side>) {
    with(ctx, |all| all.eye = eye);
}

/// All of them, of every case.
pub fn all(ctx: &Context) -> Vec<HalfTyped> {
    with(ctx, |all| all.texts.values().cloned().collect())
}

/// This case is stored as it stands: what its fields gave on is on the drive.
pub fn stored(ctx: &Context, case: &str) {
    with(ctx, |all| {
        let is_stored = |it: &HalfTyped| it.is_taken && it.ground.case == case;
        all.texts.retain(|_, it| !is_stored(it));
    });
}

/// Puts a text into this field when it is shown, as if it were typed there.
pub fn put(ctx: &Context, field: u64, text: String) {
    with(ctx, |all| all.put = Some((field, text)));
}

/// Whether a text waits for its field; it waits no longer.
pub fn give_up_putting(ctx: &Context) -> bool {
    with(ctx, |all| all.put.take().is_some())
}

/// Whether a text waits for its field.
pub fn is_being_put(ctx: &Context) -> bool {
    with(ctx, |all| all.put.is_some())
}

/// The text that is to be put into this field now.
pub(super) fn put_into(ctx: &Context, field: Id) -> Option<String> {
    with(ctx, |all| {
        let put = all.put.take_if(|(of, _)| *of == field.value());
        put.map(|(_, text)| text)
    })
}

/// Keeps in mind what became of the text of a field.
pub(super) fn keep(ctx: &Context, field: Field<'_>, became: Became<'_>) {
    let words = in_use(ctx);
    with(ctx, |all| {
        let key = field.id.value();
        let (text, is_taken) = match became {
            Became::Stands(text) => (text.trim(), false),
            Became::Taken(text) => (text.trim(), true),
            Became::Nothing => {
                // What was taken stays until it is stored.
                if all.texts.get(&key).is_some_and(|it| !it.is_taken) {
                    all.texts.remove(&key);
                }
                return;
            }
        };
        let Some(ground) = all.ground.clone().filter(|_| !text.is_empty()) else {
            return;
        };
        let what = field.named.words().trim();
        let what = match all.eye {
            Some(eye) => say::of_eye(words, what, eye),
            None => what.to_owned(),
        };
        let half_typed = HalfTyped {
            ground,
            field: key,
            what,
            text: text.to_owned(),
            is_taken,
        };
        all.texts.insert(key, half_typed);
    });
}

/// A field was given back what is recorded.
pub(super) fn forget(ctx: &Context, field: Id) {
    with(ctx, |all| all.texts.remove(&field.value()));
}

fn with<T>(ctx: &Context, look: impl FnOnce(&mut All) -> T) -> T {
    let id = Id::unique("texts that are not on the drive");
    ctx.data_mut(|data| look(data.get_temp_mut_or_default::<All>(id)))
}
