//! How far long work got, and whether it is to stop.
//!
//! Work that goes over many records counts them here ([`Work`]) without knowing where that is shown. The caller that starts it sets
//! a [`Watch`] for its thread ([`watched`]): the line on standard error, or the bar on the screens. Without a watch nothing is
//! counted. A watch is set for the thread, and not passed on as an argument, because the database looks too, from within a
//! statement (`store/connection.rs`), where no argument reaches.

use std::cell::RefCell;
use std::rc::Rc;
use thiserror::Error;

/// What is being done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Text is read as records.
    ReadJournal,
    /// The file of a climate logger is read.
    ReadLogger,
    /// Entries are read from the season file.
    ReadEntries,
    /// Records are written into the season file.
    Import,
    /// What was written is looked for in the file.
    CheckImport,
    /// Every page and row of a file is looked over.
    CheckFile,
    /// A file is copied.
    CopyFile,
    /// What is in the season file becomes this laptop's stream.
    Share,
    /// A file of an older version is written in the form of today.
    Migrate,
    /// Records are written as text.
    WriteJournal,
    /// The rules are run.
    Assess,
    /// The rules are run for every day of a season.
    AssessSeason,
    /// The season files of many sites are read, and the rules run.
    ReviewSites,
    /// The seasons of a folder or hub are fetched.
    Mirror,
}

impl Step {
    /// What is done, in words, and what is counted, if anything is.
    const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::ReadJournal => ("Reading the journal", "lines"),
            Self::ReadLogger => ("Reading the logger's file", "lines"),
            Self::ReadEntries => ("Reading the season", "entries"),
            Self::Import => ("Importing", "lines"),
            Self::CheckImport => ("Checking what was imported", "lines"),
            Self::CheckFile => ("Checking the season file", ""),
            Self::CopyFile => ("Copying the season file", ""),
            Self::Share => ("Sharing the season", "lines"),
            Self::Migrate => ("Updating the season file", "records"),
            Self::WriteJournal => ("Writing the journal", "lines"),
            Self::Assess => ("Working out the warnings", ""),
            Self::AssessSeason => ("Working out the warnings of a season", "bench days"),
            Self::ReviewSites => ("Reviewing the sites", "sites"),
            Self::Mirror => ("Fetching the seasons", "seasons"),
        }
    }
}

/// How far a step got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Far {
    /// What is being done.
    pub step: Step,
    /// Records done.
    pub done: usize,
    /// Records in all; 0 where they are not counted.
    pub of: usize,
}

impl Far {
    /// In words: `Importing: 12,000 of 87,000 lines`.
    pub fn text(&self) -> String {
        let (doing, what) = self.step.words();
        match self.of {
            0 => doing.to_owned(),
            of => format!("{doing}: {} of {} {what}", in_thousands(self.done), in_thousands(of)),
        }
    }

    /// The part that is done, hundredths; `None` where nothing is counted.
    pub fn hundredths(&self) -> Option<usize> {
        self.done.min(self.of).saturating_mul(100).checked_div(self.of)
    }
}

/// The characters of a bar: what is done, what is left.
pub const fn marks(ascii: bool) -> (char, char) {
    if ascii { ('#', '-') } else { ('━', '─') }
}

/// A bar of so many cells, drawn with a character for what is done and one for what is left.
pub fn bar(hundredths: usize, cells: usize, (done, left): (char, char)) -> String {
    let full = hundredths.min(100).saturating_mul(cells) / 100;
    (0..cells).map(|cell| if cell < full { done } else { left }).collect()
}

