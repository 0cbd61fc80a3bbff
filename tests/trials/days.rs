//! Several days: each by itself, growth through all of them; when plots are due, and a trial that ended early.

use crate::field::{Field, date, near};
use crate::rng::Rng;
use benchwalk::record::TrialReading;
use benchwalk::stats::Draw;
use benchwalk::trials::{Caution, Over, Reading, Readings, Rules, analyze, due, randomized_blocks, scheduled};

const RATES: [&str; 4] = ["0 g", "4 g", "8 g", "12 g"];
const DAYS: [(u32, u32); 4] = [(10, 5), (10, 12), (10, 19), (10, 26)];

/// Six blocks of four; a rate makes pots grow by so much more a day. Pots differ in height from the start.
fn read_on(days: &[(u32, u32)]) -> Field {
    let mut field = Field::new();
    field.trial("randomized-blocks", &RATES, r#","reads":["height","greenness"],"until":"2026-11-20""#);
    let blocks = randomized_blocks(&[1; 4], 6, &mut Draw::new("T1", "48213907", "layout"));
    let mut rng = Rng::new(23);
    let mut n = 0;
    for (row, block) in (1..).zip(blocks) {
        for (column, rate) in (1..).zip(block) {
            n += 1;
            field.plot(n, ("M4", row, column), Some(row), RATES[rate]);
            let start = 25.0 + 0.5 * f64::from(row) + 1.5 * rng.normal();
            for (month, day) in days {
                let on = date(*month, *day);
                let passed = (on - date(10, 5)).num_days() as f64;
                let cm = start + passed * (0.25 + 0.03 * rate as f64) + 0.1 * rng.normal();
                field.height(on, n, &[(cm * 10.0).round() / 10.0]);
            }
        }
    }
    field
}

#[test]
fn each_day_is_analyzed_by_itself_and_growth_through_all_of_them() {
    let field = read_on(&DAYS);
    let readings = field.readings(date(10, 26));
    let days: Vec<_> = readings.days(TrialReading::Height).iter().map(|day| (day.day, day.read, day.living)).collect();
    assert_eq!(days, DAYS.map(|(month, day)| (date(month, day), 24, 24)));
    assert_eq!(readings.reported(TrialReading::Height), Some(date(10, 26)));
    let p = |over| {
        let data = readings.data(TrialReading::Height, over, false).unwrap();
        analyze(&data, Rules::default()).unwrap().treatment.p.unwrap()
    };
    assert!(p(Over::Day(date(10, 5))) > 0.05, "before the rates could do anything");
    // Days are never replicates: a plot has one slope.
    let growth = readings.data(TrialReading::Height, Over::Growth, false).unwrap();
    assert_eq!((growth.plots.len(), growth.reading), (24, Reading::Measured));
    let analysis = analyze(&growth, Rules::default()).unwrap();
    assert_eq!(analysis.rest.squares.df, 15);
    near(analysis.means[0].mean, 0.25, 0.01);
    near(analysis.means[3].mean, 0.34, 0.01);
    assert!(analysis.treatment.p.unwrap() < 1e-6, "growth tells what heights of pots that differ do not");
    assert!(p(Over::Day(date(10, 26))) > analysis.treatment.p.unwrap());
}

#[test]
fn plots_begun_on_one_day_and_finished_on_the_next_are_one_reading() {
    let mut field = read_on(&[(10, 5)]);
    for n in 1..=24 {
        field.height(date(10, if n <= 13 { 12 } else { 13 }), n, &[30.0 + f64::from(n)]);
    }
    // Read once more: the later one counts.
    field.height(date(10, 13), 2, &[50.0]);
    let days = |readings: &Readings| -> Vec<_> {
        readings.days(TrialReading::Height).iter().map(|day| (day.day, day.read)).collect()
    };
    let evening = field.readings(date(10, 12));
    assert_eq!(days(&evening), [(date(10, 5), 24), (date(10, 12), 13)]);
    assert_eq!(evening.reported(TrialReading::Height), Some(date(10, 5)), "half a reading is not reported");
    let readings = field.readings(date(10, 13));
    assert_eq!(days(&readings), [(date(10, 5), 24), (date(10, 13), 24)]);
    assert_eq!(readings.reported(TrialReading::Height), Some(date(10, 13)));
    assert_eq!(readings.begun(TrialReading::Height, date(10, 13)), date(10, 12));
    let value = |plot| readings.value(plot, TrialReading::Height, date(10, 13)).unwrap();
    for (plot, cm) in [(0, 31.0), (1, 50.0), (23, 54.0)] {
        near(value(plot), cm, 1e-9);
    }
    assert!(readings.value_on(0, TrialReading::Height, date(10, 13)).is_none(), "the single day holds what it holds");
    let data = readings.data(TrialReading::Height, Over::Day(date(10, 13)), false).unwrap();
    assert_eq!(analyze(&data, Rules::default()).unwrap().rest.squares.df, 15);
    // A third day in part stands by itself.
    for n in 1..=5 {
        field.height(date(10, 14), n, &[60.0]);
    }
    let later = field.readings(date(10, 14));
    assert_eq!(days(&later), [(date(10, 5), 24), (date(10, 13), 24), (date(10, 14), 5)]);
}

#[test]
fn growth_is_the_least_squares_slope_and_needs_three_days() {
    let mut field = Field::new();
    field.trial("as-laid", &["0 g", "8 g"], r#","reads":["height"]"#);
    field.plot(1, ("M4", 1, 1), None, "0 g");
    field.plot(2, ("M4", 1, 2), None, "8 g");
    for (day, cm) in [(5, 20.0), (8, 22.0), (15, 23.0)] {
        field.height(date(10, day), 1, &[cm]);
    }
    field.height(date(10, 5), 2, &[20.0]);
    field.height(date(10, 15), 2, &[25.0]);
    let data = field.readings(date(10, 20)).data(TrialReading::Height, Over::Growth, false).unwrap();
    // Through days 0, 3 and 10; the means are 13/3 days and 65/3 cm.
    let (x, y) = ([0.0, 3.0, 10.0], [20.0, 22.0, 23.0]);
    let (mx, my) = (13.0 / 3.0, 65.0 / 3.0);
    let slope = x.iter().zip(y).map(|(x, y)| (x - mx) * (y - my)).sum::<f64>()
        / x.iter().map(|x| (x - mx) * (x - mx)).sum::<f64>();
    near(data.plots[0].value.unwrap(), slope, 1e-12);
    assert_eq!(data.plots[1].value, None, "two days are no line");
}

#[test]
fn more_than_one_reading_looked_at_is_said() {
    let mut field = read_on(&DAYS[..2]);
    let readings = |field: &Field| field.readings(date(10, 12)).cautions();
    assert_eq!(readings(&field), []);
    for n in 1..=24 {
        field.entry(date(10, 12), n, &format!(r#""kind":"greenness","class":{}"#, 1 + n % 5));
    }
    assert_eq!(readings(&field), [Caution::Readings(2)]);
    let greenness = field.readings(date(10, 12)).data(TrialReading::Greenness, Over::Day(date(10, 12)), false).unwrap();
    assert_eq!(greenness.reading, Reading::Scored);
}

#[test]
fn a_meter_counts_only_where_every_plot_was_read_with_it() {
    let mut field = read_on(&DAYS[..1]);
    let rest = |n: u32| if n == 24 { r#""class":4"#.to_owned() } else { format!(r#""class":3,"spad":{}"#, 40 + n) };
    for n in 1..=24 {
        field.entry(date(10, 12), n, &format!(r#""kind":"greenness",{}"#, rest(n)));
    }
    let of = |field: &Field| {
        let data = field.readings(date(10, 12)).data(TrialReading::Greenness, Over::Day(date(10, 12)), false).unwrap();
        (data.reading, data.plots[0].value, data.plots[23].value)
    };
    assert_eq!(of(&field), (Reading::Scored, Some(3.0), Some(4.0)));
    field.entry(date(10, 12), 24, r#""kind":"greenness","spad":64"#);
    let (_, first, _) = of(&field);
    assert_eq!(first, Some(3.0), "the class that was judged first still counts as one without the meter");
}

#[test]
fn a_trial_that_ended_early_keeps_its_readings_and_asks_for_no_more() {
    let mut field = read_on(&DAYS[..3]);
    let open = field.season();
    let trial = |season: &benchwalk::season::Season| season.trial("T1").unwrap().clone();
    assert_eq!(due(&open, &trial(&open), date(10, 26)).len(), 24, "a week after the last reading");
    field.line(
        r#"{"type":"trial","trial":"T1","lot":"R6","question":"slow-release rate","treatments":["0 g","4 g","8 g","12 g"],"design":"randomized-blocks","seed":"48213907","reads":["height","greenness"],"from":"2026-10-05","until":"2026-10-19","ended_because":"pots sold early","at":"2026-10-20T08:00:00-04:00","by":"kt"}"#,
    );
    let ended = field.season();
    assert_eq!(trial(&ended).ended_because.as_deref(), Some("pots sold early"));
    assert_eq!(scheduled(&trial(&ended), date(10, 26)), None);
    assert_eq!(due(&ended, &trial(&ended), date(10, 26)), []);
    let readings = |season| Readings::of(season, "T1", date(10, 26)).unwrap();
    assert_eq!(readings(&ended).reported(TrialReading::Height), Some(date(10, 19)));
    let data = |season| readings(season).data(TrialReading::Height, Over::Day(date(10, 19)), false).unwrap();
    assert_eq!(data(&ended), data(&open), "what was read stays as it was");
}

#[test]
fn a_plot_is_due_until_all_its_readings_of_the_day_are_there() {
    let mut field = read_on(&DAYS[..1]);
    let missing = |field: &Field, on| {
        let season = field.season();
        let due = due(&season, season.trial("T1").unwrap(), on);
        (due.len(), due.first().map(|plot| plot.missing.clone()).unwrap_or_default())
    };
    assert_eq!(missing(&field, date(10, 4)), (0, vec![]), "before the first day");
    assert_eq!(missing(&field, date(10, 5)), (24, vec![TrialReading::Greenness]));
    for n in 1..=23 {
        field.entry(date(10, 6), n, r#""kind":"greenness","class":3"#);
    }
    assert_eq!(
        missing(&field, date(10, 6)),
        (1, vec![TrialReading::Greenness]),
        "read a day later it is still of that day"
    );
    field.entry(date(10, 6), 24, r#""kind":"losses","pots":1"#);
    assert_eq!(missing(&field, date(10, 6)).0, 0, "a lost plot is not due");
    assert_eq!(missing(&field, date(10, 12)), (23, vec![TrialReading::Height, TrialReading::Greenness]));
}
