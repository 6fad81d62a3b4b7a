//! A page of text for the terminal: headings, wrapped paragraphs, aligned tables.
//!
//! Colors are written into the text; `anstream` takes them out again where no terminal reads.

use anstyle::{AnsiColor, Style};
use comfy_table::{CellAlignment, ContentArrangement, Table, presets};
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
}

impl Page {
    pub(crate) const fn new(width: usize) -> Self {
        Self {
            text: String::new(),
            width,
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

    /// A line as it is.
    pub(crate) fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
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
        self.line(&textwrap::fill(text, options));
    }

    /// Whether a table fits without a line that is broken in two.
    pub(crate) fn fits(&self, header: &[String], rows: &[Vec<String>]) -> bool {
        let widest = |index: usize| {
            let cells = rows.iter().filter_map(|row| row.get(index));
            let cells = cells.chain(header.get(index));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        // A space on either side of each column, one before the table, one that stays free.
        let needed: usize = (0..header.len()).map(|index| widest(index) + 2).sum();
        needed + 2 <= self.width
    }

    /// A table: the first column to the left, the others to the right unless `words` names them.
    pub(crate) fn table(&mut self, header: &[String], rows: Vec<Vec<String>>, words: &[usize]) {
        let mut table = Table::new();
        let width = u16::try_from(self.width.saturating_sub(2)).unwrap_or(u16::MAX);
        table
            .load_style(presets::NOTHING)
            .set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(width)
            .set_header(header.to_vec())
            .add_rows(rows);
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
