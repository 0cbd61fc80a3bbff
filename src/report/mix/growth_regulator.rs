//! A growth regulator, or a tank of several: amounts, dose a pot, usual range, last safe days, cautions.

use super::growth_words::{formula, last_words, pack_words, region_word, strong_words, usual_words};
use super::words::{both, off, volume};
use super::{Asked, Page, Refused, Solution, cautions_json, refuse};
use crate::crop::growth_regulator::{
    Amount, Caution, Ingredient, LastSafe, LastSafeDays, Measured, PackCheck, Part, SprayRate, Strong, Usual,
    check_pack, dose_per_pot, last_safe, strong, tank, too_little, usual,
};
use crate::limits::Limits;
use crate::report::cautions::of_growth_regulator;
use crate::terms::{Method, Region, Term};
use crate::units::{Quantity, System, Volume, plain};
use chrono::NaiveDate;
use serde_json::{Value, json};

/// What the last safe day is reckoned from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotDates {
    /// The lot; empty where none is named.
    pub lot: String,
    /// The first of its short days.
    pub short_days: NaiveDate,
    /// Its sale.
    pub sale: NaiveDate,
}

impl LotDates {
    /// The last safe day of an ingredient put on in a way, where the autumn is like this; `on` is the day of the work.
    pub fn last_day(
        &self,
        (ingredient, method): (Ingredient, Method),
        (region, rules): (Region, LastSafeDays),
        on: Option<NaiveDate>,
    ) -> LastDay {
        let last = last_safe(ingredient, method, region, self.short_days, self.sale, rules);
        LastDay { lot: self.lot.clone(), last, late: on.is_some_and(|on| last.is_late(on)) }
    }
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct Ask {
    /// How it is put on.
    pub method: Method,
    /// The solution.
    pub solution: Solution,
    /// The parts of the tank.
    pub parts: Vec<Part>,
    /// The amounts were given and the ppm asked for.
    pub measured: bool,
    /// The lots, for the last safe day.
    pub lots: Vec<LotDates>,
    /// What the autumn is like.
    pub region: Region,
    /// The days the last safe day goes by.
    pub rules: LastSafeDays,
    /// The limits, for the usual tops.
    pub limits: Limits,
    /// The day of the work.
    pub on: Option<NaiveDate>,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct Answer {
    /// How it is put on.
    pub method: Method,
    /// The solution.
    pub solution: Solution,
    /// One for each part of the tank.
    pub parts: Vec<PartAnswer>,
    /// What is said with it.
    pub cautions: Vec<Caution>,
    measured: bool,
}

/// One ingredient of the tank.
#[derive(Debug, Clone)]
pub struct PartAnswer {
    /// What to measure out.
    pub amount: Measured,
    /// What a pot gets, mg of active ingredient; of a spray, its share of all of it.
    pub mg_per_pot: Option<f64>,
    /// The usual ranges.
    pub usual: Vec<&'static Usual>,
    /// It is above the usual top.
    pub strong: Option<Strong>,
    /// The pack held against the usual one.
    pub pack: PackCheck,
    /// The last safe day of each lot.
    pub last: Vec<LastDay>,
}

/// The last safe day, and whether the day worked on is past it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LastDay {
    /// The lot; empty where none is named.
    pub lot: String,
    /// The day.
    pub last: LastSafe,
    /// The day of the work is past it.
    pub late: bool,
}

impl LastDay {
    /// `P6: 2026-10-05: why`; past it, that it was.
    pub fn words(&self) -> String {
        last_words(self)
    }
}

/// Reckons it.
///
/// # Errors
/// [`Refused`] for a part that cannot be mixed, or the same ingredient twice.
pub fn reckon(ask: Ask) -> Result<Answer, Refused> {
    let Ask { method, solution, parts, measured, lots, region, rules, limits, on } = ask;
    for (at, part) in parts.iter().enumerate() {
        tank(&[*part], solution.volume).map_err(|e| Refused { part: at, ..refuse(Asked::Mixed)(e) })?;
    }
    let last = parts.len().saturating_sub(1);
    let amounts = tank(&parts, solution.volume).map_err(|e| Refused { part: last, ..refuse(Asked::Mixed)(e) })?;
    let mut answers = Vec::new();
    for amount in amounts {
        let part = amount.part;
        answers.push(PartAnswer {
            amount,
            mg_per_pot: mg_per_pot(method, &solution, &part)?,
            usual: usual(part.ingredient, method).collect(),
            strong: strong((part.ingredient, method), &limits, part.ppm, solution.per_pot, solution.rim),
            pack: check_pack(part.ingredient, part.strength),
            last: lots.iter().map(|lot| lot.last_day((part.ingredient, method), (region, rules), on)).collect(),
        });
    }
    let ingredients: Vec<Option<Ingredient>> = parts.iter().map(|p| Some(p.ingredient)).collect();
    let cautions = of_growth_regulator(&ingredients, method);
    Ok(Answer { method, solution, parts: answers, cautions, measured })
}

fn mg_per_pot(method: Method, solution: &Solution, part: &Part) -> Result<Option<f64>, Refused> {
    let share = match (method, solution.per_pot, solution.pots) {
        (Method::Drench, per_pot, _) => per_pot,
        (Method::Spray, _, Some(pots)) if pots > 0 => Some(Volume::from_ml(solution.volume.ml() / f64::from(pots))),
        (Method::Spray, ..) => None,
    };
    let dose = share.map(|ml| dose_per_pot(part.ppm, ml).map_err(refuse(Asked::PerPot))).transpose()?;
    Ok(dose.map(|d| d.g() * 1000.0))
}

impl Answer {
    /// To read.
    pub fn page(&self, units: System) -> Page {
        let mut page = Page::default();
        page.line(self.heading(units));
        if let Some(words) = self.usual_volume() {
            page.line(words);
        }
        for part in &self.parts {
            page.blank();
            self.part(&mut page, part, units);
        }
        page.cautions(&self.cautions);
        page
    }

