//! A season: its plan and its entries, indexed, so that "what counts for the pots on this bench up to this day" is one quick
//! question. Every rule and every screen reads the record through here, so strikes, moves, pots standing and keep-out are
//! decided once.
//!
//! What counts, in one place:
//! - An entry's day is the local day in its own offset. Entries after the day asked about do not count, nor do strikes.
//! - A bench's history starts when its present pots were first set down. A bench that ran empty and is filled again starts
//!   afresh; pots of the same lot joining standing pots (set down or moved in) bring their history along, by union.
//! - A `moved` entry takes the history of the pots that left along, up to and with itself, through any number of moves.
//! - Two moves of one instant between the same two benches, one each way, are a swap: both are taken up before either is set down.
//! - An entry on a house or a lot counts for a bench from the moment the bench stands with pots, not before: a house entry at
//!   7:00 says nothing of pots set down by a move at noon (but it counts if they came from a bench of that house).
//! - Within a day, pots set down by the plan stand from its beginning; unless another lot still stands, then from the moment
//!   that lot has left.
//! - The record of a lot begins with the first look at it ([`Season::record_begins`]); what was done before is not known unless
//!   a line of the plan says it.
//! - Entries of one instant are ordered by their ids.
//! - The plan is read as it stood on a day ([`Season::on`]); without a day, with all that is known. How many pots stand on an
//!   earlier day goes by the plan and the strikes known then.

mod admit;
mod applications;
mod begins;
mod check;
mod completed;
mod history;
mod index;
mod keep_out;
mod moment;
mod moves;
mod origins;
pub mod places;
mod pots;
mod revisions;
mod room;
mod settle;
mod strikes;

pub use applications::Treatment;
pub use check::SeasonFault;
pub use history::{History, Written};
pub use keep_out::closes_until;
pub use origins::Origins;
pub use settle::{
    ClockAhead, Contradiction, Missing, NotThere, PotsLeft, Twins, Unsettled, Writer, both_right, names_as_right,
};

use crate::record::{
    Bench, Entry, KindName, Line, LineKey, Lot, LotHistory, Order, Place, Placement, Plan, Plot, Site, Trial,
};
use chrono::{DateTime, NaiveDate, Utc};
use index::{Index, PlanView, PlanViews, Position};
use pots::Ledgers;
use std::sync::Arc;
use strikes::Strikes;

/// What stands on a bench at the end of a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Code of the lot.
    pub lot: String,
    /// Calculated number of pots standing: set down + moved in - moved out - lost - dumped - sold, or the last count with what
    /// came after.
    pub pots: u32,
    /// The day the bench was last filled from empty.
    pub since: NaiveDate,
}

/// One season at one site: the plan and all entries, indexed.
#[derive(Debug, Clone, Default)]
pub struct Season {
    plan: Arc<Plan>,
    views: Arc<PlanViews>,
    /// By (instant, id).
    entries: Arc<Vec<Entry>>,
    index: Arc<Index>,
    strikes: Arc<Strikes>,
    ledgers: Arc<Ledgers>,
    origins: Arc<Origins>,
    /// The day as of which the plan is read; `None` for all that is known.
    as_of: Option<NaiveDate>,
}

impl Season {
    /// Indexes a plan and its entries, in any order. Of entries with one id the first is kept.
    pub fn new(plan: Plan, mut entries: Vec<Entry>) -> Self {
        Entry::sort(&mut entries);
        let views = Arc::new(PlanViews::of(&plan));
        let index = Arc::new(Index::of(&mut entries));
        let strikes = Arc::new(Strikes::of(&entries));
        let (plan, entries) = (Arc::new(plan), Arc::new(entries));
        Self { plan, views, entries, index, strikes, ledgers: Arc::default(), origins: Arc::default(), as_of: None }
    }

    /// The season with its plan as it stood at the end of a day: revisions written later do not count, corrections do. A view
    /// of the same record, made without copying it; of a view of an earlier day it stays that day.
    #[must_use]
    pub fn on(&self, day: NaiveDate) -> Self {
        let as_of = Some(self.as_of.map_or(day, |as_of| as_of.min(day)));
        Self { as_of, ..self.clone() }
    }

