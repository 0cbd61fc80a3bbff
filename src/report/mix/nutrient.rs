//! Extra magnesium, molybdenum and calcium: what to weigh, by two steps where the scale is too coarse.

use super::weighing::a_pot_gets;
use super::words::{off, range, volume};
use super::{Asked, Into, Page, Refused, Weighing, apart, cautions_json, refuse};
use crate::crop::feed::{
    Carries, Fraction, Given, TwoStep, USUAL_RATES, UsualRate, beyond_usual, two_step, usual_rates,
};
use crate::crop::growth_regulator::Caution;
use crate::record::{Material, Term};
use crate::report::cautions::{Work, cautions};
use crate::units::{Concentration, Mass, System, Volume, plain};
use serde_json::{Value, json};

/// What is asked.
#[derive(Debug, Clone)]
pub struct Ask {
    /// The salt.
    pub material: Material,
    /// How strong the solution is to be.
    pub ppm: Concentration,
    /// How it is given, where that is known.
    pub how: Option<Given>,
    /// The share of the element; that of the pure salt where none is given.
    pub share: Option<Fraction>,
    /// Into what.
    pub into: Into,
    /// The step of the scale.
    pub scale: Mass,
    /// Where a weight is too small: the water its first solution is made with.
    pub first: Volume,
    /// The step that solution is measured with.
    pub measure: Volume,
    /// What a pot gets.
    pub per_pot: Option<Volume>,
    /// What else goes into the tank.
    pub beside: Vec<(&'static str, Carries)>,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct Answer {
    ask: Ask,
    /// The weight.
    pub weighing: Weighing,
    /// The two steps of a weight that is too small, or why there are none.
    pub steps: Option<Result<TwoStep, String>>,
    /// What is said with it.
    pub cautions: Vec<Caution>,
}

/// The material as it is sold.
const fn sold_as(material: Material) -> &'static str {
    match material {
        Material::MagnesiumSulfate => "Magnesium sulfate (7 water)",
        Material::SodiumMolybdate => "Sodium molybdate (2 water)",
        Material::AmmoniumMolybdate => "Ammonium molybdate (4 water)",
        Material::CalciumChloride => "Calcium chloride (2 water)",
    }
}

/// What it must not share a stock tank with.
const fn never_with(material: Material) -> Option<&'static str> {
    match material {
        Material::MagnesiumSulfate => Some("calcium (it falls out as gypsum and clogs lines: N.C. Agronomic Division)"),
        Material::CalciumChloride => {
            Some("sulfates (N.C. Agronomic Division) or phosphates (common practice, no source)")
        }
        Material::SodiumMolybdate | Material::AmmoniumMolybdate => None,
    }
}

const fn carries(material: Material) -> Carries {
    match material {
        Material::MagnesiumSulfate => Carries::SULFATE,
        Material::CalciumChloride => Carries::CALCIUM,
        Material::SodiumMolybdate | Material::AmmoniumMolybdate => {
            Carries { calcium: false, sulfate: false, phosphate: false }
        }
    }
}

/// Reckons it.
///
/// # Errors
/// [`Refused`] for a strength or volume that cannot be.
pub fn reckon(ask: Ask) -> Result<Answer, Refused> {
    if ask.ppm.ppm() <= 0.0 {
        return Err(refuse(Asked::Ppm)("0 ppm needs nothing; type how strong it is to be"));
    }
    let share = ask.share.unwrap_or_else(|| ask.material.fraction());
    let weighing = Weighing::of(ask.ppm, share, ask.into, ask.scale)?;
    // Too little even for two steps: the reason is part of the answer, the weight still stands.
    let steps = weighing
        .weighed
        .too_small
        .then(|| two_step(weighing.exact, weighing.scale, ask.first, ask.measure).map_err(|e| e.to_string()));
    let mut said = cautions(Work::Fertilizer).to_vec();
    if weighing.stock.is_some() {
        said.extend(cautions(Work::Injector));
    }
    Ok(Answer { ask, weighing, steps, cautions: said })
}

fn how_word(how: Given) -> &'static str {
    match how {
        Given::InFeed => "in every feed",
        Given::Apart(method) => method.text(),
    }
}

