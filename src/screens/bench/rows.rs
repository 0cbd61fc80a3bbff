//! The rows of the Bench page, top to bottom: the pots, fourteen days of digits, the warnings, the record.

use super::State;
use crate::dates;
use crate::input::Look;
use crate::model::Model;
use crate::panes::sign;
use crate::record::{Entry, Kind, KindName, PestCount, Place};
use crate::report::{causes, entry, words};
use crate::season::{History, Written};
use crate::ui::regions::{Room, TEXT};
use crate::ui::{Role, wrap};
use crate::units::{Length, Quantity, System};
use chrono::{Datelike, Days, NaiveDate};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Days in the table.
const DAYS: u64 = 14;
/// Cells of a row's name in the table.
const NAME: usize = 18;

/// A row of the table: its name, and the digit an entry gives.
type Track = (&'static str, fn(&Kind) -> Option<String>);

const TRACKS: [Track; 8] = [
    ("water", |kind| match kind {
        Kind::Water { level, .. } => Some(level.to_string()),
        _ => None,
    }),
    ("base", |kind| match kind {
        Kind::Water { base, .. } => base.map(|b| b.to_string()),
        _ => None,
    }),
    ("watered", |kind| matches!(kind, Kind::Watered { .. }).then(|| "w".to_owned())),
    ("fed", |kind| matches!(kind, Kind::Fed { .. }).then(|| "f".to_owned())),
    ("roots", |kind| match kind {
        Kind::Roots { score, .. } => Some(score.to_string()),
        _ => None,
    }),
    ("bracts", |kind| match kind {
        Kind::Bracts { stage } => Some(stage.to_string()),
        _ => None,
    }),
    ("leaves", |kind| match kind {
        Kind::Leaves { signs, .. } => Some(signs.len().to_string()),
        _ => None,
    }),
    ("whitefly", |kind| match kind {
        Kind::Pests { count: PestCount::Plants { infested, .. }, pest: crate::record::PestName::Whitefly } => {
            Some(infested.to_string())
        }
        _ => None,
    }),
];

/// The columns of text in a window of so many columns, from the left, each with its cells: all in one; where charts stand
/// beside it too, all but for the charts; in the widest windows the record, and beside it what is wrong and what grows there.
pub(super) fn columns(state: &State, model: &Model, cells: u16) -> Vec<(u16, Vec<Line<'static>>)> {
    let text = |cells: u16| usize::from(cells);
    match Room::of(cells) {
        Room::Narrow => vec![(cells, page(state, model, text(cells)))],
        Room::Wide => vec![(RECORD, page(state, model, text(RECORD)))],
        Room::Widest => {
            let rest = cells.saturating_sub(RECORD);
            let beside = (rest / 2).saturating_sub(6).min(TEXT);
            let mut left = track(state, model, text(RECORD));
            left.push(Line::default());
            left.extend(log(state, model, text(RECORD)));
            let mut right = about(state, model, text(beside));
            right.extend(warned(state, model, text(beside), true));
            right.extend(causes(state, model, text(beside)));
            vec![(RECORD, left), (beside, right)]
        }
    }
}

/// Cells of the column with the record, where something stands beside it: its table needs them.
const RECORD: u16 = 60;

/// All rows in one column.
fn page(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines = about(state, model, cells);
    lines.push(Line::default());
    lines.extend(track(state, model, cells));
    lines.extend(warned(state, model, cells, false));
    lines.extend(causes(state, model, cells));
    lines.push(Line::default());
    lines.extend(log(state, model, cells));
    lines
}

/// What stands on the bench, and whose history it has.
fn about(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines: Vec<Line<'static>> =
        stands(state, model).into_iter().flat_map(|line| wrapped(line, cells)).collect();
    lines.extend(joined(state, model));
    lines.extend(earlier(state, model, cells));
    lines
}

/// A line broken where it is too long; it has one style.
fn wrapped(line: Line<'static>, cells: usize) -> Vec<Line<'static>> {
    if line.width() <= cells {
        return vec![line];
    }
    let style = line.spans.first().map(|span| span.style).unwrap_or_default().patch(line.style);
    let text: String = line.spans.iter().map(|span| span.content.as_ref()).collect();
    wrap(&text, cells).into_iter().map(|text| Line::styled(text, style)).collect()
}

/// Fourteen days of digits, how fast it dries, and the last height.
fn track(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines = table(&model.season.history(state.bench(), model.day), model);
    lines.extend(dries(state, model, cells));
    lines.extend(height(state, model));
    lines
}

/// Everything logged, the newest first.
fn log(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines = vec![Line::styled("Log, newest first", model.look.style(Role::Head))];
    let written = model.season.written(state.bench());
    if written.is_empty() {
        lines.push(Line::raw("  Nothing logged yet."));
    }
    for one in written.iter().rev() {
        lines.extend(record(one, model, cells));
    }
    lines
}

/// What stands on the bench, and whether one may go there.
fn stands(state: &State, model: &Model) -> Vec<Line<'static>> {
    let mut lines = Vec::new();
    let house = model.season.bench(state.bench()).map(|b| b.house.clone()).unwrap_or_default();
    match model.season.standing(state.bench(), model.day) {
        None => lines.push(Line::raw(format!("house {house}  empty"))),
        Some(standing) => {
            lines.push(Line::raw(format!(
                "house {house}  lot {}  {} pots since {}",
                standing.lot,
                standing.pots,
                dates::short(standing.since)
            )));
            if let Some(lot) = model.season.lot(&standing.lot) {
                let age = model.day.signed_duration_since(lot.planted).num_days();
                let left = lot.ready_by.signed_duration_since(model.day).num_days();
                lines.push(Line::raw(format!(
                    "{}, {}  day {age} since {}  sale {} in {left} days",
                    lot.cultivar,
                    lot.container,
                    dates::short(lot.planted),
                    dates::short(lot.ready_by)
                )));
            }
        }
    }
    lines.extend(entry_allowed(state.bench(), model));
    lines
}

/// Who may enter when, by the treatments logged: nothing where none ever closed the bench.
fn entry_allowed(bench: &str, model: &Model) -> Vec<Line<'static>> {
    if let Some(until) = model.closed_until(bench) {
        let until = format!("{} {}", dates::weekday(until.date_naive()), dates::time(&until));
        let closed = format!("CLOSED until {until} (by this log; follow the posted sign)");
        let who = "Until then only trained handlers may enter, and as the label says.";
        return vec![Line::styled(closed, model.look.style(Role::Closed)), Line::raw(who)];
    }
    let opened = model.season.opened_last(bench, model.now.at.to_utc());
    let line = |at: chrono::DateTime<chrono::Utc>| {
        let at = model.local(at);
        let text = format!("open to everybody since {} {}", dates::weekday(at.date_naive()), dates::time(&at));
        Line::raw(format!("{text} (by this log; follow the posted sign)"))
    };
    opened.filter(|_| model.unread.is_none()).map(line).into_iter().collect()
}

