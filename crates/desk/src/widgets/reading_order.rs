//! Text that is only shown, in the order in which it is read.
//!
//! egui joins the letters of Arabic and turns each word of it and of Hebrew around, and then sets one word
//! after the other from left to right: a name of two words stood with its first word last. Here a text is
//! broken into lines as it was typed, and each line is set in the order of the Unicode standard (annex 9).
//! What a screen reader is told stays as it was typed.

use std::ops::Range;
use std::sync::Arc;

use egui::text::{ByteIndex, LayoutJob, LayoutSection, TextFormat};
use egui::{Color32, FontId, Galley, Painter, Response, Role, Sense, Ui, WidgetInfo};
use unicode_bidi::{BidiClass, BidiInfo, Level, bidi_class};
use unicode_bidi_mirroring::get_mirrored;

/// Whether some of it is read from right to left.
pub fn reads_from_right(text: &str) -> bool {
    !text.is_ascii() && text.chars().any(is_from_right)
}

fn is_from_right(letter: char) -> bool {
    matches!(bidi_class(letter), BidiClass::R | BidiClass::AL)
}

/// A label of a text that somebody typed, as wide as there is room.
pub fn typed_text(ui: &mut Ui, text: &str, font: FontId, color: Color32) -> Response {
    let width = ui.available_width();
    let galley = typed_galley(ui.painter(), (text, color), font, width);
    let (rect, response) = ui.allocate_exact_size(galley.size(), Sense::hover());
    ui.painter().galley(rect.min, galley, color);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, text));
    response
}

/// A text that somebody typed, laid out within this width, in points.
pub fn typed_galley(
    painter: &Painter,
    (text, color): (&str, Color32),
    font: FontId,
    width: f32,
) -> Arc<Galley> {
    if !reads_from_right(text) {
        return painter.layout(text.to_owned(), font, color, width);
    }
    let measure = |part: &str| {
        let galley = painter.layout_no_wrap(part.to_owned(), font.clone(), color);
        galley.size().x
    };
    let lines = in_order(text, width, &measure);
    painter.layout_job(side_by_side(&lines, &TextFormat::simple(font, color)))
}

/// Each piece is a section of its own, so that none is shaped in the direction of its neighbor: those that
/// look the same, `LayoutJob::append` would join again.
fn side_by_side(lines: &[Vec<String>], format: &TextFormat) -> LayoutJob {
    let mut job = LayoutJob::default();
    job.wrap.max_width = f32::INFINITY;
    let mut add = |piece: &str| {
        let start = job.text.len();
        job.text.push_str(piece);
        job.sections.push(LayoutSection {
            leading_space: 0.0,
            byte_range: ByteIndex(start)..ByteIndex(job.text.len()),
            format: format.clone(),
        });
    };
    for (index, line) in lines.iter().enumerate() {
        if 0 < index {
            add("\n");
        }
        for piece in line {
            add(piece);
        }
    }
    job
}

/// The lines of a text, each as the pieces that stand beside each other from left to right.
fn in_order(text: &str, width: f32, measure: &dyn Fn(&str) -> f32) -> Vec<Vec<String>> {
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let bidi = BidiInfo::new(paragraph, None);
        let Some(whole) = bidi.paragraphs.first() else {
            lines.push(Vec::new());
            continue;
        };
        for line in broken(paragraph, width, measure) {
            let (levels, runs) = bidi.visual_runs(whole, line);
            let pieces = runs.into_iter().flat_map(|run| {
                let level = levels.get(run.start).copied().unwrap_or(Level::ltr());
                pieces(paragraph.get(run).unwrap_or_default(), level)
            });
            lines.push(pieces.collect());
        }
    }
    lines
}

/// Where lines begin and end that are this wide at most: between words, and within a word only where it
/// alone is too wide.
fn broken(text: &str, width: f32, measure: &dyn Fn(&str) -> f32) -> Vec<Range<usize>> {
    let fits = |range: &Range<usize>| measure(text.get(range.clone()).unwrap_or_default()) <= width;
    let mut lines: Vec<Range<usize>> = Vec::new();
    for word in words(text) {
        if let Some(line) = lines.last_mut() {
            let longer = line.start..word.end;
            if fits(&longer) {
                *line = longer;
                continue;
            }
        }
        if fits(&word) {
            lines.push(word);
        } else {
            lines.extend(letter_by_letter(text, word, &fits));
        }
    }
    lines
}

fn letter_by_letter(
    text: &str,
    word: Range<usize>,
    fits: &dyn Fn(&Range<usize>) -> bool,
) -> Vec<Range<usize>> {
    let mut parts: Vec<Range<usize>> = Vec::new();
    let letters = text.get(word.clone()).unwrap_or_default().char_indices();
    for (at, letter) in letters {
        let this = word.start + at..word.start + at + letter.len_utf8();
        match parts.last_mut() {
            Some(part) if fits(&(part.start..this.end)) => part.end = this.end,
            _ => parts.push(this),
        }
    }
    parts
}

