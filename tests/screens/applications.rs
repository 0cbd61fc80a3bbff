//! Who may enter when, and the application record on the Season page.

use crate::desk::{COLOR, Desk};
use benchwalk::model::Effect;
use chrono::Duration;

#[test]
fn the_page_of_a_bench_says_who_may_enter_when() {
    let mut desk = Desk::new();
    desk.keys("=e3{Enter}");
    let text = desk.text();
    assert!(text.contains("CLOSED until Mon Oct 12 08:00 (by this log; follow the posted sign)"), "{text}");
    assert!(text.contains("Until then only trained handlers may enter, and as the label says."), "{text}");
    desk.pass(Duration::hours(2));
    let text = desk.text();
    assert!(text.contains("open to everybody since Mon Oct 12 08:00 (by this log; follow the posted sign)"), "{text}");
    assert!(!text.contains("CLOSED") && !text.contains("handlers"), "{text}");
    desk.keys("=e1{Enter}");
    assert!(!desk.text().contains("open to everybody"), "never treated\n{}", desk.text());
}

/// The part of the Season page, at a size.
fn part(size: (u16, u16)) -> Desk {
    let mut desk = Desk::with(&crate::season::journal(), COLOR, size);
    desk.keys("s");
    for _ in 0..8 {
        if !desk.text().contains("[applications]") {
            desk.keys("{Tab}");
        }
    }
    desk
}

#[test]
fn the_season_page_has_the_application_record_and_writes_it() {
    for size in [(80, 24), (120, 40), (190, 50)] {
        let desk = part(size);
        let text = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
        for piece in [
            "1 treatment, with blanks marked MISSING.",
            "EPA reg. no. MISSING, ",
            "logged by kt; spray, against",
            "bench E3 (house East)",
            "40 CFR part 170",
        ] {
            assert!(text.contains(piece), "{size:?}: no {piece:?}\n{}", desk.text());
        }
    }
    let mut desk = part((80, 24));
    desk.keys("h");
    assert!(desk.text().contains("Application record") && desk.text().contains("applications.html"), "{}", desk.text());
    desk.keys("record.html{Enter}");
    match desk.outside.as_slice() {
        [Effect::WriteFile(path, html)] => assert!(path == "record.html" && html.contains("bench E3"), "{html}"),
        other => panic!("{other:?}"),
    }
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
}
