//! Beside the lines of the plan in a wide window: what the line under the cursor says, how it came to say it, what follows from it.

use super::next_season;
use crate::crop::color::response::USUAL_C;
use crate::dates;
use crate::model::Model;
use crate::record::{Line as PlanLine, LineKey};
use crate::report::{plan, words};
use crate::review::ranges;
use crate::screens::set_up::items::Item;
use crate::trials::is_lost;
use crate::ui::regions::{Regions, Room, TEXT, heading};
use crate::ui::{Role, fit, list, rows, wrap};
use crate::units::{Quantity, Temperature, plain};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Cells of the lines, in a wide and in a very wide window.
const LIST: (u16, u16) = (66, 72);
/// Cells of a label beside its value.
const LABEL: usize = 18;

/// Draws it; gives the room for the lines.
pub(super) fn view(item: &Item, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Rect {
    let cells = if Room::of(area.width) == Room::Widest { LIST.1 } else { LIST.0 };
    let regions = Regions::of(frame, area, cells, model.look);
    let Some(panel) = regions.panel else { return regions.list };
    let Some(line) = of(item, model) else { return regions.list };
    let key = line.key();
    let cells = usize::from(panel.width.min(TEXT));
    let mut said = details(&line, model, cells);
    said.push(Line::default());
    said.push(head("history", "oldest first", model));
    said.extend(history(&key, model, cells));
    let follows = follows(item, model);
    if let Some(day) = regions.day {
        let place = heading(frame, day, ("what follows", ""), model.look);
        list::text(frame, place, 0, labeled(&follows, model, usize::from(day.width)));
    } else {
        said.extend([Line::default(), head("what follows", "", model)]);
        said.extend(labeled(&follows, model, cells));
    }
    let place = heading(frame, panel, (&key.to_string(), "Enter changes it"), model.look);
    list::text(frame, rows(place, 0).1, 0, said);
    regions.list
}

/// A heading among lines, with a remark.
fn head(name: &str, remark: &str, model: &Model) -> Line<'static> {
    Line::styled(format!("{}  {remark}", name.to_uppercase()).trim_end().to_owned(), model.look.style(Role::Dim))
}

/// The line of the plan that holds.
fn of(item: &Item, model: &Model) -> Option<PlanLine> {
    let season = &model.season;
    Some(match item {
        Item::Site => PlanLine::Site(season.site()?.clone()),
        Item::Lot(code) => PlanLine::Lot(season.lot(code)?.clone()),
        Item::Bench(code) => PlanLine::Bench(season.bench(code)?.clone()),
        Item::Placement(bench, from) => {
            let mut all = season.all_placements().into_iter();
            PlanLine::Placement(all.rfind(|p| p.bench == *bench && p.from == *from)?.clone())
        }
        Item::Trial(code) => PlanLine::Trial(season.trial(code)?.clone()),
        Item::Order(lot, date) => PlanLine::Order(season.orders(lot).into_iter().find(|o| o.date == *date)?.clone()),
    })
}

/// Labels and values below each other; a long value goes on under itself.
fn labeled(all: &[(String, String)], model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines = Vec::new();
    for (label, value) in all {
        for (row, text) in wrap(value, cells.saturating_sub(LABEL).max(1)).into_iter().enumerate() {
            let label = fit(if row == 0 { label } else { "" }, LABEL);
            lines.push(Line::from(vec![Span::styled(label, model.look.style(Role::Dim)), Span::raw(text)]));
        }
    }
    lines
}

fn details(line: &PlanLine, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let all = plan::details(line, model.system());
    labeled(&all.into_iter().map(|(label, value)| (label.to_owned(), value)).collect::<Vec<_>>(), model, cells)
}

/// Who wrote each revision up to the day, and what it changed.
fn history(key: &LineKey, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let known = |line: &PlanLine| {
        let written = line.revision().and_then(|revision| revision.at);
        line.key() == *key && written.is_none_or(|at| at.date_naive() <= model.day)
    };
    let mut revisions: Vec<PlanLine> = model.season.plan().lines().into_iter().filter(known).collect();
    revisions.sort_by_cached_key(PlanLine::order);
    let mut lines = Vec::new();
    for (who, what) in plan::history(&revisions, model.system()) {
        lines.push(Line::styled(who, model.look.style(Role::Dim)));
        let texts = wrap(&what, cells.saturating_sub(2).max(1));
        lines.extend(texts.into_iter().map(|text| Line::raw(format!("  {text}"))));
    }
    lines
}

