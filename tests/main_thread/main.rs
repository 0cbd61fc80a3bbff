//! A panic or an error of the main thread gives the terminal back, and its message can be read.
//!
//! Tests of the standard harness run in threads of their own, where the panic hook ends the program. This program has no
//! harness: started by itself in a pseudo-terminal it plays the child, which takes the terminal over and fails in `main`.
#![cfg_attr(not(unix), allow(unused, reason = "pseudo-terminals are tried on Unix only"))]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

#[path = "../common/terminal/mod.rs"]
#[cfg(unix)]
mod terminal;

use benchwalk::record::{Entry, Kind, Line, Place};
use benchwalk::session::{DemoFile, make_demo};
use benchwalk::store::Store;
use std::io;
use std::path::Path;

/// Set in the child: how it is to fail.
const HOW: &str = "BENCHWALK_TEST_FAIL";
/// What undoes each thing done to the terminal on the way in.
const GIVEN_BACK: [&str; 3] = ["\u{1b}[?1049l", "\u{1b}[?25h", "\u{1b}[?2004l"];

fn main() -> Result<(), io::Error> {
    if let Ok(how) = std::env::var(HOW) {
        return fail(&how);
    }
    #[cfg(unix)]
    for (how, code) in [("panic", 101), ("thread", 101), ("error", 1)] {
        the_terminal_is_given_back(how, code);
        println!("{how} gives the terminal back ... ok");
    }
    Ok(())
}

/// The child: an entry is saved, a frame drawn, then it fails.
fn fail(how: &str) -> Result<(), io::Error> {
    let season = Path::new("season.db");
    make_demo(DemoFile::At(season)).unwrap();
    let mut store = Store::open(season).unwrap();
    let mut terminal = benchwalk::term::Terminal::enter()?;
    terminal.draw(|frame| frame.render_widget("before", frame.area()))?;
    let entry = Entry {
        id: uuid::Uuid::from_u128(7),
        at: "2026-10-14T07:00:00-04:00".parse().unwrap(),
        by: "kt".into(),
        place: Place::Bench("M1".into()),
        plot: None,
        kind: Kind::Note {}.into(),
        note: Some("kept".into()),
    };
    store.append(&[Line::Entry(entry)]).unwrap();
    match how {
        "panic" => panic!("a bench fell over"),
        "thread" => {
            // The program ends although its main thread would go on.
            let other = std::thread::spawn(|| panic!("a bench fell over"));
            loop {
                terminal.next(std::time::Duration::from_secs(1))?;
                assert!(!other.is_finished(), "the program went on");
            }
        }
        _ => Err(io::Error::other("a bench fell over")),
    }
}

#[cfg(unix)]
fn the_terminal_is_given_back(how: &str, code: u32) {
    use terminal::{Pty, query};
    let mut command = portable_pty::CommandBuilder::new(std::env::current_exe().unwrap());
    command.env(HOW, how);
    let mut pty = Pty::run(command, (80, 24));
    let (status, _) = pty.ended();
    assert_eq!(status.exit_code(), code, "{how}: {}", pty.text());
    for mark in GIVEN_BACK {
        pty.wait_out(mark, |out| String::from_utf8_lossy(&out.raw).contains(mark));
    }
    pty.wait("the message", |text| text.contains("a bench fell over"));
    let raw = pty.raw();
    let (left, said) = (raw.rfind("?1049l").unwrap(), raw.find("a bench fell over").unwrap());
    assert!(left < said, "{how}: the message went onto the screen that is gone");
    let kept = query(&pty.path("season.db"), "SELECT count(*) FROM written WHERE note = 'kept'");
    assert_eq!(kept, ["1"], "{how}: what was saved is saved");
}
