//! How many pots of which lot stand where: every placement and every entry that moves, sells, loses, dumps or counts pots,
//! replayed once in order into a ledger a bench, from which any day is read as a prefix.
//!
//! Lenient where `check` refuses: more taken than stands leaves nothing, a second lot is not placed beside the first.
//! A count above zero on a bench that was calculated as empty shows that the pots never left: its last pots count again.

use super::moment::Moment;
use super::{Season, Standing};
use crate::record::{Entry, Kind, Place, Placement};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};
use std::sync::OnceLock;

/// True for an entry that changes how many pots stand where.
pub(super) fn touches(entry: &Entry) -> bool {
    matches!(entry.place, Place::Bench(_))
        && matches!(
            *entry.kind,
            Kind::Moved { .. } | Kind::Sold { .. } | Kind::Losses { .. } | Kind::Grade { .. } | Kind::Counted { .. }
        )
}

/// Pots that came from another bench.
#[derive(Debug, Clone)]
pub(super) struct Arrival {
    pub(super) moment: Moment,
    pub(super) from: String,
    pub(super) from_stint: usize,
}

/// One stay of pots on a bench, from filled to empty.
#[derive(Debug, Clone)]
pub(super) struct Stint {
    pub(super) lot: String,
    pub(super) first: Moment,
    pub(super) arrivals: Vec<Arrival>,
}

/// Pots standing from a moment on.
#[derive(Debug, Clone, Copy)]
struct State {
    moment: Moment,
    stint: usize,
    pots: u32,
}

/// One bench's stays.
#[derive(Debug, Clone, Default)]
pub(super) struct BenchLedger {
    pub(super) stints: Vec<Stint>,
    states: Vec<State>,
}

impl BenchLedger {
    fn now(&self) -> Option<(usize, u32)> {
        self.states.last().filter(|s| s.pots > 0).map(|s| (s.stint, s.pots))
    }

    fn lot_now(&self) -> Option<&str> {
        self.now().and_then(|(stint, _)| self.stints.get(stint)).map(|s| s.lot.as_str())
    }

    fn set(&mut self, moment: Moment, stint: usize, pots: u32) {
        self.states.push(State { moment, stint, pots });
    }

    /// Adds pots: to those that stand, or as a new stay.
    fn fill(&mut self, moment: Moment, lot: &str, pots: u32) -> usize {
        if let Some((stint, standing)) = self.now() {
            self.set(moment, stint, standing.saturating_add(pots));
            return stint;
        }
        let stint = self.stints.len();
        self.stints.push(Stint { lot: lot.to_owned(), first: moment, arrivals: Vec::new() });
        self.set(moment, stint, pots);
        stint
    }

    fn state(&self, day: NaiveDate) -> Option<State> {
        let n = self.states.partition_point(|s| s.moment.day <= day);
        n.checked_sub(1).and_then(|i| self.states.get(i)).copied().filter(|s| s.pots > 0)
    }
}

/// The move back of a swap: another move of the same instant that goes the other way.
fn swap_of<'e>(entry: &Entry, after: &[&'e Entry]) -> Option<&'e Entry> {
    let (Place::Bench(from), Kind::Moved { to, .. }) = (&entry.place, &*entry.kind) else { return None };
    let is_back = |other: &&&Entry| matches!((&other.place, &*other.kind), (Place::Bench(b), Kind::Moved { to: t, .. }) if **b == **to && **t == **from);
    after.iter().take_while(|other| other.instant() == entry.instant()).find(is_back).copied()
}

/// What the ledger could not follow, for `check`.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum CountConflict {
    /// More taken from a bench than stands there.
    TooMany { entry: uuid::Uuid, bench: String, taken: u32, standing: u32 },
    /// Pots moved onto a bench where another lot stands.
    OtherLotMoved { entry: uuid::Uuid, bench: String, lot: String, standing: String },
    /// Pots set down on a bench where another lot stands.
    OtherLotPlaced { bench: String, from: NaiveDate, lot: String, standing: String },
}

/// All benches' stays, as of the strikes known on some day.
#[derive(Debug, Clone, Default)]
pub(super) struct Ledger {
    benches: HashMap<String, BenchLedger>,
    /// Pots set down while another lot still stood; they take the bench when it leaves the same day.
    waiting: BTreeMap<String, Placement>,
    pub(super) conflicts: Vec<CountConflict>,
}

