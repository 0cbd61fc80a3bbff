//! The color forecast against published crops.
//!
//! Rows marked calibration are those the slopes were drawn from; the independent ones had no part in it. Not held, because the
//! program does not say it: the earliest cultivars on natural days, 32 days from first color to flower (national trials 2007),
//! where the shares of a mid-season crop give 22.

use crate::basis::{Basis, Row};
use benchwalk::crop::color::response::{House, INITIATION_SHARE, Seen};
use benchwalk::crop::color::{Look, Milestone, Response, forecast};
use chrono::NaiveDate;

const BARRETT: Basis = Basis::Published("J. Barrett (University of Florida), Heat Delay in Poinsettias, about 2008");
const HAMPSHIRE: Basis =
    Basis::Published("University of New Hampshire trial (P. Fisher), trade summary: weeks by temperature");
const KANSAS: Basis =
    Basis::Published("Kansas State poinsettia trials, Description of Data Collected: scale of 1 to 7");

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = milestones();
    rows.extend(refuted());
    rows.extend(stages());
    rows.extend(calibration());
    rows.extend(hot_start());
    rows.extend(independent());
    rows
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// °C of °F.
fn f(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

/// A crop that takes so many days at 70 °F.
fn takes(days: f64) -> Response {
    Response { weeks: days / 7.0, mean: None }
}

/// Days from SD to a milestone of a crop that takes so many days to pollen.
fn days_to(milestone: Milestone, days: f64) -> f64 {
    let sd = date("2008-10-01");
    (forecast(sd, takes(days), &[], &[]).unwrap().of(milestone).likely - sd).num_days() as f64
}

fn milestones() -> Vec<Row> {
    let row = |name, m, crop, expected, tolerance| Row::new(name, BARRETT, expected, tolerance, days_to(m, crop));
    let mut rows = vec![
        row("70 F, 54-day crop: first color", Milestone::FirstColor, 54.0, 30.0, 0.5),
        row("70 F, 54-day crop: visible bud", Milestone::Cyathia, 54.0, 35.0, 0.5),
        row("70 F, 54-day crop: anthesis", Milestone::FirstPollen, 54.0, 54.0, 0.5),
        row("80 F, 65-day crop: visible bud", Milestone::Cyathia, 65.0, 43.0, 1.0),
    ];
    let indiana = "Camberato, Lopez and Krug 2012, HortScience 47(6):745: 24/19 °C";
    for (days, day) in [(60.0, "2012-11-30"), (55.0, "2012-11-25")] {
        let got = forecast(date("2012-10-01"), takes(days), &[], &[]).unwrap().first_pollen.likely;
        let off = (got - date(day)).num_days() as f64;
        rows.push(Row::new(format!("SD 1 Oct, {days} days: pollen {day}"), Basis::Published(indiana), 0.0, 0.5, off));
    }
    let look = [Look { day: date("2011-10-25"), stage: 3 }];
    let bud = forecast(date("2011-09-17"), takes(54.0), &[], &look).unwrap();
    let florida = Basis::Published("UF/IFAS 2011, early red: visible bud 25 October, finished 15 November");
    let got = (bud.first_pollen.likely - date("2011-10-25")).num_days() as f64;
    rows.push(Row::new("days from a bud seen to the finish", florida, 21.0, 3.0, got));
    rows
}

/// What must not be done.
fn refuted() -> Vec<Row> {
    let hot = share_on(1.0, 56.0, SEVENTY, &at(80.0)) / 7.0;
    let line = Basis::Computed("the 66 and 70 F rows drawn out to 80 F in a straight line: what must not be done");
    let ten =
        Basis::Computed("base temperature 50 F for a delay (8 x 20/13 from 70 to 63 F), which published crops refute");
    let cool = share_on(1.0, 56.0, SEVENTY, &at(63.0)) / 56.0;
    vec![
        Row::new("8 weeks at 70 F, at 80 F", line, 4.5, 1.0, hot).refuted(),
        Row::new("63 F against 70 F", ten, 20.0 / 13.0, 0.1, cool).refuted(),
    ]
}

fn stages() -> Vec<Row> {
    let row = |name, m: Milestone, stage| Row::new(name, KANSAS, stage, 0.0, f64::from(m.stage()));
    vec![
        row("bracts start to color", Milestone::FirstColor, 2.0),
        row("starting to color, cyathia visible", Milestone::Cyathia, 3.0),
        row("fully colored, cyathia visible", Milestone::FullColor, 4.0),
        row("fully colored, some pollen", Milestone::FirstPollen, 5.0),
    ]
}

/// Days from SD to a share of the way, of a crop that takes so many days at its usual mean, with these means, °C, day by day.
fn share_on(share: f64, response_days: f64, usual_c: f64, days_c: &[f64]) -> f64 {
    let days_c: Vec<Option<f64>> = days_c.iter().copied().map(Some).collect();
    House { response_days, usual_c, days_c: &days_c }.reaches(share, Seen::NOTHING).likely
}

/// Means, °C: the first of them for so many days, then the other.
fn two(first: f64, days: usize, then: f64) -> Vec<f64> {
    (0..200).map(|day| if day < days { first } else { then }).collect()
}

/// A mean in °F all along.
fn at(fahrenheit: f64) -> Vec<f64> {
    two(f(fahrenheit), 200, 0.0)
}

const SEVENTY: f64 = 38.0 / 1.8;

/// The rows that the slopes were drawn from.
fn calibration() -> Vec<Row> {
    let mut rows = Vec::new();
    let bud = Milestone::Cyathia.share();
    for (fahrenheit, what, share, published, off) in [
        (70.0, "initiation", INITIATION_SHARE, 14.0, 0.5),
        (70.0, "first color", Milestone::FirstColor.share(), 30.0, 0.5),
        (70.0, "bud", bud, 35.0, 0.5),
        (70.0, "flower", 1.0, 54.0, 0.5),
        (75.0, "flower, much alike", 1.0, 54.0, 1.0),
        (80.0, "initiation", INITIATION_SHARE, 20.0, 1.0),
        (80.0, "bud", bud, 43.0, 1.0),
        (80.0, "flower", 1.0, 65.0, 1.0),
    ] {
        let got = share_on(share, 54.0, SEVENTY, &at(fahrenheit));
        rows.push(Row::new(
            format!("calibration: 54-day crop at {fahrenheit} F: {what}"),
            BARRETT,
            published,
            off,
            got,
        ));
    }
    for (fahrenheit, fast, slow) in [(66.0, 8.0, 11.0), (63.0, 9.0, 13.0)] {
        for (at_seventy, weeks) in [(49.0, fast), (70.0, slow)] {
            let got = share_on(1.0, at_seventy, SEVENTY, &at(fahrenheit));
            let name = format!("calibration: {at_seventy} days at 70 F, at {fahrenheit} F");
            rows.push(Row::new(name, HAMPSHIRE, weeks * 7.0, 3.0, got));
        }
    }
    rows
}

/// Days from SD to a milestone of a 54-day crop in a house at 80 °F all along, by the whole forecast.
fn at_eighty(milestone: Milestone, looks: &[(i64, u8)]) -> f64 {
    let sd = date("2007-10-01");
    let looks: Vec<Look> =
        looks.iter().map(|(day, stage)| Look { day: sd + chrono::TimeDelta::days(*day), stage: *stage }).collect();
    let days_c: Vec<Option<f64>> = at(80.0).into_iter().map(Some).collect();
    (forecast(sd, takes(54.0), &days_c, &looks).unwrap().of(milestone).likely - sd).num_days() as f64
}

/// Color after the bud at 80 °F: printed is only that it came later than the bud, on day 43.
fn hot_start() -> Vec<Row> {
    let rule = Basis::Computed("the bud and 3 days (house rule); printed: first color later than the bud, day 43");
    let seen = at_eighty(Milestone::FirstPollen, &[(40, 1), (47, 2)]);
    vec![
        Row::new("calibration: 80 F, first color", rule, 46.8, 1.0, at_eighty(Milestone::FirstColor, &[])),
        Row::new("calibration: 80 F, flower, color seen on day 47", BARRETT, 65.0, 1.0, seen),
    ]
}

/// The rows that had no part in it.
fn independent() -> Vec<Row> {
    let florida =
        Basis::Published("University of Florida and Clemson trial 2018: 85 against 80 °F, about 3 weeks later");
    let purdue =
        Basis::Published("Camberato, Lopez and Krug 2012, HortScience 47(6):745: 20/14 °C from day 14, day 76");
    let heat = Basis::Published("17 days at 82 °F, then 70 °F: 0 to 11 days later, by cultivar");
    let later = |m: Milestone| [85.0, 80.0].map(|f| share_on(m.share(), 54.0, SEVENTY, &at(f)));
    let mut rows = Vec::new();
    for (what, m) in [("bud", Milestone::Cyathia), ("first color", Milestone::FirstColor)] {
        let [hotter, hot] = later(m);
        rows.push(Row::new(
            format!("independent: {what}, days later at 85 than at 80 F"),
            florida,
            21.0,
            3.0,
            hotter - hot,
        ));
    }
    for (first, then) in [(21.4, 16.6), (21.5, 17.0)] {
        let got = share_on(1.0, 60.0, SEVENTY, &two(first, 14, then));
        rows.push(Row::new(format!("independent: 60-day crop, {then} C from day 14"), purdue, 76.0, 3.0, got));
    }
    for (days, published) in [(60.0, 60.0), (55.0, 55.0)] {
        // True by the definition of the usual mean: it shows that 21.5 °C counts as usual.
        let got = share_on(1.0, days, SEVENTY, &two(21.5, 200, 0.0));
        rows.push(Row::new(format!("by definition: {days}-day crop at 24/19 C"), purdue, published, 0.5, got));
    }
    let usual = share_on(1.0, 60.0, SEVENTY, &two(SEVENTY, 200, 0.0));
    let hot = share_on(1.0, 60.0, SEVENTY, &two(f(82.0), 18, SEVENTY));
    rows.push(Row::new("independent: 17 days of heat, days later", heat, 5.5, 5.5, hot - usual));
    rows
}
