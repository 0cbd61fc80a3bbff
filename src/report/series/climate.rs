//! What climate loggers gave of a house or a bench, a day at a time: the means of day and night with the extremes beyond them as
//! bands, and below them, shaded, the hours over and the degrees beyond the limits.

use super::{ChartInput, Topic, level, season_days};
use crate::dates;
use crate::limits::Limits;
use crate::record::{ClimateLog, Entry, Kind, KindName, Place, Site};
use crate::report::chart::{Chart, Layer, Stroke, Table};
use crate::season::Season;
use crate::units::{Quantity, System, Temperature, plain};
use crate::warnings::{LightDiffers, light_differs, logger_days};
use chrono::NaiveDate;

/// The hours of a day, at which a strip of hours is shaded in full.
const HOURS: f64 = 24.0;

/// The climate of one house as its logger gave it.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseClimate {
    /// The house.
    pub house: String,
    /// Its chart.
    pub chart: Chart,
    /// Every day in figures.
    pub table: Table,
}

/// The houses with days of a logger up to a day, in the order the walk comes to them.
pub fn climate(season: &Season, on: NaiveDate, limits: &Limits) -> Vec<HouseClimate> {
    let system = season.site().map_or(System::Metric, |site| site.units);
    let Some((first, last)) = season_days(season) else { return Vec::new() };
    let of = |house: &str| {
        let here = |e: &&Entry| e.is_from_logger() && matches!(&e.place, Place::House(at) if **at == *house);
        let days = logger_days(season.entries_of(KindName::Climate).filter(here).filter(|e| season.counts(e, on)));
        let span = (first.min(days.first()?.day()), last.max(on));
        let what = format!("house {house}");
        let layers = layers(&days, span, limits, system);
        let chart = Chart {
            title: format!("House {house} climate"),
            text: text(&what, &days, system) + &light(house, &days, season.site(), limits),
            days: span,
            axis: Temperature::unit_name(system).to_owned(),
            range: None,
            layers: layers.into_iter().map(|l| l.within(span)).filter(|l| !l.is_empty()).collect(),
        };
        Some(HouseClimate { house: house.to_owned(), chart, table: table(&days, system) })
    };
    season.houses().into_iter().filter_map(of).collect()
}

/// True where a logger stands on a bench itself: its climate is then its own, not that of its house.
pub(in crate::report) fn has_own_logger(season: &Season, bench: &str, on: NaiveDate) -> bool {
    let here = |e: &&Entry| e.is_from_logger() && matches!(&e.place, Place::Bench(at) if **at == *bench);
    season.entries_of(KindName::Climate).filter(here).any(|e| season.counts(e, on))
}

/// The climate of a bench: its own logger's, or that of its house.
pub(super) fn chart(input: &ChartInput<'_>) -> Chart {
    let days = of_bench(input);
    let mut text = text(&format!("bench {}", input.bench), &days, input.system);
    if let Some(house) = input.season.bench(input.bench).map(|bench| bench.house.as_str()) {
        text.push_str(&light(house, &days, input.season.site(), input.limits));
    }
    let layers = if days.is_empty() { Vec::new() } else { layers(&days, input.days, input.limits, input.system) };
    input.chart(Topic::Climate, (Temperature::unit_name(input.system), None), text, layers)
}

/// DIF day by day, for the chart of heights; `None` where no logger gave both means.
pub(super) fn dif(input: &ChartInput<'_>) -> Option<Layer> {
    let days = of_bench(input);
    let points: Vec<_> = days.iter().filter_map(|e| Some((e.day(), dif_of(e, input.system)?))).collect();
    let most = most(&points)?;
    let unit = Temperature::unit_name(input.system);
    Some(Layer::Strip { name: format!("DIF, day minus night (full {} {unit})", plain(most)), points, full: most })
}

fn of_bench<'a>(input: &ChartInput<'a>) -> Vec<&'a Entry> {
    logger_days(input.shown.iter().flat_map(|shown| shown.of(KindName::Climate)))
}

