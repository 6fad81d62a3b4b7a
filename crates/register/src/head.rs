//! Where a register stands: how much was saved and signed, and a hash over all of it.
//!
//! A register only grows. So one that once had a head and has less now, or the same otherwise, was set back
//! or written anew; nothing inside of it can tell that, since whoever writes it anew computes every hash
//! anew as well.

use core::fmt;
use core::str::FromStr;

use rusqlite::{Connection, OptionalExtension as _};
use sha2::{Digest as _, Sha256};

use crate::chain::hash_head;
use crate::entry::RevisionHash;
use crate::error::{Fault, RegisterError};
use crate::open::Register;
use crate::problem::{Index, Problem};
use crate::schema::has_sheets;

/// Digits of the hash that are printed: 64 bits.
const PRINTED: usize = 16;
/// Digits of the whole hash.
const WHOLE: usize = 64;
/// As many stand together in print.
const TOGETHER: usize = 4;

/// How much was saved and signed, and a hash over all of it in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    pub saves: u64,
    pub sheets: u64,
    hash: [u8; 32],
}

/// A head as somebody copies it from paper: with the beginning of its hash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedHead {
    pub saves: u64,
    pub sheets: u64,
    /// In hexadecimal digits, small.
    beginning: String,
}

/// A text that is no head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{self:?}")]
pub enum NotAHead {
    /// Not two counts and a hash, with hyphens between.
    Form,
    /// Neither the digits that are printed nor all of them.
    Length { found: usize },
}

/// What a register is to a head it once had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeadStanding {
    Same,
    /// It was added to since, and everything of then is in it.
    Grown {
        now: Head,
    },
    /// Something of then is not in it.
    SetBack {
        now: Head,
    },
    /// It holds as much, and something else.
    Other {
        now: Head,
    },
}

impl Register {
    /// Where the register stands.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if saves or sheets are missing between others.
    pub fn head(&self) -> Result<Head, RegisterError> {
        self.hashes(Hashes::head)
    }

    /// What the register is to a head it once had.
    ///
    /// # Errors
    ///
    /// As [`Register::head`].
    pub fn standing_to(&self, then: &PrintedHead) -> Result<HeadStanding, RegisterError> {
        self.hashes(|hashes| hashes.standing_to(then))
    }

    /// With what was saved since they were read last.
    fn hashes<T>(&self, what: impl FnOnce(&Hashes) -> T) -> Result<T, RegisterError> {
        self.read(|reading| {
            let mut hashes = self.hashes.borrow_mut();
            hashes.read_on(reading)?;
            Ok(what(&hashes))
        })
    }
}

/// Every hash, in the order of saves and of sheets.
#[derive(Debug, Default)]
pub(crate) struct Hashes {
    saves: Vec<[u8; 32]>,
    sheets: Vec<[u8; 32]>,
}

impl Hashes {
    pub(crate) fn of(connection: &Connection) -> Result<Self, Fault> {
        let mut hashes = Self::default();
        hashes.read_on(connection)?;
        Ok(hashes)
    }

    fn read_on(&mut self, connection: &Connection) -> Result<(), Fault> {
        SAVES.read_on(connection, &mut self.saves)?;
        if has_sheets(connection)? {
            SHEETS.read_on(connection, &mut self.sheets)?;
        }
        Ok(())
    }

    /// Whether everything of `earlier` is in it, in its place.
    pub(crate) fn continue_those_of(&self, earlier: &Self) -> bool {
        self.saves.starts_with(&earlier.saves) && self.sheets.starts_with(&earlier.sheets)
    }

    fn head(&self) -> Head {
        head_of(&self.saves, &self.sheets)
    }

    /// The head after so many; nothing if there are not so many.
    fn head_at(&self, saves: u64, sheets: u64) -> Option<Head> {
        let saves = self.saves.get(..usize::try_from(saves).ok()?)?;
        let sheets = self.sheets.get(..usize::try_from(sheets).ok()?)?;
        Some(head_of(saves, sheets))
    }

    fn standing_to(&self, then: &PrintedHead) -> HeadStanding {
        let now = self.head();
        match self.head_at(then.saves, then.sheets) {
            None => HeadStanding::SetBack { now },
            Some(head) if !then.fits(&head) => HeadStanding::Other { now },
            Some(head) if head == now => HeadStanding::Same,
            Some(_) => HeadStanding::Grown { now },
        }
    }
}

/// Where hashes stand.
struct Source {
    /// Number and hash of those behind a number.
    behind: &'static str,
    /// Hash of one.
    of_one: &'static str,
    /// How many an index knows.
    indexed: &'static str,
    index: Index,
}

const SAVES: Source = Source {
    behind: "SELECT sequence, hash FROM revision WHERE ?1 < sequence ORDER BY sequence",
    of_one: "SELECT hash FROM revision WHERE sequence = ?1",
    indexed: "SELECT count(*) FROM revision INDEXED BY sqlite_autoindex_revision_1",
    index: Index::Revisions,
};

