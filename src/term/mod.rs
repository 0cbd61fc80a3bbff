//! The terminal: the only user of crossterm (through ratatui). Bytes in become [`Event`]s, frames go out whole.
//!
//! However the program ends (return, error, panic in any thread, signal), the terminal is restored: see
//! `guard` and `signals`. Absent on purpose: the mouse, and any query that a terminal may leave unanswered.

#[cfg(windows)]
mod console;
mod ending;
mod events;
mod guard;
mod interrupts;
#[cfg(unix)]
mod signals;
#[cfg(windows)]
#[path = "console_events.rs"]
mod signals;

pub use guard::LastAct;
pub use interrupts::Interrupts;

use crate::input::Event;
use crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use crossterm::{event, queue};
use ratatui::Frame;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use std::io::{self, BufWriter, Stdout, Write};
use std::time::{Duration, Instant};

/// Longest wait for a key before the signals are polled.
const SLICE: Duration = Duration::from_millis(200);

/// Columns of the terminal; 80 where that is not known.
pub fn columns() -> usize {
    crossterm::terminal::size().map_or(80, |(columns, _)| usize::from(columns))
}

/// The terminal while the screens are up.
pub struct Terminal {
    inner: ratatui::Terminal<CrosstermBackend<BufWriter<Stdout>>>,
    signals: signals::Signals,
    guard: guard::Guard,
}

impl Terminal {
    /// Sets the terminal up: raw mode, alternate screen.
    ///
    /// # Errors
    /// When standard output is no terminal, or refuses.
    pub fn enter() -> io::Result<Self> {
        let signals = signals::Signals::watch()?;
        let guard = guard::Guard::enter()?;
        let inner = ratatui::Terminal::new(CrosstermBackend::new(BufWriter::new(io::stdout())))?;
        Ok(Self { inner, signals, guard })
    }

    /// Sets what is done where a signal or a panic ends the program while the main thread is held up.
    pub fn before_end(&self, act: LastAct) {
        guard::before_end(Some(act));
    }

    /// Columns and rows.
    pub fn size(&self) -> (u16, u16) {
        self.inner.size().map_or((0, 0), |size| (size.width, size.height))
    }

    /// Draws a frame and sends it out in one piece.
    ///
    /// # Errors
    /// When the terminal is gone.
    pub fn draw(&mut self, view: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        queue!(self.inner.backend_mut(), BeginSynchronizedUpdate)?;
        self.inner.draw(view)?;
        queue!(self.inner.backend_mut(), EndSynchronizedUpdate)?;
        Write::flush(self.inner.backend_mut())
    }

    /// Makes the next frame paint every cell, changed or not.
    ///
    /// # Errors
    /// When the terminal is gone.
    pub fn repaint(&mut self) -> io::Result<()> {
        let (width, height) = self.size();
        self.inner.resize(Rect::new(0, 0, width, height))
    }

    /// Restores the terminal and stops until the program is continued.
    ///
    /// # Errors
    /// When the terminal is gone.
    pub fn suspend(&mut self) -> io::Result<()> {
        self.guard.leave();
        signals::stop();
        self.back()
    }

    fn back(&mut self) -> io::Result<()> {
        self.guard.enter_again()?;
        self.repaint()
    }

    /// The next event; [`Event::Idle`] when none came in this time.
    ///
    /// # Errors
    /// When the terminal is gone.
    pub fn next(&mut self, most: Duration) -> io::Result<Event> {
        let start = Instant::now();
        loop {
            match self.signals.take() {
                Some(ending::Told::Quit) => return Ok(Event::Quit),
                Some(ending::Told::Stop) => {
                    self.suspend()?;
                    return Ok(self.resized());
                }
                Some(ending::Told::Continued) => {
                    self.back()?;
                    return Ok(self.resized());
                }
                None => {}
            }
            let left = most.saturating_sub(start.elapsed());
            if event::poll(left.min(SLICE))? {
                if let Some(event) = events::translate(event::read()?) {
                    if matches!(event, Event::Resize(..)) {
                        signals::nudge();
                    }
                    return Ok(event);
                }
                continue;
            }
            if signals::has_unread() {
                signals::nudge();
            }
            if start.elapsed() >= most {
                return Ok(Event::Idle);
            }
        }
    }

    fn resized(&self) -> Event {
        let (columns, rows) = self.size();
        Event::Resize(columns, rows)
    }

    /// The signal that asked the program to end.
    pub fn ended_by(&self) -> Option<i32> {
        self.signals.ended_by()
    }
}
