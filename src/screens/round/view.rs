//! How the Round looks: a head with what holds for all, then a row a bench.

use super::State;
use crate::crop::night;
use crate::dates;
use crate::model::{Model, Summary, Walked};
use crate::record::Bench;
use crate::ui::list::{Follow, list};
use crate::ui::{Role, fit, put, rows};
use crate::units::{Length, Quantity};
use crate::warnings::Level;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Rows above the first bench.
const HEAD: u16 = 4;

/// Draws it.
pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (head, body) = rows(area, HEAD);
    put(frame, head, 0, Line::raw(progress(shared)));
    put(frame, head, 1, Line::raw(ahead(shared, usize::from(area.width))));
    let wide = Columns::of(area.width);
    put(frame, head, 3, Span::styled(wide.heads(), shared.look.style(Role::Head)));
    let benches = shared.season.benches();
    if benches.is_empty() {
        put(frame, body, 0, Line::raw("There is no bench yet: g sets them up."));
    }
    let line = |at: usize, chosen: bool| match benches.get(at) {
        Some(bench) => row(shared, bench, &wide, (chosen, state.selected.contains(&bench.bench))),
        None => Line::default(),
    };
    Some(list(frame, body, (state.list.cursor(), benches.len()), Follow::Center, line))
}

/// How far the round got, closed benches counted apart.
fn progress(shared: &Model) -> String {
    let (mut walked, mut part, mut open, mut closed, mut unknown) = (0, 0, 0, 0, 0);
    for bench in shared.season.benches() {
        let Some(summary) = shared.cache.bench(&bench.bench) else {
            unknown += 1;
            continue;
        };
        if summary.standing.is_none() {
            continue;
        }
        match summary.walked() {
            Walked::Yes => walked += 1,
            _ if shared.closed_until(&bench.bench).is_some() => closed += 1,
            Walked::Part(..) => part += 1,
            Walked::No => open += 1,
        }
    }
    let all = walked + part + open;
    let mut text = format!("walked {walked} of {all}");
    if part > 0 {
        text.push_str(&format!(", {part} begun"));
    }
    if closed > 0 {
        text.push_str(&format!("; {closed} closed, not counted"));
    }
    if unknown > 0 {
        text.push_str(&format!("  {} {unknown} benches to look up", shared.look.glyphs().later));
    }
    text
}

/// Tonight's night, and the sales to come.
fn ahead(shared: &Model, cells: usize) -> String {
    let mut parts = Vec::new();
    if let Some(minutes) = tonight(shared) {
        parts.push(format!("tonight {} h {:02} min", minutes / 60, minutes % 60));
    }
    let mut sales: Vec<_> = shared.season.lots().iter().map(|l| l.ready_by).filter(|d| *d >= shared.day).collect();
    sales.sort_unstable();
    sales.dedup();
    for sale in sales.into_iter().take(3) {
        let days = sale.signed_duration_since(shared.day).num_days();
        let what = if parts.len() < 2 { "sale " } else { "" };
        parts.push(match days {
            0 => format!("{what}{} is today", dates::short(sale)),
            1 => format!("{what}{} in 1 day", dates::short(sale)),
            _ => format!("{what}{} in {days} days", dates::short(sale)),
        });
    }
    let between = format!(" {} ", shared.look.glyphs().between);
    // What does not fit whole is left out: the nearest sales come first.
    while parts.len() > 1 && crate::ui::width(&parts.join(&between)) > u16::try_from(cells).unwrap_or(u16::MAX) {
        parts.pop();
    }
    parts.join(&between)
}

/// The length of the night that begins this evening, minutes.
fn tonight(shared: &Model) -> Option<u32> {
    let site = shared.season.site()?;
    let place = night::Place::new(site.latitude, site.longitude).ok()?;
    let convention = shared.limits.choices.night;
    match night::night(&place, shared.day, convention).ok()? {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "minutes of a night: 0 to 1440")]
        night::Night::Minutes(minutes) => Some(minutes.round().clamp(0.0, 1440.0) as u32),
        night::Night::Unbroken | night::Night::None => None,
    }
}

/// The widths of the columns that depend on the window.
struct Columns {
    bench: usize,
    lot: usize,
    warnings: usize,
}

impl Columns {
    /// Everything but the bench, the lot and the warnings: mark, week, today, six days, roots, bracts, height, walked.
    const FIXED: usize = 2 + 4 + 5 + 13 + 3 + 3 + 6 + 11;

    fn of(width: u16) -> Self {
        let width = usize::from(width);
        let (bench, lot) = if width >= 110 { (12, 12) } else { (7, 7) };
        Self { bench, lot, warnings: width.saturating_sub(Self::FIXED.saturating_add(bench).saturating_add(lot)) }
    }

