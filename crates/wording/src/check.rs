//! Whether a text was made by the wording: for tests of text, desk, sheet and command line.

use crate::pseudo::has_relative;

/// The words of a page made in the pseudo-language that stand in it as plain English.
///
/// `allowed` are proper names, units, codes, and what people typed: each is taken out of the text
/// first, the longest before the others, so that a name of two words does not leave one. A word is two
/// letters or more, one of them a letter that the pseudo-language would have changed.
pub fn untouched<'a>(text: &str, allowed: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let mut allowed: Vec<_> = allowed
        .into_iter()
        .filter(|name| !name.is_empty())
        .collect();
    allowed.sort_by_key(|name| core::cmp::Reverse(name.len()));
    let mut left = text.to_owned();
    for name in allowed {
        left = without(&left, name);
    }
    let words = left.split(|letter: char| !letter.is_alphabetic());
    words
        .filter(|word| 2 <= word.chars().count())
        .filter(|word| word.is_ascii())
        .filter(|word| word.chars().any(has_relative))
        .map(str::to_owned)
        .collect()
}

/// The text without this name where it stands as a whole word; a space is left, so that its neighbors
/// do not join.
fn without(text: &str, name: &str) -> String {
    let mut left = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(name) {
        let (before, from) = rest.split_at(at);
        let after = from.get(name.len()..).unwrap_or_default();
        let is_word = |letter: Option<char>| letter.is_some_and(char::is_alphabetic);
        let starts = is_word(name.chars().next()) && is_word(before.chars().next_back());
        let ends = is_word(name.chars().next_back()) && is_word(after.chars().next());
        left.push_str(before);
        if starts || ends {
            left.push_str(name);
        } else {
            left.push(' ');
        }
        rest = after;
    }
    left.push_str(rest);
    left
}

/// A page made in the pseudo-language as it reads in English, for comparing it with the English page:
/// whatever both say alike is said by one message, with the same numbers. A letter with an accent that
/// somebody typed loses it, so both pages go through here.
pub fn restored(text: &str) -> String {
    crate::pseudo::restored(text)
}

/// The numbers of a text, in order, for comparing two languages: digits with their sign and decimals.
pub fn numbers(text: &str) -> Vec<String> {
    let is_part = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',');
    let parts = text.split(|letter: char| !is_part(letter));
    parts
        .map(|part| part.trim_matches(|letter| matches!(letter, '.' | ',')))
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_english_is_found_and_what_is_allowed_is_not() {
        let text = "Äxïäl léñgth 23.45 mm, Axial length, SRK/T, Okonjo, Adaeze";
        assert_eq!(
            untouched(text, ["SRK/T", "Okonjo, Adaeze"]),
            ["Axial", "length"]
        );
        assert_eq!(untouched("2.80 mm, K, D @ 90°", []), [""; 0]);
    }

    #[test]
    fn a_name_inside_a_word_is_no_name() {
        assert_eq!(untouched("considered", ["side", "on"]), ["considered"]);
        assert_eq!(untouched("on side", ["side", "on"]), [""; 0]);
    }

    #[test]
    fn numbers_stand_in_order() {
        assert_eq!(
            numbers("From 2.80 mm to \u{2212}0,25 D, 3 Dec 2026."),
            ["2.80", "0,25", "3", "2026"]
        );
    }
}
