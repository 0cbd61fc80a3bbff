//! Keys, sizes and looks that only a real terminal makes.

use crate::terminal::{DEADLINE, Out, Pty, is_round, program};
use portable_pty::CommandBuilder;
use std::time::{Duration, Instant};

#[test]
fn a_split_escape_in_a_half_typed_note_loses_nothing() {
    let mut pty = Pty::demo();
    pty.send("w");
    pty.wait("the card", |text| text.starts_with("Walk"));
    pty.send("n");
    pty.wait("the note", |text| text.contains("Note to bench"));
    pty.send("a drip");
    pty.wait("the text", |text| text.contains("> a drip"));
    // A slow line brings the arrow key in pieces.
    pty.send("\u{1b}");
    pty.wait("the card again", |text| !text.contains("Note to bench"));
    pty.send("[A");
    pty.send("n");
    pty.wait("what was typed", |text| text.contains("> a drip"));
    pty.send("\r");
    pty.wait("saved", |text| text.contains("note: a drip"));
}

#[test]
fn a_paste_is_one_clean_line() {
    let mut pty = Pty::demo();
    pty.send("wn");
    pty.wait("the note", |text| text.contains("Note to bench"));
    pty.send("\u{1b}[200~line one\rline two\tx\u{1b}[201~");
    pty.wait("the text", |text| text.contains("> line one line two x"));
    pty.send("\r");
    pty.wait("saved", |text| text.contains("note: line one line two x"));
}

#[test]
fn a_terminal_that_answers_no_question_is_never_asked_one() {
    let mut pty = Pty::demo();
    let before = pty.raw().len();
    let start = Instant::now();
    pty.send("\u{c}");
    // Everything is painted again: the title comes out a second time.
    pty.wait_out("a repaint", |out| String::from_utf8_lossy(&out.raw[before..]).contains("Round"));
    assert!(start.elapsed() < Duration::from_secs(1), "{:?}", start.elapsed());
    let raw = pty.raw();
    for question in ["\u{1b}[6n", "\u{1b}[c", "\u{1b}[?u", "\u{1b}[5n"] {
        assert!(!raw.contains(question), "asked {question:?}");
    }
    assert!(!raw.contains("?1000h") && !raw.contains("?1003h"), "the mouse is left alone");
}

#[test]
fn no_color_is_no_color() {
    let mut command = CommandBuilder::new(program());
    command.args(["demo", "--season", "season.db"]);
    command.env("NO_COLOR", "1");
    let mut pty = Pty::run(command, (80, 24));
    pty.wait("the Round", is_round);
    pty.with_screen(|screen| {
        for row in 0..24 {
            for column in 0..80 {
                let cell = screen.cell(row, column).unwrap();
                assert_eq!(
                    (cell.fgcolor(), cell.bgcolor()),
                    (vt100::Color::Default, vt100::Color::Default),
                    "{row},{column}"
                );
            }
        }
    });
}

#[test]
fn a_key_costs_few_bytes_and_every_frame_comes_in_one_piece() {
    let mut pty = Pty::demo();
    let mut costs = Vec::new();
    for (key, mark) in (0..40).map(|i| if i % 20 < 10 { ("j", i) } else { ("k", i) }) {
        let (before, frames) = (pty.raw().len(), pty.frames());
        pty.send(key);
        pty.wait_out("a frame", |out| out.frames > frames);
        pty.wait_out("its end", |out| out.raw.ends_with(b"\x1b[?2026l"));
        costs.push((pty.raw().len() - before, mark));
    }
    costs.sort_unstable();
    assert!(costs[37].0 <= 8_000, "bytes a key, and which key: {costs:?}");
    // What is drawn stands between the marks that a terminal holds back until they close.
    let raw = pty.raw();
    let (opened, closed) = (raw.matches("\u{1b}[?2026h").count(), raw.matches("\u{1b}[?2026l").count());
    assert!(opened > 40 && opened == closed, "{opened} frames opened, {closed} closed");
}

