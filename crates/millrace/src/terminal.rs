//! What a person reads: standard output and standard error.
//!
//! A terminal obeys some letters instead of showing them: one in a path, a name or a cell could clear the
//! screen or write over what stands there. None gets through but the colors this program sets itself.

use std::borrow::Cow;
use std::fmt::{Display, Write as _};
use std::io::{self, Write as _};

use anstyle::Style;
use millrace_core::plain_text;

use crate::failure::Failure;
use crate::page::{FAINT, HEADING, REVIEW, STOP};

/// Every style that is written into a text.
const STYLES: [Style; 4] = [HEADING, STOP, REVIEW, FAINT];
/// What begins a style.
const ESCAPE: char = '\u{1b}';

/// Writes to standard output.
pub(crate) fn print(text: &str) -> Result<(), Failure> {
    write(text).map_err(Failure::Output)
}

/// Writes to standard output what became of a change that is on the drive: if it cannot be shown, the change
/// stands all the same.
pub(crate) fn print_done(text: &str) -> Result<(), Failure> {
    write(text).map_err(Failure::NotShown)
}

/// Writes a line to standard error.
pub(crate) fn tell(line: impl Display) {
    let line = format!("{line}\n");
    // If even stderr is gone, the exit code is all that is left to say.
    let _ = anstream::stderr().write_all(seen(&line).as_bytes());
}

fn write(text: &str) -> io::Result<()> {
    let mut stdout = anstream::stdout();
    stdout.write_all(seen(text).as_bytes())?;
    stdout.flush()
}

/// The text with every letter that would be obeyed written as its number, the way JSON writes it; so a JSON
/// text stays one.
pub(crate) fn seen(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_obeyed) {
        return text.into();
    }
    let mut shown = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let taken = style(rest).unwrap_or(letter.len_utf8());
        let (part, after) = rest.split_at(taken);
        rest = after;
        if part.len() > letter.len_utf8() || !is_obeyed(letter) {
            shown.push_str(part);
        } else {
            let mut units = [0; 2];
            for unit in letter.encode_utf16(&mut units) {
                // Writing to a String does not fail.
                let _ = write!(shown, "\\u{unit:04x}");
            }
        }
    }
    shown.into()
}

fn is_obeyed(letter: char) -> bool {
    !matches!(letter, '\n' | '\t') && plain_text::is_obeyed(letter)
}

/// How many bytes a style at the start of a text has, if one stands there.
fn style(text: &str) -> Option<usize> {
    if !text.starts_with(ESCAPE) {
        return None;
    }
    let written = STYLES
        .iter()
        .flat_map(|style| [style.render().to_string(), style.render_reset().to_string()]);
    written
        .filter(|written| !written.is_empty() && text.starts_with(written))
        .map(|written| written.len())
        .max()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_terminal_would_obey_is_shown_as_its_number() {
        for (text, shown) in [
            ("a\u{1b}[2Jb", "a\\u001b[2Jb"),
            // Conceals what follows; no style of ours.
            ("\u{1b}[8mhidden", "\\u001b[8mhidden"),
            ("\u{1b}]0;title\u{7}", "\\u001b]0;title\\u0007"),
            ("\u{9b}2J", "\\u009b2J"),
            ("over\rwritten", "over\\u000dwritten"),
            ("\u{202e}txt.exe", "\\u202etxt.exe"),
            ("\u{e0041}", "\\udb40\\udc41"),
            (
                "line\n\tline: 王 می\u{200c}خواهم −0.25 D",
                "line\n\tline: 王 می\u{200c}خواهم −0.25 D",
            ),
        ] {
            assert_eq!(seen(text), shown);
        }
    }

    #[test]
    fn the_styles_of_a_page_pass_and_a_text_in_one_does_not_break_out() {
        for style in STYLES {
            let text = format!("{style}heading{style:#} rest");
            assert_eq!(seen(&text), text);
        }
        let forged = format!("{HEADING}\u{1b}[2J{HEADING:#}");
        assert_eq!(seen(&forged), format!("{HEADING}\\u001b[2J{HEADING:#}"));
    }

    #[test]
    fn a_json_text_stays_one() {
        let text = serde_json::to_string("a\u{9b}b\u{202e}c\u{e0041}").unwrap();
        let shown = seen(&text).into_owned();
        assert!(!shown.chars().any(is_obeyed));
        let read: String = serde_json::from_str(&shown).unwrap();
        assert_eq!(read, "a\u{9b}b\u{202e}c\u{e0041}");
    }
}
