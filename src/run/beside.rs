//! Work on the season file that may take a while, such as an import: done on a thread of its own, while the main thread goes on
//! drawing and takes the keys.
//!
//! The storage belongs to the other thread until it is done. Esc and Ctrl-C stop the work; any other key waits for its end.

use super::{FRAME, Loop, Opened, Storage, time};
use crate::input::{Code, Event, Key};
use crate::model::NotOpened;
use crate::progress::{Far, Watch, bar, marks, watched};
use crate::term::Terminal;
use std::io;
use std::rc::Rc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Work that is over sooner shows nothing, and leaves every key to what comes after it.
const PATIENCE: Duration = Duration::from_millis(500);
/// Cells of the bar.
const BAR: usize = 10;

/// How far the work got, and whether it is to stop.
#[derive(Debug, Default)]
struct Shared {
    far: Mutex<Option<Far>>,
    stopped: AtomicBool,
}

/// The watch of the thread that works.
struct Theirs(Arc<Shared>);

impl Watch for Theirs {
    fn begins(&self) {}

    fn at(&self, far: Far) {
        *self.0.far.lock().unwrap_or_else(PoisonError::into_inner) = Some(far);
    }

    fn ends(&self) {}

    fn is_stopped(&self) -> bool {
        self.0.stopped.load(Ordering::SeqCst)
    }
}

impl Shared {
    fn stop(&self) {
        self.stopped.store(true, Ordering::SeqCst);
    }

    /// What is said of the work after so long; nothing before its time.
    fn text(&self, after: Duration, ascii: bool) -> Option<String> {
        let far = (*self.far.lock().unwrap_or_else(PoisonError::into_inner)).filter(|_| after >= PATIENCE)?;
        let bar = far.hundredths().map(|n| format!("  {} {n}%", bar(n, BAR, marks(ascii))));
        Some(format!("{}{}. Esc stops it.", far.text(), bar.unwrap_or_default()))
    }
}

fn stops(key: Key) -> bool {
    key.code == Code::Esc || key == Key::ctrl('c')
}

impl Loop<'_> {
    /// Does work on the storage that opens a season.
    ///
    /// # Errors
    /// When the terminal is gone; the work was stopped or is done then.
    pub(super) fn beside(
        &mut self,
        terminal: &mut Terminal,
        open: impl FnOnce(&mut dyn Storage) -> Result<Opened, NotOpened> + Send,
    ) -> io::Result<Result<Opened, NotOpened>> {
        let Self { app, storage, later, clock, on, start, .. } = self;
        let (shared, begun) = (Arc::new(Shared::default()), Instant::now());
        let (ends, ended) = channel::<()>();
        let mut said = None;
        let mut gone = Ok(());
        let done = std::thread::scope(|scope| {
            let theirs = Theirs(Arc::clone(&shared));
            let work = scope.spawn(move || {
                // Dropped at the end, however that comes.
                let _ends = ends;
                let theirs = theirs;
                watched(Rc::new(theirs), || open(&mut **storage))
            });
            while ended.recv_timeout(FRAME) == Err(RecvTimeoutError::Timeout) {
                let Some(text) = shared.text(begun.elapsed(), app.model.look.ascii) else { continue };
                app.model.say(text.clone());
                let drawn = if said.as_ref() == Some(&text) { Ok(()) } else { terminal.draw(|frame| app.view(frame)) };
                said = Some(text);
                match drawn.and_then(|()| terminal.next(Duration::ZERO)) {
                    Ok(Event::Idle) => {}
                    Ok(Event::Key(key)) if stops(key) => shared.stop(),
                    // Asked from outside: the terminal says so again.
                    Ok(Event::Quit) => shared.stop(),
                    Ok(event) => later.push_back((event, time(*clock, app, *on, *start))),
                    Err(error) => {
                        shared.stop();
                        gone = Err(error);
                        break;
                    }
                }
            }
            work.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        });
        if said.is_some() {
            app.model.unsay();
        }
        gone.map(|()| done)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::progress::{Step, Work};

    #[test]
    fn what_is_done_is_said_after_half_a_second() {
        let shared = Arc::new(Shared::default());
        let at = |ms| shared.text(Duration::from_millis(ms), true);
        assert_eq!(at(900), None);
        watched(Rc::new(Theirs(Arc::clone(&shared))), || {
            let mut work = Work::begin(Step::Import, 256);
            for _ in 0..64 {
                work.one().unwrap();
            }
        });
        assert_eq!(at(499), None);
        assert_eq!(at(500).as_deref(), Some("Importing: 64 of 256 lines  ##-------- 25%. Esc stops it."));
    }

    #[test]
    fn work_on_another_thread_stops_when_it_is_asked_to() {
        let shared = Arc::new(Shared::default());
        shared.stop();
        let import = |shared: &Arc<Shared>| {
            watched(Rc::new(Theirs(Arc::clone(shared))), || {
                let mut work = Work::begin(Step::Import, 256);
                (0..256).try_for_each(|_| work.one())
            })
        };
        assert!(import(&shared).is_err() && import(&Arc::default()).is_ok());
        assert!([Key::ctrl('c'), Key::new(Code::Esc)].into_iter().all(stops) && !stops(Key::ctrl('l')));
    }
}
