//! Charts of no, one, equal and missing readings, of any number whatever, at any size.

use super::{Dash, Ink, Plot, plot};
use crate::input::{Look, Palette};
use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

/// The cells of a chart as text.
fn drawn(chart: &Plot, (width, height): (u16, u16), ascii: bool) -> String {
    let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
    let look = Look { color: false, ascii, palette: Palette::Usual };
    terminal.draw(|frame| plot(frame, frame.area(), chart, look)).unwrap();
    let buffer = terminal.backend().buffer().clone();
    let rows = buffer.content.chunks(usize::from(width.max(1)));
    rows.map(|row| row.iter().map(ratatui::buffer::Cell::symbol).collect::<String>().trim_end().to_owned() + "\n")
        .collect()
}

fn readings(points: &[(f64, f64)]) -> Plot {
    Plot {
        across: (0.0, 20.0),
        upright: (0.0, 10.0),
        ticks: vec![(0.0, "0".into()), (5.0, "5".into()), (10.0, "10".into())],
        days: vec![(0.0, "Oct 1".into()), (10.0, "Oct 11".into())],
        here: None,
        inks: vec![
            Ink::Line("limit".into(), vec![(0.0, 8.0), (20.0, 8.0)], Dash::Dashed),
            Ink::Dots("seen".into(), points.iter().map(|p| (p.0, p.1, None)).collect(), false),
            Ink::Marks("sprayed".into(), points.iter().map(|p| p.0).collect()),
        ],
    }
}

/// Holds a picture against the one kept among the other snapshots.
fn looks(name: &str, picture: &str) {
    insta::with_settings!({ snapshot_path => "../../../tests/snapshots", prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!(format!("chart_{name}"), picture);
    });
}

#[test]
fn no_reading() {
    looks("no_reading", &drawn(&readings(&[]), (36, 12), true));
}

#[test]
fn one_reading() {
    looks("one_reading", &drawn(&readings(&[(10.0, 4.0)]), (36, 12), true));
}

#[test]
fn equal_readings_on_a_flat_scale() {
    let mut chart = readings(&[(5.0, 4.0), (10.0, 4.0)]);
    chart.upright = (4.0, 4.0);
    chart.ticks = vec![(4.0, "4".into())];
    looks("equal_readings_on_a_flat_scale", &drawn(&chart, (36, 12), true));
}

#[test]
fn missing_readings_are_left_out() {
    let mut chart = readings(&[(2.0, 2.0), (5.0, f64::NAN), (f64::INFINITY, 3.0), (18.0, 9.0)]);
    chart.inks.push(Ink::Line("curve".into(), vec![(0.0, 1.0), (f64::NAN, 2.0), (20.0, 10.0)], Dash::Solid));
    looks("missing_readings_are_left_out", &drawn(&chart, (36, 12), true));
}

#[test]
fn everything_at_once_in_fine_dots() {
    let mut chart = readings(&[]);
    chart.here = Some(12.0);
    chart.inks = vec![
        Ink::Band("expected".into(), vec![(12.0, 5.0, 5.0), (20.0, 4.0, 9.0)]),
        Ink::Line("upper".into(), vec![(0.0, 2.0), (20.0, 8.0)], Dash::Dashed),
        Ink::Line("curve".into(), vec![(0.0, 1.0), (20.0, 6.0)], Dash::Solid),
        Ink::Line("likely".into(), vec![(12.0, 5.0), (20.0, 6.5)], Dash::Dotted),
        Ink::Dots("measured".into(), vec![(6.0, 3.0, Some((2.0, 4.0))), (12.0, 5.0, None)], false),
        Ink::Dots("base".into(), vec![(3.0, 1.0, None)], true),
        Ink::Marks("sprayed".into(), vec![4.0, 9.0]),
        Ink::Marks("pinched".into(), vec![1.0]),
    ];
    looks("everything_at_once_in_fine_dots", &drawn(&chart, (60, 16), false));
}

#[test]
fn a_number_that_is_none_and_bounds_the_wrong_way_round_end_in_time() {
    // The chart of the terminal library never comes back from this one.
    let mut chart = readings(&[(f64::NAN, 4.0), (5.0, f64::NAN), (f64::NEG_INFINITY, f64::INFINITY), (10.0, 4.0)]);
    (chart.across, chart.upright) = ((20.0, 0.0), (10.0, f64::NAN));
    chart.here = Some(f64::NAN);
    chart.inks.push(Ink::Line("curve".into(), vec![(0.0, f64::NAN), (20.0, 1.0), (f64::MAX, f64::MIN)], Dash::Solid));
    let (done, waits) = std::sync::mpsc::channel();
    std::thread::spawn(move || done.send(drawn(&chart, (36, 12), true)).ok());
    let text = waits.recv_timeout(std::time::Duration::from_mins(1)).expect("drawn within a minute");
    assert!(text.contains('o'), "the one reading that is a number is shown:\n{text}");
}

fn numbers() -> impl Strategy<Value = f64> {
    prop_oneof![proptest::num::f64::ANY, -10.0..30.0_f64, Just(f64::MAX), Just(f64::MIN), Just(0.0)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// Each picture is a bounded number of cells, so this ends: the work does not grow with the size of a number.
    #[test]
    fn any_numbers_at_any_size_are_survived(
        points in proptest::collection::vec((numbers(), numbers(), numbers()), 0..12),
        across in (numbers(), numbers()), upright in (numbers(), numbers()), here in numbers(),
        width in 0u16..130, height in 0u16..45, ascii: bool,
    ) {
        let pairs: Vec<(f64, f64)> = points.iter().map(|p| (p.0, p.1)).collect();
        let chart = Plot {
            across, upright, here: Some(here),
            ticks: pairs.iter().map(|p| (p.1, "tick".to_owned())).collect(),
            days: pairs.iter().map(|p| (p.0, "Oct 1".to_owned())).collect(),
            inks: vec![
                Ink::Band("band".into(), points.clone()),
                Ink::Line("a".into(), pairs.clone(), Dash::Solid),
                Ink::Line("b".into(), pairs.clone(), Dash::Dashed),
                Ink::Line("c".into(), pairs.clone(), Dash::Dotted),
                Ink::Dots("d".into(), points.iter().map(|p| (p.0, p.1, Some((p.2, p.1)))).collect(), true),
                Ink::Marks("e".into(), pairs.iter().map(|p| p.0).collect()),
                Ink::Band("f".into(), points.clone()),
                Ink::Strip("g".into(), pairs.clone(), upright.0),
            ],
        };
        let text = drawn(&chart, (width, height), ascii);
        prop_assert!(!ascii || text.is_ascii());
    }
}
