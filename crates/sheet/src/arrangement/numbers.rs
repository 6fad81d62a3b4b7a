//! The numbers that an arrangement may print: those of the data that no fixed part prints.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use super::pieces::{is_decimal_mark, is_number, is_sign, is_sign_alone, pieces};
use crate::data::SheetData;

/// What of the data is the arrangement's to print.
const ITS_OWN: [&str; 6] = [
    "approach",
    "approach_missing",
    "figures",
    "measurements",
    "formulas",
    "findings",
];
/// What is in words for a reader that does not see it, and does not stand on the page.
const NOT_SEEN: &str = "alt";

/// Numbers and what stands beside them.
#[derive(Default)]
pub(super) struct Numbers {
    /// How often each may still be printed.
    left: BTreeMap<String, usize>,
    /// Of the words beside the data, which stand as often as a table goes on to another page.
    labels: BTreeSet<String>,
    /// Pieces that are no numbers.
    words: BTreeSet<String>,
    /// Pieces that follow each other.
    pairs: BTreeSet<(String, String)>,
    /// What stands before a number with decimals or an angle: the piece before it in its text, or where it begins
    /// its text, what stands in its row.
    before: BTreeMap<String, BTreeSet<String>>,
    /// Everything in small letters without white space.
    close: Vec<String>,
}

impl Numbers {
    pub(super) fn of(data: &SheetData) -> Self {
        let mut numbers = Self::default();
        // What is written as a document is written as a value: the sheet was laid out from it.
        let value = serde_json::to_value(data).unwrap_or_default();
        for name in ITS_OWN {
            numbers.take_all(value.get(name).unwrap_or(&Value::Null), &[]);
        }
        // It stands around the name of a formula.
        let around = data.labels.get("planned_by").map_or("", String::as_str);
        for before in numbers.before.values_mut() {
            before.extend(pieces(around).into_iter().map(str::to_owned));
        }
        for label in data.labels.values() {
            for piece in pieces(label) {
                numbers.labels.insert(piece.to_owned());
            }
            numbers.close.push(close(label));
        }
        numbers
    }

    fn take_all(&mut self, value: &Value, row: &[String]) {
        match value {
            Value::String(text) => self.take(text, row),
            Value::Array(values) => values.iter().for_each(|value| self.take_all(value, row)),
            Value::Object(fields) => {
                let texts = fields.values().filter_map(Value::as_str);
                let row: Vec<_> = texts.flat_map(pieces).map(str::to_owned).collect();
                for (name, value) in fields {
                    if name != NOT_SEEN {
                        self.take_all(value, &row);
                    }
                }
            }
            Value::Null | Value::Bool(_) | Value::Number(_) => {}
        }
    }

    fn take(&mut self, text: &str, row: &[String]) {
        self.close.push(close(text));
        let whole = text.replace('\u{200b}', "");
        let whole = pieces(&whole);
        for piece in &whole {
            self.add(piece);
            // Where a line may end inside of it.
            for (index, letter) in piece.char_indices().skip(1) {
                if matches!(letter, '/') || (is_sign(letter) && letter != '+') {
                    let (first, rest) = piece.split_at(index + letter.len_utf8());
                    self.add(first);
                    self.add(rest);
                }
            }
        }
        if text.contains('\u{200b}') {
            for piece in pieces(text) {
                self.add(piece);
            }
        }
        for (index, piece) in whole.iter().enumerate() {
            if has_a_place(piece) {
                let before = self.before.entry((*piece).to_owned()).or_default();
                match whole.get(..index) {
                    None | Some([]) => before.extend(row.iter().cloned()),
                    // With the number of a unit.
                    Some(pieces) => {
                        let last = pieces.iter().rev().take(2);
                        before.extend(last.map(|piece| (*piece).to_owned()));
                    }
                }
            }
        }
        let pairs = whole.iter().zip(whole.iter().skip(1));
        let pairs = pairs.map(|(one, next)| ((*one).to_owned(), (*next).to_owned()));
        self.pairs.extend(pairs);
    }

    fn add(&mut self, piece: &str) {
        if is_number(piece) {
            *self.left.entry(piece.to_owned()).or_default() += 1;
        } else {
            self.words.insert(piece.to_owned());
        }
    }

    /// Whether a number may be printed, once more than before.
    pub(super) fn spend(&mut self, number: &str) -> bool {
        if self.labels.contains(number) {
            return true;
        }
        let left = self.left.get_mut(number);
        left.is_some_and(|left| {
            let may = 0 < *left;
            *left -= usize::from(may);
            may
        })
    }

    /// Whether the data holds it.
    pub(super) fn holds(&self, piece: &str) -> bool {
        self.labels.contains(piece) || self.words.contains(piece) || self.left.contains_key(piece)
    }

    /// Whether one follows the other in the data.
    pub(super) fn follows(&self, one: &str, next: &str) -> bool {
        self.pairs.contains(&(one.to_owned(), next.to_owned()))
    }

    /// What may stand before a number with decimals or an angle; nothing for another number.
    pub(super) fn before(&self, number: &str) -> Option<&BTreeSet<String>> {
        self.before.get(number)
    }

    /// How often the data holds words, whatever their letters and white space.
    pub(super) fn times(&self, words: &str) -> usize {
        let words = close(words);
        self.close
            .iter()
            .map(|text| text.matches(&words).count())
            .sum()
    }
}

/// Whether a number could be taken for a power or an axis: it has decimals or is an angle.
fn has_a_place(piece: &str) -> bool {
    let has_decimals = piece
        .trim_matches(is_decimal_mark)
        .contains(is_decimal_mark);
    is_number(piece) && (has_decimals || piece.contains('°'))
}

/// In small letters, without white space.
pub(super) fn close(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .flat_map(char::to_lowercase)
        .collect()
}

/// Whether two pieces beside each other could be read as one number: one has not two decimal marks, nor a
/// sign inside of it.
pub(super) fn read_as_one(one: &str, next: &str) -> bool {
    let marks = [one, next].map(|it| it.contains(is_decimal_mark));
    let could = is_number(one) && marks != [true, true] && !next.starts_with(is_sign);
    is_number(next) && (could || is_sign_alone(one))
}
