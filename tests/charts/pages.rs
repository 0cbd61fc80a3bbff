//! The charts of the demo season as they stand on the screen: every topic and the season page, in Unicode and in ASCII.

use crate::{demo, last_day};
use benchwalk::app::App;
use benchwalk::input::{Event, Key, Look, Palette};
use benchwalk::limits::Limits;
use benchwalk::model::{Model, Now};
use benchwalk::season::Season;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

/// What stands on the screen after keys pressed on the last day of the demo.
fn screen(keys: &str, size: (u16, u16), ascii: bool) -> String {
    screen_of(&demo(), keys, size, ascii)
}

/// The same of a season.
pub(crate) fn screen_of(season: &Season, keys: &str, size: (u16, u16), ascii: bool) -> String {
    let now = format!("{}T07:10:00-04:00", last_day(season)).parse().unwrap();
    let stamp = Now { at: now, ms: 0, id: uuid::Uuid::from_u128(1) };
    let look = Look { color: false, ascii, palette: Palette::Usual };
    let mut model = Model::new(season, Limits::default(), "kt".into(), stamp, look);
    model.resize(size);
    let mut app = App::new(model);
    while app.idle() {}
    for (n, key) in Key::row(keys).unwrap().into_iter().enumerate() {
        app.event(Event::Key(key), Now { ms: 1000 * (n as u64 + 1), ..stamp });
    }
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
    terminal.draw(|frame| app.view(frame)).unwrap();
    let buffer = terminal.backend().buffer().clone();
    let rows = buffer.content.chunks(usize::from(size.0));
    rows.map(|row| row.iter().map(ratatui::buffer::Cell::symbol).collect::<String>().trim_end().to_owned() + "\n")
        .collect()
}

#[test]
fn every_topic_on_a_small_screen() {
    for (n, topic) in ["height", "water", "roots", "bracts", "ph", "salts", "temperature", "humidity", "climate"]
        .into_iter()
        .enumerate()
    {
        let keys = format!("{{Enter}}c{}", "{Tab}".repeat(n));
        insta::assert_snapshot!(format!("{topic}_80x24"), screen(&keys, (80, 24), false));
    }
    insta::assert_snapshot!("height_ascii", screen("{Enter}c", (80, 24), true));
    insta::assert_snapshot!("water_3_weeks_ascii", screen("{Enter}c{Tab}z", (80, 24), true));
}

#[test]
fn the_season_page() {
    for (part, keys) in [("calendar", "s"), ("nights", "s{Tab}"), ("pots", "s{Tab}{Tab}")] {
        insta::assert_snapshot!(format!("{part}_80x24"), screen(keys, (80, 24), false));
        assert!(screen(keys, (80, 24), true).is_ascii(), "{part}");
    }
}
