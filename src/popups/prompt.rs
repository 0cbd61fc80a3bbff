//! One line to type: a note, an entry with one number, your initials, the path of a journal.

mod season_report;

pub use view::view;

use crate::controls::Field;
use crate::input::Key;
use crate::keys::Command;
use crate::model::go::SeasonReport;
use crate::model::{DraftKey, Effect, Go, Model, Msg, Response, Setting, fault_text};
use crate::record::typed::Facing;
use crate::record::{
    Entry, FieldFault, Kind, KindName, PestName, Place, Term, TrialReading, clean, codec, schema, typed,
};
use crate::report::doubts;
use crate::report::trial::{Report, html};
use crate::trials::{Readings, Rules};

/// The most characters of the name of who writes.
const BY_MOST: usize = 8;

/// What the line is for.
#[derive(Debug, Clone, PartialEq)]
pub enum Purpose {
    /// A note to a bench, house or lot.
    Note(Place),
    /// A note to a plot: the bench it stands on, and the plot.
    PlotNote(String, String),
    /// An entry of this kind for a bench.
    Entry(KindName, String),
    /// Who writes.
    Who,
    /// Who scouts from now on; the last names.
    Writer(Vec<String>),
    /// The day to put the program on.
    OtherDay,
    /// Why a trial is ended early.
    EndTrial(String),
    /// The path for the report of a trial, and the reading it is of.
    TrialReport(String, TrialReading),
    /// The path for a report of the season.
    SeasonReport(SeasonReport),
    /// The path of a journal.
    Path,
}

/// The line being typed.
#[derive(Debug, Clone)]
pub struct State {
    purpose: Purpose,
    field: Field,
    fault: Option<String>,
}

impl State {
    /// The line, with what was left half typed of it.
    pub fn new(purpose: Purpose, model: &Model) -> Self {
        let field = model.draft_field(&draft(&purpose));
        Self { purpose, field, fault: None }
    }

    /// True where the line becomes an entry.
    pub const fn writes(&self) -> bool {
        matches!(self.purpose, Purpose::Note(_) | Purpose::PlotNote(..) | Purpose::Entry(..) | Purpose::EndTrial(_))
    }

    /// The bench that the line is about; `None` where it is about none.
    pub fn bench(&self) -> Option<&str> {
        match &self.purpose {
            Purpose::Note(Place::Bench(bench)) => Some(bench),
            Purpose::PlotNote(bench, _) | Purpose::Entry(_, bench) => Some(bench),
            Purpose::Note(_)
            | Purpose::EndTrial(_)
            | Purpose::TrialReport(..)
            | Purpose::SeasonReport(_)
            | Purpose::Who
            | Purpose::Writer(_)
            | Purpose::OtherDay
            | Purpose::Path => None,
        }
    }

    /// True where it asks who writes.
    pub const fn asks_who(&self) -> bool {
        matches!(self.purpose, Purpose::Who)
    }

    /// True where it asks for a day or a writer, which can be asked for over everything else.
    pub const fn asks_anywhere(&self) -> bool {
        matches!(self.purpose, Purpose::Who | Purpose::Writer(_) | Purpose::OtherDay)
    }
}

/// What the line is kept under when left.
fn draft(purpose: &Purpose) -> DraftKey {
    match purpose {
        Purpose::Note(place) => DraftKey::Note(place.clone()),
        Purpose::PlotNote(_, plot) => DraftKey::PlotNote(plot.clone()),
        Purpose::Entry(kind, bench) => DraftKey::Line(*kind, bench.clone()),
        Purpose::Who | Purpose::Writer(_) => DraftKey::Who,
        Purpose::OtherDay => DraftKey::OtherDay,
        Purpose::EndTrial(trial) => DraftKey::EndTrial(trial.clone()),
        Purpose::TrialReport(trial, _) => DraftKey::TrialReport(trial.clone()),
        Purpose::SeasonReport(report) => DraftKey::SeasonReport(*report),
        Purpose::Path => DraftKey::Path,
    }
}