    fn heading(&self, units: System) -> String {
        let solution = &self.solution;
        let whole = volume(units, solution.volume);
        if let Some((area, rate)) = solution.area {
            let area = both(units, |s| area.show(s));
            return format!("Spray: {area} at {} mL/m2: {whole} of solution", plain(rate.in_ml_per_m2()));
        }
        match (solution.pots, solution.per_pot) {
            (Some(pots), Some(per_pot)) => {
                format!("Drench: {pots} pots at {}: {whole} of solution", volume(units, per_pot))
            }
            _ if self.method == Method::Spray => format!("Spray: {whole} of solution"),
            _ => format!("Drench: {whole} of solution"),
        }
    }

    /// Where a volume that was not typed comes from.
    fn usual_volume(&self) -> Option<&'static str> {
        if self.solution.usual_per_pot {
            return Some(
                "The volume a pot is the usual one for its rim (Michigan State drench guidelines; Purdue, 2010).",
            );
        }
        let (_, rate) = self.solution.area?;
        (rate == SprayRate::USUAL)
            .then_some("That is 2 qt on 100 ft2, the rate most guides agree on; Michigan State gives 2 to 3 qt.")
    }

    fn part(&self, page: &mut Page, part: &PartAnswer, units: System) {
        let Measured { part: asked, exact, measured, makes } = part.amount;
        page.line(format!(
            "{} at {} ppm, from a product of {}",
            asked.ingredient.name(),
            plain(asked.ppm.ppm()),
            asked.strength.show()
        ));
        self.alarms(page, part);
        let label = if self.measured { "measured" } else { "measure out" };
        page.item(label, both(units, |s| exact.show(s)));
        if !self.measured {
            let off = off(part.amount.off_by());
            let metric = measured.show(System::Metric);
            page.item("to a step", format!("{metric}, which makes {} ppm ({off})", plain(makes.ppm())));
        }
        if let Some(mg) = part.mg_per_pot {
            let most = if self.method == Method::Spray { ", if all of it stays on the pots" } else { "" };
            page.item("a pot gets", format!("{} mg of active ingredient{most}", plain(mg)));
        }
        page.item("reckoned", formula(&part.amount, self.solution.volume.ml() / 1000.0));
        usual_lines(page, asked.ingredient, self.method);
        for last in part.last.iter().filter(|l| !l.late) {
            page.item("last safe day", last_words(last));
        }
    }

