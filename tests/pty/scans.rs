//! A scanner types the code of a label into the real program: 1 ms a character, Enter after it.

use crate::terminal::{Pty, query};
use std::time::Duration;

/// Types as a scanner does.
fn scan_in(pty: &mut Pty, code: &str) {
    for key in code.chars() {
        pty.send(&key.to_string()).pause(Duration::from_millis(1));
    }
}

/// The bench that the page shows: `Bench M7`, `Walk  M7`.
fn shows(text: &str, page: &str) -> bool {
    text.lines().next().is_some_and(|line| line.split_whitespace().take(2).eq(page.split(' ')))
}

#[test]
fn a_scanned_label_opens_its_bench_and_is_never_taken_as_scores() {
    let mut pty = Pty::demo();
    let written = "SELECT count(*) FROM written";
    let before = query(&pty.path("season.db"), written);
    let steps = [
        ("", "Round", "=M7\r", "Bench M7"),
        ("", "Bench M7", "=D1\r", "Bench D1"),
        ("e", "Evening review", "=M7\r", "Bench M7"),
        ("rw", "Walk", "=M7\r", "Walk M7"),
        ("", "Walk M7", "=M11\r", "Walk M11"),
        ("", "Walk M11", "=M7\r", "Walk M7"),
    ];
    for (keys, page, scan, bench) in steps {
        pty.send(keys);
        pty.wait(page, |text| text.starts_with(page) || shows(text, page));
        scan_in(&mut pty, scan);
        pty.wait(bench, |text| shows(text, bench) && !text.contains("code: "));
    }
    // The same as terminals deliver it that mark what comes at once as pasted.
    for (paste, bench) in [("\u{1b}[200~=D1\r\u{1b}[201~", "Walk D1"), ("\u{1b}[200~=M7\u{1b}[201~\r", "Walk M7")] {
        pty.send(paste);
        pty.wait(bench, |text| shows(text, bench) && !text.contains("code: "));
    }
    scan_in(&mut pty, "=X99\r");
    pty.wait("a word", |text| text.contains("X99 is no bench or plot of this season"));
    pty.send("\u{1b}");
    pty.wait("the card", |text| shows(text, "Walk M7") && !text.contains("code: "));
    pty.send("\u{1b}");
    pty.wait("the Round", |text| text.starts_with("Round"));
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    assert_eq!(query(&pty.path("season.db"), written), before, "no entry from a scan");
}
