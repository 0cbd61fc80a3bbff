//! The readings card: the plots of a trial read by single keys, blind, with the day before beside the day.

use crate::desk::{ASCII, COLOR, Desk, same_in_every_dress};
use crate::season::{Crop, date, instant, lot, sprayed};
use benchwalk::input::Look;
use benchwalk::keys::Context;
use benchwalk::model::{Outcome, go};
use benchwalk::record::{
    Design, Entry, Kind, Lot, PestCount, PestName, Pinch, Place, Plot, Revision, Trial, TrialReading,
};
use benchwalk::screens::Screen;
use benchwalk::season::Season;
use benchwalk::trials;
use chrono::Duration;
use uuid::Uuid;

/// What is compared: words that stand nowhere else.
const TREATMENTS: [&str; 4] = ["nothing fed", "quarter rate", "half rate", "full rate"];

fn trial(reads: &[TrialReading]) -> Trial {
    Trial {
        trial: "T1".into(),
        lot: "L1".into(),
        question: "slow-release rate".into(),
        treatments: TREATMENTS.map(str::to_owned).to_vec(),
        rates: None,
        rate_unit: None,
        control: Some(TREATMENTS[0].into()),
        design: Design::RandomizedBlocks,
        seed: Some("48213907".into()),
        drawn: None,
        reads: reads.to_vec(),
        every_days: Some(7),
        from: date(10, 5),
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

/// A plot in serpentine order: the second row is numbered from its end.
fn plot(number: u32, bench: &str, columns: u32, pots: u32) -> Plot {
    let (row, at) = ((number - 1) / columns + 1, (number - 1) % columns);
    let column = if row % 2 == 1 { at + 1 } else { columns - at };
    Plot {
        plot: format!("T1.{number}"),
        trial: "T1".into(),
        bench: bench.into(),
        row,
        column,
        block: Some(row),
        treatment: TREATMENTS[usize::try_from(number % 4).unwrap()].into(),
        pots,
        revision: Revision::number(1),
    }
}

/// Two young benches, the first with so many plots in rows of six; on both the water alone is due.
fn crop(plots: u32, reads: &[TrialReading], pots: u32) -> Crop {
    let young = Lot {
        planted: date(10, 5),
        pots: 200,
        pinch: Pinch::None,
        height_low_cm: None,
        height_high_cm: None,
        ..lot("L1")
    };
    let scouted = PestCount::Plants { inspected: 20, infested: 0 };
    let mut crop = ["E1", "E2"].into_iter().zip(1..).fold(Crop::bare().with_lot(young), |crop, (code, n)| {
        crop.bench_in(code, "East", n)
            .filled(code, "L1", 100, (10, 5))
            .on(code)
            .at((10, 10), (7, 0), Kind::Pests { pest: PestName::Whitefly, count: scouted.clone() })
            .at((10, 10), (7, 1), Kind::Bracts { stage: 1 })
            .at((10, 11), (7, 0), Kind::Water { level: 3, base: None })
    });
    crop.plan.trials.push(trial(reads));
    crop.plan.plots.extend((1..=plots).map(|n| plot(n, "E1", 6, pots)));
    crop
}

/// An entry of a plot.
fn of_plot(crop: &mut Crop, plot: &str, day: (u32, u32), kind: Kind) {
    let id = Uuid::from_u128(0xF000 + u128::try_from(crop.entries.len()).unwrap());
    let place = Place::Bench("E1".into());
    crop.entries.push(Entry {
        id,
        at: instant(day, (7, 30)),
        by: "kt".into(),
        place,
        plot: Some(plot.into()),
        kind: kind.into(),
        note: None,
    });
}

/// The usual trial: 24 plots, height and greenness, its treatments given, plot 1 read the week before.
fn season() -> Season {
    let mut crop = crop(24, &[TrialReading::Height, TrialReading::Greenness], 1);
    for n in 1..=24 {
        let g_per_pot = f64::from(n % 4) * 4.0;
        of_plot(&mut crop, &format!("T1.{n}"), (10, 5), Kind::Topdressed { g_per_pot, n_percent: None });
        of_plot(&mut crop, &format!("T1.{n}"), (10, 5), Kind::Height { cm: vec![20.32] });
        of_plot(&mut crop, &format!("T1.{n}"), (10, 5), Kind::Greenness { class: Some(3), spad: None });
    }
    crop.season()
}

fn desk_of(season: &Season, look: Look, size: (u16, u16)) -> Desk {
    let mut desk = Desk::of(season, look, size);
    desk.keys("f2");
    desk
}

/// On the card of bench E1, its own check done.
pub(crate) fn card(look: Look, size: (u16, u16)) -> Desk {
    let mut desk = desk_of(&season(), look, size);
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Plots  T1  on E1"), "{}", desk.text());
    desk
}

/// The card waiting for a digit, with a number begun, and on a bench that was closed meanwhile.
pub(crate) fn every_state() -> [Desk; 3] {
    let mut begun = card(COLOR, (80, 24));
    begun.keys("1");
    let mut shut = card(COLOR, (80, 24));
    spray(&mut shut);
    let all = [card(COLOR, (80, 24)), begun, shut];
    assert_eq!(all.each_ref().map(|desk| desk.app.context()), [Context::Plots, Context::PlotsLine, Context::PlotsShut]);
    all
}

/// Another program logs a treatment of E1 that closes it for twelve hours.
fn spray(desk: &mut Desk) {
    let place = Place::Bench("E1".into());
    let (id, at) = (Uuid::from_u128(0xABC), instant((10, 12), (7, 9)));
    let spray = Entry { id, at, by: "mj".into(), place, plot: None, kind: sprayed("soap", 12.0).into(), note: None };
    let plan = desk.app.model.season.plan().clone();
    desk.answer(Outcome::Joined { plan, entries: vec![spray] });
}

/// The readings of plots that stand, as `T1.1 height 15.0 in (15.0)`.
fn standing(desk: &Desk) -> Vec<String> {
    let model = &desk.app.model;
    let today = model.season.entries().iter().filter(|e| e.plot.is_some() && e.day() == model.day);
    let stand = today.filter(|e| !model.season.is_struck(e, model.day));
    let line = |e: &Entry| {
        let entry = benchwalk::report::entry::line(e, model.system());
        format!("{} {entry}", benchwalk::report::entry::about(e))
    };
    stand.map(line).collect()
}

#[test]
fn the_walk_offers_the_plots_after_the_checks_of_the_bench_and_does_without_them() {
    let mut desk = desk_of(&season(), COLOR, (80, 24));
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    assert!(desk.text().contains("24 plots of T1 are due: Enter reads them. Tab: next bench."), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Plots  T1  on E1"), "{}", desk.text());
    desk.keys("{Esc}");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    desk.keys("{Tab}3");
    // The round is done without them.
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
    assert!(desk.text().contains("walked 2 of 2"), "{}", desk.text());
    assert!(desk.text().contains("\nT1: 24 plots due\n"), "{}", desk.text());
    desk.keys("f{Enter}");
    assert!(desk.text().starts_with("Plots  T1"), "from the Round again\n{}", desk.text());
}

#[test]
fn twenty_four_plots_with_two_readings_cost_twenty_four_digits_and_twenty_four_lines() {
    let mut desk = card(COLOR, (80, 24));
    let mut keys = (0, 0, 0);
    for n in 1..=24 {
        assert!(desk.text().contains(&format!("plot {n} ")), "{n}\n{}", desk.text());
        let digit = 1 + n % 5;
        desk.keys(&format!("1{}.5{{Enter}}{digit}", n % 10));
        keys = (keys.0 + 1, keys.1 + 1, keys.2);
    }
    assert_eq!(keys, (24, 24, 0), "digits, lines, other keys");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    assert!(desk.text().contains("All 24 plots of T1 on E1 are read."), "{}", desk.text());
    assert!(desk.text().contains("Nothing more is due here today."), "{}", desk.text());
    let read = standing(&desk);
    assert_eq!(read.len(), 48);
    assert_eq!(read[..2], ["T1.1 height 11.5 in (11.5)", "T1.1 greenness 2"]);
    assert_eq!(read[46..], ["T1.24 height 14.5 in (14.5)", "T1.24 greenness 5"]);
    assert!(trials::due_on_benches(&desk.app.model.season, desk.app.model.day).is_empty());
    let season = &desk.app.model.season;
    let of = trials::Readings::of(season, "T1", desk.app.model.day).unwrap();
    assert_eq!(of.reported(TrialReading::Height), Some(desk.app.model.day));
}

#[test]
fn the_treatment_stands_nowhere_on_the_card() {
    for size in [(80, 24), (120, 40), (190, 50)] {
        let mut desk = card(COLOR, size);
        let mut frames = vec![desk.text()];
        for keys in
            ["12.5{Enter}", "9", "4", "{Right}", "-", "-", "b", "d", "n", "{Esc}", "x", "{Esc}", "u", "?", "{Esc}"]
        {
            desk.keys(keys);
            frames.push(desk.text());
        }
        for frame in frames {
            let named = TREATMENTS.iter().find(|treatment| frame.contains(**treatment));
            assert_eq!(named, None, "{size:?}\n{frame}");
            assert!(!frame.contains("topdress") && !frame.contains("g per pot"), "{size:?}\n{frame}");
        }
    }
}

#[test]
fn a_plot_goes_by_number_and_place_with_what_was_read_the_time_before() {
    let mut desk = card(COLOR, (80, 24));
    for _ in 0..6 {
        desk.keys("12.5{Enter}4");
    }
    desk.keys("15{Enter}");
    let text = desk.text();
    assert!(text.contains("plot 7   row 2, sixth from the aisle   6 of 24 done"), "{text}");
    assert!(text.contains("height     15.0 in   on Oct 5 8.0"), "{text}");
    assert!(text.contains("[greenness  _]  on Oct 5 3"), "{text}");
    assert!(text.contains("1 yellow   2 pale   3 middle   4 green   5 dark"), "{text}");
    assert!(text.contains("row 1   1 x   2 x   3 x   4 x   5 x   6 x"), "{text}");
    assert!(text.contains("[ 7 .]"), "{text}");
    assert!(text.contains("x read  . to come  - lost"), "{text}");
    // The cursor stands on what is asked.
    let (buffer, at) = desk.draw();
    assert_eq!(buffer[at.unwrap()].symbol(), "_");
}

#[test]
fn a_lost_plot_is_asked_about_once_and_read_no_more() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("d");
    let asked = "Plot 1 lost: its pot leaves the count of E1. d again: yes. Any other key: no.";
    assert!(desk.text().contains(asked), "{}", desk.text());
    assert!(standing(&desk).is_empty());
    desk.keys("-");
    assert!(!desk.text().contains("Plot 1 lost"), "{}", desk.text());
    desk.keys("b").keys("dd");
    assert_eq!(standing(&desk), ["T1.1 lost 1 pot"]);
    assert!(desk.text().contains("plot 2 ") && desk.text().contains("0 of 23 done"), "{}", desk.text());
    assert!(desk.text().contains(" 1 - "), "{}", desk.text());
    let pots = |desk: &Desk| desk.app.model.season.standing("E1", desk.app.model.day).unwrap().pots;
    assert_eq!(pots(&desk), 99, "it leaves the bench's count");
    desk.keys("u");
    assert_eq!(pots(&desk), 100);
    assert!(desk.text().contains("plot 1 ") && desk.text().contains("0 of 24 done"), "{}", desk.text());
}

#[test]
fn undo_takes_a_reading_back_and_asks_it_again() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("12.5{Enter}4");
    assert!(desk.text().contains("plot 2 "), "{}", desk.text());
    desk.keys("u");
    assert!(desk.text().contains("plot 1 ") && desk.text().contains("[greenness  _]"), "{}", desk.text());
    assert_eq!(standing(&desk), ["T1.1 height 12.5 in (12.5)"]);
    desk.keys("2").keys_every("b", 400);
    desk.keys("5");
    // Read again on its day: the first reading is void, one counts.
    assert_eq!(standing(&desk), ["T1.1 height 12.5 in (12.5)", "T1.1 greenness 5"]);
    desk.keys_every("u", 4_000);
    assert_eq!(standing(&desk), ["T1.1 height 12.5 in (12.5)", "T1.1 greenness 2"]);
    desk.keys("y");
    assert_eq!(standing(&desk), ["T1.1 height 12.5 in (12.5)", "T1.1 greenness 5"]);
}

#[test]
fn a_digit_held_down_reads_one_plot_and_begins_no_number() {
    let greenness = crop(24, &[TrialReading::Greenness], 1).season();
    let mut desk = desk_of(&greenness, COLOR, (80, 24));
    desk.keys("{Enter}4");
    for _ in 0..40 {
        desk.keys_every("4", 33);
    }
    assert_eq!(standing(&desk), ["T1.1 greenness 4"]);
    desk.keys("4");
    assert_eq!(standing(&desk).len(), 2, "let go and pressed again");
    // The score before a number.
    let mut desk = card(COLOR, (80, 24));
    desk.keys("12.5{Enter}4");
    for _ in 0..40 {
        desk.keys_every("4", 33);
    }
    assert_eq!(desk.app.context(), Context::Plots, "no number is begun\n{}", desk.text());
    // Typed swiftly the first digit of a number is not lost.
    desk.keys_every("14.5{Enter}", 120);
    assert_eq!(standing(&desk).last().unwrap(), "T1.2 height 14.5 in (14.5)");
    for _ in 0..40 {
        desk.keys_every("{Enter}", 33);
    }
    assert_eq!(standing(&desk).len(), 3);
}

#[test]
fn what_is_skipped_comes_again_at_the_end() {
    let two = crop(2, &[TrialReading::Water, TrialReading::Roots], 1).season();
    let mut desk = desk_of(&two, COLOR, (80, 24));
    desk.keys("{Enter}-2").keys("3").keys("1");
    assert!(desk.text().contains("plot 1 ") && desk.text().contains("[water  _]"), "{}", desk.text());
    desk.keys("-");
    assert!(desk.text().contains("Nothing else is left; Esc returns."), "{}", desk.text());
    desk.keys("b");
    assert!(desk.text().contains("This is the first reading."), "{}", desk.text());
    desk.keys("{Right}");
    assert!(desk.text().contains("plot 2 ") && desk.text().contains("[water  3]"), "{}", desk.text());
    desk.keys("{Left}5");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    assert_eq!(standing(&desk), ["T1.1 roots 2", "T1.2 water 3", "T1.2 roots 1", "T1.1 water 5"]);
}

#[test]
fn read_in_part_it_goes_on_the_next_day_where_it_stopped() {
    let mut desk = card(COLOR, (80, 24));
    for _ in 0..5 {
        desk.keys("12.5{Enter}4");
    }
    desk.keys("13");
    desk.keys("{Esc}{Esc}");
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
    assert!(desk.text().contains("T1: 19 plots due"), "{}", desk.text());
    desk.pass(Duration::days(1)).keys("f2{Enter}");
    let text = desk.text();
    assert!(text.contains("plot 6 ") && text.contains("5 of 24 done"), "{text}");
    assert!(text.contains("> 13"), "what was typed is kept\n{text}");
    desk.keys(".5{Enter}3{Left}{Left}");
    assert!(desk.text().contains("12.5 in on Oct 12"), "{}", desk.text());
}

#[test]
fn a_second_person_goes_on() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("12.5{Enter}4").keys("{F7}mj{Enter}").keys("13{Enter}5");
    let by: Vec<&str> = desk.app.model.season.entries().iter().rev().take(4).map(|e| &*e.by).collect();
    assert_eq!(by, ["mj", "mj", "kt", "kt"]);
}

