//! What of a room stands in the file and not on paper: read aloud, listed beside the page, attached.

use typst::foundations::{Content, Value};
use typst::introspection::Tag;
use typst::layout::FrameItem;

use super::Wrong;
use super::numbers::Numbers;
use super::parts::{Item, Room};
use super::pieces::{is_number, looks_like_a_number, pieces};
use crate::data::SheetData;
use crate::error::Fault;

/// Refuses files, links, and numbers that are read aloud or listed without being of the data.
pub(super) fn check(room: &Room<'_>, data: &SheetData, numbers: &Numbers) -> Result<(), Wrong> {
    for item in &room.items {
        match item.is {
            FrameItem::Link(..) => return Err(Wrong::with(item, Fault::Drawing)),
            FrameItem::Tag(Tag::Start(content, _)) => element((item, content), data, numbers)?,
            _ => {}
        }
    }
    Ok(())
}

fn element(
    (item, content): (&Item<'_>, &Content),
    data: &SheetData,
    numbers: &Numbers,
) -> Result<(), Wrong> {
    let refused = |text: &str| {
        Err(Wrong {
            text: text.to_owned(),
            ..Wrong::with(item, Fault::Unseen)
        })
    };
    let name = content.elem().name();
    if name == "attach" {
        return refused("");
    }
    if let Ok(Value::Str(alt)) = content.get_by_name("alt") {
        let is_of_a_figure = data.figures.iter().any(|figure| figure.alt == alt.as_str());
        if !is_of_a_figure && !is_plain(&alt, numbers) {
            return refused(&alt);
        }
    }
    // A heading is listed beside the page even where it is not shown.
    if name == "heading" {
        let text = content.plain_text();
        if !is_plain(&text, numbers) {
            return refused(&text);
        }
    }
    Ok(())
}

fn is_plain(text: &str, numbers: &Numbers) -> bool {
    pieces(text)
        .into_iter()
        .filter(|piece| is_number(piece) || looks_like_a_number(piece))
        .all(|number| numbers.holds(number))
}