/// A count with a comma between thousands.
pub fn in_thousands(count: usize) -> String {
    let digits = count.to_string();
    let mut out = String::with_capacity(digits.len().saturating_mul(2));
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// The work was asked to stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("stopped")]
pub struct Stopped;

/// What looks on while work is done.
pub trait Watch {
    /// Work began that may be asked to stop.
    fn begins(&self);
    /// It got this far; called often.
    fn at(&self, far: Far);
    /// All of it is over.
    fn ends(&self);
    /// True once the work is to stop.
    fn is_stopped(&self) -> bool;
}

/// The watch of a thread, and what it looks at.
#[derive(Default)]
struct Now {
    watch: Option<Rc<dyn Watch>>,
    /// Pieces of work that are open, one in another.
    depth: usize,
    /// The step of the innermost.
    far: Option<Far>,
}

thread_local! {
    static NOW: RefCell<Now> = RefCell::default();
}

/// Does the work of this thread under a watch.
pub fn watched<T>(watch: Rc<dyn Watch>, work: impl FnOnce() -> T) -> T {
    under(Some(watch), work)
}

/// Does the work of this thread without a watch.
pub fn unwatched<T>(work: impl FnOnce() -> T) -> T {
    under(None, work)
}

fn under<T>(watch: Option<Rc<dyn Watch>>, work: impl FnOnce() -> T) -> T {
    let before = NOW.with_borrow_mut(|now| std::mem::replace(&mut now.watch, watch));
    let done = work();
    NOW.with_borrow_mut(|now| now.watch = before);
    done
}

/// True where somebody looks: only then is it worth counting how much there is to do.
pub fn is_watched() -> bool {
    NOW.with_borrow(|now| now.watch.is_some())
}

/// Fails once the work of this thread is to stop.
///
/// # Errors
/// [`Stopped`].
pub fn go_on() -> Result<(), Stopped> {
    let watch = NOW.with_borrow(|now| now.watch.clone());
    if watch.is_some_and(|watch| watch.is_stopped()) { Err(Stopped) } else { Ok(()) }
}

/// A look from within a step that counts nothing; true when it is to stop. Anywhere else work goes on to its own next count.
pub fn tick() -> bool {
    let uncounted = NOW.with_borrow(|now| now.far.filter(|far| far.of == 0));
    let Some(far) = uncounted else { return false };
    show(far);
    go_on().is_err()
}

fn show(far: Far) {
    let watch = NOW.with_borrow(|now| now.watch.clone());
    if let Some(watch) = watch {
        watch.at(far);
    }
}

/// Records between two looks.
const STRIDE: usize = 64;

/// A piece of work, from here until it is dropped.
#[derive(Debug)]
pub struct Work {
    far: Option<Far>,
    /// The step this one is a part of.
    outer: Option<Far>,
}

impl Work {
    /// Work of several steps that are shown as one: what is shown stays until its end.
    pub fn whole() -> Self {
        Self::open(None)
    }

    /// A step over so many records, 0 where they are not counted.
    pub fn begin(step: Step, of: usize) -> Self {
        Self::open(Some(Far { step, done: 0, of }))
    }

    fn open(far: Option<Far>) -> Self {
        let (outer, first) = NOW.with_borrow_mut(|now| {
            let first = (now.depth == 0).then(|| now.watch.clone()).flatten();
            now.depth = now.depth.saturating_add(1);
            (std::mem::replace(&mut now.far, far), first)
        });
        if let Some(watch) = first {
            watch.begins();
        }
        if let Some(far) = far {
            show(far);
        }
        Self { far, outer }
    }

    /// One more record is done.
    ///
    /// # Errors
    /// [`Stopped`] when the work is to stop.
    pub fn one(&mut self) -> Result<(), Stopped> {
        let Some(far) = &mut self.far else { return Ok(()) };
        far.done = far.done.saturating_add(1);
        if !far.done.is_multiple_of(STRIDE) {
            return Ok(());
        }
        show(*far);
        go_on()
    }
}

impl Work {
    /// So many records are done, of a step whose records are few and each takes long.
    ///
    /// # Errors
    /// [`Stopped`] when the work is to stop.
    pub fn reached(&mut self, done: usize) -> Result<(), Stopped> {
        let Some(far) = &mut self.far else { return Ok(()) };
        far.done = done;
        show(*far);
        go_on()
    }
}

impl Drop for Work {
    fn drop(&mut self) {
        let over = NOW.with_borrow_mut(|now| {
            now.far = self.outer;
            now.depth = now.depth.saturating_sub(1);
            (now.depth == 0).then(|| now.watch.clone()).flatten()
        });
        if let Some(watch) = over {
            watch.ends();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    /// Keeps what it saw, and stops the work after so many looks.
    #[derive(Default)]
    struct Seen {
        words: RefCell<Vec<String>>,
        left: Cell<Option<usize>>,
    }

    impl Watch for Seen {
        fn begins(&self) {
            self.words.borrow_mut().push("begins".to_owned());
        }

        fn at(&self, far: Far) {
            self.words.borrow_mut().push(far.text());
            self.left.set(self.left.get().map(|left| left.saturating_sub(1)));
        }

        fn ends(&self) {
            self.words.borrow_mut().push("ends".to_owned());
        }

        fn is_stopped(&self) -> bool {
            self.left.get() == Some(0)
        }
    }

    fn import(lines: usize) -> Result<usize, Stopped> {
        let mut work = Work::begin(Step::Import, lines);
        for _ in 0..lines {
            work.one()?;
        }
        Ok(lines)
    }

    #[test]
    fn counted_work_is_seen_and_steps_within_work_are_one_work() {
        let seen = Rc::new(Seen::default());
        let done = watched(Rc::<Seen>::clone(&seen), || {
            let _whole = Work::whole();
            // Between steps nothing is stopped: a transaction is being finished there.
            assert!(!tick());
            let checked = Work::begin(Step::CheckFile, 0);
            assert!(!tick());
            drop(checked);
            import(2 * STRIDE)
        });
        assert_eq!(done, Ok(2 * STRIDE));
        let words = [
            "begins",
            "Checking the season file",
            "Checking the season file",
            "Importing: 0 of 128 lines",
            "Importing: 64 of 128 lines",
            "Importing: 128 of 128 lines",
            "ends",
        ];
        assert_eq!(*seen.words.borrow(), words);
        assert!(!is_watched());
    }

    #[test]
    fn work_stops_where_it_is_asked_to() {
        let seen = Rc::new(Seen { left: Cell::new(Some(2)), ..Seen::default() });
        assert_eq!(watched(Rc::<Seen>::clone(&seen), || import(1000)), Err(Stopped));
        let words = ["begins", "Importing: 0 of 1,000 lines", "Importing: 64 of 1,000 lines", "ends"];
        assert_eq!(*seen.words.borrow(), words);
        assert_eq!(import(1000), Ok(1000));
    }

    #[test]
    fn a_bar_is_full_at_the_end_and_not_before() {
        let bar = |hundredths| bar(hundredths, 10, ('#', '-'));
        assert_eq!(
            [bar(0), bar(9), bar(50), bar(99), bar(100)],
            ["----------", "----------", "#####-----", "#########-", "##########"]
        );
        assert_eq!(Far { step: Step::Import, done: 3, of: 2 }.hundredths(), Some(100));
        assert_eq!(Far { step: Step::CopyFile, done: 0, of: 0 }.hundredths(), None);
    }

    #[test]
    fn thousands_have_a_comma() {
        let shown = [0, 7, 999, 1000, 12_345, 1_000_000].map(in_thousands);
        assert_eq!(shown, ["0", "7", "999", "1,000", "12,345", "1,000,000"]);
    }
}
