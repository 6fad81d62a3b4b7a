//! What goes through the pipes: a head of named values, and whole pieces of bytes behind it, each after its
//! length.

use std::io::{self, ErrorKind, Read, Write};

use serde::Serialize;
use serde::de::DeserializeOwned;

/// Bytes that a frame may have. What claims more is broken.
pub(crate) const MOST: u64 = 512 << 20;
/// Bytes that the files and pictures of one answer may have: some thirty pages as the desk shows them.
pub(crate) const MOST_OF_AN_ANSWER: u64 = 256 << 20;
/// Pieces that there may be: more than a day has plans or a sheet has pages.
const MOST_PIECES: u64 = 100_000;

/// A request or an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Frame {
    head: Vec<u8>,
    pub(crate) pieces: Vec<Vec<u8>>,
}

impl Frame {
    pub(crate) fn new(head: &impl Serialize, pieces: Vec<Vec<u8>>) -> io::Result<Self> {
        let head = serde_json::to_vec(head)?;
        Ok(Self { head, pieces })
    }

    pub(crate) fn head<T: DeserializeOwned>(&self) -> io::Result<T> {
        Ok(serde_json::from_slice(&self.head)?)
    }

    pub(crate) fn write(&self, to: &mut impl Write) -> io::Result<()> {
        let all = || core::iter::once(&self.head).chain(&self.pieces);
        let sizes = all().map(|piece| piece.len() as u64);
        let count = sizes.clone().count() as u64;
        if MOST_PIECES < count || MOST < sizes.sum() {
            return Err(too_much());
        }
        to.write_all(&count.to_le_bytes())?;
        for piece in all() {
            to.write_all(&(piece.len() as u64).to_le_bytes())?;
            to.write_all(piece)?;
        }
        to.flush()
    }

    /// Nothing where the other side has closed the pipe between two frames.
    pub(crate) fn read(from: &mut impl Read) -> io::Result<Option<Self>> {
        let Some(count) = number_or_end(from)? else {
            return Ok(None);
        };
        if !(1..=MOST_PIECES).contains(&count) {
            return Err(too_much());
        }
        let mut left = MOST;
        let head = piece(from, &mut left)?;
        let pieces = (1..count).map(|_| piece(from, &mut left)).collect();
        let pieces: io::Result<Vec<_>> = pieces;
        Ok(Some(Self {
            head,
            pieces: pieces?,
        }))
    }
}

fn piece(from: &mut impl Read, left: &mut u64) -> io::Result<Vec<u8>> {
    let size = number_or_end(from)?.ok_or(ErrorKind::UnexpectedEof)?;
    *left = left.checked_sub(size).ok_or_else(too_much)?;
    let mut bytes = Vec::with_capacity(usize::try_from(size).map_err(|_| too_much())?);
    if from.take(size).read_to_end(&mut bytes)? as u64 == size {
        return Ok(bytes);
    }
    Err(ErrorKind::UnexpectedEof.into())
}

/// Nothing at the end of what is read.
fn number_or_end(from: &mut impl Read) -> io::Result<Option<u64>> {
    let mut bytes = [0; 8];
    let mut rest = &mut bytes[..];
    while !rest.is_empty() {
        match from.read(rest) {
            Ok(0) if rest.len() == 8 => return Ok(None),
            Ok(0) => return Err(ErrorKind::UnexpectedEof.into()),
            Ok(read) => rest = rest.get_mut(read..).unwrap_or_default(),
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            Err(error) => return Err(error),
        }
    }
    Ok(Some(u64::from_le_bytes(bytes)))
}

fn too_much() -> io::Error {
    ErrorKind::InvalidData.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(frame: &Frame) -> Vec<u8> {
        let mut bytes = Vec::new();
        frame.write(&mut bytes).unwrap();
        bytes
    }

    #[test]
    fn what_is_written_is_read_and_the_end_is_told() {
        let pieces = vec![b"%PDF-".to_vec(), Vec::new(), vec![0; 70_000]];
        let frame = Frame::new(&("sheet", 7), pieces).unwrap();
        let bytes = [written(&frame), written(&frame)].concat();
        let mut rest = &bytes[..];
        for _ in 0..2 {
            let read = Frame::read(&mut rest).unwrap().unwrap();
            assert_eq!(read, frame);
            assert_eq!(read.head::<(String, u8)>().unwrap(), ("sheet".into(), 7));
        }
        assert_eq!(Frame::read(&mut rest).unwrap(), None);
    }

    /// Cut short anywhere, it is an error and never another frame.
    #[test]
    fn what_is_cut_short_is_refused() {
        let bytes = written(&Frame::new(&"head", vec![b"piece".to_vec()]).unwrap());
        for end in 1..bytes.len() {
            let error = Frame::read(&mut &bytes[..end]).unwrap_err();
            assert_eq!(error.kind(), ErrorKind::UnexpectedEof, "{end}");
        }
    }

    /// A broken process may claim anything; no memory is taken for it.
    #[test]
    fn what_claims_too_much_is_refused() {
        let numbers = |numbers: &[u64]| -> Vec<u8> {
            numbers.iter().flat_map(|it| it.to_le_bytes()).collect()
        };
        for claimed in [
            numbers(&[0]),
            numbers(&[MOST_PIECES + 1]),
            numbers(&[1, MOST + 1]),
            numbers(&[u64::MAX]),
            numbers(&[1, u64::MAX]),
            [numbers(&[2, 1]), vec![b'0'], numbers(&[MOST])].concat(),
        ] {
            let error = Frame::read(&mut &claimed[..]).unwrap_err();
            assert_eq!(error.kind(), ErrorKind::InvalidData, "{claimed:?}");
        }
    }
}
