//! Small seasons for tests: two houses, four benches, two lots.

use benchwalk::record::{Bench, Entry, Kind, Lot, Nights, Order, Pinch, Place, Placement, Plan, Region, Site};
use benchwalk::season::Season;
use benchwalk::units::System;
use chrono::{DateTime, FixedOffset, NaiveDate, TimeZone};
use uuid::Uuid;

pub(crate) fn day(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).unwrap()
}

/// An instant on a local day at the site (UTC-4 all season).
pub(crate) fn at(month: u32, d: u32, hour: u32, minute: u32) -> DateTime<FixedOffset> {
    let zone = FixedOffset::west_opt(4 * 3600).unwrap();
    zone.from_local_datetime(&day(month, d).and_hms_opt(hour, minute, 0).unwrap()).unwrap()
}

pub(crate) fn bench(code: &str) -> Place {
    Place::Bench(code.to_owned())
}

pub(crate) fn house(code: &str) -> Place {
    Place::House(code.to_owned())
}

pub(crate) fn lot_place(code: &str) -> Place {
    Place::Lot(code.to_owned())
}

pub(crate) fn entry(id: u128, at: DateTime<FixedOffset>, place: Place, kind: Kind) -> Entry {
    Entry { id: Uuid::from_u128(id), at, by: "qz".to_owned(), place, kind, note: None }
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

pub(crate) fn sprayed(hours: f64) -> Kind {
    Kind::Sprayed {
        ai: "soap".to_owned(),
        against: "whitefly".to_owned(),
        how: benchwalk::record::How::Spray,
        re_entry_h: hours,
        product: None,
        rate: None,
    }
}

pub(crate) fn site() -> Site {
    Site {
        name: "Test Hill".to_owned(),
        latitude: 43.0,
        longitude: -72.0,
        time_zone: chrono_tz::America::New_York,
        units: System::Us,
        region: Region::Cool,
        dull_houses: Vec::new(),
        emergency: None,
        rev: 1,
    }
}

pub(crate) fn lot(code: &str) -> Lot {
    Lot {
        lot: code.to_owned(),
        cultivar: "mid red".to_owned(),
        container: "6 in".to_owned(),
        cuttings_per_pot: 1,
        pots: 100,
        planted: day(8, 17),
        pinch: Pinch::Soft,
        response_weeks: 9.0,
        nights: Nights::Natural,
        ready_by: day(11, 27),
        rim_cm: Some(15.2),
        pot_height_cm: Some(11.4),
        blackout_from: None,
        lights_until: None,
        height_low_cm: None,
        height_high_cm: None,
        feed_n_ppm: None,
        feed_mg_ppm: None,
        feed_mo_ppm: None,
        slow_release_g: None,
        calcium: false,
        rev: 1,
    }
}

pub(crate) fn bench_line(code: &str, house: &str, order: u32) -> Bench {
    Bench { bench: code.to_owned(), house: house.to_owned(), order, area_m2: None, rev: 1 }
}

pub(crate) fn placement(bench: &str, lot: &str, pots: u32, from: NaiveDate) -> Placement {
    Placement { bench: bench.to_owned(), lot: lot.to_owned(), pots, from, rev: 1 }
}

/// N1, N2 in North; S1, S2 in South; lots A and B; 100 pots of A on N1 from August 17.
pub(crate) fn plan() -> Plan {
    Plan {
        sites: vec![site()],
        lots: vec![lot("A"), lot("B")],
        benches: vec![
            bench_line("N1", "North", 1),
            bench_line("N2", "North", 2),
            bench_line("S1", "South", 3),
            bench_line("S2", "South", 4),
        ],
        placements: vec![placement("N1", "A", 100, day(8, 17))],
        orders: vec![Order { lot: "A".to_owned(), date: day(11, 27), pots: 90, rev: 1 }],
    }
}

pub(crate) fn season(entries: Vec<Entry>) -> Season {
    Season::new(plan(), entries)
}

/// The ids that count for a bench on a day, oldest first.
pub(crate) fn ids(season: &Season, bench: &str, day: NaiveDate) -> Vec<u128> {
    season.history(bench, day).all().iter().map(|e| e.id.as_u128()).collect()
}