#[test]
fn a_closed_bench_takes_no_reading_and_says_until_when() {
    let mut desk = card(COLOR, (80, 24));
    spray(&mut desk);
    assert_eq!(desk.app.context(), Context::PlotsShut);
    assert!(desk.text().contains("CLOSED UNTIL Mon Oct 12 19:09"), "{}", desk.text());
    desk.keys("4");
    assert!(desk.text().contains("Not logged: E1 is closed until 19:09"), "{}", desk.text());
    assert!(standing(&desk).is_empty());
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    // Nor is the card opened there.
    let mut desk = desk_of(&season(), COLOR, (80, 24));
    spray(&mut desk);
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Walk  E"), "{}", desk.text());
}

#[test]
fn a_number_that_fits_no_plot_is_refused_or_asked_about_where_it_was_typed() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("abc{Enter}");
    desk.keys("999{Enter}");
    assert!(desk.text().contains("! height: "), "{}", desk.text());
    assert!(desk.text().contains("> 999"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}{Backspace}80{Enter}");
    assert!(desk.text().contains("80 in, but 8 in was measured on Oct 5. Enter again if it is so"), "{}", desk.text());
    assert!(standing(&desk).is_empty());
    desk.keys("{Backspace}{Enter}");
    assert_eq!(standing(&desk), ["T1.1 height 8 in (8.0)"]);
}

