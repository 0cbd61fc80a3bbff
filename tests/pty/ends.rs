//! Every way out gives the terminal back and loses nothing.

use crate::terminal::{Pty, is_round, program, query};
use portable_pty::CommandBuilder;
use std::time::Duration;

/// What undoes each thing done to the terminal on the way in.
const GIVEN_BACK: [&str; 3] = ["\u{1b}[?1049l", "\u{1b}[?25h", "\u{1b}[?2004l"];

fn assert_given_back(pty: &mut Pty) {
    for mark in GIVEN_BACK {
        pty.wait_out(mark, |out| String::from_utf8_lossy(&out.raw).contains(mark));
    }
}

#[test]
fn leaving_gives_the_terminal_back() {
    let mut pty = Pty::demo();
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    assert_given_back(&mut pty);
    pty.wait("where the file is", |text| text.contains("The demo season is in season.db"));
}

#[test]
fn a_signal_to_end_is_answered_with_its_own_exit_code() {
    let ends = [("TERM", 143), ("HUP", 129), ("INT", 130), ("QUIT", 131), ("USR1", 138), ("USR2", 140), ("ALRM", 142)];
    for (name, code) in ends {
        let mut pty = Pty::demo();
        pty.send("w4");
        pty.wait("saved", |text| text.contains("saved:"));
        pty.signal(name);
        let (status, _) = pty.ended();
        assert_eq!(status.exit_code(), code, "{name}");
        assert_given_back(&mut pty);
        assert_eq!(query(&pty.path("season.db"), "SELECT count(*) FROM written WHERE author = 'demo'"), ["1"]);
    }
}

#[test]
fn a_terminal_that_goes_away_ends_the_program_even_where_its_signal_is_ignored() {
    let mut command = CommandBuilder::new("sh");
    let start = format!("trap '' HUP; exec '{}' demo --season season.db", program().display());
    command.args(["-c", &start]);
    let mut pty = Pty::run(command, (80, 24));
    pty.wait("the Round", is_round);
    pty.send("w4");
    pty.wait("saved", |text| text.contains("saved:"));
    pty.hang_up("\u{1b}");
    let (status, took) = pty.ended();
    assert!(took < Duration::from_secs(3), "{took:?}");
    assert_ne!(status.exit_code(), 0);
    assert_eq!(query(&pty.path("season.db"), "PRAGMA integrity_check"), ["ok"]);
    assert_eq!(query(&pty.path("season.db"), "SELECT count(*) FROM written WHERE author = 'demo'"), ["1"]);
}

#[test]
fn suspended_it_gives_the_shell_back_and_continued_it_paints_everything() {
    for how in ["key", "signal"] {
        let mut pty = Pty::demo();
        if how == "key" {
            pty.send("\u{1a}");
        } else {
            pty.signal("TSTP");
        }
        pty.wait_state('T');
        assert_given_back(&mut pty);
        let before = pty.raw().len();
        pty.signal("CONT");
        pty.wait_out("the screen again", |out| {
            let since = String::from_utf8_lossy(&out.raw[before..]).into_owned();
            since.contains("?1049h") && since.contains("Round")
        });
        pty.send("q");
        assert_eq!(pty.ended().0.exit_code(), 0);
    }
}

/// A program that was killed leaves its page there. The grid of the tests clears it on entering; few terminals do.
#[test]
fn the_alternate_screen_is_cleared_on_entering() {
    let mut pty = Pty::demo();
    assert!(pty.raw().contains("\u{1b}[?1049h\u{1b}[2J"), "{:?}", pty.raw());
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
}

#[test]
fn a_panic_gives_the_terminal_back_and_its_message_can_be_read() {
    // This test's own program plays the child: it takes the terminal over and panics outside the main thread.
    let mut command = CommandBuilder::new(std::env::current_exe().unwrap());
    command.args(["--exact", "ends::child_that_panics", "--nocapture"]);
    command.env("BENCHWALK_TEST_PANIC", "1");
    let mut pty = Pty::run(command, (80, 24));
    let (status, _) = pty.ended();
    assert_given_back(&mut pty);
    pty.wait("the message", |text| text.contains("a bench fell over"));
    assert_eq!(status.exit_code(), 101);
}

#[test]
fn child_that_panics() {
    if std::env::var_os("BENCHWALK_TEST_PANIC").is_none() {
        return;
    }
    let mut terminal = benchwalk::term::Terminal::enter().unwrap();
    terminal.draw(|frame| frame.render_widget("before", frame.area())).unwrap();
    panic!("a bench fell over");
}

#[test]
fn a_second_program_that_writes_holds_nothing_up_for_good() {
    let mut pty = Pty::demo();
    let file = pty.path("season.db");
    let other = rusqlite::Connection::open(&file).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    pty.send("w4");
    pty.wait("not saved", |text| text.contains("1 NOT YET SAVED: another program is writing"));
    other.execute_batch("COMMIT").unwrap();
    pty.wait("saved by itself", |text| text.contains("saved:") && !text.contains("NOT YET"));
    assert_eq!(query(&file, "SELECT count(*) FROM written WHERE author = 'demo'"), ["1"]);
}

#[test]
fn leaving_with_something_unsaved_takes_two_keys_and_prints_it() {
    let mut pty = Pty::demo();
    let file = pty.path("season.db");
    let other = rusqlite::Connection::open(&file).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    pty.send("w4");
    pty.wait("not saved", |text| text.contains("NOT YET SAVED"));
    pty.send("\u{11}");
    pty.wait("the warning", |text| text.contains("Press quit again to print the unsaved entries"));
    pty.send("\u{11}");
    let (status, _) = pty.ended();
    assert_ne!(status.exit_code(), 0);
    pty.wait_out("the entry", |out| String::from_utf8_lossy(&out.raw).contains("\"kind\":\"water\""));
}
