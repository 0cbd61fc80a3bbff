//! What the demo tells: 24 benches in two houses, five lots in three containers, everything invented.

use crate::grow::bench::Trouble;
use crate::grow::book::Book;
use crate::grow::grower::{Grower, Habits};
use crate::grow::plant::Size;
use crate::grow::weather::Weather;
use crate::grow::{after, date};
use crate::rng::Rng;
use crate::season as plain;
use benchwalk::record::{Bench, Entry, Kind, Lot, Place, Plan, Site};
use chrono::NaiveDate;

/// The day the demo opens on; the first four benches have been walked that morning.
pub(crate) const DAY: (u32, u32) = (10, 14);

fn site() -> Site {
    Site {
        name: "Quillby Rise".to_owned(),
        latitude: 43.2,
        longitude: -73.1,
        emergency: Some("Quillby Rise (invented): call the number posted at the door of the packing shed.".to_owned()),
        ..plain::site()
    }
}

fn lots() -> Vec<(Lot, Size)> {
    let six = Size::Six;
    let facts = [
        ("R6", "mid red", six, 640, date(8, 17), 9.0, date(11, 25)),
        ("W6", "early white", six, 320, date(8, 17), 8.5, date(11, 20)),
        ("R4", "early red", Size::Small, 480, date(8, 24), 8.5, date(11, 27)),
        ("P4", "mid pink", Size::Small, 480, date(8, 24), 9.0, date(12, 2)),
        ("R8", "mid red", Size::Eight, 96, date(8, 20), 9.0, date(12, 2)),
    ];
    let all = facts.map(|(code, cultivar, size, pots, planted, response_weeks, ready_by)| {
        let cultivar = cultivar.to_owned();
        (Lot { cultivar, pots, planted, response_weeks, ready_by, ..size.lot(code) }, size)
    });
    all.into()
}

/// Bench, the bench it is spaced onto, lot, pots.
const BENCHES: [(usize, usize, usize, u32); 12] = [
    (0, 1, 0, 160),
    (2, 3, 0, 160),
    (4, 5, 0, 160),
    (6, 7, 0, 160),
    (8, 9, 1, 160),
    (10, 11, 1, 160),
    (12, 13, 2, 240),
    (14, 15, 2, 240),
    (16, 17, 3, 240),
    (18, 19, 3, 240),
    (20, 21, 4, 48),
    (22, 23, 4, 48),
];

fn code(plot: usize) -> (String, &'static str) {
    if plot < 12 { (format!("M{}", plot + 1), "Mill") } else { (format!("B{}", plot - 11), "Brook") }
}

/// The wet bench, the dry one and the one whose base stands in water; and the one that passed by itself.
const LEAK: usize = 6;
const DRY: usize = 17;
const BASE: usize = 21;
const PASSED: usize = 2;

/// Where a few whiteflies were found and sprayed the evening before the demo's day.
const SPRAYED: usize = 14;

fn grower() -> Grower {
    let mut rng = Rng::new(20_260_817);
    let mut weather = Weather::new(&mut rng);
    weather.dull(date(9, 6), date(9, 10), 0.62);
    let habits = Habits { misread: 0.0, missed: 0.0 };
    let book = Book::new(chrono_tz::America::New_York);
    let short_days = date(9, 20);
    let mut g = Grower { lots: lots(), plots: Vec::new(), book, weather, rng, habits, short_days };
    for plot in 0..24 {
        let (code, house) = code(plot);
        g.empty(&code, house);
    }
    g
}

/// The whole season.
pub(crate) fn season() -> (Plan, Vec<Entry>) {
    let mut g = grower();
    let last = date(DAY.0, DAY.1);
    let mut day = date(8, 17);
    while day <= last {
        g.book.by = if day.format("%u").to_string().parse::<u8>().unwrap() > 5 { "kel" } else { "jo" };
        g.night(day);
        for (plot, _, lot, pots) in BENCHES {
            if g.lots[lot].0.planted == day {
                g.pot(plot, lot, pots);
            }
        }
        troubles(&mut g, day);
        g.walk(day, if day == last { 4 } else { 24 });
        if day < last {
            g.work(day);
            for (plot, target, lot, _) in BENCHES {
                if after(g.lots[lot].0.planted, 25) == day {
                    g.space(plot, target, day);
                }
            }
            g.measure(day);
            extras(&mut g, day);
        }
        day = after(day, 1);
    }
    (plan(&g), g.book.entries)
}

