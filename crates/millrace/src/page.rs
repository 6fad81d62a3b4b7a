//! A page of text for the terminal: headings, wrapped paragraphs, aligned tables.
//!
//! Colors are written into the text; `anstream` takes them out again where no terminal reads.
//! No line ends between a number and its unit: a sign or a unit alone on a line is misread.

use anstyle::{AnsiColor, Style};
use comfy_table::{CellAlignment, ContentArrangement, Table, presets};
use millrace_core::evidence::Source;
use millrace_wording::dates::months;
use millrace_wording::{Show as _, Words};
use textwrap::Options;

/// Columns of a page when no terminal says otherwise.
const USUAL_WIDTH: u16 = 100;
/// Tables need this much.
const NARROWEST: u16 = 72;
/// Wider lines are hard to read, however wide the terminal.
const WIDEST: u16 = 120;

pub(crate) const HEADING: Style = Style::new().bold();
pub(crate) const STOP: Style = AnsiColor::Red.on_default().bold();
/// Bold only: yellow is hard to read on a light terminal, and word and shape tell already.
pub(crate) const REVIEW: Style = Style::new().bold();
pub(crate) const FAINT: Style = Style::new().dimmed();

/// The width to print in: as asked, or the terminal's.
pub(crate) fn width(asked: Option<u16>) -> usize {
    let terminal = || terminal_size::terminal_size().map(|(width, _)| width.0);
    let columns = asked.or_else(|| terminal().map(|width| width.clamp(NARROWEST, WIDEST)));
    usize::from(columns.unwrap_or(USUAL_WIDTH))
}

pub(crate) struct Page {
    text: String,
    width: usize,
    words: Words,
    /// What was cited, in the order of its numbers.
    cited: Vec<Source>,
}

impl Page {
    pub(crate) const fn new(width: usize, words: Words) -> Self {
        Self {
            text: String::new(),
            width,
            words,
            cited: Vec::new(),
        }
    }

    /// The words it is written in.
    pub(crate) const fn words(&self) -> Words {
        self.words
    }

    pub(crate) const fn width(&self) -> usize {
        self.width
    }

    /// The numbers of sources, `[3] [7]`, each of which stands once in the list at the end.
    pub(crate) fn cite(&mut self, sources: &[Source]) -> String {
        let mut numbers: Vec<usize> = Vec::new();
        for source in sources {
            let known = self.cited.iter().position(|known| known == source);
            let index = known.unwrap_or_else(|| {
                self.cited.push(*source);
                self.cited.len() - 1
            });
            if !numbers.contains(&index) {
                numbers.push(index);
            }
        }
        let numbers = numbers.iter().map(|index| format!("[{}]", index + 1));
        numbers.collect::<Vec<_>>().join(" ")
    }

    /// The list of what was cited.
    pub(crate) fn write_cited(&mut self) {
        let words = self.words;
        for (index, source) in core::mem::take(&mut self.cited).iter().enumerate() {
            let number = format!("[{}]", index + 1);
            self.hanging(&format!(" {number:<5}"), 6, &source.show(words));
        }
    }

    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// An empty line and a heading over a rule.
    pub(crate) fn heading(&mut self, title: &str) {
        let rule = "─".repeat(self.width.saturating_sub(title.chars().count() + 1));
        self.line(&format!(
            "\n{HEADING}{title}{HEADING:#} {FAINT}{rule}{FAINT:#}"
        ));
    }

    pub(crate) fn line(&mut self, line: &str) {
        // Held together until here; a reader who searches types plain spaces.
        self.text
            .push_str(&line.trim_end().replace(UNBREAKABLE, " "));
        self.text.push('\n');
    }

    pub(crate) fn blank(&mut self) {
        self.text.push('\n');
    }

    /// A paragraph, every line indented.
    pub(crate) fn paragraph(&mut self, indent: usize, text: &str) {
        self.hanging(&" ".repeat(indent), indent, text);
    }

    /// A paragraph whose first line starts with `first` and whose others are indented.
    pub(crate) fn hanging(&mut self, first: &str, indent: usize, text: &str) {
        let rest = " ".repeat(indent);
        let options = Options::new(self.width)
            .initial_indent(first)
            .subsequent_indent(&rest);
        self.line(&textwrap::fill(&unbroken(text, self.words), options));
    }

    /// Whether a table fits without a line that is broken in two.
    fn fits(&self, header: &[String], rows: &[Vec<String>]) -> bool {
        let widest = |index: usize| {
            let cells = rows.iter().filter_map(|row| row.get(index));
            let lines = cells.chain(header.get(index)).flat_map(|cell| cell.lines());
            lines.map(|line| line.chars().count()).max().unwrap_or(0)
        };
        // A space on either side of each column, one before the table, one that stays free.
        let needed: usize = (0..header.len()).map(|index| widest(index) + 2).sum();
        needed + 2 <= self.width
    }

