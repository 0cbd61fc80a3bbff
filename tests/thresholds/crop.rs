//! A small crop to write cases with: one lot planted on 17 August 2026 at 44 N, sold on 27 November (day 102); its short days
//! start on 19 September (day 33). Days are days after planting; findings are written at 7:00, work at 8:00.

use benchwalk::limits::Limits;
use benchwalk::record::{
    Bench, Entry, How, Kind, LeafSign, Line, Lot, Material, Method, Nights, Order, Part, PestCount, PestName, Pinch,
    Place, Placement, Reach, Region, RootSign, Site, Where,
};
use benchwalk::season::Season;
use benchwalk::units::System;
use benchwalk::warnings::{Level, Warning, WarningName, assess_all};
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};
use uuid::Uuid;

pub(crate) const ACT: Option<Level> = Some(Level::Act);
pub(crate) const WATCH: Option<Level> = Some(Level::Watch);
pub(crate) const URGENT: Option<Level> = Some(Level::Urgent);
pub(crate) const ABSENT: Option<Level> = None;

/// 17 August 2026.
pub(crate) fn planted() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 8, 17).expect("a day")
}

/// A day after planting.
pub(crate) fn day(n: i64) -> NaiveDate {
    planted().checked_add_signed(TimeDelta::days(n)).expect("a day")
}

/// An instant on a day, in the summer offset of the place (the rules go by the entry's own offset).
pub(crate) fn at(n: i64, hour: u32, minute: u32) -> DateTime<FixedOffset> {
    let offset = FixedOffset::west_opt(4 * 3600).expect("an offset");
    let time = day(n).and_hms_opt(hour, minute, 0).expect("a time");
    time.and_local_timezone(offset).single().expect("one instant")
}

#[derive(Debug, Clone)]
pub(crate) struct Crop {
    pub(crate) site: Site,
    pub(crate) lot: Lot,
    pub(crate) lines: Vec<Line>,
    pub(crate) entries: Vec<Entry>,
    pub(crate) limits: Limits,
    pub(crate) next: u128,
    pub(crate) bench: String,
}

impl Crop {
    pub(crate) fn new() -> Self {
        let site = Site {
            name: "Case house".into(),
            latitude: 44.1,
            longitude: -70.21,
            time_zone: "America/New_York".parse().expect("a zone"),
            units: System::Us,
            region: Region::Cool,
            dull_houses: Vec::new(),
            emergency: None,
            rev: 1,
        };
        let lot = Lot {
            lot: "L1".into(),
            cultivar: "mid red".into(),
            container: "6 in".into(),
            cuttings_per_pot: 1,
            pots: 300,
            planted: planted(),
            pinch: Pinch::Soft,
            response_weeks: 9.5,
            nights: Nights::Natural,
            ready_by: day(102),
            rim_cm: Some(15.2),
            pot_height_cm: Some(11.4),
            blackout_from: None,
            lights_until: None,
            height_low_cm: Some(35.6),
            height_high_cm: Some(40.6),
            feed_n_ppm: None,
            feed_mg_ppm: None,
            feed_mo_ppm: None,
            slow_release_g: Some(6.0),
            calcium: false,
            rev: 1,
        };
        let crop = Self {
            site,
            lot,
            lines: Vec::new(),
            entries: Vec::new(),
            limits: Limits::default(),
            next: 1,
            bench: "B1".into(),
        };
        crop.bench_in("B1", "East", 1).filled("B1", "L1", 100, 0)
    }

    /// With another plan of the lot.
    pub(crate) fn lot(mut self, change: impl FnOnce(&mut Lot)) -> Self {
        change(&mut self.lot);
        self
    }

    pub(crate) fn site(mut self, change: impl FnOnce(&mut Site)) -> Self {
        change(&mut self.site);
        self
    }

    pub(crate) fn limits(mut self, change: impl FnOnce(&mut Limits)) -> Self {
        change(&mut self.limits);
        self
    }