    /// The season with all of its plan.
    #[must_use]
    pub fn whole(&self) -> Self {
        Self { as_of: None, ..self.clone() }
    }

    /// The season with its plan alone: what another thread holds of it costs nothing when an entry is added here.
    #[must_use]
    pub fn without_entries(&self) -> Self {
        Self { plan: Arc::clone(&self.plan), views: Arc::clone(&self.views), as_of: self.as_of, ..Self::default() }
    }

    /// The plan that holds.
    fn view(&self) -> &PlanView {
        self.views.view(&self.plan, self.as_of)
    }

    /// All lines of this key, those too that do not hold any more.
    fn lines_of(&self, key: &LineKey) -> Vec<Line> {
        self.plan.lines().into_iter().filter(|line| line.key() == *key).collect()
    }

    /// The line of this key that holds; `None` for a new key.
    pub fn line(&self, key: &LineKey) -> Option<Line> {
        revisions::by_key(&self.lines_of(key)).get(key).and_then(|r| r.holds(self.as_of))
    }

    /// The lines of this key that hold and that nothing written later takes the place of: one, or none for a new key; more
    /// where two laptops wrote without knowing of each other. In their order; the last one holds.
    pub fn heads(&self, key: &LineKey) -> Vec<Line> {
        let lines = self.lines_of(key);
        let revisions = revisions::by_key(&lines);
        revisions.get(key).map(|r| r.heads(self.as_of).into_iter().cloned().collect()).unwrap_or_default()
    }

    /// The season of a journal's lines, in whatever order they come.
    pub fn of(lines: impl IntoIterator<Item = Line>) -> Self {
        let mut plan = Plan::default();
        let entries = lines.into_iter().filter_map(|line| plan.keep(line)).collect();
        Self::new(plan, entries)
    }

    /// Every plan line kept, all revisions.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The first and last day the plan speaks of: plantings, sales and orders. `None` before a lot is planned.
    pub fn planned_days(&self) -> Option<(NaiveDate, NaiveDate)> {
        let lots = self.lots();
        let orders = lots.iter().flat_map(|lot| self.orders(&lot.lot)).map(|order| order.date);
        let days: Vec<NaiveDate> = lots.iter().flat_map(|lot| [lot.planted, lot.ready_by]).chain(orders).collect();
        days.iter().min().copied().zip(days.iter().max().copied())
    }

    /// All entries, struck-out ones among them, by (instant, id).
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The entries of a kind, struck-out ones among them, by (instant, id): quicker than to look through all of them.
    pub fn entries_of(&self, kind: KindName) -> impl Iterator<Item = &Entry> {
        let listed = self.index.of_kind(kind);
        let all = listed.is_none().then(|| self.entries.iter().filter(move |entry| entry.name() == kind));
        let listed = listed.unwrap_or_default().iter().filter_map(|position| self.at(*position));
        listed.chain(all.into_iter().flatten())
    }

    /// The entries that count for their whole place at the end of a day, by (instant, id): not struck out, and not of one plot
    /// of a trial.
    pub fn counting(&self, day: NaiveDate) -> impl Iterator<Item = &Entry> {
        self.entries.iter().filter(move |e| self.counts(e, day))
    }

    /// Those of one kind; the others are not read.
    pub fn counting_of(&self, kind: KindName, day: NaiveDate) -> impl Iterator<Item = &Entry> {
        self.entries_of(kind).filter(move |e| self.counts(e, day))
    }

    /// True of an entry that counts for its whole place at the end of a day.
    pub fn counts(&self, entry: &Entry, day: NaiveDate) -> bool {
        entry.day() <= day && entry.is_of_whole_place() && !self.is_struck(entry, day)
    }

    /// The entry at a position of the index.
    fn at(&self, position: Position) -> Option<&Entry> {
        self.entries.get(position as usize)
    }