/// The title, and what to type with an example.
fn words(purpose: &Purpose, model: &Model) -> (String, String) {
    match purpose {
        Purpose::Note(place) => (format!("Note to {} {}", place.field(), place.code()), "Any text.".to_owned()),
        Purpose::PlotNote(_, plot) => (format!("Note to plot {plot}"), "Any text.".to_owned()),
        Purpose::Entry(KindName::Watered, bench) => {
            (format!("Watered {bench}"), "Amount per pot, such as 8 fl oz or 250 mL; blank if not known.".to_owned())
        }
        Purpose::Entry(KindName::Fed, bench) => {
            (format!("Fed {bench}"), "ppm N, then ppm Mg and ppm Mo if known, such as 200 30 0.1".to_owned())
        }
        Purpose::Entry(KindName::Losses, bench) => {
            (format!("Pots lost on {bench}"), "Pots, then cause, such as 2 rot".to_owned())
        }
        Purpose::Entry(KindName::Counted, bench) => (format!("Counted {bench}"), "Pots on the bench now.".to_owned()),
        Purpose::Entry(KindName::Pests, bench) => (
            format!("Whitefly on {bench}"),
            "Infested plants of plants checked, such as 12 of 20, or just 12.".to_owned(),
        ),
        Purpose::Entry(_, bench) => (bench.clone(), String::new()),
        Purpose::Who => ("Your initials?".to_owned(), "1 to 8 characters. They go on every entry.".to_owned()),
        Purpose::Writer(names) => {
            let names: Vec<String> = (1..).zip(names).map(|(n, name)| format!("{n} {name}")).collect();
            let names = if names.is_empty() { String::new() } else { format!("{}, or type the ", names.join(", ")) };
            ("Who is scouting?".to_owned(), format!("{names}initials: 1 to 8 characters. They go on every entry."))
        }
        Purpose::OtherDay => (
            "Log for another day".to_owned(),
            format!(
                "The day, such as {}. All entries go to it until F6 goes back.",
                model.day_reader().days(Facing::Back)
            ),
        ),
        Purpose::EndTrial(trial) => (
            format!("End trial {trial} today"),
            "The reason, such as crop sold early. Its readings up to today stay.".to_owned(),
        ),
        Purpose::TrialReport(trial, _) => (
            format!("Report of trial {trial}"),
            format!("The path of a new HTML file, such as trial-{}.html", trial.to_lowercase()),
        ),
        Purpose::SeasonReport(report) => season_report::words(*report),
        Purpose::Path => ("Import a journal".to_owned(), "The path of the file, such as season.jsonl".to_owned()),
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            if let Some(name) = named(state, key) {
                model.forget_draft(&draft(&state.purpose));
                return Some(scouting(model, &name));
            }
            state.field.key(key);
            state.fault = None;
            Some(Vec::new())
        }
        Msg::Paste(text) => {
            state.field.paste(text);
            state.fault = None;
            Some(Vec::new())
        }
        Msg::Do(Command::Back) => {
            model.keep_draft_field(draft(&state.purpose), &state.field);
            Some(vec![Effect::Go(Go::Back)])
        }
        Msg::Do(Command::Accept) => match accept(state, state.field.text().trim(), model) {
            Ok(effects) => {
                model.forget_draft(&draft(&state.purpose));
                Some(effects.into_iter().chain([Effect::Go(Go::Back)]).collect())
            }
            Err(fault) => {
                state.fault = Some(fault);
                Some(Vec::new())
            }
        },
        _ => None,
    }
}

fn accept(state: &State, text: &str, model: &mut Model) -> Result<Vec<Effect>, String> {
    match &state.purpose {
        Purpose::Note(_) | Purpose::PlotNote(..) if text.is_empty() => Ok(Vec::new()),
        Purpose::Note(place) => {
            let entry = model.entry(place.clone(), Kind::Note {}, Some(clean(text)));
            record(model, entry)
        }
        Purpose::PlotNote(bench, plot) => {
            let entry = model.plot_entry((bench, plot), Kind::Note {}, Some(clean(text)));
            record(model, entry)
        }
        Purpose::Entry(kind, bench) => {
            let kind = read(*kind, text, model).map_err(|faults| refused(*kind, &faults))?;
            let entry = model.entry(Place::Bench(bench.as_str().into()), kind, None);
            // What fits no sane crop is asked about once; the same line again is meant.
            match doubts::doubt(&model.season, &entry, model.system()) {
                Some((_, text)) if state.fault.as_ref() != Some(&text) => Err(text),
                _ => record(model, entry),
            }
        }
        Purpose::Who => {
            let name = checked(text)?;
            model.set_by(&name);
            Ok(vec![Effect::KeepSetting(Setting::By(name))])
        }
        Purpose::Writer(_) => {
            let name = checked(text)?;
            model.set_by(&name);
            model.say(writes(&name));
            Ok(Vec::new())
        }
        Purpose::OtherDay => {
            let day = model.read_other_day(text)?;
            model.put_on(Some(day));
            Ok(Vec::new())
        }
        Purpose::EndTrial(_) if text.is_empty() => Err("type why, in a few words".to_owned()),
        Purpose::EndTrial(trial) => {
            let trial = model.season.trial(trial).cloned().ok_or_else(|| format!("{trial} is no trial"))?;
            let ended = model.end_trial(&trial, clean(text));
            ended.map(|effect| vec![effect]).map_err(|faults| faults.first().map(fault_text).unwrap_or_default())
        }
        Purpose::TrialReport(..) | Purpose::SeasonReport(_) if text.is_empty() => {
            Err("type the path of a new file".to_owned())
        }
        Purpose::TrialReport(trial, reading) => {
            let html = report(trial, *reading, model).ok_or_else(|| format!("{trial} is no trial"))?;
            Ok(vec![Effect::WriteFile(text.to_owned(), html)])
        }
        Purpose::SeasonReport(report) => {
            Ok(vec![Effect::WriteFile(text.to_owned(), season_report::html(*report, model)?)])
        }
        Purpose::Path if text.is_empty() => Err("type the path of a journal file".to_owned()),
        Purpose::Path => Ok(vec![Effect::Import(text.to_owned())]),
    }
}

