//! Evidence in words: what was seen, with its day and its limit.

use super::color;
use crate::dates;
use crate::limits::Limit;
use crate::record::{Kind, KindName, Term};
use crate::report::entry;
use crate::units::{Conductivity, Illuminance, Length, Quantity, System, Temperature, plain};
use crate::warnings::{Evidence, Figure};
use chrono::NaiveDate;

/// One piece of evidence as a short phrase.
pub fn piece(piece: &Evidence, system: System) -> String {
    match piece {
        Evidence::Entry(e) => format!("{} on {}", entry::seen(e, system), dates::short(e.day())),
        Evidence::Missing { kind, last } => missing(*kind, *last),
        Evidence::NotChecked { since, .. } => not_checked(*since),
        Evidence::Figure { figure, value, range, limit } => self::figure(*figure, *value, *range, *limit, system),
        Evidence::Forecast { from, to } => dates::range(*from, *to),
        Evidence::Color { milestone, days, temperatures } => color::expected(*milestone, *days, temperatures, system),
        Evidence::Warning(name) => name.title().to_owned(),
    }
}

/// Evidence to read: a run of water readings is one piece (`water 4, 4, 5 (Oct 8 to 10)`), a height and its mean are one,
/// nothing is said twice, and of much evidence the newest `most` pieces are shown.
pub fn pieces(all: &[Evidence], most: usize, system: System) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    let mut rest = all;
    while let Some((first, after)) = rest.split_first() {
        let run: Vec<(u8, NaiveDate)> = rest.iter().map_while(plain_water).collect();
        let piece = if let [(_, from), .., (_, to)] = run.as_slice() {
            let levels: Vec<String> = run.iter().map(|(level, _)| level.to_string()).collect();
            rest = rest.get(run.len()..).unwrap_or_default();
            format!("water {} ({})", levels.join(", "), dates::range(*from, *to))
        } else {
            rest = after;
            let said_again = |s: &Evidence| matches!(s, Evidence::Figure { figure: Figure::HeightNow, .. });
            match (first, after.split_first()) {
                // The mean of a reading is not shown twice: its figure also has the interval and the limit.
                (Evidence::Entry(e), Some((figure, later))) if e.name() == KindName::Height && said_again(figure) => {
                    rest = later;
                    format!("{} on {}", self::piece(figure, system), dates::short(e.day()))
                }
                _ => self::piece(first, system),
            }
        };
        if !pieces.contains(&piece) {
            pieces.push(piece);
        }
    }
    pieces.split_off(pieces.len().saturating_sub(most))
}

/// How a warning is marked whose finding no longer counts by its age.
pub fn not_checked(since: NaiveDate) -> String {
    format!("not checked since {}", dates::short(since))
}

/// The level and day of a water reading of the top alone.
fn plain_water(piece: &Evidence) -> Option<(u8, NaiveDate)> {
    let Evidence::Entry(entry) = piece else { return None };
    let Kind::Water { level, base: None } = *entry.kind else { return None };
    Some((level, entry.day()))
}

fn missing(kind: KindName, last: Option<NaiveDate>) -> String {
    let what = match kind {
        KindName::Watered => "watering",
        KindName::Fed => "feed",
        KindName::Topdressed => "topdress",
        KindName::Pinched => "pinch",
        KindName::Sprayed => "spray",
        KindName::Spaced => "spacing",
        KindName::Water
        | KindName::Roots
        | KindName::Bracts
        | KindName::Height
        | KindName::Leaves
        | KindName::Pests
        | KindName::RootZone
        | KindName::FeedCheck
        | KindName::Climate
        | KindName::NightLight
        | KindName::Losses
        | KindName::Counted
        | KindName::Grade
        | KindName::Note
        | KindName::Greenness
        | KindName::BractWidth
        | KindName::Nutrient
        | KindName::GrowthRegulator
        | KindName::Released
        | KindName::Blackout
        | KindName::Lights
        | KindName::Moved
        | KindName::Sold
        | KindName::PutOff
        | KindName::Job
        | KindName::Strike => kind.text(),
    };
    match last {
        Some(last) => format!("no {what} since {}", dates::short(last)),
        None => format!("no {what} logged yet"),
    }
}

fn figure(figure: Figure, value: f64, range: Option<(f64, f64)>, limit: Option<Limit>, system: System) -> String {
    let number = |v: f64| shown(figure, v, system);
    let (before, after) = label(figure);
    let mut text = format!("{before} {} {after}", number(value)).trim().to_owned();
    if let Some((low, high)) = range {
        text.push_str(&format!(" ({} to {})", number(low), number(high)));
    }
    if let Some(limit) = limit {
        let whose = if limit.own { "your limit" } else { "limit" };
        text.push_str(&format!(", {whose} {}", number(limit.value)));
    }
    text
}

