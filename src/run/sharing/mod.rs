//! A season that several laptops keep: its lines are exchanged on a thread of its own, so that no key and no frame waits for a folder
//! or a hub.
//!
//! What arrives is written into the season file by the thread, and read from there as what any other program writes. The thread does
//! one thing at a time and does it because it was asked to: the loop alone knows the clock.

#[cfg(test)]
mod tests;

use super::{Exchanger, Loop, Wanted};
use crate::exchange::{Gate, Sharing};
use crate::model::{Outcome, Status};
use crate::report::share;
use chrono::{DateTime, Utc};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread::JoinHandle;
use std::time::Duration;

/// What was saved goes out once nothing was saved for so long: soon enough that others hear of a closure, and not at every key of a
/// walk.
const REST: Duration = Duration::from_secs(30);
/// While one works without a rest, what was saved goes out this long after the first save of it.
const LONGEST: Duration = Duration::from_mins(2);
/// Between two exchanges that nobody asked for, at least.
const PAUSE: Duration = Duration::from_secs(5);

/// What the thread is asked for.
enum Ask {
    /// What is known without a carrier.
    State,
    /// An exchange.
    Exchange(Wanted, DateTime<Utc>),
}

/// What the thread tells.
struct Tell {
    sharing: Sharing,
    /// It goes on; else it waits to be asked again.
    more: bool,
}

/// The thread.
struct Thread {
    asks: Sender<Ask>,
    tells: Receiver<Tell>,
    handle: JoinHandle<()>,
}

/// What the thread is at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum At {
    State,
    Exchange(Wanted),
}

/// How the loop stands with it.
#[derive(Default)]
pub(super) struct Shared {
    thread: Option<Thread>,
    /// The storage was asked for an exchanger.
    begun: bool,
    at: Option<At>,
    /// Lines saved in this run.
    saved: usize,
    /// How many of them had been saved when the thread was asked last: those are in what it tells.
    counted: usize,
    /// When lines were saved that no exchange was begun after: first and last.
    fresh: Option<(Duration, Duration)>,
    /// An exchange that is to follow the present one.
    next: Option<Wanted>,
    /// When the last exchange ended.
    ended: Option<Duration>,
    /// What came of an exchange that was asked for; said once what it brought is read.
    came: Option<Result<String, String>>,
}

impl Drop for Shared {
    /// A thread that waits to be asked ends at once. One that is with a carrier is left behind: what it writes is whole or nothing.
    fn drop(&mut self) {
        let rests = self.at.is_none();
        if let Some(Thread { asks, tells, handle }) = self.thread.take() {
            drop((asks, tells));
            if rests {
                // A panic has reported itself.
                handle.join().unwrap_or_default();
            }
        }
    }
}

fn start(mut exchanger: Box<dyn Exchanger>, gate: Gate) -> Thread {
    let (asks, asked) = channel::<Ask>();
    let (tell, tells) = channel::<Tell>();
    let handle = std::thread::spawn(move || {
        for ask in asked {
            let last = match ask {
                Ask::State => Tell { sharing: exchanger.state(), more: false },
                Ask::Exchange(wanted, now) => {
                    let each = |sharing| tell.send(Tell { sharing, more: true }).unwrap_or_default();
                    Tell { sharing: exchanger.exchange(wanted, now, &gate, &each), more: false }
                }
            };
            if tell.send(last).is_err() {
                return;
            }
        }
    });
    Thread { asks, tells, handle }
}

impl Shared {
    /// Lines were saved here.
    pub(super) fn saved(&mut self, lines: usize, now: Duration) {
        if lines > 0 {
            self.saved = self.saved.saturating_add(lines);
            self.fresh = Some((self.fresh.map_or(now, |(first, _)| first), now));
        }
    }

    /// An exchange is asked for: now, or after the present one. False where there is nothing to exchange with.
    pub(super) fn ask(&mut self) -> bool {
        self.next = self.thread.is_some().then_some(Wanted::Asked);
        self.next.is_some()
    }

    /// True while the thread works.
    pub(super) const fn is_running(&self) -> bool {
        self.at.is_some()
    }

    /// What the thread has to tell, and whether an exchange ended with it.
    fn told(&mut self, now: Duration) -> Option<(Tell, Option<Wanted>)> {
        let thread = self.thread.as_ref()?;
        match thread.tells.try_recv() {
            Ok(tell) => {
                let at = if tell.more { None } else { self.at.take() };
                let ended = match at {
                    Some(At::Exchange(wanted)) => Some(wanted),
                    _ => None,
                };
                if ended.is_some() {
                    self.ended = Some(now);
                }
                Some((tell, ended))
            }
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => {
                (self.thread, self.at) = (None, None);
                None
            }
        }
    }

