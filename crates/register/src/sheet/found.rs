//! Which sheets there are: of a case, by a fingerprint, the last; as indexes and sheets alike tell it.

use millrace_core::case::Draft;
use millrace_core::signing::{Fingerprint, PrintedFingerprint, SheetNumber};
use rusqlite::{Connection, OptionalExtension as _};

use super::sheet_number;
use crate::case_id::CaseId;
use crate::error::Fault;
use crate::problem::{Index, Problem};
use crate::read;

/// A sheet and the revision it signs.
pub(crate) struct Numbers {
    pub(crate) number: SheetNumber,
    pub(crate) revision: u32,
}

/// The sheets of a case, from the first: as two indexes and the sheets themselves tell it.
pub(crate) fn numbers_of(connection: &Connection, case: CaseId) -> Result<Vec<Numbers>, Fault> {
    let case = case.to_string();
    let by_number = pairs(
        connection,
        "SELECT number, 0 FROM sheet INDEXED BY sheet_of_case WHERE case_id = ?1 ORDER BY number",
        &case,
    )?;
    // Each later sheet signs a later revision, so that the order is the same.
    let by_revision = pairs(
        connection,
        "SELECT number, revision FROM sheet INDEXED BY sqlite_autoindex_sheet_2
         WHERE case_id = ?1 ORDER BY revision",
        &case,
    )?;
    let numbers = |pairs: &[(u32, u32)]| pairs.iter().map(|pair| pair.0).collect::<Vec<_>>();
    if numbers(&by_number) != numbers(&by_revision) {
        return Err(indexes_differ());
    }
    let mut signs =
        connection.prepare_cached("SELECT case_id, revision FROM sheet WHERE number = ?1")?;
    let mut sheets = Vec::new();
    for (number, revision) in by_revision {
        let signed = signs.query_row([number], |row| {
            Ok((row.get::<_, String>(0)?, row.get::<_, u32>(1)?))
        });
        if signed.optional()?.as_ref() != Some(&(case.clone(), revision)) {
            return Err(indexes_differ());
        }
        let number = sheet_number(number)?;
        sheets.push(Numbers { number, revision });
    }
    Ok(sheets)
}

/// Whether a case still is what its newest sheet says: nothing was saved since but another place in the order of
/// its day, which is no part of a sheet.
pub(crate) fn stands_for(
    reading: &Connection,
    case: CaseId,
    signed: &Numbers,
) -> Result<bool, Fault> {
    let newest = read::newest(reading, case)?;
    if newest == signed.revision {
        return Ok(true);
    }
    let draft = |number| -> Result<Draft, Fault> { Ok(read::load(reading, case, number)?.draft) };
    let mut before = draft(signed.revision)?;
    for later in signed.revision.saturating_add(1)..=newest {
        let after = draft(later)?;
        // A save that changes nothing is a save by somebody who looked, and no order.
        let is_ordered = before.operation.list_number != after.operation.list_number;
        if !is_ordered || before.without_list_number() != after.without_list_number() {
            return Ok(false);
        }
        before = after;
    }
    Ok(true)
}

fn pairs(connection: &Connection, query: &str, case: &str) -> Result<Vec<(u32, u32)>, Fault> {
    let mut statement = connection.prepare_cached(query)?;
    let rows = statement.query_map([case], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

pub(super) const fn indexes_differ() -> Fault {
    Fault::Damaged(Problem::Index(Index::Sheets))
}

/// The last sheet that was signed, as the sheets themselves and an index of them tell it.
pub(super) fn newest(connection: &Connection) -> Result<Option<SheetNumber>, Fault> {
    let last = |query| connection.query_row(query, [], |row| row.get::<_, Option<u32>>(0));
    let last_itself = last("SELECT max(number) FROM sheet")?;
    if last_itself != last("SELECT max(number) FROM sheet INDEXED BY sheet_of_case")? {
        return Err(indexes_differ());
    }
    last_itself.map(sheet_number).transpose()
}

/// The sheet a printed fingerprint is of. That there is none is believed only if none of the sheets
/// themselves has it.
pub(super) fn number_of(
    connection: &Connection,
    printed: &PrintedFingerprint,
) -> Result<Option<SheetNumber>, Fault> {
    let indexed = numbers_between(connection, printed)?;
    match *indexed {
        [] if has_none(connection, printed)? => Ok(None),
        [] => Err(indexes_differ()),
        [one] => Ok(Some(sheet_number(one)?)),
        // Two plans share 75 bits by no chance that would ever be met.
        _ => Err(Fault::Damaged(Problem::TwoSheets)),
    }
}

fn numbers_between(
    connection: &Connection,
    printed: &PrintedFingerprint,
) -> Result<Vec<u32>, Fault> {
    let [lowest, highest] = match printed {
        PrintedFingerprint::Full(full) => [*full, *full],
        PrintedFingerprint::Short(short) => short.range(),
    };
    let mut statement = connection.prepare_cached(
        "SELECT number FROM sheet INDEXED BY sqlite_autoindex_sheet_1
         WHERE ?1 <= fingerprint AND fingerprint <= ?2 LIMIT 2",
    )?;
    let found = statement.query_map([lowest.bytes(), highest.bytes()], |row| row.get(0))?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Whether none of the sheets has this fingerprint, each asked by itself.
fn has_none(connection: &Connection, printed: &PrintedFingerprint) -> Result<bool, Fault> {
    let mut statement = connection.prepare_cached("SELECT fingerprint FROM sheet NOT INDEXED")?;
    let mut rows = statement.query([])?;
    let mut asked = 0;
    while let Some(row) = rows.next()? {
        if printed.fits(&Fingerprint::from_bytes(row.get(0)?)) {
            return Ok(false);
        }
        asked += 1;
    }
    let newest = newest(connection)?.map_or(0, SheetNumber::get);
    if asked == newest {
        Ok(true)
    } else {
        Err(indexes_differ())
    }
}
