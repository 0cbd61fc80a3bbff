//! When the record of a lot begins. A season may be started in the middle of the crop: what was done to its pots before is not
//! known then, and a rule that looks for something missing counts from the beginning of the record.
//!
//! The record of a lot begins on the day of the first look at it: an observation of the lot, of a bench where it stands or of the
//! house around that bench, notes included. Work does not begin it, as work of earlier days is entered afterward to say what was
//! done; readings of an instrument (climate, light, hose) do not either, as a logger may hold weeks that nobody walked. Before
//! the first look the record begins with the day on which the lot was entered into the plan.

use super::Season;
use super::moment::Moment;
use crate::record::{Entry, KindName, Lot, Place};
use chrono::NaiveDate;

/// A record that begins within so many days of the planting reaches back to it (house rule: nothing falls due sooner).
const REACHES_BACK_DAYS: i64 = 7;

impl Season {
    /// The day from which the record of a lot is whole, as known at the end of a day: its planting, or the beginning of a record
    /// that came later.
    pub fn record_begins(&self, lot: &Lot, day: NaiveDate) -> NaiveDate {
        let begins = self.first_look(&lot.lot, day).or_else(|| self.planned_on(&lot.lot)).unwrap_or(lot.planted);
        let late = begins.signed_duration_since(lot.planted).num_days() > REACHES_BACK_DAYS;
        if late { begins } else { lot.planted }
    }

    /// The day of the first look at a lot, up to the end of a day.
    fn first_look(&self, lot: &str, day: NaiveDate) -> Option<NaiveDate> {
        let whole = self.first_at(&Place::Lot(lot.into()), (None, Moment::end_of(day)), day);
        let ledger = self.ledger(day);
        let stays = self.benches().iter().flat_map(|bench| {
            let stints = ledger.bench(&bench.bench).map_or(&[][..], |b| b.stints.as_slice()).iter().enumerate();
            let here = stints.filter(|(_, stint)| stint.lot == lot).map(|(n, stint)| (n, stint.first));
            here.map(|(n, first)| (bench, first, ledger.end_of(&bench.bench, n))).collect::<Vec<_>>()
        });
        let looks = stays.filter_map(|(bench, first, last)| {
            let between = (Some(first), last.min(Moment::end_of(day)));
            let own = self.first_at(&Place::Bench(bench.bench.as_str().into()), between, day);
            own.into_iter().chain(self.first_at(&Place::House(bench.house.as_str().into()), between, day)).min()
        });
        looks.chain(whole).min()
    }

    /// The day of the first look at a place between two moments.
    fn first_at(&self, place: &Place, (from, to): (Option<Moment>, Moment), day: NaiveDate) -> Option<NaiveDate> {
        let entries = self.index.at(place).iter().filter_map(|at| self.at(*at));
        let mut looks = entries
            .skip_while(|e| from.is_some_and(|from| Moment::of(e) < from))
            .take_while(|e| Moment::of(e) <= to)
            .filter(|e| is_look(e) && !self.strikes.struck(e, day));
        looks.next().map(Entry::day)
    }

    /// The day on which a lot was entered into the plan; `None` where a line of it does not say when it was written.
    fn planned_on(&self, lot: &str) -> Option<NaiveDate> {
        let lines = self.plan.lots.iter().filter(|l| l.lot == lot);
        let days: Option<Vec<NaiveDate>> = lines.map(|l| l.revision.at.map(|at| at.date_naive())).collect();
        days?.into_iter().min()
    }
}

/// True for an observation that somebody made.
fn is_look(entry: &Entry) -> bool {
    let name = entry.name();
    name.is_finding() && !matches!(name, KindName::Climate | KindName::NightLight | KindName::FeedCheck)
}
