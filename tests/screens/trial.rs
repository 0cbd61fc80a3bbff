//! The Trial page: where plots stand, which treatments are told apart, what position explains; the treatments given, a reading voided, the
//! trial ended, its result kept for next season.

use crate::desk::{ASCII, COLOR, Desk, PLAIN, all_drawn_at_every_size, same_in_every_dress};
use crate::season::{Crop, bench, date, entry, instant, lot};
use benchwalk::input::Look;
use benchwalk::keys::Context;
use benchwalk::limits::Limits;
use benchwalk::model::{Effect, Outcome};
use benchwalk::record::{Design, Entry, Kind, KindName, Line, Lot, Plot, Revision, Trial, TrialReading};
use benchwalk::season::Season;
use chrono::{Duration, NaiveDate};

const SETS: &str = include_str!("../outside/trial-sets.json");

fn trial(code: &str) -> Trial {
    Trial {
        trial: code.into(),
        lot: "R6".into(),
        question: "slow-release rate".into(),
        treatments: ["0 g", "4 g", "8 g", "12 g"].map(str::to_owned).to_vec(),
        rates: Some(vec![0.0, 4.0, 8.0, 12.0]),
        rate_unit: Some("g per pot".into()),
        control: Some("0 g".into()),
        design: Design::RandomizedBlocks,
        seed: Some("48213907".into()),
        drawn: None,
        reads: vec![TrialReading::Height, TrialReading::Greenness],
        every_days: Some(7),
        from: date(9, 7),
        until: Some(date(11, 20)),
        matters: None,
        guard: false,
        near_side: Some("aisle".into()),
        far_side: Some("wall".into()),
        shared_feed: false,
        ended_because: None,
        revision: Revision::number(1),
    }
}

/// The plots of the set, with their heights.
fn plots(code: &str) -> Vec<(Plot, f64)> {
    let sets: serde_json::Value = serde_json::from_str(SETS).unwrap();
    let set = sets["sets"].as_array().unwrap().iter().find(|set| set["id"] == "trial-t1").unwrap();
    let plot = |row: &serde_json::Value| {
        let whole = |at: usize| u32::try_from(row[at].as_u64().unwrap()).unwrap();
        let plot = Plot {
            plot: format!("{code}.{}", whole(0)),
            trial: code.into(),
            bench: "M4".into(),
            row: whole(1),
            column: whole(2) + if code == "T1" { 0 } else { 10 },
            block: Some(whole(1)),
            treatment: format!("{} g", whole(3)),
            pots: 1,
            revision: Revision::number(1),
        };
        (plot, row[4].as_f64().unwrap())
    };
    set["data"].as_array().unwrap().iter().map(plot).collect()
}

/// The heights of the trial's plots on a day, all higher by so much.
fn heights(on: NaiveDate, first: u128, more: f64) -> Vec<Line> {
    let one = |(n, (plot, cm)): (usize, (Plot, f64))| {
        let id = first + u128::try_from(n).unwrap();
        let height = Kind::Height { cm: vec![cm + more] };
        Line::Entry(Entry { plot: Some(plot.plot.into()), ..entry(id, instant(on, (7, 0)), bench("M4"), height) })
    };
    plots("T1").into_iter().enumerate().map(one).collect()
}

/// The bench with its lot, and the trials of these codes on it.
fn season(codes: &[&str], more: Vec<Line>) -> Season {
    let young = Lot { pots: 200, ..lot("R6") };
    let crop = Crop::bare().with_lot(young).bench_in("M4", "Mill", 1).filled("M4", "R6", 80, (8, 17));
    let mut lines = crop.lines();
    for code in codes {
        lines.push(Line::Trial(trial(code)));
        lines.extend(plots(code).into_iter().map(|(plot, _)| Line::Plot(plot)));
    }
    lines.extend(more);
    Season::of(lines)
}

fn desk_as(look: Look, codes: &[&str], more: Vec<Line>) -> Desk {
    Desk::by(&season(codes, more), limits(), look, (80, 24))
}