/// A difference of temperatures in the unit of the site.
fn apart(c: f64, system: System) -> f64 {
    Temperature::from_c(c).in_system(system) - Temperature::from_c(0.0).in_system(system)
}

fn shown(c: f64, system: System) -> f64 {
    Temperature::from_c(c).in_system(system)
}

fn log(entry: &Entry) -> Option<&ClimateLog> {
    if let Kind::Climate { log, .. } = &*entry.kind { Some(log) } else { None }
}

fn means(entry: &Entry) -> (Option<f64>, Option<f64>) {
    if let Kind::Climate { day_c, night_c, .. } = &*entry.kind { (*day_c, *night_c) } else { (None, None) }
}

/// DIF of a day in the unit of the site: the mean of the day less that of the night.
fn dif_of(entry: &Entry, system: System) -> Option<f64> {
    let (day, night) = means(entry);
    Some(round(apart(day? - night?, system)))
}

/// To a tenth, as the figures of a day are kept.
fn round(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// The value farthest from zero; `None` where nothing is.
fn most(points: &[(NaiveDate, f64)]) -> Option<f64> {
    points.iter().map(|p| p.1.abs()).max_by(f64::total_cmp).filter(|most| *most > 0.0)
}

fn layers(days: &[&Entry], span: (NaiveDate, NaiveDate), limits: &Limits, system: System) -> Vec<Layer> {
    let line = |pick: fn(&Entry) -> Option<f64>| -> Vec<(NaiveDate, f64)> {
        days.iter().filter_map(|e| Some((e.day(), shown(pick(e)?, system)))).collect()
    };
    let band = |name: &str, pick: fn(&Entry) -> Option<(f64, f64)>| Layer::Band {
        name: name.to_owned(),
        points: days
            .iter()
            .filter_map(|e| pick(e).map(|(low, high)| (e.day(), shown(low, system), shown(high, system))))
            .collect(),
    };
    let named = |what: &str, c: f64| format!("{what} {}", Temperature::from_c(c).show(system));
    let (cold, warm) = (limits.light.cold_night_c, limits.light.warm_night_c);
    let mut all = vec![
        band("day, mean to highest", |e| Some((means(e).0?, log(e)?.high_c?))),
        band("night, lowest to mean", |e| Some((log(e)?.low_c?, means(e).1?))),
        Layer::Line { name: "day mean".to_owned(), points: line(|e| means(e).0), stroke: Stroke::Solid },
        Layer::Line { name: "night mean".to_owned(), points: line(|e| means(e).1), stroke: Stroke::Dotted },
        level(span, named("warm nights above", warm), shown(warm, system), Stroke::Dashed),
        level(span, named("cold below", cold), shown(cold, system), Stroke::Dashed),
    ];
    all.extend(strips(days, cold, system));
    all
}

/// Hours over and degrees beyond the limits, day by day.
fn strips(days: &[&Entry], cold_c: f64, system: System) -> Vec<Layer> {
    let unit = Temperature::unit_name(system);
    let points = |pick: &dyn Fn(&ClimateLog) -> Option<f64>| -> Vec<(NaiveDate, f64)> {
        days.iter().filter_map(|e| Some((e.day(), round(pick(log(e)?)?)))).collect()
    };
    let mut all = Vec::new();
    let humid = points(&|log| log.humid_hours);
    if !humid.is_empty() {
        let name = format!("hours over {} humidity (full 24)", over(days));
        all.push(Layer::Strip { name, points: humid, full: HOURS });
    }
    let warm = points(&|log| Some(apart(log.warm_h?, system)));
    if let Some(full) = most(&warm) {
        let name = format!("warm-night {unit}-hours (full {})", plain(full));
        all.push(Layer::Strip { name, points: warm, full });
    }
    let cold = points(&|log| Some(apart((cold_c - log.low_c?).max(0.0), system)));
    if let Some(full) = most(&cold) {
        let limit = Temperature::from_c(cold_c).show(system);
        let name = format!("{unit} under {limit} at the lowest (full {})", plain(full));
        all.push(Layer::Strip { name, points: cold, full });
    }
    all
}

/// The humidity that hours were counted over: `85%`; where it was changed `85% or 90%`.
fn over(days: &[&Entry]) -> String {
    let mut all: Vec<f64> = days.iter().filter_map(|e| log(e)?.humid_over).collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| a.total_cmp(b).is_eq());
    all.iter().map(|percent| format!("{}%", plain(*percent))).collect::<Vec<_>>().join(" or ")
}

