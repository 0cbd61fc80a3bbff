//! The Round flags a bench for what is its own; a trouble of the whole lot stands back on its rows and is counted once.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, house, instant, lot};
use benchwalk::model::Walked;
use benchwalk::record::Kind;
use benchwalk::warnings::{Warning, Whose};

/// Lot R6 on four benches, its drench forgotten; E3 soaked since October 5.
fn forgotten() -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6"));
    for (n, bench) in (1..).zip(["E1", "E2", "E3", "E4"]) {
        crop = crop.bench_in(bench, "East", n).filled(bench, "R6", 100, 0).on(bench).pinched(14);
        let waters: &[u8] = if bench == "E3" { &[5; 7] } else { &[3, 2, 4, 3, 2, 4, 3] };
        crop = crop.waters(49, waters);
    }
    crop
}

fn row(desk: &Desk, code: &str) -> String {
    let text = desk.text();
    let row = text.lines().find(|l| l.trim_start_matches(['▸', ' ']).starts_with(&format!("{code} ")));
    row.unwrap_or_else(|| panic!("no {code}\n{text}")).to_owned()
}

#[test]
fn a_trouble_of_the_lot_stands_back_on_its_rows_and_is_counted_once() {
    let mut desk = Desk::of(&forgotten().recorded(), COLOR, (120, 40));
    assert!(row(&desk, "E1").contains("lot !") && row(&desk, "E3").contains("! wet 7 d"), "{}", desk.text());
    assert!(desk.text().contains("flagged  ! 1 act  1 lot"), "{}", desk.text());
    desk.resize(100, 40);
    assert!(row(&desk, "E1").contains("lot ! "), "{}", desk.text());
    assert!(row(&desk, "E3").contains("! staying wet"), "its own comes first\n{}", desk.text());
    let text = desk.text();
    assert!(text.contains("house East  walked 0 of 4, 1 bench and 1 lot"), "{text}");
    let levels: Vec<String> = desk.app.model.levels().into_keys().map(str::to_owned).collect();
    assert!(levels.contains(&"E3".to_owned()), "{levels:?}");
    assert_eq!(desk.app.model.cache.own_worst("E1"), None);
    let cache = &desk.app.model.cache;
    let missed = |w: &Warning| cache.whose(w) == Whose::Lot("R6") && w.name.title() == "magnesium missed";
    assert!(cache.troubles().iter().any(missed), "{:?}", cache.troubles());
    desk.keys("vf");
    let text = desk.text();
    assert!(text.contains("(1 of 4 benches)") && text.contains(" E3 "), "only what is its own\n{text}");
}

#[test]
fn the_climate_of_a_house_makes_no_bench_walked() {
    let climate = Kind::Climate { day_c: Some(21.0), night_c: Some(18.0), humidity_percent: None, log: Box::default() };
    let crop = forgotten().write_at(instant((10, 12), (6, 0)), house("East"), climate);
    let desk = Desk::of(&crop.recorded(), COLOR, (80, 24));
    let summary = desk.app.model.cache.bench("E1").unwrap();
    assert_eq!((summary.walked(), summary.seen), (Walked::No, false));
    assert!(desk.text().contains("walked 0 of 4") && !desk.text().contains("partly"), "{}", desk.text());
}
