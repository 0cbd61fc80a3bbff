//! Whether a file is what this program made: its tables, indexes, triggers and views, compared with the scripts.
//!
//! What is missing or changed, and a trigger, an index on one of our tables or a virtual table that was added, can change what a
//! save does: such a file is only read. Views and plain tables that were added stay; they are never read.

use super::error::Fault;
use super::schema::{SCRIPTS, plan_tables_of};
use rusqlite::Connection;
use std::collections::BTreeMap;

/// Type and text of what a script makes, or a file holds, by name.
type Made = BTreeMap<String, (String, String)>;

/// What of the file differs from the files of this version, in words; `None` where nothing does that matters.
pub(super) fn difference(connection: &Connection, version: i64) -> Result<Option<String>, Fault> {
    let ours = made_by(version);
    let mut there = Made::new();
    let mut said = Vec::new();
    let sql = "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema";
    let mut statement = connection.prepare(sql)?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (kind, name, table, sql): (String, String, String, String) =
            (row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?);
        let own = name.starts_with("sqlite_") && matches!(kind.as_str(), "table" | "index");
        let plain = match kind.as_str() {
            "view" => true,
            "index" => !ours.contains_key(&table),
            "table" => !sql.to_ascii_uppercase().starts_with("CREATE VIRTUAL"),
            _ => false,
        };
        if !ours.contains_key(&name) && !own && !plain {
            said.push(format!("the {kind} {name} was added"));
        }
        there.insert(name, (kind, sql.replace('\r', "")));
    }
    for (name, (kind, sql)) in &ours {
        match there.get(name) {
            None => said.push(format!("the {kind} {name} is missing")),
            Some((found, _)) if found != kind => said.push(format!("{name} is a {found}, not a {kind}")),
            Some((_, found)) if found != sql => said.push(format!("the {kind} {name} is changed")),
            Some(_) => {}
        }
    }
    let more = said.len().saturating_sub(1);
    Ok(said.into_iter().next().map(|first| if more == 0 { first } else { format!("{first}, and {more} more") }))
}

/// Refuses a file whose records are not in tables: a view may run any statement, and without end.
pub(super) fn check_tables(connection: &Connection, version: i64) -> Result<(), Fault> {
    if version < 1 {
        // Nothing is in it yet.
        return Ok(());
    }
    let lines = plan_tables_of(version).map(|table| format!("{}_line", table.name));
    let more: &[&str] = match version {
        ..2 => &["kind", "entry"],
        2..8 => &["plan_replaces", "season", "entry"],
        _ => &[
            "plan_replaces",
            "season",
            "entry",
            "stream",
            "own",
            "log",
            "own_ended",
            "log_again",
            "log_understood",
            "other_content",
            "mirror",
        ],
    };
    for name in lines.chain(more.iter().map(|&name| name.to_owned())) {
        let sql = "SELECT type, coalesce(rootpage, 0) > 0 FROM sqlite_schema WHERE name = ?1";
        let mut statement = connection.prepare_cached(sql)?;
        let mut rows = statement.query([&name])?;
        let found = match rows.next()? {
            Some(row) => (row.get::<_, String>(0)?, row.get::<_, bool>(1)?),
            None => return Err(Fault::Malformed(format!("the table {name} is missing"))),
        };
        match found {
            (kind, true) if kind == "table" => {}
            (kind, false) if kind == "table" => {
                return Err(Fault::Malformed(format!("{name} is a virtual table")));
            }
            (kind, _) => return Err(Fault::Malformed(format!("{name} is a {kind}, not a table"))),
        }
    }
    Ok(())
}

/// What the scripts of a version make. A test holds that a new file has just this.
fn made_by(version: i64) -> Made {
    let first = if version < 2 { 1 } else { 2 };
    let scripts = (1..).zip(SCRIPTS).filter(|(number, _)| (first..=version).contains(number));
    let mut made = Made::new();
    for (_, script) in scripts {
        let script = script.replace('\r', "");
        for statement in script.split(";\n").map(without_comments) {
            if let Some((name, column)) = added_column(statement) {
                if let Some((_, text)) = made.get_mut(name) {
                    *text = with_column(text, column);
                }
                continue;
            }
            let mut words = statement.split_whitespace();
            let (Some("CREATE"), Some(kind), Some(name)) = (words.next(), words.next(), words.next()) else { continue };
            let text = statement.trim_end().trim_end_matches(';').to_owned();
            made.insert(name.to_owned(), (kind.to_ascii_lowercase(), text));
        }
    }
    made
}

/// Table and definition of a column that is added to a table.
fn added_column(statement: &str) -> Option<(&str, &str)> {
    let (name, column) = statement.strip_prefix("ALTER TABLE ")?.split_once(" ADD COLUMN ")?;
    Some((name, column.trim_end().trim_end_matches(';')))
}

/// The text of a table with one more column, as SQLite writes it: after the last column, before the constraints of the table.
fn with_column(table: &str, column: &str) -> String {
    let at = table.find(",\n  CHECK (").or_else(|| table.rfind("\n)")).unwrap_or(table.len());
    let (columns, rest) = table.split_at(at);
    format!("{columns}, {column}{rest}")
}

/// A statement without what stands before it.
fn without_comments(statement: &str) -> &str {
    let mut rest = statement.trim_start();
    while rest.starts_with("--") {
        rest = rest.split_once('\n').map_or("", |(_, after)| after).trim_start();
    }
    rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_expected_is_what_the_scripts_make() {
        for version in 1..=super::super::NEWEST {
            let connection = Connection::open_in_memory().unwrap();
            let first = if version < 2 { 1 } else { 2 };
            for (_, script) in (1..).zip(SCRIPTS).filter(|(number, _)| (first..=version).contains(number)) {
                connection.execute_batch(script).unwrap();
            }
            assert_eq!(difference(&connection, version).unwrap(), None, "version {version}");
            let sql = "SELECT count(*) FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'";
            let count: i64 = connection.query_row(sql, [], |row| row.get(0)).unwrap();
            assert_eq!(i64::try_from(made_by(version).len()), Ok(count), "version {version}");
            check_tables(&connection, version).unwrap();
        }
    }
}
