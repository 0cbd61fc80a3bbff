//! One line to type: a note, an entry with one number, who writes, the path of a journal.

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Field, Msg, Shared, To};
use crate::record::{Kind, KindName, PestCount, PestName, Place};
use crate::units::{Concentration, Volume, parse};

/// The most characters of the name of who writes.
const BY_MOST: usize = 8;

/// What the line is for.
#[derive(Debug, Clone, PartialEq)]
pub enum Purpose {
    /// A note to a bench, house or lot.
    Note(Place),
    /// An entry of this kind for a bench.
    Entry(KindName, String),
    /// Who writes.
    Who,
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
    pub fn new(purpose: Purpose, shared: &Shared) -> Self {
        let field = shared.draft(&name(&purpose));
        Self { purpose, field, fault: None }
    }

    /// True where the line becomes an entry.
    pub const fn writes(&self) -> bool {
        matches!(self.purpose, Purpose::Note(_) | Purpose::Entry(..))
    }

    /// True where it asks who writes.
    pub const fn asks_who(&self) -> bool {
        matches!(self.purpose, Purpose::Who)
    }
}

/// The name under which the line is kept when left.
fn name(purpose: &Purpose) -> String {
    match purpose {
        Purpose::Note(place) => format!("note {} {}", place.field(), place.code()),
        Purpose::Entry(kind, bench) => format!("{kind:?} {bench}"),
        Purpose::Who => "who".to_owned(),
        Purpose::Path => "path".to_owned(),
    }
}

/// The title, and what to type with an example.
fn words(purpose: &Purpose) -> (String, &'static str) {
    match purpose {
        Purpose::Note(place) => (format!("Note to {} {}", place.field(), place.code()), "Any text."),
        Purpose::Entry(KindName::Watered, bench) => {
            (format!("Watered {bench}"), "The amount a pot, such as 250 mL or 8 fl oz; empty when it is not known.")
        }
        Purpose::Entry(KindName::Fed, bench) => {
            (format!("Fed {bench}"), "ppm N in the water, then ppm Mg and ppm Mo where they are known: 200 30 0.1")
        }
        Purpose::Entry(KindName::Losses, bench) => {
            (format!("Pots lost on {bench}"), "How many pots, then the cause in words: 2 rot")
        }
        Purpose::Entry(KindName::Counted, bench) => (format!("Counted {bench}"), "Pots standing on the bench now."),
        Purpose::Entry(KindName::Pests, bench) => {
            (format!("Whitefly on {bench}"), "Plants with whitefly of the plants looked at: 12 of 20, or 12 alone.")
        }
        Purpose::Entry(_, bench) => (bench.clone(), ""),
        Purpose::Who => ("Who writes?".to_owned(), "Your initials, 1 to 8 characters. They stand beside every entry."),
        Purpose::Path => ("Import a journal".to_owned(), "The path of the file, such as season.jsonl"),
    }
}

/// Takes what it is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Type(key) => {
            state.field.key(key);
            state.fault = None;
            Vec::new()
        }
        Msg::Paste(text) => {
            state.field.paste(text);
            Vec::new()
        }
        Msg::Do(Command::Back) => {
            shared.keep_draft(&name(&state.purpose), &state.field);
            vec![Effect::Go(To::Back)]
        }
        Msg::Do(Command::Accept) => match accept(&state.purpose, state.field.text().trim(), shared) {
            Ok(effects) => {
                shared.drafts.remove(&name(&state.purpose));
                effects.into_iter().chain([Effect::Go(To::Back)]).collect()
            }
            Err(fault) => {
                state.fault = Some(fault);
                Vec::new()
            }
        },
        _ => Vec::new(),
    }
}

