//! Files of the tree, and numbers of a check; core's own evidence includes this file too.

use std::path::{Path, PathBuf};

use millrace_core::iol_power::{
    AConstant, CornealHistory, CornealRadii, FormulaConstants, FormulaInputs, HaigisConstants,
    PersonalizedAcd, SurgeonFactor,
};
use millrace_core::quantity::Millimeters;

/// The top of the tree.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .ancestors()
        .find(|directory| directory.join("Cargo.lock").exists())
        .expect("every package lies in the tree")
        .to_owned()
}

pub(crate) fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

pub(crate) fn demo_cases() -> Vec<String> {
    let directory = root().join("demo-data/cases");
    let mut paths: Vec<_> = std::fs::read_dir(directory)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    paths
        .iter()
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect()
}

/// Set to renew the pages instead of comparing them.
const RENEW: &str = "MILLRACE_RENEW_DOCS";

/// A generated page is what is committed.
pub(crate) fn assert_current(path: &str, generated: &str) {
    if std::env::var_os(RENEW).is_some() {
        std::fs::write(root().join(path), generated).unwrap();
    }
    let committed = read(path);
    assert!(
        committed == generated,
        "{path} is out of date; renew it with {RENEW}=1 cargo test -p millrace-core -p millrace-tests docs"
    );
}

/// A table of check values: a comment line that names its script, a header, rows.
pub(crate) fn table(path: &str) -> csv::Reader<std::io::Cursor<String>> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(std::io::Cursor::new(read(path)))
}

/// One row of such a table, its cells by the name of their column.
pub(crate) struct Row {
    header: csv::StringRecord,
    cells: csv::StringRecord,
}

impl Row {
    pub(crate) fn text(&self, column: &str) -> &str {
        let index = self.header.iter().position(|name| name == column);
        &self.cells[index.unwrap_or_else(|| panic!("no column {column}"))]
    }

    /// The number in a cell; nothing in an empty one.
    pub(crate) fn number(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| {
            text.parse()
                .unwrap_or_else(|e| panic!("{column} {text}: {e}"))
        })
    }

    /// The eye of a row, its cornea untouched, with the constants of the lens.
    pub(crate) fn inputs(&self) -> FormulaInputs {
        let number = |column: &str| self.number(column).expect("every eye is complete");
        let mm = |column: &str| Millimeters::new(number(column));
        let [a0, a1, a2] = ["a0_mm", "a1", "a2"].map(number);
        FormulaInputs {
            cornea: Some(CornealRadii(mm("k1_mm"), mm("k2_mm"))),
            acd: self.number("acd_mm").map(Millimeters::new),
            history: CornealHistory::Untouched,
            constants: FormulaConstants {
                a_constant: AConstant::new(number("a_constant")).ok(),
                personalized_acd: PersonalizedAcd::new(number("pacd_mm")).ok(),
                surgeon_factor: SurgeonFactor::new(number("surgeon_factor_mm")).ok(),
                haigis: HaigisConstants::new(a0, a1, a2).ok(),
            },
            ..FormulaInputs::absent()
        }
        .with_length(mm("axial_length_mm"))
    }
}

pub(crate) fn rows(path: &str) -> Vec<Row> {
    let mut reader = table(path);
    let header = reader.headers().unwrap().clone();
    reader
        .into_records()
        .map(|cells| Row {
            header: header.clone(),
            cells: cells.unwrap(),
        })
        .collect()
}