#[test]
fn plots_of_several_pots_and_the_other_readings() {
    use TrialReading::{BractWidth, Bracts, Grade, Greenness, RootZone};
    let several = crop(2, &[BractWidth, RootZone, Grade, Bracts, Greenness], 3).season();
    let mut desk = desk_of(&several, COLOR, (80, 24));
    desk.keys("{Enter}9.5{Space}10{Space}10.5{Enter}").keys("1.8{Space}2.2{Enter}").keys("2{Space}1{Space}1{Enter}");
    assert!(desk.text().contains("add up to 3"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}{Backspace}{Backspace}{Backspace}2{Space}1{Space}0{Enter}")
        .keys("4")
        .keys("m42.5{Enter}");
    assert_eq!(
        standing(&desk),
        [
            "T1.1 bract width 10 in (9.5 10.0 10.5)",
            "T1.1 root zone by pour-through, EC 2.00 mS/cm, 2 pots",
            "T1.1 graded: 2 salable, 1 seconds, 0 dumped",
            "T1.1 bracts 4",
            "T1.1 greenness meter 42.5",
        ]
    );
    // The trial goes on by meter, and a class joins it.
    desk.keys("b").keys("m3");
    assert_eq!(standing(&desk).last().unwrap(), "T1.1 greenness 3, meter 42.5");
}

#[test]
fn a_grade_of_one_pot_is_one_digit() {
    let one = crop(2, &[TrialReading::Grade], 1).season();
    let mut desk = desk_of(&one, COLOR, (80, 24));
    desk.keys("{Enter}");
    assert!(desk.text().contains("1 salable   2 second   3 dump"), "{}", desk.text());
    desk.keys("12");
    assert_eq!(
        standing(&desk),
        ["T1.1 graded: 1 salable, 0 seconds, 0 dumped", "T1.2 graded: 0 salable, 1 seconds, 0 dumped"]
    );
}

#[test]
fn a_reading_is_voided_or_written_right_from_the_card_and_named_by_its_plot() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("12.5{Enter}4");
    assert!(desk.text().contains("saved: T1.1 greenness 4"), "{}", desk.text());
    desk.keys("{Left}x");
    assert!(desk.text().contains("Log of T1.1"), "{}", desk.text());
    assert!(desk.text().contains("kt  height 12.5 in (12.5)"), "{}", desk.text());
    desk.keys("{Down}w");
    assert!(desk.text().contains("Write it right: height on plot T1.1"), "{}", desk.text());
    desk.keys("{Ctrl-U}13{Enter}");
    desk.keys("{Esc}");
    assert_eq!(standing(&desk), ["T1.1 greenness 4", "T1.1 height 13 in (13.0)"]);
    desk.keys("x{Enter}slip{Enter}{Esc}");
    assert_eq!(standing(&desk).len(), 1, "{:?}", standing(&desk));
}

