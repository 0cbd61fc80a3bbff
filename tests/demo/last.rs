//! The demo's season of the year before: another course of nearly the same lots, kept small. It is grown like the demo and then
//! moved by 52 weeks, so that its weekdays stay: a wet week and a line that leaked for long, a cooler and later finish, whitefly
//! that was found late.

use crate::grow::bench::Trouble;
use crate::grow::book::Book;
use crate::grow::color::Color;
use crate::grow::grower::{Grower, Habits};
use crate::grow::plant::Size;
use crate::grow::weather::Weather;
use crate::grow::{after, date};
use crate::rng::Rng;
use crate::season as plain;
use crate::story::{LARGE, MIDDLE, SINGLE, SMALL, site};
use benchwalk::dates::at_local;
use benchwalk::record::{Bench, Entry, Kind, Lot, Plan, derived_id};
use chrono::{NaiveDate, TimeDelta};

/// Days between the two seasons: whole weeks.
const BACK: i64 = 364;

/// Bench, house, the bench it is spaced onto, lot, pots.
const BENCHES: [(usize, usize, usize, u32); 5] =
    [(0, 1, 0, 140), (2, 3, 1, 140), (6, 7, 2, 260), (8, 9, 3, 400), (4, 5, 4, 56)];

/// Ready, sold in so many parts from this day on.
const SALES: [(&str, (u32, u32), u32); 5] =
    [("R6", (11, 24), 120), ("W6", (11, 20), 130), ("R7", (11, 26), 240), ("C6", (12, 3), 380), ("R8", (12, 1), 50)];

fn code(plot: usize) -> (String, &'static str) {
    if plot < 6 { (format!("M{}", plot + 1), "Mill") } else { (format!("D{}", plot - 5), "Dell") }
}

fn lots() -> Vec<(Lot, Size)> {
    let shorter = Size { sold_cm: (35.6, 40.6), ..MIDDLE };
    let facts = [
        ("R6", "mid red", shorter, 140, date(8, 20), 9.0, date(11, 24)),
        ("W6", "early white", MIDDLE, 140, date(8, 17), 8.5, date(11, 19)),
        ("R7", "early red", SMALL, 260, date(8, 27), 8.5, date(11, 25)),
        ("C6", "mid coral", SINGLE, 400, date(8, 26), 9.0, date(12, 3)),
        ("R8", "mid red", LARGE, 56, date(8, 17), 9.0, date(12, 1)),
    ];
    let all = facts.map(|(code, cultivar, size, pots, planted, response_weeks, ready_by)| {
        let cultivar = cultivar.to_owned();
        (Lot { cultivar, pots, planted, response_weeks, ready_by, ..size.lot(code) }, size)
    });
    all.into()
}

fn grower() -> Grower {
    let mut rng = Rng::new(20_251_014);
    let mut weather = Weather::new(&mut rng);
    // A week without sun, in which nothing dried; a cool fall after it.
    weather.dull(date(9, 28), date(10, 5), 0.05);
    weather.warm(date(10, 1), date(12, 4), (-1.6, -1.4));
    let slow = |own| Color::new(19.6, own, 0.03);
    let mut g = Grower {
        lots: lots(),
        plots: Vec::new(),
        book: Book::new(chrono_tz::America::New_York),
        weather,
        rng,
        habits: Habits { misread: 0.0, missed: 0.0, feed: (140.0, 14.0) },
        short_days: date(9, 20),
        colors: [1.02, 1.0, 1.03, 1.0, 1.02].map(slow).into(),
        drift: None,
    };
    for plot in 0..10 {
        let (code, house) = code(plot);
        g.empty(&code, house);
    }
    g
}

/// The whole season, in the days of the year after.
fn grown() -> Grower {
    let mut g = grower();
    let mut day = date(8, 17);
    while day <= date(12, 4) {
        g.book.by = if day.format("%u").to_string().parse::<u8>().unwrap() > 5 { "kel" } else { "jo" };
        g.night(day);
        for (plot, _, lot, pots) in BENCHES {
            if g.lots[lot].0.planted == day {
                g.pot(plot, lot, pots);
            }
        }
        troubles(&mut g, day);
        // In the last weeks only every second day.
        let walked = day < date(11, 10) || day.format("%j").to_string().parse::<u32>().unwrap().is_multiple_of(2);
        g.walk(day, if walked { 10 } else { 0 });
        g.work(day);
        for (plot, target, lot, _) in BENCHES {
            if after(g.lots[lot].0.planted, 26) == day {
                g.space(plot, target, day);
            }
        }
        g.measure(day);
        sales(&mut g, day);
        day = after(day, 1);
    }
    g
}