/// Moves named at most.
const MOVES: usize = 3;

/// Whose history is shown where pots came from other benches.
fn joined(state: &State, model: &Model) -> Vec<Line<'static>> {
    let Some(standing) = model.season.standing(state.bench(), model.day) else { return Vec::new() };
    let all = model.season.joined(state.bench(), model.day);
    let named = all.iter().rev().take(MOVES).rev();
    let line = |(day, from): &(NaiveDate, &str)| {
        Line::raw(format!("history of {} before {}: from {from}", standing.lot, dates::short(*day)))
    };
    named.map(line).collect()
}

/// What is said of the time before the record of its lot began.
fn earlier(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let standing = model.season.standing(state.bench(), model.day);
    let Some(lot) = standing.and_then(|standing| model.season.lot(&standing.lot)) else { return Vec::new() };
    let begins = model.season.record_begins(lot, model.day);
    let said = model.season.lot_history(&lot.lot).map(words::history);
    if said.is_none() && begins <= lot.planted {
        return Vec::new();
    }
    let said = said.unwrap_or_else(|| "not known".to_owned());
    wrap(&format!("record begins {}; before: {said}", dates::short(begins)), cells).into_iter().map(Line::raw).collect()
}

/// Fourteen days as digits, oldest left, today right.
fn table(history: &History<'_>, model: &Model) -> Vec<Line<'static>> {
    let look = model.look;
    let days: Vec<NaiveDate> = (0..DAYS).rev().filter_map(|n| model.day.checked_sub_days(Days::new(n))).collect();
    let heads: Vec<String> = days.iter().map(|d| format!("{:>3}", d.day())).collect();
    let month = |day: Option<&NaiveDate>| day.map(|d| d.format("%b").to_string()).unwrap_or_default();
    let (first, last) = (month(days.first()), month(days.last()));
    let months = if first == last { last } else { format!("{first} to {last}") };
    let title = format!("{:<NAME$}{}", months, heads.concat());
    let mut lines = vec![Line::styled(title, look.style(Role::Head))];
    for (name, digit) in TRACKS {
        let mut spans = vec![Span::styled(format!("{name:<NAME$}"), look.style(Role::Label))];
        for that in &days {
            let found = history.on(*that).find_map(|e| Some((digit(&e.kind)?, e)));
            let (text, style) = match found {
                Some((digit, e)) if model.pending.contains(&e.id) => (format!("{digit}*"), look.style(Role::Pending)),
                Some((digit, e)) => (digit.clone(), weight(&e.kind, &digit, look)),
                None => (look.glyphs().none.to_owned(), look.style(Role::Dim)),
            };
            spans.push(Span::raw(" ".repeat(3_usize.saturating_sub(text.len()))));
            spans.push(Span::styled(text, style));
        }
        lines.push(Line::from(spans));
    }
    lines
}

/// How fast it dries down, beside its lot and the times before.
fn dries(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let Some(text) = model.cache.dries(state.bench(), model.day) else { return Vec::new() };
    let label = |at: usize| {
        Span::styled(format!("{:<NAME$} ", if at == 0 { "dry-down" } else { "" }), model.look.style(Role::Label))
    };
    let lines = wrap(&text, cells.saturating_sub(NAME).saturating_sub(1));
    lines.into_iter().enumerate().map(|(at, line)| Line::from(vec![label(at), Span::raw(line)])).collect()
}

/// The weight of a digit in the table: soaked and dry stand out of the water readings.
fn weight(kind: &Kind, digit: &str, look: Look) -> Style {
    let level = digit.parse().ok().filter(|_| matches!(kind, Kind::Water { .. }));
    level.map_or_else(|| look.style(Role::Plain), |level| look.digit(level))
}

/// The last height, in words.
fn height(state: &State, model: &Model) -> Option<Line<'static>> {
    let now = model.cache.bench(state.bench())?.height?;
    let system = model.system();
    let against = match now.beyond_cm {
        None => String::new(),
        Some(0.0) => ", within its window".to_owned(),
        Some(beyond) if beyond > 0.0 => format!(", {} above its window", tenths(beyond, system)),
        Some(beyond) => format!(", {} below its window", tenths(-beyond, system)),
    };
    let text = format!("{} on {}{against}", tenths(now.mean_cm, system), dates::short(now.day));
    let name = Span::styled(format!("{:<NAME$} ", "height"), model.look.style(Role::Label));
    Some(Line::from(vec![name, Span::raw(text)]))
}

