//! The lines of the plan in the order they are listed, and what is still missing before a walk.

use crate::model::{Model, PlanAsk};
use chrono::NaiveDate;
use std::collections::HashMap;

/// A line of the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Item {
    Site,
    Lot(String),
    Bench(String),
    Placement(String, NaiveDate),
    Order(String, NaiveDate),
    Trial(String),
}

impl Item {
    /// The form that changes it; `None` of a trial, which has a form of its own.
    pub(super) fn ask(self) -> Option<PlanAsk> {
        Some(match self {
            Self::Site => PlanAsk::Site,
            Self::Lot(code) => PlanAsk::Lot(code),
            Self::Bench(code) => PlanAsk::Bench(code),
            Self::Placement(bench, day) => PlanAsk::Placement(bench, day),
            Self::Order(lot, day) => PlanAsk::Order(lot, day),
            Self::Trial(_) => return None,
        })
    }
}

/// Every plan line in force, without those removed.
pub(super) fn items(model: &Model) -> Vec<Item> {
    let season = &model.season;
    let mut all = Vec::new();
    all.extend(season.site().map(|_| Item::Site));
    all.extend(season.lots().iter().map(|l| Item::Lot(l.lot.clone())));
    for lot in season.lots() {
        let orders = season.orders(&lot.lot).into_iter().filter(|o| o.pots > 0);
        all.extend(orders.map(|o| Item::Order(o.lot.clone(), o.date)));
    }
    all.extend(season.benches().iter().map(|b| Item::Bench(b.bench.clone())));
    let walk: HashMap<&str, usize> = season.benches().iter().map(|b| b.bench.as_str()).zip(0..).collect();
    let mut placements: Vec<_> = season.all_placements().into_iter().filter(|p| p.pots > 0).collect();
    placements.sort_by_key(|p| (p.from, walk.get(p.bench.as_str())));
    all.extend(placements.iter().map(|p| Item::Placement(p.bench.clone(), p.from)));
    all.extend(season.trials().iter().map(|t| Item::Trial(t.trial.clone())));
    all
}

/// The next step toward a walk.
pub(super) fn next_step(model: &Model) -> (&'static str, String) {
    let season = &model.season;
    let down = |lot: &str| season.all_placements().iter().any(|p| p.lot == lot && p.pots > 0);
    let waits = season.lots().into_iter().find(|l| !down(&l.lot)).map(|l| l.lot.clone());
    let to_walk = season.all_placements().iter().any(|p| p.pots > 0 && p.from <= model.day);
    match (season.site(), season.lots().is_empty(), season.benches().is_empty(), waits) {
        (None, ..) => ("a s", "the site, which begins the season file. Nothing is saved until then.".to_owned()),
        (_, true, ..) => ("a l", "the first lot: a cultivar, a container, a planting day.".to_owned()),
        (_, _, true, _) => {
            ("a b", "the benches, in rows. Or import a list: `benchwalk import benches.csv`.".to_owned())
        }
        (.., Some(lot)) => ("a p", format!("place {lot} on its benches.")),
        _ if to_walk => ("w", "the walk: every bench with what is due on it.".to_owned()),
        _ => ("w", "the walk, from the day the first pots are on a bench.".to_owned()),
    }
}
