//! A desk to try the screens at: the program above the terminal, records kept in memory, a clock moved by hand.

mod dresses;
mod dump;
mod sizes;

pub(crate) use dresses::same_in_every_dress;
#[allow(unused_imports, reason = "each test takes what it needs")]
pub(crate) use sizes::{all_drawn_at_every_size, cases};

use benchwalk::app::App;
use benchwalk::input::{Event, Key, Look, Palette};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::model::{Effect, Model, Now, Outcome};
use benchwalk::record::{Entry, Line};
use benchwalk::report::entry;
use benchwalk::season::Season;
use chrono::{DateTime, Duration, FixedOffset};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Position;
use uuid::Uuid;

/// How saving goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Keeping {
    /// Everything is kept.
    Well,
    /// The file is busy.
    Busy,
    /// The file refuses for good.
    Refusing,
    /// No answer yet.
    Silent,
}

/// The desk.
pub(crate) struct Desk {
    pub app: App,
    /// What was kept, oldest first.
    pub kept: Vec<Line>,
    /// Effects that concern the world outside.
    pub outside: Vec<Effect>,
    pub keeping: Keeping,
    pub ms: u64,
    now: DateTime<FixedOffset>,
    events: u128,
    size: (u16, u16),
    waiting: Vec<Line>,
}

pub(crate) const PLAIN: Look = Look { color: false, ascii: false, palette: Palette::Usual };
pub(crate) const COLOR: Look = Look { color: true, ascii: false, palette: Palette::Usual };
pub(crate) const ASCII: Look = Look { color: true, ascii: true, palette: Palette::Usual };

impl Desk {
    /// The season of `season::journal` on the morning of its day, at 80 x 24 in color.
    pub(crate) fn new() -> Self {
        Self::with(&crate::season::journal(), COLOR, (80, 24))
    }

    pub(crate) fn with(text: &str, look: Look, size: (u16, u16)) -> Self {
        let lines = journal::read(text).unwrap_or_else(|faults| panic!("{faults:?}"));
        Self::of(&Season::of(lines), look, size)
    }

    /// No season at all.
    pub(crate) fn empty(look: Look, size: (u16, u16)) -> Self {
        Self::of(&Season::of([]), look, size)
    }

    pub(crate) fn of(season: &Season, look: Look, size: (u16, u16)) -> Self {
        Self::by(season, Limits::default(), look, size)
    }

    /// A season gone by these limits.
    pub(crate) fn by(season: &Season, limits: Limits, look: Look, size: (u16, u16)) -> Self {
        let now = DateTime::parse_from_rfc3339(crate::season::NOW).unwrap();
        let stamp = Now { at: now, ms: 0, id: Uuid::from_u128(1) };
        let mut model = Model::new(season, limits, "kt".into(), stamp, look);
        model.resize(size);
        model.set_files("season.db".into(), None);
        let app = App::new(model);
        let mut desk = Self {
            app,
            kept: Vec::new(),
            outside: Vec::new(),
            keeping: Keeping::Well,
            ms: 0,
            now,
            events: 0,
            size,
            waiting: Vec::new(),
        };
        desk.settle();
        desk
    }

    /// Everything that waits is worked out.
    pub(crate) fn settle(&mut self) -> &mut Self {
        while self.app.idle() {}
        self
    }

    /// Presses keys, half a second apart.
    pub(crate) fn keys(&mut self, row: &str) -> &mut Self {
        self.keys_every(row, 500)
    }

    /// Presses keys, so many milliseconds apart.
    pub(crate) fn keys_every(&mut self, row: &str, gap: u64) -> &mut Self {
        for key in Key::row(row).unwrap_or_else(|| panic!("keys {row:?}")) {
            self.ms += gap;
            self.event(Event::Key(key));
        }
        self
    }

    /// Something happens.
    pub(crate) fn event(&mut self, event: Event) -> &mut Self {
        self.events += 1;
        let id = Uuid::from_u128(0x0199_0000_0000_7000_8000_0000_0000_0000 | (self.events << 36));
        let stamp = Now { at: self.now, ms: self.ms, id };
        let effects = self.app.event(event, stamp);
        self.carry_out_all(effects)
    }

    /// What the world outside answers, then the keys that were held back for it.
    pub(crate) fn answer(&mut self, outcome: Outcome) -> &mut Self {
        let effects = self.app.answer(outcome);
        self.carry_out_all(effects);
        while let Some((event, stamp)) = self.app.released() {
            let effects = self.app.event(event, stamp);
            self.carry_out_all(effects);
        }
        self
    }

