//! The input as blocks of whole lines. A record is a line: a stray quotation mark spoils its own
//! line and no other, and the memory a line can take has a limit.

use std::io::{self, Read};

/// Bytes aimed at per block; also the longest line.
pub(crate) const BLOCK_BYTES: usize = 128 * 1024;

const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

/// Some whole lines.
#[derive(Debug, Default)]
pub(crate) struct Block {
    /// The lines, each with its ending, except perhaps the last of the file.
    pub(crate) bytes: Vec<u8>,
    /// Number of the first line, from 1.
    pub(crate) first_line: u64,
    /// Whether the block is one line that is too long, of which only the beginning is kept.
    pub(crate) too_long: bool,
    /// Whether the file ends in this block without a line ending.
    pub(crate) unterminated: bool,
}

pub(crate) struct LineReader<R> {
    input: R,
    /// Read but not handed out yet.
    pending: Vec<u8>,
    next_line: u64,
    at_end: bool,
}

impl<R: Read> LineReader<R> {
    pub(crate) const fn new(input: R) -> Self {
        Self {
            input,
            pending: Vec::new(),
            next_line: 1,
            at_end: false,
        }
    }

    /// The first line without a byte-order mark and without its ending.
    pub(crate) fn header(&mut self) -> io::Result<Vec<u8>> {
        self.fill()?;
        if self.pending.starts_with(BYTE_ORDER_MARK) {
            self.pending.drain(..BYTE_ORDER_MARK.len());
        }
        let end = match memchr::memchr(b'\n', &self.pending) {
            Some(newline) => newline + 1,
            None => self.pending.len(),
        };
        let mut line: Vec<u8> = self.pending.drain(..end).collect();
        while line
            .last()
            .is_some_and(|last| matches!(last, b'\n' | b'\r'))
        {
            line.pop();
        }
        self.next_line = 2;
        Ok(line)
    }

    /// The next block, into buffers that are used again; `false` at the end.
    pub(crate) fn next(&mut self, block: &mut Block) -> io::Result<bool> {
        self.fill()?;
        block.first_line = self.next_line;
        block.too_long = false;
        block.unterminated = false;
        block.bytes.clear();
        if self.pending.is_empty() {
            return Ok(false);
        }
        if let Some(newline) = memchr::memrchr(b'\n', &self.pending) {
            block.bytes.extend(self.pending.drain(..=newline));
            self.next_line += memchr::memchr_iter(b'\n', &block.bytes).count() as u64;
            return Ok(true);
        }
        self.next_line += 1;
        if self.at_end {
            std::mem::swap(&mut block.bytes, &mut self.pending);
            block.unterminated = true;
            return Ok(true);
        }
        block.too_long = true;
        block.bytes.extend(self.pending.iter().take(64));
        self.skip_line()?;
        Ok(true)
    }

    /// Reads until a block is pending or the file ends.
    fn fill(&mut self) -> io::Result<()> {
        while !self.at_end && self.pending.len() < BLOCK_BYTES {
            let wanted = (BLOCK_BYTES - self.pending.len()) as u64;
            let read = self
                .input
                .by_ref()
                .take(wanted)
                .read_to_end(&mut self.pending)?;
            self.at_end = read == 0;
        }
        Ok(())
    }

    /// Drops everything up to and with the next line ending.
    fn skip_line(&mut self) -> io::Result<()> {
        loop {
            self.pending.clear();
            self.fill()?;
            if let Some(newline) = memchr::memchr(b'\n', &self.pending) {
                self.pending.drain(..=newline);
                return Ok(());
            }
            if self.at_end {
                self.pending.clear();
                return Ok(());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blocks(text: &[u8]) -> Vec<(u64, usize, bool, bool)> {
        let mut reader = LineReader::new(text);
        reader.header().unwrap();
        let mut block = Block::default();
        let mut found = Vec::new();
        while reader.next(&mut block).unwrap() {
            found.push((
                block.first_line,
                block.bytes.len(),
                block.too_long,
                block.unterminated,
            ));
        }
        found
    }

    #[test]
    fn a_byte_order_mark_and_windows_line_endings_are_no_part_of_the_header() {
        let mut reader = LineReader::new(b"\xEF\xBB\xBFeye_id,x\r\n1,2\r\n".as_slice());
        assert_eq!(reader.header().unwrap(), b"eye_id,x");
    }

    #[test]
    fn line_numbers_go_on_across_blocks() {
        let line = b"1234567\n";
        let mut text = b"header\n".to_vec();
        let count = BLOCK_BYTES / line.len() * 3;
        for _ in 0..count {
            text.extend_from_slice(line);
        }
        text.extend_from_slice(b"end");
        let found = blocks(&text);
        let last = found.last().unwrap();
        assert_eq!((last.0, last.3), (count as u64 + 2, true));
        assert!(2 < found.len());
    }

    #[test]
    fn an_endless_line_spoils_itself_only() {
        let mut text = b"header\n".to_vec();
        text.extend(std::iter::repeat_n(b'x', BLOCK_BYTES * 3));
        text.extend_from_slice(b"\nnext\n");
        let found = blocks(&text);
        assert_eq!(found, [(2, 64, true, false), (3, 5, false, false)]);
    }
}