/// What follows from a line: of a lot where it stands and when it goes, of a bench what stands on it.
fn follows(item: &Item, model: &Model) -> Vec<(String, String)> {
    match item {
        Item::Site => of_site(model),
        Item::Lot(code) | Item::Order(code, _) => of_lot(code, model),
        Item::Bench(code) | Item::Placement(code, _) => of_bench(code, model),
        Item::Trial(code) => of_trial(code, model),
    }
}

/// How many plots of a trial there are, on which benches, and how many live.
fn of_trial(code: &str, model: &Model) -> Vec<(String, String)> {
    let plots = model.season.plots(code);
    let mut benches: Vec<&str> = plots.iter().map(|plot| plot.bench.as_str()).collect();
    benches.dedup();
    let lost = plots.iter().filter(|plot| is_lost(&model.season, plot, model.day)).count();
    let mut all = vec![("plots".to_owned(), plots.len().to_string()), ("on".to_owned(), benches.join(", "))];
    if lost > 0 {
        all.push(("lost".to_owned(), lost.to_string()));
    }
    let next = model.season.trial(code).and_then(|trial| next_season(model.season.lot(&trial.lot)?));
    all.extend(next.map(|next| ("kept of it".to_owned(), next)));
    all
}

fn of_site(model: &Model) -> Vec<(String, String)> {
    let season = &model.season;
    let number = |label: &str, count: usize| (label.to_owned(), count.to_string());
    let mut all = vec![
        number("lots", season.lots().len()),
        number("benches", season.benches().len()),
        number("placements", season.all_placements().iter().filter(|p| p.pots > 0).count()),
        number("entries", season.entries().len()),
    ];
    all.extend(model.limits_file.iter().map(|file| ("limits".to_owned(), file.clone())));
    all.push(("season file".to_owned(), model.path.clone()));
    all
}

fn of_lot(code: &str, model: &Model) -> Vec<(String, String)> {
    let season = &model.season;
    let Some(lot) = season.lot(code) else { return Vec::new() };
    let benches: Vec<String> = season.benches_of_lot(code, model.day).into_iter().map(str::to_owned).collect();
    let pots: u32 = benches.iter().filter_map(|bench| season.standing(bench, model.day)).map(|s| s.pots).sum();
    let stands = if benches.is_empty() { "on no bench".to_owned() } else { ranges(season, &benches, model.day) };
    let days = (lot.ready_by - model.day).num_days();
    let sale = match days {
        1 => format!("{}, in 1 day", dates::weekday(lot.ready_by)),
        0.. => format!("{}, in {days} days", dates::weekday(lot.ready_by)),
        -1 => format!("{}, 1 day ago", dates::weekday(lot.ready_by)),
        _ => format!("{}, {} days ago", dates::weekday(lot.ready_by), days.unsigned_abs()),
    };
    let mut all = vec![
        ("crop day".to_owned(), format!("{}", (model.day - lot.planted).num_days())),
        ("stands".to_owned(), stands),
        ("pots there".to_owned(), pots.to_string()),
        ("sale".to_owned(), sale),
    ];
    if lot.response_c.is_none() {
        let usual = Temperature::from_c(USUAL_C).show(model.system());
        all.push(("response".to_owned(), format!("{} weeks, taken at {usual}", plain(lot.response_weeks))));
    }
    for order in season.orders(code).into_iter().filter(|order| order.pots > 0) {
        all.push(("committed".to_owned(), format!("{} pots for {}", order.pots, dates::weekday(order.date))));
    }
    all.extend(season.lot_history(code).map(|history| ("before".to_owned(), words::history(history))));
    all
}

fn of_bench(code: &str, model: &Model) -> Vec<(String, String)> {
    let season = &model.season;
    let mut all = Vec::new();
    match season.standing(code, model.day) {
        Some(standing) => {
            all.push(("stands there".to_owned(), format!("{} pots of {}", standing.pots, standing.lot)));
            all.push(("since".to_owned(), dates::weekday(standing.since)));
            let sale = season.lot(&standing.lot).map(|lot| ("sale".to_owned(), dates::weekday(lot.ready_by)));
            all.extend(sale);
        }
        None => all.push(("stands there".to_owned(), "nothing".to_owned())),
    }
    all.extend(
        model.closed_until(code).map(|until| ("closed".to_owned(), format!("to {}", model.day_and_time(until)))),
    );
    for warning in model.standing_warnings(code) {
        all.push(("warning".to_owned(), format!("{} {}", warning.said_level(), warning.title())));
    }
    all
}