    pub(crate) fn bench_in(mut self, bench: &str, house: &str, order: u32) -> Self {
        let line = Bench { bench: bench.into(), house: house.into(), order, area_m2: None, rev: 1 };
        self.lines.push(Line::Bench(line));
        self
    }

    pub(crate) fn filled(mut self, bench: &str, lot: &str, pots: u32, from: i64) -> Self {
        let line = Placement { bench: bench.into(), lot: lot.into(), pots, from: day(from), rev: 1 };
        self.lines.push(Line::Placement(line));
        self
    }

    pub(crate) fn order(mut self, on: i64, pots: u32) -> Self {
        self.lines.push(Line::Order(Order { lot: "L1".into(), date: day(on), pots, rev: 1 }));
        self
    }

    /// What follows is written on this bench.
    pub(crate) fn on(mut self, bench: &str) -> Self {
        self.bench = bench.into();
        self
    }

    pub(crate) fn write_at(mut self, at: DateTime<FixedOffset>, place: Place, kind: Kind) -> Self {
        let id = Uuid::from_u128(self.next);
        self.next += 1;
        self.entries.push(Entry { id, at, by: "ab".into(), place, kind, note: None });
        self
    }

    pub(crate) fn at(self, n: i64, (hour, minute): (u32, u32), kind: Kind) -> Self {
        let place = Place::Bench(self.bench.clone());
        self.write_at(at(n, hour, minute), place, kind)
    }

    pub(crate) fn finding(self, n: i64, kind: Kind) -> Self {
        self.at(n, (7, 5), kind)
    }

    pub(crate) fn work(self, n: i64, kind: Kind) -> Self {
        self.at(n, (8, 0), kind)
    }

    /// Water of one day.
    pub(crate) fn water(self, n: i64, level: u8) -> Self {
        self.at(n, (7, 0), Kind::Water { level, base: None })
    }

    /// Water of days running, from a day on.
    pub(crate) fn waters(self, from: i64, levels: &[u8]) -> Self {
        levels.iter().zip(from..).fold(self, |crop, (level, n)| crop.water(n, *level))
    }

    pub(crate) fn base(self, n: i64, level: u8, base: u8) -> Self {
        self.at(n, (7, 0), Kind::Water { level, base: Some(base) })
    }

    pub(crate) fn watered(self, n: i64) -> Self {
        self.work(n, Kind::Watered { ml_per_pot: Some(250.0) })
    }

    pub(crate) fn roots(self, n: i64, score: u8) -> Self {
        self.finding(n, Kind::Roots { score, pots: Some(3), bad: None, signs: Vec::new(), reach: None })
    }

    pub(crate) fn bad_roots(self, n: i64, score: u8, bad: u32) -> Self {
        self.finding(n, Kind::Roots { score, pots: Some(4), bad: Some(bad), signs: Vec::new(), reach: None })
    }

    pub(crate) fn root_sign(self, n: i64, sign: RootSign) -> Self {
        self.finding(n, Kind::Roots { score: 0, pots: Some(3), bad: None, signs: vec![sign], reach: None })
    }

    pub(crate) fn reach(self, n: i64, reach: Reach) -> Self {
        self.finding(n, Kind::Roots { score: 0, pots: Some(3), bad: None, signs: Vec::new(), reach: Some(reach) })
    }

