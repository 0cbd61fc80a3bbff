//! The pages in wide windows and in every palette: text and styles, which regions there are, how full they are.

use crate::desk::{ASCII, COLOR, Desk, PLAIN};
use crate::pages::PAGES;
use benchwalk::app::App;
use benchwalk::input::{Look, Palette};
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};

const DEMO: &str = include_str!("../../demo-data/demo.jsonl");
const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (190, 50)];
const WIDE: [(u16, u16); 2] = [(120, 40), (190, 50)];
/// The four pages of a day by the keys that lead to them: a bench with a warning under the cursor.
const DAY: [(&str, &str); 4] = [("round", "j"), ("walk", "jf"), ("evening", "e"), ("bench", "j{Enter}")];
/// Letters and digits on the demo's Round at 190 x 50 before it used the width: counted on the page as it was at c419ce8.
const BEFORE: usize = 789;

/// The demo on the morning of its last day, opened once for many pages.
struct Demo {
    desk: Desk,
    morning: App,
}

impl Demo {
    fn new(look: Look) -> Self {
        let mut desk = Desk::with(DEMO, look, SIZES[0]);
        desk.pass(chrono::Duration::days(2));
        let morning = desk.app.clone();
        Self { desk, morning }
    }

    /// A page by the keys that lead to it.
    fn page(&mut self, palette: Palette, size: (u16, u16), keys: &str) -> &mut Desk {
        self.desk.app = self.morning.clone();
        self.desk.app.model.set_palette(palette);
        self.desk.resize(size.0, size.1).keys(keys).settle()
    }
}

#[test]
fn the_pages_of_a_day_in_every_palette_and_size() {
    let mut demo = Demo::new(COLOR);
    for (page, keys) in DAY {
        for palette in Palette::ALL {
            for size in SIZES {
                let name = format!("{page}_{}x{}_{}", size.0, size.1, palette.name());
                insta::assert_snapshot!(name, demo.page(palette, size, keys).dump());
            }
        }
    }
}

/// The regions of each page by their headings: in every wide window, and from 160 columns on as well.
const REGIONS: [(&str, &[&str], &[&str]); 4] = [
    (
        "round",
        &["MILL", "DELL", "WATER", "HEIGHT", "LOG"],
        &["TODAY", "FLAGGED", "CLOSED", "NIGHTS", "LOTS", "CLIMATE"],
    ),
    ("walk", &["MILL", "next", "WATER", "HEIGHT", "LOG"], &["TODAY", "FLAGGED", "CLOSED"]),
    (
        "evening",
        &["in the order of the day", "FLAGGED", "DO", "WHY", "WATER", "HEIGHT"],
        &["TODAY", "NIGHTS", "LOTS", "CLIMATE"],
    ),
    ("bench", &["Log, newest first", "CHARTS", "WATER", "HEIGHT", "ROOTS", "ROOT ZONE PH"], &[]),
];

/// The pages that are divided into regions.
fn divided() -> impl Iterator<Item = (&'static str, &'static str)> {
    DAY.into_iter().filter(|(page, _)| REGIONS.iter().any(|(name, ..)| name == page))
}

#[test]
fn every_region_is_there_by_its_heading() {
    let mut demo = Demo::new(COLOR);
    for ((page, wide, widest), (_, keys)) in REGIONS.into_iter().zip(divided()) {
        for size in WIDE {
            let text = demo.page(Palette::Usual, size, keys).text();
            let more = if size.0 >= 160 { widest } else { &[] };
            for heading in wide.iter().chain(more) {
                assert!(text.contains(heading), "{page} at {size:?}: no {heading}\n{text}");
            }
            assert!(text.contains('\u{2502}'), "{page} at {size:?}: no rule between regions\n{text}");
        }
    }
}

/// The rows of the regions of a page: those between the title row and the rule above the hints, divided at the upright rules.
/// Blanks at the ends of a row are not inside it.
fn region_rows(buffer: &Buffer) -> Vec<String> {
    let rows = buffer.content.chunks(usize::from(buffer.area.width));
    let rows: Vec<String> = rows.map(|row| row.iter().map(Cell::symbol).collect()).collect();
    let body = rows.iter().skip(1).take(rows.len().saturating_sub(3));
    body.flat_map(|row| row.split('\u{2502}').map(|part| part.trim().to_owned()).collect::<Vec<_>>()).collect()
}

/// True for a row of a chart: its place across is a day, so its blanks say something.
fn is_chart(row: &str) -> bool {
    row.contains('|') || row.contains("+-") || row.chars().any(|c| ('\u{2800}'..='\u{28ff}').contains(&c))
}

#[test]
fn no_long_run_of_blanks_stands_inside_a_row_of_a_region() {
    let mut demo = Demo::new(COLOR);
    for (page, keys) in divided() {
        for size in WIDE {
            let desk = demo.page(Palette::Usual, size, keys);
            let rows = region_rows(&desk.draw().0);
            // Under a chart stand its days.
            let under = |at: usize| at > 0 && is_chart(&rows[at - 1]);
            let long = |(at, row): &(usize, &String)| {
                row.contains(&" ".repeat(21)) && !is_chart(row) && !under(*at) && !is_days(row)
            };
            let found: Vec<&String> = rows.iter().enumerate().filter(long).map(|(_, row)| row).collect();
            assert!(found.is_empty(), "{page} at {size:?}: {found:#?}\n{}", desk.text());
        }
    }
}

