//! A careful grower: walks every morning, does every check at its rhythm, waters what has dried down, gives the sixth week's
//! magnesium and molybdenum with a watering. How well he reads and how often he misses a round are habits that can be set.

use super::bench::Stand;
use super::book::Book;
use super::color::Color;
use super::plant::{Size, grown, stage};
use super::weather::Weather;
use super::{after, days};
use crate::rng::Rng;
use benchwalk::record::{Kind, Lot, Material, Method, PestCount, PestName, Pinch, PinchHow, Place, Reach, TestMethod};
use chrono::NaiveDate;

/// One bench as the grower keeps it.
pub(crate) struct Plot {
    pub(crate) code: String,
    pub(crate) house: String,
    /// Which of the lots, and the pots themselves; `None` while it is empty.
    pub(crate) lot: usize,
    pub(crate) stand: Option<Stand>,
    pub(crate) pots: u32,
    pinched: Option<NaiveDate>,
    fed: u32,
    supplemented: Option<NaiveDate>,
    reading: Option<u8>,
    read_on: Option<NaiveDate>,
    /// The base as last felt.
    base: Option<u8>,
    /// The next day of each weekly check.
    pub(crate) roots: NaiveDate,
    pub(crate) pests: NaiveDate,
    pub(crate) bracts: NaiveDate,
    height: Option<NaiveDate>,
    /// Days from the pinch (day 13 where there is none) to the first heights.
    pub(crate) height_after: u64,
    /// No watering while this is set: the hose does not reach, or it was forgotten.
    pub(crate) dry_by_neglect: bool,
    /// The extra magnesium and molybdenum are never given here.
    pub(crate) forgets_supplements: bool,
}

/// How well the grower works, and what he feeds.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Habits {
    /// Chance that a water reading is one class off.
    pub(crate) misread: f64,
    /// Chance that a whole house is not walked on a day.
    pub(crate) missed: f64,
    /// The feed, ppm N and ppm Mg.
    pub(crate) feed: (f64, f64),
}

pub(crate) struct Grower {
    pub(crate) lots: Vec<(Lot, Size)>,
    pub(crate) plots: Vec<Plot>,
    pub(crate) book: Book,
    pub(crate) weather: Weather,
    pub(crate) rng: Rng,
    pub(crate) habits: Habits,
    pub(crate) short_days: NaiveDate,
    /// How the color of each lot comes where it follows the warmth; empty where it follows the calendar.
    pub(crate) colors: Vec<Color>,
    /// The root zone of a lot that goes wrong.
    pub(crate) drift: Option<Drift>,
}

/// A root zone that goes wrong from a day on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Drift {
    pub(crate) lot: usize,
    pub(crate) from: NaiveDate,
    /// pH gained a day, up to 1.
    pub(crate) ph_a_day: f64,
    /// mS/cm lost at once.
    pub(crate) ec: f64,
}

impl Grower {
    pub(crate) fn empty(&mut self, code: &str, house: &str) {
        let never = NaiveDate::MAX;
        self.plots.push(Plot {
            code: code.to_owned(),
            house: house.to_owned(),
            lot: 0,
            stand: None,
            pots: 0,
            pinched: None,
            fed: 0,
            supplemented: None,
            reading: None,
            read_on: None,
            base: None,
            roots: never,
            pests: never,
            bracts: never,
            height: None,
            height_after: 1,
            dry_by_neglect: false,
            forgets_supplements: false,
        });
    }