    /// The entry with this id.
    pub fn entry(&self, id: uuid::Uuid) -> Option<&Entry> {
        let at = self.index.instant(id)?;
        let position = self.entries.binary_search_by_key(&(at, id), Entry::order).ok()?;
        self.entries.get(position)
    }

    /// The site, as it stands; `None` only when the plan has none.
    pub fn site(&self) -> Option<&Site> {
        self.view().site.as_ref()
    }

    /// A lot, as it stands.
    pub fn lot(&self, code: &str) -> Option<&Lot> {
        self.view().lots.get(code)
    }

    /// All lots, by code.
    pub fn lots(&self) -> Vec<&Lot> {
        self.view().lots.values().collect()
    }

    /// What was said of the time before a lot's record began; `None` where nothing was.
    pub fn lot_history(&self, code: &str) -> Option<&LotHistory> {
        self.view().histories.get(code)
    }

    /// All benches in walking order.
    pub fn benches(&self) -> &[Bench] {
        &self.view().walk
    }

    /// A bench, as it stands.
    pub fn bench(&self, code: &str) -> Option<&Bench> {
        self.view().bench(code)
    }

    /// The houses, in the order the walk comes to them.
    pub fn houses(&self) -> Vec<&str> {
        self.by_house().into_iter().map(|(house, _)| house).collect()
    }

    /// The benches of each house in walking order, the houses in the order the walk comes to them.
    pub fn by_house(&self) -> Vec<(&str, Vec<&Bench>)> {
        let mut houses: Vec<(&str, Vec<&Bench>)> = Vec::new();
        for bench in &self.view().walk {
            // Most often the house of the bench before.
            match houses.iter_mut().rfind(|(house, _)| *house == bench.house) {
                Some((_, benches)) => benches.push(bench),
                None => houses.push((&bench.house, vec![bench])),
            }
        }
        houses
    }

    /// What is set down where, as it stands, by day and bench; those taken back (0 pots) among them.
    pub fn all_placements(&self) -> Vec<&Placement> {
        self.view().placements.iter().collect()
    }

    /// A lot's orders as they stand, by date.
    pub fn orders(&self, lot: &str) -> Vec<&Order> {
        self.view().orders.iter().filter(|o| o.lot == lot).collect()
    }

    /// A lot's placements as they stand, by day; those taken back (0 pots) among them.
    pub fn placements(&self, lot: &str) -> Vec<&Placement> {
        self.view().placements.iter().filter(|p| p.lot == lot).collect()
    }

    /// All trials, by code.
    pub fn trials(&self) -> Vec<&Trial> {
        self.view().trials.values().collect()
    }

    /// A trial, as it stands.
    pub fn trial(&self, code: &str) -> Option<&Trial> {
        self.view().trials.get(code)
    }

    /// The plots of a trial as they stand, by number.
    pub fn plots(&self, trial: &str) -> Vec<&Plot> {
        self.view().plots.iter().filter(|plot| plot.trial == trial).collect()
    }

    /// A plot, as it stands.
    pub fn plot(&self, code: &str) -> Option<&Plot> {
        self.view().plots.iter().find(|plot| plot.plot == code)
    }

    /// The plots on a bench as they stand, by trial and number.
    pub fn plots_on(&self, bench: &str) -> Vec<&Plot> {
        self.view().plots.iter().filter(|plot| plot.bench == bench).collect()
    }

    /// The entries of one plot that count at the end of a day, by (instant, id).
    pub fn plot_entries(&self, plot: &str, day: NaiveDate) -> impl Iterator<Item = &Entry> {
        let entries = self.index.of_plot(plot).iter().filter_map(|position| self.at(*position));
        entries.filter(move |entry| entry.day() <= day && !self.is_struck(entry, day))
    }

    /// The laptop that wrote a line; `None` for this one, and where the season is not shared.
    pub fn origin(&self, line: uuid::Uuid) -> Option<&str> {
        self.origins.of(line)
    }

