//! The palettes: chosen by F8 anywhere, said, and kept for the next start.

use crate::desk::{COLOR, Desk};
use benchwalk::input::Palette;
use benchwalk::model::{Effect, Setting};
use ratatui::style::Color;

/// The palettes asked to be kept, oldest first.
fn kept(desk: &Desk) -> Vec<Palette> {
    let palettes = desk.outside.iter().filter_map(|effect| match effect {
        Effect::KeepSetting(Setting::Palette(palette)) => Some(*palette),
        _ => None,
    });
    palettes.collect()
}

#[test]
fn f8_goes_through_the_palettes_and_says_which() {
    let mut desk = Desk::new();
    for palette in ["sunlight", "night", "usual"] {
        desk.keys("{F8}");
        let said = format!("Palette: {palette} (F8 changes it).");
        assert!(desk.text().contains(&said), "{}", desk.text());
    }
    assert_eq!(kept(&desk), [Palette::Sunlight, Palette::Night, Palette::Usual]);
}

/// Out in the sun half way through a form: nothing typed is lost, and the form goes on.
#[test]
fn f8_changes_the_palette_over_forms_lists_and_lines() {
    for (keys, more, seen) in [
        ("wnfound a ", "drip", "found a drip"),
        ("wm", "", "More for E1"),
        ("aa", "soap", "soap"),
        ("gl", "", "Lots"),
        ("/", "E2", "E2"),
        ("?", "", "Next palette"),
    ] {
        let mut desk = Desk::new();
        desk.keys(keys).keys("{F8}");
        assert_eq!(desk.app.model.look.palette, Palette::Sunlight, "after {keys}");
        assert!(desk.text().contains("Palette: sunlight"), "after {keys}\n{}", desk.text());
        desk.keys(more);
        if keys != "?" {
            assert!(desk.text().contains(seen), "after {keys}\n{}", desk.text());
        }
        let (buffer, _) = desk.draw();
        let sunlit = |cell: &&ratatui::buffer::Cell| cell.fg == Color::Black && cell.bg == Color::White;
        assert!(buffer.content.iter().all(|cell| sunlit(&cell)), "after {keys}");
    }
}

#[test]
fn a_palette_that_cannot_be_kept_is_said_once() {
    let mut desk = Desk::with(&crate::season::journal(), COLOR, (80, 24));
    let why = "Permission denied: config.toml";
    desk.keys("{F8}");
    desk.app.model.not_kept(&Setting::Palette(Palette::Sunlight), why);
    let text = desk.text();
    assert!(text.contains("sunlight is used until you quit; it could not be saved: Permission denied"), "{text}");
    desk.keys("{F8}");
    desk.app.model.not_kept(&Setting::Palette(Palette::Night), why);
    let text = desk.text();
    assert!(text.contains("Palette: night (F8 changes it).") && !text.contains("could not be saved"), "{text}");
}