    /// Places a lot's pots on a bench and waters them in.
    pub(crate) fn pot(&mut self, plot: usize, lot: usize, pots: u32) {
        let (ref facts, size) = self.lots[lot];
        let day = facts.planted;
        let stand = Stand::new(size, day, &mut self.rng);
        let at = self.book.at(day, 9, plot * 600);
        let p = &mut self.plots[plot];
        let stagger = plot as u64 % 3;
        (p.lot, p.stand, p.pots) = (lot, Some(stand), pots);
        p.roots = after(day, 10 + stagger);
        p.pests = after(day, 3 + plot as u64 % 4);
        p.bracts = after(self.short_days, stagger);
        if size.topdressed_g > 0.0 {
            let kind = Kind::Topdressed { g_per_pot: size.topdressed_g, n_percent: Some(12.0) };
            self.book.bench(at, &p.code, kind);
        } else {
            let (n_ppm, mg_ppm) = self.habits.feed;
            let kind = Kind::Fed { n_ppm, mg_ppm: Some(mg_ppm), mo_ppm: None, ml_per_pot: Some(size.watering_ml) };
            self.book.bench(at, &p.code, kind);
        }
    }

    /// Spaces half of a bench's pots onto an empty one.
    pub(crate) fn space(&mut self, from: usize, to: usize, day: NaiveDate) {
        let (at, then) = (self.book.at(day, 13, from * 300), self.book.at(day, 15, from * 120));
        let source = &mut self.plots[from];
        let pots = source.pots / 2;
        source.pots -= pots;
        let stand = source.stand.as_ref().unwrap().divided(&mut self.rng);
        let shared = (source.lot, source.pinched, source.fed, source.reading, source.read_on);
        let base = source.base;
        let dates = (source.roots, source.pests, source.bracts, source.height);
        let (code, centers_cm) = (source.code.clone(), stand.size.centers_cm);
        let target = &mut self.plots[to];
        target.stand = Some(stand);
        target.pots = pots;
        target.base = base;
        (target.lot, target.pinched, target.fed, target.reading, target.read_on) = shared;
        (target.roots, target.pests, target.bracts, target.height) = dates;
        self.book.bench(at, &code, Kind::Moved { to: target.code.clone(), pots });
        for bench in [code, self.plots[to].code.clone()] {
            self.book.bench(then, &bench, Kind::Spaced { centers_cm });
        }
    }

    /// From yesterday morning to this one.
    pub(crate) fn night(&mut self, day: NaiveDate) {
        let (warm, cool, _) = self.weather.climate(day.pred_opt().unwrap());
        for (color, (lot, _)) in self.colors.iter_mut().zip(&self.lots) {
            if day > lot.blackout_from.unwrap_or(self.short_days) {
                color.pass((warm, cool), days(super::date(8, 1), day) as f64);
            }
        }
        for plot in &mut self.plots {
            if let Some(stand) = &mut plot.stand
                && stand.planted < day
            {
                stand.pass(day.pred_opt().unwrap(), &self.weather);
            }
        }
    }

    /// True where a lot whose color follows the warmth has all of it.
    pub(crate) fn has_full_color(&self, lot: usize) -> bool {
        self.colors.get(lot).is_none_or(|color| color.stage(self.lots[lot].0.response_weeks) >= 4)
    }

    /// The walk: the first so many benches.
    pub(crate) fn walk(&mut self, day: NaiveDate, benches: usize) {
        let mut missed: Vec<(String, bool)> = Vec::new();
        for plot in 0..benches.min(self.plots.len()) {
            let house = self.plots[plot].house.clone();
            if !missed.iter().any(|(h, _)| *h == house) {
                let chance = self.rng.chance(self.habits.missed);
                missed.push((house.clone(), chance));
            }
            let is_missed = missed.iter().any(|(h, m)| *h == house && *m);
            let stands = self.plots[plot].stand.as_ref().is_some_and(|s| s.planted < day);
            if stands && !is_missed {
                self.card(plot, day);
            }
        }
    }

