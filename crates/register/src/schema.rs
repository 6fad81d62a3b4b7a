//! The tables, and how an older register becomes a newer one.

use rusqlite::{Connection, Transaction, TransactionBehavior};

use crate::error::Fault;

/// "Mill" in ASCII: tells a register from any other database file.
pub(crate) const APPLICATION_ID: i32 = 0x4d69_6c6c;

/// From nothing to schema 1, from 1 to 2, and so on. Only ever added to.
pub(crate) const MIGRATIONS: &[&str] = &[
    include_str!("schema/0001.sql"),
    include_str!("schema/0002.sql"),
    include_str!("schema/0003.sql"),
];

/// The first schema that says at which desk a revision was saved.
const WITH_DESKS: i64 = 3;

/// Schema that is written; every one before it is brought up to it.
pub const NEWEST_SCHEMA: usize = MIGRATIONS.len();

/// Newest schema of a list of migrations.
pub(crate) fn newest(migrations: &[&str]) -> i64 {
    i64::try_from(migrations.len()).unwrap_or(i64::MAX)
}

/// Those that lead to a schema.
pub(crate) fn up_to<'a>(schema: i64, migrations: &'a [&'a str]) -> &'a [&'a str] {
    let count = usize::try_from(schema).unwrap_or_default();
    migrations.get(..count).unwrap_or(migrations)
}

/// Schema of an open file, if it is a register that can be worked with.
pub(crate) fn version(connection: &Connection, migrations: &[&str]) -> Result<i64, Fault> {
    let application: i32 = pragma(connection, "application_id")?;
    let found: i64 = pragma(connection, "user_version")?;
    if application != APPLICATION_ID || found < 1 {
        return Err(Fault::NotARegister);
    }
    let newest = newest(migrations);
    if newest < found {
        return Err(Fault::Newer { found, newest });
    }
    Ok(found)
}

/// Refuses to write into a register that another program has brought to a newer schema meanwhile.
pub(crate) fn still_known(transaction: &Transaction<'_>, known: i64) -> Result<(), Fault> {
    let found: i64 = pragma(transaction, "user_version")?;
    if found == known {
        return Ok(());
    }
    Err(Fault::Newer {
        found,
        newest: known,
    })
}

/// Brings a file, new or older, to the newest schema: wholly or not at all.
pub(crate) fn migrate(connection: &mut Connection, migrations: &[&str]) -> Result<(), Fault> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Another program may have been faster.
    let found: i64 = pragma(&transaction, "user_version")?;
    let done = usize::try_from(found).unwrap_or_default();
    for migration in migrations.iter().skip(done) {
        transaction.execute_batch(migration)?;
    }
    transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
    transaction.pragma_update(None, "user_version", newest(migrations))?;
    transaction.commit()?;
    Ok(())
}

fn pragma<T: rusqlite::types::FromSql>(
    connection: &Connection,
    name: &str,
) -> Result<T, rusqlite::Error> {
    connection.pragma_query_value(None, name, |row| row.get(0))
}

/// Whether it is of a schema with sheets.
pub(crate) fn has_sheets(connection: &Connection) -> Result<bool, Fault> {
    let query = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'sheet'";
    Ok(connection.query_row(query, [], |row| row.get::<_, i64>(0))? == 1)
}

/// What stands for the desk of a revision: its column, or nothing where the schema has none yet.
pub(crate) fn desk_column(connection: &Connection) -> Result<&'static str, Fault> {
    let found: i64 = pragma(connection, "user_version")?;
    Ok(if found < WITH_DESKS { "NULL" } else { "desk" })
}

/// Whether it is of a schema whose list has the order of a day.
pub(crate) fn has_list_numbers(connection: &Connection) -> Result<bool, Fault> {
    let query = "SELECT count(*) FROM pragma_table_info('current') WHERE name = 'list_number'";
    Ok(connection.query_row(query, [], |row| row.get::<_, i64>(0))? == 1)
}

/// Every table, index and trigger with its text, in the order of their names.
pub(crate) fn objects(connection: &Connection) -> Result<Vec<(String, String)>, Fault> {
    let mut statement = connection.prepare(
        "SELECT type || ' ' || name, coalesce(sql, '') FROM sqlite_schema ORDER BY type, name",
    )?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// What [`objects`] must be.
pub(crate) fn expected_objects(migrations: &[&str]) -> Result<Vec<(String, String)>, Fault> {
    let mut connection = Connection::open_in_memory()?;
    migrate(&mut connection, migrations)?;
    objects(&connection)
}