    /// What is known of the laptops that wrote its lines.
    pub fn origins(&self) -> &Origins {
        &self.origins
    }

    /// Adds what is known of the laptops that wrote its lines.
    pub fn add_origins(&mut self, more: &Origins) {
        if !more.says_nothing() {
            Arc::make_mut(&mut self.origins).extend(more);
        }
    }

    /// The same season with what is known of the laptops that wrote the lines of another one, before it was indexed again.
    #[must_use]
    pub fn with_origins_of(self, other: &Self) -> Self {
        Self { origins: Arc::clone(&other.origins), ..self }
    }

    /// Adds an entry; false, and nothing changed, when one with its id is known.
    pub fn insert(&mut self, entry: Entry) -> bool {
        if self.index.instant(entry.id).is_some() {
            return false;
        }
        let struck = Arc::make_mut(&mut self.strikes).add(&entry).and_then(|id| self.entry(id));
        let touches = pots::touches(&entry) || struck.is_some_and(pots::touches);
        let position = self.entries.partition_point(|e| e.order() < entry.order());
        Arc::make_mut(&mut self.index).add(&entry, position, position == self.entries.len());
        Arc::make_mut(&mut self.entries).insert(position, entry);
        if touches {
            self.ledgers = Arc::default();
        }
        true
    }

    /// Adds a line of the plan (or an entry). A line whose id is known changes nothing.
    pub fn revise(&mut self, line: Line) {
        if let Line::Entry(entry) = line {
            self.insert(entry);
            return;
        }
        let (key, id) = (line.key(), line.id());
        if self.plan.lines().iter().any(|kept| kept.key() == key && kept.id() == id) {
            return;
        }
        Arc::make_mut(&mut self.plan).keep(line);
        self.views = Arc::new(PlanViews::of(&self.plan));
        self.ledgers = Arc::default();
    }

    /// What stands on a bench at the end of a day; `None` when it is empty.
    pub fn standing(&self, bench: &str, day: NaiveDate) -> Option<Standing> {
        self.ledger(day).standing(bench, day)
    }

    /// Codes of the benches where a lot stands at the end of a day, in walking order.
    pub fn benches_of_lot(&self, lot: &str, day: NaiveDate) -> Vec<&str> {
        let ledger = self.ledger(day);
        let stands = |code: &str| ledger.lot_at(code, day).is_some_and(|l| l == lot);
        self.benches().iter().map(|b| b.bench.as_str()).filter(|code| stands(code)).collect()
    }

    /// Codes of the benches of a place at the end of a day, in walking order: itself, those where the lot stands, all of a house.
    pub fn benches_at<'s>(&'s self, place: &'s Place, day: NaiveDate) -> Vec<&'s str> {
        match place {
            Place::Bench(code) => vec![code],
            Place::Lot(lot) => self.benches_of_lot(lot, day),
            Place::House(house) => {
                self.benches().iter().filter(|b| *b.house == **house).map(|b| b.bench.as_str()).collect()
            }
        }
    }

    /// The lot an entry was written of: its own, or the one that stood on its bench that day (for an entry that emptied the
    /// bench, the one that stood there the day before). `None` for a house.
    pub fn lot_of(&self, entry: &Entry) -> Option<String> {
        match &entry.place {
            Place::Lot(code) => Some(code.to_string()),
            Place::House(_) => None,
            Place::Bench(code) => {
                let before = entry.day().pred_opt().and_then(|d| self.standing(code, d));
                self.standing(code, entry.day()).or(before).map(|s| s.lot)
            }
        }
    }

    /// The local day at the site of an instant (the UTC day when there is no site).
    pub fn day_of(&self, at: DateTime<Utc>) -> NaiveDate {
        self.site().map_or_else(|| at.date_naive(), |s| at.with_timezone(&s.time_zone).date_naive())
    }

    /// True when an entry is struck out as of a day.
    pub fn is_struck(&self, entry: &Entry, day: NaiveDate) -> bool {
        self.strikes.struck(entry, day)
    }
}