/// What a number is of: the words before and after it.
const fn label(figure: Figure) -> (&'static str, &'static str) {
    match figure {
        Figure::Days => ("for", ""),
        Figure::CropDay => ("crop day", ""),
        Figure::DaysPastColor => ("", "after the first color planned"),
        Figure::DaysToSale => ("", "to the sale"),
        Figure::DaysToShortDays => ("", "to short days"),
        Figure::HeightNow => ("height", ""),
        Figure::HeightAtSale => ("height at the sale", ""),
        Figure::Ph => ("pH", ""),
        Figure::Ec => ("EC", ""),
        Figure::DelayDays => ("delay", ""),
        Figure::Lux => ("light", ""),
        Figure::Humidity => ("humidity", ""),
        Figure::HumidHours => ("humid for", ""),
        Figure::Infested => ("infested", ""),
        Figure::Plants => ("of", "plants"),
        Figure::CardWeek => ("", "per card per week"),
        Figure::Larvae => ("", "larvae per wedge"),
        Figure::Lost => ("lost", ""),
        Figure::Standing => ("", "on the benches"),
        Figure::Promised => ("", "committed"),
        Figure::Benches => ("", "benches"),
        Figure::HoursSinceWatering => ("", "since watering"),
        Figure::Celsius | Figure::Ppm | Figure::MgPerPot => ("", ""),
    }
}

/// A number of a figure with its unit.
fn shown(figure: Figure, value: f64, system: System) -> String {
    match figure {
        Figure::Days | Figure::DaysPastColor | Figure::DaysToSale | Figure::DaysToShortDays | Figure::DelayDays => {
            days(value)
        }
        Figure::HeightNow | Figure::HeightAtSale => Length::from_cm(value).show(system),
        Figure::Ec => format!("{value:.2} {}", Conductivity::unit_name(system)),
        Figure::Ph => format!("{value:.1}"),
        Figure::Lux => match system {
            System::Us => format!("{} fc", plain(Illuminance::from_lux(value).in_system(system))),
            System::Metric => format!("{} lux", plain(value)),
        },
        Figure::Celsius => {
            format!("{:.0} {}", Temperature::from_c(value).in_system(system), Temperature::unit_name(system))
        }
        Figure::Humidity | Figure::Infested => format!("{value:.0}%"),
        Figure::Ppm => format!("{} ppm", plain(value)),
        Figure::MgPerPot => format!("{} mg per pot", plain(value)),
        Figure::Lost | Figure::Standing | Figure::Promised => pots(value),
        Figure::HoursSinceWatering => format!("{value:.0} h"),
        Figure::HumidHours => format!("{} h", plain(value)),
        Figure::CropDay | Figure::Plants | Figure::CardWeek | Figure::Larvae | Figure::Benches => plain(value),
    }
}

fn days(value: f64) -> String {
    if (value.abs() - 1.0).abs() < 1e-9 { "1 day".to_owned() } else { format!("{value:.0} days") }
}

fn pots(value: f64) -> String {
    if (value - 1.0).abs() < 1e-9 { "1 pot".to_owned() } else { format!("{value:.0} pots") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Entry, Place};

    fn water(day: u32, level: u8, base: Option<u8>) -> Evidence {
        Evidence::Entry(Entry {
            id: uuid::Uuid::from_u128(u128::from(day)),
            at: format!("2026-10-{day:02}T07:00:00-04:00").parse().unwrap(),
            by: "kt".into(),
            place: Place::Bench("E1".into()),
            plot: None,
            kind: Kind::Water { level, base }.into(),
            note: None,
        })
    }

    #[test]
    fn a_height_is_shown_once_with_its_interval_its_limit_and_its_day() {
        let height = |day, cm: f64| {
            let Evidence::Entry(entry) = water(day, 4, None) else { unreachable!("water is an entry") };
            Evidence::Entry(Entry { kind: Kind::Height { cm: vec![cm, cm + 0.4] }.into(), ..entry })
        };
        let limit = Some(Limit { key: "growth.height_window", value: 25.4, own: false });
        let now = Evidence::Figure { figure: Figure::HeightNow, value: 30.2, range: Some((29.8, 30.6)), limit };
        assert_eq!(
            pieces(&[height(10, 30.0), now.clone()], 5, System::Us),
            ["height 11.9 in (11.7 in to 12 in), limit 10 in on Oct 10"]
        );
        let sale = Evidence::Figure { figure: Figure::HeightAtSale, value: 40.0, range: None, limit: None };
        assert_eq!(pieces(&[height(3, 28.0), height(10, 30.0), sale], 5, System::Metric).len(), 3);
        assert_eq!(pieces(&[now], 5, System::Metric).len(), 1);
    }

    #[test]
    fn a_run_of_readings_is_one_piece_and_the_newest_are_shown() {
        let all = [water(8, 4, None), water(9, 4, None), water(10, 5, None), water(11, 5, Some(5)), water(12, 4, None)];
        assert_eq!(
            pieces(&all, 5, System::Us),
            ["water 4, 4, 5 (Oct 8 to 10)", "water 5, base 5 on Oct 11", "water 4 on Oct 12"]
        );
        assert_eq!(pieces(&all, 1, System::Us), ["water 4 on Oct 12"]);
        assert!(pieces(&[], 5, System::Us).is_empty());
    }
}
