//! The calendar against published crop schedules.

use crate::basis::{Basis, Row};
use benchwalk::crop::calendar::{
    BackwardPlan, ForwardPlan, Layout, PinchPlan, backward_from_sale, bench_area, cuttings_to_order,
    forward_from_planting, usual_centers, usual_cuttings, usual_leads,
};
use benchwalk::units::{Area, Length, Quantity, System};
use chrono::NaiveDate;

const FLORIDA_2004: Basis = Basis::Published("UF/IFAS 2004 height-control schedules");
const FLORIDA_2011: Basis =
    Basis::Published("UF/IFAS 2011 delayed crop: lights out 4 October, pinch 6 September, finish 6 December");
const TEACHING: Basis =
    Basis::Published("extension teaching slides: weeks of response before the sale; date worked out");
const TEXAS: Basis =
    Basis::Published("Texas Poinsettia Producers Guide, Texas A&M: blackout 11 weeks before the sale; date worked out");

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = short_days();
    rows.extend(schedules());
    rows.extend(forward());
    rows.extend(room());
    rows
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// Days by which a date misses the one expected.
fn off(got: NaiveDate, expected: &str) -> f64 {
    (got - date(expected)).num_days() as f64
}

fn plan(ready_by: &str, response_weeks: f64, weeks_before_sd: f64, days_after_planting: f64) -> BackwardPlan {
    let pinch = PinchPlan::Pinched { weeks_before_sd, days_after_planting };
    BackwardPlan { ready_by: date(ready_by), response_weeks, pinch }
}

/// The start of short days back from a sale.
fn short_days() -> Vec<Row> {
    let kansas =
        Basis::Published("Albrecht, Kansas State 1996, citing Florida: harvest 1 December, long days to 29 September");
    [
        (FLORIDA_2011, "2011-12-06", 9.0, "2011-10-04", 0.0),
        (kansas, "1996-12-01", 9.0, "1996-09-29", 0.0),
        (TEACHING, "2026-12-01", 8.0, "2026-10-06", 0.0),
        // 59.5 days: the 2nd or the 3rd by the rounding.
        (TEACHING, "2026-12-01", 8.5, "2026-10-03", 1.0),
        (TEXAS, "2026-11-26", 11.0, "2026-09-10", 0.0),
        (TEXAS, "2027-11-25", 11.0, "2027-09-09", 0.0),
    ]
    .into_iter()
    .map(|(basis, sale, weeks, expected, tolerance)| {
        let got = backward_from_sale(&plan(sale, weeks, 4.0, 14.0)).unwrap().short_days;
        Row::new(format!("sale {sale}, {weeks} weeks: SD {expected}"), basis, 0.0, tolerance, off(got, expected))
    })
    .collect()
}

/// Whole schedules: pinch and planting. Where SD is not printed, the weeks from pinch to finish are split as 4 and the rest.
fn schedules() -> Vec<Row> {
    let mut rows = Vec::new();
    let mut both = |basis, plan: BackwardPlan, pinch: &str, planting: Option<&str>| {
        let back = backward_from_sale(&plan).unwrap();
        let name = format!("sale {}: pinch {pinch}", plan.ready_by);
        rows.push(Row::new(name, basis, 0.0, 0.0, off(back.pinch.unwrap(), pinch)));
        if let Some(planting) = planting {
            let name = format!("sale {}: planting {planting}", plan.ready_by);
            rows.push(Row::new(name, basis, 0.0, 0.0, off(back.planting, planting)));
        }
    };
    both(FLORIDA_2011, plan("2011-12-06", 9.0, 4.0, 14.0), "2011-09-06", None);
    both(FLORIDA_2004, plan("2004-11-16", 6.0, 4.0, 14.0), "2004-09-07", Some("2004-08-24"));
    both(FLORIDA_2004, plan("2004-11-30", 8.0, 4.0, 14.0), "2004-09-07", Some("2004-08-24"));
    both(FLORIDA_2004, plan("2004-11-23", 6.0, 4.0, 12.0), "2004-09-14", Some("2004-09-02"));
    both(FLORIDA_2004, plan("2004-12-07", 10.0, 4.0, 12.0), "2004-08-31", Some("2004-08-19"));
    let york = Basis::Published(
        "Poinsettia Pointers, New York State Flower Growers Bulletin 129: initiation 10 October, pinch 4-5 weeks before",
    );
    both(york, plan("1956-12-05", 8.0, 5.0, 14.0), "1956-09-05", None);
    both(york, plan("1956-12-05", 8.0, 4.0, 14.0), "1956-09-12", None);
    let iowa = Basis::Published(
        "Youds and Currey (Iowa State) 2023: plant 6, pinch 4 weeks before SD; tabletop tree 9 and 2; SD 1 October set",
    );
    both(iowa, plan("2026-11-26", 8.0, 4.0, 14.0), "2026-09-03", Some("2026-08-20"));
    both(iowa, plan("2026-11-26", 8.0, 2.0, 49.0), "2026-09-17", Some("2026-07-30"));
    let leads = usual_leads(false);
    rows.push(Row::new("usual weeks from pinch to SD, 6.5 in", FLORIDA_2011, 4.0, 0.0, leads.pinch_weeks.likely));
    let smaller = Basis::Published("UF/IFAS 2011 delayed crop: 3-3.5 weeks for smaller plants");
    rows.push(Row::new(
        "usual weeks from pinch to SD, smaller",
        smaller,
        3.25,
        0.25,
        usual_leads(true).pinch_weeks.likely,
    ));
    rows.push(Row::new("usual days from planting to pinch, least", FLORIDA_2004, 12.0, 0.0, leads.plant_days.low));
    rows.push(Row::new("usual days from planting to pinch", FLORIDA_2004, 14.0, 0.0, leads.plant_days.likely));
    let indiana = Basis::Published("P. A. Hammer (Purdue), scheduling by vigor, about 2002: 2 or 3 weeks");
    rows.push(Row::new("usual days from planting to pinch, most", indiana, 21.0, 0.0, leads.plant_days.high));
    rows
}