fn troubles(g: &mut Grower, day: NaiveDate) {
    let set = |g: &mut Grower, plot: usize, trouble| {
        if let Some(stand) = &mut g.plots[plot].stand {
            stand.trouble = trouble;
        }
    };
    if day == date(10, 8) {
        set(g, LEAK, Trouble { leaks: true, ..Trouble::default() });
    }
    if day == date(10, 3) {
        set(g, BASE, Trouble { base_stands: true, ..Trouble::default() });
    }
    if day == date(10, 10) {
        set(g, DRY, Trouble { drier: 0.5, ..Trouble::default() });
        g.plots[DRY].dry_by_neglect = true;
    }
    set_passed(g, day);
}

/// A line that dripped for a week in September and was closed: the bench then dried by itself.
fn set_passed(g: &mut Grower, day: NaiveDate) {
    let leaks = (date(9, 3)..date(9, 10)).contains(&day);
    if let Some(stand) = &mut g.plots[PASSED].stand {
        stand.trouble.leaks = leaks;
    }
}

/// What happens beside the daily round.
fn extras(g: &mut Grower, day: NaiveDate) {
    if day == date(10, 9) {
        // A slip of the thumb, struck out a minute later.
        let (slip, then) = (g.book.at(day, 6, 1800), g.book.at(day, 6, 1860));
        g.book.bench(slip, "M5", Kind::Water { level: 5, base: None });
        let entry = g.book.entries.last().unwrap().id;
        let why = "meant for the next bench".to_owned();
        g.book.bench(then, "M5", Kind::Strike { entry, why, reopen: false });
    }
    if day == date(9, 25)
        && let Some(stand) = &mut g.plots[SPRAYED].stand
    {
        stand.whitefly = 0.015;
    }
    if day == date(9, 10) {
        let at = g.book.at(day, 16, 0);
        g.book.write(
            at,
            Place::Bench("M3".to_owned()),
            Kind::Note {},
            Some("drip line closed at the header; no water here until it lifts light"),
        );
    }
    if day == date(8, 31) || day == date(9, 28) {
        for (i, house) in ["Mill", "Brook"].into_iter().enumerate() {
            let kind = Kind::Released { species: "Eretmocerus eremicus".to_owned(), count: 1500 };
            let at = g.book.at(day, 16, i * 900);
            g.book.write(at, Place::House(house.to_owned()), kind, None);
        }
    }
    if day == date(9, 22) {
        let at = g.book.at(day, 8, 1200);
        g.book.bench(at, "M10", Kind::Losses { pots: 1, cause: Some("knocked off the bench".to_owned()) });
    }
    if day == date(10, 13) {
        let at = g.book.at(day, 20, 900);
        g.book.bench(at, "B3", plain::sprayed("potassium salts of fatty acids", 12.0));
    }
}

fn plan(g: &Grower) -> Plan {
    let benches = (0..24).map(|plot| {
        let (bench, house) = code(plot);
        let area_m2 = Some(if plot < 12 { 9.0 } else { 8.0 });
        Bench { area_m2, ..plain::bench_line(&bench, house, u32::try_from(plot).unwrap() + 1) }
    });
    let placements = BENCHES.map(|(plot, _, lot, pots)| {
        let (lot, _) = &g.lots[lot];
        plain::placement(&code(plot).0, &lot.lot, pots, lot.planted)
    });
    let orders = [
        ("R6", (11, 25), 560),
        ("W6", (11, 20), 280),
        ("R4", (11, 27), 420),
        ("P4", (12, 2), 420),
        ("R8", (12, 2), 84),
    ];
    Plan {
        sites: vec![site()],
        lots: g.lots.iter().map(|(lot, _)| lot.clone()).collect(),
        benches: benches.collect(),
        placements: placements.into(),
        orders: orders.map(|(lot, on, pots)| plain::order(lot, on, pots)).into(),
    }
}