const SHEETS: Source = Source {
    behind: "SELECT number, hash FROM sheet WHERE ?1 < number ORDER BY number",
    of_one: "SELECT hash FROM sheet WHERE number = ?1",
    indexed: "SELECT count(*) FROM sheet INDEXED BY sheet_of_case",
    index: Index::Sheets,
};

impl Source {
    /// Adds those that came since: without a gap, and as many as the index knows.
    fn read_on(&self, connection: &Connection, known: &mut Vec<[u8; 32]>) -> Result<(), Fault> {
        if let Some(last) = known.last() {
            let mut statement = connection.prepare_cached(self.of_one)?;
            let found = statement.query_row([number_of(known)], |row| row.get::<_, [u8; 32]>(0));
            if found.optional()?.as_ref() != Some(last) {
                // Not the register it was; then all of it is read.
                known.clear();
            }
        }
        let mut statement = connection.prepare_cached(self.behind)?;
        let mut rows = statement.query([number_of(known)])?;
        let mut all = known.clone();
        while let Some(row) = rows.next()? {
            all.push(row.get(1)?);
            if row.get::<_, i64>(0)? != number_of(&all) {
                return Err(Fault::Damaged(Problem::Index(self.index)));
            }
        }
        let indexed: i64 = connection.query_row(self.indexed, [], |row| row.get(0))?;
        if indexed != number_of(&all) {
            return Err(Fault::Damaged(Problem::Index(self.index)));
        }
        *known = all;
        Ok(())
    }
}

fn number_of(hashes: &[[u8; 32]]) -> i64 {
    i64::try_from(hashes.len()).unwrap_or(i64::MAX)
}

fn head_of(saves: &[[u8; 32]], sheets: &[[u8; 32]]) -> Head {
    let count = |hashes: &[[u8; 32]]| u64::try_from(hashes.len()).unwrap_or(u64::MAX);
    let all = |hashes: &[[u8; 32]]| -> [u8; 32] {
        let mut hasher = Sha256::new();
        for hash in hashes {
            hasher.update(hash);
        }
        hasher.finalize().into()
    };
    let (count_of_saves, count_of_sheets) = (count(saves), count(sheets));
    Head {
        saves: count_of_saves,
        sheets: count_of_sheets,
        hash: hash_head((count_of_saves, all(saves)), (count_of_sheets, all(sheets))),
    }
}

impl Head {
    /// With its whole hash, as it is kept.
    pub fn whole(&self) -> PrintedHead {
        PrintedHead {
            saves: self.saves,
            sheets: self.sheets,
            beginning: self.digits(WHOLE),
        }
    }

    fn digits(&self, count: usize) -> String {
        let mut digits = RevisionHash(self.hash).to_string();
        digits.truncate(count);
        digits
    }
}

/// As it is printed: saves, sheets, and 16 digits of the hash.
impl fmt::Display for Head {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let printed = PrintedHead {
            beginning: self.digits(PRINTED),
            ..self.whole()
        };
        fmt::Display::fmt(&printed, f)
    }
}

impl PrintedHead {
    /// With as many digits as are printed.
    #[must_use]
    pub fn short(&self) -> Self {
        let beginning = self.beginning.chars().take(PRINTED).collect();
        Self { beginning, ..*self }
    }

    /// Whether it is that head.
    pub fn fits(&self, head: &Head) -> bool {
        self.saves == head.saves
            && self.sheets == head.sheets
            && head.digits(WHOLE).starts_with(&self.beginning)
    }
}

impl fmt::Display for PrintedHead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.saves, self.sheets)?;
        for (place, digit) in self.beginning.chars().enumerate() {
            let hyphen = if place.is_multiple_of(TOGETHER) {
                "-"
            } else {
                ""
            };
            write!(f, "{hyphen}{digit}")?;
        }
        Ok(())
    }
}

/// Capitals, spaces around, and where the hyphens of the hash stand make no difference.
impl FromStr for PrintedHead {
    type Err = NotAHead;

    fn from_str(text: &str) -> Result<Self, NotAHead> {
        let mut parts = text.trim().splitn(3, '-');
        let mut count = || {
            let digits = parts.next().unwrap_or_default();
            let is_count = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
            let count = is_count.then(|| digits.parse::<u64>().ok()).flatten();
            count.ok_or(NotAHead::Form)
        };
        let (saves, sheets) = (count()?, count()?);
        let digits = parts.next().unwrap_or_default();
        let beginning: String = digits
            .chars()
            .filter(|c| *c != '-' && *c != ' ')
            .map(|c| c.to_ascii_lowercase())
            .collect();
        if !beginning.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err(NotAHead::Form);
        }
        let found = beginning.len();
        if found != PRINTED && found != WHOLE {
            return Err(NotAHead::Length { found });
        }
        Ok(Self {
            saves,
            sheets,
            beginning,
        })
    }
}

#[cfg(test)]
mod tests;
