//! What a card says of a bench that cannot be walked now: why, across its whole width, and what that means.

use crate::dates;
use crate::model::Model;
use crate::model::walk_order::Shut;
use crate::ui::{Role, fit, put};
use chrono::Datelike;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Span;

/// Rows of the band.
pub const BAND: u16 = 3;

/// Draws the band that says why.
pub fn band(bench: &str, model: &Model, frame: &mut Frame<'_>, area: Rect, why: Shut) {
    let band = match why {
        Shut::Closed(until) => {
            let day = until.date_naive();
            let day = if day.year() == model.day.year() { dates::weekday(day) } else { dates::long(day) };
            format!("CLOSED UNTIL {day} {}", dates::time(&until))
        }
        Shut::Empty => format!("{bench} IS EMPTY"),
        Shut::Unread => "CANNOT BE WALKED".to_owned(),
    };
    let urgent = model.look.style(Role::Urgent);
    for (row, text) in ["", band.as_str(), ""].into_iter().enumerate() {
        put(frame, area, row, Span::styled(fit(&format!(" {text}"), usize::from(area.width)), urgent));
    }
}

/// What that means.
pub fn meaning(why: Shut, model: &Model) -> String {
    match why {
        Shut::Closed(_) => format!("Stay out; no entries until then ({}).", model.known_here()),
        Shut::Empty => "Nothing is scored on a bench without pots.".to_owned(),
        Shut::Unread => "The season could not be read, so it is not known which benches are closed.".to_owned(),
    }
}
