//! How far a command got: one line on standard error, where that is a terminal, overwritten and cleared at the end.
//!
//! Written here rather than taken from a library: one line needs neither templates nor threads, and it is drawn from within the
//! work, where Ctrl-C is looked for too.

use crate::progress::{Far, Watch, bar, marks};
use crate::term::{Interrupts, columns};
use std::cell::{Cell, RefCell};
use std::io::{self, IsTerminal, Write};
use std::time::{Duration, Instant};

/// Work that is over sooner shows nothing.
const PATIENCE: Duration = Duration::from_millis(500);
/// Time between two drawings of one step.
const PACE: Duration = Duration::from_millis(100);
/// Cells of the bar.
const BAR: usize = 20;

/// The line.
pub struct ProgressLine {
    /// Where it is drawn; nowhere if there is no terminal.
    out: Option<RefCell<Box<dyn Write>>>,
    /// Time since some moment before the work.
    time: Box<dyn Fn() -> Duration>,
    /// Cells of a row of the terminal.
    columns: Box<dyn Fn() -> usize>,
    stops: Box<dyn Stops>,
    ascii: Cell<bool>,
    begun: Cell<Duration>,
    /// When it was last drawn, and what.
    drawn: Cell<Option<(Duration, Far)>>,
    /// Cells that are to be cleared.
    cells: Cell<usize>,
}

/// What asks work to stop.
pub trait Stops {
    /// Work begins: a signal is a wish to stop.
    fn hold(&self) {}
    /// Work is over: a signal ends the program.
    fn release(&self) {}
    /// The screens begin: signals are theirs.
    fn leave(&self) {}
    /// The signal that asked for it.
    fn asked(&self) -> Option<i32>;
}

impl Stops for Interrupts {
    fn hold(&self) {
        Self::hold(self);
    }

    fn release(&self) {
        Self::release(self);
    }

    fn leave(&self) {
        Self::leave(self);
    }

    fn asked(&self) -> Option<i32> {
        Self::asked(self)
    }
}

/// Nobody asks.
struct Never;

impl Stops for Never {
    fn asked(&self) -> Option<i32> {
        None
    }
}

impl ProgressLine {
    /// A line on this stream, by this clock.
    pub fn new(
        out: Option<Box<dyn Write>>,
        time: impl Fn() -> Duration + 'static,
        stops: impl Stops + 'static,
    ) -> Self {
        Self {
            out: out.map(RefCell::new),
            time: Box::new(time),
            columns: Box::new(|| 80),
            stops: Box::new(stops),
            ascii: Cell::new(false),
            begun: Cell::default(),
            drawn: Cell::default(),
            cells: Cell::default(),
        }
    }

    /// The line of the program: drawn where standard error is a terminal; the work stops at Ctrl-C.
    pub fn of_terminal() -> Self {
        let err = io::stderr();
        let out = err.is_terminal().then(|| Box::new(err) as Box<dyn Write>);
        let start = Instant::now();
        Self { columns: Box::new(columns), ..Self::new(out, move || start.elapsed(), Interrupts::default()) }
    }

    /// Nothing is drawn and nothing stops.
    pub fn silent() -> Self {
        Self::new(None, Duration::default, Never)
    }

    /// Draws with characters of ASCII alone.
    pub fn set_ascii(&self, ascii: bool) {
        self.ascii.set(ascii);
    }

    /// The signal that asked the work to stop.
    pub fn asked(&self) -> Option<i32> {
        self.stops.asked()
    }

    /// Leaves the signals to the screens.
    pub fn leave(&self) {
        self.stops.leave();
    }

    /// What is drawn: the words, then the bar where there is room for it.
    fn text(&self, far: &Far) -> String {
        // The last cell stays empty: some terminals go to the next row after it.
        let most = (self.columns)().saturating_sub(1);
        let words = far.text();
        let whole = far.hundredths().map(|n| format!("{words}  {} {n}%", bar(n, BAR, marks(self.ascii.get()))));
        let text = whole.filter(|whole| whole.chars().count() <= most).unwrap_or(words);
        text.chars().take(most).collect()
    }

