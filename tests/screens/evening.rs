//! The evening as a grower works it: tomorrow's jobs ticked off by keys, and what the next morning says of them.

use crate::desk::{Desk, PLAIN};
use crate::season::{Crop, lot};
use benchwalk::record::{Kind, Line, Material, Method, Place};
use benchwalk::report::{jobs_sheet, review};
use benchwalk::review::build;
use benchwalk::season::Season;
use benchwalk::warnings::assess_all;
use chrono::{Duration, NaiveDate};

/// Two houses, Mill and Dell: a red lot on M1 to M3, a white one on D1 to D3. M3 stays wet; the others dry down every three days
/// and were fed each week. Magnesium was never given. The 12th of October, ten past seven in the morning.
fn autumn() -> Crop {
    wet_on(&["M3"])
}

/// The same with these benches staying wet.
fn wet_on(wet: &[&str]) -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6")).with_lot(lot("R8"));
    let all = [("M1", "Mill"), ("M2", "Mill"), ("M3", "Mill"), ("D1", "Dell"), ("D2", "Dell"), ("D3", "Dell")];
    for (n, (bench, house)) in (1..).zip(all) {
        let lot = if house == "Mill" { "R6" } else { "R8" };
        crop = crop.bench_in(bench, house, n).filled(bench, lot, 80, 0).on(bench).pinched(14);
        for week in 0..6 {
            crop = crop.fed(4 + 7 * week, 200.0, None, None);
        }
        for day in 0..56 {
            let level =
                if wet.contains(&bench) && day >= 45 { 5 } else { [5, 4, 2][usize::try_from(day % 3).unwrap()] };
            crop = crop.water(day, level);
            if level == 2 {
                crop = crop.watered(day);
            }
        }
    }
    crop
}

fn with_magnesium(crop: Crop, ppm: f64) -> Crop {
    ["M1", "M2", "M3", "D1", "D2", "D3"].into_iter().fold(crop, |crop, bench| {
        let kind =
            Kind::Nutrient { material: Material::MagnesiumSulfate, ppm, how: Method::Drench, ml_per_pot: Some(200.0) };
        crop.on(bench).work(1, kind)
    })
}

/// The desk on the evening of that day, the Evening page open.
fn evening(crop: &Crop, size: (u16, u16)) -> Desk {
    let mut desk = Desk::of(&crop.recorded(), PLAIN, size);
    desk.pass(Duration::hours(11));
    desk.keys("e");
    assert!(desk.text().contains("Tomorrow"), "{}", desk.text());
    desk
}

/// Puts the cursor on the job with a text: from the top down.
fn stand_on(desk: &mut Desk, job: &str) {
    desk.keys("{Home}");
    for _ in 0..20 {
        if desk.text().lines().any(|line| line.starts_with('▸') && line.contains(job)) {
            return;
        }
        desk.keys("j");
    }
    panic!("no {job:?}\n{}", desk.text());
}

/// The screen without its line ends.
fn words(desk: &Desk) -> String {
    desk.text().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The row with a text.
fn row(desk: &Desk, text: &str) -> String {
    let screen = desk.text();
    screen.lines().find(|line| line.contains(text)).unwrap_or_else(|| panic!("no {text:?}\n{screen}")).to_owned()
}

/// The season of the desk with all that was saved, as another program reads it.
fn read_again(crop: &Crop, desk: &Desk) -> Season {
    let entries = crop.recorded().entries().to_vec();
    let plan = crop.recorded().plan().lines();
    Season::of(plan.into_iter().chain(entries.into_iter().map(Line::Entry)).chain(desk.kept.clone()))
}

fn ticks(desk: &Desk) -> Vec<String> {
    desk.written().into_iter().filter(|line| line.contains(" job ")).collect()
}

#[test]
fn the_evening_is_ticked_off_by_keys() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "Look for a drip");
    assert!(row(&desk, "Look for a drip").contains("[ ]"), "{}", desk.text());
    desk.keys("d");
    assert_eq!(ticks(&desk), ["M3 job done: Look for a drip, a blocked drain or a cold spot (corners, bench ends)"]);
    assert!(row(&desk, "M3: Look for a drip").contains("[x]"), "{}", desk.text());
    stand_on(&mut desk, "Do not water");
    desk.keys("d");
    assert!(row(&desk, "M3: Do not water").contains("[x] hold"), "{}", desk.text());
    // Ticked, the hold still keeps the bench out of the drench.
    assert!(words(&desk).contains("but M3 only when it reads 2"), "{}", desk.text());
    stand_on(&mut desk, "score the roots");
    desk.keys("p");
    assert!(row(&desk, "M3: Knock out").contains("[>]"), "{}", desk.text());
    assert!(
        desk.text().contains("(put to Wed Oct 14)") && desk.text().contains("Put to Wed Oct 14"),
        "{}",
        desk.text()
    );
    // A ticked job is not ticked twice.
    let before = ticks(&desk).len();
    stand_on(&mut desk, "(put to");
    desk.keys("d-p");
    assert_eq!(ticks(&desk).len(), before, "{:?}", ticks(&desk));
    assert!(desk.text().contains("This job is ticked: u takes the tick back."), "{}", desk.text());
}

