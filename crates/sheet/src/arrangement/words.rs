//! The words of the rooms as they are seen: put together by their places, whatever runs of text they
//! were set in.

use std::collections::BTreeMap;

use super::Wrong;
use super::letters::Seen;
use super::numbers::{Numbers, close, read_as_one};
use super::pieces::{is_number, looks_like_a_number, pieces};
use crate::error::Fault;

/// White between letters up to which they are of one word, in sizes: a space is a quarter.
const JOINED: f64 = 0.2;
/// White up to which two numbers could be read as one, in sizes.
const NEAR: f64 = 0.5;
/// White up to which words are of one line, in sizes.
const IN_LINE: f64 = 1.5;
/// Between words that were not painted one after the other.
const BROUGHT_TOGETHER: char = '\u{1}';
/// Units, which stand behind many a number.
const UNITS: [&str; 3] = ["D", "mm", "µm"];
/// White up to which words are read together where they name an eye, in sizes.
const OF_A_NAME: f64 = 6.0;
/// Difference of height up to which letters stand on one line, in sizes.
const LEVEL: f64 = 0.5;

/// Refuses numbers and words of the other eye that are not of the data.
pub(super) fn check(
    seen: &[Seen],
    numbers: &mut Numbers,
    other_eye: &[String],
) -> Result<(), Wrong> {
    let words = joined(seen);
    let next = neighbors(&words, IN_LINE);
    let before = reversed(&next);
    for (index, word) in words.iter().enumerate() {
        let pieces = pieces(&word.text);
        let ordinal = || is_ordinal(&words, index, (&next, &before));
        for piece in &pieces {
            if is_number(piece) {
                if !ordinal() && !numbers.spend(piece) {
                    return Err(wrong(word, Fault::Number));
                }
            } else if looks_like_a_number(piece) && !numbers.holds(piece) {
                return Err(wrong(word, Fault::LikeNumber));
            }
        }
        for (one, next) in pieces.iter().zip(pieces.iter().skip(1)) {
            if read_as_one(one, next) && !numbers.follows(one, next) {
                return Err(wrong(word, Fault::ReadAsOne));
            }
        }
        if word.figure.is_none() {
            beside_its_own((&words, index), &pieces, (numbers, &next))?;
        }
        let follower = next.get(&index).and_then(|next| words.get(*next));
        if let Some(follower) = follower {
            beside(word, follower, numbers)?;
        }
    }
    let next = neighbors(&words, OF_A_NAME);
    no_other_eye((seen, &words, &next), numbers, other_eye)
}

/// Refuses a number with decimals that does not stand behind what it stands behind in the data: words of
/// its row or sentence, on its line or at the end of another.
fn beside_its_own(
    (words, index): (&[Seen], usize),
    pieces_of_it: &[&str],
    (numbers, next): (&Numbers, &BTreeMap<usize, usize>),
) -> Result<(), Wrong> {
    let Some(word) = words.get(index) else {
        return Ok(());
    };
    for (place, piece) in pieces_of_it.iter().enumerate() {
        let Some(own) = numbers.before(piece) else {
            continue;
        };
        let ends_with_own = |word: &Seen| {
            let pieces = pieces(&word.text);
            pieces.last().is_some_and(|last| own.contains(*last))
        };
        // A unit is of its row if its number is.
        let behind_own = |word: &Seen| {
            ends_with_own(word)
                && (!UNITS.contains(&word.text.as_str())
                    || to_the_left(words, word).is_some_and(ends_with_own))
        };
        let before = place
            .checked_sub(1)
            .and_then(|place| pieces_of_it.get(place));
        let is_beside = if let Some(before) = before {
            own.contains(*before)
        } else {
            let left = to_the_left(words, word);
            let begins_a_line =
                left.is_none_or(|left| IN_LINE * word.size < word.left - left.right);
            let ends_of_lines = || {
                let ends = (0..words.len()).filter(|at| !next.contains_key(at));
                let mut ends = ends.filter_map(|at| words.get(at));
                ends.any(|end| is_over(end, word) && behind_own(end))
            };
            left.is_some_and(behind_own) || (begins_a_line && ends_of_lines())
        };
        if !is_beside {
            return Err(wrong(word, Fault::Apart));
        }
    }
    Ok(())
}

/// Whether a line stands over another, or on an earlier page.
fn is_over(end: &Seen, word: &Seen) -> bool {
    end.page < word.page || (end.page == word.page && end.base + LEVEL * word.size < word.base)
}

/// The nearest word to the left on the same line, however far.
fn to_the_left<'a>(words: &'a [Seen], word: &Seen) -> Option<&'a Seen> {
    let on_the_line = words.iter().filter(|other| {
        let size = word.size.max(other.size);
        other.page == word.page
            && (word.base - other.base).abs() < LEVEL * size
            && other.left < word.left
    });
    on_the_line.max_by(|one, other| one.right.total_cmp(&other.right))
}

