//! Names and numbers as they are searched for: without capitals, accents and apostrophes.

use core::fmt::Write as _;

use unicode_normalization::UnicodeNormalization as _;

use crate::search::parts_of;

/// Folds a name. What is searched for is folded by the same function.
///
/// Characters written without spaces between words (Chinese, Japanese) stand each as a word, so
/// that a given name is found without the family name before it.
pub(crate) fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.nfkd().flat_map(char::to_lowercase) {
        match c {
            'ß' => folded.push_str("ss"),
            'æ' => folded.push_str("ae"),
            'œ' => folded.push_str("oe"),
            'þ' => folded.push_str("th"),
            'ø' => folded.push('o'),
            'ł' => folded.push('l'),
            'đ' | 'ð' => folded.push('d'),
            'ħ' => folded.push('h'),
            'ı' => folded.push('i'),
            'ς' => folded.push('σ'),
            _ if is_left_out(c) => {}
            _ if is_whole_word(c) => {
                folded.push(' ');
                folded.push(c);
                folded.push(' ');
            }
            _ if c.is_control() || c.is_whitespace() => folded.push(' '),
            _ => folded.push(c),
        }
    }
    let words: Vec<_> = folded.split_whitespace().collect();
    words.join(" ")
}

/// Folds a hospital number: as written, and again without what separates its parts.
pub(crate) fn fold_number(text: &str) -> String {
    let mut folded = fold(text);
    let closed: String = folded.chars().filter(|c| c.is_alphanumeric()).collect();
    if closed != folded {
        folded.push(' ');
        folded.push_str(&closed);
    }
    folded
}

/// The full-text query for what a person typed: every word must begin a word of the name or number.
/// Nothing if no letter and no digit was typed.
pub(crate) fn query(typed: &str) -> Option<String> {
    let mut query = String::new();
    for word in fold(typed).split(' ') {
        if !word.chars().any(char::is_alphanumeric) {
            continue;
        }
        if !query.is_empty() {
            query.push_str(" AND ");
        }
        // In quotation marks nothing is an operator; a mark inside is doubled.
        let _ = write!(query, "\"{}\" *", word.replace('"', "\"\""));
    }
    (!query.is_empty()).then_some(query)
}

/// The same words, each in its parts between separators.
pub(crate) fn words(typed: &str) -> Vec<Vec<String>> {
    let folded = fold(typed);
    let words = folded
        .split(' ')
        .map(|word| parts_of(word).map(str::to_owned).collect());
    words.filter(|parts: &Vec<_>| !parts.is_empty()).collect()
}

/// Accents of Latin, Greek and Cyrillic, vowel signs of Arabic and Hebrew, apostrophes.
const fn is_left_out(c: char) -> bool {
    matches!(c,
        '\u{300}'..='\u{36f}'
        | '\u{591}'..='\u{5bd}' | '\u{5bf}' | '\u{5c1}' | '\u{5c2}' | '\u{5c4}' | '\u{5c5}' | '\u{5c7}'
        | '\u{64b}'..='\u{65f}' | '\u{670}'
        | '\u{200c}' | '\u{200d}'
        | '\'' | '’' | '‘' | 'ʼ' | '`' | '´')
}

const fn is_whole_word(c: char) -> bool {
    matches!(c, '\u{3040}'..='\u{30ff}' | '\u{3400}'..='\u{4dbf}' | '\u{4e00}'..='\u{9fff}'
        | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{3ffff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_fold_to_what_a_keyboard_types() {
        for (name, folded) in [
            ("Ångström, Élise", "angstrom, elise"),
            ("Sørensen-O’Neill", "sorensen-oneill"),
            ("WEIß, Jürgen", "weiss, jurgen"),
            ("Łukasiewicz", "lukasiewicz"),
            ("İnönü  Işık", "inonu isik"),
            ("ΓΙΏΡΓΟΣ", "γιωργοσ"),
            ("Фёдоров", "федоров"),
            ("王小明", "王 小 明"),
            ("مُحَمَّد", "محمد"),
            ("a\u{0}b\tc", "a b c"),
            ("", ""),
        ] {
            assert_eq!(fold(name), folded, "{name}");
        }
        // A name that was typed as one accented letter and one that was typed as letter and accent.
        assert_eq!(fold("\u{e9}"), fold("e\u{301}"));
    }

    #[test]
    fn numbers_are_found_with_and_without_their_separators() {
        assert_eq!(fold_number("40-2291"), "40-2291 402291");
        assert_eq!(fold_number("HN 17/A"), "hn 17/a hn17a");
        assert_eq!(fold_number("402291"), "402291");
        assert_eq!(fold_number(""), "");
    }

    #[test]
    fn a_query_holds_no_operator() {
        assert_eq!(query("oko ade").unwrap(), "\"oko\" * AND \"ade\" *");
        assert_eq!(
            query("a\" OR b*").unwrap(),
            "\"a\"\"\" * AND \"or\" * AND \"b*\" *"
        );
        for nothing in ["", "  ", "-", "\"*\"", "()"] {
            assert_eq!(query(nothing), None, "{nothing}");
        }
    }
}