#[test]
fn ticks_survive_leaving() {
    let crop = autumn();
    let mut desk = evening(&crop, (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    desk.keys("rse");
    assert!(row(&desk, "M3: Look for a drip").contains("[x] check"), "{}", desk.text());
    // The program left and opened again the same evening.
    let mut again = Desk::of(&read_again(&crop, &desk), PLAIN, (80, 40));
    again.pass(Duration::hours(12)).keys("e");
    assert!(row(&again, "M3: Look for a drip").contains("[x] check"), "{}", again.text());
    stand_on(&mut again, "[x] check");
    again.keys("u");
    assert!(row(&again, "M3: Look for a drip").contains("[ ] check"), "{}", again.text());
    assert!(again.text().contains("voided: job done: Look for a drip"), "{}", again.text());
}

#[test]
fn undo_of_a_tick_brings_the_job_back() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    assert!(row(&desk, "M3: Look for a drip").contains("[x]"), "{}", desk.text());
    desk.keys("u");
    assert!(row(&desk, "M3: Look for a drip").contains("[ ]"), "{}", desk.text());
    desk.keys("y");
    assert!(row(&desk, "M3: Look for a drip").contains("[x]"), "{}", desk.text());
    let kept = desk.kept.len();
    assert_eq!(kept, 3, "the tick, its strike, and the tick again: nothing is changed in place");
}

#[test]
fn not_needed_asks_for_the_reason() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("-{Enter}");
    assert!(desk.text().contains("Not needed on M3: Look for a drip"), "{}", desk.text());
    assert!(desk.text().contains("reason is missing") || desk.text().contains("is missing"), "{}", desk.text());
    assert_eq!(ticks(&desk), [""; 0]);
    desk.keys("line mended at noon{Enter}");
    assert_eq!(
        ticks(&desk),
        [
            "M3 job not needed: Look for a drip, a blocked drain or a cold spot (corners, bench ends) (line mended at noon)"
        ]
    );
    assert!(row(&desk, "M3: Look for a drip").contains("[-] check"), "{}", desk.text());
    assert!(desk.text().contains("line mended at noon"), "{}", desk.text());
    // While the warning stands it is not listed again.
    desk.pass(Duration::days(1));
    assert!(
        !desk.text().contains("Look for a drip, a blocked drain or a cold spot (corners, bench ends). ("),
        "{}",
        desk.text()
    );
    let open = desk.text();
    assert!(!open.lines().any(|line| line.contains("[ ]") && line.contains("Look for a drip")), "{open}");
}

#[test]
fn a_drench_is_logged_with_its_figures_after_one_form() {
    let mut desk = evening(&with_magnesium(autumn(), 130.0), (80, 40));
    stand_on(&mut desk, "R6, R8 (all of Mill");
    desk.keys("d");
    let form = desk.text();
    for wanted in ["Nutrient", "M1 M2 D1 D2 D3", "130", "8.45 fl oz"] {
        assert!(form.contains(wanted), "no {wanted:?}\n{form}");
    }
    assert!(!form.contains("M1 M2 M3"), "the bench on hold is left out\n{form}");
    assert!(form.contains("for 400 pots"), "{form}");
    desk.keys("{Enter}");
    let written = desk.written();
    let drenched: Vec<&String> =
        written.iter().filter(|line| line.contains("magnesium sulfate drench at 130 ppm")).collect();
    assert_eq!(drenched.len(), 5, "{written:?}");
    assert_eq!(ticks(&desk).len(), 5, "{written:?}");
    assert!(!written.iter().any(|line| line.starts_with("M3 ")), "{written:?}");
    assert!(words(&desk).contains("M3 only when it reads 2: Apply magnesium sulfate"), "{}", desk.text());
    assert!(desk.text().contains("[x]"), "{}", desk.text());
    // One undo takes the work and its ticks back.
    desk.keys("u");
    let text = words(&desk);
    assert!(!text.contains("[x]"), "{text}");
    assert!(text.contains("(all of Mill, Dell; 400 pots), but M3 only when"), "{text}");
}

