//! The charts of one bench, topic by topic.

use super::{ChartInput, Reach, Topic, climate, height, last, level, root_zone};
use crate::crop::color::Milestone;
use crate::dates;
use crate::limits::Limits;
use crate::record::{Kind, KindName};
use crate::report::chart::{Chart, Layer, Reading, Stroke};
use crate::report::words;
use crate::season::Season;
use crate::units::{Quantity, System, Temperature};
use crate::warnings::bench_view;
use chrono::{Days, NaiveDate};

/// The most days a chart covers.
const MOST_DAYS: u64 = 400;
/// Days of the short reach.
const THREE_WEEKS: u64 = 21;

/// The first and last day a chart of a bench covers: the season of its lot, or three weeks up to `end`.
pub fn days(season: &Season, bench: &str, (reach, end): (Reach, NaiveDate)) -> (NaiveDate, NaiveDate) {
    let back = end.checked_sub_days(Days::new(THREE_WEEKS - 1)).unwrap_or(end);
    let lot = season.standing(bench, end).and_then(|s| season.lot(&s.lot));
    match (reach, lot) {
        // Pots left after their sale are still shown, but a mistyped year does not make a chart of a century.
        (Reach::Season, Some(lot)) => {
            let most = lot.planted.checked_add_days(Days::new(MOST_DAYS)).unwrap_or(end);
            (lot.planted, lot.ready_by.max(end).min(most).max(lot.planted))
        }
        _ => (back, end),
    }
}

/// The chart of a topic on a bench: what counted up to the day `on`, drawn over `days`. Always a chart; one without readings
/// says so in its text.
pub fn bench(
    season: &Season,
    (code, topic): (&str, Topic),
    on: NaiveDate,
    days: (NaiveDate, NaiveDate),
    limits: &Limits,
) -> Chart {
    chart(&input(season, code, on, days, limits), topic)
}

/// The charts of every topic on a bench, in the order of [`Topic::ALL`]; the bench is looked at once for all of them.
pub fn every(
    season: &Season,
    code: &str,
    on: NaiveDate,
    days: (NaiveDate, NaiveDate),
    limits: &Limits,
) -> Vec<(Topic, Chart)> {
    let input = input(season, code, on, days, limits);
    Topic::ALL.iter().map(|topic| (*topic, chart(&input, *topic))).collect()
}

fn input<'a>(
    season: &'a Season,
    bench: &'a str,
    on: NaiveDate,
    days: (NaiveDate, NaiveDate),
    limits: &'a Limits,
) -> ChartInput<'a> {
    let system = season.site().map_or(System::Metric, |s| s.units);
    ChartInput { season, bench, shown: bench_view(season, bench, on, limits), limits, system, on, days }
}

fn chart(input: &ChartInput<'_>, topic: Topic) -> Chart {
    match topic {
        Topic::Height => height::chart(input),
        Topic::Water => water(input),
        Topic::Roots => roots(input),
        Topic::Bracts => bracts(input),
        Topic::Ph => root_zone::ph(input),
        Topic::Salts => root_zone::salts(input),
        Topic::Temperature => temperature(input),
        Topic::Humidity => humidity(input),
        Topic::Climate => climate::chart(input),
    }
}

fn water(input: &ChartInput<'_>) -> Chart {
    let scored = |readings: &[(NaiveDate, u8)]| -> Vec<Reading> {
        readings.iter().map(|(d, v)| (*d, f64::from(*v), None)).collect()
    };
    let (water, bases, waterings) =
        input.shown.as_ref().map(|s| (scored(&s.water), scored(&s.bases), s.waterings.clone())).unwrap_or_default();
    // Half a level under the limit: what is above the line is wet, and no score lies on it.
    let wet = f64::from(input.limits.water.wet_from) - 0.5;
    let text = format!("Water of bench {}, 1 dry to 5 soaked. {}", input.bench, last(&water, ""));
    let layers = vec![
        level(input.days, format!("wet at {} and up", input.limits.water.wet_from), wet, Stroke::Dashed),
        Layer::Dots { name: "water".to_owned(), points: water },
        Layer::Dots { name: "pot base".to_owned(), points: bases },
        Layer::Marks { name: "watered".to_owned(), days: waterings },
    ];
    input.chart(Topic::Water, ("1 dry to 5 soaked", Some((0.5, 5.5))), text, layers)
}