/// Ninety-nine deals: as good as ten thousand for what is tried here, and done in a moment.
fn limits() -> Limits {
    Limits::parse("[trial]\nshuffles = 99\n").unwrap()
}

/// The desk on a trial read once.
pub(crate) fn read() -> Desk {
    let mut desk = desk_as(COLOR, &["T1"], heights(date(10, 12), 500, 0.0));
    desk.keys("t");
    desk
}

fn has(desk: &Desk, wanted: &[&str]) {
    let text = desk.text();
    for wanted in wanted {
        assert!(text.contains(wanted), "no {wanted:?} in\n{text}");
    }
}

/// The last line of the plan that was kept.
fn kept_line(desk: &Desk) -> &Line {
    desk.kept.last().unwrap()
}

#[test]
fn a_grower_reads_which_rates_are_told_apart_and_what_position_explains() {
    let mut desk = Desk::of(&season(&["T1"], heights(date(10, 12), 500, 0.0)), COLOR, (80, 24));
    desk.keys("t");
    has(
        &desk,
        &[
            "Trial T1  means",
            "slow-release rate, R6 on M4   24 plots, 6 blocks of 4   height (in), Oct 12",
            "treatment    mean   95% interval",
            "14.6   14.0 to 15.2",
            "Told apart (all pairs, 95% together):",
            " 12 g is 3.1 in taller than 0 g (2.0 to 4.3)",
            " 12 g is 1.7 in taller than 4 g (0.6 to 2.9)",
            " 8 g is 2.5 in taller than 0 g (1.3 to 3.6)",
            " 4 g is 1.4 in taller than 0 g (0.2 to 2.5)",
            "Not told apart: 8 g and 4 g, 12 g and 8 g",
            "Position explains a quarter of the spread, treatment 62%, the rest 13%.",
            "With 6 blocks a difference under 1.5 in would often have been missed.",
            "Up to 12 g more gives more: no rate was found beyond which it does nothing.",
            "By reshuffling: 1 in 10,000. Checks: nothing speaks.",
        ],
    );
    // The intervals are drawn, the lowest mean left of the highest.
    let text = desk.text();
    let drawn =
        |name: &str| text.lines().find(|line| line.trim_start().starts_with(name)).unwrap().find("-o-").unwrap();
    assert!(drawn("0 g") < drawn("4 g") && drawn("8 g") < drawn("12 g"), "{text}");
}

#[test]
fn the_parts_show_the_places_the_response_the_position_the_checks_and_the_entries() {
    let mut desk = read();
    has(
        desk.keys("{Tab}"),
        &["Trial T1  response", "Up to 12 g more gives more", "straight line p under 0.001", "o mean   . plot"],
    );
    has(
        desk.keys("{Tab}"),
        &["Trial T1  position", "Position explains a quarter", "in walking order", "No gradient is left over"],
    );
    has(desk.keys("{Tab}"), &["Trial T1  checks", "odd plot", "nothing speaks", "expected"]);
    has(desk.keys("{Tab}"), &["Trial T1  readings", "height, plots read: Oct 12 24 of 24*", "plot 24, 12 g"]);
    has(
        desk.keys("{Tab}"),
        &["Trial T1  layout", "bench M4", "aisle", "wall", "row 1", "block 1", "12 g: plots 3,", "not yet logged"],
    );
    has(desk.keys("{Tab}"), &["Trial T1  means"]);
    has(desk.keys("{Shift-Tab}"), &["Trial T1  layout"]);
}

#[test]
fn another_day_and_another_reading_are_a_key_away() {
    let lines = [heights(date(10, 5), 400, -4.0), heights(date(10, 12), 500, 0.0)].concat();
    let mut desk = desk_as(COLOR, &["T1"], lines);
    has(desk.keys("t"), &["height (in), Oct 12", "14.0 to 15.2"]);
    has(desk.keys(","), &["height (in), Oct 5", "12.4 to 13.6"]);
    has(desk.keys(","), &["This is the first day read."]);
    has(desk.keys(".."), &["height (in), Oct 12", "This is the last day read."]);
    has(desk.keys("z"), &["Growth needs three days of readings."]);
    has(desk.keys("v"), &["Reading: greenness.", "greenness"]);
    has(desk.keys("v"), &["Reading: height.", "14.0 to 15.2"]);
    has(desk.keys("m"), &["No reading of every plot before the treatment."]);
}