    pub(crate) fn leaves(self, n: i64, signs: &[LeafSign], r#where: Option<Where>) -> Self {
        self.at(n, (7, 2), Kind::Leaves { signs: signs.to_vec(), r#where })
    }

    pub(crate) fn bracts(self, n: i64, stage: u8) -> Self {
        self.finding(n, Kind::Bracts { stage })
    }

    pub(crate) fn heights(self, n: i64, cm: &[f64]) -> Self {
        self.finding(n, Kind::Height { cm: cm.to_vec() })
    }

    pub(crate) fn pinched(self, n: i64) -> Self {
        self.work(n, Kind::Pinched { how: benchwalk::record::PinchHow::Soft, nodes_left: Some(7) })
    }

    pub(crate) fn lost(self, n: i64, pots: u32, cause: Option<&str>) -> Self {
        self.finding(n, Kind::Losses { pots, cause: cause.map(Into::into) })
    }

    pub(crate) fn nutrient(self, n: i64, material: Material, ppm: f64, how: How) -> Self {
        self.work(n, Kind::Nutrient { material, ppm, how, ml_per_pot: Some(120.0) })
    }

    pub(crate) fn fed(self, n: i64, n_ppm: f64, mg_ppm: Option<f64>, mo_ppm: Option<f64>) -> Self {
        self.work(n, Kind::Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot: None })
    }

    pub(crate) fn root_zone(self, n: i64, method: Method, ph: Option<f64>, ec: Option<f64>, pots: u32) -> Self {
        self.finding(n, Kind::RootZone { method, ph, ec_ms_cm: ec, pots: Some(pots) })
    }

    pub(crate) fn plants(self, n: i64, pest: PestName, inspected: u32, infested: u32) -> Self {
        self.finding(n, Kind::Pests { pest, count: PestCount::Plants { inspected, infested } })
    }

    pub(crate) fn cards(self, n: i64, pest: PestName, cards: u32, count: u32, days: u32) -> Self {
        self.finding(n, Kind::Pests { pest, count: PestCount::Cards { cards, count, days } })
    }

    pub(crate) fn wedge(self, n: i64, larvae: f64) -> Self {
        self.finding(n, Kind::Pests { pest: PestName::FungusGnat, count: PestCount::Wedge { larvae } })
    }

    pub(crate) fn climate(self, n: i64, day_c: f64, night_c: f64) -> Self {
        self.finding(n, Kind::Climate { day_c: Some(day_c), night_c: Some(night_c), humidity_percent: None })
    }

    pub(crate) fn humid(self, n: i64, time: (u32, u32), percent: f64) -> Self {
        self.at(n, time, Kind::Climate { day_c: None, night_c: None, humidity_percent: Some(percent) })
    }

    pub(crate) fn regulator(self, n: i64, ai: &str, ppm: f64, how: How) -> Self {
        let parts = vec![Part { ai: ai.into(), ppm }];
        let kind = Kind::GrowthRegulator { parts, how, re_entry_h: 0.0, ml_per_pot: None, product: None, rate: None };
        self.work(n, kind)
    }

    /// Strikes the entry written last.
    pub(crate) fn struck(self, n: i64) -> Self {
        let last = self.entries.last().expect("an entry");
        let (id, place) = (last.id, last.place.clone());
        self.write_at(at(n, 9, 0), place, Kind::Strike { entry: id, why: "slip".into(), reopen: false })
    }

    pub(crate) fn lines(&self) -> Vec<Line> {
        let mut lines = vec![Line::Site(self.site.clone()), Line::Lot(self.lot.clone())];
        lines.extend(self.lines.iter().cloned());
        lines.extend(self.entries.iter().cloned().map(Line::Entry));
        lines
    }

    pub(crate) fn season(&self) -> Season {
        Season::of(self.lines())
    }

    /// Everything told on a day.
    pub(crate) fn told(&self, n: i64) -> Vec<Warning> {
        let all = assess_all(&self.season(), day(n), &self.limits);
        all.all().cloned().collect()
    }

    /// The strongest warning of a name on a day.
    pub(crate) fn warning(&self, n: i64, name: WarningName) -> Option<Warning> {
        self.told(n).into_iter().filter(|w| w.name == name).max_by_key(|w| w.level)
    }
}

/// One case: on a day the warning stands at just this level, or is absent.
#[track_caller]
pub(crate) fn holds(basis: &str, crop: &Crop, n: i64, name: WarningName, want: Option<Level>) {
    let found = crop.warning(n, name).map(|w| w.level);
    assert_eq!(found, want, "{name:?} on day {n} ({basis})");
}
