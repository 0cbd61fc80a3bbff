//! From an empty data folder to a scored first bench, in the real program, by keys alone.

use crate::terminal::{Pty, query};
use std::time::Duration;

/// One step: what is pressed, how many keys of it are more than typed names and numbers, what is waited for.
const STEPS: &[(&str, u32, &str)] = &[
    ("s", 1, "Your initials?"),
    ("kt", 0, "kt"),
    ("\r", 1, "the site's name"),
    ("Thistlecot", 0, "Thistlecot"),
    ("\ta", 2, "America/New_York"),
    ("\r", 1, "saved: site Thistlecot"),
    ("al", 2, "A new lot"),
    ("L1\tmid red\t6.5 in\t\t", 4, "suggested: from container name"),
    ("4.5\ta\t\t", 4, "suggested: usual"),
    ("240\t2026-12-18\t9", 2, "suggested: from the ready date"),
    ("\r", 1, "Lot L1 before the record began"),
    ("\t\r", 2, "No change."),
    ("ab", 2, "New benches in a row"),
    ("E1-E6\tEast", 1, "Makes 6 benches, E1 to E6"),
    ("\r", 1, "saved: benches E1 to E6"),
    ("ap", 2, "6 benches with 40 pots: 240; then 0 left"),
    ("\r", 1, "saved: L1 placed on E1 to E6, 40 pots each"),
    ("w", 1, "[water _]"),
    ("3", 1, "saved: E1 water 3"),
];

#[test]
fn from_an_empty_folder_to_a_scored_bench_in_under_sixty_keys() {
    let mut pty = Pty::start(&["--on", "2026-11-25"]);
    pty.wait("the first-run page", |text| text.contains("There is no season file yet"));
    let mut pressed = 0;
    for (keys, counted, seen) in STEPS {
        let controls = keys.chars().filter(char::is_ascii_control).count();
        assert!(usize::try_from(*counted).unwrap() >= controls, "{keys:?}: every Tab and Enter is counted");
        pty.send(keys);
        pty.wait(seen, |text| text.contains(seen));
        pressed += counted;
    }
    // Whoever counts every key that is no letter or digit of a name or number: tabs, Enter, letters picked, commands.
    assert!(pressed < 60, "{pressed} keys");
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
    let file = pty.path("data/benchwalk/season.db");
    assert_eq!(query(&file, "SELECT count(*) FROM bench_line"), ["6"]);
    assert_eq!(query(&file, "SELECT bench, level FROM water"), ["E1 3"]);
}

#[test]
fn what_was_set_up_is_there_again_and_is_changed_by_a_revision() {
    let mut pty = Pty::start(&["--season", "own.db"]);
    pty.wait("the first-run page", |text| text.contains("There is no season file yet"));
    // Nothing is written before the site is saved.
    pty.send("s");
    pty.wait("who writes", |text| text.contains("Your initials?"));
    pty.send("kt\r");
    pty.wait("the form", |text| text.contains("the site's name"));
    assert!(!pty.path("own.db").exists());
    pty.send("Thistlecot\ta\r");
    pty.wait("saved", |text| text.contains("saved: site Thistlecot"));
    // The same key at once would be one held down.
    pty.pause(Duration::from_millis(400));
    pty.send("\rThistlecotx\r");
    pty.wait("the change", |text| text.contains("saved: site Thistlecotx"));
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
    let sites = query(&pty.path("own.db"), "SELECT name FROM site_line ORDER BY rowid");
    assert_eq!(sites, ["Thistlecot", "Thistlecotx"]);
}