fn usual(salt: Material) -> impl Iterator<Item = &'static UsualRate> {
    USUAL_RATES.iter().filter(move |r| r.salts.contains(&salt))
}

/// The lowest strength in print for a salt given in a way, ppm of its element, as it is typed: what forms are filled in with and
/// what tomorrow's work is reckoned at.
pub fn least_typed(salt: Material, how: Given) -> Option<String> {
    usual_rates(salt, how).map(|rate| rate.low_ppm).reduce(f64::min).map(plain)
}

/// The usual rates of a material.
pub fn usual_lines(page: &mut Page, material: Material) {
    for (i, rate) in usual(material).enumerate() {
        let label = if i == 0 { "usual" } else { "" };
        page.item(
            label,
            format!("{} ppm, {} ({})", range(rate.low_ppm, rate.high_ppm), how_word(rate.how), rate.source),
        );
    }
}

impl Answer {
    /// To read.
    ///
    /// # Errors
    /// [`Refused`] for a volume that cannot be.
    pub fn page(&self, units: System) -> Result<Page, Refused> {
        let (ask, weighing) = (&self.ask, &self.weighing);
        let salt = ask.material;
        let mut page = Page::default();
        page.line(format!(
            "{}, {} % {}: {} ppm of {} {}",
            sold_as(ask.material),
            plain(weighing.share.share() * 100.0),
            salt.element(),
            plain(weighing.target.ppm()),
            salt.element(),
            weighing.purpose(units)
        ));
        if ask.how.and_then(|how| beyond_usual(salt, how, weighing.target, 1.5)) == Some(true) {
            page.item("TOO STRONG?", "more than half again above every rate in print for this way of giving it");
        }
        for clash in self.clashes() {
            page.item("NOT TOGETHER", clash);
        }
        weighing.lines(&mut page, units)?;
        match &self.steps {
            None => {}
            Some(Ok(plan)) => page.item(
                "in two steps",
                format!(
                    "too little for this scale: dissolve {} g in water, fill up to {}, take {} of it, which makes {} ppm ({})",
                    plain(plan.weigh.g()),
                    volume(units, plan.dissolve_in),
                    volume(units, plan.take),
                    plain(weighing.target.ppm() * (1.0 + plan.off)),
                    off(plan.off)
                ),
            ),
            Some(Err(reason)) => page.item("in two steps", format!("too little for this scale; {reason}")),
        }
        a_pot_gets(&mut page, weighing.target, ask.per_pot, salt.element())?;
        usual_lines(&mut page, ask.material);
        if let Some(never) = never_with(ask.material) {
            page.item("apart", format!("never in one stock tank with {never}"));
        }
        page.cautions(&self.cautions);
        Ok(page)
    }

    /// What of the tank does not go together.
    fn clashes(&self) -> Vec<String> {
        let mut tank = vec![(self.ask.material.code(), carries(self.ask.material))];
        tank.extend(&self.ask.beside);
        apart(&tank)
    }

    /// For other programs.
    pub fn json(&self) -> Value {
        let mut answer = self.weighing.json();
        if let Some(fields) = answer.as_object_mut() {
            fields.insert("material".to_owned(), json!(self.ask.material.code()));
            fields.insert("element".to_owned(), json!(self.ask.material.element()));
            let plan = self.steps.as_ref().and_then(|s| s.as_ref().ok()).map(|p| {
                json!({ "weigh_g": p.weigh.g(), "dissolve_in_ml": p.dissolve_in.ml(), "take_ml": p.take.ml(), "off": p.off })
            });
            fields.insert("two_steps".to_owned(), json!(plan));
            let rates: Vec<_> = usual(self.ask.material)
                .map(|r| json!({ "how": how_word(r.how), "low_ppm": r.low_ppm, "high_ppm": r.high_ppm, "source": r.source }))
                .collect();
            fields.insert("usual".to_owned(), json!(rates));
            fields.insert("never_with".to_owned(), json!(never_with(self.ask.material)));
            fields.insert("cautions".to_owned(), cautions_json(&self.cautions));
        }
        answer
    }
}