#[test]
fn a_note_goes_to_the_plot() {
    let mut desk = card(COLOR, (80, 24));
    desk.keys("nleans{Enter}");
    let note = desk.app.model.season.entries().iter().find(|e| e.note.as_deref() == Some("leans")).unwrap();
    assert_eq!(note.plot.as_deref(), Some("T1.1"));
    assert_eq!(desk.app.model.season.history("E1", desk.app.model.day).on(desk.app.model.day).count(), 1, "the water");
}

#[test]
fn a_reading_beside_the_schedule_is_taken_and_says_so() {
    let mut crop = crop(2, &[TrialReading::Greenness], 1);
    crop.plan.trials[0].from = date(10, 20);
    let mut desk = desk_of(&crop.season(), COLOR, (80, 24));
    assert!(!desk.text().contains("of T1 are due"), "{}", desk.text());
    let page = go::Page::Plots("T1".into(), None);
    desk.app.screen = Screen::open(page, &mut desk.app.model).unwrap();
    assert!(desk.text().contains("No reading is due today"), "{}", desk.text());
    desk.keys("43");
    assert_eq!(standing(&desk), ["T1.1 greenness 4", "T1.2 greenness 3"]);
}

#[test]
fn plots_change_nothing_that_is_said_of_benches() {
    let with = season();
    let without = crop(0, &[TrialReading::Height], 1).season();
    let limits = benchwalk::limits::Limits::default();
    let all = |season: &Season| {
        let all = benchwalk::warnings::assess_all(season, date(10, 12), &limits);
        all.all().cloned().collect::<Vec<_>>()
    };
    assert_eq!(all(&with), all(&without));
    for bench in ["E1", "E2"] {
        let due = |season: &Season| benchwalk::warnings::due(season, bench, date(10, 12), &limits);
        assert_eq!(due(&with), due(&without));
        assert_eq!(with.standing(bench, date(10, 12)), without.standing(bench, date(10, 12)));
        let history = |season: &Season| season.history(bench, date(10, 12)).on(date(10, 11)).count();
        assert_eq!(history(&with), history(&without));
    }
}

