//! The comparison as text of 80 columns.

use super::Comparison;
use super::words::{Row, cost, costs_head, heading, matched, rows, unknown, unmatched};
use crate::dates;
use crate::report::layout::wrap;

/// Columns of what a row is about.
const NAME: usize = 28;

/// The comparison as text.
pub fn text(comparison: &Comparison) -> String {
    let mut out = String::new();
    let title = format!("{}, last year beside this one, as of {}", comparison.site.name, dates::long(comparison.on));
    wrap(&mut out, "", &title);
    wrap(&mut out, "last year  ", &comparison.last_file);
    wrap(&mut out, "this year  ", &comparison.this_file);
    for lot in &comparison.lots {
        out.push('\n');
        wrap(&mut out, "", &heading(lot));
        wrap(&mut out, "  ", &matched(lot));
        for row in rows(lot, comparison.site.units, comparison.assessed) {
            line(&row, &mut out);
        }
    }
    let left: Vec<String> = unmatched(&comparison.pairs).into_iter().chain(unknown(&comparison.pairs)).collect();
    if !left.is_empty() {
        out.push('\n');
    }
    for sentence in left {
        wrap(&mut out, "", &sentence);
    }
    out.push_str("\nWhat to do differently\n");
    if comparison.costs.is_empty() {
        out.push_str("  No warning stood at act or urgent last year.\n");
        return out;
    }
    wrap(&mut out, "  ", costs_head());
    for (number, one) in (1..).zip(&comparison.costs) {
        let (said, more) = cost(one, comparison);
        wrap(&mut out, &format!("  {number}  "), &said);
        for sentence in more {
            wrap(&mut out, "     ", &sentence);
        }
    }
    out
}

fn line(row: &Row, out: &mut String) {
    wrap(out, &format!("  {:<1$}  ", row.what, NAME), &row.sentence());
}