    /// Asks the thread for what is due, where it is not at work. `sharing` is what is known; `by_itself` is false where nothing is
    /// exchanged without being asked for.
    fn send(&mut self, sharing: Option<&Sharing>, by_itself: bool, (now, clock): (Duration, DateTime<Utc>)) {
        let Some(thread) = self.thread.as_ref().filter(|_| self.at.is_none()) else { return };
        let due = |sharing: &Sharing| sharing.carriers.iter().any(|carrier| Wanted::Due.takes(carrier, clock));
        let rested = |(first, last): (Duration, Duration)| {
            now.saturating_sub(last) >= REST || now.saturating_sub(first) >= LONGEST
        };
        let paused = self.ended.is_none_or(|ended| now.saturating_sub(ended) >= PAUSE);
        let wanted = self.next.take().or_else(|| match sharing {
            Some(_) if !by_itself || !paused => None,
            Some(_) if self.fresh.is_some_and(rested) => Some(Wanted::Saved),
            Some(sharing) if due(sharing) => Some(Wanted::Due),
            _ => None,
        });
        let (ask, at) = match wanted {
            Some(wanted) => {
                self.fresh = None;
                (Ask::Exchange(wanted, clock), At::Exchange(wanted))
            }
            None if sharing.is_none() || self.counted < self.saved => (Ask::State, At::State),
            None => return,
        };
        self.counted = self.saved;
        self.at = thread.asks.send(ask).is_ok().then_some(at);
    }
}

impl Loop<'_> {
    /// Takes what the thread has to tell and asks it for what is due; true where something is to be shown.
    pub(super) fn share(&mut self) -> bool {
        if !self.app.model.loaded && !self.sharing.begun {
            return false;
        }
        if !std::mem::replace(&mut self.sharing.begun, true) {
            let gate = self.saving.gate().clone();
            self.sharing.thread = self.storage.exchanger().map(|exchanger| start(exchanger, gate));
        }
        let now = self.start.elapsed();
        let mut shows = false;
        while let Some((tell, ended)) = self.sharing.told(now) {
            self.take_tell(tell, ended);
            shows = true;
        }
        shows |= self.say_what_came();
        let by_itself = self.app.model.exchanges_by_itself();
        let sharing = self.app.model.sharing.clone();
        self.sharing.send(sharing.as_deref(), by_itself, (now, self.clock.now()));
        self.dirty |= shows;
        shows
    }

    fn take_tell(&mut self, tell: Tell, ended: Option<Wanted>) {
        let sharing = tell.sharing;
        let asked = ended == Some(Wanted::Asked);
        let said = asked.then(|| share::exchanged(&sharing));
        let model = &mut self.app.model;
        model.set_sharing(sharing, self.clock.now());
        // What was saved since it was asked is not in its count. It is asked one thing at a time.
        model.add_unsent(self.sharing.saved.saturating_sub(self.sharing.counted));
        if said.is_some() {
            model.set_exchanging(false);
            self.sharing.came = said;
        }
    }

    /// Says what came of an exchange that was asked for, once what it brought is read: that has a word of its own, which follows.
    fn say_what_came(&mut self) -> bool {
        if self.sharing.came.is_none() || !self.app.model.loaded || self.look() {
            return false;
        }
        match self.sharing.came.take() {
            Some(Ok(said)) => {
                let brought = match &self.app.model.status {
                    Some(Status::Info(text)) if text != share::EXCHANGING => format!(" {text}"),
                    _ => String::new(),
                };
                self.app.model.say(said + &brought);
            }
            Some(Err(trouble)) => self.app.model.trouble(trouble),
            None => return false,
        }
        true
    }

    /// Exchanges because that was asked for.
    pub(super) fn share_now(&mut self) {
        let model = &mut self.app.model;
        if self.sharing.ask() {
            model.set_exchanging(true);
            model.say(share::EXCHANGING);
        }
        self.share();
    }

    /// Counts what is saved with an outcome.
    pub(super) fn count_saved(&mut self, outcome: &Outcome) {
        let lines = match outcome {
            Outcome::Saved(ids) => ids.len(),
            Outcome::PlanKept(lines) => lines.len(),
            _ => return,
        };
        self.sharing.saved(lines, self.start.elapsed());
        self.app.model.add_unsent(lines);
    }
}