    /// Writes over what was drawn before. Where the terminal is gone the work goes on all the same.
    fn put(&self, text: &str) {
        let Some(out) = &self.out else { return };
        let (cells, before) = (text.chars().count(), self.cells.get());
        let blanks = " ".repeat(before.saturating_sub(cells));
        let back = if cells == 0 { "\r" } else { "" };
        let mut out = out.borrow_mut();
        write!(out, "\r{text}{blanks}{back}").and_then(|()| out.flush()).ok();
        self.cells.set(cells);
    }
}

impl Watch for ProgressLine {
    fn begins(&self) {
        self.begun.set((self.time)());
        self.drawn.set(None);
        self.stops.hold();
    }

    fn at(&self, far: Far) {
        if self.out.is_none() {
            return;
        }
        let now = (self.time)();
        let is_new = match self.drawn.get() {
            None => now.saturating_sub(self.begun.get()) >= PATIENCE,
            Some((when, before)) => before.step != far.step || now.saturating_sub(when) >= PACE,
        };
        if is_new {
            self.drawn.set(Some((now, far)));
            self.put(&self.text(&far));
        }
    }

    fn ends(&self) {
        if self.cells.get() > 0 {
            self.put("");
        }
        self.stops.release();
    }

    fn is_stopped(&self) -> bool {
        self.stops.asked().is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::progress::{Step, Work, watched};
    use std::rc::Rc;

    /// What was written, where it can be read again.
    #[derive(Clone, Default)]
    struct Written(Rc<RefCell<Vec<u8>>>);

    impl Write for Written {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.0.borrow_mut().extend_from_slice(bytes);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    /// What is drawn while 256 lines are imported, each look `pace` after the one before.
    fn drawn(pace: Duration, columns: usize, ascii: bool) -> String {
        let (written, looks) = (Written::default(), Cell::new(0));
        let time = move || {
            looks.set(looks.get() + 1);
            pace * looks.get()
        };
        let line = ProgressLine::new(Some(Box::new(written.clone())), time, Never);
        let line = ProgressLine { columns: Box::new(move || columns), ..line };
        line.set_ascii(ascii);
        watched(Rc::new(line), || {
            let mut work = Work::begin(Step::Import, 256);
            for _ in 0..256 {
                work.one().unwrap();
            }
        });
        let bytes = written.0.borrow().clone();
        String::from_utf8(bytes).unwrap()
    }

    #[test]
    fn nothing_is_drawn_before_half_a_second() {
        assert_eq!(drawn(Duration::from_millis(1), 80, true), "");
        assert_eq!(drawn(Duration::from_millis(99), 80, true), "");
    }

    #[test]
    fn one_line_is_overwritten_and_cleared_at_the_end() {
        let text = drawn(Duration::from_millis(250), 80, true);
        let rows: Vec<&str> = text.split('\r').collect();
        let wanted = [
            "",
            "Importing: 64 of 256 lines  #####--------------- 25%",
            "Importing: 128 of 256 lines  ##########---------- 50%",
            "Importing: 192 of 256 lines  ###############----- 75%",
            "Importing: 256 of 256 lines  #################### 100%",
            &" ".repeat(54),
            "",
        ];
        assert_eq!(rows, wanted);
        assert!(!text.contains(['\n', '\u{1b}']));
    }

    #[test]
    fn steps_are_drawn_no_more_often_than_they_can_be_read() {
        // Looks at 0.15, 0.2, ... seconds: one of two is drawn.
        let text = drawn(Duration::from_millis(170), 80, true);
        assert_eq!(text.matches("Importing").count(), 3, "{text:?}");
    }

    #[test]
    fn a_narrow_terminal_has_the_words_alone_and_no_row_is_longer_than_it() {
        for (columns, wanted) in [(40, "Importing: 64 of 256 lines"), (20, "Importing: 64 of 25"), (0, "")] {
            let text = drawn(Duration::from_millis(250), columns, false);
            assert_eq!(text.split('\r').nth(1), Some(wanted), "{columns}");
        }
        assert!(drawn(Duration::from_secs(1), 80, false).contains("━━━━━───────────────"));
    }
}
