//! What the leaves of a bench show: any number of signs, where, and on how many plants.

pub use view::view;

use crate::controls::{List, named, page};
use crate::input::{Code, Key};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::record::{Kind, LeafSign, Place, PlantPart, Term};

/// The key that begins and ends the number of plants: the first letter after those of the signs.
const PLANTS: char = 'z';
/// Most digits of that number.
const DIGITS: usize = 5;

/// The symptoms marked.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    signs: Vec<LeafSign>,
    place: Option<PlantPart>,
    /// How many plants show it, as typed.
    plants: String,
    /// True while digits go into that number.
    counting: bool,
    list: List,
}

impl State {
    /// Nothing marked yet.
    pub const fn new(bench: String) -> Self {
        Self { bench, signs: Vec::new(), place: None, plants: String::new(), counting: false, list: List::at(0) }
    }

    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }

    fn toggle(&mut self, sign: LeafSign) {
        if self.signs.contains(&sign) {
            self.signs.retain(|s| *s != sign);
        } else {
            self.signs.push(sign);
            self.signs.sort_unstable();
        }
    }

    /// The number of plants; `None` where none was typed.
    fn plants(&self) -> Option<u32> {
        self.plants.parse().ok()
    }

    fn key(&mut self, key: &Key) {
        if key.typed().is_some_and(|c| c.eq_ignore_ascii_case(&PLANTS)) {
            self.counting = !self.counting;
            return;
        }
        if self.counting {
            match (key.digit(), key.code) {
                (Some(digit), _) if self.plants.len() < DIGITS && (digit > 0 || !self.plants.is_empty()) => {
                    self.plants.push_str(&digit.to_string());
                }
                (None, Code::Backspace) => {
                    self.plants.pop();
                }
                _ => {}
            }
            if key.digit().is_some() || key.typed().is_none() {
                return;
            }
            // A letter marks its sign.
            self.counting = false;
        }
        match (key.typed(), key.digit()) {
            (_, Some(digit)) => {
                let place = PlantPart::ALL.get(usize::from(digit).wrapping_sub(1)).copied();
                self.place = if self.place == place { None } else { place };
            }
            (Some(' '), None) => {
                if let Some(sign) = LeafSign::ALL.get(self.list.cursor()) {
                    self.toggle(*sign);
                }
            }
            (Some(_), None) => {
                let found = named(key, LeafSign::ALL.len()).and_then(|at| Some((at, LeafSign::ALL.get(at)?)));
                if let Some((at, sign)) = found {
                    self.list.set(at);
                    self.toggle(*sign);
                }
            }
            (None, None) => {}
        }
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => state.key(key),
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => {
            let kind = Kind::Leaves { signs: state.signs.clone(), plant_part: state.place, plants: state.plants() };
            let entry = model.entry(Place::Bench(state.bench.as_str().into()), kind, None);
            let effects = model.record_or_say(vec![entry]);
            let back = (!effects.is_empty()).then_some(Effect::Go(Go::Back));
            return Some(effects.into_iter().chain(back).collect());
        }
        Msg::Do(command) => {
            state.counting = false;
            return state.list.step(*command, LeafSign::ALL.len(), page(model.size.1)).then(Vec::new);
        }
        _ => return None,
    }
    Some(Vec::new())
}

mod view {
    use super::{PLANTS, State};
    use crate::controls::letter;
    use crate::mix::cautions::{Work, cautions};
    use crate::model::Model;
    use crate::record::{LeafSign, PlantPart, Term};
    use crate::ui::list::{entry, two_columns};
    use crate::ui::{panel, put, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let rows = LeafSign::ALL.len().div_ceil(2);
        let title = format!("Leaves on {}", state.bench);
        let sick = state.signs.iter().any(|sign| sign.is_disease());
        let cautions = cautions(Work::SickPlants).iter().filter(|_| sick).flat_map(|c| wrap(c.text, area.width.into()));
        let cautions: Vec<String> = cautions.collect();
        let body = panel(frame, area, rows.saturating_add(5).saturating_add(cautions.len()), &title, model.look);
        let mut cursor = None;
        for (at, sign) in LeafSign::ALL.iter().enumerate() {
            let mark = if state.signs.contains(sign) { "[x]" } else { "[ ]" };
            let text = format!("{} {mark} {}", letter(at), sign.text());
            let chosen = at == state.list.cursor();
            let first = entry(frame, body, two_columns(at, rows), (&text, chosen), model.look);
            if chosen {
                cursor = Some(Position { x: first.x.saturating_add(3), ..first });
            }
        }
        let places: Vec<String> = PlantPart::ALL
            .iter()
            .enumerate()
            .map(|(i, w)| {
                let mark = if state.place == Some(*w) { "x" } else { " " };
                format!("{} [{mark}] {}", i.saturating_add(1), w.text())
            })
            .collect();
        put(frame, body, rows, Span::raw(places.join("  ")));
        let plants = format!("{PLANTS} plants showing it: {}", state.plants);
        let end = u16::try_from(plants.len()).unwrap_or(u16::MAX);
        let unsaid = if state.plants.is_empty() && !state.counting { "-" } else { "" };
        let typing = if state.counting { format!("_  (type the number, {PLANTS} ends it)") } else { String::new() };
        put(frame, body, rows.saturating_add(1), Span::raw(format!("{plants}{unsaid}{typing}")));
        if state.counting {
            let row = u16::try_from(rows.saturating_add(1)).unwrap_or(u16::MAX);
            cursor = Some(Position { x: body.x.saturating_add(end), y: body.y.saturating_add(row) });
        }
        let hint = "Press letters to mark symptoms. Enter saves; none marked: checked, none seen.";
        put(frame, body, rows.saturating_add(2), Span::raw(hint));
        for (at, line) in cautions.into_iter().enumerate() {
            put(frame, body, rows.saturating_add(3).saturating_add(at), Span::raw(line));
        }
        cursor
    }
}