/// A length to a tenth of the site's unit: no tape reads finer.
fn tenths(cm: f64, system: System) -> String {
    format!("{:.1} {}", Length::from_cm(cm).in_system(system), Length::unit_name(system))
}

/// What the rules say of the bench, its lot and its house, with the first step to take or with all of them.
fn warned(state: &State, model: &Model, cells: usize, all_steps: bool) -> Vec<Line<'static>> {
    let bench = state.bench();
    let own = model.cache.bench(bench).map(|s| s.warnings.clone()).unwrap_or_default();
    let wide = model.cache.wide().iter().filter(|w| w.benches.iter().any(|b| b == bench)).cloned();
    let mut lines = Vec::new();
    for warning in own.into_iter().chain(wide) {
        if lines.is_empty() {
            lines.push(Line::default());
            lines.push(Line::styled("Warnings", model.look.style(Role::Head)));
        }
        let (_, role) = sign(warning.level);
        let off = warning.put_off_until.map(|d| format!(", postponed until {}", dates::short(d))).unwrap_or_default();
        let of = if matches!(warning.place, Place::Bench(_)) {
            String::new()
        } else {
            format!(" ({})", words::place(&warning))
        };
        let steps = warning.next();
        let steps = if all_steps { steps.join(" ") } else { steps.first().cloned().unwrap_or_default() };
        let text = format!("{}{of} since {}{off}. {steps}", warning.title(), dates::short(warning.since));
        for (i, line) in wrap(&text, cells.saturating_sub(10)).into_iter().enumerate() {
            let lead = if i == 0 { format!("  {:<8}", warning.said_level()) } else { " ".repeat(10) };
            lines.push(Line::from(vec![Span::styled(lead, model.look.style(role)), Span::raw(line)]));
        }
    }
    lines
}

