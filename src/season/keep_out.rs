//! Keep-out: a bench is closed from the end of an application for as long as was typed from the label.
//!
//! Erring on the closed side:
//! - A later treatment can only extend: the latest end of all that run decides.
//! - A treatment of a house closes every bench of that house, with pots or without; one of a lot every bench where that lot
//!   stood at that moment.
//! - Treated pots carry their interval along: a bench that receives pots from a closed bench is closed as long as they are,
//!   and the bench they left stays closed too.
//! - An interval goes by instants and the site's days, whatever offset its writer had.
//! - At present, when no earlier day is asked about, a treatment later than the clock closes as well: until it ended and its
//!   hours are over.
//! - A struck-out treatment still closes, unless its strike says `reopen`; then it is over from the strike on (in the list of
//!   a day: from the strike's day on). Where it was struck on two laptops, each strike has to say so.

use super::Season;
use super::moment::Moment;
use super::pots::Ledger;
use crate::record::{Entry, Place};
use chrono::{DateTime, Days, NaiveDate, TimeDelta, TimeZone, Utc};
use std::collections::HashMap;
use std::time::Duration;

/// The interval an entry closes its place for.
fn interval(entry: &Entry) -> Option<(DateTime<Utc>, DateTime<Utc>)> {
    let start = entry.instant();
    Some((start, closes_until(start, entry.kind.re_entry_h()?)?))
}

/// Until when a treatment closes its place that ended at an instant, by the hours of its REI; `None` where it closes nothing.
pub fn closes_until(ended: DateTime<Utc>, hours: f64) -> Option<DateTime<Utc>> {
    if hours.is_nan() || hours <= 0.0 {
        return None;
    }
    let long = Duration::try_from_secs_f64((hours * 3600.0).ceil()).ok().and_then(|d| TimeDelta::from_std(d).ok());
    // A length beyond all time closes for good rather than not at all.
    Some(long.and_then(|d| ended.checked_add_signed(d)).unwrap_or(DateTime::<Utc>::MAX_UTC))
}

/// What is asked: intervals that run at some time from `from` to `to`, both included, as the record stood.
struct Asked<'a> {
    ledger: &'a Ledger,
    from: DateTime<Utc>,
    to: DateTime<Utc>,
    /// Only strikes up to here open again.
    opened: Moment,
}

impl Season {
    /// Until when a bench is closed at an instant; `None` when it is open.
    pub fn keep_out(&self, bench: &str, at: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let day = self.day_of(at);
        let opened = Moment { day: NaiveDate::MAX, at, id: uuid::Uuid::max() };
        self.carried(bench, &Asked { ledger: self.ledger(day), from: at, to: at, opened })
    }

    /// Until when a bench is closed at present; `None` when it is open. As [`Season::keep_out`], but a treatment or a move
    /// that lies later than `at` counts too: the record is of the past, so it is the clock that reads `at` which is wrong.
    pub fn keep_out_at_present(&self, bench: &str, at: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let (ledger, opened) = (self.ledger(NaiveDate::MAX), Moment::end_of(NaiveDate::MAX));
        self.carried(bench, &Asked { ledger, from: at, to: DateTime::<Utc>::MAX_UTC, opened })
    }

    /// Until when a bench was closed at a moment of the past, by all that is known by now: a treatment logged later counts, one
    /// that was voided and reopened since does not.
    pub fn was_closed(&self, bench: &str, at: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let (ledger, opened) = (self.ledger(self.day_of(at)), Moment::end_of(NaiveDate::MAX));
        self.carried(bench, &Asked { ledger, from: at, to: at, opened })
    }

    /// True where an interval that closes anything ends after a moment: where none does, every bench is open.
    pub fn closes_after(&self, at: DateTime<Utc>) -> bool {
        let entries = self.index.closing_any().filter_map(|p| self.at(p));
        entries.filter_map(interval).any(|(_, end)| end > at)
    }

