//! The plan that the next season may start from: the same site, benches and lots, each lot moved to its new sale date.
//!
//! A lot moves as a whole: what the crop's calendar counts back from the sale moves with it, and the calendar says when short days
//! must begin. By whole weeks every date keeps its weekday. Natural nights do not move with a sale; what that means for each lot
//! is said with it. What was the past season's alone (histories, trials, entries) stays behind, and so do its orders, which nobody
//! has placed again, unless they are asked for.

use crate::crop::CropError;
use crate::crop::calendar::{BackwardPlan, Darkness, PinchPlan, backward_from_sale, darkness};
use crate::dates::{add_days, days_between};
use crate::limits::Limits;
use crate::record::{Line, Lot, NOBODY, Placement, Revision};
use crate::season::Season;
use crate::warnings::short_days;
use chrono::{DateTime, Datelike, FixedOffset, NaiveDate};
use std::collections::BTreeMap;
use thiserror::Error;

/// How the plan is moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Shift<'a> {
    /// Weeks by which a lot moves whose sale is not given.
    pub weeks: i64,
    /// New sale dates by lot.
    pub ready: BTreeMap<String, NaiveDate>,
    /// Take the orders along.
    pub orders: bool,
    /// When the new plan is written.
    pub at: DateTime<FixedOffset>,
    /// Who writes it; empty where nobody said.
    pub by: &'a str,
}

/// How one lot moved.
#[derive(Debug, Clone, PartialEq)]
pub struct LotDates {
    /// The lot, as it now stands.
    pub lot: Lot,
    /// Days it moved.
    pub days: i64,
    /// The slow-release for this season, set from the amount that was kept for it, and what that goes by.
    pub slow_release: Option<(f64, Option<String>)>,
    /// Short days must begin here for the sale.
    pub short_days: NaiveDate,
    /// What the nights of the lot need for that.
    pub darkness: Darkness,
}

/// The next season's plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// Its lines, as a journal takes them.
    pub lines: Vec<Line>,
    /// Its lots.
    pub lots: Vec<LotDates>,
    /// Placements left out, with why: bench, lot, day.
    pub left_out: Vec<(Placement, String)>,
}

/// Why there is no next plan.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NextError {
    /// The season has no site or no lot.
    #[error("the season has no lot to start from")]
    Empty,
    /// A sale date for a lot that is not there.
    #[error("there is no lot '{lot}'; lots: {known}")]
    NoSuchLot {
        /// What was asked for.
        lot: String,
        /// The lots.
        known: String,
    },
    /// Dates the calendar cannot hold.
    #[error("lot {lot}: {error}")]
    Crop {
        /// The lot.
        lot: String,
        /// Why.
        error: Box<CropError>,
    },
    /// Lines that no season would take.
    #[error("{0}")]
    Refused(String),
}

impl Next {
    /// Of a season whose plan is read as it stands.
    ///
    /// # Errors
    /// See [`NextError`].
    pub fn of(season: &Season, limits: &Limits, shift: &Shift<'_>) -> Result<Self, NextError> {
        let (Some(site), lots) = (season.site(), season.lots()) else { return Err(NextError::Empty) };
        if lots.is_empty() {
            return Err(NextError::Empty);
        }
        if let Some(lot) = shift.ready.keys().find(|code| season.lot(code).is_none()) {
            let known = lots.iter().map(|lot| lot.lot.as_str()).collect::<Vec<_>>().join(", ");
            return Err(NextError::NoSuchLot { lot: lot.clone(), known });
        }
        let days: BTreeMap<&str, i64> = lots.iter().map(|lot| (lot.lot.as_str(), shift.days(lot))).collect();
        let mut moved = Vec::with_capacity(lots.len());
        for lot in &lots {
            moved.push(shifted(lot, days.get(lot.lot.as_str()).copied().unwrap_or(0))?);
        }
        let mut lines = vec![Line::Site(site.clone())];
        lines.extend(moved.iter().map(|(lot, _)| Line::Lot(lot.clone())));
        lines.extend(season.benches().iter().cloned().map(Line::Bench));
        let by = |lot: &str| days.get(lot).copied();
        for placement in season.all_placements().into_iter().filter(|p| p.pots > 0) {
            let Some(n) = by(&placement.lot) else { continue };
            lines.push(Line::Placement(Placement { from: add_days(placement.from, n), ..placement.clone() }));
        }
        let orders = lots.iter().filter(|_| shift.orders).flat_map(|lot| season.orders(&lot.lot));
        for order in orders.filter(|order| order.pots > 0) {
            let Some(n) = by(&order.lot) else { continue };
            lines.push(Line::Order(crate::record::Order { date: add_days(order.date, n), ..order.clone() }));
        }
        for line in &mut lines {
            shift.sign(line);
        }
        let left_out = without_faults(&mut lines, site.units)?;
        let next = Season::of(lines.iter().cloned());
        let dated = moved.into_iter().map(|(lot, wanted)| {
            let begins = short_days(&next, &lot, lot.ready_by, limits);
            dates(season, (lot, wanted), begins)
        });
        let lots = dated.collect::<Result<_, _>>()?;
        Ok(Self { lines, lots, left_out })
    }
}

