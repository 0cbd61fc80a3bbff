//! Growth regulators, feed and water: what was given in all, as far as the amounts were written.
//!
//! The sum of an entry is its amount per pot, times its strength, times the pots that stood on its place that evening. An entry
//! without an amount per pot is counted, and is not in the sum.

use crate::record::{Entry, Kind, Lot, Place, Term};
use crate::season::Season;
use chrono::{DateTime, NaiveDate, Utc};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// How much of one substance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Substance {
    /// The active ingredient, the element or the product.
    pub name: String,
    /// Grams in all.
    pub grams: f64,
}

/// What was given in one way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Given {
    /// What.
    pub what: String,
    /// How it was applied; empty where there is one way only.
    pub how: String,
    /// Entries.
    pub times: usize,
    /// Of these, without an amount per pot: not in the sums.
    pub without_amount: usize,
    /// Solution or water in all, mL.
    pub solution_ml: f64,
    /// What was in it.
    pub grams: Vec<Substance>,
}

/// A growth regulator's product as its amounts were written.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Product {
    /// The product; the active ingredients where none was written.
    pub product: String,
    /// Treatments: entries of one tank at one instant are one.
    pub treatments: usize,
    /// Amounts by unit, as typed.
    pub used: BTreeMap<String, f64>,
    /// Amounts that are no number with a unit, as typed.
    pub not_summed: Vec<String>,
    /// Treatments without an amount.
    pub without_amount: usize,
}

/// All materials.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Materials {
    /// Growth regulators by their active ingredients and method.
    pub regulators: Vec<Given>,
    /// Growth regulators by product, as the amounts used were written.
    pub products: Vec<Product>,
    /// Feed, extra nutrients, slow-release and water.
    pub feed: Vec<Given>,
}

impl Materials {
    /// Of a season up to the end of a day. What was given to plots of a trial is among it.
    pub fn of(season: &Season, on: NaiveDate) -> Self {
        let mut rows = Rows::default();
        let mut treatments: BTreeMap<Treatment<'_>, Option<&str>> = BTreeMap::new();
        let entries = season.entries().iter().filter(|e| e.day() <= on && !season.is_struck(e, on));
        for entry in entries {
            rows.entry(season, entry);
            if let Some((treatment, amount)) = treatment(entry) {
                let kept = treatments.entry(treatment).or_default();
                *kept = kept.or(amount);
            }
        }
        for lot in season.lots() {
            rows.at_planting(season, lot, on);
        }
        let (regulators, feed) = rows.0.into_iter().partition(|((of, ..), _)| *of == Of::Regulator);
        let sorted = |rows: BTreeMap<Key, Given>| rows.into_values().collect();
        Self { regulators: sorted(regulators), products: products(treatments), feed: sorted(feed) }
    }
}

/// Groups in the order in which they are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Of {
    Regulator,
    Fed,
    ConstantFeed,
    Nutrient,
    SlowRelease,
    Topdress,
    Water,
}

type Key = (Of, String, String);

#[derive(Default)]
struct Rows(BTreeMap<Key, Given>);

/// One amount: solution per pot in mL (none for dry goods) and grams per pot by substance; `None` where it was not written.
type PerPot = Option<(f64, Vec<(String, f64)>)>;

impl Rows {
    fn add(&mut self, of: Of, (what, how): (String, &str), pots: f64, per_pot: PerPot) {
        let given = self.0.entry((of, what.clone(), how.to_owned())).or_insert_with(|| Given {
            what,
            how: how.to_owned(),
            times: 0,
            without_amount: 0,
            solution_ml: 0.0,
            grams: Vec::new(),
        });
        given.times += 1;
        let Some((ml, grams)) = per_pot else {
            given.without_amount += 1;
            return;
        };
        given.solution_ml += ml * pots;
        for (name, g) in grams {
            match given.grams.iter_mut().find(|kept| kept.name == name) {
                Some(kept) => kept.grams += g * pots,
                None => given.grams.push(Substance { name, grams: g * pots }),
            }
        }
    }

