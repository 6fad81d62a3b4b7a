//! Finding cases by words of name and number: by the full-text index, held against the list.
//!
//! The index alone could leave out a patient after one flipped bit. So the words are looked for in the list
//! as well, and where the two differ, a new index of those lines alone says which is right.

use std::collections::BTreeSet;
use std::sync::Arc;

use rusqlite::{Connection, params};

use crate::catalog::{Catalog, Line};
use crate::entry::CaseEntry;
use crate::error::{Fault, RegisterError};
use crate::fold::{query, words};
use crate::list::Window;
use crate::open::Register;
use crate::problem::{Index, Problem};

/// As the schema makes it, but of its own content.
const NEW_INDEX: &str = "CREATE VIRTUAL TABLE search USING fts5 (
    name_folded, number_folded, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')";

impl Register {
    /// Cases whose name or number has, for each typed word, a word that begins so; in the order of the
    /// list. Capitals, accents and apostrophes make no difference.
    ///
    /// # Errors
    ///
    /// [`Fault::Damaged`] if the index of words does not agree with the list.
    pub fn search(&self, typed: &str, window: Window) -> Result<Vec<CaseEntry>, RegisterError> {
        self.read(|reading| {
            let (catalog, hits) = self.found(reading, typed)?;
            let lines = catalog.lines.iter().filter(|line| hits.contains(&line.key));
            window.of(lines).map(|line| line.entry(reading)).collect()
        })
    }

    /// Number of cases a search finds.
    pub fn count_found(&self, typed: &str) -> Result<u64, RegisterError> {
        self.read(|reading| {
            let (_, hits) = self.found(reading, typed)?;
            Ok(u64::try_from(hits.len()).unwrap_or_default())
        })
    }

    fn found(
        &self,
        reading: &Connection,
        typed: &str,
    ) -> Result<(Arc<Catalog>, BTreeSet<i64>), Fault> {
        let catalog = self.catalog(reading)?;
        let Some(query) = query(typed) else {
            return Ok((catalog, BTreeSet::new()));
        };
        let hits = matching(reading, &query)?;
        let words = words(typed);
        let differing: Vec<_> = catalog
            .lines
            .iter()
            .filter(|line| has(line, &words) != hits.contains(&line.key))
            .collect();
        let right = indexed_anew(&differing, &query)?;
        let is_right = |line: &&Line| right.contains(&line.key) == hits.contains(&line.key);
        let known: BTreeSet<_> = catalog.lines.iter().map(|line| line.key).collect();
        if differing.iter().all(is_right) && hits.is_subset(&known) {
            return Ok((catalog, hits));
        }
        Err(Fault::Damaged(Problem::Index(Index::Search)))
    }
}

fn matching(connection: &Connection, query: &str) -> Result<BTreeSet<i64>, Fault> {
    let mut statement =
        connection.prepare_cached("SELECT rowid FROM search WHERE search MATCH ?1")?;
    let rows = statement.query_map([query], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Which of the lines an index finds that nothing has happened to. Letters of few scripts are told from
/// separators otherwise by it than by [`has`].
fn indexed_anew(lines: &[&Line], query: &str) -> Result<BTreeSet<i64>, Fault> {
    if lines.is_empty() {
        return Ok(BTreeSet::new());
    }
    let connection = Connection::open_in_memory()?;
    connection.execute_batch(NEW_INDEX)?;
    for line in lines {
        connection.execute(
            "INSERT INTO search (rowid, name_folded, number_folded) VALUES (?1, ?2, ?3)",
            params![line.key, line.name_folded, line.number_folded],
        )?;
    }
    matching(&connection, query)
}

/// Whether each of the typed words begins a word of name or number.
fn has(line: &Line, typed: &[Vec<String>]) -> bool {
    typed
        .iter()
        .all(|parts| has_parts(&line.name_folded, parts) || has_parts(&line.number_folded, parts))
}

/// Whether the parts follow each other as words of the text, the last as the beginning of one.
fn has_parts(text: &str, parts: &[String]) -> bool {
    let Some((last, before)) = parts.split_last() else {
        return false;
    };
    // Most texts have none of it.
    if !parts.iter().all(|part| text.contains(part.as_str())) {
        return false;
    }
    let words: Vec<_> = parts_of(text).collect();
    words.windows(parts.len()).any(|words| {
        words
            .split_last()
            .is_some_and(|(end, beginning)| end.starts_with(last.as_str()) && beginning == before)
    })
}

pub(crate) fn parts_of(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|part| !part.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{fold, fold_number};

    fn line(name: &str, number: &str) -> Line {
        Line {
            key: 7,
            case: String::new(),
            sequence: 1,
            operation_date: None,
            list_number: None,
            name_folded: fold(name),
            number: None,
            state: "draft".to_owned(),
            number_folded: fold_number(number),
        }
    }

    /// The two ways to look agree, so that no new index is needed, wherever letters are letters to both.
    #[test]
    fn the_list_and_the_index_find_the_same() {
        for (name, number, typed, found) in [
            ("Ångström, Élise", "40-2291", "elise ang", true),
            ("Ångström, Élise", "40-2291", "40-22", true),
            ("Ångström, Élise", "40-2291", "4022", true),
            ("Ångström, Élise", "40-2291", "ngstrom", false),
            ("Ångström, Élise", "40-2291", "40-91", false),
            ("Sørensen-O’Neill", "12/77", "sorensen-o'n", true),
            ("王小明", "88", "小明", true),
            ("Weir, Anna", "HN 17/A", "17/a we", true),
            ("Weir, Anna", "HN 17/A", "an hn weir", true),
            ("Weir, Anna", "HN 17/A", "anna-weir", false),
        ] {
            let line = line(name, number);
            let query = query(typed).unwrap();
            let indexed = indexed_anew(&[&line], &query).unwrap().contains(&7);
            let listed = has(&line, &words(typed));
            assert_eq!(
                (indexed, listed),
                (found, found),
                "{name} {number}: {typed}"
            );
        }
    }
}
