//! A growth-regulator answer as text and as JSON.

use super::growth_regulator::Solution;
use super::page::Page;
use super::{both, off, volume};
use crate::commands::args::UnitsArg;
use crate::crop::growth_regulator::{
    Amount, Caution, DoseUnit, LastSafe, Measured, Method, PackCheck, Region, SprayRate, Strong, Usual, too_little,
};
use crate::units::{Quantity, System, plain};
use serde_json::{Value, json};

/// What was asked and what it comes to.
pub(super) struct Answer {
    pub(super) method: Method,
    pub(super) solution: Solution,
    /// The amounts were given and the ppm asked for.
    pub(super) asked_measured: bool,
    pub(super) parts: Vec<PartAnswer>,
    pub(super) cautions: Vec<Caution>,
}

/// One ingredient of the tank.
pub(super) struct PartAnswer {
    pub(super) amount: Measured,
    pub(super) mg_per_pot: Option<f64>,
    pub(super) usual: Vec<&'static Usual>,
    pub(super) strong: Option<Strong>,
    pub(super) pack: PackCheck,
    pub(super) last: Option<LastDay>,
}

/// The last safe day, and whether the day worked on is past it.
pub(super) struct LastDay {
    pub(super) last: LastSafe,
    pub(super) late: bool,
}

impl Answer {
    /// To read.
    pub(super) fn text(&self, units: UnitsArg) -> String {
        let mut page = Page::default();
        page.line(self.heading(units));
        if let Some(words) = self.usual_volume() {
            page.line(words);
        }
        for part in &self.parts {
            page.blank();
            self.part(&mut page, part, units);
        }
        page.blank();
        page.line("Cautions");
        for caution in &self.cautions {
            page.point(caution.text);
        }
        page.text()
    }

    fn heading(&self, units: UnitsArg) -> String {
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

    fn part(&self, page: &mut Page, part: &PartAnswer, units: UnitsArg) {
        let Measured { part: asked, exact, measured, makes } = part.amount;
        page.line(format!(
            "{} at {} ppm, from a product of {}",
            asked.ingredient.name(),
            plain(asked.ppm.ppm()),
            asked.strength.show()
        ));
        let label = if self.asked_measured { "measured" } else { "measure out" };
        page.item(label, both(units, |s| exact.show(s)));
        if !self.asked_measured {
            let off = off(part.amount.off_by());
            let metric = measured.show(System::Metric);
            if too_little(exact) {
                let words = "too little to measure well: mix more at once, or dilute the product with a known part of water \
                             first and measure that";
                page.item("TOO LITTLE", words);
            }
            page.item("to a step", format!("{metric}, which makes {} ppm ({off})", plain(makes.ppm())));
        }
        if let Some(mg) = part.mg_per_pot {
            page.item("a pot gets", format!("{} mg of active ingredient", plain(mg)));
        }
        page.item("reckoned", formula(&part.amount, self.solution.volume.ml() / 1000.0));
        if part.usual.is_empty() {
            page.item("usual", format!("no published poinsettia {} was found; the label decides", self.method.word()));
        }
        for (i, usual) in part.usual.iter().enumerate() {
            page.item(if i == 0 { "usual" } else { "" }, usual_words(usual));
        }
        if let Some(strong) = &part.strong {
            page.item("TOO STRONG?", strong_words(strong));
        }
        if let Some(words) = pack_words(part) {
            page.item("READ THE PACK", words);
        }
        if let Some(last) = &part.last {
            page.item("last safe day", last_words(last));
        }
    }

    /// For other programs.
    pub(super) fn json(&self) -> Value {
        let solution = &self.solution;
        json!({
            "how": self.method.word(),
            "solution_ml": solution.volume.ml(),
            "area_m2": solution.area.map(|(area, _)| area.m2()),
            "ml_per_m2": solution.area.map(|(_, rate)| rate.in_ml_per_m2()),
            "pots": solution.pots,
            "ml_per_pot": solution.per_pot.map(crate::units::Volume::ml),
            "parts": self.parts.iter().map(PartAnswer::json).collect::<Vec<_>>(),
            "cautions": self.cautions.iter().map(|c| json!({ "caution": c.id, "text": c.text })).collect::<Vec<_>>(),
        })
    }
}

impl PartAnswer {
    fn json(&self) -> Value {
        let Measured { part, exact, measured, makes } = self.amount;
        let (unit, unit_measured) = match exact {
            Amount::Weight(_) => ("exact_g", "measured_g"),
            Amount::Volume(_) => ("exact_ml", "measured_ml"),
        };
        let last = self.last.as_ref().map(|l| match l.last {
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
                "low_ppm": u.low_ppm, "high_ppm": u.high_ppm, "when": u.when, "region": u.region.map(region),
                "basis": u.basis.to_string(),
            })).collect::<Vec<_>>(),
            "too_strong": self.strong.map(|s| strong_words(&s)),
            "pack": pack_words(self),
            "last_safe": last,
        })
    }
}

