//! Both years of a lot on one axis of days: last year's readings on the same crop week.

use super::words::in_system;
use crate::compare::{Course, Measure};
use crate::dates::{days_between, short};
use crate::report::chart::{Chart, Layer, Stroke};
use crate::units::{Length, Quantity, System, plain};
use chrono::NaiveDate;

/// What is drawn of each lot.
const DRAWN: [Measure; 3] = [Measure::Height, Measure::Water, Measure::Bracts];

/// The charts of a lot: heights, water and bracts by crop week, this year's as readings, last year's as a line. What neither year
/// has is left out.
pub fn charts((this, last): (&Course, &Course), on: NaiveDate, system: System) -> Vec<Chart> {
    DRAWN.into_iter().filter_map(|measure| chart(measure, (this, last), on, system)).collect()
}

fn chart(measure: Measure, (this, last): (&Course, &Course), on: NaiveDate, system: System) -> Option<Chart> {
    let shown = |value: f64| in_system(measure, value, system);
    let shift = days_between(last.lot.planted, this.lot.planted);
    let now: Vec<_> = this.weekly(measure, on).into_iter().map(|(_, day, value)| (day, shown(value), None)).collect();
    let before: Vec<_> = last
        .weekly(measure, last.until)
        .into_iter()
        .map(|(_, day, value)| (crate::dates::add_days(day, shift), shown(value)))
        .collect();
    if before.is_empty() && now.is_empty() {
        return None;
    }
    let (name, axis, range) = match measure {
        Measure::Water => ("water", "1 dry to 5 soaked", Some((0.5, 5.5))),
        Measure::Bracts => ("bract stage", "stage 1 no color to 7 setting seed", Some((0.5, 7.5))),
        _ => ("height", Length::unit_name(system), None),
    };
    let end = before.last().map_or(this.lot.ready_by, |(day, _)| *day).max(this.lot.ready_by);
    let said = now.last().map_or_else(
        || "Nothing read this year.".to_owned(),
        |(day, value, _)| format!("Last {} on {}.", plain(*value), short(*day)),
    );
    let (this_lot, last_lot) = (&this.lot.lot, &last.lot.lot);
    Some(Chart {
        title: format!("{this_lot} {name} by crop week, beside {last_lot} of last year"),
        text: format!(
            "Means of each week of the crop. {said} Last year's line stands on the same day of the crop: moved by {shift} days."
        ),
        days: (this.lot.planted, end),
        axis: axis.to_owned(),
        range,
        layers: vec![
            Layer::Line { name: format!("last year ({last_lot})"), points: before, stroke: Stroke::LastYear },
            Layer::Dots { name: format!("this year ({this_lot})"), points: now },
        ],
    })
}
