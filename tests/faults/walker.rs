//! Walking the round by keys: what the card asks, what is answered, what was shown as saved, and what is in the file.
#![allow(dead_code, reason = "each campaign takes what it needs")]

use crate::rng::Rng;
use crate::terminal::{Pty, is_round};
use benchwalk::record::{Entry, Kind, Line};
use benchwalk::report::entry;
use benchwalk::store::Store;
use std::collections::HashMap;
use std::path::Path;
use std::sync::{Arc, Mutex};
use uuid::Uuid;

/// Wide enough that no line below the page is cut.
pub(crate) const WIDE: (u16, u16) = (160, 40);

/// What the popup says that offers what was not saved.
pub(crate) const OFFER: &str = "Not saved when the program ended";

/// The bench and the check that are asked, read off the card: `Walk  M5`, `[water _]`.
pub(crate) fn asked(text: &str) -> Option<(String, String)> {
    let bench = card(text)?;
    let check =
        text.lines().find_map(|line| line.split_once('[')?.1.split_once(" _]"))?.0.trim_start_matches("re-check: ");
    Some((bench, check.to_owned()))
}

/// The bench whose card is open.
pub(crate) fn card(text: &str) -> Option<String> {
    Some(text.lines().next()?.strip_prefix("Walk  ")?.split(' ').next()?.to_owned())
}

/// True when the Round stands and the season is read.
pub(crate) fn at_round(text: &str) -> bool {
    text.starts_with("Round") && is_round(text)
}

/// The number of entries that the screen shows as not yet saved.
pub(crate) fn pending(text: &str) -> usize {
    let before = text.lines().next().and_then(|line| line.split_once(" NOT YET SAVED"));
    before.and_then(|(before, _)| before.rsplit(' ').next()?.parse().ok()).unwrap_or(0)
}

/// True where the screen says that nothing is left to walk.
pub(crate) fn nothing_left(text: &str) -> bool {
    let said = ["The round is done", "ll open benches walked"];
    said.iter().any(|said| text.contains(said))
}

/// The line below the page that says what was saved last.
fn saved_line(screen: &vt100::Screen) -> Option<String> {
    let (_, columns) = screen.size();
    let mut rows: Vec<String> = screen.rows(0, columns.get()).collect();
    rows.reverse();
    // In a wide window what was said stands within the rule above the hints.
    let rows = rows.into_iter().take(6);
    rows.map(|row| row.trim_matches(['\u{2500}', ' ']).to_owned())
        .find_map(|row| Some(row.strip_prefix("saved: ")?.to_owned()))
}

/// Everything a program ever showed as saved, in its order, each with the title row of that frame.
#[derive(Clone, Default)]
pub(crate) struct Shown(Arc<Mutex<Vec<(String, String)>>>);

impl Shown {
    /// Looks at every frame from now on.
    pub(crate) fn watch(&self, pty: &Pty) {
        let lines = Arc::clone(&self.0);
        let mut last = None;
        pty.observe(move |screen| {
            let now = saved_line(screen);
            if let Some(line) = now.clone().filter(|_| now != last) {
                let title = screen.rows(0, screen.size().1.get()).next().unwrap_or_default();
                lines.lock().unwrap().push((line, title));
            }
            last = now;
        });
    }

    pub(crate) fn lines(&self) -> Vec<String> {
        self.0.lock().unwrap().iter().map(|(line, _)| line.clone()).collect()
    }

    /// Each with the title row of its frame.
    pub(crate) fn with_titles(&self) -> Vec<(String, String)> {
        self.0.lock().unwrap().clone()
    }

    /// What was shown as saved and is not among these entries.
    pub(crate) fn missing(&self, entries: &[Entry], system: benchwalk::units::System) -> Vec<String> {
        let there = in_words(entries, system);
        self.lines().into_iter().filter(|shown| !is_there(shown, &there)).collect()
    }
}