/// The report of a trial as HTML.
fn report(trial: &str, reading: TrialReading, model: &Model) -> Option<String> {
    let readings = Readings::of(&model.season, trial, model.day)?;
    let site = model.season.site().map_or("", |site| site.name.as_str());
    let rules = Rules::of(&model.limits);
    Some(html(&Report::of(&readings, (Some(reading), false), rules, (site, model.system()))))
}

/// The initials of who writes, where they are some.
fn checked(text: &str) -> Result<String, String> {
    let fits = !text.is_empty() && text.chars().count() <= BY_MOST;
    fits.then(|| text.to_owned()).ok_or_else(|| "1 to 8 characters, such as kt".to_owned())
}

/// The last name that a digit chooses, while nothing else is typed.
fn named(state: &State, key: &Key) -> Option<String> {
    let Purpose::Writer(names) = &state.purpose else { return None };
    let at = usize::from(key.digit()?).checked_sub(1)?;
    names.get(at).filter(|_| state.field.is_blank()).cloned()
}

/// Another person scouts from now on.
fn scouting(model: &mut Model, name: &str) -> Vec<Effect> {
    model.set_by(name);
    model.say(writes(name));
    vec![Effect::Go(Go::Back)]
}

fn writes(name: &str) -> String {
    format!("{name} is scouting: on every entry until you quit or press F7.")
}

fn record(model: &mut Model, entry: Entry) -> Result<Vec<Effect>, String> {
    let name = entry.name();
    model.record(vec![entry]).map(|effect| vec![effect]).map_err(|faults| refused(name, &faults))
}

/// Why a line was refused: the field in plain words, its value, what would be right.
fn refused(kind: KindName, faults: &[FieldFault]) -> String {
    let Some(fault) = faults.first() else { return String::new() };
    match schema::kind_table(kind).field(&fault.field) {
        Some(field) => format!("{}: {}", field.label, fault.text),
        None => fault_text(fault),
    }
}

/// Reads the line of an entry as the form of its kind reads its fields.
fn read(kind: KindName, text: &str, model: &Model) -> Result<Kind, Vec<FieldFault>> {
    let typed = typed(kind, text, model.limits.round.pests_plants);
    let table = schema::kind_table(kind);
    let fields = typed.iter().filter_map(|(name, text)| Some((table.field(name)?, text.as_str())));
    codec::kind_from_values(kind, &typed::read_all(fields, model.system())?)
}

/// The fields of a line; `plants` are checked where the line does not say how many.
fn typed(kind: KindName, text: &str, plants: u32) -> Vec<(&'static str, String)> {
    let mut words = text.split_whitespace();
    match kind {
        KindName::Watered => vec![("ml_per_pot", text.to_owned())],
        KindName::Fed => ["n_ppm", "mg_ppm", "mo_ppm"].into_iter().zip(words.map(str::to_owned)).collect(),
        KindName::Losses => {
            let pots = words.next().unwrap_or_default().to_owned();
            vec![("pots", pots), ("cause", words.collect::<Vec<_>>().join(" "))]
        }
        KindName::Counted => vec![("pots", words.next().unwrap_or_default().to_owned())],
        KindName::Pests => {
            let infested = words.next().unwrap_or_default().to_owned();
            let inspected = words.find(|w| *w != "of").map_or_else(|| plants.to_string(), str::to_owned);
            vec![("pest", PestName::Whitefly.code().to_owned()), ("infested", infested), ("inspected", inspected)]
        }
        // No other kind has a line of its own.
        _ => Vec::new(),
    }
}

mod view {
    use super::{State, words};
    use crate::model::Model;
    use crate::ui::{Role, line_of, panel, put, typed, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = model.look;
        let (title, ask) = words(&state.purpose, model);
        let fault = match (&state.fault, state.field.full) {
            (Some(fault), _) => format!("! {fault}"),
            (None, true) => format!("! too long: maximum {} characters", crate::controls::MOST),
            (None, false) => String::new(),
        };
        // A fault is shown whole, however many rows it takes.
        let faults = wrap(&fault, usize::from(area.width));
        let body = panel(frame, area, faults.len().saturating_add(6), &title, look);
        let asked = wrap(&ask, usize::from(body.width));
        let mut row = 0_usize;
        for line in asked {
            put(frame, body, row, Line::raw(line));
            row = row.saturating_add(1);
        }
        let place = line_of(body, row);
        let room = usize::from(place.width.saturating_sub(3));
        let shown = (state.field.text(), state.field.cursor(), state.field.scroll(room));
        let cursor = typed(frame, place, shown, look);
        for (row, line) in (row.saturating_add(1)..).zip(faults) {
            put(frame, body, row, Span::styled(line, look.style(Role::Act)));
        }
        cursor
    }
}