impl Shift<'_> {
    /// Days a lot moves.
    fn days(&self, lot: &Lot) -> i64 {
        self.ready.get(&lot.lot).map_or(self.weeks.saturating_mul(7), |day| days_between(lot.ready_by, *day))
    }

    /// Makes a line the first of its key, written now.
    fn sign(&self, line: &mut Line) {
        let by = if self.by.is_empty() { NOBODY } else { self.by };
        if let Some(revision) = line.revision_mut() {
            *revision = Revision {
                at: Some(self.at),
                by: Some(by.to_owned()),
                replaces: Some(Vec::new()),
                ..Revision::default()
            };
        }
        let id = line.id();
        if let Some(revision) = line.revision_mut() {
            revision.id = Some(id);
        }
    }
}

/// A lot moved by so many days, and the day on which its short days must begin.
fn shifted(lot: &Lot, n: i64) -> Result<(Lot, NaiveDate), NextError> {
    let failed = |error| NextError::Crop { lot: lot.lot.clone(), error: Box::new(error) };
    let later = |day: NaiveDate| add_days(day, n);
    let ready_by = later(lot.ready_by);
    if !(2000..=2100).contains(&ready_by.year()) {
        return Err(failed(CropError::NoSuchDay { what: "the sale" }));
    }
    let pinch = PinchPlan::Unpinched { plant_weeks_before_sd: 0.0 };
    let plan = BackwardPlan { ready_by, response_weeks: lot.response_weeks, pinch };
    let wanted = backward_from_sale(&plan).map_err(failed)?.short_days;
    let moved = Lot {
        ready_by,
        planted: later(lot.planted),
        blackout_from: lot.blackout_from.map(later),
        lights_until: lot.lights_until.map(later),
        program_from: lot.program_from.map(later),
        slow_release_g: lot.next_release_g.or(lot.slow_release_g),
        next_release_g: None,
        next_release_basis: None,
        ..lot.clone()
    };
    Ok((moved, wanted))
}

/// What is said of a lot that moved.
fn dates(
    season: &Season,
    (lot, short_days): (Lot, NaiveDate),
    begins: Option<NaiveDate>,
) -> Result<LotDates, NextError> {
    let before = season.lot(&lot.lot);
    let days = before.map_or(0, |before| days_between(before.ready_by, lot.ready_by));
    let slow_release = before.and_then(|before| Some((before.next_release_g?, before.next_release_basis.clone())));
    let failed = |error| NextError::Crop { lot: lot.lot.clone(), error: Box::new(error) };
    let darkness = darkness(short_days, begins).map_err(failed)?;
    Ok(LotDates { lot, days, slow_release, short_days, darkness })
}

/// Takes out the placements that a season would refuse, such as a second lot on a bench that the first left by a sale.
fn without_faults(lines: &mut Vec<Line>, units: crate::units::System) -> Result<Vec<(Placement, String)>, NextError> {
    let mut left_out = Vec::new();
    while let Err(faults) = Season::default().admit(lines, units) {
        let bad = faults.iter().find_map(|fault| match lines.get(fault.index) {
            Some(Line::Placement(placement)) => Some((fault, placement.clone())),
            _ => None,
        });
        let Some((fault, placement)) = bad else {
            let text = faults.first().map(|fault| fault.text.clone()).unwrap_or_default();
            return Err(NextError::Refused(text));
        };
        left_out.push((placement, fault.text.clone()));
        lines.remove(fault.index);
    }
    Ok(left_out)
}