    /// One bench's checks.
    fn card(&mut self, plot: usize, day: NaiveDate) {
        let start = 2400 + plot * 100;
        let p = &mut self.plots[plot];
        let Some(stand) = &p.stand else { return };
        let (lot, _) = &self.lots[p.lot];
        let code = p.code.clone();
        let mut level = stand.level();
        if self.habits.misread > 0.0 && self.rng.chance(self.habits.misread) {
            level = if self.rng.chance(0.5) { level + 1 } else { level - 1 }.clamp(1, 5);
        }
        let look = p.roots <= day;
        // What read soaked or dry at the base is felt again every day, as the card asks.
        let base = (look || matches!(p.base, Some(1 | 5))).then(|| stand.base());
        self.book.bench(self.book.at(day, 6, start), &code, Kind::Water { level, base });
        (p.reading, p.read_on) = (Some(level), Some(day));
        p.base = base.or(p.base);
        if look {
            let age = days(lot.planted, day);
            let reach = (p.pinched.is_none() && lot.pinch != Pinch::None).then_some(if age >= 11 {
                Reach::Wall
            } else {
                Reach::Center
            });
            let kind = Kind::Roots { score: stand.roots(), pots: Some(3), bad: None, signs: vec![], reach };
            self.book.bench(self.book.at(day, 6, start + 20), &code, kind);
            p.roots = after(day, 7);
        }
        if p.bracts <= day {
            let by_calendar = || stage(days(self.short_days, day), lot.response_weeks);
            let stage = self.colors.get(p.lot).map_or_else(by_calendar, |color| color.stage(lot.response_weeks));
            let kind = Kind::Bracts { stage };
            self.book.bench(self.book.at(day, 6, start + 35), &code, kind);
            p.bracts = after(day, 7);
        }
        if p.pests <= day {
            let infested = (0..20).filter(|_| self.rng.chance(stand.whitefly)).count();
            let count = PestCount::Plants { inspected: 20, infested: u32::try_from(infested).unwrap() };
            self.book.bench(self.book.at(day, 6, start + 60), &code, Kind::Pests { pest: PestName::Whitefly, count });
            p.pests = after(day, 7);
        }
        if p.height.is_some_and(|d| d <= day) {
            let cm = heights(lot, p.pinched, stand, day, &mut self.rng);
            self.book.bench(self.book.at(day, 6, start + 85), &code, Kind::Height { cm });
            p.height = Some(after(day, 7));
        }
    }

    /// Waters what the morning found dry, and pinches what is due.
    pub(crate) fn work(&mut self, day: NaiveDate) {
        for plot in 0..self.plots.len() {
            let p = &mut self.plots[plot];
            let Some(stand) = &mut p.stand else { continue };
            let (lot, size) = &self.lots[p.lot];
            let age = days(lot.planted, day);
            let at = self.book.at(day, 9, plot * 150);
            let dry = p.read_on == Some(day) && p.reading.is_some_and(|r| r <= 2);
            if dry && !p.dry_by_neglect {
                stand.water();
                let kinds = watering(p, *size, self.habits.feed, lot, day);
                for kind in kinds {
                    self.book.bench(at, &p.code, kind);
                }
            }
            if lot.pinch != Pinch::None && p.pinched.is_none() && age >= 14 {
                p.pinched = Some(day);
                p.height = Some(after(day, p.height_after));
                let nodes_left = Some(size.nodes_left);
                let at = self.book.at(day, 10, plot * 240);
                self.book.bench(at, &p.code, Kind::Pinched { how: PinchHow::Soft, nodes_left });
            }
            if lot.pinch == Pinch::None && age == 13 {
                p.height = Some(after(day, p.height_after));
            }
        }
    }

