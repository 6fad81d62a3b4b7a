//! The form of a head, and its hash against a second implementation.

use super::*;

fn hash(byte: u8) -> [u8; 32] {
    [byte; 32]
}

/// Computed in Python by `tests/oracle/register_chain.py`, which knows nothing of this file.
#[test]
fn the_hash_agrees_with_a_second_implementation() {
    let head = head_of(&[hash(1), hash(2)], &[hash(3)]);
    assert_eq!(
        head.digits(WHOLE),
        "ce0957f7d972126c095747ffad3d267ef3629d4b9748a7ad80ffedaa27cf0b8f"
    );
    assert_eq!(
        head_of(&[], &[]).digits(WHOLE),
        "9d91ab8510e81c1f89828e98b767cf164734ca90a4c5b3fdf1b8090a1c1481f5"
    );
}

#[test]
fn every_save_and_sheet_counts_in_its_place() {
    let head = head_of(&[hash(1), hash(2)], &[hash(3)]);
    for other in [
        head_of(&[hash(2), hash(1)], &[hash(3)]),
        head_of(&[hash(1), hash(2)], &[hash(4)]),
        head_of(&[hash(1), hash(2), hash(3)], &[]),
        head_of(&[hash(1)], &[hash(2), hash(3)]),
    ] {
        assert_ne!(other.hash, head.hash);
    }
}

#[test]
fn a_printed_head_reads_back_and_fits_that_head_alone() {
    let head = head_of(&[hash(1), hash(2)], &[hash(3)]);
    let printed = head.to_string();
    assert!(printed.starts_with("2-1-"), "{printed}");
    assert_eq!(printed.len(), "2-1-0000-0000-0000-0000".len());
    for text in [
        printed.clone(),
        printed.to_uppercase(),
        format!("  {printed} "),
        head.whole().to_string(),
    ] {
        let read: PrintedHead = text.parse().unwrap();
        assert!(read.fits(&head), "{text}");
        assert!(!read.fits(&head_of(&[hash(2), hash(1)], &[hash(3)])));
        assert!(!read.fits(&head_of(&[hash(1)], &[hash(3)])));
    }
    assert_eq!(head.whole().to_string().parse(), Ok(head.whole()));
}

#[test]
fn what_is_no_head_is_refused() {
    let length = |found| NotAHead::Length { found };
    for (text, error) in [
        ("", NotAHead::Form),
        ("2", NotAHead::Form),
        ("2-1", length(0)),
        ("2-1-", length(0)),
        ("2-1-0123-4567-89ab-cde", length(15)),
        ("2-1-0123-4567-89ab-cdef-0", length(17)),
        ("2-1-0123-4567-89ab-cdeg", NotAHead::Form),
        ("2-x-0123-4567-89ab-cdef", NotAHead::Form),
        ("+2-1-0123-4567-89ab-cdef", NotAHead::Form),
        ("-2-1-0123-4567-89ab-cdef", NotAHead::Form),
        ("99999999999999999999-1-0123-4567-89ab-cdef", NotAHead::Form),
    ] {
        assert_eq!(text.parse::<PrintedHead>(), Err(error), "{text}");
    }
}
