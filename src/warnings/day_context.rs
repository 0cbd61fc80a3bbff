//! What all benches share on a day: the season, the limits, the site's nights. The start of a lot's short days takes a hundred
//! sunsets to find, so it is calculated once a lot.

use crate::crop::night;
use crate::limits::{Key, Limit, Limits, Number};
use crate::record::{Lot, Nights, Site};
use crate::season::Season;
use crate::terms::NightConvention;
use chrono::NaiveDate;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// What all benches share on a day.
#[derive(Debug)]
pub(super) struct DayContext<'a> {
    pub(super) season: &'a Season,
    pub(super) limits: &'a Limits,
    pub(super) day: NaiveDate,
    /// Start of short days by lot, calculated once.
    short_days: RefCell<BTreeMap<String, Option<NaiveDate>>>,
    /// When the record of a lot begins, found once.
    begins: RefCell<BTreeMap<String, NaiveDate>>,
    /// Hours of sun by day, calculated once: all benches need the same days.
    sun: RefCell<BTreeMap<NaiveDate, f64>>,
}

impl<'a> DayContext<'a> {
    pub(super) fn new(season: &'a Season, day: NaiveDate, limits: &'a Limits) -> Self {
        let (short_days, begins) = (RefCell::new(BTreeMap::new()), RefCell::new(BTreeMap::new()));
        Self { season, limits, day, short_days, begins, sun: RefCell::new(BTreeMap::new()) }
    }

    /// The site.
    pub(super) fn site(&self) -> Option<&'a Site> {
        self.season.site()
    }

    /// Where the site lies.
    pub(super) fn place(&self) -> Option<night::Place> {
        self.site().and_then(|s| night::Place::new(s.latitude, s.longitude).ok())
    }

    /// The start of a lot's short days; `None` when its nights never get that long, or the site is unknown.
    pub(super) fn short_days(&self, lot: &Lot) -> Option<NaiveDate> {
        if let Some(known) = self.short_days.borrow().get(&lot.lot) {
            return *known;
        }
        let found = self.calculate_short_days(lot);
        self.short_days.borrow_mut().insert(lot.lot.clone(), found);
        found
    }

    /// The day from which the record of a lot is whole ([`Season::record_begins`]).
    pub(super) fn begins(&self, lot: &Lot) -> NaiveDate {
        if let Some(known) = self.begins.borrow().get(&lot.lot) {
            return *known;
        }
        let found = self.season.record_begins(lot, self.day);
        self.begins.borrow_mut().insert(lot.lot.clone(), found);
        found
    }

    /// Hours between sunrise and sunset before a day's night; 12 where the site is unknown.
    pub(super) fn sun_hours(&self, day: NaiveDate) -> f64 {
        if let Some(known) = self.sun.borrow().get(&day) {
            return *known;
        }
        let convention = NightConvention::SunsetToSunrise;
        let hours = match self.place().and_then(|p| night::night(&p, day, convention).ok()) {
            Some(night::Night::Minutes(m)) => 24.0 - m / 60.0,
            Some(night::Night::Unbroken) => 0.0,
            Some(night::Night::None) => 24.0,
            None => 12.0,
        };
        self.sun.borrow_mut().insert(day, hours);
        hours
    }

    fn calculate_short_days(&self, lot: &Lot) -> Option<NaiveDate> {
        let nights = match (lot.nights, lot.blackout_from, lot.lights_until) {
            (Nights::Blackout, Some(from), _) => night::Nights::BlackoutFrom(from),
            (Nights::Lights, _, Some(until)) => night::Nights::LightsUntil(until),
            (Nights::Natural, ..) | (Nights::Blackout, None, _) | (Nights::Lights, _, None) => night::Nights::Natural,
        };
        let convention = self.limits.choices.night;
        let minutes = f64::from(self.limits.round.night_start_min);
        night::start_of_short_days(&self.place()?, lot.planted, nights, minutes, convention).ok().flatten()
    }

    /// A limit in force, as evidence.
    pub(super) fn limit<T: Number>(&self, key: Key<T>) -> Limit {
        key.limit(self.limits)
    }

    /// The first day a bench can be looked at: not before a keep-out ends.
    pub(super) fn open_again(&self, bench: &str, wanted: NaiveDate) -> NaiveDate {
        let Some(until) = self.season.closed_on(bench, self.day) else { return wanted };
        let ends = self.site().map_or_else(|| until.date_naive(), |s| until.with_timezone(&s.time_zone).date_naive());
        wanted.max(ends)
    }
}
