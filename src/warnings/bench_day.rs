//! How the rules look at a bench: what counts of its record on a day, already sorted.
//!
//! Readings of the rules on all checks, decided here once:
//! - **Water of a day** is its first reading, unless a watering of that day is written before it; then the day has none. A
//!   reading at the very instant of a watering counts as before it.
//! - **Watering** is `watered`, `fed`, or any drench (nutrient, growth regulator, product) of the limit's 150 mL or more; of a
//!   drench whose volume is not written none is known.
//! - **Water in force** on a day is that day's water, else the latest of the two days before it, since a reading speaks 2 days.
//! - **Leaf signs** speak 7 days, or until a later look without them. Two looks of one day at different places on the plant do
//!   not cancel each other.
//! - **A roots check** is a day's: entries of one day that agree on the score (as where the reach is written after it) are one
//!   look with the signs of all of them; of several scores the last counts.
//! - **Stage reached** is the latest bract stage, however old: stages do not go back. **Stage in force** is at most 14 days old.

pub(super) use super::day_context::DayContext;
use crate::dates::{add_days, days_between};
use crate::limits::Limits;
use crate::record::{Bench, Entry, Kind, KindName, LeafSign, Lot, Method, RootSign};
use crate::season::{History, Standing};
use chrono::{DateTime, NaiveDate, Utc};

/// The water of one day.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reading<'a> {
    pub(super) day: NaiveDate,
    pub(super) level: u8,
    pub(super) entry: &'a Entry,
}

/// A bench with pots on a day.
#[derive(Debug)]
pub(super) struct BenchDay<'a> {
    pub(super) context: &'a DayContext<'a>,
    pub(super) bench: &'a Bench,
    pub(super) lot: &'a Lot,
    pub(super) standing: Standing,
    /// Everything that counts, by (instant, id).
    pub(super) entries: Vec<&'a Entry>,
    /// The water of each day that has one, by day.
    pub(super) readings: Vec<Reading<'a>>,
    /// The base of each day that has one (the first of the day, before its watering), by day.
    pub(super) bases: Vec<Reading<'a>>,
    /// Every watering, by instant.
    pub(super) waterings: Vec<&'a Entry>,
    by_kind: Vec<Vec<&'a Entry>>,
}

impl<'a> BenchDay<'a> {
    /// A bench on the context's day; `None` when it is empty or unknown.
    pub(super) fn new(context: &'a DayContext<'a>, bench: &str) -> Option<Self> {
        Self::until(context, bench, DateTime::<Utc>::MAX_UTC)
    }

    /// The same, with nothing written after an instant.
    pub(super) fn until(context: &'a DayContext<'a>, bench: &str, cut: DateTime<Utc>) -> Option<Self> {
        Self::read(context, (bench, &context.season.history(bench, context.day)), cut)
    }

    /// The same of a history that is read already.
    pub(super) fn read(
        context: &'a DayContext<'a>,
        (bench, history): (&str, &History<'a>),
        cut: DateTime<Utc>,
    ) -> Option<Self> {
        let bench = context.season.bench(bench)?;
        let standing = history.standing.clone()?;
        let lot = context.season.lot(&standing.lot)?;
        // Room at once, for a season has as many of these as entries.
        let mut entries: Vec<&'a Entry> = Vec::with_capacity(history.all().len());
        entries.extend(history.all().iter().copied().filter(|e| e.instant() <= cut));
        let waterings: Vec<&'a Entry> =
            entries.iter().copied().filter(|e| is_watering(e, context.limits.water.drench_ml)).collect();
        let (readings, bases) = waters(&entries, context.limits.water.drench_ml);
        let mut by_kind: Vec<Vec<&'a Entry>> = vec![Vec::new(); KindName::Strike as usize + 1];
        for entry in &entries {
            if let Some(list) = by_kind.get_mut(entry.name() as usize) {
                list.push(entry);
            }
        }
        Some(Self { context, bench, lot, standing, entries, readings, bases, waterings, by_kind })
    }

    /// Its code.
    pub(super) fn code(&self) -> &'a str {
        &self.bench.bench
    }

    /// The day.
    pub(super) const fn day(&self) -> NaiveDate {
        self.context.day
    }

