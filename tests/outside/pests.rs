//! Scouting arithmetic: shares and intervals, detection, cards, growth, stop lines.

use crate::basis::{Basis, Row};
use benchwalk::crop::pests::{
    CardCatch, LarvaeState, LarvaeTrap, Sample, StartBand, Stop, StopLines, cards_needed, detection_chance, infested,
    larvae_state, mean_if_random, plants_to_detect, pooled, scouting_effort, start_band, whitefly_growth,
};
use benchwalk::units::{Area, Quantity};

const WILSON: Basis = Basis::Computed("Wilson 1927 score interval, z 1.96, worked apart from the program");
const BINOMIAL: Basis = Basis::Computed("1 - (1 - p)^n, worked apart from the program");
const WALD: Basis = Basis::Computed("Wald 1945 binomial lines, worked apart from the program");
const SPINNER: Basis =
    Basis::Published("Spinner and others 2011, Aust. J. Entomol. 50: 20 plants find over 20% in over 95%");
const KENT: Basis = Basis::Published(
    "Kent County extension 2008, Scouting poinsettias for whiteflies: tenfold in 4 weeks; 10 plants per 1,000 sq ft",
);
const NEW_ENGLAND: Basis =
    Basis::Published("New England Greenhouse Update 2013, Poinsettia biocontrol update: 5-7% at the start");
const ONTARIO: Basis = Basis::Published(
    "Ontario floriculture (Jandricic) 2018, The tipping point for whitefly control: 20% of pots in mid-September",
);
const RUTGERS: Basis =
    Basis::Published("Rettke (Rutgers), Pest counts and action thresholds: thrips 40 a card, week and 1,000 sq ft");
const GNATS: Basis = Basis::Published("Rutgers 2009, Monitoring for fungus gnats: 3-5 larvae a disc, 15-20 a wedge");

fn yes(is: bool) -> f64 {
    f64::from(u8::from(is))
}

fn sq_ft(feet: f64) -> Area {
    Area::from_base(feet * 0.092_903_04)
}

pub(crate) fn rows() -> Vec<Row> {
    [shares(), pools(), detection(), effort(), catches(), lines()].concat()
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

fn pools() -> Vec<Row> {
    let benches = [(3, 20), (0, 20), (9, 20)].map(|(infested, inspected)| Sample { inspected, infested });
    let together = pooled(&benches, 0.20).ok();
    let over = |k| pooled(&[Sample { inspected: 50, infested: k }], 0.20).is_ok_and(|p| !p.standing_out.is_empty());
    vec![
        Row::new("3, 0 and 9 of 20 together", WILSON, 0.20, 1e-9, together.as_ref().map_or(f64::NAN, |p| p.all.share)),
        Row::new("only the third stands out", WILSON, 1.0, 0.0, yes(together.is_some_and(|p| p.standing_out == [2]))),
        Row::new(
            "6% at the start is borderline",
            NEW_ENGLAND,
            1.0,
            0.0,
            yes(start_band(0.06) == Ok(StartBand::Borderline)),
        ),
        Row::new("4% at the start is good", NEW_ENGLAND, 1.0, 0.0, yes(start_band(0.04) == Ok(StartBand::Good))),
        Row::new("8% at the start is bad", NEW_ENGLAND, 1.0, 0.0, yes(start_band(0.08) == Ok(StartBand::Bad))),
        Row::new("18% in September is under", ONTARIO, 0.0, 0.0, yes(over(9))),
        Row::new("22% in September is over", ONTARIO, 1.0, 0.0, yes(over(11))),
    ]
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
        Row::new("mean a plant at 20%", BINOMIAL, 0.223, 0.0005, mean_if_random(0.20).unwrap_or(f64::NAN)),
    ]
}

