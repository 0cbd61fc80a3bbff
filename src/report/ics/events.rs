//! What of a season goes into a calendar: the steps of every lot, its orders, black cloth and lights, the readings of its trials.
//!
//! What is to come or to be done now stands in it. What was done or missed is dropped; for two weeks it goes out as canceled, so that
//! a calendar that has it takes it away.

use crate::dates::{self, add_days, days_between};
use crate::limits::Limits;
use crate::record::{Lot, Trial};
use crate::report::series::{self, State, Step};
use crate::season::Season;
use crate::trials::{due, scheduled};
use chrono::NaiveDate;

/// For so many days what is done goes out as canceled (house rule: a calendar that is imported by hand is so about weekly).
const CANCELED_DAYS: i64 = 14;

/// How sure an event is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// Planned or due.
    Planned,
    /// Expected by calculation; it may move.
    Forecast,
    /// Done, missed or taken back.
    Over,
}

/// One event of whole days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// The lot.
    pub lot: String,
    /// What it is, by an id that stays the same while its days move.
    pub what: String,
    /// First day.
    pub first: NaiveDate,
    /// Last day.
    pub last: NaiveDate,
    /// In a few words.
    pub summary: String,
    /// Why, where, and as of when.
    pub description: String,
    /// How sure it is.
    pub status: Status,
    /// The houses in which the lot stands.
    pub houses: Vec<String>,
}

/// The steps of a lot: name, id and title in a calendar. The ids stand in calendars of growers: none is ever changed.
const STEPS: [(&str, &str, &str); 11] = [
    ("planting", "planting", "Planting"),
    ("pinch", "pinch", "Pinch"),
    ("growth regulator", "growth-regulator", "Growth regulator window"),
    ("magnesium", "magnesium", "Magnesium"),
    ("molybdenum", "molybdenum", "Molybdenum"),
    ("short days", "short-days", "Short days begin"),
    ("first color", "first-color", "First color"),
    ("cyathia visible", "cyathia", "Cyathia visible"),
    ("full color, ready", "full-color", "Full color"),
    ("first pollen", "first-pollen", "First pollen"),
    ("sale", "sale", "Sale"),
];

/// What the label of a product has the last word on.
const LABELED: [&str; 3] = ["growth-regulator", "magnesium", "molybdenum"];

/// The events of a season as of a day, lot by lot.
pub fn events(season: &Season, on: NaiveDate, limits: &Limits) -> Vec<Event> {
    let calendars = series::calendar(season, on, limits);
    let mut all = Vec::new();
    for (lot, calendar) in season.lots().into_iter().zip(&calendars) {
        let of = OfLot::new(season, lot, on);
        all.extend(calendar.steps.iter().filter_map(|step| of.step(step)));
        all.extend(of.nights());
        all.extend(of.orders());
        all.extend(season.trials().into_iter().filter(|trial| trial.lot == lot.lot).filter_map(|t| of.trial(t)));
    }
    all
}

/// A lot on a day, with what each of its events says of where it stands.
struct OfLot<'a> {
    season: &'a Season,
    lot: &'a Lot,
    on: NaiveDate,
    benches: Vec<&'a str>,
    houses: Vec<String>,
}

impl<'a> OfLot<'a> {
    fn new(season: &'a Season, lot: &'a Lot, on: NaiveDate) -> Self {
        let benches = season.benches_of_lot(&lot.lot, on);
        let mut houses: Vec<String> = Vec::new();
        for bench in benches.iter().filter_map(|code| season.bench(code)) {
            if !houses.contains(&bench.house) {
                houses.push(bench.house.clone());
            }
        }
        Self { season, lot, on, benches, houses }
    }

    fn event(
        &self,
        what: &str,
        (first, last): (NaiveDate, NaiveDate),
        (summary, why): (String, &str),
        status: Status,
    ) -> Event {
        let lot = self.lot;
        let mut description = format!("Lot {}, {}, {}: {why}.", lot.lot, lot.cultivar, lot.container);
        if !self.benches.is_empty() {
            description.push_str(&format!("\nBenches: {}.", self.benches.join(", ")));
        }
        if LABELED.contains(&what) {
            description.push_str("\nThe product label decides.");
        }
        description
            .push_str(&format!("\nAs of {} in Benchwalk; the record there may know more.", dates::long(self.on)));
        Event {
            lot: lot.lot.clone(),
            what: what.to_owned(),
            first,
            last: last.max(first),
            summary,
            description,
            status,
            houses: self.houses.clone(),
        }
    }

    /// True where what was over on a day still goes out as canceled.
    fn is_canceled(&self, over: NaiveDate) -> bool {
        (0..=CANCELED_DAYS).contains(&days_between(over, self.on))
    }

