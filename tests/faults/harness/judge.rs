//! A season file judged by SQLite itself, apart from the program.

use rusqlite::Connection;
use std::path::Path;

/// An entry as it stands in the file.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Row {
    pub(crate) seq: i64,
    pub(crate) id: String,
    /// The bench, house or lot.
    pub(crate) place: String,
    pub(crate) author: String,
    /// The name of its kind as the journal has it.
    pub(crate) kind: String,
    pub(crate) fields: serde_json::Value,
    pub(crate) note: Option<String>,
}

/// What a file holds, and what is wrong with it.
#[derive(Debug, Default)]
pub(crate) struct Judged {
    pub(crate) bad: Vec<String>,
    pub(crate) rows: Vec<Row>,
}

/// Judges a copy of the file and its write-ahead log, so that nothing of the file itself changes.
pub(crate) fn judge(file: &Path) -> Judged {
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("judged.db");
    if let Err(error) = std::fs::copy(file, &copy) {
        return Judged { bad: vec![format!("{} cannot be read: {error}", file.display())], rows: Vec::new() };
    }
    let log = beside(file, "-wal");
    if log.exists() {
        std::fs::copy(log, beside(&copy, "-wal")).unwrap();
    }
    judge_in_place(&copy)
}

/// Judges a file that nothing else uses.
pub(crate) fn judge_in_place(file: &Path) -> Judged {
    let mut judged = Judged::default();
    match all(file, &mut judged.bad) {
        Ok(rows) => judged.rows = rows,
        Err(error) => judged.bad.push(error.to_string()),
    }
    judged
}

/// The path with something after its name.
pub(crate) fn beside(file: &Path, ending: &str) -> std::path::PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

fn all(file: &Path, bad: &mut Vec<String>) -> rusqlite::Result<Vec<Row>> {
    let connection = Connection::open(file)?;
    let texts = |sql: &str| -> rusqlite::Result<Vec<String>> {
        connection.prepare(sql)?.query_map([], |row| row.get::<_, String>(0))?.collect()
    };
    bad.extend(texts("PRAGMA integrity_check")?.into_iter().filter(|said| said != "ok").take(3));
    let orphans = texts("SELECT \"table\" || ' ' || rowid FROM pragma_foreign_key_check")?;
    bad.extend(orphans.into_iter().take(3).map(|orphan| format!("foreign key of {orphan}")));
    // Files of the first version have other columns.
    let first = connection.prepare("SELECT author FROM entry").is_err();
    let (author, fields, note) =
        if first { ("e.\"by\"", "coalesce(e.body, '{}')", "NULL") } else { ("e.author", "e.fields", "e.note") };
    let sql = format!(
        "SELECT e.seq, lower(hex(e.id)), coalesce(e.bench, e.house, e.lot), {author}, k.name, {fields}, {note}
         FROM entry AS e JOIN kind AS k ON k.number = e.kind ORDER BY e.seq"
    );
    let mut statement = connection.prepare(&sql)?;
    let rows = statement.query_map([], |row| {
        let fields: String = row.get(5)?;
        Ok(Row {
            seq: row.get(0)?,
            id: row.get(1)?,
            place: row.get(2)?,
            author: row.get(3)?,
            kind: row.get(4)?,
            fields: serde_json::from_str(&fields).unwrap_or_default(),
            note: row.get(6)?,
        })
    })?;
    rows.collect()
}