    /// The latest end of all intervals that run at any time of a local day at the site; `None` when the bench is open all day.
    pub fn closed_on(&self, bench: &str, day: NaiveDate) -> Option<DateTime<Utc>> {
        let first = self.midnight(day);
        let next = day.checked_add_days(Days::new(1)).map_or(DateTime::<Utc>::MAX_UTC, |d| self.midnight(d));
        let to = next.checked_sub_signed(TimeDelta::nanoseconds(1)).unwrap_or(next);
        let opened = Moment::end_of(day);
        let ledger = self.ledger(day);
        let own = self.own_end(bench, &Asked { ledger, from: first, to, opened });
        let arrivals = ledger.bench(bench).into_iter().flat_map(|b| &b.stints).flat_map(|s| &s.arrivals);
        let brought = arrivals.filter(|a| a.moment.at <= to).filter_map(|a| {
            let at = a.moment.at;
            self.carried(&a.from, &Asked { ledger, from: at, to: at, opened })
        });
        brought.chain(own).filter(|end| *end > first).max()
    }

    /// The latest end of what runs on a bench at one instant, its own and what its pots brought along.
    fn carried(&self, bench: &str, asked: &Asked<'_>) -> Option<DateTime<Utc>> {
        let mut latest = None;
        let mut read: HashMap<String, DateTime<Utc>> = HashMap::new();
        let mut work = vec![(bench.to_owned(), asked.to)];
        while let Some((bench, to)) = work.pop() {
            if read.get(&bench).is_some_and(|t| *t >= to) {
                continue;
            }
            read.insert(bench.clone(), to);
            latest = latest.max(self.own_end(&bench, &Asked { to, ..*asked }));
            let stints = asked.ledger.bench(&bench).into_iter().flat_map(|b| &b.stints);
            let came = stints.flat_map(|s| &s.arrivals).filter(|a| a.moment.at <= to);
            work.extend(came.map(|a| (a.from.clone(), a.moment.at)));
        }
        latest
    }

    /// The latest end of the treatments of a bench, its house and its lot.
    fn own_end(&self, bench: &str, asked: &Asked<'_>) -> Option<DateTime<Utc>> {
        let mut latest = None;
        let mut look = |place: &Place, stood: &dyn Fn(&Entry) -> bool| {
            let entries = self.index.closing(place).iter().filter_map(|p| self.at(*p));
            for entry in entries.filter(|e| e.instant() <= asked.to) {
                let Some((_, end)) = interval(entry).filter(|(_, end)| *end > asked.from) else { continue };
                if stood(entry) && !self.opened(entry, asked.opened) {
                    latest = latest.max(Some(end));
                }
            }
        };
        look(&Place::Bench(bench.into()), &|_| true);
        if let Some(b) = self.bench(bench) {
            look(&Place::House(b.house.as_str().into()), &|_| true);
        }
        let mut lots: Vec<&str> = Vec::new();
        for stint in asked.ledger.bench(bench).into_iter().flat_map(|b| &b.stints) {
            if !lots.contains(&stint.lot.as_str()) {
                lots.push(&stint.lot);
            }
        }
        for lot in lots {
            let stood = |e: &Entry| asked.ledger.lot_at_moment(bench, Moment::of(e)) == Some(lot);
            look(&Place::Lot(lot.into()), &stood);
        }
        latest
    }

    /// True when the strikes up to a moment opened the place again: every one of them says so.
    fn opened(&self, entry: &Entry, until: Moment) -> bool {
        let mut strikes = self.strikes.on(entry).filter(|s| s.day <= until.day && s.at <= until.at).peekable();
        strikes.peek().is_some() && strikes.all(|s| s.reopen)
    }

    /// The first instant of a local day at the site.
    pub(super) fn midnight(&self, day: NaiveDate) -> DateTime<Utc> {
        let midnight = day.and_time(chrono::NaiveTime::MIN);
        let Some(site) = self.site() else { return midnight.and_utc() };
        let zone = site.time_zone;
        // Where the clock jumps over midnight, the day begins when the next time exists.
        let mut tries = (0..=24).filter_map(|n| midnight.checked_add_signed(TimeDelta::minutes(n * 15)));
        let first = tries.find_map(|t| zone.from_local_datetime(&t).earliest());
        first.map_or_else(|| midnight.and_utc(), |t| t.to_utc())
    }
}
