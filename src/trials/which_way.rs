//! Which way growth differs in a house, from heights that the grower read: the spread of pots on one bench, and the slope from bench to
//! bench along the walk.

use super::{Across, Gradient, across, gradient};
use crate::record::{Kind, KindName};
use crate::season::Season;
use chrono::NaiveDate;

/// Confidence of its intervals.
const CONFIDENCE: f64 = 0.95;

/// What the heights of one day say of a house and a lot.
#[derive(Debug, Clone, PartialEq)]
pub struct WhichWay {
    /// The house.
    pub house: String,
    /// The lot.
    pub lot: String,
    /// The day they were read.
    pub day: NaiveDate,
    /// The benches in walking order, each with its heights in cm, by the number of the tag.
    pub benches: Vec<(String, Vec<f64>)>,
    /// Spread and slope, cm.
    pub gradient: Gradient,
}

impl WhichWay {
    /// The slope over the numbers of the tags on the benches, cm; it says something only where tags run from one side to the other.
    /// `None` where no bench has two.
    pub fn over_tags(&self) -> Option<Across> {
        let numbered = |heights: &Vec<f64>| (1_u32..).map(f64::from).zip(heights.iter().copied()).collect();
        across(&self.benches.iter().map(|(_, heights)| numbered(heights)).collect::<Vec<Vec<(f64, f64)>>>(), CONFIDENCE)
    }
}

/// What the last heights of a lot in a house say, up to a day: those of the last day on which four benches or more were read. `None` without
/// such a day.
pub fn which_way(season: &Season, (house, lot): (&str, &str), day: NaiveDate) -> Option<WhichWay> {
    let walk = season.benches();
    let mut read: Vec<(NaiveDate, &str, &[f64])> = Vec::new();
    for bench in walk.iter().filter(|bench| bench.house == house) {
        for entry in season.history(&bench.bench, day).of(KindName::Height) {
            let Kind::Height { cm } = &*entry.kind else { continue };
            let on = entry.day();
            if season.standing(&bench.bench, on).is_none_or(|standing| standing.lot != lot) || cm.is_empty() {
                continue;
            }
            // The last of a day counts.
            read.retain(|(day, code, _)| !(*day == on && *code == bench.bench));
            read.push((on, &bench.bench, cm));
        }
    }
    let mut days: Vec<NaiveDate> = read.iter().map(|(on, ..)| *on).collect();
    days.sort_unstable();
    days.dedup();
    days.into_iter().rev().find_map(|on| {
        let own = read.iter().filter(|(day, ..)| *day == on);
        let benches: Vec<(String, Vec<f64>)> = own.map(|(_, code, cm)| ((*code).to_owned(), cm.to_vec())).collect();
        let heights: Vec<Vec<f64>> = benches.iter().map(|(_, heights)| heights.clone()).collect();
        let gradient = gradient(&heights, CONFIDENCE)?;
        Some(WhichWay { house: house.to_owned(), lot: lot.to_owned(), day: on, benches, gradient })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::codec;

    /// Six benches of one lot in a house, heights of two days; on the second day only three are read.
    fn season() -> Season {
        let mut lines = vec![
            r#"{"type":"site","name":"Quillby Rise","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}"#.to_owned(),
            r#"{"type":"lot","lot":"R6","cultivar":"red","container":"6 in pot","cuttings_per_pot":1,"pots":400,"planted":"2026-08-10","pinch":"soft","response_weeks":8,"nights":"natural","ready_by":"2026-12-01"}"#.to_owned(),
        ];
        let read = |bench: usize, day: &str, cm: &str| {
            format!(
                r#"{{"type":"entry","at":"2026-10-{day}T08:0{bench}:00-04:00","by":"kt","bench":"M{bench}","kind":"height","cm":[{cm}]}}"#
            )
        };
        for bench in 1..=6 {
            lines.push(format!(r#"{{"type":"bench","bench":"M{bench}","house":"Mill","order":{bench}}}"#));
            lines
                .push(format!(r#"{{"type":"placement","bench":"M{bench}","lot":"R6","pots":40,"from":"2026-08-10"}}"#));
        }
        for bench in 1..=6 {
            // It falls by 1 cm from bench to bench, by turns a little more or less; tags fall by 0.5 cm each.
            let top = 40.0 - f64::from(u32::try_from(bench).unwrap()) + if bench % 2 == 0 { 0.2 } else { 0.0 };
            lines.push(read(bench, "13", &format!("{top},{},{}", top - 0.5, top - 1.0)));
        }
        lines.extend((1..=3).map(|bench| read(bench, "20", "45,44")));
        Season::of(lines.iter().map(|line| codec::decode(line, codec::VERSION).unwrap()))
    }

    #[test]
    fn the_last_day_with_four_benches_says_which_way_growth_differs() {
        let season = season();
        let found = which_way(&season, ("Mill", "R6"), "2026-10-25".parse().unwrap()).unwrap();
        assert_eq!(found.day, "2026-10-13".parse::<NaiveDate>().unwrap());
        assert_eq!((found.benches[0].0.as_str(), found.benches[5].0.as_str()), ("M1", "M6"));
        let of = found.gradient;
        assert!(of.is_found() && (of.whole + 4.95).abs() < 0.2, "{of:?}");
        assert_eq!(of.df, 12);
        assert!((of.within.unwrap() - 0.5).abs() < 1e-9);
        let tags = found.over_tags().unwrap();
        assert!((tags.slope + 0.5).abs() < 1e-9, "{tags:?}");
        assert_eq!(which_way(&season, ("Mill", "R6"), "2026-10-12".parse().unwrap()), None);
        assert_eq!(which_way(&season, ("Mill", "R7"), "2026-10-25".parse().unwrap()), None);
        assert_eq!(which_way(&season, ("Orchard", "R6"), "2026-10-25".parse().unwrap()), None);
    }
}
