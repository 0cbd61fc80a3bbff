//! What a form fills in by itself, each with its reason, until something else is typed there.

use super::State;
use super::cities::{self, CITIES};
use crate::crop::calendar::{
    Backward, BackwardPlan, Darkness, PinchPlan, backward_from_sale, darkness, usual_cuttings, usual_leads,
};
use crate::crop::night;
use crate::model::{Model, PlanAsk};
use crate::popups::when;
use crate::record::{Pinch, Term, Value, parse, typed};
use crate::season::places::{self, Meant};
use crate::units::{self, Length, System};
use chrono::NaiveDate;

/// A rim under this is a small pot, cm: between 5 and 6 in.
const SMALL_RIM_CM: f64 = 14.0;

/// A suggestion: the field, its text, the reason.
type Offer = (&'static str, String, String);

/// Fills in what is not filled in by hand.
pub(super) fn offer(state: &mut State, model: &Model) {
    let offers = match state.ask {
        PlanAsk::Site => site(state),
        PlanAsk::NewLot | PlanAsk::Lot(_) => lot(state, model),
        PlanAsk::Benches => bench_row(state, model),
        PlanAsk::SetDown => set_down(state, model),
        PlanAsk::NewOrder => order(state, model),
        PlanAsk::History(_) | PlanAsk::Bench(_) | PlanAsk::Placement(..) | PlanAsk::Order(..) => Vec::new(),
    };
    for row in state.fields.all_mut().filter(|r| !state.own.contains(r.name.name())) {
        let found = offers.iter().find(|(name, ..)| *name == row.name.name());
        match found {
            Some((name, text, why)) => {
                if row.text() != *text {
                    row.set(text);
                }
                state.offered.insert(name, why.clone());
            }
            None => {
                if state.offered.remove(row.name.name()).is_some() {
                    row.set("");
                }
            }
        }
    }
    state.show();
}

/// A field's number, in the unit it is kept in.
pub(super) fn number(state: &State, model: &Model, name: &str) -> Option<f64> {
    let row = state.row(name)?;
    match typed::read(row.name.field()?, &row.text(), model.system()).ok()?? {
        Value::Number(n) => Some(n),
        Value::Count(n) => Some(f64::from(n)),
        _ => None,
    }
}

/// A field's day.
pub(super) fn day(state: &State, model: &Model, name: &str) -> Option<NaiveDate> {
    model.day_reader().day(&state.text(name), when::facing(name)).ok()
}

fn site(state: &State) -> Vec<Offer> {
    let mut offers = Vec::new();
    let picked = CITIES.iter().find(|c| c.name == state.text("near"));
    if let Some(city) = picked {
        offers.push(("latitude", city.latitude.to_string(), city.name.to_owned()));
        offers.push(("longitude", city.longitude.to_string(), city.name.to_owned()));
    }
    let typed = |name: &str| {
        let row = state.row(name)?;
        match typed::read(row.name.field()?, &row.text(), System::Metric).ok()?? {
            Value::Number(n) => Some(n),
            _ => None,
        }
    };
    let near = || cities::nearest(typed("latitude")?, typed("longitude")?);
    if let Some(city) = picked.or_else(near) {
        let why = if picked.is_some() { city.name.to_owned() } else { format!("{}; check", city.name) };
        offers.push(("time_zone", city.zone.to_owned(), why.clone()));
        offers.push(("units", if city.us { System::Us } else { System::Metric }.code().to_owned(), why));
    }
    offers
}

/// The rim a container is named after: `6.5 in`, `15 cm pot`.
fn rim_of(container: &str, system: System) -> Option<Length> {
    let words: Vec<&str> = container.split_whitespace().collect();
    let first = words.get(..2).map(|two| two.join(" "));
    let read = |text: &str| units::parse::<Length>(text, system).ok();
    read(container).or_else(|| read(&first?)).or_else(|| read(words.first()?)).filter(|l| l.cm() >= 1.0)
}

/// What a new lot takes over from the one entered last: the container, the pinch, the sale, and with them the height it is sold at.
fn as_the_last(state: &State, model: &Model) -> Vec<Offer> {
    let written = |l: &&crate::record::Lot| crate::record::Line::Lot((*l).clone()).order();
    let Some(last) = model.season.lots().into_iter().max_by_key(written) else { return Vec::new() };
    let why = format!("as lot {}", last.lot);
    let mut offers = vec![
        ("container", last.container.clone(), why.clone()),
        ("pinch", last.pinch.code().to_owned(), why.clone()),
        ("ready_by", parse::show_day(last.ready_by), why.clone()),
    ];
    let other = |name: &str, same: &str| state.own.contains(name) && !state.text(name).eq_ignore_ascii_case(same);
    if other("container", &last.container) || other("pinch", last.pinch.code()) {
        return offers;
    }
    let heights = [("height_low_cm", last.height_low_cm), ("height_high_cm", last.height_high_cm)];
    for (name, cm) in heights {
        let field = state.row(name).and_then(|row| row.name.field()).zip(cm);
        offers.extend(field.map(|(f, cm)| (name, typed::show(f, &Value::Number(cm), model.system()), why.clone())));
    }
    offers
}

fn lot(state: &State, model: &Model) -> Vec<Offer> {
    let mut offers = vec![("nights", "natural".to_owned(), "the default".to_owned())];
    if state.ask == PlanAsk::NewLot {
        offers.extend(as_the_last(state, model));
    }
    let text = |name: &str| match offers.iter().find(|(offered, ..)| *offered == name && !state.own.contains(name)) {
        Some((_, text, _)) => text.clone(),
        None => state.text(name),
    };
    let (container, pinch) = (text("container"), text("pinch"));
    let own = state.kept.as_ref();
    let same = model.season.lots().into_iter().find(|l| {
        !container.trim().is_empty()
            && l.container.eq_ignore_ascii_case(container.trim())
            && own != Some(&crate::record::Line::Lot((*l).clone()))
    });
    let show = |name: &str, cm: f64| {
        let field = state.row(name).and_then(|row| row.name.field());
        field.map(|f| typed::show(f, &Value::Number(cm), model.system()))
    };
    let by_name = rim_of(&container, model.system());
    if let Some((text, code)) = same.and_then(|l| Some((show("rim_cm", l.rim_cm?)?, &l.lot))) {
        offers.push(("rim_cm", text, format!("as for lot {code}")));
    } else if let Some(text) = by_name.and_then(|l| show("rim_cm", l.cm())) {
        offers.push(("rim_cm", text, "from container name".to_owned()));
    }
    if let Some((text, code)) = same.and_then(|l| Some((show("pot_height_cm", l.pot_height_cm?)?, &l.lot))) {
        offers.push(("pot_height_cm", text, format!("as for lot {code}")));
    }
    // What was just offered counts for the rest, too.
    let rim = number(state, model, "rim_cm").map(Length::from_cm).or(by_name);
    if let Some((least, most)) =
        rim.filter(|_| !pinch.is_empty()).and_then(|r| usual_cuttings(r, pinch != Pinch::None.code()))
    {
        let why = if least == most { "usual (Texas A&M)".to_owned() } else { format!("usual: {least} to {most}") };
        offers.push(("cuttings_per_pot", least.to_string(), why));
    }
    if let Some(back) = back(state, model) {
        offers.push(("planted", parse::show_day(back.planting), "from the ready date".to_owned()));
        offers.push(("blackout_from", parse::show_day(back.short_days), "from the ready date".to_owned()));
        if let Some(Darkness::LightUntil { last, .. }) = nights(state, model, &back) {
            offers.push(("lights_until", parse::show_day(last), "from the ready date".to_owned()));
        }
    }
    offers
}

/// The calendar back from the sale, with the usual leads; none for unpinched lots, for which no usual figure is known.
pub(super) fn back(state: &State, model: &Model) -> Option<Backward> {
    let ready_by = day(state, model, "ready_by")?;
    let response_weeks = number(state, model, "response_weeks")?;
    let leads = usual_leads(number(state, model, "rim_cm").is_some_and(|cm| cm < SMALL_RIM_CM));
    let pinch = match Pinch::from_code(&state.text("pinch"))? {
        Pinch::Soft | Pinch::Hard => PinchPlan::Pinched {
            weeks_before_sd: leads.pinch_weeks.likely,
            days_after_planting: leads.plant_days.likely,
        },
        Pinch::None => return None,
    };
    backward_from_sale(&BackwardPlan { ready_by, response_weeks, pinch }).ok()
}

/// The start of short days the season gives to a planting.
#[expect(clippy::option_option, reason = "no site, and a site whose nights never get so long, are two things")]
pub(super) fn natural(model: &Model, planted: NaiveDate) -> Option<Option<NaiveDate>> {
    let site = model.season.site()?;
    let place = night::Place::new(site.latitude, site.longitude).ok()?;
    let convention = model.limits.choices.night;
    let minutes = f64::from(model.limits.round.night_start_min);
    night::start_of_short_days(&place, planted, night::Nights::Natural, minutes, convention).ok()
}

/// What is to be done about the nights for the short days that the sale wants.
pub(super) fn nights(state: &State, model: &Model, back: &Backward) -> Option<Darkness> {
    let planted = day(state, model, "planted").unwrap_or(back.planting);
    darkness(back.short_days, natural(model, planted)?).ok()
}

fn bench_row(state: &State, model: &Model) -> Vec<Offer> {
    let benches = model.season.benches();
    let Some(last) = benches.last() else { return Vec::new() };
    let why = format!("as bench {}", last.bench);
    let mut offers = vec![("house", last.house.clone(), why.clone())];
    let area = state.row("area_m2").and_then(|row| row.name.field()).zip(last.area_m2);
    if let Some((field, m2)) = area {
        offers.push(("area_m2", typed::show(field, &Value::Number(m2), model.system()), why));
    }
    offers
}

/// True where a lot was placed nowhere yet, and a bench is empty.
pub(super) fn waits(model: &Model) -> bool {
    let season = &model.season;
    let placed = |lot: &str| season.all_placements().iter().any(|p| p.lot == lot && p.pots > 0);
    let empty = |code: &str| season.standing(code, model.day).is_none();
    season.lots().iter().any(|l| !placed(&l.lot)) && season.benches().iter().any(|b| empty(&b.bench))
}

/// Pots of a lot that were never placed.
pub(super) fn left(model: &Model, lot: &str) -> Option<u32> {
    let pots = model.season.lot(lot)?.pots;
    let down = model.season.all_placements().iter().filter(|p| p.lot == lot).map(|p| p.pots).sum::<u32>();
    Some(pots.saturating_sub(down))
}

/// The lot meant: the one picked, or the first with pots left to place.
fn lot_meant(state: &State, model: &Model) -> Option<String> {
    let picked = state.text("lot");
    if state.own.contains("lot") {
        return Some(picked).filter(|p| !p.is_empty());
    }
    let lots = model.season.lots();
    lots.iter().find(|l| left(model, &l.lot).is_some_and(|n| n > 0)).or(lots.first()).map(|l| l.lot.clone())
}

fn set_down(state: &State, model: &Model) -> Vec<Offer> {
    let Some(lot) = lot_meant(state, model) else { return Vec::new() };
    let season = &model.season;
    let Some(planted) = season.lot(&lot).map(|l| l.planted) else { return Vec::new() };
    let left = left(model, &lot).unwrap_or(0);
    let mut offers = vec![
        ("lot", lot, format!("{left} pots to place")),
        ("from", parse::show_day(planted), "its planting day".to_owned()),
    ];
    // Empty now, and nothing is to be placed there later.
    let comes =
        |code: &str| season.all_placements().iter().any(|p| p.bench == code && p.pots > 0 && p.from > model.day);
    let free = |code: &str| season.standing(code, model.day).is_none() && !comes(code);
    let free: Vec<String> = season.benches().iter().map(|b| &b.bench).filter(|code| free(code)).cloned().collect();
    let text = if state.own.contains("benches") { state.text("benches") } else { places::short(season, &free) };
    if !free.is_empty() {
        offers.push(("benches", places::short(season, &free), "empty now".to_owned()));
    }
    let many = places::read(season, &text, Meant::EveryBench).map_or(0, |codes| codes.len());
    if let Some(each) = u32::try_from(many).ok().and_then(|n| left.checked_div(n)).filter(|n| *n > 0) {
        offers.push(("pots", each.to_string(), format!("{left} over {many} benches")));
    }
    offers
}

fn order(state: &State, model: &Model) -> Vec<Offer> {
    let Some(lot) = lot_meant(state, model) else { return Vec::new() };
    let Some(ready) = model.season.lot(&lot).map(|l| l.ready_by) else { return Vec::new() };
    let first = model.season.lots().first().is_some_and(|l| l.lot == lot) && model.season.lots().len() == 1;
    let mut offers = vec![("date", parse::show_day(ready), "its ready date".to_owned())];
    if first {
        offers.push(("lot", lot, "the only one".to_owned()));
    }
    offers
}
