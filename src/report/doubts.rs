//! What is asked about once more before it is saved: values that fit no sane crop. Saved again as they are, they are meant.
//!
//! How far is too far is a rule of thumb: a slipped digit is ten times off, a crop never doubles between two measurements.

use crate::dates;
use crate::record::{Entry, Kind, KindName, Place, Value, schema, typed};
use crate::season::Season;
use crate::units::System;

/// So many times the other heights, or a part of them as small, is asked about (rule of thumb).
const TIMES: f64 = 2.5;

/// A field, and what is asked of it.
pub type Doubt = (&'static str, String);

/// What is asked about an entry before it is recorded; `None` where nothing stands out.
pub fn doubt(season: &Season, entry: &Entry, system: System) -> Option<Doubt> {
    match &*entry.kind {
        Kind::Height { cm } => height(season, entry, cm, system),
        Kind::Counted { pots } => counted(season, entry, *pots),
        Kind::Losses { pots, .. } => lost(season, entry, *pots),
        Kind::Moved { to, pots } => room(season, entry, (to, *pots)),
        _ => None,
    }
}

/// More pots of a lot than it has, as a question; `None` where it has as many.
pub fn more_than_lot(season: &Season, lot: &str, pots: u32) -> Option<String> {
    let of = season.lot(lot)?.pots;
    (pots > of).then(|| format!("{pots} pots, but lot {lot} has {of}"))
}

fn counted(season: &Season, entry: &Entry, pots: u32) -> Option<Doubt> {
    let lot = season.lot_of(entry)?;
    let too_many = more_than_lot(season, &lot, pots)?;
    Some(("pots", format!("{too_many}. Enter again if that is the count")))
}

/// More pots lost than stand.
fn lost(season: &Season, entry: &Entry, pots: u32) -> Option<Doubt> {
    let Place::Bench(bench) = &entry.place else { return None };
    let stand = season.standing(bench, entry.day()).map_or(0, |standing| standing.pots);
    (pots > stand).then(|| ("pots", format!("{pots} pots, but {stand} stand on {bench}. Enter again if that is so")))
}

/// More pots on the bench they go to than its area holds at the spacing of the lot.
fn room(season: &Season, entry: &Entry, (to, pots): (&str, u32)) -> Option<Doubt> {
    let (lot, day) = (season.lot_of(entry)?, entry.day());
    let fit = season.room_for(to, &lot, day)?;
    let all = season.standing(to, day).map_or(0, |standing| standing.pots).saturating_add(pots);
    let text =
        format!("{all} pots then on {to}, but at the spacing of {lot} its area holds {fit}. Enter again if that is so");
    (all > fit).then_some(("pots", text))
}

fn height(season: &Season, entry: &Entry, cm: &[f64], system: System) -> Option<Doubt> {
    let last = last_heights(season, entry);
    let among = median(cm.to_vec()).filter(|_| cm.len() > 2);
    let odd = |one: &f64| {
        let usual = among.or(last.as_ref().map(|(_, cm)| *cm))?;
        (*one > usual * TIMES || *one * TIMES < usual).then_some((*one, usual))
    };
    let (one, usual) = cm.iter().find_map(odd)?;
    let field = schema::kind_table(KindName::Height).field("cm")?;
    let show = |cm: f64| typed::display(field, &Value::Number(cm), system);
    let beside = match last.as_ref().filter(|_| among.is_none()) {
        Some((day, _)) => format!("{} was measured on {day}", show(usual)),
        None => format!("the others are about {}", show(usual)),
    };
    Some(("cm", format!("{}, but {beside}. Enter again if it is so", show(one))))
}

/// The heights measured last where the entry is: the day, and their median, cm.
fn last_heights(season: &Season, entry: &Entry) -> Option<(String, f64)> {
    let day = entry.day();
    let bench = match &entry.place {
        Place::Bench(code) => code.as_ref(),
        Place::Lot(code) => season.benches_of_lot(code, day).into_iter().next()?,
        Place::House(_) => return None,
    };
    let before = |other: &&Entry| other.name() == KindName::Height && other.at < entry.at;
    // A plot is held against itself, and against its bench where it was not measured yet.
    let of_plot = entry.plot.as_ref().and_then(|plot| season.plot_entries(plot, day).filter(before).last());
    let history = season.history(bench, day);
    let last = of_plot.or_else(|| history.of(KindName::Height).rev().find(before))?;
    match &*last.kind {
        Kind::Height { cm } => Some((dates::short(last.day()), median(cm.clone())?)),
        _ => None,
    }
}

fn median(mut all: Vec<f64>) -> Option<f64> {
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied()
}
