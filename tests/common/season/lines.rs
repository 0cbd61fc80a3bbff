//! Single lines: the literals of a site, a lot, a bench, a placement, an order and an entry, each written down once.
//!
//! A test that wants another lot or site changes a field: `Lot { pots: 60, ..lot("L2") }`.

use super::Day;
use benchwalk::record::{
    Bench, Entry, How, Kind, Lot, Nights, Order, Pinch, Place, Placement, Plan, Region, Revision, Site,
};
use benchwalk::season::Season;
use benchwalk::units::System;
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta, TimeZone};
use uuid::Uuid;

/// A day of 2026.
pub(crate) fn date(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).expect("a day of 2026")
}

/// The day the lots are planted: August 17.
pub(crate) fn planted() -> NaiveDate {
    date(8, 17)
}

/// A day after planting.
pub(crate) fn day(n: i64) -> NaiveDate {
    planted().checked_add_signed(TimeDelta::days(n)).expect("a day")
}

/// An instant on a day, at the clock of the place (UTC-4 from planting to October).
pub(crate) fn instant(on: impl Day, (hour, minute): (u32, u32)) -> DateTime<FixedOffset> {
    let zone = FixedOffset::west_opt(4 * 3600).expect("an offset");
    zone.from_local_datetime(&on.date().and_hms_opt(hour, minute, 0).expect("a time")).single().expect("one instant")
}

/// An instant of 2026, at the clock of the place.
pub(crate) fn at(month: u32, day: u32, hour: u32, minute: u32) -> DateTime<FixedOffset> {
    instant((month, day), (hour, minute))
}

pub(crate) fn bench(code: &str) -> Place {
    Place::Bench(code.into())
}

pub(crate) fn house(code: &str) -> Place {
    Place::House(code.into())
}

pub(crate) fn lot_place(code: &str) -> Place {
    Place::Lot(code.into())
}

pub(crate) fn entry(id: u128, at: DateTime<FixedOffset>, place: Place, kind: Kind) -> Entry {
    Entry { id: Uuid::from_u128(id), at, by: "kt".into(), place, plot: None, kind: kind.into(), note: None }
}

pub(crate) fn water(level: u8) -> Kind {
    Kind::Water { level, base: None }
}

pub(crate) fn moved(to: &str, pots: u32) -> Kind {
    Kind::Moved { to: to.to_owned(), pots }
}

pub(crate) fn strike(id: u128, reopen: bool) -> Kind {
    Kind::Strike { entry: Uuid::from_u128(id), why: "wrong bench".to_owned(), reopen }
}

/// A spray against whitefly that keeps people out for so many hours.
pub(crate) fn sprayed(ai: &str, hours: f64) -> Kind {
    Kind::Sprayed {
        ai: ai.to_owned(),
        against: "whitefly".to_owned(),
        how: How::Spray,
        rei_h: hours,
        product: None,
        rate: None,
        application: Box::default(),
    }
}

pub(crate) fn site() -> Site {
    Site {
        name: "Thistlecot".to_owned(),
        latitude: 44.1,
        longitude: -70.21,
        time_zone: "America/New_York".parse().unwrap(),
        units: System::Us,
        region: Region::Cool,
        low_light_houses: Vec::new(),
        // A test that wants to be asked for it says so.
        no_temperature: true,
        emergency: None,
        revision: Revision::number(1),
    }
}

/// 300 pots of 6.5 in, one cutting each, soft-pinched, under natural nights, planted on August 17 for November 27.
pub(crate) fn lot(code: &str) -> Lot {
    Lot {
        lot: code.to_owned(),
        cultivar: "mid red".to_owned(),
        container: "6.5 in".to_owned(),
        cuttings_per_pot: 1,
        pots: 300,
        planted: planted(),
        pinch: Pinch::Soft,
        response_weeks: 9.5,
        response_c: None,
        nights: Nights::Natural,
        ready_by: date(11, 27),
        rim_cm: Some(16.5),
        pot_height_cm: Some(11.4),
        blackout_from: None,
        lights_until: None,
        height_low_cm: Some(35.6),
        height_high_cm: Some(40.6),
        feed_n_ppm: None,
        feed_mg_ppm: None,
        feed_mo_ppm: None,
        program_n_ppm: None,
        program_bag: None,
        program_from: None,
        program_days: None,
        program_clear: None,
        next_release_g: None,
        next_release_basis: None,
        slow_release_g: Some(8.0),
        calcium: false,
        revision: Revision::number(1),
    }
}

pub(crate) fn bench_line(code: &str, house: &str, order: u32) -> Bench {
    Bench { bench: code.to_owned(), house: house.to_owned(), order, area_m2: None, revision: Revision::number(1) }
}

pub(crate) fn placement(bench: &str, lot: &str, pots: u32, from: impl Day) -> Placement {
    Placement { bench: bench.to_owned(), lot: lot.to_owned(), pots, from: from.date(), revision: Revision::number(1) }
}

pub(crate) fn order(lot: &str, on: impl Day, pots: u32) -> Order {
    Order { lot: lot.to_owned(), date: on.date(), pots, revision: Revision::number(1) }
}

/// E1, E2 in East; W1, W2 in West; lots A and B; 100 pots of A on E1 from August 17.
pub(crate) fn plan() -> Plan {
    Plan {
        sites: vec![site()],
        lots: vec![lot("A"), lot("B")],
        benches: vec![
            bench_line("E1", "East", 1),
            bench_line("E2", "East", 2),
            bench_line("W1", "West", 3),
            bench_line("W2", "West", 4),
        ],
        placements: vec![placement("E1", "A", 100, planted())],
        histories: Vec::new(),
        orders: vec![order("A", (11, 27), 90)],
        trials: Vec::new(),
        plots: Vec::new(),
    }
}

/// The season of [`plan`] with these entries.
pub(crate) fn season(entries: Vec<Entry>) -> Season {
    Season::new(plan(), entries)
}

/// The ids that count for a bench on a day, oldest first.
pub(crate) fn ids(season: &Season, bench: &str, on: NaiveDate) -> Vec<u128> {
    season.history(bench, on).all().iter().map(|e| e.id.as_u128()).collect()
}
