//! Whole made-up seasons whose records agree with each other, with a trial on the first two benches.

use super::{any_kind, by, first_day, instant, settle, text};
use benchwalk::record::{
    Bench, Design, Entry, Kind, KindName, Line, Lot, Order, Place, Placement, Plan, Plot, Region, Revision, Site, Term,
    Trial, TrialReading, Value, Values, codec, derived_id, rules, schema,
};
use benchwalk::units::System;
use chrono::Days;
use proptest::prelude::*;
use std::sync::Arc;
use uuid::Uuid;

/// A whole season whose records agree: benches and lots exist, pots are there to be moved and sold, what is struck out was
/// written before on the same place.
pub(crate) fn season() -> BoxedStrategy<(Plan, Vec<Entry>)> {
    let raw = (any_kind(), instant(0..100), by(), (0usize..8, 0u8..6, 0u32..6), prop::option::of(text(60)), 0u64..20);
    (2usize..6, 1usize..4, prop::collection::vec(raw, 0..40), any::<bool>())
        .prop_map(|(benches, lots, raw, revised)| {
            let plan = plan(benches, lots, revised);
            let mut made: Vec<Entry> = raw
                .into_iter()
                .map(|(kind, at, by, (n, sort, plot), note, ahead)| {
                    let place = match sort {
                        0 => Place::House(format!("House {}", n % 2).into()),
                        1 => Place::Lot(format!("L{}", n % lots).into()),
                        _ => Place::Bench(format!("E{}", n % benches).into()),
                    };
                    let plot = of_plot(&place, plot);
                    settle(
                        Entry {
                            id: Uuid::nil(),
                            at,
                            by: by.into(),
                            place,
                            plot,
                            kind: kind.into(),
                            note: note.map(Into::into),
                        },
                        ahead,
                    )
                })
                .collect();
            made.sort_by_key(Entry::order);
            let mut entries: Vec<Entry> = Vec::new();
            for entry in made {
                let mut entry = agree(entry, &entries, benches);
                entry.id = derived_id(&entry);
                if entries.iter().all(|e| e.id != entry.id) {
                    entries.push(entry);
                }
            }
            entries.sort_by_key(Entry::order);
            assert!(entries.iter().all(|e| rules::check_entry(e).is_empty()), "{entries:?}");
            (plan, entries)
        })
        .boxed()
}

/// Plots of the trial on each of the first two benches.
const PLOTS: u32 = 2;

/// The plot that an entry of a bench is of: of its first plot, its second, or of none.
fn of_plot(place: &Place, drawn: u32) -> Option<Arc<str>> {
    let first = match place {
        Place::Bench(bench) if &**bench == "E0" => 1,
        Place::Bench(bench) if &**bench == "E1" => 1 + PLOTS,
        _ => return None,
    };
    (drawn < PLOTS).then(|| format!("T1.{}", first + drawn).into())
}

/// Pots on each bench at first: far more than a made-up season can move, lose or sell.
const POTS: u32 = 1_000;

fn agree(mut entry: Entry, before: &[Entry], benches: usize) -> Entry {
    let spare = before.iter().filter(|e| e.name() == KindName::Moved).count();
    match Arc::make_mut(&mut entry.kind) {
        Kind::Counted { pots } => *pots = POTS - *pots % 50,
        Kind::Losses { pots, .. } | Kind::Sold { pots } => *pots = 1 + *pots % 3,
        Kind::Grade { sell, second, dump } => (*sell, *second, *dump) = (*sell % 100, *second % 20, *dump % 3),
        Kind::Moved { to, pots } => {
            (*to, *pots) = (format!("W{spare}"), 1 + *pots % 5);
            entry.place = Place::Bench(format!("E{}", spare % benches).into());
        }
        Kind::PutOff { warning, .. } => "staying-wet".clone_into(warning),
        _ => {}
    }
    // Counts of pots are a bench's.
    let counts = [KindName::Counted, KindName::Losses, KindName::Sold, KindName::Grade];
    if counts.contains(&entry.name()) && !matches!(entry.place, Place::Bench(_)) {
        entry.place = Place::Bench("E0".into());
    }
    // Pots are moved and counted by the bench.
    if [KindName::Moved, KindName::Counted].contains(&entry.name()) {
        entry.plot = None;
    }
    if let Kind::Strike { entry: of, .. } = Arc::make_mut(&mut entry.kind) {
        let fits = |e: &&Entry| e.place == entry.place && e.name() != KindName::Strike && e.at < entry.at;
        match before.iter().rev().find(fits) {
            Some(e) => (*of, entry.plot) = (e.id, e.plot.clone()),
            None => return settle(Entry { kind: Kind::Note {}.into(), ..entry }, 0),
        }
    }
    entry
}

