//! What SQLite takes for the same rows: reading every column of every entry, and a bare insert of them, without a check across
//! lines, a stream or a digest.

use crate::cost::seconds;
use nix::sys::resource::{UsageWho, getrusage};
use rusqlite::types::Value;
use rusqlite::{Connection, OpenFlags, TransactionBehavior, params_from_iter};
use std::io::{BufWriter, Write};
use std::path::Path;

/// The first argument of this program where it is the work beside.
pub(crate) const BESIDE: &str = "beside";

/// `select FILE` or `insert FILE NEW`.
pub(crate) fn run(args: &[String]) {
    let file = Connection::open_with_flags(&args[1], OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    match args[0].as_str() {
        "select" => select(&file),
        _ => insert(&file, Path::new(&args[2])),
    }
}

/// Every row with all its columns, printed with a bar between them as SQLite's own program does.
fn select(file: &Connection) {
    let mut out = BufWriter::new(std::io::stdout().lock());
    let mut statement = file.prepare("SELECT * FROM entry").unwrap();
    let columns = statement.column_count();
    let mut rows = statement.query([]).unwrap();
    while let Some(row) = rows.next().unwrap() {
        for at in 0..columns {
            match row.get_ref(at).unwrap() {
                rusqlite::types::ValueRef::Null => {}
                rusqlite::types::ValueRef::Integer(number) => write!(out, "{number}").unwrap(),
                rusqlite::types::ValueRef::Real(number) => write!(out, "{number}").unwrap(),
                rusqlite::types::ValueRef::Text(bytes) | rusqlite::types::ValueRef::Blob(bytes) => {
                    out.write_all(bytes).unwrap();
                }
            }
            out.write_all(b"|").unwrap();
        }
        out.write_all(b"\n").unwrap();
    }
    out.flush().unwrap();
}

/// The rows of the table of entries into a new file with the same table and its indexes, in one transaction. The rows are read
/// first; only the insert is counted, and printed.
fn insert(file: &Connection, new: &Path) {
    let sql = "SELECT sql FROM sqlite_schema WHERE tbl_name = 'entry' AND type IN ('table', 'index') AND sql IS NOT NULL \
               ORDER BY type = 'index'";
    let mut statement = file.prepare(sql).unwrap();
    let schema: Vec<String> = statement.query_map([], |row| row.get(0)).unwrap().collect::<Result<_, _>>().unwrap();
    let mut statement = file.prepare("SELECT * FROM entry ORDER BY seq").unwrap();
    let columns = statement.column_count();
    let rows: Vec<Vec<Value>> = statement
        .query_map([], |row| (0..columns).map(|at| row.get(at)).collect())
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    let took = || seconds(&getrusage(UsageWho::RUSAGE_SELF).unwrap());
    let before = took();
    let mut connection = Connection::open(new).unwrap();
    connection.pragma_update(None, "foreign_keys", false).unwrap();
    for sql in schema {
        connection.execute_batch(&sql).unwrap();
    }
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate).unwrap();
    let marks = vec!["?"; columns].join(", ");
    let mut statement = transaction.prepare(&format!("INSERT INTO entry VALUES ({marks})")).unwrap();
    for row in &rows {
        statement.execute(params_from_iter(row)).unwrap();
    }
    drop(statement);
    transaction.commit().unwrap();
    connection.close().unwrap();
    println!("{}", took() - before);
}
