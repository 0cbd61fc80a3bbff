//! The time the round took, from the stamps of what was seen on benches: benches a minute.
//!
//! From one stamp to the next of the same person is time of the round, unless it is longer than [`PAUSE_MIN`]: then a pause began,
//! and with the next stamp the round goes on. Of a stretch between two pauses the benches after the first count, as the time at
//! the first one is not known before its first stamp. Stamps that one person has on several benches in the same second were typed
//! at a desk, not walked: they are left out, and counted.

use crate::record::Place;
use crate::season::Season;
use chrono::{DateTime, Datelike, NaiveDate, Utc};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Minutes between two stamps from which a pause is taken (house rule: no bench takes so long).
pub const PAUSE_MIN: i64 = 5;

/// The round of one person on one day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Round {
    /// The day.
    pub day: NaiveDate,
    /// Who walked.
    pub by: String,
    /// Benches that were looked at.
    pub benches: u32,
    /// Benches reached within the time.
    pub reached: u32,
    /// The time, without pauses, seconds.
    pub seconds: i64,
    /// Pauses left out.
    pub pauses: u32,
}

/// The rounds of one week together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Week {
    /// Its Monday.
    pub monday: NaiveDate,
    /// Rounds.
    pub rounds: u32,
    /// Benches that were looked at, all rounds together.
    pub benches: u32,
    /// Benches reached within the time.
    pub reached: u32,
    /// The time, without pauses, seconds.
    pub seconds: i64,
}

/// The time of all rounds.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Labor {
    /// Every round whose stamps give a time, by day and person.
    pub rounds: Vec<Round>,
    /// Days and persons whose looks give no time, as no two benches follow one another.
    pub without_time: usize,
    /// Looks left out, as one person has several benches in the same second.
    pub typed_together: usize,
}

/// When a bench was looked at, and which.
type Look<'a> = (DateTime<Utc>, &'a str);

/// Benches a minute; `None` where there is no time.
fn rate(reached: u32, seconds: i64) -> Option<f64> {
    let seconds = u32::try_from(seconds).ok().filter(|s| *s > 0)?;
    (reached > 0).then(|| f64::from(reached) * 60.0 / f64::from(seconds))
}

impl Round {
    /// Benches a minute; `None` where the stamps give no time.
    pub fn rate(&self) -> Option<f64> {
        rate(self.reached, self.seconds)
    }
}

impl Week {
    /// Benches a minute; `None` where the stamps give no time.
    pub fn rate(&self) -> Option<f64> {
        rate(self.reached, self.seconds)
    }
}

impl Labor {
    /// Of a season up to the end of a day. Looks that were voided count: they took their time.
    pub fn of(season: &Season, on: NaiveDate) -> Self {
        let mut looks: BTreeMap<(NaiveDate, &str), Vec<Look<'_>>> = BTreeMap::new();
        for entry in season.entries().iter().filter(|e| e.day() <= on && e.name().is_finding()) {
            if let Place::Bench(bench) = &entry.place {
                looks.entry((entry.day(), &entry.by)).or_default().push((entry.instant(), bench));
            }
        }
        let mut labor = Self::default();
        for ((day, by), looks) in looks {
            let together = typed_together(&looks);
            let walked: Vec<Look<'_>> = looks.iter().copied().filter(|(at, _)| !together.contains(at)).collect();
            labor.typed_together += looks.len().saturating_sub(walked.len());
            let round = round((day, by), &walked);
            if round.rate().is_some() {
                labor.rounds.push(round);
            } else if !walked.is_empty() {
                labor.without_time += 1;
            }
        }
        labor
    }

    /// Benches a minute over all rounds; `None` where the stamps give no time.
    pub fn rate(&self) -> Option<f64> {
        rate(self.rounds.iter().map(|round| round.reached).sum(), self.seconds())
    }

    /// The slowest and the fastest round, benches a minute.
    pub fn rates(&self) -> Option<(f64, f64)> {
        let rates = || self.rounds.iter().filter_map(Round::rate);
        rates().reduce(f64::min).zip(rates().reduce(f64::max))
    }

    /// The time of all rounds without pauses, seconds.
    pub fn seconds(&self) -> i64 {
        self.rounds.iter().map(|round| round.seconds).sum()
    }

    /// The rounds of each week together, by week.
    pub fn weeks(&self) -> Vec<Week> {
        let mut weeks: BTreeMap<NaiveDate, Week> = BTreeMap::new();
        for round in &self.rounds {
            let back = i64::from(round.day.weekday().num_days_from_monday());
            let monday = crate::dates::add_days(round.day, -back);
            let new = Week { monday, rounds: 0, benches: 0, reached: 0, seconds: 0 };
            let week = weeks.entry(monday).or_insert(new);
            week.rounds += 1;
            week.benches += round.benches;
            week.reached += round.reached;
            week.seconds += round.seconds;
        }
        weeks.into_values().collect()
    }
}

/// Instants at which several benches have a look.
fn typed_together(looks: &[Look<'_>]) -> BTreeSet<DateTime<Utc>> {
    let mut at: BTreeMap<DateTime<Utc>, BTreeSet<&str>> = BTreeMap::new();
    for (instant, bench) in looks {
        at.entry(*instant).or_default().insert(bench);
    }
    at.into_iter().filter(|(_, benches)| benches.len() > 1).map(|(instant, _)| instant).collect()
}

/// One person's looks of a day, in their order.
fn round((day, by): (NaiveDate, &str), looks: &[Look<'_>]) -> Round {
    let benches: BTreeSet<&str> = looks.iter().map(|(_, bench)| *bench).collect();
    let benches = u32::try_from(benches.len()).unwrap_or(u32::MAX);
    let mut round = Round { day, by: by.to_owned(), benches, reached: 0, seconds: 0, pauses: 0 };
    // Of the stretch since the last pause.
    let (mut reached, mut seconds) = (0_u32, 0_i64);
    let close = |round: &mut Round, reached: &mut u32, seconds: &mut i64| {
        // A stretch on one bench says nothing of the way from bench to bench.
        if *reached > 0 {
            round.reached += *reached;
            round.seconds += *seconds;
        }
        (*reached, *seconds) = (0, 0);
    };
    for pair in looks.windows(2) {
        let [(from, before), (to, after)] = pair else { continue };
        let gap = (*to - *from).num_seconds();
        if gap > PAUSE_MIN * 60 {
            round.pauses += 1;
            close(&mut round, &mut reached, &mut seconds);
        } else {
            seconds += gap;
            reached += u32::from(before != after);
        }
    }
    close(&mut round, &mut reached, &mut seconds);
    round
}
