//! The loop: events in, frames out, effects carried out, work done while nothing happens.
//!
//! A frame is drawn before the effects of a key are carried out, and again when their answers are in: the screen
//! answers a key without waiting for the disk, and never says "saved" before it is.

mod beside;
#[cfg(test)]
mod double;
mod last_year;
mod logged;
mod reading;
mod saving;
mod sharing;
mod storage;
mod unsaved;

pub use last_year::{Piece, ReadLastYear};
pub use storage::{Asked, Exchanger, Logged, Opened, Part, Refused, Rescue, Storage, Wanted};

use crate::app::App;
use crate::clock::{Clock, stamp};
use crate::input::Event;
use crate::model::{About, Effect, NotOpened, Now, Outcome};
use crate::record::Line;
use crate::term::Terminal;
use chrono::NaiveDate;
use reading::{LOOK, Reading};
use saving::{Fate, Saving};
use std::collections::VecDeque;
use std::io;
use std::time::{Duration, Instant};

/// Without a key the clock is read this often: a day may end, a bench may open.
const CLOCK: Duration = Duration::from_secs(10);
/// With something to save again, this often.
const RETRY: Duration = Duration::from_millis(500);
/// One slice of work while nothing happens.
const SLICE: Duration = Duration::from_millis(4);

/// While work is done without a key, a frame shows how far it got this often: drawn after every slice it would take longer
/// than the work.
const FRAME: Duration = Duration::from_millis(50);

/// How it ended.
#[derive(Debug)]
pub struct Ended {
    /// The signal that asked for it.
    pub signal: Option<i32>,
    /// What is in no season file: what could not be saved to the end, and what was saved into a file that is gone.
    pub unsaved: Vec<Line>,
    /// The journals that hold it, where they could be written.
    pub journals: Vec<String>,
    /// What ended the screens where it was the terminal.
    pub terminal: Option<io::Error>,
}

/// The loop's own state.
struct Loop<'a> {
    app: &'a mut App,
    storage: &'a mut dyn Storage,
    clock: &'a dyn Clock,
    on: Option<NaiveDate>,
    start: Instant,
    saving: Saving,
    /// Something changed since the last frame was drawn.
    dirty: bool,
    /// What of the season file is read so far.
    reading: Reading,
    /// Last year's season, read beside this one.
    last_year: last_year::Beside,
    /// The thread that exchanges lines with other laptops.
    sharing: sharing::Shared,
    /// Events that came while the storage was at work, each with its time.
    later: VecDeque<(Event, Now)>,
}

/// Runs the screens until they are left.
///
/// # Errors
/// When the terminal refuses at the start. One that goes later ends the screens and is named in [`Ended`].
pub fn run(app: &mut App, storage: &mut dyn Storage, clock: &dyn Clock, on: Option<NaiveDate>) -> io::Result<Ended> {
    let mut terminal = Terminal::enter()?;
    app.model.resize(terminal.size());
    app.model.set_replayed(on.is_some());
    let start = Instant::now();
    let saving = Saving::new(storage.rescue());
    terminal.before_end(saving.last_act());
    let reading = Reading::default();
    let (last_year, sharing, later) = (last_year::Beside::default(), sharing::Shared::default(), VecDeque::new());
    let mut this = Loop { app, storage, clock, on, start, saving, dirty: true, reading, last_year, sharing, later };
    let mut effects = Vec::new();
    let left = this.until_left(&mut terminal, &mut effects);
    let signal = terminal.ended_by();
    // What was recorded in the moment the terminal went is saved like everything else.
    for effect in effects {
        if let Effect::Append(lines) | Effect::KeepPlan(lines) = effect {
            this.saving.add(lines);
        }
    }
    // While the terminal is watched: a signal still ends a save that takes too long.
    let unsaved = this.saving.last_try(this.storage);
    drop(terminal);
    Ok(Ended { signal, unsaved, journals: this.saving.paths(), terminal: left.err() })
}

/// The time as given to the screens.
pub fn time(clock: &dyn Clock, app: &App, on: Option<NaiveDate>, start: Instant) -> Now {
    let zone = app.model.season.site().map(|site| site.time_zone);
    let ms = u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX);
    Now { at: stamp(clock, zone, on), ms, id: clock.id() }
}

