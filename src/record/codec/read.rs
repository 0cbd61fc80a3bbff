//! JSON to values by the field table: unknown, repeated, missing and misshapen fields are found here.

use super::super::checker::Checker;
use super::super::schema::{Field, FieldKind, PART, RecordSchema};
use super::super::value::{Value, Values};
use super::super::{Part, parse};
use super::Names;
use super::raw::{Pairs, Raw};

/// Reads the pairs of one object.
pub(super) struct Reader<'a> {
    pairs: &'a Pairs<'a>,
    tables: &'a [&'static RecordSchema],
    names: Names,
    values: Values,
    checker: Checker,
}

impl<'a> Reader<'a> {
    /// Reads every field the tables know.
    pub(super) fn new(pairs: &'a Pairs<'a>, tables: &'a [&'static RecordSchema], names: Names) -> Self {
        let mut reader =
            Self { pairs, tables, names, values: Values::with_room(pairs.len()), checker: Checker::default() };
        for table in tables {
            for field in table.fields {
                reader.field(field);
            }
        }
        reader
    }

    fn field(&mut self, field: &'static Field) {
        let old = |name: &str| field.was.is_some_and(|was| name == was);
        let renamed = || field.was.and_then(|_| self.pairs.iter().find(|(n, _)| old(n)));
        if let (Names::Own, Some((was, _))) = (self.names, renamed()) {
            let text = format!("is named {} from version 2 of the journal on; write {}", field.name, field.name);
            self.checker.fault(was, text);
            return;
        }
        let mut found = self.pairs.iter().filter(|(n, _)| *n == field.name || old(n)).map(|(_, v)| v);
        let Some(raw) = found.next() else {
            if field.required {
                self.checker.missing(field);
            }
            return;
        };
        let more = found.count();
        if more > 0 {
            self.checker.fault(field.name, format!("is given {} times; give it once", more + 1));
            return;
        }
        match value(field, raw) {
            Ok(value) => self.values.set(field.name, value),
            Err(text) => self.checker.fault(field.name, text),
        }
    }

    /// Refuses every field no table knows.
    pub(super) fn no_more_fields(&mut self) {
        let is = |field: &Field, name: &str| field.name == name || field.was == Some(name);
        let fields = || self.tables.iter().flat_map(|t| t.fields);
        let known = |name: &str| name == "type" || fields().any(|f| is(f, name));
        let mut seen: Vec<&str> = Vec::new();
        for (name, _) in self.pairs {
            if known(name) || seen.contains(&name.as_ref()) {
                continue;
            }
            seen.push(name);
            let list = self.tables.iter().flat_map(|t| t.fields.iter().map(|f| f.name)).collect::<Vec<_>>().join(", ");
            self.checker.fault(&crate::record::clean(name), format!("is not known here; known fields: {list}"));
        }
    }

    /// What was read, and the faults so far.
    pub(super) fn done(self) -> (Values, Checker) {
        (self.values, self.checker)
    }
}

/// One value in its field's form. Ranges are judged later, by the rules.
fn value(field: &Field, raw: &Raw<'_>) -> Result<Value, String> {
    let wrong = || format!("is {}; give {}", raw.describe(), field.wanted());
    match (field.kind, raw) {
        (FieldKind::Text { .. } | FieldKind::Code | FieldKind::Plot | FieldKind::By, Raw::Text(t)) => {
            Some(Value::Text(t.clone().into_owned()))
        }
        (FieldKind::Count { .. } | FieldKind::Level { .. }, Raw::Number(n)) => whole(*n).map(Value::Count),
        (FieldKind::Number { .. }, Raw::Number(n)) => Some(Value::Number(*n)),
        (FieldKind::YesNo, Raw::Bool(b)) => Some(Value::YesNo(*b)),
        (FieldKind::Day, Raw::Text(t)) => parse::day(t).map(Value::Day),
        (FieldKind::Instant, Raw::Text(t)) => parse::instant(t).map(Value::At),
        (FieldKind::Zone, Raw::Text(t)) => t.parse().ok().map(Value::Zone),
        (FieldKind::Id, Raw::Text(t)) => parse::id(t).map(Value::Id),
        (FieldKind::Term(known), Raw::Text(t)) => known.spelled(t).map(Value::Term),
        (FieldKind::Terms(known), Raw::List(list)) => {
            return each(list, |item| {
                let Raw::Text(t) = item else { return Err(format!("is {}; give {}", item.describe(), field.wanted())) };
                known
                    .spelled(t)
                    .map(Value::Term)
                    .ok_or_else(|| format!("has {}; give {}", item.describe(), field.wanted()))
            });
        }
        (FieldKind::Texts { .. }, Raw::List(list)) => {
            return each(list, |item| match item {
                Raw::Text(t) => Ok(Value::Text(t.clone().into_owned())),
                _ => Err(format!("has {}; give {}", item.describe(), field.wanted())),
            });
        }
        (FieldKind::Numbers { .. }, Raw::List(list)) => {
            return each(list, |item| match item {
                Raw::Number(n) => Ok(Value::Number(*n)),
                _ => Err(format!("has {}; give {}", item.describe(), field.wanted())),
            });
        }
        (FieldKind::Ids, Raw::List(list)) => {
            return each(list, |item| match item {
                Raw::Text(t) => parse::id(t).map(Value::Id).ok_or_else(|| format!("has {}; give ids", item.describe())),
                _ => Err(format!("has {}; give ids", item.describe())),
            });
        }
        (FieldKind::Parts, Raw::List(list)) => return parts(list),
        _ => None,
    }
    .ok_or_else(wrong)
}

fn each<'t>(list: &[Raw<'t>], one: impl FnMut(&Raw<'t>) -> Result<Value, String>) -> Result<Value, String> {
    list.iter().map(one).collect::<Result<Vec<_>, _>>().map(Value::List)
}

/// A whole number of at most nine digits; `5.0` is 5, as other tools write it so.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the range is checked first")]
fn whole(n: f64) -> Option<u32> {
    (n.fract() == 0.0 && (0.0..=1e9).contains(&n)).then_some(n as u32)
}

fn parts(list: &[Raw<'_>]) -> Result<Value, String> {
    let mut parts = Vec::new();
    let mut said = Vec::new();
    let tables = [&PART];
    for (i, item) in list.iter().enumerate() {
        let Raw::Object(pairs) = item else {
            said.push(format!("part {} is {}; give {{\"ai\":…,\"ppm\":…}}", i + 1, item.describe()));
            continue;
        };
        let mut reader = Reader::new(pairs, &tables, Names::Own);
        reader.no_more_fields();
        let (values, checker) = reader.done();
        let faults = checker.done();
        said.extend(faults.iter().map(|f| format!("part {}: {} {}", i + 1, f.field, f.text)));
        if let (Some(ai), Some(ppm)) = (values.take("ai"), values.take("ppm")) {
            parts.push(Value::Part(Part { ai, ppm }));
        }
    }
    if said.is_empty() { Ok(Value::List(parts)) } else { Err(said.join("; ")) }
}
