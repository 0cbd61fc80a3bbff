//! How the Setup page looks.

mod beside;

use super::State;
use super::items::{Item, items, next_step};
use crate::dates;
use crate::model::Model;
use crate::record::{Lot, Term};
use crate::ui::list::{Follow, list};
use crate::ui::regions::{Room, rule};
use crate::ui::{Role, fit, line_of, put, rows, wrap};
use crate::units::{Area, Quantity, plain};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

const EMPTY: &str = "A plan has five parts: site; lots (what was planted, pot size, ready date); benches in walking order; \
placements; orders. Press a to add each of them; all can be changed later, and earlier versions stay in the record.";

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (key, step) = next_step(model);
    let look = model.look;
    let (head, body) = rows(area, 2);
    let next = vec![Span::raw("Next: "), Span::styled(key, look.style(Role::Key)), Span::raw(format!("  {step}"))];
    put(frame, head, 0, Line::from(next));
    let all = items(model);
    if all.is_empty() {
        for (line, row) in wrap(EMPTY, usize::from(area.width.min(76))).into_iter().zip(0..) {
            put(frame, body, row, Line::raw(line));
        }
        return Some(Position { x: area.x.saturating_add(6), y: area.y });
    }
    let marked = state.list.cursor().min(all.len().saturating_sub(1));
    let body = match all.get(marked) {
        Some(item) if Room::of(area.width) > Room::Narrow => {
            rule(frame, line_of(area, 1), look);
            beside::view(item, model, frame, body)
        }
        _ => body,
    };
    let lines = lines(model, &all, Room::of(area.width) > Room::Narrow);
    let at = lines.iter().position(|(item, _)| *item == Some(marked)).unwrap_or(0);
    let row = |at: usize, chosen: bool| {
        let Some((item, text)) = lines.get(at) else { return Line::default() };
        let (text, role) = match (item, chosen) {
            (None, _) => (text.clone(), Role::Head),
            (Some(_), true) => (format!("{} {text}", look.glyphs().here), Role::Chosen),
            (Some(_), false) => (format!("  {text}"), Role::Plain),
        };
        let text = fit(&text, usize::from(body.width));
        // The row under the cursor is marked over the whole list.
        let text = if role == Role::Chosen { text } else { text.trim_end().to_owned() };
        Line::from(Span::styled(text, look.style(role)))
    };
    Some(list(frame, body, (at, lines.len()), Follow::Center, row))
}

/// Heads and lines; a line with its place among the items. `wide`: what the line says in full stands beside it.
fn lines(model: &Model, all: &[Item], wide: bool) -> Vec<(Option<usize>, String)> {
    let mut lines = Vec::with_capacity(all.len().saturating_add(5));
    let mut before = "";
    for (at, item) in all.iter().enumerate() {
        let head = match item {
            Item::Site => "Site",
            Item::Lot(_) => "Lots",
            Item::Order(..) => "Orders",
            Item::Bench(_) => "Benches, in walking order",
            Item::Placement(..) => "Placements",
            Item::Trial(_) => "Trials",
        };
        if head != before {
            lines.push((None, head.to_owned()));
            before = head;
        }
        let whole = text(model, item).unwrap_or_default();
        lines.push((Some(at), if wide { short(model, item).unwrap_or(whole) } else { whole }));
    }
    lines
}

/// The part of a line that tells it from the others; `None` for one that is short in full.
fn short(model: &Model, item: &Item) -> Option<String> {
    match item {
        Item::Site => {
            let site = model.season.site()?;
            Some(format!("{}  {}", site.name, site.time_zone.name()))
        }
        Item::Lot(code) => {
            let lot = model.season.lot(code)?;
            let what = fit(&format!("{}, {}", lot.cultivar, lot.container), 24);
            Some(format!("{}  {what}  {:>5} pots  ready {}", fit(code, 6), lot.pots, dates::short(lot.ready_by)))
        }
        Item::Order(..) | Item::Bench(_) | Item::Placement(..) | Item::Trial(_) => None,
    }
}

/// What a lot's crop gets next season: `next season 8 g (trial T1, 8 g)`.
fn next_season(lot: &Lot) -> Option<String> {
    let basis = lot.next_release_basis.as_ref().map(|basis| format!(" ({basis})")).unwrap_or_default();
    lot.next_release_g.map(|grams| format!("next season {} g{basis}", plain(grams)))
}

fn text(model: &Model, item: &Item) -> Option<String> {
    let season = &model.season;
    match item {
        Item::Site => {
            let site = season.site()?;
            let side = |degrees: f64, plus: &str, minus: &str| {
                let letter = if degrees < 0.0 { minus } else { plus };
                format!("{} {letter}", degrees.abs())
            };
            let place = format!("{} {}", side(site.latitude, "N", "S"), side(site.longitude, "E", "W"));
            let (units, region) = (site.units.text(), site.region.text());
            Some(format!("{}  {place}  {}  {units}  {region}", site.name, site.time_zone.name()))
        }
        Item::Lot(code) => {
            let lot = season.lot(code)?;
            let down: u32 = season.all_placements().iter().filter(|p| p.lot == *code).map(|p| p.pots).sum();
            let days = format!("planted {}  ready {}", dates::short(lot.planted), dates::short(lot.ready_by));
            let what = fit(&format!("{}, {}", lot.cultivar, lot.container), 20);
            let next = next_season(lot).map(|next| format!("  {next}")).unwrap_or_default();
            Some(format!("{}  {what}  {days}  {down} of {} placed{next}", fit(code, 6), lot.pots))
        }
        Item::Order(lot, date) => {
            let order = season.orders(lot).into_iter().find(|o| o.date == *date)?;
            Some(format!("{}  {} pots for {}", fit(lot, 6), order.pots, dates::weekday(*date)))
        }
        Item::Bench(code) => {
            let bench = season.bench(code)?;
            let standing = season.standing(code, model.day);
            let stands = standing.map_or("empty".to_owned(), |s| format!("{} pots of {}", s.pots, s.lot));
            let area = bench.area_m2.map(|m2| Area::from_m2(m2).show(model.system())).unwrap_or_default();
            Some(
                format!("{}  {}  {}  {area}", fit(code, 6), fit(&bench.house, 12), fit(&stands, 22))
                    .trim_end()
                    .to_owned(),
            )
        }
        Item::Placement(bench, from) => {
            let placement = season.all_placements().into_iter().find(|p| p.bench == *bench && p.from == *from)?;
            let (pots, lot) = (placement.pots, &placement.lot);
            Some(format!("{}  {pots} pots of {lot} on {}", fit(bench, 6), dates::weekday(*from)))
        }
        Item::Trial(code) => {
            let trial = season.trial(code)?;
            let plots = match season.plots(code).len() {
                1 => "1 plot".to_owned(),
                plots => format!("{plots} plots"),
            };
            let seed = trial.seed.as_ref().map(|seed| format!(", seed {seed}")).unwrap_or_default();
            let how = trial.design.text();
            Some(format!("{}  {}  {}  {plots}  {how}{seed}", fit(code, 6), trial.lot, trial.question))
        }
    }
}