    /// The limits.
    pub(super) const fn limits(&self) -> &'a Limits {
        self.context.limits
    }

    /// Days since planting, today.
    pub(super) fn crop_day(&self) -> i64 {
        self.crop_day_of(self.day())
    }

    /// Days since planting on a day.
    pub(super) fn crop_day_of(&self, day: NaiveDate) -> i64 {
        days_between(self.lot.planted, day)
    }

    /// Days to the sale; negative after it.
    pub(super) fn days_to_sale(&self) -> i64 {
        days_between(self.day(), self.lot.ready_by)
    }

    /// True after the sale: what still stands is no crop in the making, and no check or feed is asked for any more.
    pub(super) fn past_sale(&self) -> bool {
        self.days_to_sale() < 0
    }

    /// The start of the lot's short days.
    pub(super) fn short_days(&self) -> Option<NaiveDate> {
        self.context.short_days(self.lot)
    }

    /// The day from which the record of its lot is whole: the planting, or later where the season was started later.
    pub(super) fn begins(&self) -> NaiveDate {
        self.context.begins(self.lot)
    }

    /// The day from which something that was never logged counts as missing: this one, or the beginning of a later record.
    pub(super) fn counted_from(&self, day: NaiveDate) -> NaiveDate {
        day.max(self.begins())
    }

    /// Entries of a kind, oldest first.
    pub(super) fn of(&self, kind: KindName) -> &[&'a Entry] {
        self.by_kind.get(kind as usize).map_or(&[], Vec::as_slice)
    }

    /// The latest entry of a kind.
    pub(super) fn last(&self, kind: KindName) -> Option<&'a Entry> {
        self.of(kind).last().copied()
    }

    /// The latest entry of a kind, if it is so many days old at most.
    pub(super) fn recent(&self, kind: KindName, most_days: i64) -> Option<&'a Entry> {
        self.last(kind).filter(|e| self.age(e) <= most_days)
    }

    /// Days since an entry.
    pub(super) fn age(&self, entry: &Entry) -> i64 {
        days_between(entry.day(), self.day())
    }

    /// The water in force on a day.
    pub(super) fn water_on(&self, day: NaiveDate) -> Option<Reading<'a>> {
        let last = self.readings.iter().rev().find(|r| r.day <= day)?;
        (days_between(last.day, day) <= self.limits().water.reading_days).then_some(*last)
    }

    /// The water in force today.
    pub(super) fn water(&self) -> Option<Reading<'a>> {
        self.water_on(self.day())
    }

    /// True when the water in force today is wet.
    pub(super) fn is_wet(&self) -> bool {
        self.water().is_some_and(|r| r.level >= self.limits().water.wet_from)
    }

    /// True when a watering is written after an instant.
    pub(super) fn watered_after(&self, at: DateTime<Utc>) -> bool {
        self.waterings.last().is_some_and(|w| w.instant() > at)
    }

    /// The latest leaves entry in which a sign still speaks today.
    pub(super) fn sign(&self, sign: LeafSign) -> Option<&'a Entry> {
        self.sign_on(sign, self.day())
    }

    /// The latest leaves entry in which a sign still speaks on a day.
    pub(super) fn sign_on(&self, sign: LeafSign, day: NaiveDate) -> Option<&'a Entry> {
        let looks = || self.of(KindName::Leaves).iter().rev().filter(|e| e.day() <= day);
        let seen = looks().find(|e| has_sign(e, sign))?;
        let fresh = days_between(seen.day(), day) <= self.limits().water.leaves_days;
        let ended = looks().take_while(|e| e.id != seen.id).any(|e| ends(e, seen));
        (fresh && !ended).then_some(*seen)
    }

    /// True in a house that the site lists as low in light.
    pub(super) fn is_low_light(&self) -> bool {
        self.context.site().is_some_and(|site| site.low_light_houses.contains(&self.bench.house))
    }

    /// True where a look at the leaves says that one plant in so many or fewer shows what it found.
    pub(super) fn is_on_few(&self, look: &Entry) -> bool {
        let Kind::Leaves { plants: Some(plants), .. } = *look.kind else { return false };
        plants.saturating_mul(self.limits().leaves.few_in) <= self.standing.pots
    }

    /// Where a sign that speaks began: the first of the looks that name it without a break.
    pub(super) fn sign_since(&self, sign: LeafSign, seen: &Entry) -> NaiveDate {
        let looks = self.of(KindName::Leaves);
        let mut since = seen.day();
        for look in looks.iter().rev().skip_while(|e| e.id != seen.id).skip(1) {
            let near = days_between(look.day(), since) <= self.limits().water.leaves_days;
            if near && has_sign(look, sign) {
                since = look.day();
            } else if look.day() < since {
                break;
            }
        }
        since
    }

    /// The looks at the roots, latest first, one a day: the entries that agree on that day's last score.
    pub(super) fn root_looks(&self) -> Vec<&[&'a Entry]> {
        let of_one = |a: &&Entry, b: &&Entry| a.day() == b.day() && score(a) == score(b);
        let mut looks: Vec<&[&'a Entry]> = self.of(KindName::Roots).chunk_by(of_one).rev().collect();
        looks.dedup_by_key(|look| look.first().map(|e| e.day()));
        looks
    }

    /// The latest roots check, while it speaks.
    pub(super) fn roots(&self) -> Option<(&'a Entry, u8)> {
        let entry = self.root_looks().first()?.first().copied()?;
        (self.age(entry) <= self.limits().water.roots_days).then_some((entry, score(entry)?))
    }

    /// Since when the roots have been at or over a score: the first of the checks without a break, up to the latest.
    pub(super) fn roots_bad_since(&self, last: &Entry, least: u8) -> NaiveDate {
        let looks = self.root_looks();
        let bad = looks.iter().filter_map(|look| look.first()).take_while(|e| score(e).is_some_and(|s| s >= least));
        bad.last().map_or_else(|| last.day(), |e| e.day())
    }

    /// The signs of the latest roots check, while it speaks.
    pub(super) fn root_signs(&self) -> Vec<RootSign> {
        if self.roots().is_some() { self.last_root_signs() } else { Vec::new() }
    }

    /// The signs of the latest roots check, however old.
    pub(super) fn last_root_signs(&self) -> Vec<RootSign> {
        let looks = self.root_looks();
        let signs = looks.first().copied().unwrap_or_default().iter().flat_map(|e| match &*e.kind {
            Kind::Roots { signs, .. } => signs.as_slice(),
            _ => &[],
        });
        signs.copied().collect()
    }

    /// The bract stage reached, however old the look.
    pub(super) fn stage_reached(&self) -> Option<(&'a Entry, u8)> {
        self.last(KindName::Bracts).and_then(|e| Some((e, stage(e)?)))
    }

    /// The bract stage in force: a look of the last `most_days` days.
    pub(super) fn stage_within(&self, most_days: i64) -> Option<(&'a Entry, u8)> {
        self.stage_reached().filter(|(e, _)| self.age(e) <= most_days)
    }

    /// The first look at a bract stage of at least `least`.
    pub(super) fn first_stage(&self, least: u8) -> Option<&'a Entry> {
        self.of(KindName::Bracts).iter().copied().find(|e| stage(e).is_some_and(|s| s >= least))
    }

    /// The pinch, if one is written (the first).
    pub(super) fn pinched(&self) -> Option<&'a Entry> {
        self.of(KindName::Pinched).first().copied()
    }

    /// True when slow-release fertilizer is in the mix: by the plan, or topdressed.
    pub(super) fn has_slow_release(&self) -> bool {
        self.lot.slow_release_g.is_some_and(|g| g > 0.0) || self.last(KindName::Topdressed).is_some()
    }

    /// `n` days after today.
    pub(super) fn in_days(&self, n: i64) -> NaiveDate {
        add_days(self.day(), n)
    }
}

