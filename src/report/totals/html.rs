//! A season's end as one HTML file.

use super::{SeasonEnd, sections};
use crate::dates;
use crate::report::html::{escape, page, table};

/// The whole document.
pub fn html(end: &SeasonEnd) -> String {
    let title = format!("{}, the season up to {}", end.totals.site, dates::long(end.totals.on));
    let mut body = format!("<h1>{}</h1>\n", escape(&title));
    for section in sections(end) {
        body.push_str(&format!("<h2>{}</h2>\n", escape(section.title)));
        for (caption, of) in &section.tables {
            body.push_str(&table(caption, of));
        }
        for note in &section.notes {
            body.push_str(&format!("<p>{}</p>\n", escape(note)));
        }
    }
    page(&title, &body)
}