fn region(region: Region) -> &'static str {
    match region {
        Region::Cool => "cool",
        Region::Warm => "warm",
    }
}

fn formula(amount: &Measured, liters: f64) -> String {
    let (ppm, liters) = (plain(amount.part.ppm.ppm()), plain(liters));
    let (strength, comes) = (amount.part.strength, plain(amount.exact.base()));
    match (strength.g_per_g(), strength.g_per_l()) {
        (Some(share), _) => {
            format!("g = ppm x liters / (1000 x share) = {ppm} x {liters} / (1000 x {}) = {comes}", plain(share))
        }
        (_, Some(grams)) => format!("mL = ppm x liters / g a liter = {ppm} x {liters} / {} = {comes}", plain(grams)),
        (None, None) => String::new(),
    }
}

fn usual_words(usual: &Usual) -> String {
    let range = if (usual.high_ppm - usual.low_ppm).abs() < f64::EPSILON {
        plain(usual.low_ppm)
    } else {
        format!("{} to {}", plain(usual.low_ppm), plain(usual.high_ppm))
    };
    let place = usual.region.map_or_else(String::new, |r| format!("{} region, ", region(r)));
    format!("{range} ppm: {place}{} ({})", usual.when, usual.basis)
}

fn strong_words(strong: &Strong) -> String {
    let unit = match strong.unit {
        DoseUnit::Ppm => "ppm",
        DoseUnit::MgPerPot => "mg a pot",
    };
    format!("{} {unit} is above the usual top of {} ({})", plain(strong.given), plain(strong.top), strong.basis)
}

/// What to say when the strength typed is not the usual one.
fn pack_words(part: &PartAnswer) -> Option<String> {
    let (typed, ppm) = (part.amount.part.strength.show(), part.amount.part.ppm.ppm());
    match part.pack {
        PackCheck::Usual | PackCheck::NoFigure => None,
        PackCheck::OtherForm { usual } => Some(format!(
            "the usual pack is {} ({}), you typed {typed}: is it a solid or a liquid?",
            usual.words, usual.basis
        )),
        PackCheck::Unusual { times, usual } if times > 1.0 => Some(format!(
            "{typed} is {} times as strong as the usual pack, {} ({}). As much as a table for the usual pack says would make \
             {} ppm",
            plain(times),
            usual.words,
            usual.basis,
            plain(ppm * times)
        )),
        PackCheck::Unusual { times, usual } => Some(format!(
            "{typed} is {} of the strength of the usual pack, {} ({}). If yours is that one, the amount above makes {} ppm",
            plain(times),
            usual.words,
            usual.basis,
            plain(ppm / times)
        )),
    }
}

fn last_words(last: &LastDay) -> String {
    match last.last {
        LastSafe::Day { day, why } => {
            let late = if last.late { "THIS IS PAST IT; " } else { "" };
            format!("{late}{day}: {why}")
        }
        LastSafe::NoCutOff { why } => format!("none: {why}"),
        LastSafe::NoFigure => "no published figure was found; the label decides".to_owned(),
    }
}
