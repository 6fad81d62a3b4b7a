//! The invented cases, built into the program.

use millrace_core::case_file::{self, CaseFileError};
use millrace_core::lens::LensRecord;

use super::register_store::RegisterStore;

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

/// A register that holds them and is gone when the window closes.
pub(crate) fn store() -> Result<RegisterStore, String> {
    let cases = CASES
        .into_iter()
        .map(case_file::read)
        .collect::<Result<Vec<_>, _>>()
        .map_err(|error| error.to_string())?;
    RegisterStore::throw_away(&cases)
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
