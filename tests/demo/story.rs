//! What the demo shows: 24 benches in two houses, five lots in three containers, everything invented.

use crate::grow::bench::Trouble;
use crate::grow::book::Book;
use crate::grow::grower::{Grower, Habits};
use crate::grow::plant::Size;
use crate::grow::weather::Weather;
use crate::grow::{after, date, days};
use crate::rng::Rng;
use crate::season as plain;
use benchwalk::record::{Bench, Entry, Kind, LeafSign, Lot, Pinch, Place, Plan, Site};
use chrono::NaiveDate;

/// The day the demo opens on; the first [`WALKED`] benches have been walked that morning.
pub(crate) const DAY: (u32, u32) = (10, 14);

/// Benches walked on the morning of the demo's day.
pub(crate) const WALKED: usize = 3;

pub(crate) fn site() -> Site {
    Site {
        name: "Quillby Rise".to_owned(),
        latitude: 43.2,
        longitude: -73.1,
        emergency: Some("Quillby Rise (invented): call the number posted at the door of the packing shed.".to_owned()),
        ..plain::site()
    }
}

/// 6.5 in, one cutting, pinched.
pub(crate) const MIDDLE: Size = Size {
    container: "6.5 in",
    cuttings: 1,
    pinch: Pinch::Soft,
    rim_cm: 16.5,
    pot_cm: 12.7,
    sold_cm: (38.1, 43.2),
    holds_ml: 780.0,
    uses: 1.25,
    watering_ml: 360.0,
    topdressed_g: 8.0,
    centers_cm: 35.0,
    nodes_left: 6,
};

/// 5 in, one cutting, pinched.
pub(crate) const SMALL: Size = Size {
    container: "5 in",
    rim_cm: 12.7,
    pot_cm: 10.2,
    sold_cm: (27.9, 33.0),
    holds_ml: 380.0,
    uses: 0.64,
    watering_ml: 170.0,
    topdressed_g: 4.0,
    centers_cm: 24.0,
    nodes_left: 5,
    ..MIDDLE
};

/// 5 in, one cutting, a single stem that is not pinched; no topdressing.
pub(crate) const SINGLE: Size = Size {
    pinch: Pinch::None,
    sold_cm: (33.0, 38.1),
    holds_ml: 330.0,
    uses: 0.62,
    topdressed_g: 0.0,
    centers_cm: 18.0,
    ..SMALL
};

/// 10 in, four cuttings, pinched.
pub(crate) const LARGE: Size = Size {
    container: "10 in",
    cuttings: 4,
    rim_cm: 25.4,
    pot_cm: 19.1,
    sold_cm: (55.9, 66.0),
    holds_ml: 2900.0,
    uses: 4.4,
    watering_ml: 1300.0,
    topdressed_g: 12.0,
    centers_cm: 52.0,
    ..MIDDLE
};

fn lots() -> Vec<(Lot, Size)> {
    let facts = [
        ("R1", "mid red", MIDDLE, 560, date(8, 18), 9.0, date(11, 24)),
        ("W1", "early white", MIDDLE, 280, date(8, 18), 8.5, date(11, 19)),
        ("R2", "early red", SMALL, 520, date(8, 25), 8.5, date(11, 25)),
        ("C1", "mid coral", SINGLE, 800, date(8, 27), 9.0, date(12, 3)),
        ("R3", "mid red", LARGE, 112, date(8, 14), 9.0, date(12, 1)),
    ];
    let all = facts.map(|(code, cultivar, size, pots, planted, response_weeks, ready_by)| {
        let cultivar = cultivar.to_owned();
        (Lot { cultivar, pots, planted, response_weeks, ready_by, ..size.lot(code) }, size)
    });
    all.into()
}

/// When the weekly checks of a bench are due: so many days before the demo's day, 0 to 6; 0 is on that day.
struct Rhythm {
    roots: i64,
    bracts: i64,
    pests: i64,
    heights: i64,
}

const fn rhythm(roots: i64, bracts: i64, pests: i64, heights: i64) -> Rhythm {
    Rhythm { roots, bracts, pests, heights }
}

/// Bench, the bench it is spaced onto, lot, pots, and the rhythm of both.
const BENCHES: [(usize, usize, usize, u32, Rhythm); 12] = [
    (0, 1, 0, 140, rhythm(5, 2, 1, 5)),
    (2, 3, 0, 140, rhythm(0, 0, 3, 6)),
    (4, 5, 0, 140, rhythm(3, 4, 0, 2)),
    (6, 7, 0, 140, rhythm(0, 3, 2, 0)),
    (8, 9, 1, 140, rhythm(3, 0, 5, 0)),
    (10, 11, 1, 140, rhythm(4, 5, 6, 1)),
    (12, 13, 2, 260, rhythm(5, 6, 0, 3)),
    (14, 15, 2, 260, rhythm(6, 4, 4, 4)),
    (16, 17, 3, 400, rhythm(2, 0, 1, 5)),
    (18, 19, 3, 400, rhythm(4, 2, 6, 0)),
    (20, 21, 4, 56, rhythm(1, 5, 3, 2)),
    (22, 23, 4, 56, rhythm(0, 1, 2, 6)),
];

/// The first day from one on that is so many days, and whole weeks, before the demo's day.
fn first(from: NaiveDate, before: i64) -> NaiveDate {
    let left = (days(from, date(DAY.0, DAY.1)) - before).rem_euclid(7);
    after(from, left.unsigned_abs())
}

fn code(plot: usize) -> (String, &'static str) {
    if plot < 12 { (format!("M{}", plot + 1), "Mill") } else { (format!("D{}", plot - 11), "Dell") }
}

