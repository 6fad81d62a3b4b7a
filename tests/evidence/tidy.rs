//! The shape of the tree: top level, file lengths, and the headings of a
//! formula's reference.

use std::path::{Path, PathBuf};

use millrace_core::certainty::TABLE;
use millrace_core::limits::{Limits, SHIPPED_TEXT};
use millrace_core::reference::FORMULAS;
use millrace_core::rules;

use crate::support::{read, root};

fn files_below(directory: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(directory).expect("a directory reads") {
        let path = entry.expect("an entry reads").path();
        if path.is_dir() {
            files_below(&path, found);
        } else {
            found.push(path);
        }
    }
}

pub(crate) fn rust_files() -> Vec<PathBuf> {
    let mut found = Vec::new();
    for top in ["crates", "tests"] {
        files_below(&root().join(top), &mut found);
    }
    found.retain(|path| path.extension().is_some_and(|extension| extension == "rs"));
    found
}

#[test]
fn the_top_level_holds_what_the_layout_names() {
    const KNOWN: [&str; 18] = [
        ".ci",
        ".git",
        ".gitignore",
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "LICENSE-APACHE",
        "LICENSE-MIT",
        "README.md",
        "assets",
        "clippy.toml",
        "crates",
        "demo-data",
        "deny.toml",
        "docs",
        "kittest.toml",
        "rustfmt.toml",
        "tests",
    ];
    for entry in std::fs::read_dir(root()).expect("the tree reads") {
        let name = entry
            .expect("an entry reads")
            .file_name()
            .into_string()
            .expect("a plain name");
        // Build output and a developer's own dotfiles are not in the tree.
        let is_output = name == "target" || (name.starts_with('.') && !KNOWN.contains(&&*name));
        assert!(
            is_output || KNOWN.contains(&&*name),
            "{name} is foreign at the top level"
        );
    }
}

#[test]
fn no_source_file_outgrows_400_lines() {
    for path in rust_files() {
        let lines = std::fs::read_to_string(&path)
            .expect("a source file reads")
            .lines()
            .count();
        assert!(lines <= 400, "{} has {lines} lines", path.display());
    }
}

/// No file, environment, network or process in what is pure; no clock but in the one place that reads it.
#[test]
fn what_is_pure_touches_nothing_outside() {
    for path in rust_files() {
        let text = std::fs::read_to_string(&path).expect("a source file reads");
        let in_register = path.starts_with(root().join("crates/register/src"));
        for clock in ["SystemTime", "Instant::now"] {
            assert!(!in_register || !text.contains(clock), "{}", path.display());
        }
        let is_clock = path.ends_with("crates/millrace/src/clock.rs");
        let reads_none = path.starts_with(root().join("crates")) && !is_clock;
        for clock in ["Utc::now", "Local::now"] {
            assert!(!reads_none || !text.contains(clock), "{}", path.display());
        }
        let is_pure = ["crates/core/src", "crates/desk/src", "crates/simulate/src"]
            .iter()
            .any(|pure| path.starts_with(root().join(pure)));
        for forbidden in [
            "std::fs",
            "std::env",
            "std::net",
            "SystemTime",
            "std::process",
        ] {
            assert!(
                !is_pure || !text.contains(forbidden),
                "{}: {forbidden}",
                path.display()
            );
        }
    }
}

#[test]
fn every_formula_has_the_seven_headings_in_order() {
    const HEADINGS: [&str; 7] = [
        "# Equation",
        "# Symbols",
        "# Validity",
        "# Errors",
        "# Source",
        "# Example by hand",
        "# Doctest",
    ];
    for entry in &FORMULAS {
        let headings: Vec<_> = entry
            .text
            .lines()
            .filter(|line| line.starts_with("# "))
            .collect();
        // Doctests hide their last lines behind the same mark.
        let headings: Vec<_> = headings
            .into_iter()
            .filter(|line| !line.contains("Ok::<"))
            .collect();
        assert_eq!(headings, HEADINGS, "{}", entry.key);
    }
}

