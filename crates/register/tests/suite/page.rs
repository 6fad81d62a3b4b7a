//! The page on the register explains every message, and none that does not exist.

use crate::support::root;

fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap()
}

/// The messages of the source, each up to its first number, path or way out.
fn messages() -> Vec<String> {
    let source = read("crates/register/src/error.rs");
    let texts = source.split("#[error(").skip(1).filter_map(|rest| {
        // `transparent` has no text of its own.
        let (text, _) = rest.trim_start().strip_prefix('"')?.split_once('"')?;
        // A line of the source that goes on in the next.
        let words: Vec<_> = text
            .replace('\\', " ")
            .split_whitespace()
            .map(str::to_owned)
            .collect();
        let text = words.join(" ");
        let end = text.find(['{', '(', ';', ':']).unwrap_or(text.len());
        Some(text[..end].trim().to_owned())
    });
    texts.filter(|text| !text.is_empty()).collect()
}

#[test]
fn the_page_explains_every_message_and_no_other() {
    let page = read("docs/register.md");
    let (_, rest) = page.split_once("## What an error means").unwrap();
    let (table, _) = rest.split_once("\n## ").unwrap();
    let explained: Vec<&str> = table
        .lines()
        .filter(|line| line.starts_with("| ") && !line.starts_with("| it says"))
        .flat_map(|line| line.split('|').nth(1).unwrap().split(", "))
        .map(|phrase| phrase.trim().split(" N").next().unwrap())
        .collect();
    let messages = messages();
    assert!(20 <= messages.len(), "{messages:?}");
    for message in &messages {
        let known = explained
            .iter()
            .any(|phrase| message.starts_with(phrase) || phrase.starts_with(message.as_str()));
        assert!(known, "docs/register.md does not explain \"{message}\"");
    }
    for phrase in explained {
        let exists = messages
            .iter()
            .any(|message| message.starts_with(phrase) || phrase.starts_with(message.as_str()));
        assert!(exists, "no message says \"{phrase}\"");
    }
}
