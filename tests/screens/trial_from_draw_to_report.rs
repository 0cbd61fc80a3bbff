//! A trial lived through: set up by its form, drawn, on paper, given, read, judged, taken to another laptop.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, lot};
use benchwalk::input::Key;
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Line, Lot, Plot};
use benchwalk::report::trial::map::{self, Purpose};
use benchwalk::report::trial::{Laid, Report, json, labels, text};
use benchwalk::season::Season;
use benchwalk::trials::{Readings, Rules};
use chrono::NaiveDate;

/// Rates, bench and grid of the form from Setup, greenness read too; the layout drawn once more and saved.
const SET_UP: &str = "gat0,4,8,12{Tab}{Tab}M4{Tab}6x4{Tab}{Tab}{Tab}{Tab}{Tab}{Tab}b{Enter}{F3}{Enter}";
/// From Setup to the trial's page, and all treatments logged as given.
const GIVE: &str = "tw{Enter}";

/// Presses keys and counts them.
fn press(desk: &mut Desk, row: &str) -> usize {
    desk.keys(row);
    Key::row(row).unwrap().len()
}

/// Height in inches: what the rate gives, less from row to row toward the wall, and what no one knows.
fn height(plot: &Plot) -> f64 {
    let rate: f64 = plot.treatment.trim_end_matches(" g").parse().unwrap();
    let chance = f64::from(plot.number() * 7 % 5) / 10.0;
    12.0 + rate / 10.0 - f64::from(plot.column) * 0.8 + chance
}

/// The whole of a trial as it is printed, as text and JSON.
fn report(season: &Season, day: NaiveDate) -> String {
    let readings = Readings::of(season, "T1", day).unwrap();
    let site = season.site().unwrap();
    let report = Report::of(&readings, (None, false), Rules::of(&limits()), (&site.name, site.units));
    format!("{}{}", text(&report), json(&report).unwrap())
}

fn limits() -> Limits {
    Limits::parse("[trial]\nshuffles = 999\n").unwrap()
}

#[test]
fn a_trial_from_its_form_to_its_report_on_another_laptop() {
    let crop = Crop::bare().with_lot(Lot { pots: 200, ..lot("R6") });
    let season = crop.bench_in("M4", "Mill", 1).filled("M4", "R6", 80, (8, 17)).season();
    let mut desk = Desk::by(&season, limits(), COLOR, (80, 24));
    let day = desk.app.model.day;

    let set_up = press(&mut desk, SET_UP);
    assert!(desk.text().starts_with("Setup"), "{}", desk.text());
    let plots: Vec<Plot> = desk
        .kept
        .iter()
        .filter_map(|line| if let Line::Plot(plot) = line { Some(plot.clone()) } else { None })
        .collect();
    assert_eq!(plots.len(), 24);

    // Paper: the map for giving says what is weighed out; map and labels for reading are blind.
    let laid = Laid::of(&desk.app.model.season, "T1", day).unwrap();
    let (giving, reading) = (map::text(&laid, Purpose::Giving), map::text(&laid, Purpose::Reading));
    assert!(giving.contains("12 g: plots ") && giving.contains("6 pots, 72 g"), "{giving}");
    assert!(giving.contains("drawn 2 times"), "{giving}");
    for blind in [reading, labels::text(&laid)] {
        assert!(
            blind.contains("24") && ["0 g", "4 g", "8 g", "12 g"].iter().all(|rate| !blind.contains(rate)),
            "{blind}"
        );
    }

    let give = press(&mut desk, GIVE);
    assert!(desk.text().starts_with("Trial T1"), "{}", desk.text());
    let given = |line: &&Line| matches!(line, Line::Entry(entry) if entry.plot.is_some());
    assert_eq!(desk.kept.iter().filter(given).count(), 18, "a rate of 0 g is nothing to give");

    let open = press(&mut desk, "{Enter}");
    let (mut lines, mut digits) = (0, 0);
    for plot in &plots {
        let text = desk.text();
        assert!(text.contains(&format!("plot {} ", plot.number())) && !text.contains(" g "), "{text}");
        desk.keys(&format!("{:.1}{{Enter}}", height(plot)));
        lines += 1;
        digits += press(&mut desk, if plot.treatment == "12 g" { "4" } else { "3" });
    }
    assert_eq!((set_up, give, open, lines, digits), (29, 3, 1, 24, 24), "keys and lines of the whole trial");

    // The page says it without being asked.
    desk.keys("r").keys("t").settle();
    let page = desk.text();
    for said in ["12 g is ", " in taller than 0 g (", "Position explains", "drawn 2 times"] {
        assert!(page.contains(said), "no {said:?} in\n{page}");
    }

    // Out to a journal and into another laptop: the same lines, the same report.
    let here = desk.app.model.season.clone();
    let journal = journal::write(None, here.plan(), here.entries());
    let there = Season::of(journal::read(&journal).unwrap());
    assert_eq!(journal::write(None, there.plan(), there.entries()), journal);
    let said = report(&here, day);
    assert!(said.contains("Told apart") && said.contains("greenness"), "{said}");
    assert_eq!(report(&there, day), said);
}
