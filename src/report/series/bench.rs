//! The charts of one bench, topic by topic.

use super::{height, root_zone};
use crate::crop::color::Milestone;
use crate::dates;
use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName};
use crate::report::chart::{Chart, Layer, Reading, Stroke};
use crate::season::Season;
use crate::units::{Quantity, System, Temperature};
use crate::warnings::{BenchView, bench_view};
use chrono::{Days, NaiveDate};

/// What a chart of a bench is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// Heights against their window, with where they will end.
    Height,
    /// Water by day, with waterings.
    Water,
    /// Root scores.
    Roots,
    /// Bract stages against the forecast.
    Bracts,
    /// Root zone pH against its range.
    Ph,
    /// Root zone EC against its range.
    Salts,
    /// Day and night temperatures.
    Temperature,
    /// Humidity.
    Humidity,
}

impl Topic {
    /// Every topic, in the order they are stepped through.
    pub const ALL: &'static [Self] = &[
        Self::Height,
        Self::Water,
        Self::Roots,
        Self::Bracts,
        Self::Ph,
        Self::Salts,
        Self::Temperature,
        Self::Humidity,
    ];

    /// In plain words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Height => "height",
            Self::Water => "water",
            Self::Roots => "roots",
            Self::Bracts => "bracts",
            Self::Ph => "root zone pH",
            Self::Salts => "root zone EC",
            Self::Temperature => "temperature",
            Self::Humidity => "humidity",
        }
    }

    /// True where readings are steps of a scale, shown as digits.
    pub const fn is_scale(self) -> bool {
        matches!(self, Self::Water | Self::Roots | Self::Bracts)
    }
}

/// How much time a chart covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Reach {
    /// Three weeks up to a day.
    ThreeWeeks,
    /// From planting to the sale.
    #[default]
    Season,
}

/// The most days a chart covers.
const MOST_DAYS: u64 = 400;
/// Days of the short reach.
const THREE_WEEKS: u64 = 21;

/// The first and last day a chart of a bench covers: the season of its lot, or three weeks up to `end`.
pub fn days(season: &Season, bench: &str, (reach, end): (Reach, NaiveDate)) -> (NaiveDate, NaiveDate) {
    let back = end.checked_sub_days(Days::new(THREE_WEEKS - 1)).unwrap_or(end);
    let lot = season.standing(bench, end).and_then(|s| season.lot(&s.lot));
    match (reach, lot) {
        // Pots that stand on after their sale are still shown, but no slip of a year makes a chart of a century.
        (Reach::Season, Some(lot)) => {
            let most = lot.planted.checked_add_days(Days::new(MOST_DAYS)).unwrap_or(end);
            (lot.planted, lot.ready_by.max(end).min(most).max(lot.planted))
        }
        _ => (back, end),
    }
}

/// What every chart of a bench needs.
pub(super) struct Ground<'a> {
    pub(super) bench: &'a str,
    pub(super) shown: Option<BenchView<'a>>,
    pub(super) limits: &'a Limits,
    pub(super) system: System,
    pub(super) on: NaiveDate,
    pub(super) days: (NaiveDate, NaiveDate),
}

impl Ground<'_> {
    /// A chart of layers, cut to the days it covers.
    pub(super) fn chart(
        &self,
        topic: Topic,
        (axis, range): (&str, Option<(f64, f64)>),
        text: String,
        layers: Vec<Layer>,
    ) -> Chart {
        let layers = layers.into_iter().map(|l| l.within(self.days)).filter(|l| !l.is_empty()).collect();
        let mut title = format!("{} {}", self.bench, topic.text());
        if let Some(shown) = &self.shown {
            title.push_str(&format!(", lot {}", shown.lot.lot));
        }
        Chart { title, text, days: self.days, axis: axis.to_owned(), range, layers }
    }

    /// Readings of a kind with a number, oldest first.
    pub(super) fn readings(&self, kind: KindName, number: impl Fn(&Entry) -> Option<f64>) -> Vec<Reading> {
        let entries = self.shown.iter().flat_map(|s| s.of(kind));
        entries.filter_map(|e| Some((e.day(), number(e)?, None))).collect()
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
    let system = season.site().map_or(System::Metric, |s| s.units);
    let ground = Ground { bench: code, shown: bench_view(season, code, on, limits), limits, system, on, days };
    match topic {
        Topic::Height => height::chart(&ground),
        Topic::Water => water(&ground),
        Topic::Roots => roots(&ground),
        Topic::Bracts => bracts(&ground),
        Topic::Ph => root_zone::ph(&ground),
        Topic::Salts => root_zone::salts(&ground),
        Topic::Temperature => temperature(&ground),
        Topic::Humidity => humidity(&ground),
    }
}

/// `last 4 on Oct 8`, or that nothing is written.
pub(super) fn last(readings: &[Reading], unit: &str) -> String {
    readings.last().map_or_else(
        || "Nothing written yet.".to_owned(),
        |(d, value, _)| {
            let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
            format!("Last {}{unit} on {}; {} readings.", crate::units::plain(*value), dates::short(*d), readings.len())
        },
    )
}

/// A level across the whole chart.
pub(super) fn level(days: (NaiveDate, NaiveDate), name: String, value: f64, stroke: Stroke) -> Layer {
    Layer::Line { name, points: vec![(days.0, value), (days.1, value)], stroke }
}