#[test]
fn a_larger_bench_is_scrolled_and_twenty_four_plots_are_whole() {
    for (columns, plots) in [(1, 24), (2, 24), (3, 24), (4, 24), (6, 24), (8, 24), (12, 24), (24, 24)] {
        let mut crop = crop(0, &[TrialReading::Height, TrialReading::Greenness], 1);
        crop.plan.plots.extend((1..=plots).map(|n| plot(n, "E1", columns, 1)));
        let mut desk = desk_of(&crop.season(), COLOR, (80, 24));
        desk.keys("{Enter}");
        let text = desk.text();
        let shown = (2..=plots).filter(|n| text.contains(&format!("{n:>2} ."))).count();
        assert_eq!(shown, 23, "{columns} columns\n{text}");
        assert!(text.contains("x read  . to come  - lost"), "{columns} columns\n{text}");
    }
    let mut crop = crop(0, &[TrialReading::Greenness], 1);
    crop.plan.plots.extend((1..=96).map(|n| plot(n, "E1", 4, 1)));
    let mut desk = desk_of(&crop.season(), COLOR, (50, 20));
    desk.keys("{Enter}");
    for _ in 0..60 {
        desk.keys("{Right}");
    }
    assert!(desk.text().contains("[61 .]"), "{}", desk.text());
}

