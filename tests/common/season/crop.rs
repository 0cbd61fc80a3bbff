//! A crop grown line by line: the plan and the entries in the order of the telling, each call one line.
//!
//! It starts as one lot planted on 17 August 2026 at 44 N, sold on 27 November (day 102), 100 pots of it on bench E1 of house
//! East; its short days start on 19 September (day 33). A day is a number of days after planting, or a month and a day;
//! findings are written at 7:00, work at 8:00.

use super::Day;
use super::lines::{bench_line, instant, lot, order, placement, site};
use benchwalk::limits::Limits;
use benchwalk::record::{
    Entry, Kind, LeafSign, Line, Lot, Material, Method, Part, PestCount, PestName, Place, Plan, PlantPart, Reach,
    RootSign, Site, TestMethod, codec, derived_id,
};
use benchwalk::season::Season;
use benchwalk::warnings::{Severity, Warning, WarningName, assess_all};
use chrono::{DateTime, FixedOffset};
use uuid::Uuid;

pub(crate) const ACT: Option<Severity> = Some(Severity::Act);
pub(crate) const WATCH: Option<Severity> = Some(Severity::Watch);
pub(crate) const URGENT: Option<Severity> = Some(Severity::Urgent);
pub(crate) const ABSENT: Option<Severity> = None;

/// The crop so far.
#[derive(Debug, Clone)]
pub(crate) struct Crop {
    /// The plan.
    pub(crate) plan: Plan,
    /// What was written, in the order of the telling.
    pub(crate) entries: Vec<Entry>,
    /// The limits the rules go by.
    pub(crate) limits: Limits,
    /// Who writes.
    by: String,
    /// The id of the next entry.
    next: u128,
    /// The bench that is written of.
    bench: String,
}

impl Crop {
    /// Lot L1, 100 pots of it on bench E1 of house East since planting.
    pub(crate) fn new() -> Self {
        Self::bare().with_lot(lot("L1")).bench_in("E1", "East", 1).filled("E1", "L1", 100, 0)
    }

    /// A site without lots and benches.
    pub(crate) fn bare() -> Self {
        let plan = Plan { sites: vec![site()], ..Plan::default() };
        let (limits, by, bench) = (Limits::default(), "kt".to_owned(), "E1".to_owned());
        Self { plan, entries: Vec::new(), limits, by, next: 1, bench }
    }

    /// With something changed about the site.
    pub(crate) fn site(mut self, change: impl FnOnce(&mut Site)) -> Self {
        change(self.plan.sites.last_mut().expect("a site"));
        self
    }

    /// With something changed about the lot that was added last.
    pub(crate) fn lot(mut self, change: impl FnOnce(&mut Lot)) -> Self {
        change(self.plan.lots.last_mut().expect("a lot"));
        self
    }

    /// With other limits.
    pub(crate) fn limits(mut self, change: impl FnOnce(&mut Limits)) -> Self {
        change(&mut self.limits);
        self
    }

    /// One more lot.
    pub(crate) fn with_lot(mut self, lot: Lot) -> Self {
        self.plan.lots.push(lot);
        self
    }

    /// One more bench.
    pub(crate) fn bench_in(mut self, bench: &str, house: &str, order: u32) -> Self {
        self.plan.benches.push(bench_line(bench, house, order));
        self
    }

    /// Pots of a lot set down on a bench.
    pub(crate) fn filled(mut self, bench: &str, lot: &str, pots: u32, from: impl Day) -> Self {
        self.plan.placements.push(placement(bench, lot, pots, from));
        self
    }

    /// Pots of the lot that was added last, promised for a day.
    pub(crate) fn order(mut self, on: impl Day, pots: u32) -> Self {
        let lot = self.plan.lots.last().expect("a lot").lot.clone();
        self.plan.orders.push(order(&lot, on, pots));
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
        self.entries.push(Entry {
            id,
            at,
            by: self.by.as_str().into(),
            place,
            plot: None,
            kind: kind.into(),
            note: None,
        });
        self
    }

    pub(crate) fn at(self, n: impl Day, time: (u32, u32), kind: Kind) -> Self {
        let place = Place::Bench(self.bench.as_str().into());
        self.write_at(instant(n, time), place, kind)
    }

    pub(crate) fn finding(self, n: impl Day, kind: Kind) -> Self {
        self.at(n, (7, 5), kind)
    }