impl Ledger {
    /// Replays placements (by day) and entries (in order).
    fn replay<'a>(placements: impl Iterator<Item = &'a Placement>, entries: &[&'a Entry]) -> Self {
        let mut ledger = Self::default();
        let mut placements = placements.filter(|p| p.pots > 0).peekable();
        let mut swapped: Vec<uuid::Uuid> = Vec::new();
        let mut rest = entries;
        while let Some((entry, after)) = rest.split_first() {
            rest = after;
            while let Some(p) = placements.next_if(|p| p.from <= entry.day()) {
                ledger.place(p);
            }
            match swap_of(entry, after) {
                _ if swapped.contains(&entry.id) => {}
                Some(back) => {
                    swapped.push(back.id);
                    ledger.swap(entry, back);
                }
                None => ledger.apply(entry),
            }
        }
        placements.for_each(|p| ledger.place(p));
        let left: Vec<Placement> = std::mem::take(&mut ledger.waiting).into_values().collect();
        for p in &left {
            ledger.refuse(p);
        }
        ledger
    }

    fn refuse(&mut self, p: &Placement) {
        let standing =
            self.benches.get(&p.bench).and_then(|b| b.state(p.from).map(|s| s.stint).and_then(|s| b.stints.get(s)));
        let standing = standing.map(|s| s.lot.clone()).unwrap_or_default();
        self.conflicts.push(CountConflict::OtherLotPlaced {
            bench: p.bench.clone(),
            from: p.from,
            lot: p.lot.clone(),
            standing,
        });
    }

    fn place(&mut self, p: &Placement) {
        let bench = self.benches.entry(p.bench.clone()).or_default();
        if bench.lot_now().is_some_and(|lot| lot != p.lot) {
            if let Some(old) = self.waiting.insert(p.bench.clone(), p.clone()) {
                self.refuse(&old);
            }
        } else {
            bench.fill(Moment::start_of(p.from), &p.lot, p.pots);
        }
    }

    fn apply(&mut self, entry: &Entry) {
        let Place::Bench(bench) = &entry.place else { return };
        let moment = Moment::of(entry);
        match &*entry.kind {
            Kind::Counted { pots } => self.count(bench, moment, *pots),
            Kind::Losses { pots, .. } | Kind::Grade { dump: pots, .. } => {
                self.take(bench, moment, *pots, false);
            }
            Kind::Sold { pots } => {
                self.take(bench, moment, *pots, true);
            }
            Kind::Moved { to, pots } => self.move_pots(bench, to, moment, *pots),
            _ => {}
        }
    }

    /// Takes pots off a bench; the stay they belonged to, its lot and how many they were.
    fn take(&mut self, bench: &str, moment: Moment, pots: u32, strict: bool) -> Option<(usize, String, u32)> {
        let (stint, standing) = self.benches.get(bench).and_then(BenchLedger::now).unwrap_or((0, 0));
        if strict && pots > standing {
            let bench = bench.to_owned();
            self.conflicts.push(CountConflict::TooMany { entry: moment.id, bench, taken: pots, standing });
        }
        let taken = pots.min(standing);
        let ledger = self.benches.get_mut(bench).filter(|_| taken > 0)?;
        ledger.set(moment, stint, standing - taken);
        let lot = ledger.stints.get(stint)?.lot.clone();
        if taken == standing {
            self.emptied(bench, moment);
        }
        Some((stint, lot, taken))
    }

    /// Pots set down earlier the same day take the bench now.
    fn emptied(&mut self, bench: &str, moment: Moment) {
        let Some(p) = self.waiting.remove(bench) else { return };
        if p.from == moment.day {
            let after = Moment { id: uuid::Uuid::max(), ..moment };
            self.benches.entry(bench.to_owned()).or_default().fill(after, &p.lot, p.pots);
        } else {
            self.refuse(&p);
        }
    }

    fn count(&mut self, bench: &str, moment: Moment, pots: u32) {
        let Some(ledger) = self.benches.get_mut(bench) else { return };
        let Some(stint) = ledger.stints.len().checked_sub(1) else { return };
        ledger.set(moment, stint, pots);
        if pots == 0 {
            self.emptied(bench, moment);
        }
    }

    fn move_pots(&mut self, from: &str, to: &str, moment: Moment, pots: u32) {
        let there = self.benches.get(to).and_then(BenchLedger::lot_now).map(ToOwned::to_owned);
        if from == to {
            return;
        }
        let Some(taken) = self.take(from, moment, pots, true) else { return };
        self.arrive((from, to), moment, (taken, there), moment.id);
    }

    /// Two moves of one instant that change places: the pots of both benches are taken up before any is set down.
    fn swap(&mut self, there: &Entry, back: &Entry) {
        let (Kind::Moved { to, pots }, Kind::Moved { to: from, pots: others }) = (&*there.kind, &*back.kind) else {
            return;
        };
        let late = Moment::of(back);
        let gone = self.take(from, Moment::of(there), *pots, true);
        let come = self.take(to, late, *others, true);
        for (taken, way, id) in [(gone, (from, to), there.id), (come, (to, from), back.id)] {
            let standing = self.benches.get(way.1).and_then(BenchLedger::lot_now).map(ToOwned::to_owned);
            if let Some(taken) = taken {
                self.arrive((way.0, way.1), late, (taken, standing), id);
            }
        }
    }