/// Two words beside each other that could be read as one number.
fn beside(word: &Seen, follower: &Seen, numbers: &Numbers) -> Result<(), Wrong> {
    let size = word.size.max(follower.size);
    let apart = NEAR * size < follower.left - word.right;
    let clause_ends = word.text.ends_with([';', ':', ')']);
    if apart || clause_ends {
        return Ok(());
    }
    let [pieces, next] = [word, follower].map(|word| pieces(&word.text));
    let (Some(one), Some(next)) = (pieces.last(), next.first()) else {
        return Ok(());
    };
    if read_as_one(one, next) && !numbers.follows(one, next) {
        return Err(wrong(word, Fault::ReadAsOne));
    }
    Ok(())
}

/// Runs of letters without white between them.
fn joined(seen: &[Seen]) -> Vec<Seen> {
    let next = neighbors(seen, JOINED);
    let before = reversed(&next);
    let mut words = Vec::new();
    for (index, part) in seen.iter().enumerate() {
        if before.contains_key(&index) {
            continue;
        }
        let mut word = part.clone();
        let mut at = index;
        while let Some((following, part)) = next
            .get(&at)
            .and_then(|next| Some((*next, seen.get(*next)?)))
        {
            word.text.push_str(&part.text);
            word.right = word.right.max(part.right);
            word.size = word.size.max(part.size);
            at = following;
        }
        words.push(word);
    }
    words
}

/// For each word the nearest to its right on the same line, if no more white lies between them. None is
/// the nearest of two, so that words form lines.
fn neighbors(words: &[Seen], white: f64) -> BTreeMap<usize, usize> {
    let mut order: Vec<_> = words.iter().enumerate().collect();
    order.sort_by(|(_, one), (_, other)| {
        let by_page = one.page.cmp(&other.page);
        by_page.then(one.left.total_cmp(&other.left))
    });
    let mut next: BTreeMap<usize, usize> = BTreeMap::new();
    let mut taken: BTreeMap<usize, usize> = BTreeMap::new();
    let mut rest = order.as_slice();
    while let [(index, word), behind @ ..] = rest {
        rest = behind;
        let widest = word.right + white * LARGEST;
        let nearest = behind
            .iter()
            .take_while(|(_, other)| other.page == word.page && other.left < widest)
            .find(|(_, other)| {
                let size = word.size.max(other.size);
                (word.base - other.base).abs() < LEVEL * size
                    && other.left - word.right < white * size
            });
        if let Some((other, _)) = nearest {
            // The later of two is the nearer.
            if let Some(farther) = taken.insert(*other, *index) {
                next.remove(&farther);
            }
            next.insert(*index, *other);
        }
    }
    next
}

/// Larger than any letters of a room, points.
const LARGEST: f64 = 13.0;

fn reversed(next: &BTreeMap<usize, usize>) -> BTreeMap<usize, usize> {
    next.iter().map(|(one, next)| (*next, *one)).collect()
}

/// "1." or "1)" at the beginning of a line before a word: the number of a step, not of a lens.
fn is_ordinal(
    words: &[Seen],
    index: usize,
    (next, before): (&BTreeMap<usize, usize>, &BTreeMap<usize, usize>),
) -> bool {
    let Some(word) = words.get(index) else {
        return false;
    };
    let mut letters = word.text.chars();
    let is_numbered = matches!(
        (letters.next(), letters.next(), letters.next()),
        (Some('1'..='9'), Some('.' | ')'), None)
    );
    let follower = next.get(&index).and_then(|next| words.get(*next));
    let is_followed = follower.is_some_and(|follower| {
        let letters = follower.text.chars();
        letters.filter(|it| it.is_alphabetic()).count() >= 3 && !is_number(&follower.text)
    });
    is_numbered && is_followed && !before.contains_key(&index)
}

fn wrong(word: &Seen, fault: Fault) -> Wrong {
    Wrong {
        fault,
        page: word.page,
        at: [word.left, word.base - word.size],
        text: word.text.clone(),
    }
}

/// Refuses words of the other eye, in the order in which they are seen or painted, that the data does
/// not hold as often; and any that were not painted one after the other.
fn no_other_eye(
    (seen, words, next): (&[Seen], &[Seen], &BTreeMap<usize, usize>),
    numbers: &Numbers,
    other_eye: &[String],
) -> Result<(), Wrong> {
    let painted: String = seen.iter().map(|seen| close(&seen.text)).collect();
    let before = reversed(next);
    let mut lines = String::new();
    for start in (0..words.len()).filter(|index| !before.contains_key(index)) {
        let mut at = Some(start);
        while let Some((index, word)) = at.and_then(|at| Some((at, words.get(at)?))) {
            lines.push_str(&close(&word.text));
            at = next.get(&index).copied();
            if at.is_some_and(|next| next != index + 1) {
                lines.push(BROUGHT_TOGETHER);
            }
        }
        lines.push('\n');
    }
    let as_read = lines.replace(BROUGHT_TOGETHER, "");
    for eye in other_eye {
        let may = numbers.times(eye);
        let eye = close(eye);
        let times = |text: &str| text.matches(&eye).count();
        let brought_together = times(&lines) < times(&as_read);
        if may < times(&painted) || may < times(&as_read) || brought_together {
            let first = words
                .iter()
                .find(|word| eye.starts_with(&close(&word.text)));
            let at = first.map_or([0.0, 0.0], |word| [word.left, word.base - word.size]);
            return Err(Wrong {
                fault: Fault::OtherEye,
                page: first.map_or(0, |word| word.page),
                at,
                text: eye,
            });
        }
    }
    Ok(())
}