    pub(crate) fn work(self, n: impl Day, kind: Kind) -> Self {
        self.at(n, (8, 0), kind)
    }

    /// Water of one day.
    pub(crate) fn water(self, n: impl Day, level: u8) -> Self {
        self.at(n, (7, 0), Kind::Water { level, base: None })
    }

    /// Water of days running, from a day on.
    pub(crate) fn waters(self, from: i64, levels: &[u8]) -> Self {
        levels.iter().zip(from..).fold(self, |crop, (level, n)| crop.water(n, *level))
    }

    pub(crate) fn base(self, n: impl Day, level: u8, base: u8) -> Self {
        self.at(n, (7, 0), Kind::Water { level, base: Some(base) })
    }

    pub(crate) fn watered(self, n: impl Day) -> Self {
        self.work(n, Kind::Watered { ml_per_pot: Some(250.0) })
    }

    pub(crate) fn roots(self, n: impl Day, score: u8) -> Self {
        self.finding(n, Kind::Roots { score, pots: Some(3), bad: None, signs: Vec::new(), reach: None })
    }

    pub(crate) fn bad_roots(self, n: impl Day, score: u8, bad: u32) -> Self {
        self.finding(n, Kind::Roots { score, pots: Some(4), bad: Some(bad), signs: Vec::new(), reach: None })
    }

    pub(crate) fn root_sign(self, n: impl Day, sign: RootSign) -> Self {
        self.finding(n, Kind::Roots { score: 0, pots: Some(3), bad: None, signs: vec![sign], reach: None })
    }

    pub(crate) fn reach(self, n: impl Day, reach: Reach) -> Self {
        self.finding(n, Kind::Roots { score: 0, pots: Some(3), bad: None, signs: Vec::new(), reach: Some(reach) })
    }

    pub(crate) fn leaves(self, n: impl Day, signs: &[LeafSign], plant_part: Option<PlantPart>) -> Self {
        self.at(n, (7, 2), Kind::Leaves { signs: signs.to_vec(), plant_part, plants: None })
    }

    pub(crate) fn bracts(self, n: impl Day, stage: u8) -> Self {
        self.finding(n, Kind::Bracts { stage })
    }

    pub(crate) fn heights(self, n: impl Day, cm: &[f64]) -> Self {
        self.finding(n, Kind::Height { cm: cm.to_vec() })
    }

    pub(crate) fn pinched(self, n: impl Day) -> Self {
        self.work(n, Kind::Pinched { how: benchwalk::record::PinchHow::Soft, nodes_left: Some(7) })
    }

    pub(crate) fn lost(self, n: impl Day, pots: u32, cause: Option<&str>) -> Self {
        self.finding(n, Kind::Losses { pots, cause: cause.map(Into::into) })
    }

    pub(crate) fn nutrient(self, n: impl Day, material: Material, ppm: f64, how: Method) -> Self {
        self.work(n, Kind::Nutrient { material, ppm, how, ml_per_pot: Some(120.0) })
    }