    fn carry_out_all(&mut self, mut effects: Vec<Effect>) -> &mut Self {
        while !effects.is_empty() {
            effects = effects.into_iter().flat_map(|effect| self.carry_out(effect)).collect();
        }
        self.settle()
    }

    fn carry_out(&mut self, effect: Effect) -> Vec<Effect> {
        let lines = match effect {
            Effect::Append(lines) => lines,
            Effect::KeepPlan(lines) => return self.keep_plan(lines),
            effect => {
                self.outside.push(effect);
                return Vec::new();
            }
        };
        self.waiting.extend(lines);
        let ids = self.waiting.iter().map(Line::id).collect();
        let task = match self.keeping {
            Keeping::Well => {
                self.kept.append(&mut self.waiting);
                Outcome::Saved(ids)
            }
            Keeping::Busy => Outcome::NotSaved { ids, why: "another program is writing.".into(), again: true },
            Keeping::Refusing => {
                self.waiting.clear();
                Outcome::NotSaved { ids, why: "the record breaks a rule.".into(), again: false }
            }
            Keeping::Silent => return Vec::new(),
        };
        self.app.answer(task)
    }

    fn keep_plan(&mut self, lines: Vec<Line>) -> Vec<Effect> {
        let task = match self.keeping {
            Keeping::Well => {
                self.kept.extend(lines.iter().cloned());
                Outcome::PlanKept(lines)
            }
            Keeping::Busy => {
                self.waiting.extend(lines.iter().cloned());
                let ids = self.waiting.iter().map(Line::id).collect();
                self.app.answer(Outcome::NotSaved { ids, why: "another program is writing.".into(), again: true });
                Outcome::PlanWaits(lines)
            }
            Keeping::Refusing => Outcome::PlanNotKept("the record breaks a rule.".into()),
            Keeping::Silent => return Vec::new(),
        };
        self.app.answer(task)
    }

    /// Time passes.
    pub(crate) fn pass(&mut self, time: Duration) -> &mut Self {
        self.now += time;
        self.ms += u64::try_from(time.num_milliseconds()).unwrap_or(0);
        self.event(Event::Idle)
    }

    pub(crate) fn resize(&mut self, columns: u16, rows: u16) -> &mut Self {
        self.size = (columns, rows);
        self.event(Event::Resize(columns, rows))
    }

    /// What was kept, a line each: `E1 water 4`.
    pub(crate) fn written(&self) -> Vec<String> {
        let system = self.app.model.system();
        let entries = self.kept.iter().filter_map(of_entry);
        entries.map(|e| format!("{} {}", e.place.code(), entry::line(e, system))).collect()
    }

    /// Draws the frame; gives it with the cursor's place.
    pub(crate) fn draw(&self) -> (Buffer, Option<Position>) {
        let mut terminal = Terminal::new(TestBackend::new(self.size.0, self.size.1)).unwrap();
        terminal.draw(|frame| self.app.view(frame)).unwrap();
        let shown = terminal.backend().cursor_visible();
        let cursor = shown.then(|| terminal.backend().cursor_position());
        (terminal.backend().buffer().clone(), cursor)
    }

    /// The frame as text, blanks at the ends left out.
    pub(crate) fn text(&self) -> String {
        dump::text(&self.draw().0)
    }

    /// The frame as text, its styles, and the cursor's place.
    pub(crate) fn dump(&self) -> String {
        let (buffer, cursor) = self.draw();
        let cursor = cursor.map_or("none".to_owned(), |at| format!("{},{}", at.x, at.y));
        format!("{}\ncursor {cursor}\n{}", dump::text(&buffer), dump::styles(&buffer))
    }
}

fn of_entry(line: &Line) -> Option<&Entry> {
    match line {
        Line::Entry(entry) => Some(entry),
        _ => None,
    }
}

/// Presses keys at a new desk and holds what was written and what stands on the screen against what is expected:
/// `written` is every entry in its order, `seen` a piece of the screen.
pub(crate) fn check(keys: &str, written: &[&str], seen: &str) {
    let mut desk = Desk::new();
    desk.keys(keys);
    assert_eq!(desk.written(), written, "after {keys}\n{}", desk.text());
    assert!(desk.text().contains(seen), "after {keys}: no {seen:?} in\n{}", desk.text());
}