#[test]
fn a_note_of_wide_signs_leaves_every_other_column_in_its_place() {
    // A sign joined of several, one with a variation, a wide one, one with an accent of its own.
    let odd = "\u{1f469}\u{200d}\u{1f33e}\u{267b}\u{fe0f}\u{65e5}e\u{301}";
    // The title has the time of day; blanks at the end of a row are drawn or not; of the note's own row terminals disagree.
    let rows = |text: &str| -> Vec<String> {
        let others = text.lines().skip(1).filter(|line| !line.contains("note: "));
        others.map(|line| line.trim_end().to_owned()).collect()
    };
    let whole = |out: &Out| out.raw.ends_with(b"\x1b[?2026l");
    let mut pages = Vec::new();
    for note in ["plain", odd] {
        let mut pty = Pty::demo();
        // The line of what is left comes in when everything is worked out.
        pty.wait("everything worked out", |text| text.contains("Left from yesterday"));
        pty.send("wn");
        pty.wait("the note", |text| text.contains("Note to bench"));
        pty.send(&format!("\u{1b}[200~{note}\u{1b}[201~\r"));
        pty.wait("saved", |text| text.contains("saved:"));
        // The bench page has it among the records; the Round has columns.
        let mut seen = Vec::new();
        for (keys, title) in [("\u{1b}", "Round "), ("\r", "Bench ")] {
            pty.send(keys);
            pty.wait_out(title, |out| whole(out) && out.screen.screen().contents().starts_with(title));
            let drawn = rows(&pty.text());
            let before = pty.raw().len();
            pty.send("\u{c}");
            pty.wait_out("a repaint", |out| {
                whole(out) && String::from_utf8_lossy(&out.raw[before.min(out.raw.len())..]).contains(title.trim())
            });
            assert_eq!(rows(&pty.text()), drawn, "painted anew it is the same");
            seen.extend(drawn);
        }
        pages.push(seen);
    }
    assert_eq!(pages[0], pages[1]);
}

#[test]
fn a_window_without_size_waits_for_one() {
    let mut command = CommandBuilder::new(program());
    command.args(["demo", "--season", "season.db"]);
    let mut pty = Pty::run(command, (0, 0));
    pty.wait_out("the alternate screen", |out| String::from_utf8_lossy(&out.raw).contains("?1049h"));
    pty.resize(80, 24);
    pty.wait("the first frame", |text| text.contains("Round") && text.contains("M1"));
}

#[test]
fn two_hundred_keys_among_resizes_all_arrive() {
    let mut pty = Pty::demo();
    pty.send("wn");
    pty.wait("the note", |text| text.contains("Note to bench"));
    for i in 0..200_u16 {
        pty.send("x");
        pty.resize(80 + i % 2, 24);
    }
    pty.resize(80, 24);
    pty.send("\r");
    pty.wait("saved", |text| text.contains("saved:"));
    pty.send("\u{11}");
    pty.ended();
    let notes =
        crate::terminal::query(&pty.path("season.db"), "SELECT length(note) FROM written WHERE author = 'demo'");
    assert_eq!(notes, ["200"]);
}

#[test]
fn a_key_that_comes_with_a_resize_is_not_left_lying() {
    let mut pty = Pty::demo();
    pty.send("wn");
    pty.wait("the note", |text| text.contains("Note to bench"));
    for i in 0..60_usize {
        pty.resize(80 + u16::try_from(i % 4).unwrap(), 24);
        pty.send("x");
        let typed = format!("> {}", "x".repeat(i + 1));
        pty.wait("the key", |text| text.lines().any(|line| line.trim_end() == typed));
    }
}

#[test]
fn more_keys_at_once_than_are_read_at_a_time_all_arrive() {
    let mut pty = Pty::demo();
    // More than the terminal itself holds: it takes the rest only once the program has read. Ctrl-F12 has no use here.
    let many = ["\u{1b}[24;5~".repeat(1_200).as_str(), "w"].concat();
    assert!(pty.types(many.as_bytes(), DEADLINE), "the keys are not read:\n{}", pty.text());
    pty.wait("the card", |text| text.contains("0-9 score"));
}