#[test]
fn growth_over_three_days_is_a_reading_of_its_own() {
    let days = [(date(9, 28), 300, -8.0), (date(10, 5), 400, -4.0), (date(10, 12), 500, 0.0)];
    let lines = days.into_iter().flat_map(|(day, id, more)| heights(day, id, more)).collect();
    let mut desk = desk_as(COLOR, &["T1"], lines);
    has(desk.keys("tz"), &["growth in height", "Sep 28 to Oct 12"]);
    has(desk.keys(","), &["height (in), Oct 12"]);
}

#[test]
fn the_other_comparisons_are_shown_as_such() {
    let mut desk = read();
    has(desk.keys("o"), &["Not the trial's own comparisons:", "Told apart (each with 0 g, 95% together):"]);
    assert!(!desk.text().contains("taller than 4 g"), "{}", desk.text());
    has(desk.keys("o"), &["Told apart (all pairs, 95% together):"]);
}

#[test]
fn the_treatments_are_logged_as_given_all_at_once_after_one_question() {
    let mut desk = desk_as(COLOR, &["T1"], Vec::new());
    has(
        desk.keys("t"),
        &["Trial T1  layout", "12 g: plots 3, 7, 11, 13, 20, 24; not yet logged as given", "0 g: plots"],
    );
    has(
        desk.keys("w"),
        &[
            "log the treatments as given?",
            "12 g: plots 3, 7, 11, 13, 20, 24; 6 pots, 72 g",
            "To weigh out in all: 144 g.",
        ],
    );
    assert_eq!(desk.app.context(), Context::Giving);
    assert!(desk.written().is_empty());
    desk.keys("{Enter}");
    let topdressed: Vec<(&str, f64)> = desk
        .kept
        .iter()
        .filter_map(|line| {
            let Line::Entry(Entry { plot: Some(plot), kind, .. }) = line else { return None };
            if let Kind::Topdressed { g_per_pot, .. } = &**kind { Some((&**plot, *g_per_pot)) } else { None }
        })
        .collect();
    // Plots without any are not written: nothing was given there.
    assert_eq!(topdressed.len(), 18);
    assert!(topdressed.contains(&("T1.3", 12.0)) && !topdressed.iter().any(|(plot, _)| *plot == "T1.4"));
    has(&desk, &["12 g: plots 3, 7, 11, 13, 20, 24; given Oct 12"]);
    has(desk.keys("w"), &["Every treatment is logged as given."]);
    // One undo takes all of them back.
    has(desk.keys("u"), &["not yet logged as given"]);
}

#[test]
fn other_treatments_are_logged_as_notes_of_their_plots() {
    let mut lines = season(&["T1"], Vec::new()).plan().lines();
    for line in &mut lines {
        if let Line::Trial(trial) = line {
            trial.rate_unit = Some("ppm".into());
        }
    }
    let mut desk = Desk::by(&Season::of(lines), limits(), COLOR, (80, 24));
    has(desk.keys("tw"), &["Each plot gets a note with its treatment."]);
    desk.keys("{Enter}");
    assert_eq!(desk.written().len(), 18);
    assert!(desk.written()[0].contains("treatment given: "), "{:?}", desk.written());
    has(desk.keys("w"), &["Every treatment is logged as given."]);
    has(desk.keys("d"), &["Only rates in g per pot can be kept"]);
}

