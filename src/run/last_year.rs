//! Last year's season, read and assessed on a thread of its own once this one is read: no frame and no key waits for it.

use super::{Loop, Storage};
use crate::compare::LastYear;
use crate::limits::Limits;
use crate::progress::{Far, Watch, watched};
use crate::season::Season;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread::JoinHandle;

/// What comes of it: the season, first without its warnings and then with them; or why it is not shown.
pub type Piece = Result<LastYear, String>;

/// Reads last year's season beside the one that is open, of which it is given the plan, and gives each piece as soon as it is there.
pub type ReadLastYear = Box<dyn FnOnce(&Season, &Limits, &dyn Fn(Piece)) + Send>;

/// How far the loop is with it.
#[derive(Debug, Default)]
pub(super) enum Beside {
    /// Nothing was asked yet.
    #[default]
    Open,
    /// The thread is at work.
    Running(Running),
    /// All is there that there will be.
    Done,
}

/// The thread; dropped, it is stopped and waited for.
#[derive(Debug)]
pub(super) struct Running {
    pieces: Receiver<Piece>,
    stopped: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stopped.store(true, Ordering::SeqCst);
        // A panic has reported itself; nothing is lost with it.
        self.thread.take().map(JoinHandle::join).and_then(Result::ok);
    }
}

/// The watch of the thread: it only says when to stop.
struct Stop(Arc<AtomicBool>);

impl Watch for Stop {
    fn begins(&self) {}
    fn at(&self, _: Far) {}
    fn ends(&self) {}
    fn is_stopped(&self) -> bool {
        self.0.load(Ordering::SeqCst)
    }
}

fn start(read: ReadLastYear, season: &Season, limits: &Limits) -> Running {
    let (sender, pieces): (Sender<Piece>, Receiver<Piece>) = channel();
    let stopped = Arc::new(AtomicBool::new(false));
    let (stop, season, limits) = (Arc::clone(&stopped), season.without_entries(), limits.clone());
    let thread = std::thread::spawn(move || {
        // Where the loop is gone, so is the need for it.
        watched(Rc::new(Stop(stop)), || read(&season, &limits, &|piece| sender.send(piece).unwrap_or_default()));
    });
    Running { pieces, stopped, thread: Some(thread) }
}

impl Beside {
    /// Begins where it was not begun; nothing is begun before the season has a site.
    pub(super) fn begin(&mut self, storage: &mut dyn Storage, season: &Season, limits: &Limits) {
        if matches!(self, Self::Open) && season.site().is_some() {
            *self = storage.last_year().map_or(Self::Done, |read| Self::Running(start(read, season, limits)));
        }
    }

    /// The next piece, where one is there.
    pub(super) fn next(&mut self) -> Option<Piece> {
        let Self::Running(running) = self else { return None };
        match running.pieces.try_recv() {
            Ok(piece) => Some(piece),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => {
                *self = Self::Done;
                None
            }
        }
    }

    /// True while something may still come.
    pub(super) const fn is_running(&self) -> bool {
        matches!(self, Self::Running(_))
    }
}

impl Loop<'_> {
    /// Begins to read last year's season where that was not begun, and takes what is there of it; true where something was.
    pub(super) fn take_last_year(&mut self) -> bool {
        if self.app.model.loaded {
            self.last_year.begin(self.storage, &self.app.model.season, &self.app.model.limits);
        }
        let piece = self.last_year.next();
        let taken = piece.is_some();
        if let Some(piece) = piece {
            self.app.set_last_year(piece);
            self.dirty = true;
        }
        taken
    }
}
