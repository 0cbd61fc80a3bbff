//! The nights of the season at the site: how long they are, when they reach the critical length.

use super::calendar::season_days;
use crate::crop::night::{Place, first_night_reaching, night};
use crate::dates;
use crate::limits::Limits;
use crate::report::chart::{Chart, Layer, Stroke};
use crate::season::Season;
use crate::terms::{NightConvention, Term};
use crate::units::plain;
use chrono::{Datelike, NaiveDate};

/// The night curve with the first critical night by either way of counting.
#[derive(Debug, Clone, PartialEq)]
pub struct Nights {
    /// Hours of night by day, both ways, with the critical length.
    pub chart: Chart,
    /// First critical night from sunset to sunrise; `None` when none is that long.
    pub sunset: Option<NaiveDate>,
    /// First critical night from civil dusk to civil dawn.
    pub civil: Option<NaiveDate>,
}

/// The night curve from the first planting (or the longest day, if that is later in reach) to the last sale; `None` without a
/// site or lots.
pub fn nights(season: &Season, limits: &Limits) -> Option<Nights> {
    let site = season.site()?;
    let place = Place::new(site.latitude, site.longitude).ok()?;
    let days = season_days(season)?;
    let critical = f64::from(limits.round.night_start_min);
    let year = if place.is_northern() || days.0.month() <= 6 { days.0.year() } else { days.0.year().saturating_add(1) };
    let first = |c| first_night_reaching(&place, year, critical, c).ok().flatten();
    let (sunset, civil) = (first(NightConvention::SunsetToSunrise), first(NightConvention::CivilTwilight));
    let curve = |name: &str, convention, stroke| Layer::Line {
        name: name.to_owned(),
        points: days
            .0
            .iter_days()
            .take_while(|d| *d <= days.1)
            .take(500)
            .filter_map(|d| Some((d, night(&place, d, convention).ok()?.minutes() / 60.0)))
            .collect(),
        stroke,
    };
    let day_text = |d: Option<NaiveDate>| d.map_or_else(|| "never".to_owned(), dates::short);
    let in_force = limits.choices.night.text();
    let text = format!(
        "Nights at {}. The first of {} h {:02} min comes on {} from sunset to sunrise, on {} by civil twilight. Rules use {in_force}.",
        site.name,
        limits.round.night_start_min / 60,
        limits.round.night_start_min % 60,
        day_text(sunset),
        day_text(civil)
    );
    let layers = vec![
        curve("sunset to sunrise", NightConvention::SunsetToSunrise, Stroke::Solid),
        curve("civil twilight", NightConvention::CivilTwilight, Stroke::Dotted),
        Layer::Line {
            name: format!("critical night {} h", plain(critical / 60.0)),
            points: vec![(days.0, critical / 60.0), (days.1, critical / 60.0)],
            stroke: Stroke::Dashed,
        },
        Layer::Marks {
            name: format!("short days {} (sunset to sunrise)", day_text(sunset)),
            days: sunset.into_iter().collect(),
        },
        Layer::Marks {
            name: format!("short days {} (civil twilight)", day_text(civil)),
            days: civil.into_iter().collect(),
        },
    ];
    let layers = layers.into_iter().map(|l| l.within(days)).filter(|l| !l.is_empty()).collect();
    let chart =
        Chart { title: "Length of the night".to_owned(), text, days, axis: "hours".to_owned(), range: None, layers };
    Some(Nights { chart, sunset, civil })
}
