//! The invented cases, built into the program.

use millrace_core::case_file::{self, CaseFileError};
use millrace_core::lens::LensRecord;

use super::memory_store::MemoryStore;
use super::store::Store as _;

macro_rules! cases {
    ($($name:literal),* $(,)?) => {
        [$(include_str!(concat!("../../../../demo-data/cases/", $name, ".ron"))),*]
    };
}

const CASES: [&str; 15] = cases![
    "after-myopic-surgery",
    "astigmatic-eye",
    "contact-ultrasound-only",
    "deep-black-nucleus",
    "hard-and-shallow",
    "hard-at-the-limit",
    "hard-just-above-the-limit",
    "long-eye",
    "low-endothelium",
    "ordinary-eye",
    "pseudoexfoliation",
    "second-eye",
    "short-eye",
    "silicone-oil",
    "wild-fellow-eye",
];

const LENSES: &str = include_str!("../../../../demo-data/lenses.ron");

/// A store that holds them and forgets everything.
pub(crate) fn store() -> Result<MemoryStore, CaseFileError> {
    let mut store = MemoryStore::default();
    for text in CASES {
        store.begin(case_file::read(text)?, "demo");
    }
    Ok(store)
}

/// The invented lenses.
pub(crate) fn lenses() -> Result<Vec<LensRecord>, CaseFileError> {
    case_file::read_lenses(LENSES)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_demo_case_and_lens_reads() {
        assert!(store().is_ok());
        assert_eq!(lenses().unwrap().len(), 5);
    }
}
