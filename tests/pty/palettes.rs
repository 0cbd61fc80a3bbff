//! The palette in a real terminal: chosen by F8, there again at the next start, and harmless where it cannot be kept.

use crate::terminal::{Pty, Start};
use std::path::Path;

const F8: &str = "\u{1b}[19~";

fn start(folder: &Path, arguments: &[&str]) -> Pty {
    let mut pty = Pty::start_as(Start { folder: Some(folder), ..Start::default() }, arguments);
    pty.wait_round();
    pty
}

/// The background of the first cell.
fn ground(pty: &Pty) -> vt100::Color {
    pty.with_screen(|screen| screen.cell(0, 0).map_or(vt100::Color::Default, vt100::Cell::bgcolor))
}

fn leave(mut pty: Pty) {
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
}

#[test]
fn the_palette_chosen_by_f8_is_there_at_the_next_start() {
    let folder = tempfile::tempdir().unwrap();
    let config = folder.path().join("config/benchwalk/config.toml");
    let mut pty = start(folder.path(), &["demo", "--season", "season.db"]);
    assert_eq!(ground(&pty), vt100::Color::Default);
    pty.send(F8);
    pty.wait("sunlight", |text| text.contains("Palette: sunlight (F8 changes it)."));
    assert_eq!(ground(&pty), vt100::Color::Idx(15));
    // Over a form nothing of it is lost.
    pty.send("a");
    pty.wait("the kinds", |text| text.contains("watered"));
    pty.send("b");
    pty.wait("a form", |text| text.contains("Enter save"));
    pty.send("drip");
    pty.wait("what is typed", |text| text.contains("drip"));
    pty.send(F8);
    pty.wait("night", |text| text.contains("Palette: night (F8 changes it).") && text.contains("drip"));
    pty.send("\u{1b}");
    pty.wait("the Round", |text| !text.contains("Enter save"));
    leave(pty);
    let kept = std::fs::read_to_string(&config).unwrap();
    assert!(kept.contains("palette = \"night\""), "{kept}");
    let pty = start(folder.path(), &["--season", "season.db"]);
    assert_eq!(ground(&pty), vt100::Color::Idx(0));
    leave(pty);
}

#[test]
fn where_the_config_folder_cannot_be_written_it_is_said_once() {
    let folder = tempfile::tempdir().unwrap();
    // A file where the folder belongs: nobody can write below it, not even the superuser.
    std::fs::create_dir_all(folder.path().join("config")).unwrap();
    let mut pty = start(folder.path(), &["demo", "--season", "season.db"]);
    std::fs::remove_dir_all(folder.path().join("config")).unwrap();
    std::fs::write(folder.path().join("config"), "").unwrap();
    pty.send(F8);
    pty.wait("why it is not kept", |text| text.contains("sunlight is used until you quit; it could not be saved"));
    pty.send(F8);
    pty.wait("the next one", |text| text.contains("Palette: night") && !text.contains("could not be saved"));
    leave(pty);
}
