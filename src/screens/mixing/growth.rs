//! A growth regulator as typed, calculated by `mix`.

use super::fields::PARTS;
use super::read::Reader;
use crate::crop::growth_regulator::{Ingredient, Part, Strength};
use crate::mix::cautions::of_growth_regulator;
use crate::mix::{GrowthRegulatorAnswer, GrowthRegulatorRequest, LotDates, MixAnswer, MixRefusal, Solution};
use crate::model::{MixTab, MixingField as F, Model};
use crate::report::mix::{Page, page, usual_growth_regulator};
use crate::terms::{Method, Term};
use crate::units::{Concentration, Quantity, System, Volume};
use crate::warnings::{last_safe_rules, short_days};

/// The answer as it reads, and what the form of the treatment is filled in with.
type Calculated = Option<Result<(Page, Fill), MixRefusal>>;
/// Fields of a form, with the text as it is typed.
type Fill = Vec<(&'static str, String)>;

/// Calculates it; before there is an answer, the usual ranges stand in `usual`.
pub(super) fn growth_regulator(reader: &mut Reader<'_>, model: &Model, usual: &mut Page) -> Calculated {
    let method = reader.method(F::Method(MixTab::GrowthRegulator))?;
    let solution = growth_solution(reader, method);
    let mut asked = Vec::new();
    for of in 0..PARTS {
        if of == 0 || reader.text(F::Ingredient(of)).is_some() {
            asked.push(part(reader, of));
        }
    }
    // Before there is an answer, what is usual can be said.
    for ingredient in asked.iter().filter_map(|(ingredient, _)| *ingredient) {
        usual.line(ingredient.name());
        usual_growth_regulator(usual, ingredient, method);
    }
    let named: Vec<Option<Ingredient>> = asked.iter().filter_map(|(ingredient, _)| *ingredient).map(Some).collect();
    if !named.is_empty() {
        usual.cautions(&of_growth_regulator(&named, method));
    }
    let parts = asked.into_iter().map(|(_, part)| part).collect::<Option<Vec<Part>>>()?;
    let lots = reader.chosen.lots.iter().filter_map(|lot| {
        let short_days = short_days(&model.season, lot, model.day, &model.limits)?;
        Some(LotDates { lot: lot.lot.clone(), short_days, sale: lot.ready_by })
    });
    let (region, rules) = last_safe_rules(&model.season, model.day, &model.limits);
    let lots = lots.collect();
    let solution = match solution? {
        Ok(solution) => solution,
        Err(refused) => return Some(Err(refused)),
    };
    let limits = model.limits.clone();
    let on = Some(model.day);
    let request = GrowthRegulatorRequest { method, solution, parts, measured: false, lots, region, rules, limits, on };
    Some(request.calculate().map(|answer| {
        let fill = growth_fill(&answer, reader.system);
        (page(&MixAnswer::GrowthRegulator(answer), reader.system), fill)
    }))
}

fn growth_solution(reader: &mut Reader<'_>, method: Method) -> Option<Result<Solution, MixRefusal>> {
    let whole = reader.quantity::<Volume>(F::Volume);
    if reader.text(F::Volume).is_some() && whole.is_none() {
        return None;
    }
    if method == Method::Spray {
        return match whole {
            Some(volume) => Some(Ok(Solution { volume, ..Solution::default() })),
            None => reader.spray(),
        };
    }
    let per_pot = reader.small_volume(F::PerPot(MixTab::GrowthRegulator));
    if per_pot.is_none() && reader.text(F::PerPot(MixTab::GrowthRegulator)).is_some() {
        return None;
    }
    if let Some(volume) = whole {
        return Some(Solution::whole(volume, per_pot, reader.chosen.rim));
    }
    let reserve = reader.number(F::Reserve).unwrap_or(0.0) / 100.0;
    let pots = reader.needed_pots()?;
    Some(Solution::drench(pots, per_pot, reader.chosen.rim, reserve))
}

/// One part of a tank: its ingredient as soon as it is known, the whole once it is typed.
fn part(reader: &mut Reader<'_>, of: usize) -> (Option<Ingredient>, Option<Part>) {
    let ingredient = reader.text(F::Ingredient(of)).and_then(Ingredient::parse).or_else(|| {
        let known: Vec<(&'static str, Ingredient)> = Ingredient::ALL.iter().map(|i| (i.name(), *i)).collect();
        reader.word(F::Ingredient(of), &known)
    });
    let typed = reader.text(F::Strength(of)).map(Strength::parse);
    let strong = match typed {
        Some(Err(reason)) => {
            reader.fault(F::Strength(of), reason);
            None
        }
        other => other.and_then(Result::ok),
    };
    let ppm = reader.quantity::<Concentration>(F::PartPpm(of));
    let whole = ingredient.zip(strong).zip(ppm);
    (ingredient, whole.map(|((ingredient, strength), ppm)| Part { ingredient, ppm, strength }))
}

/// What the form of a treatment is filled in with; never the REI.
fn growth_fill(answer: &GrowthRegulatorAnswer, system: System) -> Fill {
    let parts: Vec<String> = answer
        .parts
        .iter()
        .map(|p| format!("{} {}", p.amount.part.ingredient.name(), p.amount.part.ppm.ppm()))
        .collect();
    let rate = answer
        .parts
        .iter()
        .map(|p| format!("{} of {}", p.amount.measured.show(System::Metric), p.amount.part.strength.show()));
    let all = Volume::show(answer.solution.volume, system);
    let rate = format!("{} in {all}", rate.collect::<Vec<_>>().join(" + "));
    let mut fill = vec![("parts", parts.join(" + ")), ("how", answer.method.code().to_owned()), ("rate", rate)];
    let per_pot = answer.solution.per_pot.map(|volume| {
        let (unit, value) = match system {
            System::Us => ("fl oz", volume.in_unit("fl oz").unwrap_or_default()),
            System::Metric => ("mL", volume.ml()),
        };
        format!("{} {unit}", (value * 100.0).round() / 100.0)
    });
    fill.push(("ml_per_pot", per_pot.unwrap_or_default()));
    fill
}