/// Where the words between the spaces stand.
fn words(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut end = 0;
    text.split(' ').filter_map(move |word| {
        let start = end;
        end = start + word.len() + 1;
        (!word.is_empty()).then_some(start..start + word.len())
    })
}

/// A run of one direction as pieces from left to right.
fn pieces(run: &str, level: Level) -> Vec<String> {
    let is_from_right = level.is_rtl();
    let mut found: Vec<String> = Vec::new();
    let mut was_joined = false;
    for letter in run.chars() {
        let joins = if is_from_right {
            stays_in_its_word(letter)
        } else {
            // Their script is Arabic, and so they would be turned around; digits are read from the left.
            !('\u{6f0}'..='\u{6f9}').contains(&letter)
        };
        match found.last_mut() {
            Some(piece) if joins && was_joined => piece.push(letter),
            _ if is_from_right && !joins => {
                found.push(get_mirrored(letter).unwrap_or(letter).to_string());
            }
            _ => found.push(letter.to_string()),
        }
        was_joined = joins;
    }
    if is_from_right {
        found.reverse();
    }
    found
}

/// A letter, and the marks and joiners with it, that egui turns around together with its word; a space, a
/// comma, a bracket is set from left to right by itself.
fn stays_in_its_word(letter: char) -> bool {
    is_from_right(letter) || matches!(bidi_class(letter), BidiClass::NSM | BidiClass::BN)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every letter is as wide as every other.
    fn set(text: &str, letters: f32) -> Vec<String> {
        let measure = |part: &str| f32::from(u16::try_from(part.chars().count()).unwrap());
        let lines = in_order(text, letters, &measure);
        lines.iter().map(|line| line.join("|")).collect()
    }

    /// From left to right as they stand on paper; each word is turned around where it is drawn.
    #[test]
    fn words_from_right_to_left_stand_in_their_order() {
        for (text, expected) in [
            ("مريم الخطيب", "الخطيب| |مريم"),
            ("שרה בן־דוד", "בן־דוד| |שרה"),
            ("Okonjo, Adaeze", "Okonjo, Adaeze"),
            (
                "Al-Khatib, Maryam (مريم الخطيب)",
                "Al-Khatib, Maryam (|الخطيب| |مريم|)",
            ),
            // The comma belongs to the first word, and so stands to its left.
            ("الخطيب، مريم", "مريم| |،|الخطيب"),
            // Brackets are mirrored, what is between them is read from the left.
            ("שרה (Sara) 12", "12| |(|Sara|)| |שרה"),
            ("שרה 12.50", "12.50| |שרה"),
            // Digits of Persia are read from the left like all.
            ("مریم ۱۲", "۱|۲| |مریم"),
        ] {
            assert_eq!(set(text, f32::INFINITY), [expected], "{text}");
        }
    }

    /// A comma of Arabic that is shaped together with the word after it stands on its wrong side.
    #[test]
    fn no_piece_is_joined_to_its_neighbor_again() {
        let pieces = |text: &[&str]| text.iter().map(ToString::to_string).collect::<Vec<_>>();
        let lines = [pieces(&["مريم", " ", "،", "الخطيب"]), pieces(&["a"])];
        let job = side_by_side(&lines, &TextFormat::default());
        let sections = job.sections.iter().map(|section| section.byte_range.end.0);
        assert_eq!(sections.collect::<Vec<_>>(), [8, 9, 11, 23, 24, 25]);
        assert_eq!(job.text, "مريم ،الخطيب\na");
    }

    /// The line that is read first stands first.
    #[test]
    fn a_name_is_broken_before_it_is_turned_around() {
        assert_eq!(
            set("مريم عبد الرحمن الخطيب", 9.0),
            ["عبد| |مريم", "الرحمن", "الخطيب"]
        );
        assert_eq!(set("שרה בן־דוד", 3.0), ["שרה", "בן־", "דוד"]);
        assert_eq!(set("a  b", 9.0), ["a  b"]);
        assert_eq!(set("שרה\nb", 9.0), ["שרה", "b"]);
    }

    #[test]
    fn no_letter_is_lost_at_any_width() {
        let name = "Al-Khatib, Maryam (مريم عبد الرحمن الخطيب) ۱۲ שרה";
        let letters = |text: &str| {
            let mut letters: Vec<char> = text
                .chars()
                .filter(|letter| letter.is_alphanumeric())
                .collect();
            letters.sort_unstable();
            letters
        };
        for width in 1..60_u8 {
            let set = set(name, f32::from(width));
            assert_eq!(letters(&set.concat()), letters(name), "{width}");
        }
    }

    #[test]
    fn only_what_is_read_from_the_right_is_set_anew() {
        for (text, expected) in [
            ("Okonjo", false),
            ("Željka", false),
            ("김민수", false),
            ("राजेश्वरी", false),
            ("מרים", true),
            ("a م", true),
            ("ދިވެހި", true),
            ("", false),
        ] {
            assert_eq!(reads_from_right(text), expected, "{text}");
        }
    }
}
