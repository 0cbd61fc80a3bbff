//! A trial set up by its form: what is proposed and why, the layout drawn, drawn again and saved; changed and ended later.

use crate::desk::{COLOR, Desk};
use benchwalk::input::Key;
use benchwalk::journal;
use benchwalk::record::{Line, Plot, Trial, codec};
use benchwalk::season::Season;

/// One lot on six benches of a house and one of another; heights that fall from bench to bench.
fn season() -> String {
    let mut lines = vec![
        r#"{"type":"site","name":"Quillby Rise","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}"#.to_owned(),
        r#"{"type":"lot","lot":"R6","cultivar":"red","container":"6 in pot","cuttings_per_pot":1,"pots":400,"planted":"2026-08-10","pinch":"soft","response_weeks":8,"nights":"natural","ready_by":"2026-12-01"}"#.to_owned(),
    ];
    for bench in 1..=7 {
        let (code, house) = if bench < 7 { (format!("M{bench}"), "Mill") } else { ("E1".to_owned(), "Orchard") };
        lines.push(format!(r#"{{"type":"bench","bench":"{code}","house":"{house}","order":{bench}}}"#));
        lines.push(format!(r#"{{"type":"placement","bench":"{code}","lot":"R6","pots":40,"from":"2026-08-10"}}"#));
    }
    for bench in 1..=6 {
        let top = 40.0 - f64::from(bench) + if bench % 2 == 0 { 0.2 } else { 0.0 };
        lines.push(format!(
            r#"{{"type":"entry","at":"2026-10-05T08:0{bench}:00-04:00","by":"kt","bench":"M{bench}","kind":"height","cm":[{top},{},{}]}}"#,
            top - 1.2,
            top - 2.4
        ));
    }
    lines.insert(0, r#"{"type":"journal","version":2}"#.to_owned());
    lines.join("\n")
}

fn desk(size: (u16, u16)) -> Desk {
    Desk::with(&season(), COLOR, size)
}

fn trial_and_plots(desk: &Desk) -> (Trial, Vec<Plot>) {
    let trial =
        desk.kept.iter().rev().find_map(|line| if let Line::Trial(trial) = line { Some(trial.clone()) } else { None });
    let plots = desk.kept.iter().filter_map(|line| if let Line::Plot(plot) = line { Some(plot.clone()) } else { None });
    (trial.unwrap(), plots.collect())
}

/// Opens the form of a new trial from set-up.
const OPEN: &str = "gat";
/// Rates, bench and grid: the least that is typed.
const TYPED: &str = "0,4,8,12{Tab}{Tab}M4{Tab}6x4";

#[test]
fn a_trial_is_set_up_drawn_drawn_again_and_saved_in_few_keys() {
    let mut desk = desk((80, 24));
    desk.keys(OPEN).keys(TYPED);
    assert!(desk.kept.is_empty());
    desk.keys("{Enter}");
    let first = desk.text();
    assert!(first.contains("The layout drawn") && first.contains("drawn once"), "{first}");
    assert!(desk.kept.is_empty(), "the layout is seen before it is saved");
    desk.keys("{F3}");
    let second = desk.text();
    assert!(second.contains("drawn 2 times") && second != first, "{second}");
    desk.keys("{Enter}");
    let (trial, plots) = trial_and_plots(&desk);
    assert_eq!((trial.trial.as_str(), trial.lot.as_str(), trial.drawn), ("T1", "R6", Some(2)));
    assert_eq!(trial.treatments, ["0 g", "4 g", "8 g", "12 g"]);
    assert_eq!((trial.rate_unit.as_deref(), trial.control.as_deref()), (Some("g per pot"), Some("0 g")));
    assert!(trial.guard && !trial.shared_feed);
    assert_eq!(plots.len(), 24);
    for block in 1..=6 {
        let mut own: Vec<&str> =
            plots.iter().filter(|p| p.block == Some(block)).map(|p| p.treatment.as_str()).collect();
        own.sort_unstable();
        assert_eq!(own, ["0 g", "12 g", "4 g", "8 g"]);
    }
    assert!(desk.text().starts_with("Setup"), "the form is closed\n{}", desk.text());
    assert!(desk.text().contains("T1"), "{}", desk.text());
    // What was kept is a sound journal, and reads as it was written.
    let text = journal::write(None, Season::of(desk.kept.clone()).plan(), &[]);
    assert_eq!(journal::read(&text).unwrap().len(), desk.kept.len());
    let keys: usize = [OPEN, TYPED, "{Enter}{F3}{Enter}"].iter().map(|row| Key::row(row).unwrap().len()).sum();
    assert_eq!(keys, 22, "keys to set up a trial of four rates in six blocks");
}

#[test]
fn own_heights_say_which_way_blocks_lie_and_how_far_pots_differ() {
    let mut desk = desk((120, 40));
    desk.keys(OPEN).keys("none,some{Tab}M1-M6{Tab}2x1{Tab}");
    let text = desk.text();
    for said in
        ["Mill on Oct 5: from M1 to M6 the pots", "Make each bench a block.", "bench to bench", "your own heights"]
    {
        assert!(text.contains(said), "{said}\n{text}");
    }
    desk.keys("{Enter}{Enter}");
    let (_, plots) = trial_and_plots(&desk);
    for bench in 1..=6_u32 {
        let code = format!("M{bench}");
        let own: Vec<&Plot> = plots.iter().filter(|plot| plot.bench == code).collect();
        assert!(own.len() == 2 && own.iter().all(|plot| plot.block == Some(bench)), "{own:?}");
    }
}

#[test]
fn without_a_spread_nothing_is_guessed_and_with_one_blocks_are_counted() {
    let mut desk = desk((120, 40));
    desk.keys(OPEN).keys("0,4,8,12{Tab}{Tab}E1{Tab}12x4{Tab}{Tab}{Tab}{Tab}1in{Tab}");
    let text = desk.text();
    assert!(text.contains("Type the spread of single pots, or read heights on a few benches first."), "{text}");
    desk.keys("0.6in{Tab}");
    let text = desk.text();
    assert!(text.contains("Blocks, and the least difference they show 4 times in 5:"), "{text}");
    assert!(text.contains("10*: 0.97;") && text.contains("shows what matters"), "{text}");
    desk.keys("{Enter}{Enter}");
    assert_eq!(trial_and_plots(&desk).1.len(), 40, "rows that no plot needs are left out");
}

#[test]
fn the_design_follows_from_the_way_growth_differs() {
    let proposed = |differs: char, grid: &str| {
        let mut desk = desk((120, 40));
        desk.keys(OPEN)
            .keys(&format!("0,4,8,12{{Tab}}{{Tab}}E1{{Tab}}{grid}{{Tab}}{{Tab}}{differs}{{Tab}}{{Enter}}{{Enter}}"));
        codec::encode(&Line::Trial(trial_and_plots(&desk).0))
    };
    assert!(proposed('d', "4x4").contains(r#""design":"latin-square""#));
    assert!(proposed('d', "6x4").contains(r#""design":"randomized-blocks""#));
    // Nobody read heights there: that nothing differs is not taken for known.
    assert!(proposed('g', "6x4").contains(r#""design":"randomized-blocks""#));
}

#[test]
fn what_cannot_be_laid_is_said_next_to_its_field_in_plots_and_places() {
    let mut desk = desk((120, 40));
    desk.keys(OPEN).keys("0,4,8,12{Tab}{Tab}M4{Tab}2x2{Enter}");
    assert!(desk.text().contains("each treatment would stand once"), "{}", desk.text());
    assert!(desk.kept.is_empty());
    desk.keys("{Esc}").keys("at");
    assert!(desk.text().contains("0,4,8,12"), "what was typed is kept for next time\n{}", desk.text());
}

#[test]
fn shared_feed_is_asked_and_said() {
    let mut desk = desk((120, 40));
    desk.keys(OPEN).keys(TYPED);
    for _ in 0..13 {
        desk.keys("{Tab}");
    }
    assert!(desk.text().contains("shared feed"), "{}", desk.text());
    desk.keys("a");
    assert!(
        desk.text().contains("Feed runs together on this bench: rates cannot differ from pot to pot."),
        "{}",
        desk.text()
    );
    desk.keys("{Enter}{Enter}");
    assert!(trial_and_plots(&desk).0.shared_feed);
}

#[test]
fn a_trial_is_changed_and_ended_early_with_the_reason() {
    let mut desk = desk((120, 40));
    desk.keys(OPEN).keys(TYPED).keys("{Enter}{Enter}");
    // Its line in set-up opens it; the layout is not asked again.
    desk.keys("{End}{Enter}");
    assert!(desk.text().contains("Change trial T1"), "{}", desk.text());
    desk.keys("{Tab}{Tab}{Tab}{Tab}{Tab}2026-10-20{Tab}slow-release by plot{Tab}sold early{Enter}");
    let (trial, plots) = trial_and_plots(&desk);
    assert_eq!(trial.ended_because.as_deref(), Some("sold early"), "{}", desk.text());
    assert_eq!((trial.until, trial.question.as_str()), (Some("2026-10-20".parse().unwrap()), "slow-release by plot"));
    assert_eq!(plots.len(), 24, "no plot is written again");
    assert_eq!(trial.revision.replaces.as_ref().map(Vec::len), Some(1));
}
