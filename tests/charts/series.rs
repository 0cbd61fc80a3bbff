//! The charts of benches, calendars, nights and pots hold what the warnings go by, and nothing that cannot be drawn.

use crate::{demo, last_day};
use benchwalk::limits::Limits;
use benchwalk::report::chart::{Chart, Layer};
use benchwalk::report::series::{self, Reach, State, Topic};
use benchwalk::season::Season;
use benchwalk::warnings::bench_view;
use chrono::{Days, NaiveDate};

fn values(layer: &Layer) -> Vec<(NaiveDate, f64)> {
    match layer {
        Layer::Band { points, .. } => points.iter().flat_map(|p| [(p.0, p.1), (p.0, p.2)]).collect(),
        Layer::Line { points, .. } | Layer::Strip { points, .. } => points.clone(),
        Layer::Dots { points, .. } => points.iter().map(|p| (p.0, p.1)).collect(),
        Layer::Marks { days, .. } => days.iter().map(|d| (*d, 0.0)).collect(),
    }
}

fn layer<'a>(chart: &'a Chart, name: &str) -> &'a Layer {
    chart.layers.iter().find(|l| l.name().starts_with(name)).unwrap_or_else(|| panic!("no {name} in {chart:?}"))
}

#[test]
fn every_chart_of_every_bench_stays_inside_its_days_and_is_finite() {
    let (season, limits) = (demo(), Limits::default());
    let on = last_day(&season);
    for bench in season.benches() {
        for reach in [Reach::Season, Reach::ThreeWeeks] {
            let days = series::days(&season, &bench.bench, (reach, on));
            for topic in Topic::ALL {
                let chart = series::bench(&season, (&bench.bench, *topic), on, days, &limits);
                assert!(!chart.text.is_empty());
                for (day, value) in chart.layers.iter().flat_map(values) {
                    assert!(days.0 <= day && day <= days.1 && value.is_finite(), "{chart:?}");
                }
                let table = chart.table();
                assert!(table.rows.iter().all(|r| r.len() == table.heads.len()));
            }
        }
    }
}

#[test]
fn the_window_and_the_fan_are_those_the_warnings_go_by() {
    let (season, limits) = (demo(), Limits::default());
    let on = last_day(&season);
    let mut fans = 0;
    for bench in season.benches() {
        let Some(heights) = bench_view(&season, &bench.bench, on, &limits).and_then(|s| s.heights) else { continue };
        let days = series::days(&season, &bench.bench, (Reach::Season, on));
        let chart = series::bench(&season, (&bench.bench, Topic::Height), on, days, &limits);
        let Layer::Band { points, .. } = layer(&chart, "window") else { panic!("a band") };
        let (day, low, high) = points[points.len() / 2];
        let window = heights.target.window(day);
        assert!((low * 2.54 - window.low_cm).abs() < 1e-9 && (high * 2.54 - window.high_cm).abs() < 1e-9);
        let Some(projection) = heights.projection else { continue };
        let Layer::Band { points, .. } = layer(&chart, "expected") else { panic!("a band") };
        let (last, low, high) = *points.last().unwrap();
        assert_eq!(last, projection.finish);
        assert!((low * 2.54 - projection.interval.low).abs() < 1e-6);
        assert!((high * 2.54 - projection.interval.high).abs() < 1e-6);
        assert!((points[0].1 - points[0].2).abs() < 1e-9, "it opens from one point");
        fans += 1;
    }
    assert!(fans > 3, "the demo has projections");
}

#[test]
fn a_chart_of_an_unknown_bench_says_that_nothing_is_written() {
    let season = demo();
    let on = last_day(&season);
    let chart = series::bench(&season, ("no such", Topic::Roots), on, (on, on), &Limits::default());
    assert!(chart.text.contains("Nothing logged yet."), "{}", chart.text);
}

#[test]
fn the_calendar_goes_from_planned_to_done_as_the_days_pass() {
    let (season, limits) = (demo(), Limits::default());
    let on = last_day(&season);
    let lot = season.lots()[0].clone();
    let state = |day: NaiveDate, name: &str| {
        let all = series::calendar(&season, day, &limits);
        let of_lot = all.iter().find(|c| c.lot == lot.lot).unwrap();
        of_lot.steps.iter().find(|s| s.name == name).map(|s| s.state)
    };
    assert_eq!(state(lot.planted, "planting"), Some(State::Done));
    assert_eq!(state(lot.planted.pred_opt().unwrap(), "planting"), Some(State::Planned));
    assert_eq!(state(lot.planted, "short days"), Some(State::Forecast));
    assert_eq!(state(lot.ready_by, "short days"), Some(State::Done));
    for calendar in series::calendar(&season, on, &limits) {
        assert!(calendar.steps.len() >= 9, "{calendar:?}");
        for step in &calendar.steps {
            assert!(step.from <= step.to && !step.words.is_empty(), "{step:?}");
        }
    }
}

#[test]
fn work_not_done_is_due_then_late() {
    use benchwalk::record::KindName;
    let demo = demo();
    let kept = demo.entries().iter().filter(|e| !matches!(e.name(), KindName::Pinched | KindName::Nutrient));
    let season = Season::new(demo.plan().clone(), kept.cloned().collect());
    let lot = season.lots().into_iter().find(|l| l.lot == "R1").unwrap().clone();
    let step = |after: u64, name: &str| {
        let day = lot.planted + Days::new(after);
        let all = series::calendar(&season, day, &Limits::default());
        let of_lot = all.into_iter().find(|c| c.lot == lot.lot).unwrap();
        of_lot.steps.into_iter().find(|s| s.name == name).unwrap()
    };
    // Pinch: due on day 14, overdue from day 21; magnesium: due on day 42, missed from day 46 (the limits' own days).
    for (name, states) in [
        ("pinch", [(13, State::Planned), (14, State::Due), (20, State::Due), (21, State::Late)]),
        ("magnesium", [(41, State::Planned), (42, State::Due), (45, State::Due), (46, State::Late)]),
        ("molybdenum", [(41, State::Planned), (42, State::Due), (45, State::Due), (46, State::Late)]),
    ] {
        for (after, state) in states {
            assert_eq!(step(after, name).state, state, "{name} on day {after}");
        }
    }
    assert_eq!(step(21, "pinch").words, "was due Sep 1");
}

#[test]
fn the_two_ways_of_counting_a_night_lie_weeks_apart() {
    let season = demo();
    let nights = series::nights(&season, &Limits::default()).unwrap();
    let apart = (nights.civil.unwrap() - nights.sunset.unwrap()).num_days();
    // Sunset to sunrise reaches the critical night three to four weeks before civil twilight (R. Kobayashi's dates against New
    // York's older ones).
    assert!((14..=35).contains(&apart), "{apart}");
    assert_eq!(nights.chart.layers.len(), 5, "{:?}", nights.chart);
}

#[test]
fn pots_add_up() {
    let season = demo();
    let on = last_day(&season);
    for lot in series::pots(&season, on) {
        assert!(lot.placed > 0 && lot.standing > 0, "{lot:?}");
        assert!(lot.standing + lot.lost + lot.dumped + lot.sold <= lot.placed + 20, "{lot:?}");
    }
}