fn text(of: &str, days: &[&Entry], system: System) -> String {
    let (Some(first), Some(last)) = (days.first(), days.last()) else {
        return format!("Climate of {of}. No day of a climate logger yet: benchwalk help loggers.");
    };
    let unit = Temperature::unit_name(system);
    let span = dates::range(first.day(), last.day());
    let all = dates::days_between(first.day(), last.day()).saturating_add(1);
    let missing = all.saturating_sub(i64::try_from(days.len()).unwrap_or(all));
    let missing = if missing > 0 { format!(", {missing} between them missing") } else { String::new() };
    let count = if days.len() == 1 { "1 day".to_owned() } else { format!("{} days", days.len()) };
    let mut text = format!("Climate of {of} by a logger, {count}: {span}{missing}.");
    let said = crate::report::entry::seen(last, system);
    let said = said.strip_prefix("climate, ").unwrap_or(&said).to_owned();
    let dif = dif_of(last, system).map_or_else(String::new, |dif| format!(", DIF {dif:+.1} {unit}"));
    text.push_str(&format!(" {}: {said}{dif}.", dates::short(last.day())));
    text
}

/// Where the light measured and the site's list of houses with little light disagree, a sentence of it; else nothing.
fn light(house: &str, days: &[&Entry], site: Option<&Site>, limits: &Limits) -> String {
    let listed = site.is_some_and(|site| site.low_light_houses.iter().any(|low| low == house));
    let Some(LightDiffers { listed, mol, days }) = light_differs(days, listed, limits) else { return String::new() };
    let list = if listed { "is listed as low in light" } else { "is not listed as low in light" };
    format!(
        " House {house} {list}, but its logger gave {mol:.1} mol/m2 a day over {days} days: see low-light houses in Setup \
         (Benchwalk's rule of thumb)."
    )
}

/// Every day in figures.
fn table(days: &[&Entry], system: System) -> Table {
    let unit = Temperature::unit_name(system);
    let heads = [
        "day".to_owned(),
        format!("day mean, {unit}"),
        format!("night mean, {unit}"),
        format!("lowest, {unit}"),
        format!("highest, {unit}"),
        format!("DIF, {unit}"),
        "humidity, %".to_owned(),
        "humid hours".to_owned(),
        "over, %".to_owned(),
        "VPD, kPa".to_owned(),
        "light, mol/m2".to_owned(),
        format!("warm night, {unit} h"),
        "readings".to_owned(),
    ];
    let row = |e: &&Entry| -> Vec<String> {
        let (day, night) = means(e);
        let Kind::Climate { humidity_percent, log, .. } = &*e.kind else { return Vec::new() };
        let number = |value: Option<f64>| value.map_or_else(String::new, |value| plain(round(value)));
        let degrees = |c: Option<f64>| number(c.map(|c| shown(c, system)));
        vec![
            dates::short(e.day()),
            degrees(day),
            degrees(night),
            degrees(log.low_c),
            degrees(log.high_c),
            dif_of(e, system).map_or_else(String::new, |dif| format!("{dif:+.1}")),
            number(*humidity_percent),
            number(log.humid_hours),
            number(log.humid_over),
            log.vpd_kpa.map_or_else(String::new, |kpa| format!("{kpa:.2}")),
            number(log.light_mol),
            number(log.warm_h.map(|h| apart(h, system))),
            log.readings.map_or_else(String::new, |n| n.to_string()),
        ]
    };
    Table { heads: heads.to_vec(), rows: days.iter().map(row).collect() }
}
