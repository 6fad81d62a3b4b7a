//! The page on the register explains every message, and none that does not exist.

use crate::support::root;

fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap()
}

/// The messages, each up to its first number, path or way out.
fn messages() -> Vec<String> {
    let of_register = millrace_wording::messages()
        .filter(|message| message.name.starts_with("millrace_wording::register::"));
    let texts = of_register.flat_map(|message| message.english).map(|text| {
        let end = text.find(['{', '(', ';', ':']).unwrap_or(text.len());
        text[..end].trim().to_owned()
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