#[test]
fn a_rate_is_kept_as_next_seasons_slow_release_with_the_trial_as_its_basis() {
    let mut desk = read();
    has(
        desk.keys("d"),
        &["Next season: slow-release for lot R6, by trial T1", "a  use 0 g per pot", "c  use 8 g per pot"],
    );
    desk.keys("c");
    let Line::Lot(lot) = kept_line(&desk) else { panic!("{:?}", kept_line(&desk)) };
    assert_eq!((lot.next_release_g, lot.next_release_basis.as_deref()), (Some(8.0), Some("trial T1, 8 g")));
    let text = desk.resize(120, 40).keys("g").text();
    assert!(text.contains("Trials") && text.contains("T1"), "{text}");
    has(desk.keys("{End}"), &["slow-release rate", "TRIAL T1", "24", "8 g (trial T1, 8 g)", "48213907"]);
    // Enter on it changes it, as every line of the plan.
    has(desk.keys("{Enter}"), &["Change trial T1"]);
}

#[test]
fn next_seasons_slow_release_can_be_typed_in_the_form_of_the_lot() {
    let mut desk = read();
    desk.resize(120, 40).keys("gj{Enter}");
    has(&desk, &["Change lot R6"]);
    desk.keys("{Shift-Tab}{Shift-Tab}6.5{Tab}own look");
    desk.keys("{Enter}{Enter}");
    let Line::Lot(lot) = kept_line(&desk) else { panic!("{}", desk.text()) };
    assert_eq!(
        (lot.next_release_g, lot.next_release_basis.as_deref()),
        (Some(6.5), Some("own look")),
        "{}",
        desk.text()
    );
}

#[test]
fn a_trial_is_ended_early_with_the_reason_and_its_readings_stay() {
    let mut desk = read();
    has(desk.keys("-"), &["End trial T1 today"]);
    has(desk.keys("{Enter}"), &["type why"]);
    desk.keys("crop sold early{Enter}");
    let Line::Trial(ended) = kept_line(&desk) else { panic!("{:?}", kept_line(&desk)) };
    assert_eq!((ended.until, ended.ended_because.as_deref()), (Some(date(10, 12)), Some("crop sold early")));
    has(desk.resize(80, 40), &["Ended early on Oct 12: crop sold early", "12 g is 3.1 in taller than 0 g"]);
    has(desk.keys("-"), &["Ended on Mon Oct 12 already."]);
}

#[test]
fn a_reading_is_voided_and_the_mean_changes() {
    let mut desk = read();
    has(&desk, &["11.5   10.9 to 12.0"]);
    has(desk.keys("x"), &["Trial T1  readings", "Choose the entry to void"]);
    // The newest entry is that of plot 24: 12 g.
    has(desk.keys("x"), &["void"]);
    desk.keys("wrong pot{Enter}");
    let voided = desk.kept.iter().any(|line| matches!(line, Line::Entry(of) if of.name() == KindName::Strike));
    assert!(voided, "{}", desk.text());
    let text = desk.keys("{Tab}{Tab}").text();
    assert!(text.contains("Trial T1  means") && !text.contains("14.0 to 15.2"), "{text}");
    let row = text.lines().find(|line| line.trim_start().starts_with("12 g ") && line.contains('o')).unwrap();
    assert!(row.split_whitespace().rev().nth(1) == Some("5"), "five plots are left: {row}");
    has(&desk, &["Told apart"]);
}

#[test]
fn the_report_is_written_as_a_file_whose_path_is_asked() {
    let mut desk = read();
    has(desk.keys("h"), &["Report of trial T1", "trial-t1.html"]);
    desk.keys("t1.html{Enter}");
    let written = desk.outside.iter().find_map(|effect| match effect {
        Effect::WriteFile(path, text) => Some((path.as_str(), text.as_str())),
        _ => None,
    });
    let (path, text) = written.unwrap();
    assert_eq!(path, "t1.html");
    assert!(text.starts_with("<!DOCTYPE html>") && text.contains("12 g is 3.1 in taller than 0 g"), "{path}");
}

#[test]
fn enter_opens_the_plots_and_comes_back() {
    let mut desk = desk_as(COLOR, &["T1"], Vec::new());
    has(desk.keys("t{Enter}"), &["Plots"]);
    has(desk.keys("{Esc}"), &["Trial T1  layout"]);
}