/// True where the line below the page names this entry, something else said after it or not.
pub(crate) fn is(shown: &str, words: &str) -> bool {
    shown == words || shown.strip_prefix(words).is_some_and(|rest| rest.starts_with(". "))
}

/// True where everything that the line below the page names is among these entries. What was saved together stands as one:
/// "A1 A2 water 4" where it is the same, else "2 entries, the last A2 water 4".
pub(crate) fn is_there(shown: &str, words: &[String]) -> bool {
    let shown = shown.split_once(" entries, the last ").map_or(shown, |(_, last)| last);
    let parts: Vec<&str> = shown.split(' ').collect();
    (1..parts.len()).any(|codes| {
        let (codes, rest) = parts.split_at(codes);
        codes.iter().all(|code| {
            let one = format!("{code} {}", rest.join(" "));
            words.iter().any(|words| is(&one, words))
        })
    })
}

/// Entries as the line below the page names them.
pub(crate) fn in_words(entries: &[Entry], system: benchwalk::units::System) -> Vec<String> {
    let by_id: HashMap<Uuid, &Entry> = entries.iter().map(|e| (e.id, e)).collect();
    let words = |e: &Entry| {
        let what = match &*e.kind {
            Kind::Strike { entry: struck, .. } => {
                by_id.get(struck).map_or_else(String::new, |struck| format!("voided: {}", entry::line(struck, system)))
            }
            _ => entry::line(e, system),
        };
        format!("{} {what}", e.place.code())
    };
    entries.iter().map(words).collect()
}

/// The entries of a season file, read from a copy with whatever lies beside it, as after a restart of the laptop.
pub(crate) fn read(file: &Path) -> Vec<Entry> {
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("season.db");
    for suffix in ["", "-wal", "-journal"] {
        let beside = format!("{}{suffix}", file.display());
        if Path::new(&beside).exists() {
            std::fs::copy(&beside, format!("{}{suffix}", copy.display())).unwrap();
        }
    }
    let connection = rusqlite::Connection::open(&copy).unwrap();
    let said: String = connection.query_row("PRAGMA integrity_check", [], |row| row.get(0)).unwrap();
    assert_eq!(said, "ok", "{}", file.display());
    drop(connection);
    let store = Store::open(&copy).unwrap();
    store.load().unwrap().1
}

/// Begins a season file with these lines.
pub(crate) fn begin(file: &Path, lines: &[Line]) {
    let mut store = Store::create(file).unwrap();
    store.append(lines).unwrap();
    store.close().unwrap();
}

/// The keys that answer a check, the same for the same seed, day, bench and check. A digit that the check does not take goes
/// before, so that none is held back as a slip of the finger: it is refused and nothing is written.
pub(crate) fn answer(seed: u64, day: i64, bench: &str, check: &str) -> String {
    let name = bench.bytes().chain(check.bytes()).fold(0_u64, |n, byte| n.wrapping_mul(131).wrapping_add(byte.into()));
    let mut rng = Rng::new(seed ^ name.rotate_left(20) ^ day.unsigned_abs().wrapping_mul(0x9e37));
    let pick = |rng: &mut Rng, digits: &[char]| digits[usize::try_from(rng.next()).unwrap_or(0) % digits.len()];
    match check {
        "water" => format!("9{}", pick(&mut rng, &['2', '3', '4', '5', '3', '4'])),
        "base" => format!("9{}", pick(&mut rng, &['2', '3', '4', '3'])),
        "roots" => format!("9{}", pick(&mut rng, &['1', '1', '2', '1'])),
        "reach" => format!("9{}", pick(&mut rng, &['1', '2', '3'])),
        "bracts" => format!("9{}", pick(&mut rng, &['1', '2', '2', '3'])),
        "whitefly" => pick(&mut rng, &['0', '0', '8']).to_string(),
        "heights" => {
            let tenths: Vec<String> = (0..4).map(|_| format!("9.{}", rng.next() % 10)).collect();
            format!("{}\r", tenths.join(" "))
        }
        _ => panic!("the card asks for {check}"),
    }
}