    /// What is to be stopped at, before anything else is said of a part.
    fn alarms(&self, page: &mut Page, part: &PartAnswer) {
        if let Some(strong) = &part.strong {
            page.item("TOO STRONG?", strong_words(strong));
        }
        if let Some(words) = pack_words(part) {
            page.item("READ THE PACK", words);
        }
        if !self.measured && too_little(part.amount.exact) {
            let words = "too little to measure well: mix more at once, or dilute the product with a known part of water first \
                         and measure that";
            page.item("TOO LITTLE", words);
        }
        for last in part.last.iter().filter(|l| l.late) {
            page.item("TOO LATE", last_words(last));
        }
    }

    /// For other programs.
    pub fn json(&self) -> Value {
        let solution = &self.solution;
        json!({
            "how": self.method.code(),
            "solution_ml": solution.volume.ml(),
            "area_m2": solution.area.map(|(area, _)| area.m2()),
            "ml_per_m2": solution.area.map(|(_, rate)| rate.in_ml_per_m2()),
            "pots": solution.pots,
            "ml_per_pot": solution.per_pot.map(Volume::ml),
            "parts": self.parts.iter().map(PartAnswer::json).collect::<Vec<_>>(),
            "cautions": cautions_json(&self.cautions),
        })
    }
}

/// The usual ranges of an ingredient put on in a way, or that none was found.
pub fn usual_lines(page: &mut Page, ingredient: Ingredient, method: Method) {
    let rows: Vec<&Usual> = usual(ingredient, method).collect();
    if rows.is_empty() {
        page.item("usual", format!("no published poinsettia {} was found; the label decides", method.code()));
    }
    for (i, row) in rows.iter().enumerate() {
        page.item(if i == 0 { "usual" } else { "" }, usual_words(row));
    }
}

impl PartAnswer {
    fn json(&self) -> Value {
        let Measured { part, exact, measured, makes } = self.amount;
        let (unit, unit_measured) = match exact {
            Amount::Weight(_) => ("exact_g", "measured_g"),
            Amount::Volume(_) => ("exact_ml", "measured_ml"),
        };
        let last = self.last.first().map(|l| match l.last {
            LastSafe::Day { day, why } => json!({ "day": day.to_string(), "why": why, "late": l.late }),
            LastSafe::NoCutOff { why } => json!({ "day": null, "why": why, "late": false }),
            LastSafe::NoFigure => json!({ "day": null, "why": "no figure was found", "late": false }),
        });
        json!({
            "ai": part.ingredient.name(),
            "ppm": part.ppm.ppm(),
            "strength": part.strength.show(),
            unit: exact.base(),
            unit_measured: measured.base(),
            "measured_makes_ppm": makes.ppm(),
            "too_little_to_measure": too_little(exact),
            "mg_per_pot": self.mg_per_pot,
            "usual": self.usual.iter().map(|u| json!({
                "low_ppm": u.low_ppm, "high_ppm": u.high_ppm, "when": u.when, "region": u.region.map(region_word),
                "basis": u.basis.to_string(),
            })).collect::<Vec<_>>(),
            "too_strong": self.strong.map(|s| strong_words(&s)),
            "pack": pack_words(self),
            "last_safe": last,
        })
    }
}