/// The root score of a roots entry.
pub(super) fn score(entry: &Entry) -> Option<u8> {
    if let Kind::Roots { score, .. } = &*entry.kind { Some(*score) } else { None }
}

/// The stage of a bracts entry.
pub(super) fn stage(entry: &Entry) -> Option<u8> {
    if let Kind::Bracts { stage } = &*entry.kind { Some(*stage) } else { None }
}

/// True when a leaves entry names a sign.
pub(super) fn has_sign(entry: &Entry, sign: LeafSign) -> bool {
    matches!(&*entry.kind, Kind::Leaves { signs, .. } if signs.contains(&sign))
}

/// True when a later look without the sign ends what was seen.
pub(super) fn ends(later: &Entry, seen: &Entry) -> bool {
    let place = |e: &Entry| if let Kind::Leaves { plant_part, .. } = &*e.kind { *plant_part } else { None };
    later.day() != seen.day() || place(later).is_none() || place(later) == place(seen)
}

/// True for a watering: see the head of this file.
pub(super) fn is_watering(entry: &Entry, drench_ml: f64) -> bool {
    match &*entry.kind {
        Kind::Watered { .. } | Kind::Fed { .. } => true,
        Kind::Nutrient { how: Method::Drench, ml_per_pot, .. }
        | Kind::GrowthRegulator { how: Method::Drench, ml_per_pot, .. } => ml_per_pot.is_some_and(|ml| ml >= drench_ml),
        _ => false,
    }
}

/// The water and the base of each day.
fn waters<'a>(entries: &[&'a Entry], drench_ml: f64) -> (Vec<Reading<'a>>, Vec<Reading<'a>>) {
    let mut readings: Vec<Reading<'a>> = Vec::new();
    let mut bases: Vec<Reading<'a>> = Vec::new();
    let mut watered: Option<&Entry> = None;
    for entry in entries.iter().copied() {
        let day = entry.day();
        if is_watering(entry, drench_ml) {
            // Of several waterings of a day the first decides what came before it.
            if watered.is_none_or(|w| w.day() != day) {
                watered = Some(entry);
            }
            continue;
        }
        let Kind::Water { level, base } = &*entry.kind else { continue };
        if watered.is_some_and(|w| w.day() == day && w.instant() < entry.instant()) {
            continue;
        }
        if readings.last().is_none_or(|r| r.day < day) {
            readings.push(Reading { day, level: *level, entry });
        }
        if let Some(base) = base
            && bases.last().is_none_or(|r| r.day < day)
        {
            bases.push(Reading { day, level: *base, entry });
        }
    }
    readings.shrink_to_fit();
    (readings, bases)
}