    fn entry(&mut self, season: &Season, entry: &Entry) {
        let pots = || pots_of(season, entry);
        match &*entry.kind {
            Kind::GrowthRegulator { parts, how, ml_per_pot, .. } => {
                let names: Vec<&str> = parts.iter().map(|part| part.ai.as_str()).collect();
                let each = |ml: f64| (ml, parts.iter().map(|part| (part.ai.clone(), mg(part.ppm, ml))).collect());
                self.add(Of::Regulator, (names.join(" + "), how.text()), pots(), ml_per_pot.map(each));
            }
            Kind::Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot } => {
                let each = |ml: f64| {
                    let elements = [("N", Some(*n_ppm)), ("Mg", *mg_ppm), ("Mo", *mo_ppm)];
                    let given = elements.into_iter().filter_map(|(name, ppm)| Some((name.to_owned(), mg(ppm?, ml))));
                    (ml, given.collect())
                };
                self.add(Of::Fed, ("feed".to_owned(), ""), pots(), ml_per_pot.map(each));
            }
            Kind::Nutrient { material, ppm, how, ml_per_pot } => {
                let each = |ml: f64| (ml, vec![(material.element().to_owned(), mg(*ppm, ml))]);
                let what = (material.text().to_owned(), how.text());
                self.add(Of::Nutrient, what, pots(), ml_per_pot.map(each));
            }
            Kind::Topdressed { g_per_pot, .. } => {
                let what = ("slow-release topdressed".to_owned(), "");
                self.add(Of::Topdress, what, pots(), Some((0.0, vec![("product".to_owned(), *g_per_pot)])));
            }
            Kind::Watered { ml_per_pot } => self.watered(season, entry, *ml_per_pot),
            _ => {}
        }
    }

    /// Water, and the feed that a lot on constant feed gets with it.
    fn watered(&mut self, season: &Season, entry: &Entry, ml_per_pot: Option<f64>) {
        let pots = pots_of(season, entry);
        let lot = season.lot_of(entry);
        let feed = lot.and_then(|lot| season.lot(&lot)).filter(|lot| lot.feed_n_ppm.is_some_and(|n| n > 0.0));
        let Some(lot) = feed else {
            self.add(Of::Water, ("water".to_owned(), ""), pots, ml_per_pot.map(|ml| (ml, Vec::new())));
            return;
        };
        let each = |ml: f64| {
            let elements = [("N", lot.feed_n_ppm), ("Mg", lot.feed_mg_ppm), ("Mo", lot.feed_mo_ppm)];
            let given = elements.into_iter().filter_map(|(name, ppm)| Some((name.to_owned(), mg(ppm?, ml))));
            (ml, given.collect())
        };
        self.add(Of::ConstantFeed, ("constant feed with the water".to_owned(), ""), pots, ml_per_pot.map(each));
    }

    /// The slow-release at planting, by the plan.
    fn at_planting(&mut self, season: &Season, lot: &Lot, on: NaiveDate) {
        let Some(grams) = lot.slow_release_g.filter(|g| *g > 0.0) else { return };
        for placed in season.placements(&lot.lot).iter().filter(|p| p.pots > 0 && p.from <= on) {
            let what = ("slow-release at planting, by the plan".to_owned(), "");
            let per_pot = Some((0.0, vec![("product".to_owned(), grams)]));
            self.add(Of::SlowRelease, what, f64::from(placed.pots), per_pot);
        }
    }
}

/// Grams in so many mL of a solution: 1 ppm is 1 mg in a liter.
fn mg(ppm: f64, ml: f64) -> f64 {
    ppm * ml / 1e6
}

/// The pots of an entry's place that evening: those of its plot, its bench, or of all benches of its lot or house. A bench that was
/// emptied that day counts with the pots of the evening before.
fn pots_of(season: &Season, entry: &Entry) -> f64 {
    if let Some(plot) = entry.plot.as_deref().and_then(|plot| season.plot(plot)) {
        return f64::from(plot.pots);
    }
    let day = entry.day();
    let on = |bench: &str, day| season.standing(bench, day).map_or(0, |standing| standing.pots);
    let pots: u32 = match &entry.place {
        Place::Bench(bench) => match on(bench, day) {
            0 => day.pred_opt().map_or(0, |before| on(bench, before)),
            pots => pots,
        },
        Place::Lot(lot) => season.benches_of_lot(lot, day).into_iter().map(|bench| on(bench, day)).sum(),
        Place::House(house) => season.benches().iter().filter(|b| *b.house == **house).map(|b| on(&b.bench, day)).sum(),
    };
    f64::from(pots)
}

/// What makes entries one treatment: instant, writer, product, tank and the amount written.
type Treatment<'a> = (String, DateTime<Utc>, &'a str, Option<&'a str>);

/// The treatment an entry belongs to, and the amount used that is written in it: a form writes it into the entry of each bench.
fn treatment(entry: &Entry) -> Option<(Treatment<'_>, Option<&str>)> {
    let Kind::GrowthRegulator { parts, product, application, .. } = &*entry.kind else { return None };
    let names = || parts.iter().map(|part| part.ai.as_str()).collect::<Vec<_>>().join(" + ");
    let name = product.clone().unwrap_or_else(names);
    let amount = application.amount_used.as_deref();
    Some(((name, entry.instant(), &entry.by, amount), amount))
}

fn products(treatments: BTreeMap<Treatment<'_>, Option<&str>>) -> Vec<Product> {
    let mut products: BTreeMap<String, Product> = BTreeMap::new();
    for ((name, ..), amount) in treatments {
        let product = products.entry(name.to_lowercase()).or_insert_with(|| Product {
            product: name.clone(),
            treatments: 0,
            used: BTreeMap::new(),
            not_summed: Vec::new(),
            without_amount: 0,
        });
        product.treatments += 1;
        match amount.map(|text| (text, number_and_unit(text))) {
            None => product.without_amount += 1,
            Some((_, Some((number, unit)))) => *product.used.entry(unit).or_default() += number,
            Some((text, None)) => product.not_summed.push(text.to_owned()),
        }
    }
    let mut all: Vec<Product> = products.into_values().collect();
    for product in &mut all {
        let texts: BTreeSet<String> = product.not_summed.drain(..).collect();
        product.not_summed.extend(texts);
    }
    all
}

/// `32 fl oz` as a number and its unit; `None` for anything else.
fn number_and_unit(text: &str) -> Option<(f64, String)> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let (digits, unit) = text.split_at_checked(end)?;
    let number: f64 = digits.parse().ok()?;
    let unit = unit.trim().to_lowercase();
    let is_unit = !unit.is_empty() && unit.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '.'));
    is_unit.then_some((number, unit))
}

#[cfg(test)]
mod tests {
    use super::number_and_unit;

    #[test]
    fn only_a_number_with_a_unit_is_summed() {
        assert_eq!(number_and_unit("32 fl oz"), Some((32.0, "fl oz".to_owned())));
        assert_eq!(number_and_unit("0.5L"), Some((0.5, "l".to_owned())));
        for text in ["a pint", "12", "2 x 32 fl oz", "1,5 L", "", "about 3 L", "1/2 gal"] {
            assert_eq!(number_and_unit(text), None, "{text}");
        }
    }
}
