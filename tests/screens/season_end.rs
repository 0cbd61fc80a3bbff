//! The season's end on the Season page: what was sold, lost, spent and used, and its file.

use crate::desk::{COLOR, Desk};
use crate::season;
use benchwalk::model::Effect;

/// An order met late, losses, and a drench whose amount nobody wrote.
const ENDED: &str = r#"{"type":"order","lot":"L1","date":"2026-10-09","pots":30}
{"type":"entry","at":"2026-10-10T09:00:00-04:00","by":"kt","bench":"E1","kind":"sold","pots":20}
{"type":"entry","at":"2026-10-10T10:00:00-04:00","by":"kt","bench":"E1","kind":"losses","pots":3,"cause":"root rot"}
{"type":"entry","at":"2026-10-10T11:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":2}],"how":"drench","rei_h":0}
"#;

/// Everything the part shows, scrolled through from its top.
fn read_through(desk: &mut Desk) -> String {
    desk.keys("{Home}");
    let mut all = desk.text();
    for _ in 0..12 {
        desk.keys("{PgDn}");
        all.push_str(&desk.text());
    }
    all
}

#[test]
fn the_season_page_says_what_the_season_came_to() {
    for size in [(80, 24), (120, 40), (190, 50)] {
        let mut desk = Desk::with(&(season::journal() + ENDED), COLOR, size);
        desk.keys("s{Shift-Tab}");
        assert!(desk.text().contains("Season  season's end"), "{}", desk.text());
        let all = read_through(&mut desk);
        for piece in [
            "Pots",
            "SHORT 10",
            "root rot",
            "Time of the round",
            "paclobutrazol, drench: 1 of 1 logged without an amount per pot",
            "Feed and water",
        ] {
            assert!(all.contains(piece), "no {piece:?} at {size:?} in\n{all}");
        }
        assert!(!all.contains('{'), "{all}");
    }
}

#[test]
fn what_is_logged_meanwhile_is_in_it_and_its_file_is_written() {
    let mut desk = Desk::with(&(season::journal() + ENDED), COLOR, (80, 24));
    desk.keys("s{Shift-Tab}h");
    assert!(desk.text().contains("Report of the season's end"), "{}", desk.text());
    desk.keys("end.html{Enter}");
    let [Effect::WriteFile(path, html)] = desk.outside.as_slice() else { panic!("{:?}", desk.outside) };
    assert!(path == "end.html" && html.contains("<h2>Sold against the orders</h2>"), "{html}");
    assert!(html.contains("SHORT 10") && html.contains("root rot"), "{html}");
}
