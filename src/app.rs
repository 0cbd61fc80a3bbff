//! The application: current page, popup stack, message dispatch.
//!
//! [`App::event`] and [`App::answer`] change the state and return effects; [`App::view`] draws it. None of them
//! reads a clock, a file or a terminal.

mod answer;
mod code;
mod held;
mod key_guard;
mod scan;
mod split;
mod status_line;

use crate::characters::hidden;
use crate::controls::Repeats;
use crate::dates;
use crate::input::{Code, Event, Key};
use crate::keys::{Command, Context, hints_of, look_up};
use crate::model::{Effect, Go, MixingRequest, Model, Msg, Now, Response, go};
use crate::popups::Popup;
use crate::screens::Screen;
use crate::ui::{Page, plain_signs, sanitize, too_small};
use held::Held;
use ratatui::Frame;
use ratatui::layout::Position;
use scan::Scan;
use split::Split;
use std::time::Duration;

/// Idle time before slow work may start.
const REST: Duration = Duration::from_millis(400);
/// Pages one can go back through.
const DEEPEST: usize = 8;

/// The application above the terminal.
#[derive(Debug, Clone)]
pub struct App {
    /// What all screens share.
    pub model: Model,
    /// The page shown.
    pub screen: Screen,
    /// The popups over it, the topmost last.
    pub popups: Vec<Popup>,
    below: Vec<Screen>,
    /// Pages that were left, freed at rest: an Evening of hundreds of benches takes milliseconds to free.
    left: Vec<Screen>,
    /// Keys pressed before the season was read.
    held: Held,
    /// An escape sequence that came in pieces.
    split: Split,
    /// Which key is held down.
    repeats: Repeats,
    /// A scan that is typed into a text, with what took the text as it was before.
    scan: Scan<code::Text>,
}

impl App {
    /// The program around a season: on the Round, or on the first-run page where there is no season yet.
    pub fn new(model: Model) -> Self {
        let screen = if model.season.site().is_some() { Screen::round(&model) } else { Screen::first() };
        Self {
            model,
            screen,
            popups: Vec::new(),
            below: Vec::new(),
            left: Vec::new(),
            held: Held::default(),
            split: Split::default(),
            repeats: Repeats::default(),
            scan: Scan::default(),
        }
    }

    /// The present key context.
    pub fn context(&self) -> Context {
        self.popups.last().map_or_else(|| self.screen.context(&self.model), Popup::context)
    }

    /// Handles an input event at a time; returns the effects. Keys are held back until the season is read: before that nobody
    /// knows which bench is next, and which are closed.
    pub fn event(&mut self, event: Event, now: Now) -> Vec<Effect> {
        let Some(event) = self.hold(event, now) else { return Vec::new() };
        let mut effects = Vec::new();
        if self.model.tick(now) {
            effects = self.new_day();
        }
        effects.extend(self.leave_findings());
        let day = self.model.day;
        let more = match event {
            Event::Key(key) => self.key(key).unwrap_or_default(),
            Event::Paste(text) => self.pasted(text),
            Event::Resize(columns, rows) => {
                self.model.resize((columns, rows));
                Vec::new()
            }
            Event::Idle => Vec::new(),
            Event::Quit => vec![Effect::Quit],
        };
        effects.extend(more);
        if self.model.day != day {
            effects.extend(self.new_day());
        }
        self.settle(effects)
    }

    /// The day changed: every page takes it up, those one can go back to as well.
    fn new_day(&mut self) -> Vec<Effect> {
        for screen in &mut self.below {
            screen.update(&mut self.model, &Msg::NewDay);
        }
        self.screen.update(&mut self.model, &Msg::NewDay).unwrap_or_default()
    }

    /// Does a slice of idle work. False when nothing is left.
    pub fn idle(&mut self) -> bool {
        self.left.clear();
        let more = self.model.step();
        if more && self.model.cache.is_fresh() && (self.model.before.is_fresh() || !self.model.before.is_begun()) {
            self.changed();
        }
        if !more && self.screen.waits() {
            self.screen.update(&mut self.model, &Msg::Quiet);
            return true;
        }
        more
    }

    /// Assesses a few benches in idle time: about a millisecond. False when none is stale.
    pub fn idle_benches(&mut self) -> bool {
        self.model.step_benches()
    }

    /// How long there must have been no key before [`App::idle`] may do what takes longer (lots and houses, the day before,
    /// the review): at once where the page shows it, never on the Walk card, `None` where nothing waits.
    pub fn patience(&self) -> Option<Duration> {
        let fresh = self.model.is_settled();
        match self.screen {
            Screen::Walk(_) | Screen::Plots(_) => None,
            Screen::Review(_) | Screen::Trial(_) if !fresh || self.screen.waits() => Some(Duration::ZERO),
            Screen::Season(_) if fresh && self.screen.waits() => Some(Duration::ZERO),
            _ if fresh || !self.model.loaded => None,
            // Until everything was known once it is what is waited for.
            _ if self.model.is_new() => Some(Duration::ZERO),
            _ => Some(REST),
        }
    }

