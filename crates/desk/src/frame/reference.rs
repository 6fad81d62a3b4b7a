//! A text of reference in front of the page: the equation, its source and standing, or the model of how sure a
//! prediction is.

mod blocks;

use egui::{Frame, Grid, Id, Margin, Modal, RichText, ScrollArea, TextStyle, Ui};
use millrace_core::reference::{self, FORMULAS};
use millrace_wording::desk::reference as say;

use self::blocks::{Block, blocks};
use crate::theme::{measures, strong_style};
use crate::widgets::reading::Topic;
use crate::widgets::{heading, section};
use crate::words::in_use;

/// What the text needs around it: button, margins, and some of what lies under it.
const AROUND: f32 = 150.0;
/// As wide as a line is read with ease, at most.
const WIDEST: f32 = 860.0;

/// A text that is being read.
pub struct Reading(Vec<Block>);

impl Reading {
    pub fn of(topic: Topic) -> Self {
        let text = match topic {
            Topic::Uncertainty(constants) => reference::uncertainty(constants),
            Topic::Formula(formula) => {
                let entry = FORMULAS.iter().find(|entry| entry.key == formula.key());
                entry
                    .map(reference::FormulaText::section)
                    .unwrap_or_default()
            }
        };
        Self(blocks(&text))
    }

    /// Shows it; `true` once it is to be put away.
    pub fn show(&self, ui: &Ui) -> bool {
        let frame = Frame::popup(ui.style()).inner_margin(Margin::same(20));
        let modal = Modal::new(Id::unique("reading")).frame(frame);
        let room = ui.ctx().content_rect().size();
        let modal = modal.show(ui.ctx(), |ui| {
            ui.set_width(WIDEST.min(room.x - AROUND));
            let words = in_use(ui);
            // Read with the arrow keys as with the wheel.
            let lines = ScrollArea::vertical().max_height(room.y - AROUND);
            lines.auto_shrink([false, true]).show(ui, |ui| {
                for (index, block) in self.0.iter().enumerate() {
                    show(ui, index, block);
                }
            });
            ui.add_space(measures::APART);
            let close = ui.button(say::close(words));
            if ui.memory(|memory| memory.focused().is_none()) {
                close.request_focus();
            }
            close.clicked()
        });
        modal.inner || modal.should_close()
    }
}

fn show(ui: &mut Ui, index: usize, block: &Block) {
    let words = in_use(ui);
    match block {
        Block::Title(text) => {
            heading(ui, &words.reference_made(text));
        }
        Block::Section(text) => {
            section(ui, &words.reference_made(text));
        }
        Block::Text(text) => {
            ui.label(words.reference_made(text));
            ui.add_space(measures::TIGHT);
        }
        Block::Item(text) => {
            ui.label(say::item(words, words.reference_made(text)));
        }
        Block::Code(text) => {
            let text = words.reference_made(text);
            ui.label(RichText::new(text).text_style(TextStyle::Monospace));
            ui.add_space(measures::TIGHT);
        }
        Block::Table(rows) => table(ui, index, rows),
    }
}

/// Its first row is the head.
fn table(ui: &mut Ui, index: usize, rows: &[Vec<String>]) {
    let words = in_use(ui);
    let columns = rows.iter().map(Vec::len).max().unwrap_or_default();
    let grid = Grid::new(("table of a reference", index)).num_columns(columns);
    ScrollArea::horizontal().id_salt(index).show(ui, |ui| {
        grid.striped(true).show(ui, |ui| {
            for (at, row) in rows.iter().enumerate() {
                for cell in row {
                    let text = RichText::new(words.reference_made(cell));
                    let is_head = at == 0;
                    ui.label(if is_head {
                        text.text_style(strong_style())
                    } else {
                        text
                    });
                }
                ui.end_row();
            }
        });
    });
    ui.add_space(measures::NEAR);
}
