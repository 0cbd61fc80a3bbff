//! `short-count`: fewer pots on the benches than are still committed (act), by lot.
//!
//! **Sees** the lot's pots standing on all benches, its orders by date, and what is logged as sold. Sold pots count for the
//! earliest orders first; of the orders up to each date the rest is still committed. It says the first date that cannot be met.
//! **Basis** common practice: the buyer hears early. **Ends** when pots and orders meet (a count, a revised order).
//! **Class** state: it stands until a newer look of its kind.

use crate::record::{Kind, KindName, Place};
use crate::warnings::builder::of_group;
use crate::warnings::day_context::DayContext;
use crate::warnings::{
    Answer, Basis, Cause, Class, Evidence, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `short-count`.
pub(super) static RULE: Rule = Rule {
    name: N::ShortCount,
    code: "short-count",
    find: Find::Lot(rule),
    cause: Cause::Count,
    class: Class::State,
    title: "short of orders",
    why: "Fewer pots on the benches than committed.",
    next: &[Step::todo("Count the lot; tell the buyer, or move pots from another lot.")],
    answers: &[Answer { title: "counted", remedy: Remedy::Entry(KindName::Counted) }],
    basis: Basis::CommonPractice,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let context = group.first()?.context;
    let Place::Lot(lot) = &group.place else { return None };
    let orders = context.season.orders(lot);
    if orders.iter().all(|o| o.pots == 0) {
        return None;
    }
    let standing = group.benches.iter().fold(0_u64, |sum, s| sum + u64::from(s.standing.pots));
    let sold = sold(context, lot);
    let mut promised = 0_u64;
    let mut short: Option<(NaiveDate, u64)> = None;
    for order in &orders {
        promised += u64::from(order.pots);
        let open = promised.saturating_sub(sold);
        if short.is_none() && open > standing {
            short = Some((order.date, open));
        }
    }
    let (date, open) = short?;
    let benches = group.codes();
    let warning = of_group(group, (N::ShortCount, Severity::Act), context.day, benches);
    let warning = warning.figure(Figure::Standing, standing as f64, None);
    let warning = warning.figure(Figure::Promised, open as f64, None).also(Evidence::Forecast { from: date, to: date });
    Some(warning)
}

/// Pots of the lot logged as sold up to the day, whatever stands on their benches now.
fn sold(context: &DayContext<'_>, lot: &str) -> u64 {
    let pots = context.season.entries_of(KindName::Sold).filter_map(|e| {
        let Kind::Sold { pots } = *e.kind else { return None };
        let of_lot = || context.season.lot_of(e).is_some_and(|code| code == lot);
        (context.season.counts(e, context.day) && of_lot()).then_some(u64::from(pots))
    });
    pots.sum()
}
