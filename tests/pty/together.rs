//! Another program at the season while the screens are open.

use crate::terminal::{Pty, program};
use std::process::Command;

/// A fog of the house of the first bench, by another scout at noon of the day before.
const FOG: &str = concat!(
    r#"{"type":"journal","version":1}"#,
    "\n",
    r#"{"type":"entry","at":"2026-10-13T12:00:00-04:00","by":"kt","house":"Mill","kind":"sprayed","ai":"pyrethrins","against":"whitefly","how":"fog","re_entry_h":60}"#,
    "\n"
);

/// Imports the fog by a command of its own.
fn import(pty: &Pty) {
    let journal = pty.path("fog.jsonl");
    std::fs::write(&journal, FOG).unwrap();
    let mut command = Command::new(program());
    command.arg("--season").arg(pty.path("season.db")).arg("import").arg(journal);
    for (name, sub) in
        [("HOME", ""), ("XDG_DATA_HOME", "data"), ("XDG_CONFIG_HOME", "config"), ("XDG_STATE_HOME", "state")]
    {
        command.env(name, pty.path(sub));
    }
    let done = command.output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
}

#[test]
fn a_fog_imported_beside_the_round_closes_its_house_before_the_next_key() {
    let mut pty = Pty::demo();
    import(&pty);
    pty.send("w");
    let text = pty.wait("a card", |text| text.starts_with("Walk"));
    assert!(text.starts_with("Walk  D"), "a bench of Mill is opened:\n{text}");
}

#[test]
fn a_fog_imported_beside_an_open_card_closes_it_without_a_key() {
    let mut pty = Pty::demo();
    pty.send("w");
    pty.wait("the card", |text| text.starts_with("Walk  M"));
    import(&pty);
    pty.wait("the card to close", |text| text.contains("CLOSED UNTIL Fri Oct 16 00:00"));
    pty.send("3");
    pty.wait("that nothing is taken", |text| text.contains("Not logged:"));
}