    /// A table of numbers: the first column to the left, the others to the right. On a page too
    /// narrow for it the columns stand in several tables, each with the first column.
    pub(crate) fn table(&mut self, header: &[String], rows: &[Vec<String>]) {
        let mut columns: Vec<usize> = Vec::new();
        let part = |row: &[String], columns: &[usize]| -> Vec<String> {
            let cells = [0]
                .iter()
                .chain(columns)
                .filter_map(|index| row.get(*index));
            cells.cloned().collect()
        };
        for index in 1..header.len() {
            let mut wider = columns.clone();
            wider.push(index);
            let cells: Vec<_> = rows.iter().map(|row| part(row, &wider)).collect();
            if columns.is_empty() || self.fits(&part(header, &wider), &cells) {
                columns = wider;
                continue;
            }
            let cells = rows.iter().map(|row| part(row, &columns)).collect();
            self.set_table(&part(header, &columns), cells, &[]);
            self.blank();
            columns = vec![index];
        }
        let cells = rows.iter().map(|row| part(row, &columns)).collect();
        self.set_table(&part(header, &columns), cells, &[]);
    }

    /// A table with words in it; columns named in `words` and the first stand to the left. On a page
    /// too narrow for it every row is a sentence that names the columns of numbers.
    pub(crate) fn table_of_words(
        &mut self,
        header: &[String],
        rows: Vec<Vec<String>>,
        words: &[usize],
    ) {
        if self.fits(header, &rows) {
            self.set_table(header, rows, words);
            return;
        }
        for row in rows {
            let Some((name, cells)) = row.split_first() else {
                continue;
            };
            let cells: Vec<_> = (1..)
                .zip(header.iter().skip(1).zip(cells))
                .filter(|(_, (_, cell))| !matches!(cell.as_str(), "" | "–"))
                .map(|(index, (name, cell))| {
                    if words.contains(&index) {
                        cell.clone()
                    } else {
                        format!("{name} {cell}")
                    }
                })
                .collect();
            self.hanging("  ", 6, &format!("{}: {}", name.trim(), cells.join(", ")));
        }
    }

    fn set_table(&mut self, header: &[String], rows: Vec<Vec<String>>, words: &[usize]) {
        let mut table = Table::new();
        let width = u16::try_from(self.width.saturating_sub(2)).unwrap_or(u16::MAX);
        let unbroken_row = |row: Vec<String>| -> Vec<String> {
            row.iter().map(|cell| unbroken(cell, self.words)).collect()
        };
        table
            .load_style(presets::NOTHING)
            .set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(width)
            .set_header(header.iter().map(|cell| unbroken(cell, self.words)))
            .add_rows(rows.into_iter().map(unbroken_row));
        for (index, column) in table.column_iter_mut().enumerate() {
            let is_words = index == 0 || words.contains(&index);
            let side = if is_words {
                CellAlignment::Left
            } else {
                CellAlignment::Right
            };
            column.set_cell_alignment(side);
        }
        for line in table.to_string().lines() {
            self.line(&format!(" {line}"));
        }
    }
}

/// The space at which no line is broken.
pub(crate) const UNBREAKABLE: &str = "\u{a0}";
/// What belongs to the number in front of it.
const UNITS: [&str; 9] = [
    "D",
    "mm",
    "mm²",
    "mm³",
    "µm",
    "%",
    "cells/mm²",
    "days",
    "years",
];
/// What holds two numbers together.
const BETWEEN: [&str; 4] = ["/", "×", "@", "±"];

/// The text with spaces at which no line is broken between a number and its unit, and within a
/// refraction or a meridian.
fn unbroken(text: &str, words: Words) -> String {
    let months = months(words);
    let mut joined = String::with_capacity(text.len());
    let mut before = "";
    for (index, word) in text.split(' ').enumerate() {
        if 0 < index {
            joined.push_str(if belong(before, word, &months) {
                UNBREAKABLE
            } else {
                " "
            });
        }
        joined.push_str(word);
        before = word;
    }
    joined
}

fn belong(before: &str, word: &str, months: &[&str]) -> bool {
    let bare = word.trim_end_matches(|sign: char| ".,;:)]†*".contains(sign));
    let is_number = |text: &str| text.chars().any(|letter| letter.is_ascii_digit());
    let ends_in_number = before.ends_with(|letter: char| letter.is_ascii_digit());
    let unit = UNITS.contains(&bare) && ends_in_number;
    let joint = (is_number(before) || UNITS.contains(&before)) && BETWEEN.contains(&bare)
        || BETWEEN.contains(&before) && is_number(bare);
    // A day and its month; the mark in front of a row.
    let day = months.contains(&bare) && ends_in_number;
    let year = months.contains(&before) && is_number(bare);
    unit || joint || day || year || matches!(before, "▶" | "▸" | "No.")
}
