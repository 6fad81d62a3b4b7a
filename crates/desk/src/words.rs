//! Words that several pages share.

use millrace_core::biometry::Side;

pub use millrace_core::words::day;

/// "Right eye", at the head of a line.
#[must_use]
pub const fn eye(side: Side) -> &'static str {
    match side {
        Side::Right => "Right eye",
        Side::Left => "Left eye",
    }
}

/// "Okonjo, Adaeze" → "OKONJO, Adaeze".
#[must_use]
pub fn capital_family_name(name: &str) -> String {
    match name.split_once(',') {
        Some((family, given)) => format!("{},{given}", family.to_uppercase()),
        None => name.to_owned(),
    }
}

/// The same text with a capital first letter.
#[must_use]
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_as_they_are_shown() {
        assert_eq!(day("2026-12-03".parse().unwrap()), "3 Dec 2026");
        assert_eq!(capital_family_name("Okonjo, Adaeze"), "OKONJO, Adaeze");
        assert_eq!(capital_family_name("Adaeze"), "Adaeze");
        assert_eq!(sentence("no target"), "No target");
        assert_eq!(sentence(""), "");
    }
}
