//! The Markdown of the reference texts as blocks that can be shown one under the other.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Block {
    Title(String),
    Section(String),
    Text(String),
    /// Of a list.
    Item(String),
    /// As it is written, line by line.
    Code(String),
    /// Rows of cells, the head first.
    Table(Vec<Vec<String>>),
}

/// In their order. What stands inside a line, such as an emphasis, is shown as plain text.
pub(super) fn blocks(markdown: &str) -> Vec<Block> {
    let (mut found, mut text, mut rows) = (Vec::new(), String::new(), Vec::new());
    for event in Parser::new_ext(markdown, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Table(_)) => rows = Vec::new(),
            Event::Start(Tag::TableHead | Tag::TableRow) => rows.push(Vec::new()),
            Event::Text(part) | Event::Code(part) | Event::InlineMath(part) => text.push_str(&part),
            Event::SoftBreak => text.push(' '),
            Event::HardBreak => text.push('\n'),
            Event::End(TagEnd::TableCell) => {
                if let Some(row) = rows.last_mut() {
                    row.push(core::mem::take(&mut text));
                }
            }
            Event::End(TagEnd::Table) => found.push(Block::Table(core::mem::take(&mut rows))),
            Event::End(end) => {
                let Some(block) = ended(end) else { continue };
                let text = core::mem::take(&mut text);
                let text = text.trim_end();
                // An item that holds a paragraph ended with it.
                if !text.is_empty() {
                    found.push(block(text.to_owned()));
                }
            }
            _ => {}
        }
    }
    found
}

/// What a block is that ends so; nothing for what ends inside one.
fn ended(end: TagEnd) -> Option<fn(String) -> Block> {
    match end {
        TagEnd::Heading(level) if (level as usize) < 3 => Some(Block::Title),
        TagEnd::Heading(_) => Some(Block::Section),
        TagEnd::Paragraph => Some(Block::Text),
        TagEnd::Item => Some(Block::Item),
        TagEnd::CodeBlock => Some(Block::Code),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_part_of_a_text_is_a_block() {
        let text = "## SRK/T (`srk_t`)\n\nOne line\nand *another*, `ELP`.\n\n### Source\n\n- first\n- second [link](x)\n\n\
                    ```text\na = b\nc = 1.3375\n```\n\n| x | y |\n|---|---|\n| `1` | two |\n";
        let owned = str::to_owned;
        let expected = vec![
            Block::Title(owned("SRK/T (srk_t)")),
            Block::Text(owned("One line and another, ELP.")),
            Block::Section(owned("Source")),
            Block::Item(owned("first")),
            Block::Item(owned("second link")),
            Block::Code(owned("a = b\nc = 1.3375")),
            Block::Table(vec![
                vec![owned("x"), owned("y")],
                vec![owned("1"), owned("two")],
            ]),
        ];
        assert_eq!(blocks(text), expected);
    }
}
