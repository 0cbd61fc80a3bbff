//! The lists that topics take from the program's own tables.

use crate::mix::cautions::{Work, cautions};
use crate::record::schema::{self, RecordSchema};
use crate::record::{KindName, Term};
use crate::ui::wrap;
use crate::warnings::{RULES, Scope};

/// Columns of a terminal that a topic must fit.
const WIDTH: usize = 80;
/// Column at which the description of a field begins: the longest field name, its mark and two blanks.
const COLUMN: usize = 20;

/// The generated list of this name, as Markdown.
pub(super) fn table(name: &str) -> Option<String> {
    let text = match name {
        "lines" => lines(),
        "revision" => fields(schema::revision_table()),
        "entry" => fields(&schema::ENTRY),
        "part" => fields(&schema::PART),
        "observations" => kinds(true),
        "work" => kinds(false),
        "views" => views(),
        "warnings" => warnings(),
        "cautions" => return Some(all_cautions()),
        _ => return None,
    };
    Some(format!("```text\n{text}```\n"))
}

/// The lines of the plan, then what each of them has in addition.
fn lines() -> String {
    let tables = schema::plan_tables().iter().copied().chain([schema::revision_table()]);
    tables.map(fields).collect::<Vec<_>>().join("\n")
}

/// The cautions for mixing and applying, as items: those of a treatment, then those of fertilizers.
fn all_cautions() -> String {
    let work = [
        Work::Treatment,
        Work::Spraying,
        Work::LateTreatment,
        Work::Fog,
        Work::Fertilizer,
        Work::Salt,
        Work::LeafSpray,
        Work::Injector,
        Work::LimeOrAcid,
        Work::Heat,
    ];
    let mut text = String::new();
    for caution in work.into_iter().flat_map(cautions) {
        for (number, line) in wrap(caution.text, WIDTH - 2).iter().enumerate() {
            text.push_str(&format!("{} {line}\n", if number == 0 { "-" } else { " " }));
        }
    }
    text
}

/// The kinds of observations or of work, each with its fields.
fn kinds(findings: bool) -> String {
    let kinds = KindName::ALL.iter().filter(|kind| kind.is_finding() == findings);
    kinds.map(|kind| fields(schema::kind_table(*kind))).collect::<Vec<_>>().join("\n")
}

/// Every warning by name: its title, what it is about, why it matters, what it rests on.
fn warnings() -> String {
    let mut text = String::new();
    for rule in RULES {
        let about = match rule.scope() {
            Scope::Bench => "a bench",
            Scope::Lot => "a lot",
            Scope::House => "a house",
        };
        text.push_str(&format!("{}: {}, of {about}\n", rule.code, rule.title));
        for line in wrap(rule.why, WIDTH - 4) {
            text.push_str(&format!("    {line}\n"));
        }
        for line in wrap(&format!("basis: {}", rule.basis), WIDTH - 4) {
            text.push_str(&format!("    {line}\n"));
        }
    }
    text
}

/// The names of the views of entries.
fn views() -> String {
    let names: Vec<String> = KindName::ALL.iter().map(|kind| kind.code().replace('-', "_")).collect();
    wrap(&names.join(", "), WIDTH).join("\n") + "\n"
}

/// A heading and one row a field: name, meaning, what it takes.
fn fields(table: &RecordSchema) -> String {
    let mut text = format!("{}\n", table.name);
    if table.fields.is_empty() {
        text.push_str("  no fields of its own\n");
    }
    for field in table.fields {
        let name = format!("{}{}", field.name, if field.required { "*" } else { "" });
        text.push_str(&row(&name, &format!("{}; {}", field.meaning, field.wanted())));
    }
    text
}

/// A name followed by its description, folded under itself.
fn row(name: &str, description: &str) -> String {
    let mut text = String::new();
    for (number, line) in wrap(description, WIDTH - COLUMN).iter().enumerate() {
        let name = if number == 0 { format!("  {name}") } else { String::new() };
        text.push_str(&format!("{name:<COLUMN$}{line}\n"));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_and_field_is_listed() {
        let all =
            ["lines", "revision", "entry", "part", "observations", "work"].map(|name| table(name).unwrap()).concat();
        for kind in KindName::ALL {
            assert!(all.contains(&format!("\n{}\n", kind.code())), "{}", kind.code());
            for field in schema::kind_table(*kind).fields {
                assert!(all.contains(&format!("\n  {}", field.name)), "{}", field.name);
                assert!(field.name.len() + 4 <= COLUMN, "{} leaves no blank before its description", field.name);
            }
        }
        assert!(table("elsewhere").is_none());
    }

    #[test]
    fn every_warning_is_listed_with_its_basis() {
        let list = table("warnings").unwrap();
        for rule in RULES {
            assert!(list.contains(&format!("\n{}: {}, of a ", rule.code, rule.title)), "{}", rule.code);
        }
        assert_eq!(list.matches("\n    basis: ").count(), RULES.len());
    }

    #[test]
    fn a_row_folds_under_its_description() {
        let text = row("level*", &"word ".repeat(20));
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 2, "{text}");
        assert!(lines[0].starts_with("  level*            word word"), "{text}");
        assert!(lines[1].starts_with("                    word"), "{text}");
    }
}