fn plan(benches: usize, lots: usize, revised: bool) -> Plan {
    let bench = |bench: String, n: usize| {
        let (house, order) = (format!("House {}", n % 2), u32::try_from(n).unwrap());
        Bench { bench, house, order, area_m2: Some(12.5), revision: Revision::number(1) }
    };
    let all = (0..benches).map(|n| (format!("E{n}"), n)).chain((0..40).map(|n| (format!("W{n}"), benches + n)));
    let mut plan = Plan {
        sites: vec![site(1, "Thistlecot")],
        lots: (0..lots).map(|n| lot(&format!("L{n}"), 1)).collect(),
        benches: all.map(|(code, n)| bench(code, n)).collect(),
        placements: (0..benches)
            .map(|n| Placement {
                bench: format!("E{n}"),
                lot: format!("L{}", n % lots),
                pots: POTS,
                from: first_day(),
                revision: Revision::number(1),
            })
            .collect(),
        histories: Vec::new(),
        trials: vec![trial(1)],
        plots: (1..=2 * PLOTS).map(|n| plot(n, 1)).collect(),
        orders: vec![Order {
            lot: "L0".to_owned(),
            date: first_day() + Days::new(100),
            pots: 200,
            revision: Revision::number(1),
        }],
    };
    if revised {
        plan.sites.push(site(2, "Thistlecot, new boiler"));
        plan.lots.push(lot("L0", 3));
        let until = Some(first_day() + Days::new(60));
        plan.trials.push(Trial { until, ended_because: Some("pots sold".to_owned()), ..trial(2) });
        plan.plots.push(Plot { row: 9, ..plot(1, 2) });
        plan.orders.push(Order { pots: 0, revision: Revision::number(2), ..plan.orders[0].clone() });
    }
    plan
}

fn site(rev: u32, name: &str) -> Site {
    Site {
        name: name.to_owned(),
        latitude: 44.1,
        longitude: -70.21,
        time_zone: "America/New_York".parse().unwrap(),
        units: System::Us,
        region: Region::Cool,
        low_light_houses: vec!["House 1".to_owned()],
        emergency: None,
        no_temperature: true,
        revision: Revision::number(rev),
    }
}

fn trial(rev: u32) -> Trial {
    Trial {
        trial: "T1".to_owned(),
        lot: "L0".to_owned(),
        question: "slow-release rate, \"second\" dose".to_owned(),
        treatments: vec!["0 g".to_owned(), "8.5 g".to_owned()],
        rates: Some(vec![0.0, 8.5]),
        rate_unit: Some("g per pot".to_owned()),
        control: Some("0 g".to_owned()),
        design: Design::RandomizedBlocks,
        seed: Some("00000042".to_owned()),
        drawn: Some(2),
        reads: TrialReading::ALL.to_vec(),
        every_days: Some(7),
        from: first_day(),
        until: None,
        matters: Some(2.5),
        guard: true,
        near_side: Some("aisle".to_owned()),
        far_side: None,
        shared_feed: true,
        ended_because: None,
        revision: Revision::number(rev),
    }
}

/// The plots stand two and two on the first two benches, a block each.
fn plot(n: u32, rev: u32) -> Plot {
    let bench = (n - 1) / PLOTS;
    Plot {
        plot: format!("T1.{n}"),
        trial: "T1".to_owned(),
        bench: format!("E{bench}"),
        row: 1,
        column: n,
        block: Some(bench + 1),
        treatment: if n.is_multiple_of(2) { "8.5 g" } else { "0 g" }.to_owned(),
        pots: n,
        revision: Revision::number(rev),
    }
}

fn lot(lot: &str, rev: u32) -> Lot {
    let mut v = Values::new();
    for (name, text) in [("lot", lot), ("cultivar", "mid red"), ("container", "6.5 in")] {
        v.set(name, Value::Text(text.to_owned()));
    }
    v.set("cuttings_per_pot", Value::Count(1));
    v.set("pots", Value::Count(6_000));
    v.set("planted", Value::Day(first_day()));
    v.set("pinch", Value::Term("soft"));
    v.set("response_weeks", Value::Number(9.5));
    if lot.ends_with('1') {
        v.set("response_c", Value::Number(19.5));
    }
    v.set("nights", Value::Term("natural"));
    v.set("ready_by", Value::Day(first_day() + Days::new(102)));
    v.set("rev", Value::Count(rev));
    match codec::line_from_values(schema::plan_table("lot").unwrap(), &v) {
        Ok(Line::Lot(lot)) => lot,
        other => panic!("{other:?}"),
    }
}