#[test]
fn several_trials_are_listed_and_none_says_what_a_trial_is() {
    let mut none = desk_as(COLOR, &[], Vec::new());
    has(none.keys("t"), &["There is no trial in this season.", "drawn by lot", "the place on"]);
    let mut two = desk_as(COLOR, &["T1", "T2"], heights(date(10, 12), 500, 0.0));
    has(two.keys("t"), &["Trials", "T1", "T2", "slow-release rate"]);
    has(two.keys("j{Enter}"), &["Trial T2  layout"]);
    has(two.keys("{Right}"), &["This is the last trial."]);
    has(two.keys("{Left}"), &["Trial T1"]);
    has(two.keys("{Esc}s"), &["Season"]);
    has(two.keys("t"), &["Trials"]);
}

#[test]
fn reshuffling_goes_on_in_slices_and_the_frame_does_not_wait_for_it() {
    let lines = heights(date(10, 12), 500, 0.0);
    let mut desk = desk_as(COLOR, &["T1"], lines);
    // A key, and no rest after it yet.
    let now = desk.app.model.now;
    let key = |text: &str| benchwalk::input::Event::Key(benchwalk::input::Key::row(text).unwrap()[0]);
    desk.app.event(key("t"), now);
    has(&desk, &["Calculating"]);
    assert_eq!(desk.app.patience(), Some(std::time::Duration::ZERO));
    while desk.text().contains("Calculating") {
        assert!(desk.app.idle());
    }
    has(&desk, &["12 g is 3.1 in taller than 0 g", "Reshuffling"]);
    desk.settle();
    has(&desk, &["By reshuffling: 1 in 100."]);
    // What was found stays: another part and back, nothing is worked out anew.
    desk.app.event(key("{Tab}"), now);
    desk.app.event(key("{Shift-Tab}"), now);
    has(&desk, &["By reshuffling: 1 in 100."]);
    assert!(!desk.app.screen.waits());
}

#[test]
fn the_page_stands_at_every_size_and_in_every_dress() {
    let lines = || heights(date(10, 12), 500, 0.0);
    let parts =
        [("layout", "t{Shift-Tab}"), ("means", "t"), ("response", "t{Tab}"), ("readings", "t{Shift-Tab}{Shift-Tab}")];
    for (name, keys) in parts {
        same_in_every_dress(name, |look| {
            let mut desk = desk_as(look, &["T1"], lines());
            desk.keys(keys);
            desk
        });
    }
    all_drawn_at_every_size(parts.map(|(name, keys)| {
        let mut desk = desk_as(COLOR, &["T1"], lines());
        desk.keys(keys);
        (name, desk)
    }));
}

#[test]
fn pictures_of_the_means_in_three_windows_and_without_color() {
    let mut desk = read();
    insta::assert_snapshot!("trial_means_80x24", desk.dump());
    insta::assert_snapshot!("trial_means_120x40", desk.resize(120, 40).dump());
    insta::assert_snapshot!("trial_means_190x50", desk.resize(190, 50).dump());
    let mut plain = desk_as(PLAIN, &["T1"], heights(date(10, 12), 500, 0.0));
    insta::assert_snapshot!("trial_means_no_color", plain.keys("t").dump());
    assert!(desk_as(ASCII, &["T1"], heights(date(10, 12), 500, 0.0)).keys("t").text().is_ascii());
}

#[test]
fn means_of_four_treatments_need_no_scrolling_in_a_small_window() {
    let text = read().text();
    assert!(text.contains("Design: randomized blocks") || text.contains("Checks: nothing speaks."), "{text}");
}

#[test]
fn a_day_passes_and_another_program_writes_and_the_page_follows() {
    let mut desk = read();
    let plan = desk.app.model.season.plan().clone();
    let entries = heights(date(10, 13), 700, 1.0);
    let entries = entries.into_iter().filter_map(|line| if let Line::Entry(entry) = line { Some(entry) } else { None });
    desk.answer(Outcome::Joined { plan, entries: entries.collect() });
    desk.pass(Duration::days(1));
    has(&desk, &["height (in), Oct 13"]);
}