    /// Sets down pots that were taken off another bench.
    fn arrive(
        &mut self,
        (from, to): (&str, &str),
        moment: Moment,
        ((from_stint, lot, taken), there): ((usize, String, u32), Option<String>),
        entry: uuid::Uuid,
    ) {
        if let Some(standing) = there.filter(|there| *there != lot) {
            self.conflicts.push(CountConflict::OtherLotMoved { entry, bench: to.to_owned(), lot, standing });
            return;
        }
        let target = self.benches.entry(to.to_owned()).or_default();
        let stint = target.fill(moment, &lot, taken);
        if let Some(stint) = target.stints.get_mut(stint) {
            stint.arrivals.push(Arrival { moment, from: from.to_owned(), from_stint });
        }
    }

    /// One bench's stays.
    pub(super) fn bench(&self, bench: &str) -> Option<&BenchLedger> {
        self.benches.get(bench)
    }

    /// The stay on a bench at the end of a day.
    pub(super) fn stint_at(&self, bench: &str, day: NaiveDate) -> Option<usize> {
        self.benches.get(bench)?.state(day).map(|s| s.stint)
    }

    /// The lot on a bench at the end of a day.
    pub(super) fn lot_at(&self, bench: &str, day: NaiveDate) -> Option<&str> {
        let ledger = self.benches.get(bench)?;
        ledger.stints.get(ledger.state(day)?.stint).map(|s| s.lot.as_str())
    }

    /// The last moment of a stay; the end of time when it may still go on.
    pub(super) fn end_of(&self, bench: &str, stint: usize) -> Moment {
        let ledger = self.benches.get(bench).filter(|b| b.stints.len() > stint.saturating_add(1));
        let last = ledger.and_then(|b| b.states.iter().rev().find(|s| s.stint == stint));
        last.map_or(Moment::end_of(NaiveDate::MAX), |s| s.moment)
    }

    /// The lot on a bench at a moment.
    pub(super) fn lot_at_moment(&self, bench: &str, moment: Moment) -> Option<&str> {
        let ledger = self.benches.get(bench)?;
        let n = ledger.states.partition_point(|s| s.moment <= moment);
        let state = ledger.states.get(n.checked_sub(1)?).filter(|s| s.pots > 0)?;
        ledger.stints.get(state.stint).map(|s| s.lot.as_str())
    }

    /// What stands on a bench at the end of a day.
    pub(super) fn standing(&self, bench: &str, day: NaiveDate) -> Option<Standing> {
        let ledger = self.benches.get(bench)?;
        let state = ledger.state(day)?;
        let stint = ledger.stints.get(state.stint)?;
        Some(Standing { lot: stint.lot.clone(), pots: state.pots, since: stint.first.day })
    }
}

/// The ledgers by the plan and the strikes that count: of each the state before any of its days and from each day on. Made when
/// first asked for.
#[derive(Debug, Clone, Default)]
pub(super) struct Ledgers {
    days: OnceLock<Vec<NaiveDate>>,
    kept: OnceLock<Vec<OnceLock<Ledger>>>,
}

impl Season {
    /// The ledger as of a day's plan and strikes.
    pub(super) fn ledger(&self, day: NaiveDate) -> &Ledger {
        static EMPTY: OnceLock<Ledger> = OnceLock::new();
        let strikes = self.ledgers.days.get_or_init(|| self.pot_strike_days());
        let plans = self.views.days.len() + 1;
        let kept =
            self.ledgers.kept.get_or_init(|| (0..plans * (strikes.len() + 1)).map(|_| OnceLock::new()).collect());
        let struck = strikes.partition_point(|d| *d <= day);
        let plan = self.views.number(Some(self.as_of.map_or(day, |as_of| as_of.min(day))));
        kept.get(struck * plans + plan)
            .map_or_else(|| EMPTY.get_or_init(Ledger::default), |slot| slot.get_or_init(|| self.replayed(day)))
    }

    fn replayed(&self, day: NaiveDate) -> Ledger {
        let mut entries: Vec<&Entry> = self.index.pots().iter().filter_map(|i| self.at(*i)).collect();
        entries.retain(|e| !self.strikes.struck(e, day));
        entries.sort_by_key(|e| Moment::of(e));
        Ledger::replay(self.on(day).view().placements.iter(), &entries)
    }
}