fn water(ground: &Ground<'_>) -> Chart {
    let scored = |readings: &[(NaiveDate, u8)]| -> Vec<Reading> {
        readings.iter().map(|(d, v)| (*d, f64::from(*v), None)).collect()
    };
    let (water, bases, waterings) =
        ground.shown.as_ref().map(|s| (scored(&s.water), scored(&s.bases), s.waterings.clone())).unwrap_or_default();
    // Half a level under the limit: what stands above the line is wet, and no score lies on it.
    let wet = f64::from(ground.limits.water.wet_from) - 0.5;
    let text = format!("Water of bench {}, 1 dry to 5 saturated. {}", ground.bench, last(&water, ""));
    let layers = vec![
        level(ground.days, format!("wet above (from {})", ground.limits.water.wet_from), wet, Stroke::Dashed),
        Layer::Dots { name: "water".to_owned(), points: water },
        Layer::Dots { name: "at the base".to_owned(), points: bases },
        Layer::Marks { name: "watered".to_owned(), days: waterings },
    ];
    ground.chart(Topic::Water, ("1 dry to 5 saturated", Some((0.5, 5.5))), text, layers)
}

fn roots(ground: &Ground<'_>) -> Chart {
    let roots = ground.readings(KindName::Roots, |e| match &e.kind {
        Kind::Roots { score, .. } => Some(f64::from(*score)),
        _ => None,
    });
    let act = ground.limits.water.roots_watch;
    let text = format!("Roots of bench {}, 0 white to 5 dead. {}", ground.bench, last(&roots, ""));
    let layers = vec![
        level(ground.days, format!("browning above (from {act})"), f64::from(act) - 0.5, Stroke::Dashed),
        Layer::Dots { name: "roots".to_owned(), points: roots },
    ];
    ground.chart(Topic::Roots, ("0 white to 5 dead", Some((-0.5, 5.5))), text, layers)
}

fn bracts(ground: &Ground<'_>) -> Chart {
    let seen = ground.readings(KindName::Bracts, |e| match e.kind {
        Kind::Bracts { stage } => Some(f64::from(stage)),
        _ => None,
    });
    let mut text = format!("Bract stages of bench {}, 1 green to 7. {}", ground.bench, last(&seen, ""));
    let mut layers = Vec::new();
    if let Some(shown) = &ground.shown {
        if let Some(color) = &shown.color {
            for milestone in Milestone::ALL {
                let days = color.of(milestone);
                let range = dates::range(days.low, days.high);
                text.push_str(&format!(" {}: {range}.", milestone.words()));
                let stage = f64::from(milestone.stage());
                let points = days.low.iter_days().take_while(|d| *d <= days.high).take(400).map(|d| (d, stage));
                let stroke = if days.high <= ground.on { Stroke::Solid } else { Stroke::Dotted };
                let name = format!("{} {}", milestone.stage(), milestone.words());
                layers.push(Layer::Line { name, points: points.collect(), stroke });
            }
        }
        layers.push(Layer::Marks { name: "sale".to_owned(), days: vec![shown.lot.ready_by] });
    }
    layers.push(Layer::Dots { name: "stage seen".to_owned(), points: seen });
    ground.chart(Topic::Bracts, ("stage 1 green to 7", Some((0.5, 7.5))), text, layers)
}

fn temperature(ground: &Ground<'_>) -> Chart {
    let shown = |c: f64| Temperature::from_c(c).in_system(ground.system);
    let of = |pick: fn(&Kind) -> Option<f64>| ground.readings(KindName::Climate, |e| pick(&e.kind).map(shown));
    let days = of(|k| if let Kind::Climate { day_c, .. } = k { *day_c } else { None });
    let nights = of(|k| if let Kind::Climate { night_c, .. } = k { *night_c } else { None });
    let unit = Temperature::unit_name(ground.system);
    let (cold, warm) = (ground.limits.light.cold_night_c, ground.limits.light.warm_night_c);
    let text =
        format!("Temperatures of bench {}. Days: {} Nights: {}", ground.bench, last(&days, unit), last(&nights, unit));
    let named = |what: &str, c: f64| format!("{what} {}", Temperature::from_c(c).show(ground.system));
    let mut layers = Vec::new();
    if !(days.is_empty() && nights.is_empty()) {
        layers.push(level(ground.days, named("warm nights over", warm), shown(warm), Stroke::Dashed));
        layers.push(level(ground.days, named("cold under", cold), shown(cold), Stroke::Dotted));
    }
    layers.push(Layer::Dots { name: "day".to_owned(), points: days });
    layers.push(Layer::Dots { name: "night".to_owned(), points: nights });
    ground.chart(Topic::Temperature, (unit, None), text, layers)
}

fn humidity(ground: &Ground<'_>) -> Chart {
    let percent = ground.readings(KindName::Climate, |e| match e.kind {
        Kind::Climate { humidity_percent, .. } => humidity_percent,
        _ => None,
    });
    let damp = ground.limits.light.damp_percent;
    let text = format!("Humidity of bench {}. {}", ground.bench, last(&percent, "%"));
    let layers = vec![
        level(ground.days, format!("damp over {} %", crate::units::plain(damp)), damp, Stroke::Dashed),
        Layer::Dots { name: "humidity".to_owned(), points: percent },
    ];
    ground.chart(Topic::Humidity, ("%", Some((20.0, 100.0))), text, layers)
}