fn roots(input: &ChartInput<'_>) -> Chart {
    let roots = input.readings(KindName::Roots, |e| match &*e.kind {
        Kind::Roots { score, .. } => Some(f64::from(*score)),
        _ => None,
    });
    let act = input.limits.water.roots_watch;
    let text = format!("Roots of bench {}, 0 white to 5 over 75% brown. {}", input.bench, last(&roots, ""));
    let layers = vec![
        level(input.days, format!("browning at {act} and up"), f64::from(act) - 0.5, Stroke::Dashed),
        Layer::Dots { name: "roots".to_owned(), points: roots },
    ];
    input.chart(Topic::Roots, ("0 white to 5 over 75% brown", Some((-0.5, 5.5))), text, layers)
}

fn bracts(input: &ChartInput<'_>) -> Chart {
    let seen = input.readings(KindName::Bracts, |e| match *e.kind {
        Kind::Bracts { stage } => Some(f64::from(stage)),
        _ => None,
    });
    let mut text = format!("Bract stages of bench {}, 1 no color to 7 setting seed. {}", input.bench, last(&seen, ""));
    let mut layers = Vec::new();
    if let Some(shown) = &input.shown {
        if let Some(color) = &shown.color {
            for milestone in Milestone::ALL {
                let days = color.of(milestone);
                let range = dates::range(days.low, days.high);
                text.push_str(&format!(" {}: {range}.", capitalized(milestone.words())));
                let stage = f64::from(milestone.stage());
                let points = days.low.iter_days().take_while(|d| *d <= days.high).take(400).map(|d| (d, stage));
                let stroke = if days.high <= input.on { Stroke::Solid } else { Stroke::Dotted };
                let name = format!("{} {}", milestone.stage(), milestone.words());
                layers.push(Layer::Line { name, points: points.collect(), stroke });
            }
            if let Some(by) = words::temperatures(&color.temperatures, input.system) {
                text.push_str(&format!(" {}.", capitalized(&by)));
            }
        }
        layers.push(Layer::Marks { name: "sale".to_owned(), days: vec![shown.lot.ready_by] });
    }
    layers.push(Layer::Dots { name: "stage seen".to_owned(), points: seen });
    input.chart(Topic::Bracts, ("stage 1 no color to 7 setting seed", Some((0.5, 7.5))), text, layers)
}

/// Words with a capital first letter, as at the start of a sentence.
fn capitalized(words: &str) -> String {
    let mut rest = words.chars();
    rest.next().map_or_else(String::new, |first| first.to_uppercase().chain(rest).collect())
}

fn temperature(input: &ChartInput<'_>) -> Chart {
    let shown = |c: f64| Temperature::from_c(c).in_system(input.system);
    let of = |pick: fn(&Kind) -> Option<f64>| input.readings(KindName::Climate, |e| pick(&e.kind).map(shown));
    let days = of(|k| if let Kind::Climate { day_c, .. } = k { *day_c } else { None });
    let nights = of(|k| if let Kind::Climate { night_c, .. } = k { *night_c } else { None });
    let unit = Temperature::unit_name(input.system);
    let (cold, warm) = (input.limits.light.cold_night_c, input.limits.light.warm_night_c);
    let text =
        format!("Temperatures of bench {}. Days: {} Nights: {}", input.bench, last(&days, unit), last(&nights, unit));
    let named = |what: &str, c: f64| format!("{what} {}", Temperature::from_c(c).show(input.system));
    let mut layers = Vec::new();
    if !(days.is_empty() && nights.is_empty()) {
        layers.push(level(input.days, named("warm nights above", warm), shown(warm), Stroke::Dashed));
        layers.push(level(input.days, named("cold below", cold), shown(cold), Stroke::Dotted));
    }
    layers.push(Layer::Dots { name: "day".to_owned(), points: days });
    layers.push(Layer::Dots { name: "night".to_owned(), points: nights });
    input.chart(Topic::Temperature, (unit, None), text, layers)
}

fn humidity(input: &ChartInput<'_>) -> Chart {
    let percent = input.readings(KindName::Climate, |e| match *e.kind {
        Kind::Climate { humidity_percent, .. } => humidity_percent,
        _ => None,
    });
    let damp = input.limits.light.damp_percent;
    let text = format!("Humidity of bench {}. {}", input.bench, last(&percent, "%"));
    let layers = vec![
        level(input.days, format!("humid above {}%", crate::units::plain(damp)), damp, Stroke::Dashed),
        Layer::Dots { name: "humidity".to_owned(), points: percent },
    ];
    input.chart(Topic::Humidity, ("%", Some((20.0, 100.0))), text, layers)
}
