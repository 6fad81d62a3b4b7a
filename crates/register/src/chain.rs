//! The hash that chains a revision to the one before it.

use sha2::{Digest as _, Sha256};

use crate::entry::RevisionHash;

/// The same for signed plans.
const SHEET_PURPOSE: &[u8] = b"millrace sheet 1";
/// The same for the whole register.
const HEAD_PURPOSE: &[u8] = b"millrace head 1";
/// Tells these hashes from any other program's, and version 1 from a later way of counting.
const PURPOSE: &[u8] = b"millrace revision 1";
/// Of a revision that says at which desk it was saved.
const PURPOSE_WITH_DESK: &[u8] = b"millrace revision 2";

/// What a hash covers, as the texts that are stored.
pub(crate) struct Link<'a> {
    /// Hash of the revision before; zeros before the first.
    pub(crate) previous: RevisionHash,
    pub(crate) case: &'a str,
    pub(crate) number: u32,
    pub(crate) saved_at: &'a str,
    pub(crate) saved_by: &'a str,
    pub(crate) desk: Option<&'a str>,
    pub(crate) program: &'a str,
    pub(crate) body: &'a str,
}

/// Before the first revision of a case.
pub(crate) const BEFORE_FIRST: RevisionHash = RevisionHash([0; 32]);

impl Link<'_> {
    /// SHA-256 over purpose, previous hash, case, number, time, person, desk if there is one, program and
    /// body, each behind its length in bytes (8, big-endian), so that no two lists of fields read alike.
    pub(crate) fn hash(&self) -> RevisionHash {
        let purpose = self.desk.map_or(PURPOSE, |_| PURPOSE_WITH_DESK);
        let number = self.number.to_string();
        let before_desk = [
            purpose,
            &self.previous.0,
            self.case.as_bytes(),
            number.as_bytes(),
            self.saved_at.as_bytes(),
            self.saved_by.as_bytes(),
        ];
        let after_desk = [self.program.as_bytes(), self.body.as_bytes()];
        let desk = self.desk.map(str::as_bytes);
        let fields = before_desk.into_iter().chain(desk).chain(after_desk);
        hash_fields(&fields.collect::<Vec<_>>())
    }
}

/// What the hash of a sheet covers.
pub(crate) struct SheetLink<'a> {
    /// Hash of the sheet before, over all cases; zeros before the first.
    pub(crate) previous: RevisionHash,
    pub(crate) number: u32,
    pub(crate) case: &'a str,
    pub(crate) revision: u32,
    pub(crate) saved: RevisionHash,
    pub(crate) body: &'a str,
}

impl SheetLink<'_> {
    /// SHA-256 over purpose, previous hash, number, case, revision, its hash, and body, each behind its
    /// length.
    pub(crate) fn hash(&self) -> RevisionHash {
        hash_fields(&[
            SHEET_PURPOSE,
            &self.previous.0,
            self.number.to_string().as_bytes(),
            self.case.as_bytes(),
            self.revision.to_string().as_bytes(),
            &self.saved.0,
            self.body.as_bytes(),
        ])
    }
}

/// SHA-256 over purpose, count of saves, hash over their hashes, and the same of sheets, each behind its
/// length.
pub(crate) fn hash_head(saves: (u64, [u8; 32]), sheets: (u64, [u8; 32])) -> [u8; 32] {
    hash_fields(&[
        HEAD_PURPOSE,
        saves.0.to_string().as_bytes(),
        &saves.1,
        sheets.0.to_string().as_bytes(),
        &sheets.1,
    ])
    .0
}

fn hash_fields(fields: &[&[u8]]) -> RevisionHash {
    let mut hasher = Sha256::new();
    for field in fields {
        let length = u64::try_from(field.len()).unwrap_or(u64::MAX);
        hasher.update(length.to_be_bytes());
        hasher.update(field);
    }
    RevisionHash(hasher.finalize().into())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn link() -> Link<'static> {
        Link {
            previous: BEFORE_FIRST,
            case: "00000000000000000000000000",
            number: 1,
            saved_at: "2026-11-24T10:15:30Z",
            saved_by: "A. Okafor",
            desk: None,
            program: "millrace 0.1.0",
            body: "{}",
        }
    }

    /// Computed in Python by `tests/oracle/register_chain.py`, which knows nothing of this file.
    #[test]
    fn agrees_with_a_second_implementation() {
        assert_eq!(
            link().hash().to_string(),
            "19e2866a605489bd32fede794dec709abde2bece34ab0d4affb19634eb397925"
        );
        let second = Link {
            previous: link().hash(),
            number: 2,
            body: "{\"é\":1}",
            ..link()
        };
        assert_eq!(
            second.hash().to_string(),
            "a037c1e7a706ee768fcdc50e3d4976b7b29b841145d4065aabac8e98b12dd47f"
        );
        let third = Link {
            previous: second.hash(),
            number: 3,
            desk: Some("measuring room"),
            ..link()
        };
        assert_eq!(
            third.hash().to_string(),
            "7a674b07562c24614b71b20980d746ba34f643d51a6c5eab926c0fc2cfd4bdb1"
        );
    }

    #[test]
    fn every_field_counts_and_none_runs_into_the_next() {
        let first = link().hash();
        let other = [
            Link {
                previous: RevisionHash([1; 32]),
                ..link()
            },
            Link {
                case: "00000000000000000000000001",
                ..link()
            },
            Link {
                number: 2,
                ..link()
            },
            Link {
                saved_at: "2026-11-24T10:15:31Z",
                ..link()
            },
            Link {
                saved_by: "B. Okafor",
                ..link()
            },
            Link {
                desk: Some("measuring room"),
                ..link()
            },
            Link {
                program: "millrace 0.1.1",
                ..link()
            },
            Link {
                body: "[]",
                ..link()
            },
            Link {
                saved_by: "A. Okaform",
                program: "illrace 0.1.0",
                ..link()
            },
        ];
        for (index, link) in other.iter().enumerate() {
            assert_ne!(link.hash(), first, "{index}");
        }
    }
}
