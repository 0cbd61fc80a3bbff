//! Scouting arithmetic: shares and intervals, detection, cards, stop lines.

use crate::basis::{Basis, Row};
use benchwalk::crop::pests::{CardCatch, Sample, Stop, StopLines, detection_chance, infested, plants_to_detect};

const WILSON: Basis = Basis::Computed("Wilson 1927 score interval, z 1.96, worked apart from the program");
const BINOMIAL: Basis = Basis::Computed("1 - (1 - p)^n, worked apart from the program");
const WALD: Basis = Basis::Computed("Wald 1945 binomial lines, worked apart from the program");
const SPINNER: Basis =
    Basis::Published("Spinner and others 2011, Aust. J. Entomol. 50: 20 plants find over 20% in over 95%");
const RUTGERS: Basis =
    Basis::Published("Rettke (Rutgers), Pest counts and action thresholds: thrips 40 a card, week and 1,000 sq ft");

fn yes(is: bool) -> f64 {
    f64::from(u8::from(is))
}

pub(crate) fn rows() -> Vec<Row> {
    [shares(), detection(), catches(), lines()].concat()
}

fn shares() -> Vec<Row> {
    let mut rows = Vec::new();
    for (found, n, share, low, high, off) in [
        (15, 75, 20.0, 12.5, 30.4, 0.05),
        (12, 60, 20.0, 11.8, 31.8, 0.05),
        (6, 60, 10.0, 4.66, 20.15, 0.005),
        (3, 20, 15.0, 5.2, 36.0, 0.05),
        (0, 20, 0.0, 0.0, 16.1, 0.05),
    ] {
        let got = infested(Sample { inspected: n, infested: found }).ok();
        let percent = |part: Option<f64>| part.map_or(f64::NAN, |p| p * 100.0);
        let name = |what: &str| format!("{found} of {n}, {what}%");
        rows.push(Row::new(name("share"), WILSON, share, 1e-9, percent(got.map(|g| g.share))));
        rows.push(Row::new(name("low"), WILSON, low, off, percent(got.map(|g| g.low))));
        rows.push(Row::new(name("high"), WILSON, high, off, percent(got.map(|g| g.high))));
    }
    // None found is never "clean".
    let none = infested(Sample { inspected: 20, infested: 0 }).map_or(f64::NAN, |g| g.high);
    rows.push(Row::new("none of 20 means none", WILSON, 0.0, 0.1, none).refuted());
    let no_data = infested(Sample { inspected: 0, infested: 0 }).is_err();
    rows.push(Row::new("none inspected is no data", Basis::CommonPractice, 1.0, 0.0, yes(no_data)));
    rows
}

fn detection() -> Vec<Row> {
    let chance = |n, p| detection_chance(n, p).map_or(f64::NAN, |c| c * 100.0);
    let plants = |p| plants_to_detect(p, 0.95).map_or(f64::NAN, f64::from);
    vec![
        Row::new("chance, 20 plants at 20%", BINOMIAL, 98.8, 0.05, chance(20, 0.20)),
        Row::new("over 95 at 20 plants and 20%", SPINNER, 1.0, 0.0, yes(chance(20, 0.20) > 95.0)),
        Row::new("chance, 20 plants at 10%", BINOMIAL, 87.8, 0.05, chance(20, 0.10)),
        Row::new("chance, 20 plants at 5%", BINOMIAL, 64.2, 0.05, chance(20, 0.05)),
        Row::new("chance, 60 plants at 5%", BINOMIAL, 95.4, 0.05, chance(60, 0.05)),
        Row::new("plants for 95% at 5%", BINOMIAL, 59.0, 0.0, plants(0.05)),
        Row::new("plants for 95% at 2%", BINOMIAL, 149.0, 0.0, plants(0.02)),
        Row::new("plants for 95% at 1%", BINOMIAL, 299.0, 0.0, plants(0.01)),
    ]
}

fn catches() -> Vec<Row> {
    let rate = |cards, count, days| CardCatch { cards, count, days }.per_card_week().unwrap_or(f64::NAN);
    vec![
        Row::new("39 thrips are under 40", RUTGERS, 1.0, 0.0, yes(rate(1, 39, 7.0) < 40.0)),
        Row::new("40 thrips are at 40", RUTGERS, 1.0, 0.0, yes(rate(1, 40, 7.0) >= 40.0)),
        Row::new(
            "80 thrips in 14 days",
            Basis::Computed("by hand: half a fortnight's catch"),
            40.0,
            1e-9,
            rate(1, 80, 14.0),
        ),
        Row::new("a fortnight's catch taken as a week's", Basis::Computed("the trap"), 80.0, 1.0, rate(1, 80, 14.0))
            .refuted(),
    ]
}

fn lines() -> Vec<Row> {
    let mut rows = Vec::new();
    for (p0, p1, slope, h, first) in [(0.05, 0.20, 0.1103, 1.410, 13), (0.10, 0.30, 0.1862, 1.628, 9)] {
        let lines = StopLines::new(p0, p1, 0.10, 0.10).ok();
        let of = |pick: fn(&StopLines) -> f64| lines.as_ref().map_or(f64::NAN, pick);
        rows.push(Row::new(format!("{p0}/{p1} slope"), WALD, slope, 0.00005, of(|l| l.slope)));
        rows.push(Row::new(format!("{p0}/{p1} low"), WALD, h, 0.0005, of(|l| l.low)));
        rows.push(Row::new(format!("{p0}/{p1} high"), WALD, h, 0.0005, of(|l| l.high)));
        rows.push(Row::new(
            format!("{p0}/{p1} first stop"),
            WALD,
            f64::from(first),
            0.0,
            of(|l| f64::from(l.fewest_low(0))),
        ));
    }
    for (p0, p1, n, low, high) in [
        (0.05, 0.20, 20, 0, 4),
        (0.05, 0.20, 30, 1, 5),
        (0.05, 0.20, 60, 5, 9),
        (0.10, 0.30, 9, 0, 4),
        (0.10, 0.30, 20, 2, 6),
        (0.10, 0.30, 40, 5, 10),
    ] {
        let judge = |k| StopLines::new(p0, p1, 0.10, 0.10).map(|lines| lines.judge(n, k));
        let holds = judge(low) == Ok(Stop::Low)
            && judge(low + 1) == Ok(Stop::GoOn)
            && judge(high - 1) == Ok(Stop::GoOn)
            && judge(high) == Ok(Stop::High);
        rows.push(Row::new(format!("{p0}/{p1} after {n}: {low} and {high}"), WALD, 1.0, 0.0, yes(holds)));
    }
    rows
}
