//! Sizes of window: at which ones a page is drawn, and what must hold at each.
//!
//! A page is drawn at the sizes where its layout changes and at 200 random ones, the same in every run; a failure names page,
//! size and seed. `BENCHWALK_SWEEP=1` draws every size up to 130 x 45, `BENCHWALK_SEED=n` takes other random ones.

use super::Desk;
use crate::rng::Rng;
use benchwalk::input::Palette;
use std::thread;

/// The largest window tried.
const MOST: (u16, u16) = (130, 45);
/// Columns and rows on both sides of a change of layout: nothing, too small, the least, the usual, wide, with a third column.
const COLUMNS: [u16; 13] = [0, 1, 39, 40, 60, 79, 80, 109, 110, MOST.0, 159, 160, 190];
const ROWS: [u16; 10] = [0, 1, 11, 12, 23, 24, 33, 34, MOST.1, 50];
/// Random sizes of each page.
const RANDOM: usize = 200;

/// Whether everything is to be tried, however long it takes.
fn is_sweep() -> bool {
    std::env::var_os("BENCHWALK_SWEEP").is_some()
}

/// How many random cases to try: a sample, or sixteen times as many in a sweep.
pub(crate) fn cases(sample: u32) -> u32 {
    if is_sweep() { 16 * sample } else { sample }
}

/// The sizes to try and the seed they were drawn from; every page draws its own.
fn sizes(name: &str) -> (u64, Vec<(u16, u16)>) {
    let all = |columns: &[u16], rows: &[u16]| -> Vec<(u16, u16)> {
        columns.iter().flat_map(|c| rows.iter().map(|r| (*c, *r))).collect()
    };
    if is_sweep() {
        return (0, all(&(0..=MOST.0).collect::<Vec<_>>(), &(0..=MOST.1).collect::<Vec<_>>()));
    }
    let seed = std::env::var("BENCHWALK_SEED").map_or(2026, |text| text.parse().expect("BENCHWALK_SEED is a number"));
    let mut rng =
        Rng::new(name.bytes().fold(seed, |sum: u64, byte| sum.wrapping_mul(31).wrapping_add(u64::from(byte))));
    let mut below = |most: u16| u16::try_from(rng.next() % (u64::from(most) + 1)).expect("a size of window");
    let random = std::iter::repeat_with(|| (below(MOST.0), below(MOST.1))).take(RANDOM);
    let mut sizes = all(&COLUMNS, &ROWS);
    sizes.extend(random);
    (seed, sizes)
}

/// Says where it was when drawing ends the program.
struct Trying<'a> {
    page: &'a str,
    size: (u16, u16),
    seed: u64,
}

impl Drop for Trying<'_> {
    #[allow(clippy::print_stderr, reason = "a test that fails says where it was")]
    fn drop(&mut self) {
        if thread::panicking() {
            eprintln!("while drawing {} at {} x {} (seed {})", self.page, self.size.0, self.size.1, self.seed);
        }
    }
}

/// Draws a page at its sizes, in one palette after the other: it never ends the program, the cursor is inside, and a window that is large enough shows something.
fn drawn_at_every_size(page: &str, mut desk: Desk) {
    let (seed, sizes) = sizes(page);
    let mut trying = Trying { page, size: (0, 0), seed };
    for ((columns, rows), palette) in sizes.into_iter().zip(Palette::ALL.into_iter().cycle()) {
        desk.app.model.set_palette(palette);
        trying.size = (columns, rows);
        desk.resize(columns, rows);
        let (buffer, cursor) = desk.draw();
        assert_eq!((buffer.area.width, buffer.area.height), (columns, rows));
        assert!(cursor.is_none_or(|at| buffer.area.contains(at)), "the cursor is outside: {cursor:?}");
        let empty = buffer.content.iter().all(|cell| cell.symbol() == " ");
        assert!(columns < 40 || rows < 12 || !empty, "nothing is shown");
    }
}

/// The same for many pages, side by side.
pub(crate) fn all_drawn_at_every_size<'a>(pages: impl IntoIterator<Item = (&'a str, Desk)>) {
    let mut pages: Vec<(&str, Desk)> = pages.into_iter().collect();
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let share = pages.len().div_ceil(threads).max(1);
    thread::scope(|scope| {
        while !pages.is_empty() {
            let part = pages.split_off(pages.len().saturating_sub(share));
            scope.spawn(|| part.into_iter().for_each(|(page, desk)| drawn_at_every_size(page, desk)));
        }
    });
}