impl Loop<'_> {
    /// `effects`: what is asked for and not carried out yet, also where the terminal goes.
    fn until_left(&mut self, terminal: &mut Terminal, effects: &mut Vec<Effect>) -> io::Result<()> {
        let mut quits = 0_u8;
        loop {
            self.draw(terminal)?;
            if !effects.is_empty() {
                let mut due = std::mem::take(effects).into_iter();
                while let Some(effect) = due.next() {
                    if effect == Effect::Quit {
                        quits = quits.saturating_add(1);
                        if self.may_leave(quits, terminal.ended_by().is_some()) {
                            effects.extend(due);
                            return Ok(());
                        }
                        continue;
                    }
                    match self.carry_out(effect, terminal) {
                        Ok(more) => effects.extend(more),
                        Err(gone) => {
                            effects.extend(due);
                            return Err(gone);
                        }
                    }
                }
                self.dirty = true;
                self.draw(terminal)?;
            }
            let (event, now) = self.next_timed(terminal)?;
            if !matches!(event, Event::Idle) {
                quits = quits.saturating_mul(u8::from(self.saving.waits()));
            }
            effects.extend(self.app.event(event, now));
            self.dirty = true;
            if let Some(tasks) = self.saving.again(self.storage, self.start.elapsed(), RETRY) {
                effects.extend(tasks.into_iter().flat_map(|task| self.answer(task)).collect::<Vec<_>>());
            }
        }
    }

    /// The next event with its time: a key that was held back while the season was read, with the time it was pressed at,
    /// else a new one.
    fn next_timed(&mut self, terminal: &mut Terminal) -> io::Result<(Event, Now)> {
        if let Some(held) = self.app.released() {
            return Ok(held);
        }
        if let Some(late) = self.later.pop_front() {
            return Ok(late);
        }
        let event = self.next(terminal)?;
        if matches!(event, Event::Key(_) | Event::Paste(_)) {
            self.share();
            self.look();
        }
        Ok((event, time(self.clock, self.app, self.on, self.start)))
    }

    /// Draws a frame where something changed since the last one.
    fn draw(&mut self, terminal: &mut Terminal) -> io::Result<()> {
        if std::mem::take(&mut self.dirty) {
            terminal.draw(|frame| self.app.view(frame))?;
        }
        Ok(())
    }

    /// Quitting is postponed once while something is not saved.
    fn may_leave(&mut self, quits: u8, signal: bool) -> bool {
        if signal {
            return true;
        }
        let tasks = self.saving.again(self.storage, self.start.elapsed(), Duration::ZERO);
        for task in tasks.into_iter().flatten() {
            self.answer(task);
        }
        let gone = self.saving.look_for_gone(self.storage);
        if !(self.saving.waits() || gone) || quits > 1 {
            return true;
        }
        self.app.model.trouble(if gone {
            "Entries saved before are no longer in the season file. Press quit again to print them with the unsaved entries."
        } else {
            "Not everything is saved yet. Press quit again to print the unsaved entries, to import later."
        });
        false
    }

    fn carry_out(&mut self, effect: Effect, terminal: &mut Terminal) -> io::Result<Vec<Effect>> {
        let task = match effect {
            Effect::Append(lines) => {
                let tasks = self.saving.save(self.storage, lines, self.start.elapsed());
                return Ok(tasks.into_iter().flat_map(|task| self.answer(task)).collect());
            }
            Effect::KeepPlan(lines) => {
                let (fate, outcomes) = self.saving.save_plan(self.storage, &lines, self.start.elapsed());
                for outcome in outcomes {
                    self.answer(outcome);
                }
                match fate {
                    Fate::Kept => Outcome::PlanKept(lines),
                    Fate::Waiting => Outcome::PlanWaits(lines),
                    Fate::Refused(why) => Outcome::PlanNotKept(why),
                }
            }
            Effect::OpenDemo => self.opened(terminal, |storage| storage.demo())?,
            Effect::Import(path) => {
                let (at, by) = (self.app.model.now.at, self.app.model.by.clone());
                self.opened(terminal, |storage| storage.import(&path, at, &by))?
            }
            Effect::TakeRescued(journal) => {
                let (at, by) = (self.app.model.now.at, self.app.model.by.clone());
                self.opened(terminal, |storage| storage.take_rescued(&journal, at, &by))?
            }
            Effect::KeepSetting(setting) => {
                if let Err(why) = self.storage.keep_setting(&setting) {
                    self.app.model.not_kept(&setting, &why);
                }
                return Ok(Vec::new());
            }
            Effect::WriteFile(path, text) => {
                match self.storage.write_file(&path, &text) {
                    Ok(()) => self.app.model.saved_plan(format!("saved: {path}")),
                    Err(why) => self.app.model.trouble(format!("NOT SAVED: {why}")),
                }
                return Ok(Vec::new());
            }
            Effect::Share => {
                self.share_now();
                return Ok(Vec::new());
            }
            Effect::Redraw => {
                terminal.repaint()?;
                return Ok(Vec::new());
            }
            Effect::Suspend => {
                terminal.suspend()?;
                return Ok(Vec::new());
            }
            Effect::Go(_) | Effect::Quit => return Ok(Vec::new()),
        };
        Ok(self.answer(task))
    }

    /// Hands what came of an effect to the screens.
    fn answer(&mut self, outcome: Outcome) -> Vec<Effect> {
        self.count_saved(&outcome);
        self.app.answer(outcome)
    }

    fn opened(
        &mut self,
        terminal: &mut Terminal,
        open: impl FnOnce(&mut dyn Storage) -> Result<Opened, NotOpened> + Send,
    ) -> io::Result<Outcome> {
        let save = self.saving.gate().save();
        let opened = self.beside(terminal, open)?;
        drop(save);
        Ok(match opened {
            Ok(opened) => {
                self.on = opened.on.or(self.on);
                self.app.model.set_replayed(self.on.is_some());
                self.reading = Reading::default();
                self.last_year = last_year::Beside::default();
                self.sharing = sharing::Shared::default();
                Outcome::Opened { plan: opened.plan, path: opened.path, rescued: opened.rescued }
            }
            Err(why) => Outcome::NotOpened(why),
        })
    }

    /// The next event; meanwhile the season is read and assessed, a slice at a time.
    fn next(&mut self, terminal: &mut Terminal) -> io::Result<Event> {
        let mut frame = Instant::now();
        loop {
            let slice = Instant::now();
            let mut more = true;
            while more && slice.elapsed() < SLICE {
                more = self.work();
            }
            if self.app.has_held() {
                return Ok(Event::Idle);
            }
            if !more && !self.is_indexing() {
                break;
            }
            // What is done on another thread is waited for, a key ends the wait.
            match terminal.next(if more { Duration::ZERO } else { SLICE })? {
                Event::Idle if frame.elapsed() < FRAME => {}
                Event::Idle => {
                    self.draw(terminal)?;
                    frame = Instant::now();
                }
                event => return Ok(event),
            }
        }
        self.draw(terminal)?;
        let mut rested = false;
        while let Some(patience) = self.app.patience() {
            match terminal.next(if rested { Duration::ZERO } else { patience })? {
                Event::Idle => rested = true,
                event => return Ok(event),
            }
            let slice = Instant::now();
            while slice.elapsed() < SLICE && self.app.idle() {}
            self.dirty = true;
            if frame.elapsed() >= FRAME {
                self.draw(terminal)?;
                frame = Instant::now();
            }
        }
        self.draw(terminal)?;
        self.wait(terminal)
    }

    /// The next event while nothing is to be worked out; what other threads and programs did is looked for meanwhile.
    fn wait(&mut self, terminal: &mut Terminal) -> io::Result<Event> {
        if self.take_last_year() || self.share() {
            return Ok(Event::Idle);
        }
        let (patience, start) = (if self.saving.waits() { RETRY } else { CLOCK }, Instant::now());
        let mut looked = start;
        loop {
            let left = patience.saturating_sub(start.elapsed());
            let checks = self.storage.at_rest();
            if checks && self.tell_damage() {
                return Ok(Event::Idle);
            }
            let running = checks || self.last_year.is_running() || self.sharing.is_running();
            match terminal.next(left.min(if running { FRAME } else { LOOK }))? {
                Event::Idle if self.share() => {
                    self.look();
                    return Ok(Event::Idle);
                }
                Event::Idle if running && self.take_last_year() => return Ok(Event::Idle),
                Event::Idle if running && looked.elapsed() < LOOK && start.elapsed() < patience => {}
                Event::Idle if !self.look() && !self.look_at_loggers() && start.elapsed() < patience => {
                    looked = Instant::now();
                }
                event => return Ok(event),
            }
        }
    }

    /// A piece of work; false when none is left.
    fn work(&mut self) -> bool {
        self.tell_damage();
        if self.is_indexing() {
            return self.take_indexed();
        }
        if self.app.model.loaded {
            let more = self.app.idle_benches();
            self.dirty |= more;
            return more;
        }
        self.dirty = true;
        self.read();
        true
    }

    /// Says what was found wrong with the season file; false where there is nothing to be said.
    fn tell_damage(&mut self) -> bool {
        let found = self.storage.damage();
        let any = found.is_some();
        if let Some(why) = found {
            self.app.model.notice(About::File, Some(why));
            self.dirty = true;
        }
        any
    }
}