    fn heads(&self) -> String {
        format!(
            "  {}{}wk  {}  {}rt br tall  walked     {}",
            fit("bench", self.bench),
            fit("lot", self.lot),
            fit("now", 3),
            fit("days before", 13),
            fit("warnings", self.warnings)
        )
    }
}

/// The row of one bench.
fn row(shared: &Model, bench: &Bench, wide: &Columns, (chosen, several): (bool, bool)) -> Line<'static> {
    let (look, glyphs) = (shared.look, shared.look.glyphs());
    let mark = if chosen { glyphs.here } else { " " };
    let several = if several { "*" } else { " " };
    let name = format!("{mark}{several}{}", fit(&bench.bench, wide.bench));
    let plain = look.style(if chosen { Role::Chosen } else { Role::Plain });
    let Some(summary) = shared.cache.bench(&bench.bench) else {
        return Line::from(vec![Span::styled(name, plain), Span::raw(glyphs.later)]);
    };
    let Some(standing) = &summary.standing else {
        return Line::from(vec![Span::styled(name, plain), Span::raw("empty")]);
    };
    let week = shared.season.lot(&standing.lot).map(|l| week_of(shared.day, l.planted)).unwrap_or_default();
    let digit = |d: Option<u8>| d.map_or_else(|| glyphs.none.to_owned(), |d| d.to_string());
    let past: Vec<String> = summary.week.iter().skip(1).map(|d| digit(*d)).collect();
    let mut spans = vec![
        Span::styled(name, plain),
        Span::raw(fit(&standing.lot, wide.lot)),
        Span::raw(fit(&week, 4)),
        Span::styled(format!(" {}   ", digit(summary.week.first().copied().flatten())), look.style(Role::Title)),
        Span::raw(fit(&past.join(" "), 13)),
        Span::raw(fit(&digit(summary.roots.map(|r| r.0)), 3)),
        Span::raw(fit(&digit(summary.bracts.map(|b| b.0)), 3)),
        Span::raw(fit(&height(shared, summary), 6)),
    ];
    spans.push(walked(shared, &bench.bench, summary));
    spans.extend(warnings(shared, &bench.bench, summary, wide.warnings));
    Line::from(spans)
}

/// Weeks since planting, the first week being week 1.
fn week_of(today: chrono::NaiveDate, planted: chrono::NaiveDate) -> String {
    let days = today.signed_duration_since(planted).num_days();
    if days < 0 { "-".to_owned() } else { (days / 7 + 1).to_string() }
}

/// `in`, `+0.8` or `-1.2` outside the window in the site's unit; without a window the height itself.
fn height(shared: &Model, summary: &Summary) -> String {
    let system = shared.system();
    let Some(now) = summary.height else { return shared.look.glyphs().none.to_owned() };
    match now.beyond_cm {
        Some(0.0) => "in".to_owned(),
        Some(beyond) => format!("{:+.1}", Length::from_cm(beyond).in_system(system)),
        None => format!("{:.1}", Length::from_cm(now.mean_cm).in_system(system)),
    }
}

fn walked(shared: &Model, bench: &str, summary: &Summary) -> Span<'static> {
    let look = shared.look;
    if let Some(until) = shared.closed_until(bench) {
        let when =
            if until.date_naive() == shared.day { dates::time(&until) } else { dates::short(until.date_naive()) };
        return Span::styled(fit(&format!("shut {when}"), 11), look.style(Role::Closed));
    }
    match summary.walked() {
        Walked::Yes => Span::styled(fit("yes", 11), look.style(Role::Good)),
        Walked::Part(done, all) => Span::raw(fit(&format!("{done} of {all}"), 11)),
        Walked::No => Span::raw(fit("no", 11)),
    }
}

/// The strongest warning by sign and name, and how many more there are.
fn warnings(shared: &Model, bench: &str, summary: &Summary, cells: usize) -> Vec<Span<'static>> {
    let wide = shared.cache.wide().iter().filter(|w| w.benches.iter().any(|b| b == bench));
    let mut all: Vec<_> = summary.warnings.iter().chain(wide).filter(|w| w.put_off_until.is_none()).collect();
    all.sort_by_key(|w| std::cmp::Reverse(w.level));
    let Some(first) = all.first() else { return Vec::new() };
    let more = match all.len() {
        0 | 1 => String::new(),
        n => format!(" +{}", n.saturating_sub(1)),
    };
    let (sign, role) = match first.level {
        Level::Watch => ("?", Role::Watch),
        Level::Act => ("!", Role::Act),
        Level::Urgent => ("!!", Role::Urgent),
    };
    let room = cells.saturating_sub(more.len());
    let text = fit(&format!("{sign} {}", first.name.title()), room);
    vec![Span::styled(text.trim_end().to_owned(), shared.look.style(role)), Span::raw(more)]
}