/// Causes to check for what is seen: possibilities with how to confirm each, never a diagnosis.
fn causes(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let suspects = causes::of(&model.season, state.bench(), model.day, &model.limits);
    let mut lines = Vec::new();
    if !suspects.is_empty() {
        lines.push(Line::default());
        lines.push(Line::styled(causes::HEAD, model.look.style(Role::Head)));
    }
    for (n, one) in suspects.iter().enumerate() {
        let title = format!("  {}  {}", n.saturating_add(1), one.cause);
        lines.push(Line::styled(title, model.look.style(Role::Title)));
        for (name, text) in [("seen", &one.seen), ("confirm", &one.confirm), ("or", &one.look_alikes)] {
            for (i, line) in wrap(text, cells.saturating_sub(14)).into_iter().enumerate() {
                let lead = if i == 0 { format!("     {name:<9}") } else { " ".repeat(14) };
                lines.push(Line::from(vec![Span::styled(lead, model.look.style(Role::Label)), Span::raw(line)]));
            }
        }
    }
    lines
}

/// One entry of the record, with the strike that voids it.
fn record(one: &Written<'_>, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let written: &Entry = one.entry;
    let look = model.look;
    if written.name() == KindName::Strike {
        // It is shown with the entry it voids.
        return Vec::new();
    }
    let place = match &written.place {
        Place::Bench(_) => String::new(),
        other => format!(" ({} {})", other.field(), other.code()),
    };
    let pending = if model.pending.contains(&written.id) { " *not yet saved" } else { "" };
    let struck = one.struck_by.map(|s| {
        let Kind::Strike { why, .. } = &*s.kind else { return String::new() };
        format!("  VOIDED {}: {why}", dates::short(s.day()))
    });
    let lead = format!("  {:<7}{} {:<9}", dates::short(written.day()), dates::time(&written.at), written.by);
    let laptop = entry::laptop(model.season.origin(written.id));
    let text = format!("{}{place}{laptop}{pending}", entry::line(written, model.system()));
    let text = format!("{text}{}", struck.clone().unwrap_or_default());
    let style = look.style(if struck.is_some() { Role::Struck } else { Role::Plain });
    let room = cells.saturating_sub(lead.len());
    wrap(&text, room)
        .into_iter()
        .enumerate()
        .map(|(i, line)| {
            let lead = if i == 0 { lead.clone() } else { " ".repeat(lead.len()) };
            Line::from(vec![Span::styled(lead, look.style(Role::Label)), Span::styled(line, style)])
        })
        .collect()
}
