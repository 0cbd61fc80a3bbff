//! A list of benches, one row each, into benches and the pots set down on them.

use super::super::{Fault, Faults, Numbered};
use super::sheet::{Sheet, head, line_of, value};
use crate::record::schema::{self, Field};
use crate::record::{Bench, Line, Placement, Plan, Revision, Site, Value, clean};
use chrono::NaiveDate;
use csv::StringRecord;
use std::collections::HashMap;

/// The columns, in the order the error texts name them; the first two must be there.
const COLUMNS: [&str; 5] = ["bench", "house", "lot", "pots", "area"];

/// Reads a list with the columns bench and house, and where wanted lot, pots and area, in any order. Commas, semicolons
/// or tabs part the cells. The rows are the walking order, after the benches there are. A lot and its pots go together;
/// pots are set down on the lot's planting day. An area without a unit is in the site's. A bench or a placement that is
/// in the plan already becomes its next revision where it is other than there, and stays as it is where it is the same:
/// reading a list again changes nothing.
///
/// # Errors
/// The faults of the list, by row (as the line of the file) and column; then nothing of it is given.
pub fn read_benches(text: &str, plan: &Plan) -> Result<Vec<Numbered>, Faults> {
    let Some(site) = plan.sites.iter().max_by_key(|s| s.revision.rev) else {
        let text = "there is no site yet; import the site and the lots before a list of benches".to_owned();
        return Err(Faults::one(1, text));
    };
    let Sheet { header, rows: records } = Sheet::read(text)?;
    let columns = columns(&header)?;
    let after = plan.benches.iter().map(|bench| bench.order).max().unwrap_or(0);
    let mut rows =
        Rows { plan, site, columns, lines: Vec::new(), faults: Vec::new(), seen: HashMap::new(), last_order: after };
    let mut faults = Faults::default();
    for record in &records {
        rows.add(record);
        faults.extend(rows.faults.drain(..));
    }
    if faults.is_empty() && rows.lines.is_empty() {
        return Err(Faults::one(1, "there is no bench below the header".to_owned()));
    }
    if faults.is_empty() { Ok(rows.lines) } else { Err(faults) }
}

/// What the fields of its lines are called in its header.
pub(super) fn heads() -> Vec<(&'static str, String)> {
    vec![("area_m2", "area".to_owned())]
}

/// The columns by name.
type Columns = HashMap<&'static str, (usize, Option<String>)>;

/// The index of each column, and the unit that its head names.
fn columns(header: &StringRecord) -> Result<Columns, Faults> {
    let mut found = HashMap::new();
    let mut faults = Faults::default();
    let known = COLUMNS.join(", ");
    let mut fault = |field: &str, text: String| faults.push(Fault { line: 1, field: Some(field.to_owned()), text });
    for (at, cell) in header.iter().enumerate() {
        let (name, unit) = head(cell);
        match COLUMNS.into_iter().find(|c| *c == name) {
            Some(column) if found.insert(column, (at, unit)).is_some() => {
                fault(column, "appears twice as a column".to_owned());
            }
            Some(_) => {}
            None => fault(
                &name.chars().take(30).collect::<String>(),
                format!("is not a known column; the first row names the columns: {known}"),
            ),
        }
    }
    for needed in COLUMNS.into_iter().take(2).filter(|c| !found.contains_key(c)) {
        fault(needed, format!("is missing; the first row names the columns: {known}"));
    }
    if faults.is_empty() { Ok(found) } else { Err(faults) }
}

/// The revision after one.
const fn next(kept: &Revision) -> Revision {
    Revision::number(kept.rev.saturating_add(1))
}

struct Rows<'a> {
    plan: &'a Plan,
    site: &'a Site,
    columns: Columns,
    lines: Vec<Numbered>,
    /// Of the row at hand.
    faults: Vec<Fault>,
    seen: HashMap<String, usize>,
    /// The last place in the walk so far.
    last_order: u32,
}