fn accept(purpose: &Purpose, text: &str, shared: &mut Shared) -> Result<Vec<Effect>, String> {
    match purpose {
        Purpose::Note(_) if text.is_empty() => Ok(Vec::new()),
        Purpose::Note(place) => Ok(vec![shared.write(place.clone(), Kind::Note, Some(text.to_owned()))]),
        Purpose::Entry(kind, bench) => {
            let kind = read(*kind, text, shared)?;
            Ok(vec![shared.write(Place::Bench(bench.clone()), kind, None)])
        }
        Purpose::Who => {
            let long = text.chars().count() > BY_MOST;
            if text.is_empty() || long {
                return Err("1 to 8 characters, such as ml".to_owned());
            }
            text.clone_into(&mut shared.by);
            Ok(vec![Effect::KeepBy(text.to_owned())])
        }
        Purpose::Path if text.is_empty() => Err("the path of a journal file".to_owned()),
        Purpose::Path => Ok(vec![Effect::Import(text.to_owned())]),
    }
}

/// Reads the line of an entry.
fn read(kind: KindName, text: &str, shared: &Shared) -> Result<Kind, String> {
    let system = shared.system();
    let mut words = text.split_whitespace();
    let count = |word: Option<&str>, what: &str| -> Result<u32, String> {
        word.and_then(|w| w.parse().ok()).ok_or_else(|| format!("{what}: a whole number, such as 12"))
    };
    let ppm = |word: &str| parse::<Concentration>(word, system).map(Concentration::ppm).map_err(|e| e.to_string());
    match kind {
        KindName::Watered if text.is_empty() => Ok(Kind::Watered { ml_per_pot: None }),
        KindName::Watered => {
            let volume = parse::<Volume>(text, system).map_err(|e| e.to_string())?;
            Ok(Kind::Watered { ml_per_pot: Some(volume.ml()) })
        }
        KindName::Fed => {
            let n_ppm = ppm(words.next().unwrap_or_default())?;
            let mg_ppm = words.next().map(ppm).transpose()?;
            let mo_ppm = words.next().map(ppm).transpose()?;
            Ok(Kind::Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot: None })
        }
        KindName::Losses => {
            let pots = count(words.next(), "pots lost")?;
            let cause = words.collect::<Vec<_>>().join(" ");
            Ok(Kind::Losses { pots, cause: (!cause.is_empty()).then_some(cause) })
        }
        KindName::Counted => Ok(Kind::Counted { pots: count(words.next(), "pots standing")? }),
        _ => {
            let infested = count(words.next(), "plants with whitefly")?;
            let inspected = match words.find(|w| *w != "of") {
                Some(word) => count(Some(word), "plants looked at")?,
                None => shared.limits.round.pests_plants,
            };
            if infested > inspected {
                return Err(format!("{infested} of {inspected}: more plants with whitefly than were looked at"));
            }
            Ok(Kind::Pests { pest: PestName::Whitefly, count: PestCount::Plants { inspected, infested } })
        }
    }
}

mod view {
    use super::{State, words};
    use crate::model::Shared;
    use crate::ui::{Role, panel, put, typed, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Draws it.
    pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = shared.look;
        let (title, ask) = words(&state.purpose);
        let body = panel(frame, area, 7, &title, look);
        let asked = wrap(ask, usize::from(body.width));
        let mut row = 0_u16;
        for line in asked {
            put(frame, body, row, Line::raw(line));
            row = row.saturating_add(1);
        }
        let place = Rect { y: body.y.saturating_add(row), height: 1, ..body }.intersection(body);
        let room = usize::from(place.width.saturating_sub(3));
        let shown = (state.field.text(), state.field.cursor(), state.field.scroll(room));
        let cursor = typed(frame, place, shown, look);
        let fault = match (&state.fault, state.field.full) {
            (Some(fault), _) => format!("! {fault}"),
            (None, true) => format!("! cut off: a line takes {} characters", crate::model::MOST),
            (None, false) => String::new(),
        };
        put(frame, body, row.saturating_add(1), Span::styled(fault, look.style(Role::Act)));
        cursor
    }
}
