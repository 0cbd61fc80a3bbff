//! Each lot's way to its sale: the color seen, when full color is to be expected, the sale and the days to it.

use crate::crop::color::Temperatures;
use crate::dates;
use crate::model::Model;
use crate::panes::Overview;
use crate::record::Lot;
use crate::report::words;
use crate::ui::{Role, fit, regions, width, wrap};
use chrono::NaiveDate;
use ratatui::text::{Line, Span};
use std::collections::BTreeMap;

/// Cells of the columns: the stages seen, the expected days, the sale, the days to it.
const COLUMNS: [usize; 4] = [6, 16, 8, 6];
/// Cells of the expected days where only the likely one has room.
const LIKELY: usize = 8;
/// The fewest cells of a lot's code.
const NAME: usize = 5;

/// What is seen and expected of a lot, over its benches.
#[derive(Debug, Clone, Copy, Default)]
struct Color {
    /// The least and greatest bract stage.
    seen: Option<(u8, u8)>,
    /// Full color: the first, a likely and the last day.
    full: Option<(NaiveDate, NaiveDate, NaiveDate)>,
    /// What of the temperatures that goes by, on the bench with the fewest.
    by: Option<Temperatures>,
}

/// A row a lot with pots standing, the next sale first.
pub(super) fn lines(all: &Overview<'_>, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let colors = colors(all);
    let mut lots: Vec<(&Lot, Color)> =
        colors.into_iter().filter_map(|(lot, color)| Some((model.season.lot(lot)?, color))).collect();
    if lots.is_empty() {
        return Vec::new();
    }
    lots.sort_by(|a, b| (a.0.ready_by, &a.0.lot).cmp(&(b.0.ready_by, &b.0.lot)));
    let [seen, mut full, sale, days] = COLUMNS;
    let fixed = seen.saturating_add(sale).saturating_add(days).saturating_add(NAME);
    let whole = fixed.saturating_add(full) <= cells;
    if !whole {
        full = LIKELY;
    }
    let longest = lots.iter().map(|(lot, _)| usize::from(width(&lot.lot)).saturating_add(1)).max().unwrap_or(NAME);
    let name = longest.max(NAME).min(cells.saturating_sub(fixed.saturating_sub(NAME).saturating_add(full)));
    let heads = format!("{}{:>seen$}{:>full$}{:>sale$}{:>days$}", fit("", name), "seen", "full by", "sale", "days");
    let mut lines = vec![
        regions::headed(("lots", "bracts seen, full color expected"), cells, model.look),
        Line::from(Span::styled(heads, model.look.style(Role::Dim))),
    ];
    let notes = notes(&lots, whole, model);
    for (lot, color) in lots {
        let left = dates::days_between(model.day, lot.ready_by);
        let text = format!(
            "{:>seen$}{:>full$}{:>sale$}{left:>days$}",
            stages(color.seen, model),
            expected(color.full, whole, model),
            dates::short(lot.ready_by)
        );
        let label = Span::styled(fit(&format!(" {}", lot.lot), name), model.look.style(Role::Label));
        lines.push(Line::from(vec![label, Span::raw(text)]));
    }
    let wrapped = notes.iter().flat_map(|note| wrap(note, cells.saturating_sub(1)));
    lines.extend(wrapped.map(|note| Line::from(Span::styled(format!(" {note}"), model.look.style(Role::Dim)))));
    lines
}

/// What of the temperatures the days go by, with the lots of which it is true; where room is short, only that there are none.
fn notes(lots: &[(&Lot, Color)], whole: bool, model: &Model) -> Vec<String> {
    let mut said: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for (lot, color) in lots {
        let Some(by) = color.by.as_ref().filter(|by| whole || by.written == 0) else { continue };
        let note = if whole { words::temperatures(by, model.system()) } else { Some("no temperatures".to_owned()) };
        if let Some(note) = note {
            said.entry(note).or_default().push(&lot.lot);
        }
    }
    let of = |named: Vec<&str>| if named.len() == lots.len() { "all lots".to_owned() } else { named.join(", ") };
    said.into_iter().map(|(note, named)| format!("{}: {note}", of(named))).collect()
}

fn stages(seen: Option<(u8, u8)>, model: &Model) -> String {
    match seen {
        None => model.look.glyphs().none.to_owned(),
        Some((least, most)) if least == most => least.to_string(),
        Some((least, most)) => format!("{least}-{most}"),
    }
}

fn expected(full: Option<(NaiveDate, NaiveDate, NaiveDate)>, whole: bool, model: &Model) -> String {
    match full {
        None => model.look.glyphs().none.to_owned(),
        Some((first, _, last)) if whole => dates::range(first, last),
        Some((_, likely, _)) => dates::short(likely),
    }
}

/// What the benches of each lot show and will show.
fn colors<'m>(all: &Overview<'m>) -> BTreeMap<&'m str, Color> {
    let mut colors: BTreeMap<&str, Color> = BTreeMap::new();
    for summary in all.benches.iter().filter_map(|seen| seen.summary) {
        let Some(standing) = &summary.standing else { continue };
        let color = colors.entry(standing.lot.as_str()).or_default();
        if let Some((stage, _)) = summary.bracts {
            let (least, most) = color.seen.unwrap_or((stage, stage));
            color.seen = Some((least.min(stage), most.max(stage)));
        }
        if let Some(days) = &summary.full_color {
            let (first, likely, last) = color.full.unwrap_or((days.low, days.likely, days.high));
            let fewer = |by: &Temperatures| color.by.is_none_or(|known| by.written < known.written);
            if let Some(by) = summary.color_by.filter(fewer) {
                color.by = Some(by);
            }
            color.full = Some((first.min(days.low), likely.max(days.likely), last.max(days.high)));
        }
    }
    colors
}