    /// Handles a key: its effects, changes of the page included; `None` where it is not bound here.
    pub fn key(&mut self, key: Key) -> Response {
        let context = self.context();
        if self.split.takes(key, context, self.model.now.ms) {
            return None;
        }
        if self.is_second_end(key) || self.is_held_down(context, key) {
            return Some(Vec::new());
        }
        if let Some(effects) = self.scanned_into_text(context, key) {
            return Some(effects);
        }
        let response = self.pressed(context, key);
        if response.is_none() && !key.repeat {
            let help = look_up(context, Key::new(Code::Char('?'))).map_or("F1", |_| "?");
            self.model.say(format!("{key} has no use here; {help} lists the keys."));
        }
        response
    }

    fn pressed(&mut self, context: Context, key: Key) -> Response {
        match look_up(context, key) {
            Some(command) => self.command(command),
            None if context.types() && !key.repeat => self.tell(&Msg::Type(key)),
            None if context.types() && key.digit().is_none() => self.tell(&Msg::Type(key)),
            // A closed bench says that it takes nothing.
            None if matches!(context, Context::WalkShut | Context::PlotsShut) => self.tell(&Msg::Type(key)),
            None => None,
        }
    }

    fn command(&mut self, command: Command) -> Response {
        let without_site = [
            Command::Find,
            Command::Code,
            Command::Round,
            Command::Review,
            Command::Mix,
            Command::Season,
            Command::Share,
            Command::Work,
        ];
        if self.model.season.site().is_none() && self.popups.is_empty() && without_site.contains(&command) {
            self.model.say("The site comes first: press a, then s.");
            return Some(Vec::new());
        }
        Some(match command {
            Command::Quit => vec![Effect::Quit],
            Command::Redraw => vec![Effect::Redraw],
            Command::Suspend => vec![Effect::Suspend],
            Command::Help => vec![Effect::popup(go::Popup::Keys)],
            Command::Round if self.popups.is_empty() => vec![Effect::page(go::Page::Round)],
            Command::SetUp if self.popups.is_empty() && !matches!(self.screen, Screen::First(_)) => {
                vec![Effect::page(go::Page::SetUp)]
            }
            Command::Review if self.popups.is_empty() => vec![Effect::page(go::Page::Review)],
            Command::Share if self.popups.is_empty() && !matches!(self.screen, Screen::Share(_)) => {
                vec![Effect::page(go::Page::Share)]
            }
            Command::Share if self.popups.is_empty() => Vec::new(),
            Command::Season if self.popups.is_empty() => vec![Effect::page(go::Page::Season)],
            Command::Trials if self.popups.is_empty() => vec![Effect::page(go::Page::Trials)],
            Command::Undo if self.popups.is_empty() => {
                let kept = self.keeps_later().or_else(|| self.asks_before_undo());
                kept.unwrap_or_else(|| self.undo())
            }
            Command::Settle if self.popups.is_empty() => self.open_to_settle(),
            Command::OtherDay => self.other_day(),
            Command::Palette => vec![Effect::KeepSetting(self.model.next_palette())],
            Command::Writer if self.popups.last().is_some_and(Popup::asks_anywhere) => Vec::new(),
            Command::Writer => vec![Effect::popup(go::Popup::Writer)],
            Command::Code => vec![Effect::popup(go::Popup::Code(String::new()))],
            Command::Find if self.popups.is_empty() => vec![Effect::popup(go::Popup::Find)],
            Command::Redo if self.popups.is_empty() => {
                self.tell(&Msg::Do(command)).unwrap_or_else(|| self.model.redo_and_say())
            }
            // A page with nothing selected opens it empty.
            Command::Mix if self.popups.is_empty() => match self.tell(&Msg::Do(command)) {
                None => vec![Effect::page(go::Page::Mixing(MixingRequest::default()))],
                Some(effects) => effects,
            },
            other => return self.tell(&Msg::Do(other)),
        })
    }

    /// On another day, what is of a later one is not undone: says so.
    fn keeps_later(&mut self) -> Option<Vec<Effect>> {
        let text = self.model.last_is_later()?;
        self.model.say(text);
        Some(Vec::new())
    }

    /// The first that is to settle, or that nothing is.
    fn open_to_settle(&mut self) -> Vec<Effect> {
        if self.model.unsettled().is_empty() {
            self.model.say("Nothing is to settle.");
            return Vec::new();
        }
        vec![Effect::popup(go::Popup::Settle)]
    }

    /// Asks for another day, or goes back to the own one.
    fn other_day(&mut self) -> Vec<Effect> {
        if self.model.other_day.is_some() {
            self.model.put_on(None);
            return Vec::new();
        }
        if self.popups.last().is_some_and(Popup::asks_anywhere) {
            return Vec::new();
        }
        vec![Effect::popup(go::Popup::OtherDay)]
    }

    fn tell(&mut self, msg: &Msg) -> Response {
        match self.popups.last_mut() {
            Some(popup) => popup.update(&mut self.model, msg),
            None => self.screen.update(&mut self.model, msg),
        }
    }

