//! Public functions that only tests call: they go, or say why they stay.

use std::collections::BTreeMap;

use crate::tidy::rust_files;

/// Public functions that no product code calls, each with its reason.
const FOR_EVIDENCE: [(&str, &str); 8] = [
    (
        "height_at_last_surface",
        "published schematic eyes print it",
    ),
    ("conjugate_in_front", "published schematic eyes print it"),
    ("conjugate_behind", "published schematic eyes print it"),
    (
        "refraction_for",
        "the second implementation of the thick-lens eye returns it",
    ),
    (
        "lens_for",
        "the exact toric lens of the reference text and its second implementation",
    ),
    (
        "transposed",
        "a property of every spherocylinder: both signs of the cylinder are one lens",
    ),
    (
        "power_in",
        "a property of every spherocylinder: its power in any meridian",
    ),
    (
        "set_patience",
        "a test of a busy register would wait five seconds each time",
    ),
];

/// What only a test calls is no part of the product: it goes, or says why it stays.
#[test]
fn every_public_function_is_called() {
    let production: Vec<_> = rust_files()
        .into_iter()
        .filter(|path| path.components().any(|part| part.as_os_str() == "src"))
        .filter(|path| !path.ends_with("tests.rs") && !path.to_string_lossy().contains("testing"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("a source file reads");
            let code = text
                .split("#[cfg(test)]\nmod tests {")
                .next()
                .unwrap_or_default();
            let lines: Vec<_> = code
                .lines()
                .filter(|line| !line.trim_start().starts_with("//"))
                .map(str::to_owned)
                .collect();
            lines.join("\n")
        })
        .collect();
    let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for word in production
        .iter()
        .flat_map(|text| text.split(|letter| !is_part(letter)))
    {
        *counts.entry(word).or_default() += 1;
    }
    let mut uncalled = Vec::new();
    for text in &production {
        for part in text.split("pub ").skip(1) {
            let Some(rest) = part
                .strip_prefix("const ")
                .unwrap_or(part)
                .strip_prefix("fn ")
            else {
                continue;
            };
            let name = rest
                .split(|letter| !is_part(letter))
                .next()
                .unwrap_or_default();
            if counts.get(name) == Some(&1) {
                uncalled.push(name);
            }
        }
    }
    for name in &uncalled {
        let known = FOR_EVIDENCE.iter().any(|(known, _)| known == name);
        assert!(known, "{name} is public and nothing but tests calls it");
    }
    for (name, _) in FOR_EVIDENCE {
        assert!(uncalled.contains(&name), "{name} is called now");
    }
}
