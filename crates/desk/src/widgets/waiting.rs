//! Texts that stand in a field and are not taken.
//!
//! What is stored does not hold them, and the page they stand on may be another one: so the desk keeps
//! them in mind by case, says so at its foot, and signs nothing beside them.

use std::collections::HashMap;

use egui::{Context, Id};

/// One text that is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// The field it stands in; nothing where several fields make one entry.
    pub field: Option<Id>,
    pub what: String,
    /// Why it is not taken.
    pub why: String,
}

/// All of them, of every case, and the case whose fields are shown now.
#[derive(Clone, Debug, Default)]
struct Kept {
    ground: Option<Id>,
    texts: HashMap<Id, (Option<Id>, Waiting)>,
}

/// The fields shown from now on belong to the case of this ground; to none if there is none.
pub fn belong_to(ctx: &Context, ground: Option<Id>) {
    with(ctx, |kept| kept.ground = ground);
}

/// What waits in the fields of the case of this ground, by the names of the fields.
pub fn of(ctx: &Context, ground: Id) -> Vec<Waiting> {
    let mut found = with(ctx, |kept| {
        let of_case = kept.texts.values().filter(|(of, _)| *of == Some(ground));
        of_case
            .map(|(_, waiting)| waiting.clone())
            .collect::<Vec<_>>()
    });
    found.sort_by(|one, other| one.what.cmp(&other.what));
    found
}

/// Keeps in mind what is wrong with the text of a field, or that nothing is any more.
pub(super) fn keep(ctx: &Context, field: Id, what: &str, problem: Option<&str>) {
    with(ctx, |kept| match problem {
        Some(why) => {
            let (what, why) = (what.trim().to_owned(), why.to_owned());
            let waiting = Waiting {
                field: Some(field),
                what,
                why,
            };
            kept.texts.insert(field, (kept.ground, waiting));
        }
        None => {
            kept.texts.remove(&field);
        }
    });
}

fn with<T>(ctx: &Context, look: impl FnOnce(&mut Kept) -> T) -> T {
    let id = Id::unique("texts that are not taken");
    ctx.data_mut(|data| look(data.get_temp_mut_or_default::<Kept>(id)))
}
