//! The comparison as one HTML file, with both years of each lot drawn.

use super::words::{cost, costs_head, heading, matched, rows, unknown, unmatched};
use super::{Comparison, charts};
use crate::compare::LotBeside;
use crate::dates;
use crate::report::chart::Table;
use crate::report::html::{escape, figure, page, table};

/// The comparison as one document.
pub fn html(comparison: &Comparison) -> String {
    let title = format!("{}, last year beside this one, as of {}", comparison.site.name, dates::long(comparison.on));
    let mut body = format!(
        "<h1>{}</h1>\n<p class=\"soft\">last year: {}<br>this year: {}</p>\n",
        escape(&title),
        escape(&comparison.last_file),
        escape(&comparison.this_file)
    );
    contents(comparison, &mut body);
    differently(comparison, &mut body);
    for (n, lot) in comparison.lots.iter().enumerate() {
        body.push_str(&format!("<h2 id=\"l{n}\">{}</h2>\n<p>{}</p>\n", escape(&heading(lot)), escape(&matched(lot))));
        if let Some((this, last)) = comparison.courses.get(n) {
            body.push_str("<div class=\"charts\">\n");
            for chart in charts((this, last), comparison.on, comparison.site.units) {
                figure(&chart, &mut body);
            }
            body.push_str("</div>\n");
        }
        body.push_str(&rows_table(lot, comparison));
    }
    for sentence in unmatched(&comparison.pairs).into_iter().chain(unknown(&comparison.pairs)) {
        body.push_str(&format!("<p>{}</p>\n", escape(&sentence)));
    }
    page(&title, &body)
}

fn contents(comparison: &Comparison, body: &mut String) {
    body.push_str("<nav aria-label=\"On this page\"><p><a href=\"#do\">What to do differently</a>");
    for (n, lot) in comparison.lots.iter().enumerate() {
        body.push_str(&format!(" · <a href=\"#l{n}\">{}</a>", escape(&lot.this.lot)));
    }
    body.push_str("</p></nav>\n");
}

fn differently(comparison: &Comparison, body: &mut String) {
    body.push_str("<h2 id=\"do\">What to do differently</h2>\n");
    if comparison.costs.is_empty() {
        body.push_str("<p>No warning stood at act or urgent last year.</p>\n");
        return;
    }
    body.push_str(&format!("<p class=\"soft\">{}</p>\n<ol>\n", escape(costs_head())));
    for one in &comparison.costs {
        let (said, more) = cost(one, comparison);
        let more: String = more.iter().fold(String::new(), |out, sentence| format!("{out}<br>{}", escape(sentence)));
        body.push_str(&format!("<li><strong>{}</strong>{more}</li>\n", escape(&said)));
    }
    body.push_str("</ol>\n");
}

fn rows_table(lot: &LotBeside, comparison: &Comparison) -> String {
    let rows = rows(lot, comparison.site.units, comparison.assessed);
    let heads = ["", "this year", "last year", "differs"].map(ToOwned::to_owned).to_vec();
    let rows = rows.into_iter().map(|row| vec![row.what, row.this, row.last, row.differs]).collect();
    table(&heading(lot), &Table { heads, rows })
}
