//! A reader of PDF text that knows nothing of the layout: content streams, the table of each font
//! from codes to letters, and replaced text. What pdftotext does, in Rust, so that every machine checks.

use std::collections::BTreeMap;

use lopdf::content::Content;
use lopdf::{Document, Object, ObjectId, StringFormat};

type Letters = BTreeMap<u32, String>;

/// Text of each page, in the order of painting.
pub(crate) fn pages(pdf: &[u8]) -> Vec<String> {
    let document = Document::load_mem(pdf).unwrap();
    document
        .get_pages()
        .values()
        .map(|page| page_text(&document, *page))
        .collect()
}

fn page_text(document: &Document, page: ObjectId) -> String {
    let fonts: BTreeMap<Vec<u8>, (usize, Letters)> = document
        .get_page_fonts(page)
        .unwrap()
        .into_iter()
        .map(|(name, font)| {
            let stream = font.get(b"ToUnicode").unwrap().as_reference().unwrap();
            let stream = document.get_object(stream).unwrap().as_stream().unwrap();
            let table = stream
                .decompressed_content()
                .unwrap_or_else(|_| stream.content.clone());
            let bytes = if font.get(b"Subtype").unwrap().as_name().unwrap() == b"Type0" {
                2
            } else {
                1
            };
            (name, (bytes, letters(&String::from_utf8(table).unwrap())))
        })
        .collect();
    let content = Content::decode(&document.get_page_content(page).unwrap()).unwrap();
    let mut text = String::new();
    let mut font = None;
    // Depth of marked content, and the depth at which replaced text hides what is drawn.
    let (mut depth, mut hidden) = (0, None);
    for operation in content.operations {
        match operation.operator.as_str() {
            "BDC" | "BMC" => {
                depth += 1;
                let actual = operation
                    .operands
                    .get(1)
                    .and_then(|properties| properties.as_dict().ok()?.get(b"ActualText").ok());
                if let (Some(actual), None) = (actual, hidden) {
                    text.push_str(&text_string(actual));
                    hidden = Some(depth);
                }
            }
            "EMC" => {
                if hidden == Some(depth) {
                    hidden = None;
                }
                depth -= 1;
            }
            "Tf" => font = Some(&fonts[operation.operands[0].as_name().unwrap()]),
            "Tj" | "TJ" if hidden.is_none() => {
                let (bytes, table) = font.unwrap();
                for operand in &operation.operands {
                    show(operand, *bytes, table, &mut text);
                }
            }
            _ => {}
        }
    }
    text
}

fn show(operand: &Object, bytes: usize, table: &Letters, text: &mut String) {
    match operand {
        Object::Array(parts) => parts.iter().for_each(|part| show(part, bytes, table, text)),
        Object::String(codes, _) => {
            for code in codes.chunks(bytes) {
                let code = code
                    .iter()
                    .fold(0, |code, byte| code << 8 | u32::from(*byte));
                // A glyph that continues the one before has no letters of its own.
                text.push_str(table.get(&code).map_or("", String::as_str));
            }
        }
        _ => {}
    }
}

fn text_string(object: &Object) -> String {
    let Object::String(bytes, StringFormat::Literal | StringFormat::Hexadecimal) = object else {
        panic!("{object:?}");
    };
    match bytes.strip_prefix(&[0xfe, 0xff]) {
        Some(wide) => utf16(wide),
        None => String::from_utf8(bytes.clone()).unwrap(),
    }
}

fn utf16(bytes: &[u8]) -> String {
    let units: Vec<u16> = bytes
        .chunks(2)
        .map(|pair| u16::from(pair[0]) << 8 | u16::from(pair[1]))
        .collect();
    String::from_utf16(&units).unwrap()
}

/// The `bfchar` and `bfrange` lines of a table.
fn letters(table: &str) -> Letters {
    let mut found = Letters::new();
    for (kind, end) in [("beginbfchar", "endbfchar"), ("beginbfrange", "endbfrange")] {
        for block in table.split(kind).skip(1) {
            let block = block.split(end).next().unwrap();
            let numbers: Vec<&str> = block
                .split('<')
                .skip(1)
                .map(|part| part.split('>').next().unwrap())
                .collect();
            let code = |text: &str| u32::from_str_radix(text, 16).unwrap();
            let word = |text: &str| {
                let bytes: Vec<u8> = (0..text.len() / 2)
                    .map(|index| u8::from_str_radix(&text[2 * index..2 * index + 2], 16).unwrap())
                    .collect();
                utf16(&bytes)
            };
            if kind == "beginbfchar" {
                for pair in numbers.chunks(2) {
                    found.insert(code(pair[0]), word(pair[1]));
                }
            } else {
                assert!(
                    numbers.is_empty(),
                    "a table with ranges: teach the reader to read them"
                );
            }
        }
    }
    found
}