#[test]
fn a_ppm_that_was_never_logged_is_not_filled_in() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "R6, R8 (all of Mill");
    desk.keys("d{Enter}");
    assert!(desk.text().contains("ppm is missing") || desk.text().contains("is missing"), "{}", desk.text());
    assert_eq!(ticks(&desk), [""; 0]);
    desk.keys("118{Enter}");
    assert_eq!(ticks(&desk).len(), 5, "{}", desk.text());
}

#[test]
fn done_otherwise_is_logged_by_the_form_that_responds_and_ticks_the_job() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "score the roots");
    desk.keys("w");
    assert!(desk.text().contains("Roots"), "{}", desk.text());
    desk.keys("1{Enter}");
    let written = desk.written();
    assert!(written.iter().any(|line| line.starts_with("M3 roots 1")), "{written:?}");
    assert_eq!(ticks(&desk), ["M3 job done otherwise: Knock out three pots and score the roots"]);
}

#[test]
fn the_morning_says_what_is_left_from_yesterday() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "Do not water");
    desk.keys("d");
    stand_on(&mut desk, "score the roots");
    desk.keys("p");
    // Six o'clock the next morning, the Round and the Evening.
    desk.keys("r").pass(Duration::hours(12));
    let left = row(&desk, "Left from yesterday: ");
    assert!(left.contains("check M3") && !left.contains("hold M3"), "{}", desk.text());
    desk.keys("e");
    let text = desk.text();
    assert!(text.contains("\nToday\n"), "{text}");
    assert!(text.contains("Left from yesterday: "), "{text}");
    assert!(row(&desk, "M3: Do not water").contains("[x] hold"), "{text}");
    assert!(row(&desk, "M3: Knock out three pots and score the roots.").contains("[>]"), "{text}");
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    desk.keys("r");
    assert!(!row(&desk, "Left from yesterday: ").contains("check M3"), "{}", desk.text());
    // In the evening the hold is listed anew, what was put to the next day is back, and the check that was done is not.
    desk.pass(Duration::hours(12)).keys("e");
    let text = desk.text();
    assert!(text.contains("\nTomorrow\n"), "{text}");
    assert!(row(&desk, "M3: Do not water").contains("[ ] hold"), "{text}");
    assert!(row(&desk, "M3: Knock out three pots and score the roots.").contains("[ ] check"), "{text}");
    assert!(!text.contains("M3: Look for a drip"), "{text}");
}