/// A rule stands in a file of its name, or in the file of its family, which names it.
#[test]
fn rule_ids_are_unique_and_each_stands_in_one_file() {
    let mut ids: Vec<_> = rules::ALL.iter().map(|rule| rule.id).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count);
    let mut files = rust_files();
    files.retain(|path| path.starts_with(root().join("crates/core/src/rules")));
    let texts: Vec<_> = files
        .iter()
        .map(|path| {
            (
                path,
                std::fs::read_to_string(path).expect("a source file reads"),
            )
        })
        .collect();
    for id in ids {
        let declares = |text: &str| {
            let (row, field) = (
                format!("\n    \"{id}\",\n"),
                format!("\n    id: \"{id}\",\n"),
            );
            text.contains(&row) || text.contains(&field)
        };
        let declaring: Vec<_> = texts.iter().filter(|(_, text)| declares(text)).collect();
        let [(path, text)] = declaring.as_slice() else {
            panic!("{id} is declared in {} files", declaring.len());
        };
        let by_name = format!("{}.rs", id.to_lowercase().replace('-', "_"));
        let of_family = text.matches("id: \"").count() != 1;
        assert!(
            path.ends_with(&by_name) || of_family,
            "{id}: {}",
            path.display()
        );
    }
}

/// Ids are permanent: one that was ever shipped is never removed or given to another rule.
#[test]
fn no_shipped_rule_id_was_removed() {
    for line in read("crates/core/src/finding/rule-ids.txt")
        .lines()
        .filter(|line| !line.is_empty())
    {
        assert!(rules::by_id(line).is_some(), "{line} was removed");
    }
}

#[test]
fn every_rule_is_complete_and_reads_limits_that_exist() {
    let entries = Limits::shipped().entries();
    for rule in rules::ALL {
        for text in [rule.title, rule.checks, rule.why, rule.options] {
            assert!(!text.trim().is_empty(), "{}", rule.id);
        }
        assert!(!rule.sources.is_empty(), "{} has no source", rule.id);
        assert!(!rule.title.ends_with('.'), "{}: {}", rule.id, rule.title);
        for name in rule.limits {
            assert!(
                entries.iter().any(|(entry, _)| entry == name),
                "{}: {name}",
                rule.id
            );
        }
    }
}

/// Every limit of the file is read by some rule, says how far a number may be off, or is named as one
/// that no rule owns.
#[test]
fn every_limit_is_used() {
    const NO_RULE: [&str; 5] = [
        "sulcus_shift",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
        "toric_rotation_spread",
    ];
    for (name, _) in Limits::shipped().entries() {
        let used = rules::ALL.iter().any(|rule| rule.limits.contains(&name))
            || TABLE.iter().any(|entry| entry.limit == name);
        assert!(used || NO_RULE.contains(&name), "{name} is read by no rule");
    }
}

/// Every entry on certainty is in the file, and the comment beside it there names its standing.
#[test]
fn every_spread_says_how_far_it_can_be_trusted() {
    for entry in TABLE {
        let start = format!("    {}: ", entry.limit);
        let line = SHIPPED_TEXT.lines().find(|line| line.starts_with(&start));
        let line = line.unwrap_or_else(|| panic!("{} is not in the file", entry.limit));
        let comment = line.split_once("// ").expect("a comment").1;
        let word = entry.source.standing.word();
        assert!(
            comment.contains(word),
            "{}: {comment} ({word})",
            entry.limit
        );
    }
}

#[test]
fn every_to_do_has_an_owner() {
    let mark = ["TO", "DO"].concat();
    for path in rust_files() {
        let text = std::fs::read_to_string(&path).expect("a source file reads");
        for (index, line) in text.lines().enumerate() {
            let owned = !line.contains(&mark) || line.contains(&format!("{mark}("));
            assert!(owned, "{}:{}", path.display(), index + 1);
        }
    }
}

/// What only some systems have stands in a module of its own, beside what the others do: whoever builds for one
/// of them looks nowhere else.
#[test]
fn what_only_some_systems_have_stands_in_one_module() {
    const ONLY: [&str; 6] = [
        "cfg(unix)",
        "cfg(not(unix))",
        "cfg(windows)",
        "cfg!(windows)",
        "target_os",
        "std::os::",
    ];
    let is_product = |path: &PathBuf| {
        path.components().any(|part| part.as_os_str() == "src") && !path.ends_with("tests.rs")
    };
    let is_of_systems = |path: &PathBuf| {
        path.components()
            .any(|part| Path::new(part.as_os_str()).file_stem() == Some("system".as_ref()))
    };
    let mut seen = 0;
    for path in rust_files().into_iter().filter(is_product) {
        let text = std::fs::read_to_string(&path).expect("a source file reads");
        // Tests may try what one system alone can do.
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        let code = code.split("#[cfg(all(test").next().unwrap_or_default();
        let found: Vec<_> = ONLY.iter().filter(|only| code.contains(**only)).collect();
        if is_of_systems(&path) {
            seen += usize::from(!found.is_empty());
        } else {
            assert!(found.is_empty(), "{}: {found:?}", path.display());
        }
    }
    assert!(seen >= 4, "{seen}");
}
