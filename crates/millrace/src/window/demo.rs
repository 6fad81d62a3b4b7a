//! The invented cases, built into the program.

use millrace_core::case_file::{self, CaseFileError};
use millrace_core::lens::LensRecord;
use millrace_desk::exchange::{Answer, Listing};
use millrace_desk::whereabouts::Whereabouts;
use millrace_wording::Words;

use super::register_store::{RegisterStore, plain};

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

/// Hospital number of the case that is looked at first.
const FIRST: &str = "40-2291";

const LENSES: &str = include_str!("../../../../demo-data/lenses.ron");

/// A register that holds them and is gone when the window closes.
pub(crate) fn store(words: Words) -> Result<RegisterStore, String> {
    let cases = CASES
        .into_iter()
        .map(case_file::read)
        .collect::<Result<Vec<_>, _>>()
        .map_err(plain(words))?;
    RegisterStore::throw_away(&cases, words)
}

/// Where its first look goes: the hard nucleus in a shallow chamber, rather than an empty page.
pub(crate) fn first_look(store: &RegisterStore) -> Whereabouts {
    let found = store.list((FIRST, Listing::Planned), &(0..1), None);
    let case = match found {
        Ok(Answer::Listed(listed)) => listed.rows.into_iter().next().map(|row| row.case),
        _ => None,
    };
    Whereabouts {
        case,
        ..Whereabouts::default()
    }
}

pub(crate) fn lenses() -> Result<Vec<LensRecord>, CaseFileError> {
    case_file::read_lenses(LENSES)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_demo_case_and_lens_reads() {
        let store = store(Words::ENGLISH).unwrap();
        assert!(first_look(&store).case.is_some());
        assert_eq!(lenses().unwrap().len(), 5);
    }
}