fn effort() -> Vec<Row> {
    const SCOUTING: Basis = Basis::Published(
        "New England Greenhouse Update 2016, Scouting guidelines: 20 plants or more, 5-10 minutes per 1,000 sq ft",
    );
    const SUPPLIER: Basis =
        Basis::Published("a biocontrol supplier's scouting page: 20 minutes per 1,000 sq ft and week");
    const CARDS: Basis = Basis::Published(
        "Texas A&M poinsettia guide (1 card per 1,000 sq ft); trade article on beneficial predators (1 per 250 is better)",
    );
    let cards = |area: f64, each: f64| cards_needed(sq_ft(area), sq_ft(each)).map_or(f64::NAN, f64::from);
    let big = scouting_effort(sq_ft(12_000.0)).ok();
    let small = scouting_effort(sq_ft(4_000.0)).ok();
    let plants = |pick: fn(&benchwalk::crop::pests::ScoutingEffort) -> u32| {
        small.as_ref().map_or(f64::NAN, |e| f64::from(pick(e)))
    };
    let minutes = |pick: fn(&benchwalk::crop::pests::ScoutingEffort) -> f64| big.as_ref().map_or(f64::NAN, pick);
    vec![
        Row::new("cards, 21,780 sq ft at 1 per 1,000", CARDS, 22.0, 0.0, cards(21_780.0, 1000.0)),
        Row::new("cards, 21,780 sq ft at 1 per 250", CARDS, 88.0, 0.0, cards(21_780.0, 250.0)),
        Row::new("cards, 1,000 sq ft: one, not two", CARDS, 1.0, 0.0, cards(1000.0, 1000.0)),
        Row::new("minutes, 12,000 sq ft, least", SCOUTING, 60.0, 1e-6, minutes(|e| e.minutes_least)),
        Row::new("minutes, 12,000 sq ft, usual", SCOUTING, 120.0, 1e-6, minutes(|e| e.minutes_usual)),
        Row::new("minutes, 12,000 sq ft, most", SUPPLIER, 240.0, 1e-6, minutes(|e| e.minutes_most)),
        Row::new("plants, 4,000 sq ft, least", KENT, 40.0, 0.0, plants(|e| e.plants_least)),
        Row::new("plants, 4,000 sq ft, most", SCOUTING, 80.0, 0.0, plants(|e| e.plants_most)),
    ]
}

fn catches() -> Vec<Row> {
    let rate = |cards, count, days| CardCatch { cards, count, days }.per_card_week().unwrap_or(f64::NAN);
    let wide = CardCatch { cards: 2, count: 80, days: 7.0 }.per_week_and_1000_sq_ft(sq_ft(2000.0));
    let disc = larvae_state(LarvaeTrap::Disc, &[2, 5, 4]).ok();
    let wedge = larvae_state(LarvaeTrap::Wedge, &[5]).ok();
    let month = whitefly_growth(28.0).ok();
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
        Row::new("80 on 2 cards over 2,000 sq ft", Basis::Computed("by hand"), 40.0, 1e-6, wide.unwrap_or(f64::NAN)),
        Row::new("discs 2, 5, 4: mean", Basis::Computed("by hand"), 3.67, 0.005, disc.map_or(f64::NAN, |d| d.0)),
        Row::new(
            "discs 2, 5, 4 are damaging",
            GNATS,
            1.0,
            0.0,
            yes(disc.is_some_and(|d| d.1 == LarvaeState::Damaging)),
        ),
        Row::new("a wedge of 5 is below", GNATS, 1.0, 0.0, yes(wedge.is_some_and(|w| w.1 == LarvaeState::Below))),
        Row::new("whitefly in 28 days", KENT, 10.0, 1e-9, month.map_or(f64::NAN, |g| g.factor)),
        Row::new("whitefly a week", Basis::Computed("10^(1/4)"), 1.778, 0.0005, month.map_or(f64::NAN, |g| g.per_week)),
        Row::new(
            "whitefly doubling, days",
            Basis::Computed("28 log10 2"),
            8.43,
            0.005,
            month.map_or(f64::NAN, |g| g.doubling_days),
        ),
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
            of(|l| f64::from(l.first_low())),
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
