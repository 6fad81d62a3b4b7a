//! Every limit with what a person is told of it: meaning, unit, shipped value, standing.
//!
//! Meaning comes from the documentation of the field, group and standing from the comments of the
//! shipped file, so that each text exists once.

use std::fmt::Write as _;
use std::sync::LazyLock;

use super::{Limits, RANGES, SHIPPED_TEXT, TEXTS, WORDS};

/// What is known of a limit, whatever its value.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutLimit {
    pub name: &'static str,
    /// What it limits, without the rules.
    pub what: &'static str,
    /// The rules that read it, as named in its meaning; empty for a number no rule owns alone.
    pub rules: &'static str,
    /// Its unit; empty for a word.
    pub unit: &'static str,
    /// What it may be, if it is a word; nothing for a number.
    pub words: &'static [&'static str],
    /// Between which numbers it may lie, both included (our own values); nothing for a word.
    pub range: Option<[f64; 2]>,
    /// The part of the file it stands in.
    pub group: String,
    /// What the shipped file says of the shipped value: rules and standing.
    pub standing: &'static str,
    /// The shipped value with its unit.
    pub shipped: String,
}

/// A limit with its value.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitEntry {
    pub about: &'static AboutLimit,
    /// The value in use with its unit.
    pub in_use: String,
}

static ABOUT: LazyLock<Vec<AboutLimit>> = LazyLock::new(|| {
    let entries = Limits::shipped().entries();
    let texts = TEXTS.iter().zip(WORDS).zip(RANGES).zip(entries);
    texts
        .map(
            |(((&[name, meaning, unit], &words), range), (_, shipped))| {
                let (what, rules) = split_rules(meaning);
                let (group, standing) = beside_in_file(name);
                AboutLimit {
                    name,
                    what,
                    rules,
                    unit,
                    words,
                    range: range.first().copied(),
                    group,
                    standing,
                    shipped,
                }
            },
        )
        .collect()
});

/// " Least room (`CL-01`)." → "Least room" and "`CL-01`".
fn split_rules(meaning: &'static str) -> (&'static str, &'static str) {
    let meaning = meaning.trim().trim_end_matches('.');
    let with_rules = meaning
        .strip_suffix(')')
        .and_then(|rest| rest.rsplit_once('('));
    match with_rules {
        Some((what, rules)) if rules.starts_with('`') => (what.trim_end(), rules),
        _ => (meaning, ""),
    }
}

/// The heading over an entry of the shipped file, and the comment beside it.
fn beside_in_file(name: &str) -> (String, &'static str) {
    let mut group = String::new();
    let mut is_in_heading = false;
    let entries = SHIPPED_TEXT.lines().skip_while(|line| *line != "(");
    for line in entries.map(str::trim) {
        if let Some(heading) = line.strip_prefix("// ") {
            if is_in_heading {
                group.push(' ');
            } else {
                group.clear();
            }
            group.push_str(heading);
            is_in_heading = true;
            continue;
        }
        is_in_heading = false;
        if name_of(line) == Some(name) {
            let standing = line.split_once("// ").map_or("", |(_, comment)| comment);
            return (group, standing);
        }
    }
    (group, "")
}

fn name_of(line: &str) -> Option<&str> {
    line.split_once(": \"").map(|(name, _)| name.trim_start())
}

impl LimitEntry {
    /// Whether it differs from the shipped one.
    pub fn is_changed(&self) -> bool {
        self.in_use != self.about.shipped
    }
}

impl Limits {
    /// Every limit, in the order of the file.
    pub fn catalog(&self) -> Vec<LimitEntry> {
        let pairs = ABOUT.iter().zip(self.entries());
        pairs
            .map(|(about, (_, in_use))| LimitEntry { about, in_use })
            .collect()
    }

    /// These limits as a file: a changed one says so and keeps the shipped value beside it.
    pub fn write(&self) -> String {
        let mut text = String::from(
            "// The limits of this clinic. After each changed value: what Millrace ships with.\n",
        );
        let catalog = self.catalog();
        for line in SHIPPED_TEXT.lines().skip_while(|line| *line != "(") {
            let entry = name_of(line)
                .and_then(|name| catalog.iter().find(|entry| entry.about.name == name));
            match entry {
                Some(entry) if entry.is_changed() => {
                    let AboutLimit {
                        name,
                        shipped,
                        standing,
                        ..
                    } = entry.about;
                    let value = entry.in_use.replace('\u{2212}', "-");
                    let shipped = shipped.replace('\u{2212}', "-");
                    let _ = writeln!(
                        text,
                        "    {name}: \"{value}\", // changed; shipped {shipped}: {standing}"
                    );
                }
                _ => {
                    text.push_str(line);
                    text.push('\n');
                }
            }
        }
        text
    }
}
