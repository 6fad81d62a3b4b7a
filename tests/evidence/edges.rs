//! Which crate knows which, and which module names which.

use std::path::Path;

use crate::support::{read, root};
use crate::tidy::rust_files;

/// What each crate may know of the others, for its tests and examples too.
const EDGES: [(&str, &[&str]); 10] = [
    ("core", &[]),
    ("wording", &["core"]),
    ("simulate", &["core"]),
    ("register", &["core", "wording"]),
    ("typefaces", &["core"]),
    ("sheet", &["core", "typefaces", "wording"]),
    ("press", &["core", "sheet", "wording"]),
    ("desk", &["core", "cpu-render", "typefaces", "wording"]),
    ("cpu-render", &[]),
    (
        "millrace",
        &[
            "core", "desk", "press", "register", "sheet", "simulate", "wording",
        ],
    ),
];

/// millrace → desk, register, sheet → wording → core, millrace → simulate → core, and core → nothing of
/// ours; core knows no terminal and draws no numbers; simulate draws them from a seed only; the desk
/// opens no window; the register alone knows SQL; the sheet alone knows how a page is set.
#[test]
fn dependencies_point_one_way() {
    let desk = read("crates/desk/Cargo.toml");
    for crate_name in ["eframe", "winit", "rfd", "rusqlite"] {
        assert!(
            !desk.contains(crate_name),
            "the desk must not know {crate_name}"
        );
    }
    let core = read("crates/core/Cargo.toml");
    for crate_name in [
        "egui",
        "rusqlite",
        "clap",
        "anstream",
        "getrandom",
        "rand_",
        "rayon",
    ] {
        assert!(
            !core.contains(crate_name),
            "core must not know {crate_name}"
        );
    }
    assert!(!read("crates/simulate/Cargo.toml").contains("getrandom"));
    let members = read("Cargo.toml");
    for entry in std::fs::read_dir(root().join("crates")).expect("the crates read") {
        let directory = entry.expect("an entry reads").path();
        let name = directory.file_name().unwrap().to_str().unwrap();
        assert!(
            members.contains(&format!("crates/{name}")),
            "{name} is built"
        );
        let manifest = read(&format!("crates/{name}/Cargo.toml"));
        assert_eq!(manifest.contains("rusqlite"), name == "register", "{name}");
        assert_eq!(manifest.contains("typst"), name == "sheet", "{name}");
        let allowed = EDGES.iter().find(|(from, _)| *from == name);
        let (_, allowed) = allowed.expect("every crate has its edges");
        for line in manifest
            .lines()
            .filter(|line| line.starts_with("millrace-"))
        {
            let to = line.split(['.', ' ']).next().unwrap_or_default();
            let to = to.trim_start_matches("millrace-");
            assert!(allowed.contains(&to), "{name} must not know {to}");
        }
    }
}

/// A clinic's own arrangement is a program: it runs in the process of the press and in no other. What the
/// program names of the sheet is how one is set, and what comes back.
#[test]
fn no_sheet_is_set_outside_the_press() {
    const NAMED: [&str; 7] = [
        "Outdated",
        "PageImage",
        "Paper",
        "Progress",
        "Setting",
        "Template",
        "WithoutSheet",
    ];
    let mut seen = 0;
    for path in rust_files() {
        let text = std::fs::read_to_string(&path).expect("a source file reads");
        let in_program = path.starts_with(root().join("crates/millrace/src"));
        let is_parent = path.starts_with(root().join("crates/press/src"));
        if !(in_program || is_parent) || path.ends_with("press/src/child.rs") {
            continue;
        }
        for named in text.split("millrace_sheet::").skip(1) {
            let list = match named.strip_prefix('{') {
                Some(list) => list.split('}').next().unwrap_or_default(),
                None => named
                    .split(|letter: char| !letter.is_alphanumeric())
                    .next()
                    .unwrap_or_default(),
            };
            for item in list.split(',').map(str::trim).filter(|it| !it.is_empty()) {
                let is_error = is_parent && item == "SheetError";
                let is_link = is_parent && item == "Sheet" && named.starts_with("Sheet::pdf`]");
                assert!(
                    NAMED.contains(&item) || is_error || is_link,
                    "{}: {item}",
                    path.display()
                );
                seen += 1;
            }
        }
    }
    assert!(8 <= seen, "{seen} names were found");
}

/// The modules of core, lowest first: each names only those before it.
const CORE: &[&[&str]] = &[
    &["calendar"],
    &["plain_text", "quantity"],
    &["evidence", "optics"],
    &["iol_power"],
    &["biometry", "lens", "choice"],
    &["limits", "chamber", "astigmatism"],
    &["certainty", "finding"],
    &["case"],
    &["prediction", "case_file"],
    &["second_eye"],
    &["rules"],
    &["plan", "reference"],
    &["document"],
    &["signing"],
];

