//! What was typed, calculated by `mix`: the answer as it reads, what is wrong by field, what is logged of it.

use super::growth;
use super::read::Reader;
use crate::controls::Fields;
use crate::crop::feed::{Fraction, Given};
use crate::mix::cautions::of_nutrient;
use crate::mix::{
    Chart, FeedRequest, MixAnswer, MixField, MixRefusal, NutrientRequest, Solution, TopdressRequest, three_numbers,
};
use crate::model::{MixTab, MixingField as F, Model};
use crate::record::{Kind, KindName, Material, Method, Term};
use crate::report::mix::{Page, page, usual_nutrient};
use crate::units::{Concentration, Mass, Volume};

/// What is logged.
#[derive(Debug, Clone)]
pub(super) enum Writes {
    /// As it stands.
    Kind(Kind),
    /// By a form, which asks for what is missing: the end of the application and the REI.
    Form(KindName, Vec<(&'static str, String)>),
}

/// What was typed comes to this.
#[derive(Debug, Clone, Default)]
pub(super) struct Work {
    /// The benches chosen.
    pub(super) benches: Vec<String>,
    /// The benches in words.
    pub(super) ground: String,
    /// What is wrong, by field.
    pub(super) faults: Vec<(F, String)>,
    /// The answer, or what can be said before there is one.
    pub(super) page: Page,
    /// The weight goes by two steps.
    pub(super) two_steps: bool,
    /// What is logged, once there is an answer.
    pub(super) writes: Option<Writes>,
}

/// Works it out.
pub(super) fn work(tab: MixTab, fields: &Fields<F>, model: &Model) -> Work {
    let mut reader = Reader::new(fields, model);
    let mut work = Work::default();
    let calculated = match tab {
        MixTab::GrowthRegulator => growth::growth_regulator(&mut reader, model, &mut work.page)
            .map(|answer| answer.map(|(page, fill)| (page, Writes::Form(KindName::GrowthRegulator, fill)))),
        MixTab::Nutrient => nutrient(&mut reader, &mut work),
        MixTab::Feed => feed(&mut reader),
        MixTab::Topdress => topdress(&mut reader),
    };
    match calculated {
        Some(Ok((page, writes))) => (work.page, work.writes) = (page, Some(writes)),
        Some(Err(refused)) => reader.fault(field_of(tab, &refused), refused.reason.text(reader.system)),
        None => {}
    }
    work.ground = reader.chosen.words(model);
    (work.benches, work.faults) = (reader.chosen.benches, reader.faults);
    if !work.faults.is_empty() {
        work.writes = None;
    }
    work
}

type Calculated = Option<Result<(Page, Writes), MixRefusal>>;

/// The field a refusal belongs to.
const fn field_of(tab: MixTab, refused: &MixRefusal) -> F {
    match refused.field {
        MixField::Mixed => F::PartPpm(refused.part),
        MixField::Ppm => F::Ppm(tab),
        MixField::PerPot => F::PerPot(tab),
        MixField::Percent => F::Percent(tab),
        MixField::Volume | MixField::Feed => F::Volume,
        MixField::Area => F::Area,
        MixField::Rate => F::Rate,
        MixField::Pots => F::Pots,
        MixField::Injector => F::Injector,
        MixField::Stock => F::Stock,
        MixField::Scale => F::Scale,
        MixField::Analysis => F::Analysis,
        MixField::Chart => F::ChartEc,
        MixField::WaterEc => F::WaterEc,
        MixField::FeedEc => F::FeedEc,
        MixField::Grams => F::Grams,
    }
}

/// The volume of a solution typed whole, or for the pots or the area.
fn volume(
    reader: &mut Reader<'_>,
    method: Method,
    per_pot: Option<Volume>,
    name: F,
) -> Option<Result<Volume, MixRefusal>> {
    if reader.text(F::Volume).is_some() {
        return reader.quantity(F::Volume).map(Ok);
    }
    if reader.text(F::Injector).is_some() && reader.text(F::Stock).is_some() {
        return None;
    }
    if method == Method::Spray {
        return reader.spray().map(|s| s.map(|s| s.volume));
    }
    let pots = reader.needed_pots();
    if per_pot.is_none() && reader.text(name).is_none() {
        reader.fault(name, "type it, or the total volume below");
    }
    Some(Solution::drench(pots?, Some(per_pot?), None, 0.0).map(|s| s.volume))
}

fn nutrient(reader: &mut Reader<'_>, work: &mut Work) -> Calculated {
    let known: Vec<(&'static str, Material)> = Material::ALL.iter().map(|m| (m.code(), *m)).collect();
    let material = reader.word(F::Material, &known);
    if let Some(material) = material {
        work.page.line(material.text());
        usual_nutrient(&mut work.page, material);
    }
    let method = reader.method(F::Method(MixTab::Nutrient));
    if let Some(material) = material {
        let (injector, beside) = (reader.text(F::Injector).is_some(), reader.beside());
        let names = beside.iter().map(|(name, _)| *name);
        work.page.cautions(&of_nutrient(material, method.map(Given::Apart), injector, names));
    }
    let per_pot = reader.small_volume(F::PerPot(MixTab::Nutrient)).filter(|_| method == Some(Method::Drench));
    let volume = volume(reader, method?, per_pot, F::PerPot(MixTab::Nutrient));
    let volume = match volume.transpose() {
        Ok(volume) => volume,
        Err(refused) => return Some(Err(refused)),
    };
    let share = reader.number(F::Percent(MixTab::Nutrient)).map(Fraction::from_percent);
    let share = share.transpose().unwrap_or_else(|e| {
        reader.fault(F::Percent(MixTab::Nutrient), e);
        None
    });
    let first = reader.quantity(F::FirstWater).unwrap_or(Volume::from_ml(1000.0));
    let measure = reader.small_volume(F::MeasureStep).unwrap_or(Volume::from_ml(1.0));
    let ppm = reader.quantity::<Concentration>(F::Ppm(MixTab::Nutrient));
    let (scale, beside) = (reader.scale(), reader.beside());
    let into = reader.into(volume);
    let (material, ppm) = (material?, ppm?);
    let how = Some(Given::Apart(method?));
    let request = NutrientRequest { material, ppm, how, share, into: into?, scale, first, measure, per_pot, beside };
    let kind = Kind::Nutrient { material, ppm: ppm.ppm(), how: method?, ml_per_pot: per_pot.map(Volume::ml) };
    let answer = request.calculate();
    work.two_steps = answer.as_ref().is_ok_and(|a| a.steps.is_some());
    Some(answer.map(|a| (page(&MixAnswer::Nutrient(a), reader.system), Writes::Kind(kind))))
}

fn feed(reader: &mut Reader<'_>) -> Calculated {
    let analysis = reader.text(F::Analysis).map(three_numbers);
    let analysis = analysis.transpose().unwrap_or_else(|refused| {
        reader.fault(F::Analysis, refused.reason.text(reader.system));
        None
    });
    let n = reader.quantity::<Concentration>(F::Ppm(MixTab::Feed));
    let per_pot = reader.small_volume(F::PerPot(MixTab::Feed));
    let volume = volume(reader, Method::Drench, per_pot, F::PerPot(MixTab::Feed));
    let volume = match volume.transpose() {
        Ok(volume) => volume,
        Err(refused) => return Some(Err(refused)),
    };
    let (scale, beside) = (reader.scale(), reader.beside());
    let into = reader.into(volume);
    let (mg, mo) = (reader.quantity::<Concentration>(F::Magnesium), reader.quantity::<Concentration>(F::Molybdenum));
    let chart = reader.quantity(F::ChartEc).zip(reader.quantity::<Concentration>(F::ChartPpm));
    let (water, read) = (reader.quantity(F::WaterEc).unwrap_or_default(), reader.quantity(F::FeedEc));
    let chart = chart.map(|(ec, n)| Chart { ec, n, water, feed: read });
    let n = n?;
    let request = FeedRequest { analysis: analysis?, n, into: into?, scale, per_pot, chart, beside };
    let kind = Kind::Fed {
        n_ppm: n.ppm(),
        mg_ppm: mg.map(Concentration::ppm),
        mo_ppm: mo.map(Concentration::ppm),
        ml_per_pot: per_pot.map(Volume::ml),
    };
    Some(request.calculate().map(|a| (page(&MixAnswer::Feed(a), reader.system), Writes::Kind(kind))))
}

fn topdress(reader: &mut Reader<'_>) -> Calculated {
    let per_pot = reader.grams(F::Grams);
    let percent = reader.number(F::Percent(MixTab::Topdress));
    let nitrogen = percent.map(Fraction::from_percent).transpose().unwrap_or_else(|e| {
        reader.fault(F::Percent(MixTab::Topdress), e);
        None
    });
    let scale = reader.scale();
    let pots = reader.needed_pots();
    let per_pot = per_pot?;
    let answer = TopdressRequest { per_pot, pots: pots?, nitrogen, scale }.calculate();
    let kind = Kind::Topdressed { g_per_pot: Mass::g(per_pot), n_percent: percent };
    Some(answer.map(|a| (page(&MixAnswer::Topdress(a), reader.system), Writes::Kind(kind))))
}
