//! A whole season as tables: one for each line type of the plan and each kind of entry, and templates to start from.

use super::entries::{COMMON, cell, common, write_rows, written};
use super::guard::guarded;
use super::sheet::head_of;
use crate::record::schema::{self, FieldKind, RecordSchema};
use crate::record::{Entry, KindName, Line, Term, Value, fields, typed};
use crate::units::System;

/// The file of a line type of the plan.
fn file(name: &str) -> String {
    let many = match name {
        "site" => "site",
        "bench" => "benches",
        "history" => "histories",
        other => return format!("{other}s.csv"),
    };
    format!("{many}.csv")
}

/// A season as files: lines of the plan as they stand, and entries by kind; those without a row are left out. Units stand in the
/// header, numbers are plain, days are `YYYY-MM-DD`. Text that a spreadsheet would read as a formula gets an apostrophe, which
/// import takes off again. `voided` says which entries no longer count.
pub fn write_tables(lines: &[Line], entries: &[Entry], voided: &dyn Fn(&Entry) -> bool) -> Vec<(String, String)> {
    let mut files = Vec::new();
    for table in schema::plan_tables() {
        let rows: Vec<&Line> = lines.iter().filter(|line| line.type_name() == table.name).collect();
        if !rows.is_empty() {
            files.push((file(table.name), plan_table(table, &rows)));
        }
    }
    for kind in KindName::ALL {
        let mut rows: Vec<&Entry> = entries.iter().filter(|entry| entry.name() == *kind).collect();
        rows.sort_by_key(|entry| entry.order());
        if !rows.is_empty() {
            files.push((format!("{}.csv", kind.code()), entry_table(*kind, &rows, voided)));
        }
    }
    files
}

fn plan_table(table: &'static RecordSchema, lines: &[&Line]) -> String {
    let mut rows = vec![table.fields.iter().map(head_of).collect::<Vec<_>>()];
    for line in lines {
        let values = line.content();
        let of = |field: &schema::Field| values.get(field.name).map(|value| as_typed(field, value)).unwrap_or_default();
        rows.push(table.fields.iter().map(of).collect());
    }
    written(&rows)
}

/// A value as import reads it again: numbers without their unit, lists as they are typed.
fn as_typed(field: &schema::Field, value: &Value) -> String {
    match (value, field.kind) {
        (Value::Number(n), _) => n.to_string(),
        (Value::List(list), FieldKind::Numbers { .. }) => list.iter().map(cell).collect::<Vec<_>>().join(" "),
        _ => guarded(&typed::show(field, value, System::Metric)),
    }
}

fn entry_table(kind: KindName, entries: &[&Entry], voided: &dyn Fn(&Entry) -> bool) -> String {
    let own = schema::kind_table(kind).fields;
    let heads = COMMON.into_iter().map(str::to_owned).chain(own.iter().map(head_of));
    let mut rows = vec![heads.chain(["note", "voided"].map(str::to_owned)).collect::<Vec<_>>()];
    for entry in entries {
        let values = fields::entry_values(entry);
        let own = own.iter().map(|field| values.get(field.name).map(cell).unwrap_or_default());
        let note = entry.note.as_deref().map(guarded).unwrap_or_default();
        let voided = if voided(entry) { "yes" } else { "" }.to_owned();
        rows.push(common(entry).into_iter().chain(own).chain([note, voided]).collect());
    }
    written(&rows)
}

/// A table of a line type to fill in: its header, and rows that begin with `#`, which import skips: what each column takes, and
/// whether it must be filled in. Units are those a site of this system types; each head may name another in parentheses.
pub fn template(table: &'static RecordSchema, system: System) -> String {
    let heads = table.fields.iter().map(|field| {
        let unit = typed::unit_name(field, system);
        let name = field.label.trim_end_matches(',').to_owned();
        if unit.is_empty() || unit == "degrees" { name } else { format!("{name} ({unit})") }
    });
    let marked = |mut row: Vec<String>| {
        if let Some(first) = row.first_mut() {
            first.insert_str(0, "# ");
        }
        row
    };
    let needed = |field: &schema::Field| if field.required { "needed" } else { "may be blank" }.to_owned();
    let rows = [
        heads.collect(),
        marked(table.fields.iter().map(needed).collect()),
        marked(table.fields.iter().map(|field| field.meaning.to_owned()).collect()),
        marked(table.fields.iter().map(|field| typed::hint(field, system)).collect()),
    ];
    write_rows(&rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_tables_of_a_season_are_one_file() {
        let mut names: Vec<String> = schema::plan_tables().iter().map(|table| file(table.name)).collect();
        names.extend(KindName::ALL.iter().map(|kind| format!("{}.csv", kind.code())));
        let all = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), all, "{names:?}");
    }
}