/// The wet bench, the dry one, the one whose base stands in water, and the one that was wet until yesterday.
const LEAK: usize = 6;
const DRY: usize = 17;
const BASE: usize = 21;
const CLEARED: usize = 1;

/// Where a few whiteflies were found and sprayed the evening before the demo's day.
const SPRAYED: usize = 14;

fn grower() -> Grower {
    let mut rng = Rng::new(20_261_014);
    let mut weather = Weather::new(&mut rng);
    weather.dull(date(9, 6), date(9, 8), 0.8);
    let habits = Habits { misread: 0.0, missed: 0.0, feed: (140.0, 14.0) };
    let book = Book::new(chrono_tz::America::New_York);
    let short_days = date(9, 20);
    let mut g = Grower {
        lots: lots(),
        plots: Vec::new(),
        book,
        weather,
        rng,
        habits,
        short_days,
        colors: Vec::new(),
        drift: None,
    };
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
    let mut day = date(8, 14);
    while day <= last {
        g.book.by = if day.format("%u").to_string().parse::<u8>().unwrap() > 5 { "kel" } else { "jo" };
        g.night(day);
        for (plot, _, lot, pots, rhythm) in &BENCHES {
            if g.lots[*lot].0.planted == day {
                g.pot(*plot, *lot, *pots);
                set_rhythm(&mut g, *plot, rhythm);
            }
        }
        troubles(&mut g, day);
        g.walk(day, if day == last { WALKED } else { 24 });
        if day < last {
            g.work(day);
            for (plot, target, lot, _, _) in &BENCHES {
                if after(g.lots[*lot].0.planted, 25) == day {
                    g.space(*plot, *target, day);
                }
            }
            g.measure(day);
            extras(&mut g, day);
        }
        day = after(day, 1);
    }
    crate::trial::readings(&mut g.book);
    (plan(&g), g.book.entries)
}

/// Sets the days of a bench's weekly checks; the bench it is spaced onto takes them with the pots.
fn set_rhythm(g: &mut Grower, plot: usize, rhythm: &Rhythm) {
    let (lot, short_days) = (&g.lots[g.plots[plot].lot].0, g.short_days);
    let (planted, pinched) = (lot.planted, after(lot.planted, if lot.pinch == Pinch::None { 13 } else { 14 }));
    let p = &mut g.plots[plot];
    p.roots = first(after(planted, 10), rhythm.roots);
    p.pests = first(after(planted, 3), rhythm.pests);
    p.bracts = first(short_days, rhythm.bracts);
    p.height_after = days(pinched, first(after(pinched, 1), rhythm.heights)).unsigned_abs();
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
    if day == date(10, 9) {
        set(g, DRY, Trouble { drier: 0.7, ..Trouble::default() });
        g.plots[DRY].dry_by_neglect = true;
    }
    // A line that dripped for a few days and was closed: the bench then dried by itself.
    if day == date(10, 7) {
        set(g, CLEARED, Trouble { leaks: true, ..Trouble::default() });
    }
    if day == date(10, 12) {
        set(g, CLEARED, Trouble::default());
    }
}

/// What happens beside the daily round.
fn extras(g: &mut Grower, day: NaiveDate) {
    if day == date(10, 9) {
        // A slip of the thumb, voided a minute later.
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
    if day == date(10, 11) {
        let at = g.book.at(day, 16, 0);
        let place = Place::Bench(code(CLEARED).0.into());
        let note = "drip line closed at the header; no water here until the pot feels light";
        g.book.write(at, place, Kind::Note {}, Some(note));
    }
    if day == date(8, 31) || day == date(9, 28) {
        for (i, house) in ["Mill", "Dell"].into_iter().enumerate() {
            let kind = Kind::Released { species: "Eretmocerus eremicus".to_owned(), count: 1500 };
            let at = g.book.at(day, 16, i * 900);
            g.book.write(at, Place::House(house.into()), kind, None);
        }
    }
    if day == date(9, 22) {
        let at = g.book.at(day, 8, 1200);
        g.book.bench(at, "M10", Kind::Losses { pots: 1, cause: Some("knocked off the bench".to_owned()) });
    }
    if day == date(10, 13) {
        let at = g.book.at(day, 6, 3600 + 2400);
        g.book.bench(at, &code(DRY).0, Kind::Leaves { signs: vec![LeafSign::Wilted], plant_part: None, plants: None });
        let at = g.book.at(day, 19, 900);
        g.book.bench(at, &code(SPRAYED).0, plain::sprayed("demo soap, not a real product", 13.0));
    }
}

fn plan(g: &Grower) -> Plan {
    let benches = (0..24).map(|plot| {
        let (bench, house) = code(plot);
        let area_m2 = Some(if plot < 12 { 9.0 } else { 8.0 });
        Bench { area_m2, ..plain::bench_line(&bench, house, u32::try_from(plot).unwrap() + 1) }
    });
    let placements = BENCHES.map(|(plot, _, lot, pots, _)| {
        let (lot, _) = &g.lots[lot];
        plain::placement(&code(plot).0, &lot.lot, pots, lot.planted)
    });
    let orders = [
        ("R1", (11, 24), 500),
        ("W1", (11, 19), 250),
        ("R2", (11, 25), 460),
        ("C1", (12, 3), 720),
        ("R3", (12, 1), 96),
    ];
    Plan {
        sites: vec![site()],
        lots: g.lots.iter().map(|(lot, _)| lot.clone()).collect(),
        benches: benches.collect(),
        placements: placements.into(),
        histories: Vec::new(),
        trials: vec![crate::trial::line()],
        plots: crate::trial::plots(),
        orders: orders.map(|(lot, on, pots)| plain::order(lot, on, pots)).into(),
    }
}