    pub(crate) fn fed(self, n: impl Day, n_ppm: f64, mg_ppm: Option<f64>, mo_ppm: Option<f64>) -> Self {
        self.work(n, Kind::Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot: None })
    }

    pub(crate) fn root_zone(
        self,
        n: impl Day,
        method: TestMethod,
        ph: Option<f64>,
        ec: Option<f64>,
        pots: u32,
    ) -> Self {
        self.finding(n, Kind::RootZone { method, ph, ec_ms_cm: ec, pots: Some(pots) })
    }

    pub(crate) fn plants(self, n: impl Day, pest: PestName, inspected: u32, infested: u32) -> Self {
        self.finding(n, Kind::Pests { pest, count: PestCount::Plants { inspected, infested } })
    }

    pub(crate) fn cards(self, n: impl Day, pest: PestName, cards: u32, count: u32, days: u32) -> Self {
        self.finding(n, Kind::Pests { pest, count: PestCount::Cards { cards, count, days } })
    }

    pub(crate) fn wedge(self, n: impl Day, larvae: f64) -> Self {
        self.finding(n, Kind::Pests { pest: PestName::FungusGnat, count: PestCount::Wedge { larvae } })
    }

    pub(crate) fn climate(self, n: impl Day, day_c: f64, night_c: f64) -> Self {
        self.finding(
            n,
            Kind::Climate { day_c: Some(day_c), night_c: Some(night_c), humidity_percent: None, log: Box::default() },
        )
    }

    pub(crate) fn humid(self, n: impl Day, time: (u32, u32), percent: f64) -> Self {
        self.at(
            n,
            time,
            Kind::Climate { day_c: None, night_c: None, humidity_percent: Some(percent), log: Box::default() },
        )
    }

    pub(crate) fn regulator(self, n: impl Day, ai: &str, ppm: f64, how: Method) -> Self {
        let parts = vec![Part { ai: ai.into(), ppm }];
        let kind = Kind::GrowthRegulator {
            parts,
            how,
            rei_h: 0.0,
            ml_per_pot: None,
            product: None,
            rate: None,
            application: Box::default(),
        };
        self.work(n, kind)
    }

    /// A note on a lot, before the work of its day.
    pub(crate) fn noted(mut self, lot: &str, n: impl Day) -> Self {
        let at = instant(n, (0, 0));
        let (id, by, place) = (Uuid::from_u128(self.next), self.by.as_str().into(), Place::Lot(lot.into()));
        self.next += 1;
        self.entries.push(Entry {
            id,
            at,
            by,
            place,
            plot: None,
            kind: Kind::Note {}.into(),
            note: Some("planted".into()),
        });
        self
    }

    /// Strikes the entry written last.
    pub(crate) fn struck(self, n: impl Day) -> Self {
        let last = self.entries.last().expect("an entry");
        let (id, place) = (last.id, last.place.clone());
        self.write_at(instant(n, (9, 0)), place, Kind::Strike { entry: id, why: "slip".into(), reopen: false })
    }

    /// Every line: the plan, then the entries.
    pub(crate) fn lines(&self) -> Vec<Line> {
        let plan = &self.plan;
        let mut lines: Vec<Line> = plan.sites.iter().cloned().map(Line::Site).collect();
        lines.extend(plan.lots.iter().cloned().map(Line::Lot));
        lines.extend(plan.benches.iter().cloned().map(Line::Bench));
        lines.extend(plan.placements.iter().cloned().map(Line::Placement));
        lines.extend(plan.orders.iter().cloned().map(Line::Order));
        lines.extend(plan.trials.iter().cloned().map(Line::Trial));
        lines.extend(plan.plots.iter().cloned().map(Line::Plot));
        lines.extend(self.entries.iter().cloned().map(Line::Entry));
        lines
    }

    /// The crop with only the entries that are asked for.
    pub(crate) fn only(mut self, wanted: impl Fn(&Entry) -> bool) -> Self {
        self.entries.retain(wanted);
        self
    }

    /// The crop with every entry under the id that is made of its content, as the journal gives it.
    pub(crate) fn with_derived_ids(mut self) -> Self {
        for entry in &mut self.entries {
            entry.id = derived_id(entry);
        }
        self
    }

    /// The crop as a journal without an end line, so that a test may add lines to it.
    pub(crate) fn journal(&self) -> String {
        let lines = self.lines().iter().map(codec::encode).collect::<Vec<_>>().join("\n");
        format!("{}\n{lines}\n", codec::header())
    }

    pub(crate) fn season(&self) -> Season {
        Season::of(self.lines())
    }

    /// The same, with a note on every lot on its planting day: somebody has been looking since then, whatever else is logged.
    pub(crate) fn recorded(&self) -> Season {
        let lots = self.plan.lots.clone();
        let noted = Self { next: u128::MAX / 2, ..self.clone() };
        lots.iter().fold(noted, |crop, lot| crop.noted(&lot.lot, lot.planted)).season()
    }

    /// Everything told on a day.
    pub(crate) fn told(&self, n: impl Day) -> Vec<Warning> {
        let all = assess_all(&self.recorded(), n.date(), &self.limits);
        all.all().cloned().collect()
    }

    /// The strongest warning of a name on a day.
    pub(crate) fn warning(&self, n: impl Day, name: WarningName) -> Option<Warning> {
        self.told(n).into_iter().filter(|w| w.name == name).max_by_key(|w| w.level)
    }
}

/// One case: on a day the warning stands at just this level, or is absent.
#[track_caller]
pub(crate) fn holds(basis: &str, crop: &Crop, n: i64, name: WarningName, want: Option<Severity>) {
    let found = crop.warning(n, name).map(|w| w.level);
    assert_eq!(found, want, "{name:?} on day {n} ({basis})");
}
