//! How old the knowledge is that a closed bench is read from, where the season is shared: another laptop may have sprayed, and
//! said so where this one has not heard it.

use crate::dates;
use crate::exchange::{LaptopState, Sharing};
use chrono::{DateTime, TimeDelta, TimeZone, Utc};
use std::fmt::Display;

/// What is heard within so many minutes is as good as now.
const FRESH: TimeDelta = TimeDelta::minutes(15);

/// `by this log, bob-2 heard last Tue Oct 6 07:10; follow the posted sign`: the laptop that was heard least lately. `None`
/// where the season is not shared, and where nothing is to be heard of another laptop.
pub fn known_here<Z: TimeZone>(sharing: Option<&Sharing>, now: &DateTime<Z>) -> Option<String>
where
    Z::Offset: Display,
{
    let others = sharing?.laptops.iter().filter(|laptop| !laptop.own);
    let longest = others.min_by_key(|laptop| heard(laptop))?;
    let name = longest.name.as_deref().unwrap_or("a laptop without a name");
    let Some(heard) = heard(longest) else {
        return Some(format!("by this log, {name} was never heard; follow the posted sign"));
    };
    if now.clone().with_timezone(&Utc).signed_duration_since(heard) <= FRESH {
        return Some("by this log; follow the posted sign".to_owned());
    }
    let at = heard.with_timezone(&now.timezone());
    let day = if at.date_naive() == now.date_naive() {
        String::new()
    } else {
        format!("{} ", dates::weekday(at.date_naive()))
    };
    Some(format!("by this log, {name} heard last {day}{}; follow the posted sign", dates::time(&at)))
}

/// Up to when a laptop's lines are known.
fn heard(laptop: &LaptopState) -> Option<DateTime<Utc>> {
    laptop.known_to.map(|at| at.to_utc()).max(laptop.seen)
}
