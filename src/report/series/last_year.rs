//! Last year's line in the charts of a bench: the lot beside the one that stands there, on the same day of the crop.

use super::Topic;
use crate::compare::{Course, LastYear, Measure};
use crate::dates::{add_days, days_between};
use crate::record::Term;
use crate::report::chart::{Chart, Layer, Stroke};
use crate::season::Season;
use crate::units::{Length, Quantity, System, Temperature, plain};
use chrono::NaiveDate;

/// Draws last year's lot into the charts of a bench: a mean each week of the crop, on the same day after planting. Nothing is drawn
/// where no lot of last year stands beside this one.
pub fn with_last_year(season: &Season, (bench, on): (&str, NaiveDate), last: &LastYear, charts: &mut [(Topic, Chart)]) {
    let system = season.site().map_or(System::Metric, |site| site.units);
    let Some(lot) = season.standing(bench, on).and_then(|standing| season.lot(&standing.lot)) else { return };
    let pairs = last.pairs(season);
    let Some(course) = pairs.beside(&lot.lot).and_then(|code| last.course(code)) else { return };
    let shift = days_between(course.lot.planted, lot.planted);
    for (topic, chart) in charts {
        for (measure, what) in measures(*topic, course, chart) {
            draw(chart, (course, shift), (measure, what), (on, system));
        }
    }
}

/// What a chart is of, and what of it a line is where it has several.
fn measures(topic: Topic, course: &Course, chart: &Chart) -> Vec<(Measure, &'static str)> {
    match topic {
        Topic::Height => vec![(Measure::Height, "")],
        Topic::Water => vec![(Measure::Water, "")],
        Topic::Roots => vec![(Measure::Roots, "")],
        Topic::Bracts => vec![(Measure::Bracts, "")],
        Topic::Ph => vec![(Measure::Ph, "")],
        // Only what the same method read: others are not on one scale.
        Topic::Salts => course
            .measures()
            .filter(|measure| match measure {
                Measure::Salts(method) => chart.text.contains(method.text()),
                _ => false,
            })
            .map(|measure| (measure, ""))
            .collect(),
        Topic::Temperature => vec![(Measure::Day, " day"), (Measure::Night, " night")],
        Topic::Humidity => vec![(Measure::Humidity, "")],
        Topic::Climate => Vec::new(),
    }
}

fn draw(
    chart: &mut Chart,
    (course, shift): (&Course, i64),
    (measure, what): (Measure, &str),
    (on, system): (NaiveDate, System),
) {
    let shown = |value: f64| match measure {
        Measure::Height => Length::from_cm(value).in_system(system),
        Measure::Day | Measure::Night => Temperature::from_c(value).in_system(system),
        _ => value,
    };
    let weekly = course.weekly(measure, course.until);
    let now = course.crop_day(add_days(on, -shift)).div_euclid(7);
    if let Some((_, _, value)) = weekly.iter().find(|(week, ..)| *week == now) {
        let unit = match measure {
            Measure::Height => Length::unit_name(system),
            Measure::Day | Measure::Night => Temperature::unit_name(system),
            Measure::Humidity => "%",
            _ => "",
        };
        let space = if unit.is_empty() || unit == "%" { "" } else { " " };
        chart.text.push_str(&format!(
            " Last year{what}, lot {}: {}{space}{unit} in this week of the crop.",
            course.lot.lot,
            plain(shown(*value))
        ));
    }
    let points = weekly.into_iter().map(|(_, day, value)| (add_days(day, shift), shown(value))).collect();
    let name = format!("last year{what} ({})", course.lot.lot);
    let line = Layer::Line { name, points, stroke: Stroke::LastYear }.within(chart.days);
    if !line.is_empty() {
        chart.layers.insert(0, line);
    }
}
