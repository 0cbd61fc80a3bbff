//! Where a form is about: one bench, several, a house, the rest of a house, a lot.

use super::State;
use crate::controls::{Choice, Input, Row};
use crate::model::{FormRequest, Model};
use crate::popups::fields::About;
use crate::record::{FieldFault, KindName, Place};
use crate::season::{self, places::Meant};
use chrono::NaiveDate;

/// A place that can be chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Scope {
    /// One bench.
    Bench(String),
    /// Several benches, by what is typed.
    These(Vec<String>),
    /// A house.
    House(String),
    /// A house without the benches typed.
    Rest(String),
    /// A lot.
    Lot(String),
}

/// The places a form offers.
#[derive(Debug, Clone)]
pub(super) struct Places {
    scopes: Vec<Scope>,
    /// The one chosen when the form opens.
    first: usize,
    /// The benches it is about when the form opens.
    benches: Vec<String>,
}

/// Pots are counted bench by bench: these kinds are written to benches only.
const fn by_bench(kind: KindName) -> bool {
    matches!(kind, KindName::Sold | KindName::Counted | KindName::Moved | KindName::Losses | KindName::Grade)
}

impl Places {
    /// The places around the one a form was opened on.
    pub(super) fn of(ask: &FormRequest, model: &Model) -> Self {
        let season = &model.season;
        let only_benches = by_bench(ask.kind);
        let mut benches = ask.benches.clone();
        let mut scopes = Vec::new();
        let (house, lot) = match &ask.place {
            Place::Bench(code) => {
                if benches.is_empty() {
                    benches.push(code.to_string());
                }
                scopes.push(Scope::Bench(code.to_string()));
                let lot = season.standing(code, model.day).map(|s| s.lot);
                (season.bench(code).map(|b| b.house.clone()), lot)
            }
            Place::House(name) => (Some(name.to_string()), None),
            Place::Lot(code) => {
                let first = season.benches_of_lot(code, model.day).into_iter().next();
                (first.and_then(|b| season.bench(b)).map(|b| b.house.clone()), Some(code.to_string()))
            }
        };
        if benches.is_empty() {
            benches = standing(model, &ask.place, model.day);
        }
        scopes.push(Scope::These(benches.clone()));
        scopes.extend(house.clone().filter(|_| !only_benches).map(Scope::House));
        scopes.extend(house.filter(|_| ask.kind != KindName::Moved).map(Scope::Rest));
        scopes.extend(lot.filter(|_| !only_benches).map(Scope::Lot));
        let wanted = scopes.iter().position(|scope| match (scope, &ask.place) {
            (Scope::House(a), Place::House(b)) | (Scope::Lot(a), Place::Lot(b)) => *a == **b,
            (Scope::Bench(a), Place::Bench(b)) => *a == **b && benches.len() < 2,
            _ => false,
        });
        let many = scopes.iter().position(|s| matches!(s, Scope::These(_)));
        Self { first: wanted.or(many).unwrap_or(0), scopes, benches }
    }

    /// The rows that ask for the place.
    pub(super) fn rows(&self) -> Vec<Row<About>> {
        let choices = self.scopes.iter().map(|scope| Choice { code: code(scope), text: words(scope) }).collect();
        let place = Row::new(About::Where, "where", false, Input::One(choices, Some(self.first)));
        let mut these = Row::typed(About::Benches, "benches", false).long();
        these.set(&self.benches.join(" "));
        let mut except = Row::typed(About::Except, "except", false).long();
        except.set(&self.benches.join(" "));
        vec![place, these, except]
    }

    /// A place by its number.
    pub(super) fn scope(&self, at: usize) -> &Scope {
        static NOWHERE: Scope = Scope::These(Vec::new());
        self.scopes.get(at).or(self.scopes.first()).unwrap_or(&NOWHERE)
    }

    /// The number of the house.
    pub(super) fn house(&self) -> Option<usize> {
        self.scopes.iter().position(|s| matches!(s, Scope::House(_)))
    }
}

fn code(scope: &Scope) -> String {
    match scope {
        Scope::Bench(c) => format!("bench {c}"),
        Scope::These(_) => "benches".to_owned(),
        Scope::House(c) => format!("house {c}"),
        Scope::Rest(c) => format!("rest of {c}"),
        Scope::Lot(c) => format!("lot {c}"),
    }
}

fn words(scope: &Scope) -> String {
    match scope {
        Scope::Bench(c) => format!("bench {c}"),
        Scope::These(_) => "several benches".to_owned(),
        Scope::House(c) => format!("house {c}"),
        Scope::Rest(c) => format!("house {c} except some benches"),
        Scope::Lot(c) => format!("lot {c}"),
    }
}

/// The benches of a place that stand with pots on a day, in walking order.
pub(super) fn standing(model: &Model, place: &Place, day: NaiveDate) -> Vec<String> {
    let season = &model.season;
    let of = |b: &&crate::record::Bench| match place {
        Place::Bench(code) => *b.bench == **code,
        Place::House(house) => *b.house == **house,
        Place::Lot(lot) => season.standing(&b.bench, day).is_some_and(|s| *s.lot == **lot),
    };
    let all = season.benches().iter().filter(of);
    all.filter(|b| season.standing(&b.bench, day).is_some()).map(|b| b.bench.clone()).collect()
}

/// The benches a text names.
fn named(model: &Model, field: &str, text: &str, day: NaiveDate) -> Result<Vec<String>, FieldFault> {
    let read = season::places::read(&model.season, text, Meant::WithPots(day));
    read.map_err(|fault| FieldFault::new(field, fault.to_string()))
}

/// The places of the entries to write: one a bench, or the house or lot where all of it is meant.
///
/// # Errors
/// Where no bench is left, or what is typed names no bench.
pub(super) fn chosen(
    model: &Model,
    scope: &Scope,
    (benches, except): (&str, &str),
    day: NaiveDate,
) -> Result<Vec<Place>, FieldFault> {
    let each = |codes: Vec<String>| codes.into_iter().map(|code| Place::Bench(code.into())).collect::<Vec<_>>();
    let places = match scope {
        Scope::Bench(code) => vec![Place::Bench(code.as_str().into())],
        Scope::House(name) => vec![Place::House(name.as_str().into())],
        Scope::Lot(code) => vec![Place::Lot(code.as_str().into())],
        Scope::These(_) => each(named(model, "benches", benches, day)?),
        Scope::Rest(house) => {
            let out = named(model, "except", except, day)?;
            let all = standing(model, &Place::House(house.as_str().into()), day);
            each(all.into_iter().filter(|b| !out.contains(b)).collect())
        }
    };
    if places.is_empty() {
        let field = if matches!(scope, Scope::Rest(_)) { "except" } else { "benches" };
        return Err(FieldFault::new(field, "leaves no bench to log for"));
    }
    Ok(places)
}

/// The places chosen in a form; none where what is typed is no place.
pub(super) fn places(state: &State, model: &Model) -> Vec<Place> {
    let typed = (state.text("benches"), state.text("except"));
    chosen(model, state.scope(), (&typed.0, &typed.1), model.day).unwrap_or_default()
}

/// The benches with pots on the places chosen.
pub(super) fn benches(state: &State, model: &Model) -> Vec<String> {
    places(state, model).iter().flat_map(|p| standing(model, p, model.day)).collect()
}