impl Rows<'_> {
    fn add(&mut self, record: &StringRecord) {
        let line = line_of(record);
        let widest = self.columns.values().map(|(at, _)| at.saturating_add(1)).max().unwrap_or(0);
        if record.iter().skip(widest).any(|c| !c.is_empty()) {
            self.fault(line, None, "has more cells than the header; quote text that contains the separator");
        }
        let bench = self.cell(record, line, "bench", "bench", "bench");
        let house = self.cell(record, line, "house", "bench", "house");
        let area = self.cell(record, line, "area", "bench", "area_m2");
        let lot = self.cell(record, line, "lot", "placement", "lot");
        let pots = self.cell(record, line, "pots", "placement", "pots");
        for (name, value) in [("bench", &bench), ("house", &house)] {
            if value.is_none() && !self.has_fault(line, name) {
                self.fault(line, Some(name), "is empty; every row names its bench and house");
            }
        }
        if let Some(Value::Text(code)) = &bench
            && let Some(first) = self.seen.insert(code.clone(), line)
        {
            self.fault(line, Some("bench"), &format!("{code} is also on line {first}; one row is one bench"));
        }
        let from = self.set_down(line, lot.as_ref(), pots.as_ref());
        if !self.faults.is_empty() {
            return;
        }
        let (Some(Value::Text(bench)), Some(Value::Text(house))) = (bench, house) else { return };
        let area_m2 = area.and_then(|v| if let Value::Number(n) = v { Some(n) } else { None });
        // Behind every bench there is and every row before.
        let order = self.last_order.saturating_add(1);
        let kept = self.bench(Bench { bench: bench.clone(), house, order, area_m2, revision: Revision::default() });
        if let Line::Bench(bench) = &kept {
            self.last_order = self.last_order.max(bench.order);
        }
        self.lines.push(Numbered { number: line, line: kept });
        if let (Some(Value::Text(lot)), Some(Value::Count(pots)), Some(from)) = (lot, pots, from) {
            let line = Numbered {
                number: line,
                line: self.placement(Placement { bench, lot, pots, from, revision: Revision::default() }),
            };
            self.lines.push(line);
        }
    }

    /// As it is in the plan, as its next revision, or new.
    fn bench(&self, new: Bench) -> Line {
        let kept = self.plan.benches.iter().filter(|b| b.bench == new.bench).max_by_key(|b| b.revision.rev);
        Line::Bench(match kept {
            None => new,
            Some(kept) => {
                // A list without areas leaves them unchanged, and so does the order of the walk.
                let asked = Bench {
                    order: kept.order,
                    area_m2: new.area_m2.or(kept.area_m2),
                    revision: kept.revision.clone(),
                    ..new
                };
                if asked == *kept { asked } else { Bench { revision: next(&kept.revision), ..asked } }
            }
        })
    }

    /// As it is in the plan, as its next revision, or new.
    fn placement(&self, new: Placement) -> Line {
        let same = |p: &&Placement| p.bench == new.bench && p.from == new.from;
        let kept = self.plan.placements.iter().filter(same).max_by_key(|p| p.revision.rev);
        Line::Placement(match kept {
            None => new,
            Some(kept) => {
                let asked = Placement { revision: kept.revision.clone(), ..new };
                if asked == *kept { asked } else { Placement { revision: next(&kept.revision), ..asked } }
            }
        })
    }

    /// The day a row's pots were set down, where it has pots of a known lot.
    fn set_down(&mut self, line: usize, lot: Option<&Value>, pots: Option<&Value>) -> Option<NaiveDate> {
        match (lot, pots) {
            (Some(Value::Text(code)), Some(pots)) => {
                if *pots == Value::Count(0) {
                    self.fault(line, Some("pots"), "is 0; give 1 or more, or leave lot and pots empty");
                }
                let of_code = self.plan.lots.iter().filter(|l| l.lot == *code);
                let from = of_code.max_by_key(|l| l.revision.rev).map(|l| l.planted);
                if from.is_none() {
                    let mut known: Vec<&str> = self.plan.lots.iter().map(|l| l.lot.as_str()).collect();
                    known.sort_unstable();
                    known.dedup();
                    let known =
                        if known.is_empty() { "none yet; add the lots first".to_owned() } else { known.join(", ") };
                    self.fault(
                        line,
                        Some("lot"),
                        &format!("'{}' is not a lot in this season; lots: {known}", clean(code)),
                    );
                }
                return from;
            }
            (Some(_), None) if !self.has_fault(line, "pots") => {
                self.fault(line, Some("pots"), "is empty; give the pots of the lot on this bench");
            }
            (None, Some(_)) if !self.has_fault(line, "lot") => {
                self.fault(line, Some("lot"), "is empty; give the lot the pots are of");
            }
            _ => {}
        }
        None
    }

    /// One cell by the rules of its field.
    fn cell(&mut self, record: &StringRecord, line: usize, column: &str, table: &str, field: &str) -> Option<Value> {
        let (at, unit) = self.columns.get(column)?;
        let text = record.get(*at)?;
        let field: &Field = schema::plan_table(table)?.field(field)?;
        match value((field, unit.as_deref()), text, self.site.units) {
            Ok(value) => value,
            Err(text) => {
                self.fault(line, Some(column), &text);
                None
            }
        }
    }

    fn has_fault(&self, line: usize, column: &str) -> bool {
        self.faults.iter().any(|f| f.line == line && f.field.as_deref() == Some(column))
    }

    fn fault(&mut self, line: usize, column: Option<&str>, text: &str) {
        self.faults.push(Fault { line, field: column.map(str::to_owned), text: text.to_owned() });
    }
}