/// True for the days under a chart: each is a month and a number.
fn is_days(row: &str) -> bool {
    let words: Vec<&str> = row.split_whitespace().collect();
    words.len() > 1
        && words.chunks(2).all(|pair| matches!(pair, [month, day] if month.len() == 3 && day.parse::<u8>().is_ok()))
}

#[test]
fn the_round_says_at_least_twice_as_much_as_before_it_used_the_width() {
    let text = Demo::new(COLOR).page(Palette::Usual, (190, 50), "").text();
    let now = text.chars().filter(|c| c.is_alphanumeric()).count();
    assert!(now >= 2 * BEFORE, "{now} letters and digits, {BEFORE} before\n{text}");
}

/// The longest run of cells in a row that a test holds for, blanks around words left out.
fn longest(buffer: &Buffer, holds: impl Fn(&Cell) -> bool) -> (usize, String) {
    let mut longest = (0, String::new());
    for row in buffer.content.chunks(usize::from(buffer.area.width.max(1))) {
        let mut run = String::new();
        for cell in row {
            if holds(cell) {
                run.push_str(cell.symbol());
            } else {
                run.clear();
            }
            if run.chars().count() > longest.0 {
                longest = (run.chars().count(), run.clone());
            }
        }
    }
    longest
}

/// Popups and pages beside those of [`PAGES`].
const MORE: [(&str, &str); 6] =
    [("form", "ad"), ("checks", "wm"), ("find", "/"), ("set-up", "g"), ("plan form", "g{Enter}"), ("mixing", "i")];

/// Every page and popup in a palette, at the three sizes.
fn each(demo: &mut Demo, palette: Palette, check: impl Fn(&str, (u16, u16), &Desk)) {
    for (page, keys) in DAY.into_iter().chain(PAGES).chain(MORE) {
        let desk = demo.page(palette, SIZES[0], keys);
        for size in SIZES {
            desk.resize(size.0, size.1);
            check(page, size, desk);
        }
    }
}

#[test]
fn sunlight_is_black_on_white_and_never_dim() {
    each(&mut Demo::new(COLOR), Palette::Sunlight, |page, size, desk| {
        let right = |cell: &Cell| cell.fg == Color::Black && cell.bg == Color::White;
        let (buffer, _) = desk.draw();
        assert!(buffer.content.iter().all(right), "{page} at {size:?}\n{}", desk.text());
        assert!(buffer.content.iter().all(|cell| !cell.modifier.contains(Modifier::DIM)), "{page} at {size:?}");
    });
}

#[test]
fn night_has_no_bold_and_nothing_reversed_beyond_a_word() {
    each(&mut Demo::new(COLOR), Palette::Night, |page, size, desk| {
        let (buffer, _) = desk.draw();
        let bold = longest(&buffer, |cell| cell.modifier.contains(Modifier::BOLD));
        assert_eq!(bold.0, 0, "{page} at {size:?}: bold {:?}", bold.1);
        let (_, run) = longest(&buffer, |cell| cell.modifier.contains(Modifier::REVERSED));
        assert!(!run.trim().contains(' ') && run.chars().count() <= 12, "{page} at {size:?}: reversed {run:?}");
        let quiet =
            |cell: &Cell| matches!(cell.fg, Color::Red | Color::Gray | Color::DarkGray) && cell.bg == Color::Black;
        assert!(buffer.content.iter().all(quiet), "{page} at {size:?}\n{}", desk.dump());
    });
}

#[test]
fn without_colors_no_palette_has_any() {
    let mut demo = Demo::new(PLAIN);
    for palette in Palette::ALL {
        each(&mut demo, palette, |page, size, desk| {
            let bare = |cell: &Cell| cell.fg == Color::Reset && cell.bg == Color::Reset;
            assert!(desk.draw().0.content.iter().all(bare), "{page} at {size:?} in {palette:?}");
        });
    }
}

#[test]
fn every_palette_says_the_same_in_the_same_places() {
    let mut demo = Demo::new(COLOR);
    for (page, keys) in DAY {
        for size in SIZES {
            let [usual, sunlight, night] = Palette::ALL.map(|palette| demo.page(palette, size, keys).text());
            assert_eq!(usual, sunlight, "{page} at {size:?}");
            assert_eq!(usual, night, "{page} at {size:?}");
        }
    }
}

#[test]
fn in_ascii_every_sign_of_a_wide_page_is_ascii() {
    let mut demo = Demo::new(ASCII);
    for (page, keys) in DAY.into_iter().chain(PAGES) {
        for size in WIDE {
            let text = demo.page(Palette::Usual, size, keys).text();
            assert!(text.is_ascii(), "{page} at {size:?}\n{text}");
        }
    }
}

#[test]
fn in_a_wide_window_the_hints_stand_on_one_row_under_a_rule() {
    let mut demo = Demo::new(COLOR);
    for (page, keys) in DAY {
        for size in WIDE {
            let text = demo.page(Palette::Usual, size, keys).text();
            let rows: Vec<&str> = text.lines().collect();
            let [.., rule, hints] = rows.as_slice() else { panic!("{text}") };
            assert!(
                rule.starts_with("\u{2500}\u{2500}") || rule.starts_with("\u{2500} "),
                "{page} at {size:?}\n{text}"
            );
            assert!(hints.ends_with("? keys"), "{page} at {size:?}\n{text}");
        }
    }
}