    /// Performs the effects that only change the page; returns the rest.
    fn settle(&mut self, effects: Vec<Effect>) -> Vec<Effect> {
        let mut outside = Vec::new();
        for effect in effects {
            match effect {
                Effect::Go(Go::Undo) => {
                    let more = self.undo();
                    outside.extend(self.settle(more));
                }
                Effect::Go(to) => self.go(to),
                other => outside.push(other),
            }
        }
        outside
    }

    fn go(&mut self, to: Go) {
        match to {
            Go::Back => self.back(),
            Go::Undo => {}
            Go::Check(check) => {
                self.popups.clear();
                self.screen.update(&mut self.model, &Msg::Ask(check));
            }
            Go::Bench(code) => {
                self.popups.clear();
                if self.screen.update(&mut self.model, &Msg::Found(code.clone())).is_none() {
                    self.turn_to(go::Page::Bench(code));
                }
            }
            Go::Label(label) => self.go_to_label(label),
            Go::Page(go::Page::SetUp) if matches!(self.screen, Screen::SetUp(_)) => {}
            Go::Page(page) => self.turn_to(page),
            Go::Popup(popup) if popup.finding_of().is_some_and(|bench| self.is_shut(bench)) => {}
            Go::Popup(popup) => {
                let context = self.context();
                self.popups.extend(Popup::open(popup, &self.model, context));
                self.ask_who();
            }
        }
    }

    fn turn_to(&mut self, page: go::Page) {
        self.popups.clear();
        self.model.forget_status();
        let home = page == go::Page::Round;
        let Some(next) = Screen::open(page, &mut self.model) else { return };
        let last = std::mem::replace(&mut self.screen, next);
        self.below.push(last);
        let kept = if home { 0 } else { DEEPEST };
        let over = self.below.len().saturating_sub(kept);
        self.left.extend(self.below.drain(..over));
        self.ask_who();
    }

    /// Refreshes the page after entries were recorded or saved. A change has no effects.
    fn changed(&mut self) {
        self.screen.update(&mut self.model, &Msg::Changed);
    }

    fn back(&mut self) {
        if self.popups.pop().is_some() {
            self.changed();
        } else if let Some(screen) = self.below.pop() {
            self.model.forget_status();
            self.screen = screen;
            self.changed();
        } else if self.model.season.site().is_some() {
            self.model.forget_status();
            self.screen = Screen::round(&self.model);
        }
    }

    /// The first time something could be written and nobody is named, asks who writes.
    fn ask_who(&mut self) {
        let writes = self.popups.last().map_or_else(|| self.screen.writes(), Popup::writes);
        if self.model.by.is_empty() && writes && !self.popups.iter().any(Popup::asks_who) {
            self.popups.extend(Popup::open(go::Popup::Who, &self.model, Context::Round));
        }
    }

    /// Draws everything.
    pub fn view(&self, frame: &mut Frame<'_>) {
        let model = &self.model;
        let mut cursor = None;
        if too_small(frame, model.look).is_ok() {
            let area = self.page().draw(frame, model.look);
            cursor = self.screen.view(model, frame, area);
            for popup in &self.popups {
                cursor = popup.view(model, frame, area).or(cursor);
            }
            let all = frame.area();
            if let Some(Position { x, y }) = cursor.filter(|at| all.contains(*at)) {
                frame.set_cursor_position((x, y));
            }
        }
        sanitize(frame.buffer_mut(), hidden);
        if model.look.ascii {
            plain_signs(frame.buffer_mut(), cursor);
        }
        model.look.finish(frame.buffer_mut());
    }

    fn page(&self) -> Page<'static> {
        let model = &self.model;
        let site = model.season.site().map_or("", |s| s.name.as_str());
        let time = dates::time(&model.now.at);
        let day = if model.shows_year() { dates::long(model.day) } else { dates::weekday(model.day) };
        let unsaved = match model.pending.len() {
            0 => String::new(),
            n => format!("{n} NOT YET SAVED  "),
        };
        let here = |command| match self.screen {
            Screen::Round(_) => command == Command::Round,
            Screen::Review(_) => command == Command::Review,
            _ => false,
        };
        // The Round has it on a row of its own.
        let shared = if matches!(self.screen, Screen::Round(_)) { String::new() } else { model.shared() };
        let context = self.context();
        let hints = hints_of(context).filter(|r| !here(r.command));
        let hints = hints.map(|r| (r.hint_key(context), r.hint)).collect();
        Page {
            title: self.screen.title(),
            when: format!("{day} {time}"),
            unsaved,
            shared,
            site: site.to_owned(),
            by: model.by.clone(),
            file: other_file(&model.path),
            band: model.band(),
            standing: status_line::standing(model),
            said: self.reading().or_else(|| status_line::line(model)),
            hints,
        }
    }
}

/// The name of a season file that is not the usual one, such as the demo.
fn other_file(path: &str) -> Option<String> {
    let name = std::path::Path::new(path).file_stem()?.to_str()?;
    (name != "season").then(|| name.to_owned())
}
