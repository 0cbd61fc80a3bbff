//! How the Round looks: a head with what holds for all, then a row a bench.

use super::State;
use crate::crop::night;
use crate::dates;
use crate::model::{Model, Summary, Walked};
use crate::record::Bench;
use crate::ui::list::{Follow, list};
use crate::ui::{Role, fit, put, rows};
use crate::units::{Length, Quantity};
use crate::warnings::Severity;
use chrono::Datelike;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Rows above the first bench.
const HEAD: u16 = 4;
/// Cells of the column that says whether a bench is walked.
const WALKED: usize = 8;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (head, body) = rows(area, HEAD);
    put(frame, head, 0, Line::raw(progress(model)));
    put(frame, head, 1, Line::raw(ahead(model, usize::from(area.width))));
    let wide = Columns::of(area.width);
    put(frame, head, 3, Span::styled(wide.heads(), model.look.style(Role::Head)));
    let benches = model.season.benches();
    if benches.is_empty() {
        put(frame, body, 0, Line::raw("No benches yet: press g to set them up."));
    }
    let line = |at: usize, chosen: bool| match benches.get(at) {
        Some(bench) => row(model, bench, &wide, (chosen, state.selected.contains(&bench.bench))),
        None => Line::default(),
    };
    Some(list(frame, body, (state.list.cursor(), benches.len()), Follow::Center, line))
}

/// How far the round got. Closed benches are counted apart, but for those that were walked before they were closed.
fn progress(model: &Model) -> String {
    let (mut walked, mut part, mut open, mut closed, mut before, mut unknown) = (0, 0, 0, 0, 0, 0);
    for bench in model.season.benches() {
        let is_closed = model.closed_until(&bench.bench).is_some();
        let Some(summary) = model.cache.bench(&bench.bench) else {
            unknown += 1;
            continue;
        };
        if summary.standing.is_none() {
            continue;
        }
        closed += i32::from(is_closed);
        match summary.walked() {
            Walked::Yes => {
                walked += 1;
                before += i32::from(is_closed);
            }
            _ if is_closed => {}
            Walked::Part(..) => part += 1,
            Walked::No => open += 1,
        }
    }
    let all = walked + part + open;
    let mut text = format!("walked {walked} of {all}");
    if part > 0 {
        text.push_str(&format!(", {part} partly done"));
    }
    match (closed, before) {
        (0, _) => {}
        (_, 0) => text.push_str(&format!("; {closed} closed, not counted")),
        _ if closed == before => text.push_str(&format!("; {closed} closed, walked before")),
        _ => text.push_str(&format!("; {closed} closed, {before} of them walked before")),
    }
    if unknown > 0 {
        text.push_str(&format!("  {} {unknown} benches loading", model.look.glyphs().later));
    }
    text
}

/// Tonight's night, and the sales to come.
fn ahead(model: &Model, cells: usize) -> String {
    let mut parts = Vec::new();
    if let Some(minutes) = tonight(model) {
        parts.push(format!("night length {} h {:02} min", minutes / 60, minutes % 60));
    }
    let mut sales: Vec<_> = model.season.lots().iter().map(|l| l.ready_by).filter(|d| *d >= model.day).collect();
    sales.sort_unstable();
    sales.dedup();
    for sale in sales.into_iter().take(3) {
        let days = sale.signed_duration_since(model.day).num_days();
        let what = if parts.len() < 2 { "sale " } else { "" };
        parts.push(match days {
            0 => format!("{what}{} is today", dates::short(sale)),
            1 => format!("{what}{} in 1 day", dates::short(sale)),
            _ => format!("{what}{} in {days} days", dates::short(sale)),
        });
    }
    let between = format!(" {} ", model.look.glyphs().between);
    // What does not fit whole is left out: the nearest sales come first.
    while parts.len() > 1 && crate::ui::width(&parts.join(&between)) > u16::try_from(cells).unwrap_or(u16::MAX) {
        parts.pop();
    }
    parts.join(&between)
}

/// The length of the night that begins this evening, minutes.
fn tonight(model: &Model) -> Option<u32> {
    let site = model.season.site()?;
    let place = night::Place::new(site.latitude, site.longitude).ok()?;
    let convention = model.limits.choices.night;
    match night::night(&place, model.day, convention).ok()? {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "minutes of a night: 0 to 1440")]
        night::Night::Minutes(minutes) => Some(minutes.round().clamp(0.0, 1440.0) as u32),
        night::Night::Unbroken | night::Night::None => None,
    }
}

/// The widths of the columns that depend on the window.
struct Columns {
    bench: usize,
    lot: usize,
    /// The six days before today; in a narrow window their digits stand close together, and roots and bracts are headed by a
    /// letter.
    days: usize,
    roots: usize,
    bracts: usize,
    height: usize,
    warnings: usize,
}

impl Columns {
    /// Columns of one width in every window: mark, crop week, today, walked.
    const FIXED: usize = 2 + 5 + 6 + WALKED;

    fn of(width: u16) -> Self {
        let width = usize::from(width);
        let (bench, lot, days, roots, bracts, height) = match width {
            110.. => (12, 12, 12, 5, 6, 6),
            75.. => (6, 7, 12, 5, 6, 5),
            _ => (6, 7, 7, 3, 3, 5),
        };
        let taken = [Self::FIXED, bench, lot, days, roots, bracts, height];
        let taken = taken.into_iter().fold(0_usize, usize::saturating_add);
        Self { bench, lot, days, roots, bracts, height, warnings: width.saturating_sub(taken) }
    }

    /// True where the digits of the days have a blank between them.
    const fn is_spaced(&self) -> bool {
        self.days > 7
    }