#[test]
fn a_bench_that_joins_a_ticked_job_is_still_to_be_done() {
    let crop = autumn();
    let mut desk = evening(&crop, (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    let mut next = Desk::of(&read_again(&wet_on(&["M2", "M3"]), &desk), PLAIN, (80, 40));
    next.pass(Duration::hours(12)).keys("e");
    let text = next.text();
    assert!(row(&next, "M2: Look for a drip").contains("[ ]"), "{text}");
    assert!(row(&next, "M3: Look for a drip").contains("[x]"), "{text}");
}

#[test]
fn a_tick_goes_along_with_the_pots_that_are_moved() {
    let crop = autumn().bench_in("D4", "Dell", 9);
    let mut desk = evening(&crop, (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    let moved =
        Line::Entry(desk.app.model.entry(Place::Bench("M3".into()), Kind::Moved { to: "D4".into(), pots: 80 }, None));
    desk.kept.push(moved);
    let mut next = Desk::of(&read_again(&crop, &desk), PLAIN, (80, 40));
    next.pass(Duration::hours(12)).keys("e");
    assert!(row(&next, "D4: Look for a drip").contains("[x]"), "{}", next.text());
    assert!(!next.text().contains("M3: Look for a drip"), "{}", next.text());
}

#[test]
fn the_paper_and_the_printed_review_agree_with_the_ticks() {
    let crop = autumn();
    let mut desk = evening(&crop, (80, 40));
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    stand_on(&mut desk, "Do not water");
    desk.keys("d");
    let season = read_again(&crop, &desk);
    let on = NaiveDate::from_ymd_opt(2026, 10, 12).unwrap();
    let raised = assess_all(&season, on, &crop.limits).all().cloned().collect();
    let review = build(&season, on, raised, &[], "defaults".into()).unwrap();
    let paper = jobs_sheet::text(&review);
    assert!(paper.contains("[x] M3: Do not water until it reads 2."), "a hold binds all day\n{paper}");
    assert!(!paper.contains("Look for a drip"), "{paper}");
    let text = review::text(&review);
    assert!(text.contains("[x]      M3: Look for a drip"), "{text}");
    let json: serde_json::Value = serde_json::from_str(&review::json(&review).unwrap()).unwrap();
    let states: Vec<(&str, &str)> = json["jobs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|j| (j["state"].as_str().unwrap(), j["step"].as_str().unwrap()))
        .collect();
    assert!(
        states.contains(&("done", "Look for a drip, a blocked drain or a cold spot (corners, bench ends).")),
        "{states:?}"
    );
    assert!(states.iter().any(|(state, step)| *state == "open" && step.contains("magnesium")), "{states:?}");
}

#[test]
fn mixing_from_the_evening_takes_the_benches_that_are_not_on_hold() {
    let mut desk = evening(&autumn(), (80, 40));
    stand_on(&mut desk, "R6, R8 (all of Mill");
    desk.keys("i");
    let text = desk.text();
    assert!(text.starts_with("Mixing") && text.contains("M1 M2 D1 D2 D3") && text.contains("400"), "{text}");
    desk.keys("{Esc}");
    // From the problem as well.
    for _ in 0..9 {
        desk.keys("j");
        if desk
            .text()
            .lines()
            .any(|line| line.starts_with('▸') && line.contains("magnesium missed") && line.contains("Mill"))
        {
            break;
        }
    }
    desk.keys("i");
    assert!(desk.text().contains("M1 M2 ") && !desk.text().contains("M3"), "{}", desk.text());
}

#[test]
fn without_a_name_a_tick_asks_who_writes_first() {
    let mut desk = evening(&autumn(), (80, 40));
    desk.app.model.set_by("");
    stand_on(&mut desk, "Look for a drip");
    desk.keys("d");
    assert!(desk.text().contains("Your initials?"), "{}", desk.text());
    desk.keys("jo{Enter}d");
    assert_eq!(ticks(&desk).len(), 1, "{}", desk.text());
}

/// The right region of the screen, without its line ends.
fn panel(desk: &Desk, columns: usize) -> String {
    let list = (columns * 47 / 100).min(72);
    let right = desk.text().lines().map(|line| line.chars().skip(list + 2).collect::<String>()).collect::<Vec<_>>();
    right.join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_wide_window_has_the_list_left_and_the_item_under_the_cursor_right() {
    let crop = autumn();
    for size in [(120, 40), (190, 50)] {
        let mut desk = Desk::of(&crop.recorded(), PLAIN, size);
        desk.pass(Duration::hours(11));
        desk.keys("e");
        let text = desk.text();
        for heading in ["TOMORROW  in the order of the day", "FLAGGED", "WATCH"] {
            assert!(text.contains(heading), "no {heading}\n{text}");
        }
        assert!(panel(&desk, size.0.into()).contains("DO Do not water until it reads 2."), "{text}");
        stand_on(&mut desk, "R6, R8 (all of Mill");
        let job = panel(&desk, size.0.into());
        for wanted in ["Total 4.23 oz (120 g)", "M3 only when it reads 2", "CAUTION Goggles and gloves"] {
            assert!(job.contains(wanted), "no {wanted}\n{}", desk.text());
        }
        stand_on(&mut desk, "M3 (R6): staying wet");
        let problem = panel(&desk, size.0.into());
        for wanted in ["SEEN water 5, 5", "WHY Roots in wet mix", "CHECK ", "BASIS staying wet", "80 pots"] {
            assert!(problem.contains(wanted), "no {wanted}\n{}", desk.text());
        }
        // Ticked in a wide window as well.
        stand_on(&mut desk, "Look for a drip");
        desk.keys("d");
        assert!(row(&desk, "M3: Look for a drip").contains("[x]"), "{}", desk.text());
    }
}

#[test]
fn what_does_not_fit_the_panel_is_read_by_page_keys() {
    let mut desk = Desk::of(&autumn().recorded(), PLAIN, (120, 24));
    desk.pass(Duration::hours(11));
    desk.keys("e");
    stand_on(&mut desk, "R6, R8 (all of Mill");
    let first = desk.text();
    assert!(first.contains("PgDn: "), "{first}");
    desk.keys("{PgDn}{PgDn}");
    assert!(panel(&desk, 120).contains("calcium chloride heats up"), "{}", desk.text());
    desk.keys("{PgUp}{PgUp}");
    assert_eq!(desk.text(), first);
}
