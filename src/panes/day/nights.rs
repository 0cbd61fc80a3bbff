//! The nights: how long this one is, and since when they are long.

use crate::crop::night::{Night, Place, first_night_reaching, night};
use crate::dates;
use crate::model::Model;
use crate::ui::{Role, regions};
use chrono::{Datelike, NaiveDate};
use ratatui::text::{Line, Span};

/// Cells of a label.
const LABEL: usize = 18;

/// The length of the night that begins this evening, minutes; `None` without a site, and where there is none.
pub fn tonight(model: &Model) -> Option<u32> {
    let site = model.season.site()?;
    let place = Place::new(site.latitude, site.longitude).ok()?;
    match night(&place, model.day, model.limits.choices.night).ok()? {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "minutes of a night: 0 to 1440")]
        Night::Minutes(minutes) => Some(minutes.round().clamp(0.0, 1440.0) as u32),
        Night::Unbroken | Night::None => None,
    }
}

/// `12 h 55 min`.
pub fn length(minutes: u32) -> String {
    format!("{} h {:02} min", minutes / 60, minutes % 60)
}

/// Tonight, and the first night that is long enough for the bracts to color.
pub(super) fn lines(model: &Model, cells: usize) -> Vec<Line<'static>> {
    let row = |label: &str, text: String| {
        Line::from(vec![Span::styled(format!(" {label:<LABEL$}"), model.look.style(Role::Label)), Span::raw(text)])
    };
    let tonight = tonight(model).map(|minutes| row("night length", length(minutes)));
    let first = first_long(model).map(|day| {
        let days = dates::days_between(day, model.day);
        let when = if days >= 0 { format!("{days} d ago") } else { format!("in {} d", days.saturating_neg()) };
        row("first long night", format!("{} ({when})", dates::short(day)))
    });
    let rows: Vec<Line<'static>> = tonight.into_iter().chain(first).collect();
    if rows.is_empty() {
        return rows;
    }
    std::iter::once(regions::headed(("nights", ""), cells, model.look)).chain(rows).collect()
}

/// The first night after midsummer that reaches the length of the limits.
fn first_long(model: &Model) -> Option<NaiveDate> {
    let site = model.season.site()?;
    let place = Place::new(site.latitude, site.longitude).ok()?;
    let after = i32::from(!place.is_northern() && model.day.month() > 6);
    let year = model.day.year().saturating_add(after);
    let minutes = f64::from(model.limits.round.night_start_min);
    first_night_reaching(&place, year, minutes, model.limits.choices.night).ok()?
}
