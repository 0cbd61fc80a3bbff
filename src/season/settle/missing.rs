//! Lines that name what is not there. On the way from laptop to laptop an entry may come before its bench, a strike before its
//! entry: that mends itself. What is still missing a day later is to be settled.

use super::{Unsettled, Writer};
use crate::record::{Kind, Line, Place};
use crate::season::Season;
use crate::season::index::Position;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// How long a line may wait for what it names.
const WAITS: TimeDelta = TimeDelta::hours(24);

/// What is not there.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Missing {
    /// A bench.
    Bench(String),
    /// A house: no bench is in it.
    House(String),
    /// A lot.
    Lot(String),
    /// A plot of a trial.
    Plot(String),
    /// The entry that a strike names.
    Entry(Uuid),
}

/// Lines that name something that is not there.
#[derive(Debug, Clone, PartialEq)]
pub struct NotThere {
    /// What is not there.
    pub what: Missing,
    /// The lines that name it, in their order.
    pub lines: Vec<Uuid>,
    /// Who wrote the first of them.
    pub writer: Writer,
}

/// The lines that name what is not there.
type Named = BTreeMap<Missing, Vec<(DateTime<Utc>, Uuid, Writer)>>;

impl Season {
    /// What lines have named for more than a day and is not there, by what it is; read at an instant, or at the end of the
    /// season's day.
    pub(super) fn not_there(&self, now: Option<DateTime<Utc>>) -> Vec<Unsettled> {
        let mut named = Named::new();
        self.unknown_places(&mut named);
        self.unknown_targets(&mut named);
        self.unknown_in_plan(&mut named);
        let now = now.or_else(|| self.as_of.and_then(|day| day.succ_opt()).map(|next| self.midnight(next)));
        let known = |at: &DateTime<Utc>| now.is_none_or(|now| *at <= now);
        let waited = |at: &DateTime<Utc>| now.is_none_or(|now| now.signed_duration_since(*at) > WAITS);
        let found = named.into_iter().filter_map(|(what, mut lines)| {
            lines.retain(|(at, ..)| known(at));
            lines.sort_by_key(|(at, id, _)| (*at, *id));
            let (_, _, writer) = lines.first().filter(|(at, ..)| waited(at))?.clone();
            Some(NotThere { what, lines: lines.into_iter().map(|(_, id, _)| id).collect(), writer })
        });
        found.map(Unsettled::NotThere).collect()
    }

    /// Entries at a place that is not in the plan.
    fn unknown_places(&self, named: &mut Named) {
        let whole = self.whole();
        let houses: BTreeSet<&str> = whole.benches().iter().map(|b| b.house.as_str()).collect();
        for (place, list) in self.index.places() {
            let what = match place {
                Place::Bench(code) if whole.bench(code).is_none() => Missing::Bench(code.to_string()),
                Place::House(house) if !houses.contains(house.as_ref()) => Missing::House(house.to_string()),
                Place::Lot(lot) if whole.lot(lot).is_none() => Missing::Lot(lot.to_string()),
                _ => continue,
            };
            self.named_by(what, list.iter().copied(), named);
        }
        for (plot, list) in self.index.plots().filter(|(plot, _)| whole.plot(plot).is_none()) {
            self.named_by(Missing::Plot(plot.to_owned()), list.iter().copied(), named);
        }
        for at in self.index.pots() {
            if let Some(Kind::Moved { to, .. }) = self.at(*at).map(|e| &*e.kind)
                && whole.bench(to).is_none()
            {
                self.named_by(Missing::Bench(to.clone()), [*at], named);
            }
        }
    }

    /// Strikes of an entry that is not there.
    fn unknown_targets(&self, named: &mut Named) {
        for (target, strike) in self.strikes.named().filter(|(target, _)| self.entry(*target).is_none()) {
            if let Some(entry) = self.entry(strike.id) {
                let line = (entry.instant(), entry.id, self.writer(entry));
                named.entry(Missing::Entry(target)).or_default().push(line);
            }
        }
    }

    /// Placements, orders and trials of a bench or lot that is not in the plan.
    fn unknown_in_plan(&self, named: &mut Named) {
        let whole = self.whole();
        let view = whole.view();
        let mut name = |what: Missing, line: Line| {
            let writer = self.writer_of_line(&line);
            let at = writer.at.map_or(DateTime::<Utc>::MIN_UTC, |at| at.to_utc());
            named.entry(what).or_default().push((at, line.id(), writer));
        };
        for placed in view.placements.iter().filter(|p| p.pots > 0) {
            if whole.bench(&placed.bench).is_none() {
                name(Missing::Bench(placed.bench.clone()), Line::Placement(placed.clone()));
            }
            if whole.lot(&placed.lot).is_none() {
                name(Missing::Lot(placed.lot.clone()), Line::Placement(placed.clone()));
            }
        }
        for order in view.orders.iter().filter(|o| o.pots > 0 && whole.lot(&o.lot).is_none()) {
            name(Missing::Lot(order.lot.clone()), Line::Order(order.clone()));
        }
        for trial in view.trials.values().filter(|t| whole.lot(&t.lot).is_none()) {
            name(Missing::Lot(trial.lot.clone()), Line::Trial(trial.clone()));
        }
        for plot in view.plots.iter().filter(|p| whole.bench(&p.bench).is_none()) {
            name(Missing::Bench(plot.bench.clone()), Line::Plot(plot.clone()));
        }
    }

    /// Notes the entries at these positions that are not struck.
    fn named_by(&self, what: Missing, list: impl IntoIterator<Item = Position>, named: &mut Named) {
        let entries = list.into_iter().filter_map(|at| self.at(at));
        let counting = entries.filter(|e| !matches!(*e.kind, Kind::Strike { .. }));
        let counting = counting.filter(|e| !self.strikes.struck(e, self.settled_on()));
        let lines: Vec<_> = counting.map(|e| (e.instant(), e.id, self.writer(e))).collect();
        if !lines.is_empty() {
            named.entry(what).or_default().extend(lines);
        }
    }
}