    fn heads(&self) -> String {
        // The head of the weeks is wider than they are: it stands over the end of the lots' column, too.
        let lot = fit("lot", self.lot.saturating_sub(3));
        format!(
            "  {}{lot}crop wk today {}{}{}{}{}{}",
            fit("bench", self.bench),
            fit(if self.is_spaced() { "last 6 days" } else { "6 days" }, self.days),
            fit(if self.is_spaced() { "root" } else { "r" }, self.roots),
            fit(if self.is_spaced() { "bract" } else { "b" }, self.bracts),
            fit("ht", self.height),
            fit("walked", WALKED),
            fit("warnings", self.warnings)
        )
    }
}

/// The row of one bench.
fn row(model: &Model, bench: &Bench, wide: &Columns, (chosen, several): (bool, bool)) -> Line<'static> {
    let (look, glyphs) = (model.look, model.look.glyphs());
    let mark = if chosen { glyphs.here } else { " " };
    let several = if several { "*" } else { " " };
    let name = format!("{mark}{several}{}", fit(&bench.bench, wide.bench));
    let plain = look.style(if chosen { Role::Chosen } else { Role::Plain });
    let Some(summary) = model.cache.bench(&bench.bench) else {
        return Line::from(vec![Span::styled(name, plain), Span::raw(glyphs.later)]);
    };
    let Some(standing) = &summary.standing else {
        // An empty bench in a house that is closed is as closed as the others.
        let closed = model.closed_until(&bench.bench).map(|_| walked(model, &bench.bench, summary));
        return Line::from(
            [vec![Span::styled(name, plain), Span::raw("empty  ")], closed.into_iter().collect()].concat(),
        );
    };
    let week = model.season.lot(&standing.lot).map(|l| week_of(model.day, l.planted)).unwrap_or_default();
    let digit = |d: Option<u8>| d.map_or_else(|| glyphs.none.to_owned(), |d| d.to_string());
    let past: Vec<String> = summary.week.iter().skip(1).map(|d| digit(*d)).collect();
    let past = past.join(if wide.is_spaced() { " " } else { "" });
    let mut spans = vec![
        Span::styled(name, plain),
        Span::raw(fit(&standing.lot, wide.lot)),
        Span::raw(format!("{week:>4} ")),
        Span::styled(format!("{:^6}", digit(summary.week.first().copied().flatten())), look.style(Role::Title)),
        Span::raw(fit(&past, wide.days)),
        Span::raw(fit(&digit(summary.roots.map(|r| r.0)), wide.roots)),
        Span::raw(fit(&digit(summary.bracts.map(|b| b.0)), wide.bracts)),
        Span::raw(fit(&height(model, summary), wide.height)),
    ];
    let walked = walked(model, &bench.bench, summary);
    let room = wide.warnings.saturating_sub(walked.width().saturating_sub(WALKED));
    spans.push(walked);
    spans.extend(warnings(model, &bench.bench, summary, room));
    Line::from(spans)
}

/// Weeks since planting, the first week being week 1.
fn week_of(today: chrono::NaiveDate, planted: chrono::NaiveDate) -> String {
    let days = today.signed_duration_since(planted).num_days();
    if days < 0 { "-".to_owned() } else { (days / 7 + 1).to_string() }
}

/// `ok`, or `+0.8` or `-1.2` outside the window in the site's unit; without a window the height itself.
fn height(model: &Model, summary: &Summary) -> String {
    let system = model.system();
    let Some(now) = summary.height else { return model.look.glyphs().none.to_owned() };
    match now.beyond_cm {
        Some(0.0) => "ok".to_owned(),
        Some(beyond) => format!("{:+.1}", Length::from_cm(beyond).in_system(system)),
        None => format!("{:.1}", Length::from_cm(now.mean_cm).in_system(system)),
    }
}

fn walked(model: &Model, bench: &str, summary: &Summary) -> Span<'static> {
    let look = model.look;
    if let Some(until) = model.closed_until(bench) {
        let when = match until.date_naive() {
            today if today == model.day => dates::time(&until),
            day if day.year() == model.day.year() => dates::short(day),
            day => day.year().to_string(),
        };
        // Wider than the column: the warnings of the row stand that much further right.
        return Span::styled(format!("closed to {when} "), look.style(Role::Closed));
    }
    match summary.walked() {
        Walked::Yes => Span::styled(fit("yes", WALKED), look.style(Role::Good)),
        Walked::Part(done, all) => Span::raw(fit(&format!("{done} of {all}"), WALKED)),
        Walked::No => Span::raw(fit("no", WALKED)),
    }
}

/// The strongest warning by sign and name, and how many more there are.
fn warnings(model: &Model, bench: &str, summary: &Summary, cells: usize) -> Vec<Span<'static>> {
    let wide = model.cache.wide().iter().filter(|w| w.benches.iter().any(|b| b == bench));
    let mut all: Vec<_> = summary.warnings.iter().chain(wide).filter(|w| w.put_off_until.is_none()).collect();
    all.sort_by_key(|w| std::cmp::Reverse(w.level));
    let Some(first) = all.first() else { return Vec::new() };
    let more = match all.len() {
        0 | 1 => String::new(),
        n => format!(" +{}", n.saturating_sub(1)),
    };
    let (sign, role) = match first.level {
        Severity::Watch => ("?", Role::Watch),
        Severity::Act => ("!", Role::Act),
        Severity::Urgent => ("!!", Role::Urgent),
    };
    let room = cells.saturating_sub(more.len());
    let text = fit(&format!("{sign} {}", first.name.title()), room);
    vec![Span::styled(text.trim_end().to_owned(), model.look.style(role)), Span::raw(more)]
}