    /// Root zone every two weeks, one sample a lot; climate every evening, one reading a house.
    pub(crate) fn measure(&mut self, day: NaiveDate) {
        for i in 0..self.lots.len() {
            let lot = &self.lots[i].0;
            let age = days(lot.planted, day);
            if age >= 10 && (age - 10) % 14 == i64::try_from(i % 3).unwrap() {
                let ph = round(6.0 + 0.12 * self.rng.normal(), 10.0).clamp(5.7, 6.2);
                let ec = round(2.9 + 0.25 * self.rng.normal(), 10.0).clamp(2.2, 3.8);
                let drift = self.drift.filter(|drift| drift.lot == i && drift.from <= day);
                let gained = drift.map_or(0.0, |d| (d.ph_a_day * days(d.from, day) as f64).min(1.0));
                let (ph, ec) = (round(ph + gained, 10.0), round(ec - drift.map_or(0.0, |d| d.ec), 10.0));
                let kind =
                    Kind::RootZone { method: TestMethod::PourThrough, ph: Some(ph), ec_ms_cm: Some(ec), pots: Some(5) };
                let at = self.book.at(day, 11, i * 900);
                self.book.write(at, Place::Lot(lot.lot.as_str().into()), kind, None);
            }
        }
        let mut houses: Vec<String> =
            self.plots.iter().filter(|p| p.stand.is_some()).map(|p| p.house.clone()).collect();
        houses.dedup();
        let (warm, night, humid) = self.weather.climate(day);
        for (i, house) in houses.into_iter().enumerate() {
            let kind = Kind::Climate {
                day_c: Some(round(warm + 0.3 * self.rng.normal(), 10.0)),
                night_c: Some(round(night + 0.2 * self.rng.normal(), 10.0)),
                humidity_percent: Some(round(humid + 2.0 * self.rng.normal(), 1.0)),
                log: Box::default(),
            };
            self.book.write(self.book.at(day, 17, i * 300), Place::House(house.into()), kind, None);
        }
    }
}

/// One watering: the sixth week's magnesium and molybdenum once, magnesium again every four weeks until three weeks before the
/// sale, else by turns clear and with feed.
fn watering(p: &mut Plot, size: Size, (n_ppm, mg_ppm): (f64, f64), lot: &Lot, day: NaiveDate) -> Vec<Kind> {
    let ml_per_pot = Some(size.watering_ml);
    let due = p.supplemented.map_or_else(|| after(lot.planted, 37), |last| after(last, 28));
    if day >= due && days(day, lot.ready_by) >= 21 && !p.forgets_supplements {
        let drench = |material, ppm| Kind::Nutrient { material, ppm, how: Method::Drench, ml_per_pot };
        let magnesium = drench(Material::MagnesiumSulfate, 118.0);
        if p.supplemented.replace(day).is_some() {
            return vec![magnesium];
        }
        return vec![magnesium, drench(Material::SodiumMolybdate, 50.0)];
    }
    // Without slow-release every watering carries feed.
    p.fed += if size.topdressed_g > 0.0 { 1 } else { 2 };
    if p.fed.is_multiple_of(2) {
        vec![Kind::Fed { n_ppm, mg_ppm: Some(mg_ppm), mo_ppm: None, ml_per_pot }]
    } else {
        vec![Kind::Watered { ml_per_pot }]
    }
}

/// Rounded to one part of so many.
pub(crate) fn round(x: f64, parts: f64) -> f64 {
    (x * parts).round() / parts
}

/// The tagged plants of a bench: on the middle of the lot's window, each a little off.
fn heights(lot: &Lot, pinched: Option<NaiveDate>, stand: &Stand, day: NaiveDate, rng: &mut Rng) -> Vec<f64> {
    let start = pinched.unwrap_or_else(|| after(lot.planted, 14));
    let whole = days(start, lot.ready_by) as f64;
    let x = days(start, day) as f64 / whole;
    let low = lot.pot_height_cm.unwrap_or(11.0) + 7.6;
    let middle = f64::midpoint(lot.height_low_cm.unwrap_or(35.0), lot.height_high_cm.unwrap_or(40.0));
    let mean = low + (middle - low) * grown(x);
    let spread = 0.4 + 0.6 * grown(x);
    stand.plants.iter().map(|p| round(mean + spread * p + 0.12 * rng.normal(), 10.0)).collect()
}