fn forward() -> Vec<Row> {
    let kansas = Basis::Published("Albrecht, Kansas State 1988: planted 18 August, pinched 1 September");
    let plan = ForwardPlan {
        planted: date("1988-08-18"),
        pinched: true,
        pinched_on: None,
        short_days: Some(date("1988-09-25")),
        response: benchwalk::crop::color::Response { weeks: 9.0, mean: None },
        days_c: &[],
        looks: &[],
    };
    let f = forward_from_planting(&plan).unwrap();
    let drench = Basis::Published("Currey and Lopez (Purdue) 2010: early drench two weeks after the pinch");
    let strategies = Basis::Published(
        "Poinsettia height control strategies, trade text: first spray one to four weeks after the pinch",
    );
    let purdue = Basis::Published("Floriculture Indiana 3(4), Purdue: extra magnesium every 4-6 weeks");
    let regulator = f.first_growth_regulator.unwrap();
    vec![
        Row::new("pinch", kansas, 0.0, 0.0, off(f.pinch.unwrap().likely, "1988-09-01")),
        Row::new("first growth regulator", drench, 0.0, 0.0, off(regulator.likely, "1988-09-15")),
        Row::new(
            "first growth regulator, days after the latest pinch",
            strategies,
            28.0,
            0.0,
            off(regulator.high, "1988-09-08"),
        ),
        Row::new("magnesium, days after planting", purdue, 35.0, 7.0, off(f.nutrients.likely, "1988-08-18")),
        Row::new(
            "magnesium due, days after planting",
            Basis::CommonPractice,
            42.0,
            0.0,
            off(f.nutrients.likely, "1988-08-18"),
        ),
    ]
}

fn room() -> Vec<Row> {
    let sheet = Basis::Published("breeder culture sheet: 15 in centers; room worked out at 1.56 square feet a pot");
    let area = bench_area(1, Length::from_cm(15.0 * 2.54), Layout::Square).unwrap();
    let hand = Basis::Computed("by hand: 1,000 pots, one each, 5% spare");
    let georgia = Basis::Published("University of Georgia list 2012: 12, 18 and 24 in for 6, 8 and 10 in pots");
    let massachusetts =
        Basis::Published("D. Cox, UMass, Growth Retardants for Poinsettias: at least 1.2 square feet for a 6 in pot");
    let centers = |inches: f64| usual_centers(Length::from_cm(inches * 2.54)).unwrap();
    let square_feet = |area: Area| area.in_system(System::Us);
    let room = |centers| square_feet(bench_area(1, centers, Layout::Square).unwrap());
    let nearest = 1.2_f64.clamp(room(centers(6.0).low), room(centers(6.0).high));
    let texas = Basis::Published("Texas Poinsettia Producers Guide, Texas A&M: one a pot, pinched; 3-4 unpinched");
    let cuttings = |inches: f64, pinched| usual_cuttings(Length::from_cm(inches * 2.54), pinched).unwrap();
    vec![
        Row::new("15 in centers, square feet a pot", sheet, 1.56, 0.005, square_feet(area)),
        Row::new("cuttings to order", hand, 1_050.0, 0.0, cuttings_to_order(1_000, 1, 0.05).unwrap() as f64),
        Row::new("centers of a 6 in pot, in", georgia, 12.0, 1e-9, centers(6.0).likely.in_system(System::Us)),
        Row::new("centers of an 8 in pot, in", georgia, 18.0, 1e-9, centers(8.0).likely.in_system(System::Us)),
        Row::new("centers of a 10 in pot, in", georgia, 24.0, 1e-9, centers(10.0).likely.in_system(System::Us)),
        Row::new("room in the range for 6 in nearest to it, square feet", massachusetts, 1.2, 0.0, nearest),
        Row::new("cuttings in a 6.5 in pot", texas, 1.0, 0.0, f64::from(cuttings(6.5, true).0)),
        Row::new("cuttings in an unpinched 6 in pot, most", texas, 4.0, 0.0, f64::from(cuttings(6.0, false).1)),
    ]
}