#[test]
fn the_card_looks_the_same_in_every_dress() {
    let script = |look| {
        let mut desk = card(look, (80, 24));
        desk.keys("12.5{Enter}4").keys("dd").keys("15{Enter}");
        desk
    };
    insta::assert_snapshot!("plots_card", script(COLOR).dump());
    insta::assert_snapshot!("plots_card_ascii", script(ASCII).text());
    same_in_every_dress("the plots card", script);
    let mut wide = card(COLOR, (190, 50));
    wide.keys("12.5{Enter}");
    insta::assert_snapshot!("plots_card_wide", wide.text());
}

#[test]
fn the_card_is_drawn_in_every_window_with_its_cursor_inside() {
    let mut desk = card(COLOR, (80, 24));
    for keys in ["", "12.5", "{Enter}", "d"] {
        desk.keys(keys);
        for size in [(40, 12), (50, 14), (80, 24), (109, 20), (110, 12), (159, 30), (160, 12), (200, 60)] {
            desk.resize(size.0, size.1);
            let (buffer, cursor) = desk.draw();
            assert!(buffer.area.contains(cursor.unwrap()), "{size:?}\n{}", desk.text());
            assert!(desk.text().contains("plot 1"), "{size:?}\n{}", desk.text());
        }
    }
}

#[test]
fn the_evening_says_how_many_plots_are_due_and_nothing_more() {
    let mut desk = Desk::of(&season(), COLOR, (80, 24));
    desk.keys("e");
    assert!(desk.text().contains("T1: 24 plots due"), "{}", desk.text());
    let wide = Desk::of(&season(), COLOR, (120, 40)).keys("e").text();
    assert_eq!(wide.matches("T1: 24 plots due").count(), 1, "{wide}");
    let review = benchwalk::review::build(&season(), date(10, 12), Vec::new(), &[], "defaults".into()).unwrap();
    let text = benchwalk::report::review::text(&review);
    assert_eq!(text.matches("T1: 24 plots due").count(), 1, "{text}");
    assert!(benchwalk::report::html::review(&review).contains("<li>T1: 24 plots due</li>"));
    let json: serde_json::Value = serde_json::from_str(&benchwalk::report::review::json(&review).unwrap()).unwrap();
    assert_eq!(json["plots_due"], serde_json::json!([{"trial": "T1", "plots": 24, "benches": ["E1"]}]));
    let sheet =
        benchwalk::report::sheet::build(&season(), date(10, 12), &benchwalk::limits::Limits::default()).unwrap();
    let paper = benchwalk::report::sheet::text(&sheet);
    assert_eq!(paper.matches("T1 24 plots to read").count(), 1, "{paper}");
    assert!(paper.lines().any(|line| line.starts_with("[ ] E1")), "{paper}");
}

/// The label of plot 9 scanned on the card, from the walk and from the evening: its readings card, and nothing is logged.
#[test]
fn the_scanned_label_of_a_plot_opens_its_reading() {
    let season = season();
    for way in ["", "{Esc}w", "{Esc}e", "{Esc}{Enter}"] {
        let mut desk = desk_of(&season, COLOR, (80, 24));
        desk.keys(way);
        let written = desk.written();
        desk.keys_every("=T1.9{Enter}", 1);
        assert!(desk.text().starts_with("Plots  T1"), "{way:?}\n{}", desk.text());
        assert!(desk.text().contains("plot 9"), "{way:?}\n{}", desk.text());
        // A number half typed waits for its plot.
        desk.keys("12").keys_every("=T1.5{Enter}", 1);
        assert!(desk.text().contains("plot 5"), "{way:?}\n{}", desk.text());
        desk.keys_every("=t1.9{Enter}", 1);
        assert!(desk.text().contains("12"), "{way:?}\n{}", desk.text());
        assert_eq!(desk.written(), written);
        desk.keys_every("=E2{Enter}", 1);
        assert!(desk.text().starts_with("Bench E2"), "{way:?}\n{}", desk.text());
    }
}
