//! In which words the desk speaks, and how a name or a sentence begins.

use egui::{Context, Id};
use millrace_wording::Words;

pub fn in_use(ctx: &Context) -> Words {
    ctx.data(|data| data.get_temp(id())).unwrap_or_default()
}

/// Speaks in these words from now on.
pub fn speak(ctx: &Context, words: Words) {
    ctx.data_mut(|data| data.insert_temp(id(), words));
}

fn id() -> Id {
    Id::unique("words in use")
}

/// "Okonjo, Adaeze" → "OKONJO, Adaeze".
pub fn capital_family_name(name: &str) -> String {
    match name.split_once(',') {
        Some((family, given)) => format!("{},{given}", family.to_uppercase()),
        None => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_begin_as_they_should() {
        assert_eq!(capital_family_name("Okonjo, Adaeze"), "OKONJO, Adaeze");
        assert_eq!(capital_family_name("Adaeze"), "Adaeze");
    }
}
