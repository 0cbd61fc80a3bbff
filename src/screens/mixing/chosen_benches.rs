//! Pots, area, lots and rim of the chosen benches.

use crate::mix::both;
use crate::model::Model;
use crate::record::Lot;
use crate::season::places::{self, Meant, NoPlace};
use crate::units::{Area, Length, Quantity};

/// The chosen benches, and the pots on them.
#[derive(Debug, Clone, Default)]
pub(super) struct ChosenBenches {
    /// Their codes in walking order.
    pub(super) benches: Vec<String>,
    /// Pots standing on all of them.
    pub(super) pots: u32,
    /// Their area; `None` where the plan does not give that of each.
    pub(super) area: Option<Area>,
    /// The lots on them.
    pub(super) lots: Vec<Lot>,
    /// The rim of the pots, where it is the same for all.
    pub(super) rim: Option<Length>,
}

impl ChosenBenches {
    /// What a text names.
    ///
    /// # Errors
    /// The part of the text that names no bench.
    pub(super) fn of(text: &str, model: &Model) -> Result<Self, NoPlace> {
        let season = &model.season;
        let benches = places::read(season, text, Meant::WithPots(model.day))?;
        let standing: Vec<_> = benches.iter().filter_map(|b| season.standing(b, model.day)).collect();
        let areas: Option<Vec<f64>> = benches.iter().map(|b| season.bench(b).and_then(|b| b.area_m2)).collect();
        let mut lots: Vec<Lot> = Vec::new();
        for lot in standing.iter().filter_map(|s| season.lot(&s.lot)) {
            if !lots.iter().any(|l| l.lot == lot.lot) {
                lots.push(lot.clone());
            }
        }
        let mut rims: Vec<Option<f64>> = lots.iter().map(|l| l.rim_cm).collect();
        rims.dedup();
        let rim = if let [Some(cm)] = rims.as_slice() { Some(Length::from_cm(*cm)) } else { None };
        Ok(Self {
            pots: standing.iter().fold(0, |sum, s| sum.saturating_add(s.pots)),
            area: areas.filter(|a| !a.is_empty()).map(|a| Area::from_m2(a.iter().sum())),
            benches,
            lots,
            rim,
        })
    }

    /// In words: `3 benches, 240 pots of L1, 41.6 m2`.
    pub(super) fn words(&self, model: &Model) -> String {
        let count = self.benches.len();
        if count == 0 {
            return "no benches yet".to_owned();
        }
        let mut text = format!("{count} {}", if count == 1 { "bench" } else { "benches" });
        let lots: Vec<&str> = self.lots.iter().map(|l| l.lot.as_str()).collect();
        if self.pots > 0 {
            text.push_str(&format!(", {} pots of {}", self.pots, lots.join(", ")));
        } else {
            text.push_str(", no pots");
        }
        match self.area {
            Some(area) => text.push_str(&format!(", {}", both(model.system(), |s| area.show(s)))),
            None => text.push_str(", area not in the plan"),
        }
        let closed: Vec<&str> =
            self.benches.iter().filter(|b| model.closed_until(b).is_some()).map(String::as_str).collect();
        if !closed.is_empty() {
            text.push_str(&format!("; CLOSED: {}", closed.join(" ")));
        }
        text
    }
}