fn troubles(g: &mut Grower, day: NaiveDate) {
    let set = |g: &mut Grower, plot: usize, trouble| {
        if let Some(stand) = &mut g.plots[plot].stand {
            stand.trouble = trouble;
        }
    };
    let lost = |g: &mut Grower, plot: usize, pots: u32, cause: &str| {
        let at = g.book.at(day, 8, 1200);
        g.book.bench(at, &code(plot).0, Kind::Losses { pots, cause: Some(cause.to_owned()) });
        g.plots[plot].pots -= pots;
    };
    if day == date(10, 2) {
        set(g, 1, Trouble { leaks: true, ..Trouble::default() });
    }
    if day == date(10, 20) {
        lost(g, 1, 9, "root rot");
    }
    if day == date(10, 23) {
        set(g, 1, Trouble::default());
        lost(g, 1, 4, "root rot");
    }
    if day == date(9, 24)
        && let Some(stand) = &mut g.plots[7].stand
    {
        stand.whitefly = 0.07;
    }
    if day == date(10, 27) {
        let at = g.book.at(day, 19, 900);
        g.book.bench(at, &code(7).0, plain::sprayed("demo soap, not a real product", 13.0));
        if let Some(stand) = &mut g.plots[7].stand {
            stand.whitefly = 0.02;
        }
    }
    if day == date(10, 12) {
        g.plots[8].dry_by_neglect = true;
    }
    if day == date(10, 21) {
        g.plots[8].dry_by_neglect = false;
    }
    if day == date(10, 19) {
        lost(g, 8, 6, "dried out");
    }
    if day == date(9, 24) {
        lost(g, 2, 2, "broken stem");
    }
}

/// What was graded and sold, bench by bench on one day.
fn sales(g: &mut Grower, day: NaiveDate) {
    for (code, (month, of), _) in SALES {
        if date(month, of) != day {
            continue;
        }
        for plot in 0..g.plots.len() {
            let p = &g.plots[plot];
            let Some(stand) = &p.stand else { continue };
            if g.lots[p.lot].0.lot != code || p.pots == 0 {
                continue;
            }
            let (bench, pots) = (p.code.clone(), p.pots);
            let dump = if stand.roots() >= 2 { pots / 10 } else { pots / 60 };
            let second = pots / 20;
            let (at, then) = (g.book.at(day, 11, plot * 300), g.book.at(day, 14, plot * 300));
            g.book.bench(at, &bench, Kind::Grade { sell: pots - dump - second, second, dump });
            g.book.bench(then, &bench, Kind::Sold { pots: pots - dump });
            g.plots[plot].pots = 0;
            g.plots[plot].stand = None;
        }
    }
}

fn back(day: NaiveDate) -> NaiveDate {
    day - TimeDelta::days(BACK)
}

/// The season, a year before the demo.
pub(crate) fn season() -> (Plan, Vec<Entry>) {
    let g = grown();
    let zone = "America/New_York".parse().unwrap();
    let entries = g.book.entries.iter().map(|entry| {
        let at = at_local(zone, entry.at.naive_local() - TimeDelta::days(BACK)).unwrap();
        let mut moved = Entry { at, ..entry.clone() };
        moved.id = derived_id(&moved);
        moved
    });
    let entries: Vec<Entry> = entries.collect();
    let lots =
        g.lots.iter().map(|(lot, _)| Lot { planted: back(lot.planted), ready_by: back(lot.ready_by), ..lot.clone() });
    let benches = (0..10).map(|plot| {
        let (bench, house) = code(plot);
        let area_m2 = Some(if plot < 6 { 9.0 } else { 8.0 });
        Bench { area_m2, ..plain::bench_line(&bench, house, u32::try_from(plot).unwrap() + 1) }
    });
    let placements = BENCHES.map(|(plot, _, lot, pots)| {
        let (lot, _) = &g.lots[lot];
        plain::placement(&code(plot).0, &lot.lot, pots, back(lot.planted))
    });
    let orders = SALES.map(|(lot, (month, day), pots)| plain::order(lot, back(date(month, day)), pots));
    let plan = Plan {
        sites: vec![site()],
        lots: lots.collect(),
        benches: benches.collect(),
        placements: placements.into(),
        orders: orders.into(),
        ..Plan::default()
    };
    (plan, entries)
}