/// The modules of the desk, lowest first, as `docs/architecture.md` lists them.
const DESK: &[&[&str]] = &[
    &["words"],
    &["settings"],
    &["theme"],
    &["widgets"],
    &["stop"],
    &["exchange", "figures", "command_words"],
    &["power_lines"],
    &["whereabouts", "session", "signed", "typing"],
    &["message"],
    &["pages"],
    &["frame"],
    &["state"],
    &["answers", "follow", "next_entry", "order", "panels"],
    &["update"],
    &["desk"],
];

/// Modules stand in layers: each names only those of the lines above its own, and none of its own line.
#[test]
fn modules_name_only_those_below_them() {
    for (source, layers) in [("crates/core/src", CORE), ("crates/desk/src", DESK)] {
        for path in rust_files() {
            if let Ok(inside) = path.strip_prefix(root().join(source)) {
                names_only_those_below(&path, inside, layers);
            }
        }
    }
}

/// Tests may look at anything; so may what they share.
fn is_for_tests(inside: &Path) -> bool {
    let mut parts = inside.iter().filter_map(|part| part.to_str());
    parts.any(|part| part.starts_with("tests") || part.starts_with("testing"))
}

fn names_only_those_below(path: &Path, inside: &Path, layers: &[&[&str]]) {
    let layer = |module: &str| layers.iter().position(|layer| layer.contains(&module));
    let own = inside.iter().next().and_then(|part| part.to_str());
    let own = own.expect("a module").trim_end_matches(".rs");
    if own == "lib" || is_for_tests(inside) {
        return;
    }
    let place = layer(own).unwrap_or_else(|| panic!("{own} has no layer"));
    let text = std::fs::read_to_string(path).expect("a source file reads");
    let shipped = text.split("#[cfg(test)]\nmod tests {").next();
    let code = shipped.unwrap_or_default().lines();
    let code = code.filter(|line| !line.trim_start().starts_with("//"));
    for line in code {
        for named in line.split("crate::").skip(1) {
            assert!(
                !named.starts_with('{'),
                "{}: one module a line",
                path.display()
            );
            let end = named.find(|letter: char| !letter.is_alphanumeric() && letter != '_');
            let named = &named[..end.unwrap_or(named.len())];
            let lies_below = layer(named).is_some_and(|below| below < place);
            assert!(
                named == own || lies_below,
                "{}: {own} must not name {named}",
                path.display()
            );
        }
    }
}

/// The sheet is laid out from a document: it names what a document is made of, how that is written, and
/// places of a drawing, and nothing of core that computes.
#[test]
fn the_sheet_names_nothing_that_computes() {
    const NAMED: [&str; 22] = [
        "biometry::DepthStart",
        "biometry::EyeRecord",
        "biometry::Measured",
        "biometry::MeridianReading",
        "biometry::Sector",
        "biometry::Side",
        "biometry::Sign",
        "case::",
        "chamber::ChamberSection",
        "chamber::LENS_DIAMETER",
        "chamber::drawing::",
        "astigmatism::Seat",
        "astigmatism::as_seen_from",
        "document::",
        "iol_power::Formula",
        "lens::LensRecord",
        "lens::Place",
        "optics::SpheroCylinder",
        "quantity::",
        "rules::",
        "signing::SheetNumber",
        "signing::SignedPlan",
    ];
    /// What a record of measurements would work out.
    const ASKED: [&str; 6] = [
        ".mean_power(",
        ".radii(",
        ".mean_radius(",
        ".aqueous_depth()",
        ".depth_from_epithelium(",
        ".age(",
    ];
    let source = root().join("crates/sheet/src");
    for path in rust_files() {
        if !path.starts_with(&source) || path.ends_with("tests.rs") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a source file reads");
        let text = text.split("#[cfg(test)]").next().unwrap_or_default();
        for named in text.split("millrace_core::").skip(1) {
            let end =
                named.find(|letter: char| !letter.is_alphanumeric() && !"_:".contains(letter));
            let (stem, rest) = named.split_at(end.unwrap_or(named.len()));
            let list = rest
                .strip_prefix('{')
                .and_then(|rest| rest.split('}').next());
            for item in list.unwrap_or_default().split(',').map(str::trim) {
                let item = format!("{stem}{item}");
                let is_known = NAMED.iter().any(|known| item.starts_with(known));
                assert!(
                    is_known || item.ends_with("::"),
                    "{}: {item} is not for a sheet",
                    path.display()
                );
            }
        }
        for asked in ASKED {
            assert!(!text.contains(asked), "{}: {asked}", path.display());
        }
    }
}