    fn step(&self, step: &Step) -> Option<Event> {
        let (_, what, title) = *STEPS.iter().find(|(name, ..)| *name == step.name)?;
        let named = format!("{title} {}", self.lot.lot);
        let is_work = step.is_work();
        // After the sale nothing of it is still asked for.
        let sold = self.lot.ready_by;
        if self.on > sold && (is_work || step.to < self.on) && matches!(step.state, State::Late | State::Forecast) {
            let ended = if is_work { sold } else { step.to.max(sold) };
            return self.is_canceled(ended).then(|| self.over(what, (step.from, ended), named, &step.words));
        }
        let (days, summary, status) = match step.state {
            State::Done => {
                if let Some(next) = step.next {
                    ((next, next.max(self.on)), format!("{named} again"), Status::Planned)
                } else {
                    let done = step.marks.iter().copied().max().unwrap_or(step.to);
                    return self.is_canceled(done).then(|| self.over(what, (step.from, step.to), named, &step.words));
                }
            }
            State::Over => {
                // Of work that nobody logged the step goes on to the day itself.
                let ended = if step.to < self.on { step.to } else { step.from };
                return self.is_canceled(ended).then(|| self.over(what, (step.from, ended), named, &step.words));
            }
            State::Late if is_work => ((step.from, step.to), format!("OVERDUE: {named}"), Status::Planned),
            State::Late => ((step.from, step.to), format!("{named}: may miss the sale"), Status::Forecast),
            State::Forecast => ((step.from, step.to), named, Status::Forecast),
            // Work is late from the step's last day on.
            State::Due | State::Planned if is_work => {
                ((step.from, step.to.pred_opt().unwrap_or(step.to)), named, Status::Planned)
            }
            State::Planned if what == "sale" => return self.sale(step.from),
            State::Due | State::Planned | State::Open => ((step.from, step.to), named, Status::Planned),
        };
        Some(self.event(what, days, (summary, &step.words), status))
    }

    fn over(&self, what: &str, days: (NaiveDate, NaiveDate), summary: String, why: &str) -> Event {
        self.event(what, days, (summary, why), Status::Over)
    }

    /// The day the lot is to be ready; its orders are events of their own.
    fn sale(&self, day: NaiveDate) -> Option<Event> {
        let pots: u64 = self.season.orders(&self.lot.lot).iter().map(|order| u64::from(order.pots)).sum();
        let committed = if pots > 0 { format!(", {pots} pots committed in all") } else { String::new() };
        self.one_day(
            "sale",
            day,
            format!("{} ready for sale", self.lot.lot),
            &format!("the sale as planned{committed}"),
        )
    }

    /// Something of one day that nobody logs as done: over with its day.
    fn one_day(&self, what: &str, day: NaiveDate, summary: String, why: &str) -> Option<Event> {
        if day >= self.on {
            return Some(self.event(what, (day, day), (summary, why), Status::Planned));
        }
        self.is_canceled(day).then(|| self.over(what, (day, day), summary, why))
    }

    fn nights(&self) -> impl Iterator<Item = Event> {
        let lot = &self.lot.lot;
        let cloth = self.lot.blackout_from.and_then(|day| {
            self.one_day(
                "black-cloth",
                day,
                format!("Black cloth on {lot} from this evening"),
                "first evening under black cloth",
            )
        });
        let lights = self.lot.lights_until.and_then(|day| {
            self.one_day(
                "lights",
                day,
                format!("Last night with lights on {lot}"),
                "after this night the lights stay off",
            )
        });
        cloth.into_iter().chain(lights)
    }

    fn orders(&self) -> Vec<Event> {
        let lot = &self.lot.lot;
        let of = |order: &crate::record::Order| {
            let what = format!("order-{}", order.date);
            if order.pots == 0 {
                // Taken back: canceled for as long as a calendar may still show it.
                let open = days_between(order.date, self.on) <= CANCELED_DAYS;
                let days = (order.date, order.date);
                return open.then(|| self.over(&what, days, format!("Order of {lot}"), "no longer committed"));
            }
            self.one_day(&what, order.date, format!("{} pots of {lot} committed", order.pots), "an order is due")
        };
        self.season.orders(lot).into_iter().filter_map(of).collect()
    }

    /// The next reading of a trial: the one that is due, or the next of its schedule.
    fn trial(&self, trial: &Trial) -> Option<Event> {
        let what = format!("trial-{}", trial.trial);
        let summary = format!("Read trial {}", trial.trial);
        let since = scheduled(trial, self.on);
        if let Some(first) = since.filter(|_| !due(self.season, trial, self.on).is_empty()) {
            return Some(self.event(&what, (first, self.on), (summary, &trial.question), Status::Planned));
        }
        let next = since.map_or(trial.from, |day| add_days(day, i64::from(trial.every())));
        match trial.until {
            Some(until) if next > until || (since.is_none() && until < self.on) => {
                self.is_canceled(until).then(|| self.over(&what, (until, until), summary, &trial.question))
            }
            _ if next > self.on => Some(self.event(&what, (next, next), (summary, &trial.question), Status::Planned)),
            _ => None,
        }
    }
}
